"""A pit: its plan, its free volume, its contents, and the water run into it."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from record_builders import make_record
from result_builders import PROPERTY, length, number, stretch
from shapely.geometry import Point, box

from generator.codes.packs import pack
from generator.quantity import Clock
from generator.record.cesspool import Cesspool, PitLevel
from generator.record.water import Stretch
from generator.results.cesspool import cesspool_results
from generator.results.cesspool_inside import (
    Pit,
    cornered_plan_ft2,
    pit_gal,
    round_plan_ft2,
)
from generator.results.cesspool_water import PitTest, cannot
from generator.results.cesspool_water_results import NOT_SHOWN
from generator.results.result import Result, nominal

MASSACHUSETTS_GAL_PER_FT3 = 7.48  # as the rule's own sum is usually written
Levels = list[tuple[float, float]]
UNITS: pint.UnitRegistry = pint.UnitRegistry()  # slow to make, so made once


def make_pit(levels: Levels | None = None, **changes: object) -> Cesspool:
    """A round pit of 6 ft, its liquid 28 in below its inlet; levels (minute, in)."""
    readings = tuple(
        PitLevel(
            at=f"cesspool.levels[{place}]",
            time=Clock(minute, f"minute {minute:g}"),
            down=length(down),
        )
        for place, (minute, down) in enumerate(levels or [])
    )
    given_: dict[str, object] = {
        "kind": "cesspool",
        "walls": "concrete rings",
        "diameter": length(72),
        "inlet_down": length(30),
        "liquid_down": length(58),
        "floor_down": length(108),
        "overflow": "none found",
        "levels": readings,
        **changes,
    }
    return Cesspool(at="cesspool", **given_)  # type: ignore[arg-type]


def named(pit: Cesspool, code: str | None = "us-pa") -> dict[str, Result]:
    """Every result of a pit of a house with three bedrooms, 400 gal a day."""
    record = make_record(bedrooms=3, cesspool=pit)
    found = cesspool_results(record, pack(code) if code else None)
    return {one.name.removeprefix("cesspool."): one for one in found}


TEST: Levels = [(599, 58), (630, 54), (660, 55), (690, 55.5)]
WATER = (stretch(600, 630),)  # 4 gal a minute for 30 minutes: 120 gal


def test_nothing_follows_from_nothing() -> None:
    assert cesspool_results(make_record(), None) == []
    assert named(Cesspool(at="cesspool", kind="cesspool")) == {}


@given(number(30, 140))
@PROPERTY
def test_round_plan_against_shapely(diameter_in: float) -> None:
    disc = Point(0, 0).buffer(diameter_in / 24, quad_segs=2000)
    assert round_plan_ft2(diameter_in) == pytest.approx(disc.area, rel=1e-5)


@given(number(30, 140), number(30, 140))
@PROPERTY
def test_cornered_plan_against_shapely(long_in: float, wide_in: float) -> None:
    plan = box(0, 0, long_in / 12, wide_in / 12)
    assert cornered_plan_ft2(long_in, wide_in) == pytest.approx(plan.area)


@given(number(5, 120), number(0, 120))
@PROPERTY
def test_gallons_against_pint(plan_ft2: float, height_in: float) -> None:
    held = plan_ft2 * UNITS.foot**2 * (height_in * UNITS.inch)
    assert pit_gal(plan_ft2, height_in) == pytest.approx(held.to("gallon").magnitude)


def test_free_volume_by_the_sum_of_massachusetts() -> None:
    """Plan area x (inlet depth - liquid depth) x 7.48 gal/ft³."""
    found = named(make_pit())
    by_hand = math.pi * 3**2 * 28 / 12 * MASSACHUSETTS_GAL_PER_FT3
    assert found["free_volume"].value == pytest.approx(by_hand, rel=1e-4)
    assert found["free_space"].value == 28
    assert found["free_share"].value == pytest.approx(100 * by_hand / 400, rel=1e-4)
    assert found["below_inlet"].value == pytest.approx(by_hand * 78 / 28, rel=1e-4)
    assert found["standing"].value == pytest.approx(by_hand * 50 / 28, rel=1e-4)


def test_free_volume_knows_how_sure_it_is() -> None:
    """By hand: diameter within 1/2 in, two depths within 1/2 in each."""
    found = named(make_pit())["free_volume"]
    of_diameter = 2 * 0.5 / 72
    of_depths = math.sqrt(2) * 0.5 / 28
    by_hand = found.value * math.hypot(of_diameter, of_depths) / math.sqrt(3)
    assert found.uncertainty == pytest.approx(by_hand, rel=1e-6)


def test_rough_walls_are_less_sure() -> None:
    smooth, rough = (
        named(make_pit(walls=walls))["plan"].uncertainty
        for walls in ("concrete rings", "stone")
    )
    assert rough == pytest.approx(4 * smooth)


def test_no_free_volume_above_the_inlet() -> None:
    found = named(make_pit(liquid_down=length(28)))
    assert found["free_space"].value == -2
    assert found["free_volume"].value == 0
    assert found["free_share"].value == 0
    assert "no free volume" in found["free_volume"].formula


def test_what_was_not_measured_is_left_out() -> None:
    assert set(named(make_pit(diameter=None, length=length(60)))) == {"free_space"}
    assert "free_share" not in named(make_pit(), None)
    assert "below_inlet" not in named(make_pit(floor_down=None))


@pytest.mark.parametrize(
    ("levels", "changes"),
    [
        ([], {"floor_down": length(57)}),
        ([], {"floor_down": length(30), "liquid_down": None}),
        ([(600.0, 109.0)], {}),
    ],
)
def test_depths_that_cannot_be_give_nothing_but_the_plan(
    levels: Levels, changes: dict[str, object]
) -> None:
    pit = make_pit(levels, **changes)
    assert Pit.of(pit).wrong()
    assert set(named(pit)) == {"plan"}


def test_water_run_in_is_stored_or_taken() -> None:
    """By hand: 28.27 ft² give 17.63 gal an inch; 4 in stored, the rest went on."""
    found = named(make_pit(TEST, water=WATER))
    inch = math.pi * 36**2 / 231
    assert found["run_in"].value == pytest.approx(120)
    assert found["stored"].value == pytest.approx(4 * inch)
    assert found["taken"].value == pytest.approx(120 - 4 * inch)
    assert found["taken"].verdict == ""
    assert found["taken_last"].value == pytest.approx(120 - 2.5 * inch)
    assert found["highest"].value == 24
    assert found["fall"].value == pytest.approx(1.5)
    assert found["rate"].value == pytest.approx(1.5 * inch)
    assert found["rate_last"].value == pytest.approx(inch)


def test_taken_keeps_what_its_parts_do_not_share() -> None:
    found = named(make_pit(TEST, water=WATER))
    parts = (found["run_in"].uncertainty, found["stored"].uncertainty)
    assert found["taken"].uncertainty == pytest.approx(math.hypot(*parts))


def test_a_level_while_the_water_runs_counts_what_had_run_in() -> None:
    found = named(make_pit([(600, 58), (615, 56)], water=WATER))
    inch = math.pi * 36**2 / 231
    assert found["taken"].value == pytest.approx(60 - 2 * inch)
    assert "rate" not in found


def test_a_small_fall_is_not_shown() -> None:
    found = named(make_pit([(599, 58), (630, 54), (640, 54.1)], water=WATER))
    assert found["rate"].verdict == NOT_SHOWN
    assert found["rate"].uncertainty * 2 > found["rate"].value


def test_levels_by_a_coarse_stick_are_less_sure() -> None:
    fine, coarse = (
        named(make_pit(TEST, water=WATER, levels_read_to=step))["stored"].uncertainty
        for step in (None, length(1))
    )
    assert coarse > 3 * fine


def test_the_liquid_before_may_stand_alone() -> None:
    found = named(make_pit([(630, 54)], water=WATER))
    assert found["stored"].value == pytest.approx(4 * math.pi * 36**2 / 231)
    assert "cesspool.liquid_down" in found["stored"].inputs


def test_without_a_plan_the_fall_still_stands() -> None:
    found = named(make_pit(TEST, water=WATER, diameter=None))
    assert "stored" not in found
    assert found["fall"].value == pytest.approx(1.5)


def bare(start: float, stop: float) -> Stretch:
    """A stretch whose flow was not measured."""
    first, last = (Clock(at, f"minute {at:g}") for at in (start, stop))
    return Stretch(at="cesspool.water[0]", from_=first, to=last)


@pytest.mark.parametrize(
    ("water", "levels", "words"),
    [
        ((bare(600, 630),), TEST, "not measured"),
        ((stretch(630, 600),), TEST, "stops before it starts"),
        ((stretch(600, 630), stretch(620, 640)), TEST, "before the one above it"),
        (WATER, [(630, 54), (599, 58)], "order of time"),
    ],
)
def test_water_that_cannot_be_worked_out(
    water: tuple[Stretch, ...], levels: Levels, words: str
) -> None:
    pit = make_pit(levels, water=water)
    assert words in cannot(pit)
    assert PitTest.of(Pit.of(pit)) is None
    assert "run_in" not in named(pit)


def test_water_needs_a_level_before_and_one_after() -> None:
    assert "run_in" not in named(make_pit([(599, 58)], water=WATER))
    late = make_pit([(630, 54)], water=WATER, liquid_down=None)
    assert "run_in" not in named(late)


@given(number(60, 100), number(20, 57), number(0, 40))
@PROPERTY
def test_run_in_is_stored_and_taken_whatever_the_level(
    diameter: float, peak: float, fall: float
) -> None:
    levels = [(599.0, 58.0), (630.0, peak), (650.0, peak + fall)]
    found = named(make_pit(levels, water=WATER, diameter=length(diameter)))
    for ending in ("", "_last"):
        both = found[f"stored{ending}"].number + found[f"taken{ending}"].number
        assert nominal(both) == pytest.approx(120)
    assert found["rate"].value >= 0
