"""Flows of a day and the least tank, by bedrooms and by people."""

from __future__ import annotations

import pytest
from hypothesis import given
from published import Entry, allowed, rows
from record_builders import make_record
from result_builders import PROPERTY, number
from uncertainties import ufloat

from generator.codes.packs import Pack, pack
from generator.results.asked import CONFIRM
from generator.results.design_flow import (
    design_flow,
    design_results,
    household_flow,
    household_gpd,
)
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.result import Result


def named(code: str | None, volume: object = None, **given_: int) -> dict[str, Result]:
    """Give the results of a house by name."""
    record = make_record(**given_)
    found = design_results(record, pack(code) if code else None, volume)
    return {one.name: one for one in found}


@pytest.mark.parametrize(
    ("one", "bedrooms", "gpd"), rows("hlt-volume", "bedrooms", "gpd")
)
def test_design_flow_of_pennsylvania(one: Entry, bedrooms: int, gpd: int) -> None:
    """Source: 25 Pa. Code 73.31(a)(2) as printed in 26 Pa.B. 1491."""
    flow = design_flow(make_record(bedrooms=bedrooms), pack("us-pa"))
    assert flow == allowed(one, gpd)
    assert named("us-pa", bedrooms=bedrooms)["design.flow"].source == (
        "pack:us-pa:design_flow"
    )


@pytest.mark.parametrize(("bedrooms", "gpd"), [(1, 400), (9, 1000)])
def test_design_flow_below_and_beyond_the_rows(bedrooms: int, gpd: int) -> None:
    """Source: 25 Pa. Code 73.17(a): one figure up to three, 100 for each above."""
    assert design_flow(make_record(bedrooms=bedrooms), pack("us-pa")) == gpd


@pytest.mark.parametrize(
    ("bedrooms", "code"), [(None, "us-pa"), (3, "us-or"), (3, None), (1, "us-mn")]
)
def test_no_flow_where_no_row_says(bedrooms: int | None, code: str | None) -> None:
    found: Pack | None = pack(code) if code else None
    record = make_record(bedrooms=bedrooms)
    assert design_flow(record, found) is None
    assert "design.flow" not in {one.name for one in design_results(record, found, 9.0)}


def test_household_flow() -> None:
    """Source: WAC 246-272A-0230(2)(d), 45 gal a day for each person."""
    assert household_flow(make_record(people=2)) == 90.0
    assert household_flow(make_record()) is None
    assert household_flow(make_record(people=0)) is None
    found = named(None, people=4)["design.household_flow"]
    assert found.working == "Qh = 4 × 45 = 180 gal/day"
    assert found.inputs == ("household.people",)


@pytest.mark.parametrize(
    ("bedrooms", "gpd", "gallons"),
    [(3, 400, 900), (4, 500, 1250), (5, 600, 1400), (6, 700, 1550), (8, 900, 1850)],
)
def test_least_tank_follows_its_formula(bedrooms: int, gpd: int, gallons: int) -> None:
    """Source: 25 Pa. Code 73.31(a), 900 + 3.5 (Q - 400), then 1250 + 1.5 (Q - 500)."""
    formula = 900 + 3.5 * (gpd - 400) if gpd <= 500 else 1250 + 1.5 * (gpd - 500)
    assert formula == gallons
    assert pack("us-pa").least_gallons(bedrooms) == gallons


@pytest.mark.parametrize(
    ("volume", "verdict"),
    [
        (900.0, MEETS),
        (ufloat(920, 10), MEETS),
        (ufloat(919, 10), CLOSE),
        (ufloat(880, 10), CLOSE),
        (ufloat(879, 10), SHORT),
        (899.0, SHORT),
    ],
)
def test_tank_against_the_code(volume: object, verdict: str) -> None:
    """Source: JCGM 106, 8.3.2 (from memory, not seen), on 900 gal."""
    share = named("us-pa", volume, bedrooms=3)["design.tank_share"]
    assert share.verdict == verdict
    assert share.value == pytest.approx(100 * getattr(volume, "n", volume) / 900)


def test_an_unread_tank_row_never_decides() -> None:
    found = named("us-mn", 200.0, bedrooms=3)
    assert found["design.tank_share"].verdict == CONFIRM
    assert "confirm it with the authority" in found["design.least_tank"].assumptions[0]


@PROPERTY
@given(number(0, 50))
def test_more_people_never_use_less(people: float) -> None:
    few = int(people)
    assert household_gpd(few + 1) - household_gpd(few) == pytest.approx(45.0)
