"""One distance against every row that speaks of it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from code_builders import FIELD, PAIRS, WELL, WITH_ROWS, code, ft, judged, row
from hypothesis import given
from hypothesis import strategies as st
from plan_builders import job, taped
from result_builders import PROPERTY, number

from generator.codes.packs import Pack, pack
from generator.codes.when import CHOICES, Answers
from generator.results.asked import CONFIRM, NO_FIGURE, NOT_READ, Judged, judge_all
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.separation import pairs_of

OREGON = pack("us-or")
DECIDED = {MEETS, SHORT, CLOSE}
ANSWERS = st.builds(
    Answers,
    **{key: st.none() | st.sampled_from(values) for key, values in CHOICES.items()},
    casing_ft=st.none() | number(0, 200),
    slope_percent=st.none() | number(0, 40),
    most_gpd=st.none() | number(0, 20000),
)


def all_unread(found: Pack) -> Pack:
    """The same pack, as if nobody had read its distances."""
    rows = tuple(replace(one, seen="no") for one in found.separation.rows)
    return replace(found, separation=replace(found.separation, rows=rows))


# ------------------------------------------------------------ one row that counts


@pytest.mark.parametrize(
    ("part", "feature", "asked"),
    [(FIELD, WELL, 100), (FIELD, "property line", 10), ("tank", WELL, 50)],
)
@pytest.mark.parametrize(
    ("off_by_u", "verdict"),
    [(2.01, MEETS), (1.99, CLOSE), (0.0, CLOSE), (-1.99, CLOSE), (-2.01, SHORT)],
)
def test_edges_of_the_guard_band_by_tape(
    part: str, feature: str, asked: int, off_by_u: float, verdict: str
) -> None:
    """OAR 340-071-0220 Table 1; JCGM 106, 8.3.2: the band is two u on each side."""
    (at,) = pairs_of(job(distances=(taped(float(asked), part, feature),)), OREGON)
    off_ft = off_by_u * at.measured_ft.s
    (pair,) = pairs_of(job(distances=(taped(asked + off_ft, part, feature),)), OREGON)
    assert (pair.row.feet, pair.verdict) == (asked, verdict)


@pytest.mark.parametrize(
    ("feet", "verdict"),
    [(100.6, MEETS), (100.4, CLOSE), (99.6, CLOSE), (99.4, SHORT), (82.0, SHORT)],
)
def test_oregon_field_to_well_by_tape(feet: float, verdict: str) -> None:
    """By hand: half-width 3 in and 0.2 % of 100 ft, 0.45 ft; U = 2 x 0.26 = 0.52 ft."""
    (pair,) = pairs_of(job(distances=(taped(feet),)), OREGON)
    assert pair.verdict == verdict


def test_without_rows_there_is_no_figure() -> None:
    assert judge_all(82.0, ()) == Judged(NO_FIGURE)
    assert judged(82.0, code("state")).row is None


# --------------------------------------------------------- figures nobody read


@pytest.mark.parametrize("feet", [0.0, 50.0, 100.0, 600.0])
def test_rows_that_nobody_read_never_decide(feet: float) -> None:
    found = judged(feet, code("state", row(50, seen=False), row(100, seen=False)))
    assert (found.verdict, found.row.feet) == (CONFIRM, 100)
    assert found.because == NOT_READ


@PROPERTY
@given(st.sampled_from(PAIRS), number(0, 600), number(0, 20), ANSWERS)
def test_no_pack_decides_by_rows_that_nobody_read(
    pair: tuple[str, str, str], feet: float, u: float, answers: Answers
) -> None:
    name, part, feature = pair
    asked = all_unread(pack(name)).asked(part, feature, answers)
    verdict = judge_all(ft(feet, u), asked).verdict
    assert verdict == (CONFIRM if asked else NO_FIGURE)


@pytest.mark.parametrize("name", WITH_ROWS)
def test_no_pair_of_any_pack_is_decided_by_rows_that_nobody_read(name: str) -> None:
    found = all_unread(pack(name))
    for _, part, feature in (one for one in PAIRS if one[0] == name):
        asked = found.asked(part, feature)
        for feet in (0.0, 5.0, 49.9, 100.0, 600.0):
            for u in (0.0, 0.25, 20.0):
                assert judge_all(ft(feet, u), asked).verdict == CONFIRM


@pytest.mark.parametrize(
    ("feet", "verdict"),
    [(45.0, SHORT), (55.0, CONFIRM), (99.0, CONFIRM), (101.0, MEETS)],
)
def test_a_stricter_row_that_nobody_read_only_asks(feet: float, verdict: str) -> None:
    found = judged(feet, code("state", row(50), row(100, seen=False)))
    assert (found.verdict, found.row.feet) == (verdict, 50)
    told = (
        "State asks 100 ft by a figure that was remembered and not read in its source."
    )
    assert found.because == (told if verdict == CONFIRM else "")


@PROPERTY
@given(st.integers(1, 300), st.integers(1, 300), number(0, 600), number(0, 20))
def test_an_unread_row_only_ever_turns_a_verdict_into_a_question(
    read: int, unread: int, feet: float, u: float
) -> None:
    alone = judged(feet, code("state", row(read)), u=u).verdict
    both = judged(feet, code("state", row(read), row(unread, seen=False)), u=u)
    assert both.verdict in (alone, CONFIRM)
    if unread <= read or alone == SHORT:
        assert both.verdict == alone
    assert both.row.read


# ----------------------------------------------------------------- two layers


@pytest.mark.parametrize(
    ("town", "state", "asked", "because"),
    [
        (
            100,
            50,
            100,
            "Town asks 100 ft, more than State (50 ft); the stricter holds.",
        ),
        (
            50,
            100,
            100,
            "State asks 100 ft, more than Town (50 ft); the stricter holds.",
        ),
        (80, 80, 80, "Town asks 80 ft, as much as State (80 ft); the stricter holds."),
    ],
)
def test_the_stricter_of_two_layers_holds(
    town: int, state: int, asked: int, because: str
) -> None:
    layers = code("town", row(town)), code("state", row(state))
    for feet, verdict in ((asked - 1.0, SHORT), (asked + 1.0, MEETS)):
        found = judged(feet, *layers, u=0.2)
        assert (found.verdict, found.row.feet) == (verdict, asked)
        assert found.because == because


@PROPERTY
@given(st.lists(st.integers(1, 300), min_size=1, max_size=4), number(0, 400))
def test_more_rows_never_judge_milder(asked: list[int], feet: float) -> None:
    order = [SHORT, CLOSE, MEETS]
    alone = judged(feet, code("state", row(asked[0])), u=0.5).verdict
    every = judged(feet, code("state", *map(row, asked)), u=0.5)
    assert order.index(every.verdict) <= order.index(alone)
    assert every.row.feet == max(asked)


@PROPERTY
@given(st.sampled_from(PAIRS), number(0, 300), number(0, 300), number(0, 10))
def test_farther_is_never_judged_worse(
    pair: tuple[str, str, str], one: float, two: float, u: float
) -> None:
    name, part, feature = pair
    order = [SHORT, CLOSE, CONFIRM, MEETS]
    asked = pack(name).asked(part, feature)
    near, far = (judge_all(ft(x, u), asked).verdict for x in sorted((one, two)))
    if {near, far} <= DECIDED:
        assert order.index(near) <= order.index(far)
    assert not (near == MEETS and far == CONFIRM)
    assert not (near == CONFIRM and far == SHORT)
