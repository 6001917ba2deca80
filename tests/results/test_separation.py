"""Taped distances against the rows of the local code."""

from __future__ import annotations

import pytest
from hypothesis import given
from plan_builders import job
from result_builders import PROPERTY, feet, number
from scipy.stats import uniform
from uncertainties import ufloat

from generator.codes.packs import Asked, pack
from generator.codes.rows import SeparationRow
from generator.record.model import Distance
from generator.results.asked import CONFIRM, NO_FIGURE, judge_all
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.measured import DISTANCES_FT
from generator.results.result import Number
from generator.results.separation import pairs_of, separation_results


def row(asked: int = 100, seen: str = "yes") -> SeparationRow:
    """A row that asks for a distance from a field to a well."""
    return SeparationRow(
        from_="absorption area", to="private well", feet=asked, seen=seen
    )


def judge(measured_ft: Number, one: SeparationRow | None) -> str:
    """Judge a distance by a row that stands alone."""
    asked = [Asked(one, pack("us-or"))] if one else []
    return judge_all(measured_ft, asked).verdict


def taped(
    measured_ft: float,
    part: str = "absorption area",
    to: str = "private well",
    by: str = "tape",
    give_or_take: float | None = None,
) -> Distance:
    """One distance as recorded."""
    return Distance(
        at="distances[0]",
        from_=part,
        to=to,
        distance=feet(measured_ft),
        by=by,
        give_or_take=None if give_or_take is None else feet(give_or_take),
    )


@pytest.mark.parametrize(
    ("measured_ft", "verdict"),
    [(100.5, MEETS), (100.25, CLOSE), (99.5, CLOSE), (99.25, SHORT), (82.0, SHORT)],
)
def test_edges_of_the_guard_band(measured_ft: float, verdict: str) -> None:
    """Source: JCGM 106, 8.3.2 (from memory, not seen); u = 1/4 ft, all exact."""
    assert judge(ufloat(measured_ft, 0.25), row()) == verdict


def test_without_uncertainty_the_limit_meets() -> None:
    assert judge(100.0, row()) == MEETS
    assert judge(99.99, row()) == SHORT


@pytest.mark.parametrize("measured_ft", [0.0, 100.0, 500.0])
def test_no_verdict_on_a_figure_that_is_missing_or_unread(measured_ft: float) -> None:
    assert judge(measured_ft, None) == NO_FIGURE
    assert judge(measured_ft, row(seen="no")) == CONFIRM


@PROPERTY
@given(number(0, 300), number(0, 300), number(0, 10))
def test_farther_is_never_judged_worse(one: float, two: float, u: float) -> None:
    order = [SHORT, CLOSE, MEETS]
    near, far = (judge(ufloat(x, u), row()) for x in sorted((one, two)))
    assert order.index(near) <= order.index(far)


@pytest.mark.parametrize("by", DISTANCES_FT)
def test_uncertainty_by_the_way_of_measuring(by: str) -> None:
    """Source: scipy, a rectangle of the method's half-width."""
    half = DISTANCES_FT[by].half_width(82.0)
    (pair,) = pairs_of(job(distances=(taped(82.0, by=by),)), None)
    assert pair.measured_ft.s == pytest.approx(uniform(0, 2 * half).std())


def test_the_inspector_may_name_the_uncertainty() -> None:
    """Source: scipy, a rectangle of 3 ft either way."""
    (pair,) = pairs_of(job(distances=(taped(82.0, give_or_take=3.0),)), None)
    assert pair.measured_ft.s == pytest.approx(uniform(0, 6).std())
    assert (
        "the inspector judged it right within"
        in separation_results([pair])[0].assumptions[0]
    )


@pytest.mark.parametrize(
    ("code", "part", "feature", "asked"),
    [
        ("us-or", "absorption area", "private well", 100),
        ("us-or", "tank", "private well", 50),
        ("us-or", "tank", "property line", 5),
        ("us-or", "absorption area", "foundation", 10),
        ("us-mn", "tank", "building", 10),
        ("us-mn", "absorption area", "building", 20),
        ("us-mn", "absorption area", "wild river", 150),
    ],
)
def test_rows_of_the_codes(code: str, part: str, feature: str, asked: int) -> None:
    """Sources: OAR 340-071-0220 Table 1; Minn. R. 4725.4450, 7081.0270, 6105.0120."""
    near, far = (taped(x, part, feature) for x in (asked - 3.0, asked + 3.0))
    pairs = pairs_of(job(distances=(near, far)), pack(code))
    assert [pair.row.feet for pair in pairs] == [asked] * 2
    assert [pair.verdict for pair in pairs] == [SHORT, MEETS]


def test_a_pair_taped_twice_keeps_both_results() -> None:
    pairs = pairs_of(
        job(distances=(taped(82.0), taped(83.0), taped(84.0))), pack("us-or")
    )
    names = [one.name for one in separation_results(pairs)]
    first = "distance.absorption_area_to_private_well"
    assert names == [first, f"{first}#2", f"{first}#3"]


def test_sources_and_paths() -> None:
    pairs = pairs_of(
        job(distances=(taped(82.0), taped(9.0, to="sandbox"))), pack("us-or")
    )
    known, unknown = separation_results(pairs)
    assert known.source == "pack:us-or:separation"
    assert (unknown.source, unknown.verdict) == ("JCGM106", NO_FIGURE)
    assert known.inputs == ("distances[0].distance", "distances[0].by")
