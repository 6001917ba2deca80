"""The two-day test by its published rule, and what the rule leaves open."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import Entry, entry
from result_builders import PROPERTY, length, number
from uncertainties import ufloat

from generator.quantity import Clock, Day, Volume
from generator.record.water import TestDay as DayOfTest
from generator.record.water import TwoDayTest
from generator.results.design_flow import DailyFlow
from generator.results.two_day_test import (
    design_gallons,
    excess_above_gal,
    hours_between,
    level_ended,
    two_day_verdict,
    work_out_two_days,
)
from generator.results.two_day_test_results import (
    EVEN_INCHES,
    KEPT_OUT,
    two_day_results,
)

DESIGN = DailyFlow(400.0, "design flow", "property.bedrooms", "pack:us-pa:design_flow")


def day(
    date: str,
    added: float,
    level: float,
    before: float | None = None,
    at: float = 570.0,
) -> DayOfTest:
    """One day of a test."""
    return DayOfTest(
        at="two_day_test.first_day",
        date=Day(date, date),
        time=Clock(at, "a time"),
        added=Volume(added, f"{added:g} gal"),
        level=length(level),
        level_before=None if before is None else length(before),
    )


def make(
    first: float = 400.0,
    second: float = 410.0,
    ended: float = 6.0,
    before: float | None = None,
    **changes: object,
) -> TwoDayTest:
    """A test that ended at 6 in on its first day."""
    return TwoDayTest(
        at="two_day_test",
        first_day=day("2026-10-06", first, 6.0),
        second_day=day("2026-10-07", second, ended, before),
        **changes,  # type: ignore[arg-type]
    )


@pytest.mark.parametrize("one", [entry("hlt-rule")])
def test_the_published_rule(one: Entry) -> None:
    """Source: Penn State Extension, 2017: at least the design volume; numbers ours."""
    design = one["inputs"]["design_daily_volume_gal"]
    for added, passes in zip(
        one["inputs"]["added_day2_gal"], one["expected"]["satisfactory"], strict=True
    ):
        plain = two_day_verdict(
            design_gal=design, first_gal=design, second_gal=added, level="restored"
        )
        assert plain == ("satisfactory" if passes else "not satisfactory")
        worked = work_out_two_days(make(design, added), DESIGN)
        assert (worked.verdict == "satisfactory") is passes


@pytest.mark.parametrize(
    ("first", "second", "ended", "before", "verdict"),
    [
        (400, 400, 6.0, None, "satisfactory"),
        (400, 399, 6.0, None, "too close to call"),  # 1 gal, where 14 can be off
        (400, 380, 6.0, None, "not satisfactory"),
        (390, 450, 6.0, None, "not shown"),  # too little on the first day
        (400, 410, 5.0, None, "satisfactory"),  # enough, and it stood lower
        (400, 390, 5.0, None, "not shown"),  # more might have gone in
        (400, 300, 7.0, None, "not satisfactory"),  # it took even less than that
        (400, 395, 7.0, None, "too close to call"),
        (400, 450, 7.0, None, "not shown"),  # how much stands too high?
        (400, 600, 7.0, 2.0, "satisfactory"),  # 120 gal too high, 480 taken
        (400, 500, 7.0, 2.0, "not shown"),  # 100 gal too high, 400 taken
        (400, 450, 7.0, 7.0, "not shown"),  # the water did not raise it
        (0, 0, 6.0, None, "not shown"),
    ],
)
def test_verdict(
    first: float, second: float, ended: float, before: float | None, verdict: str
) -> None:
    worked = work_out_two_days(make(first, second, ended, before), DESIGN)
    assert worked.verdict == verdict


def test_without_a_design_volume_nothing_is_judged() -> None:
    test = make()
    worked = work_out_two_days(test, None)
    assert worked.verdict == "not shown"
    names = [one.name for one in two_day_results(test, worked)]
    assert names == ["two_day.absorbed", "two_day.hours"]


def test_whose_design_volume_counts() -> None:
    own = make(design_volume=Volume(500.0, "500 gal"))
    assert design_gallons(own, DESIGN) == 500.0
    assert design_gallons(make(), DESIGN) == 400.0
    assert design_gallons(make(), replace(DESIGN, seen=False)) is None


@pytest.mark.parametrize(
    ("second", "hours"),
    [
        (day("2026-10-07", 1, 1), 24.0),
        (day("2026-10-07", 1, 1, at=540.0), 23.5),
        (day("2026-10-09", 1, 1), 72.0),
    ],
)
def test_hours(second: DayOfTest, hours: float) -> None:
    """Source: by hand."""
    assert hours_between(day("2026-10-06", 1, 1), second) == pytest.approx(hours)


@pytest.mark.parametrize(("higher", "word"), [(0.2, "restored"), (0.21, "above")])
def test_level_within_what_can_be_read(higher: float, word: str) -> None:
    """Source: JCGM 106, 8.3: twice 0.1 in."""
    assert level_ended(ufloat(higher, 0.1)) == word
    assert level_ended(0.0) == "restored"
    assert level_ended(-ufloat(higher, 0.1)) == {"above": "below"}.get(word, word)


def test_results_and_their_words() -> None:
    test = make(400, 600, 7.0, 2.0)
    found = {
        one.name: one
        for one in two_day_results(test, work_out_two_days(test, DESIGN), DESIGN)
    }
    assert found["two_day.absorbed"].value == pytest.approx(480.0)
    assert found["two_day.share"].value == pytest.approx(120.0)
    assert found["two_day.share"].verdict == "satisfactory"
    assert found["two_day.share"].inputs[0] == "property.bedrooms"
    assert {EVEN_INCHES, KEPT_OUT} <= set(found["two_day.absorbed"].assumptions)
    kept = make(sewage_kept_out="yes")
    [absorbed, *_] = two_day_results(kept, work_out_two_days(kept, DESIGN), DESIGN)
    assert KEPT_OUT not in absorbed.assumptions


def test_uncertainty_of_the_excess_against_simulation() -> None:
    """Source: numpy, 20,000 draws of three levels and of the water."""
    draws = np.random.default_rng(6)

    def near(value: float, half: float) -> np.ndarray:
        return value + draws.uniform(-half, half, 20_000)

    after, before, first = (near(x, 0.125) for x in (7.0, 2.0, 6.0))
    added = near(600.0, 18.0)
    simulated = added - added * (after - first) / (after - before)
    found = work_out_two_days(make(400, 600, 7.0, 2.0), DESIGN).absorbed_gal
    assert found.n == pytest.approx(np.mean(simulated), rel=0.01)
    assert found.s == pytest.approx(np.std(simulated), rel=0.05)


@PROPERTY
@given(
    number(0, 2000),
    number(0, 2000),
    number(0, 40),
    st.one_of(st.none(), number(0, 40)),
)
def test_more_water_never_makes_it_worse(
    second: float, more: float, ended: float, before: float | None
) -> None:
    order = ["not satisfactory", "too close to call", "not shown", "satisfactory"]
    found = [
        order.index(work_out_two_days(make(400, one, ended, before), DESIGN).verdict)
        for one in (second, second + more)
    ]
    assert found[0] <= found[1]


@PROPERTY
@given(number(1, 2000), number(0, 20), number(0.1, 20), number(0.1, 20))
def test_excess_is_never_more_than_its_share(
    added: float, before: float, rise: float, higher: float
) -> None:
    found = excess_above_gal(
        added_gal=added, before_in=before, after_in=before + rise, higher_in=higher
    )
    assert found == pytest.approx(added * higher / rise)
    assert (
        excess_above_gal(
            added_gal=added, before_in=before, after_in=before, higher_in=higher
        )
        is None
    )
