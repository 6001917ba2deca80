"""What a load test saw beyond the tank: target, household water, further parts."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from published import Entry, allowed, entry
from record_builders import make_record
from result_builders import PROPERTY, box, length, make_test, number, stated, stretch
from uncertainties import ufloat

from generator.quantity import Clock, Level, Target, Volume
from generator.record.model import Inspection
from generator.record.parts import PumpChamber, Tank
from generator.record.water import Further, LoadTest, OtherWater
from generator.results.design_flow import DailyFlow
from generator.results.inflow import running
from generator.results.load_test import Test as Worked
from generator.results.load_test import balance, work_out
from generator.results.load_test_beyond import parts_beyond, reached_gal
from generator.results.load_test_beyond_results import (
    MORE_THAN_PASSED,
    ONLY_WHEN_PUMPED,
)
from generator.results.load_test_results import load_test_results
from generator.results.load_test_target import share_percent, wanted_gal
from generator.results.result import Result, nominal

SOUND = [(-3.0, 0.0), (10.0, 0.5), (30.0, 0.5), (45.0, 0.0)]
DESIGN = DailyFlow(400.0, "design flow", "property.bedrooms", "pack:us-pa:design_flow")


def run(test: LoadTest, **more: object) -> tuple[Worked, dict[str, Result]]:
    """Work out a test in the usual box, and its results by name."""
    runs = [running(one) for one in test.water]
    worked = work_out(test, box(), runs, **more)  # type: ignore[arg-type]
    found = load_test_results(test, worked, more.get("design"))  # type: ignore[arg-type]
    return worked, {one.name: one for one in found}


def further(part: str, before: float, after: float) -> Further:
    """One part beyond the tested tank."""
    return Further(
        at="load_test.further[0]",
        part=part,
        before=Level(before, f"{before:g} in"),
        after=Level(after, f"{after:g} in"),
    )


def usual(**changes: object) -> LoadTest:
    """Thirty minutes at 4 gal/min, back at the invert after fifteen."""
    return replace(make_test([stretch(0, 30)], SOUND, target=120.0), **changes)


# The flow passed on


def test_flow_between_readings() -> None:
    """Source: by hand, 40 gal less 11.221 gal in 10 min; 11.221 gal in 15 min."""
    _, found = run(usual())
    assert "load_test.reading.1.rate" not in found
    rates = [found[f"load_test.reading.{n}.rate"].value for n in (2, 3, 4)]
    expected = [(40 - 11.221) / 13, 80 / 20, 11.221 / 15]
    assert rates == pytest.approx(expected, abs=0.001)


def test_the_flow_of_the_water_stays_one_and_the_same() -> None:
    """Source: numpy, 20,000 draws of one flow and of four levels.

    Held as if they were independent, two volumes passed would be far less sure.
    """
    worked, found = run(usual())
    flow = worked.running[0].flow_gpm
    draws = np.random.default_rng(11)
    flows = draws.normal(flow.n, flow.s, 20_000)
    levels = [level + draws.uniform(-0.125, 0.125, 20_000) for _, level in SOUND]
    inch = 96 * 54 / 231
    passed = [
        flows * minutes - inch * (level - levels[0])
        for minutes, level in zip((10, 30), levels[1:3], strict=True)
    ]
    simulated = np.std((passed[1] - passed[0]) / 20)
    rate = found["load_test.reading.3.rate"].uncertainty
    assert rate == pytest.approx(simulated, rel=0.05)
    apart = np.hypot(*(row.passed_gal.s for row in worked.rows[1:3])) / 20
    assert rate < 0.9 * apart


def test_share_held_back_against_simulation() -> None:
    """Source: numpy, 2,000 draws of the flow, both sides and both levels."""
    draws = np.random.default_rng(12)

    def near(value: float, half: float) -> np.ndarray:
        return value + draws.uniform(-half, half, 2_000)

    inch = near(96.0, 0.5) * near(54.0, 0.5) / 231
    rise = near(0.5, 0.125) - near(0.0, 0.125)
    simulated = 100 * inch * rise / (30 * draws.normal(4.0, 0.08, 2_000))
    inside = box(48.0, ufloat(96.0, 0.5 / 3**0.5), ufloat(54.0, 0.5 / 3**0.5))
    run_in = 30 * ufloat(4.0, 0.08)
    u = 0.125 / 3**0.5
    _, stored, _ = balance(
        inside, start_in=ufloat(0.0, u), level_in=ufloat(0.5, u), run_in_gal=run_in
    )
    found = 100 * stored / run_in
    assert found.n == pytest.approx(np.mean(simulated), rel=0.02)
    assert found.s == pytest.approx(np.std(simulated), rel=0.06)


@PROPERTY
@given(number(-8, 4), number(-8, 8), number(0.5, 30), number(1, 60))
def test_nothing_is_lost_in_a_whole_test(
    start: float, end: float, gpm: float, minutes: float
) -> None:
    test = make_test(
        [stretch(0, minutes, gpm)], [(0, start), (minutes, end), (minutes + 9, end / 2)]
    )
    worked, found = run(test, design=DESIGN)
    for row in worked.rows:
        parts = row.made_up_gal + row.stored_gal + row.passed_gal
        assert nominal(parts - row.run_in_gal) == pytest.approx(0.0, abs=1e-6)
    assert all(one.value == one.value for one in found.values())  # never NaN


@pytest.mark.parametrize(
    "levels",
    [
        [(0, 0.0)],
        [(0, 3.0), (30, 2.0), (45, 1.0)],  # falls all the way
        [(0, 2.0), (30, 0.0), (45, 0.0)],
        [(0, 0.0), (30, 0.0), (45, 0.0)],
        [(0, -3.0), (30, -2.0), (45, -2.0)],
        [(0, 0.0), (20, 1.0), (35, 0.5)],
    ],
)
def test_every_course_of_the_level_has_results(
    levels: list[tuple[float, float]],
) -> None:
    worked, found = run(make_test([stretch(0, 30)], levels, target=120))
    assert ("load_test.made_up" in found) is (levels[0][1] < 0)
    assert found["load_test.reached"].value == nominal(worked.last.passed_gal)


# Target


@pytest.mark.parametrize(
    ("target", "expected"),
    [
        (Target(120.0, None, None, "120 gal"), 120.0),
        (Target(None, 30.0, None, "30 min"), 120.0),
        (Target(None, None, 25.0, "25 % of design flow"), 100.0),
    ],
)
def test_target(target: Target, expected: float) -> None:
    """Source: by hand; 4 gal/min, and 400 gal a day."""
    assert wanted_gal(target, 4.0, 400.0) == pytest.approx(expected)
    _, found = run(usual(target=target), design=DESIGN)
    assert found["load_test.target"].value == pytest.approx(expected)
    share = found["load_test.reached_share"].value
    assert share == pytest.approx(100 * 120 / expected)
    assert found["load_test.of_design_flow"].value == pytest.approx(30.0)
    assert "inflow.minutes_left" not in found


def test_a_share_of_a_design_flow_that_nobody_knows() -> None:
    target = Target(None, None, 25.0, "25 % of design flow")
    worked, found = run(usual(target=target))
    assert worked.target_gal is None
    assert not [name for name in found if "target" in name or "share" in name]
    assert "load_test.of_design_flow" not in found


@pytest.mark.parametrize("one", [entry("fill-time")])
def test_minutes_for_the_target(one: Entry) -> None:
    """Source: wastewater101.net."""
    gpm, gallons = one["inputs"]["gpm"], one["inputs"]["volume_gal"]
    half = one["expected"]["minutes"] / 2
    test = make_test([stretch(0, half, gpm)], [(0, 0.0)], target=gallons)
    _, found = run(test)
    minutes = found["inflow.minutes_for_target"].value
    assert minutes == allowed(one, one["expected"]["minutes"])
    assert found["inflow.minutes_left"].value == allowed(one, half)


def test_household_water_counts_at_every_reading() -> None:
    """Source: by hand, 15 gal evenly from minute 5 to 20, 120 gal by the hose."""
    use = OtherWater(
        at="load_test.other_water[0]",
        from_=Clock(5.0, "5"),
        to=Clock(20.0, "20"),
        gallons=Volume(15.0, "15 gal"),
        give_or_take=Volume(0.0, "0 gal"),
    )
    worked, found = run(usual(other_water=(use,), target=Target(150.0, None, None, "")))
    run_in = [nominal(row.run_in_gal) for row in worked.rows]
    assert run_in == pytest.approx([0, 45, 135, 135])
    assert worked.stop_minute == 30
    assert found["load_test.passed_total"].value == pytest.approx(135)
    assert found["inflow.minutes_left"].value == pytest.approx(15 / 4)


# Further parts


@pytest.mark.parametrize("one", [entry("drawdown-real")])
def test_what_stayed_in_a_tank_beyond(one: Entry) -> None:
    """Source: Orono, Minn., 1992: 6.5 in of a tank of 1,000 gal and 42 in."""
    tank = stated(one["inputs"]["liquid_depth_in"], one["inputs"]["tank_gal"])
    test = usual(further=(further("second", -one["inputs"]["drawdown_in"], 0.0),))
    water = replace(test, water=(stretch(0, 50),))
    _, found = run(water, volumes={"second": tank.between_gal}, beyond=["second"])
    stayed = found["load_test.further.1"].value
    assert stayed == allowed(one, one["expected"]["dose_gal"])
    assert found["load_test.reached"].value == pytest.approx(180 - stayed, abs=12)


def test_the_pump_chamber_says_when_water_goes_on() -> None:
    """Source: by hand, 4 in of 10 gal each."""
    test = usual(further=(further("pump chamber", -6.0, -2.0),))
    volumes = {"pump chamber": lambda low, high: 10.0 * (high - low)}
    _, found = run(test, volumes=volumes, beyond=["pump chamber"])
    reached = found["load_test.reached"]
    assert found["load_test.further.1"].value == pytest.approx(40.0)
    assert reached.value == pytest.approx(80.0)
    assert found["load_test.reached_share"].value == pytest.approx(100 * 80 / 120)
    assert ONLY_WHEN_PUMPED in reached.assumptions
    assert reached.uncertainty > found["load_test.passed_total"].uncertainty


def test_more_in_the_chamber_than_the_tank_passed_on() -> None:
    """Source: by hand, 13 in of 10 gal each, of 120 gal."""
    test = usual(further=(further("pump chamber", -6.0, 7.0),))
    volumes = {"pump chamber": lambda low, high: 10.0 * (high - low)}
    _, found = run(test, volumes=volumes, beyond=["pump chamber"])
    assert found["load_test.reached"].value == pytest.approx(-10.0)
    assert MORE_THAN_PASSED in found["load_test.reached"].assumptions
    assert "load_test.reached_share" not in found


@pytest.mark.parametrize(
    ("volumes", "parts"),
    [
        ({}, ()),  # levels, and no volume for them
        ({"pump chamber": lambda _low, _high: None}, ()),
        ({"pump chamber": lambda low, high: high - low}, ("second",)),  # not read
    ],
)
def test_what_reached_the_area_is_not_known(
    volumes: dict[str, object], parts: tuple[str, ...]
) -> None:
    test = usual(further=(further("pump chamber", -6.0, -2.0),))
    worked, found = run(test, volumes=volumes, beyond=("pump chamber", *parts))
    assert worked.reached_gal is None
    assert worked.unread == parts
    assert "load_test.reached" not in found


@PROPERTY
@given(number(0, 500), number(-50, 300), number(-50, 300))
def test_what_stayed_and_what_reached_add_up(
    passed: float, one: float, two: float
) -> None:
    reached = reached_gal(passed, [one, two])
    assert reached + one + two == pytest.approx(passed, abs=1e-9)
    assert share_percent(reached, 400.0) == pytest.approx(reached / 4)


def test_parts_beyond_the_tested_tank(tanks_of_a_lot: Inspection) -> None:
    assert parts_beyond(tanks_of_a_lot) == ("second", "pump chamber")
    test = make_test([stretch(0, 30)], SOUND)
    last = replace(tanks_of_a_lot, load_test=replace(test, tank="second"))
    assert parts_beyond(last) == ("pump chamber",)
    bare = replace(last, tanks=tanks_of_a_lot.tanks[:1], pump_chamber=None)
    assert parts_beyond(replace(bare, load_test=test)) == ()


@pytest.fixture
def tanks_of_a_lot() -> Inspection:
    """Two tanks and a pump chamber."""
    tanks = tuple(
        Tank(name=name, shape="box", liquid_depth=length(48.0))
        for name in ("first", "second")
    )
    test = make_test([stretch(0, 30)], SOUND)
    return make_record(
        tanks=tanks, pump_chamber=PumpChamber(shape="box"), load_test=test
    ).inspection
