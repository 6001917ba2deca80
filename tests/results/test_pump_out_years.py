"""Years between pumpings, years left, and what is said beyond the printed table."""

from __future__ import annotations

import pytest
from hypothesis import given
from published import ENTRIES, allowed, label
from result_builders import PROPERTY, length, number
from uncertainties import ufloat

from generator.quantity import Duration
from generator.record.model import Household
from generator.record.parts import Tank
from generator.results import pump_out_years
from generator.results.pump_out_years import (
    BEYOND,
    DISPOSER,
    NO_DISPOSER,
    OVERDUE,
    TOGETHER,
    years_left,
    years_results,
    years_to_pump,
)
from generator.results.result import Result
from generator.results.tank import inside_of

TABLE = ENTRIES["mancl-table"]
CELLS = [
    pytest.param(gallons, people, years, id=f"{label(TABLE)} {gallons} gal {people}")
    for gallons, row in zip(
        TABLE["inputs"]["tank_gal"], TABLE["expected"]["years"], strict=True
    )
    for people, years in zip(TABLE["inputs"]["people"], row, strict=True)
]


def make_tank(name: str = "tank", place: int = 0, long: float = 96) -> Tank:
    """A box of 48 in liquid and 54 in width."""
    return Tank(
        name=name,
        at=f"tanks[{place}]",
        shape="box",
        length=length(long),
        width=length(54),
        liquid_depth=length(48),
    )


def household(people: int | None = 4, **changes: object) -> Household:
    """A household of four."""
    return Household(at="household", people=people, **changes)  # type: ignore[arg-type]


def pumped(years: float) -> Duration:
    """A time before the visit."""
    return Duration(years * 365.25 * 1440, f"{years:g} years")


def found_of(tanks: list[Tank], house: Household | None) -> dict[str, Result]:
    """Give the results by name."""
    insides = {one.name: inside_of(one) for one in tanks}
    return {one.name: one for one in years_results(tanks, insides, house)}


@pytest.mark.parametrize(("gallons", "people", "years"), CELLS)
def test_pumping_table(gallons: float, people: int, years: float | None) -> None:
    """Source: extension table as reprinted on a lakes page; a dash is no time."""
    assert years_to_pump(gallons, people) == allowed(TABLE, years or 0.0)


def test_the_ends_of_the_table_are_those_of_the_reprint() -> None:
    """Source: the same reprint; its rows run to 2,500 gal, of which five were taken."""
    assert min(TABLE["inputs"]["tank_gal"]) == pump_out_years.TABLE_GAL[0]
    people = TABLE["inputs"]["people"]
    assert (min(people), max(people)) == pump_out_years.TABLE_PEOPLE


@PROPERTY
@given(number(100, 4000), number(100, 4000))
def test_a_larger_tank_lasts_longer(one: float, two: float) -> None:
    small, large = sorted((one, two))
    assert 0 <= years_to_pump(small, 4) <= years_to_pump(large, 4)
    assert years_to_pump(large, 5) <= years_to_pump(large, 4)


def test_a_tank_too_small_lasts_no_time() -> None:
    assert years_to_pump(500.0, 10) == 0
    assert years_to_pump(ufloat(100.0, 5.0), 4).n == 0


def test_a_single_tank_has_years_of_its_own() -> None:
    """Source: the formula by hand, 96 x 54 x 48 / 231 = 1077.2 gal, 4 people."""
    (found,) = found_of([make_tank()], household()).values()
    assert found.name == "solids.tank.years"
    assert found.value == pytest.approx((1077.195 - 200) / 307.6, rel=1e-4)
    assert found.inputs == (
        "household.people",
        "tanks[0].length",
        "tanks[0].width",
        "tanks[0].liquid_depth",
    )
    assert NO_DISPOSER in found.assumptions
    assert BEYOND not in found.assumptions


def test_two_tanks_use_the_table_once() -> None:
    tanks = [make_tank("first"), make_tank("second", 1)]
    found = found_of(tanks, household())
    assert set(found) == {"solids.all.years"}
    one = found["solids.all.years"]
    assert one.symbols[0].number.n == pytest.approx(2 * 1077.195, rel=1e-5)
    assert TOGETHER in one.assumptions


@pytest.mark.parametrize(("people", "long"), [(11, 96), (4, 20), (4, 300)])
def test_beyond_the_table_it_says_so(people: int, long: float) -> None:
    found = found_of([make_tank(long=long)], household(people))
    assert BEYOND in found["solids.tank.years"].assumptions


def test_a_disposer_is_told_in_words_and_changes_no_figure() -> None:
    plain = found_of([make_tank()], household())["solids.tank.years"]
    found = found_of([make_tank()], household(disposal_unit="yes"))["solids.tank.years"]
    assert DISPOSER in found.assumptions
    assert NO_DISPOSER not in found.assumptions
    assert found.value == plain.value


@pytest.mark.parametrize("house", [None, household(None), household(0)])
def test_without_people_there_are_no_years(house: Household | None) -> None:
    assert found_of([make_tank()], house) == {}
    assert found_of([], household()) == {}


def test_years_left() -> None:
    house = household(pumped_before=pumped(1.0))
    found = found_of([make_tank()], house)
    left = found["solids.tank.years_left"]
    assert left.value == pytest.approx(found["solids.tank.years"].value - 1.0)
    assert left.verdict == ""
    assert left.inputs[0] == "household.pumped_before"


@pytest.mark.parametrize("since", [2.8519, 3.0, 400.0])
def test_overdue_is_no_time_and_never_less(since: float) -> None:
    house = household(pumped_before=pumped(since))
    left = found_of([make_tank()], house)["solids.tank.years_left"]
    assert left.value == 0
    assert left.verdict == OVERDUE
    assert left.working == ""


def test_pumped_on_the_day_leaves_all_years() -> None:
    found = found_of([make_tank()], household(pumped_before=pumped(0.0)))
    left = found["solids.tank.years_left"].value
    assert left == pytest.approx(found["solids.tank.years"].value)


@PROPERTY
@given(number(0, 30), number(0, 30))
def test_years_left_and_years_past_make_up_the_table(table: float, past: float) -> None:
    left = years_left(table, past)
    assert left == pytest.approx(max(table - past, 0.0))
