"""The load test as a water balance, and how the level came back."""

from __future__ import annotations

import numpy as np
import pytest
from fluids import geometry
from hypothesis import given
from result_builders import (
    PROPERTY,
    box,
    lying,
    make_test,
    number,
    stretch,
    tanks_with_levels,
)
from uncertainties import ufloat

from generator.record.water import Stretch
from generator.results.inflow import running
from generator.results.load_test import (
    Test as Worked,
)
from generator.results.load_test import balance, work_out
from generator.results.load_test_recovery import Balance, recovery
from generator.results.load_test_results import load_test_results
from generator.results.result import nominal
from generator.results.tank import GAL, Inside

Levels = list[tuple[float, float]]


def worked(
    levels: Levels,
    water: list[Stretch] | None = None,
    inside: Inside | None = None,
    step: float | None = None,
) -> Worked:
    """Work out a test: 30 minutes at 4 gal/min into the box unless told."""
    stretches = water or [stretch(0, 30)]
    test = make_test(stretches, levels, step=step)
    return work_out(test, inside or box(), [running(one) for one in stretches])


def row(minute: float, level: float) -> Balance:
    """A row with nothing but its time and level."""
    return Balance(minute, level, 0.0, 0.0, 0.0, 0.0, 0.0)


# The balance


@pytest.mark.parametrize(
    ("start", "level", "run_in", "expected"),
    [
        (-2.0, 0.5, 100.0, (44.883, 11.221, 43.896)),  # low tank
        (-2.0, -1.0, 22.442, (22.442, 0.0, 0.0)),  # still filling up
        (-2.0, 0.0, 44.883, (44.883, 0.0, 0.0)),  # exactly at the invert
        (0.0, 0.0, 0.0, (0.0, 0.0, 0.0)),  # nothing ran
        (0.0, 0.5, 100.0, (0.0, 11.221, 88.779)),
        (1.0, 0.5, 100.0, (0.0, -11.221, 111.221)),  # falls while water runs
        (0.5, -0.5, 0.0, (-11.221, -11.221, 22.442)),  # drains past the invert
        (-2.0, -2.0, 100.0, (0.0, 0.0, 100.0)),  # a leak: gone below the outlet
    ],
)
def test_balance_of_a_box(
    start: float, level: float, run_in: float, expected: tuple[float, ...]
) -> None:
    """Source: by hand, 96 × 54 / 231 = 22.442 gal in an inch."""
    found = balance(box(), start_in=start, level_in=level, run_in_gal=run_in)
    assert found == pytest.approx(expected, abs=0.001)


def test_balance_of_a_lying_cylinder() -> None:
    """Source: fluids, volumes of a horizontal cylinder."""
    low, invert, high = (
        geometry.V_horiz_conical(D=60.0, L=102.0, a=0.0, h=depth) / GAL
        for depth in (43.0, 46.0, 48.0)
    )
    found = balance(lying(), start_in=-3.0, level_in=2.0, run_in_gal=150.0)
    expected = (invert - low, high - invert, 150.0 - (high - low))
    assert found == pytest.approx(expected)


@PROPERTY
@given(tanks_with_levels(2), number(0, 500))
def test_no_water_is_lost(drawn, run_in: float) -> None:
    inside, (start, level) = drawn
    parts = balance(inside, start_in=start, level_in=level, run_in_gal=run_in)
    assert sum(parts) == pytest.approx(run_in, abs=1e-6)
    held = inside.between_gal(start, level)
    assert parts[0] + parts[1] == pytest.approx(held, abs=1e-6)


@PROPERTY
@given(tanks_with_levels(1), number(0, 60))
def test_a_blocked_outlet_passes_nothing(drawn, run_in: float) -> None:
    inside, (start,) = drawn
    if inside.shape == "lying cylinder":
        room = inside.volume_gal(inside.diameter_in - inside.liquid_depth_in)
        run_in = min(run_in, room - inside.volume_gal(start))
    level = inside.level_after_in(start, run_in)
    found = balance(inside, start_in=start, level_in=level, run_in_gal=run_in)
    assert found[2] == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("start", "level"), [(-2.0, 0.5), (0.25, 1.0), (-3.0, -2.0)])
def test_uncertainty_of_what_passed_against_simulation(
    start: float, level: float
) -> None:
    """Source: numpy, 20,000 draws of a box's sides, both levels and the flow."""
    draws = np.random.default_rng(7)
    half = {"side": 0.5, "level": 0.125, "run_in": 5.0}

    def drawn(value: float, kind: str) -> np.ndarray:
        return value + draws.uniform(-half[kind], half[kind], 20_000)

    area = drawn(96.0, "side") * drawn(54.0, "side") / 231
    rise = drawn(level, "level") - drawn(start, "level")
    simulated = np.std(drawn(120.0, "run_in") - area * rise)
    u = {kind: a / 3**0.5 for kind, a in half.items()}
    inside = box(48.0, ufloat(96.0, u["side"]), ufloat(54.0, u["side"]))
    _, _, passed = balance(
        inside,
        start_in=ufloat(start, u["level"]),
        level_in=ufloat(level, u["level"]),
        run_in_gal=ufloat(120.0, u["run_in"]),
    )
    assert passed.s == pytest.approx(simulated, rel=0.05)


# The whole test


def test_low_tank_fills_itself_first() -> None:
    """Source: by hand, 2 in × 22.442 gal/in."""
    found = worked([(-5, -2.0), (30, 0.0), (40, 0.0)])
    assert nominal(found.last.made_up_gal) == pytest.approx(44.9, abs=0.05)
    assert nominal(found.last.passed_gal) == pytest.approx(120 - 44.883, abs=0.001)
    blocked = nominal(found.last.blocked_level_in)
    assert blocked == pytest.approx(-2 + 120 / 22.442, abs=0.001)


def test_a_leak_shows_as_water_gone_below_the_outlet() -> None:
    found = worked([(-5, -2.0), (15, -1.5), (30, -1.0)])
    assert nominal(found.last.level_in) < 0
    assert nominal(found.last.passed_gal) == pytest.approx(120 - 22.442, abs=0.001)
    assert all(nominal(one.stored_gal) == 0 for one in found.rows)


def test_the_last_reading_before_the_water_is_the_start() -> None:
    found = worked([(-20, -1.0), (-5, 0.25), (30, 1.0)])
    assert nominal(found.start_in) == 0.25
    assert nominal(found.rows[1].passed_gal) == pytest.approx(0.0)


def test_several_stretches_with_a_pause() -> None:
    """Source: by hand, 4 gal/min × 10 min and 2 gal/min × 10 min."""
    water = [stretch(100, 110, 4.0), stretch(120, 130, 2.0)]
    found = worked([(100, 0), (110, 0.5), (115, 0.25), (120, 0), (130, 0.5)], water)
    assert [one.minute for one in found.rows] == [0, 10, 15, 20, 30]
    run_in = [nominal(one.run_in_gal) for one in found.rows]
    assert run_in == pytest.approx([0, 40, 40, 40, 60])
    assert found.stop_minute == 30
    assert found.at_stop is found.last
    passed = [nominal(one.passed_gal) for one in found.rows]
    assert passed == pytest.approx([0, 28.779, 34.390, 40, 48.779], abs=0.001)


@pytest.mark.parametrize("minute", [-5, 0])
def test_one_reading_only(minute: float) -> None:
    """One reading gives a row and no recovery, whenever it was taken."""
    levels = [(minute, 0.5)]
    found = worked(levels)
    assert len(found.rows) == 1
    assert found.recovery.back_min is None
    results = load_test_results(make_test([stretch(0, 30)], levels), found)
    assert "load_test.peak" in [one.name for one in results]


def test_readings_between_only_after_the_water_stopped() -> None:
    levels = [(0, 0.0), (35, 1.0), (45, 0.5)]
    found = worked(levels)
    assert nominal(found.recovery.back_min) == pytest.approx(25.0)
    results = load_test_results(make_test([stretch(0, 30)], levels), found)
    assert "load_test.recovery" in [one.name for one in results]


def test_peak_held_back_and_rise() -> None:
    """Source: by hand, 0.5 in × 22.442 gal/in of 120 gal."""
    levels = [(0, 0.0), (30, 0.5), (50, 0.0)]
    test = make_test([stretch(0, 30)], levels)
    found = {one.name: one.value for one in load_test_results(test, worked(levels))}
    assert found["load_test.peak"] == 0.5
    assert found["load_test.rise"] == 0.5
    assert found["load_test.held_back"] == pytest.approx(100 * 11.221 / 120, abs=0.01)
    assert found["load_test.passed_total"] == pytest.approx(120)
    assert found["load_test.recovery"] == pytest.approx(20)
    assert found["load_test.recovery_rate"] == pytest.approx(1.5)


def test_no_share_is_held_back_while_the_tank_still_fills() -> None:
    levels = [(0, -10.0), (30, -10 + 120 / 22.441558)]
    test = make_test([stretch(0, 30)], levels)
    names = [one.name for one in load_test_results(test, worked(levels))]
    assert "load_test.held_back" not in names


@pytest.mark.parametrize(("step", "half"), [(None, 0.125), (0.25, 0.25), (0.5, 0.5)])
def test_uncertainty_of_a_level(step: float | None, half: float) -> None:
    """Source: a rectangle of the step that the job names, of 1/8 in otherwise."""
    found = worked([(0, 0.0), (30, 0.5)], step=step)
    assert found.last.level_in.s == pytest.approx(half / 3**0.5)


# The recovery


@pytest.mark.parametrize(
    ("levels", "back", "extrapolated"),
    [
        ([(0, 0.0), (30, 1.0), (40, 0.0)], 10.0, False),
        ([(0, 0.0), (30, 1.0), (40, 0.5), (60, -0.5)], 20.0, False),
        ([(0, 0.0), (30, 0.0), (40, 0.0)], 0.0, False),
        ([(0, 0.0), (20, 1.0), (40, -1.0)], 0.0, False),  # back as the water stopped
        ([(0, 0.0), (30, 2.0), (40, 1.5)], 40.0, True),
        ([(0, 0.0), (30, 2.0), (40, 1.0), (50, 0.75)], 50.0, True),
        ([(0, 0.0), (30, 1.0), (40, 1.0)], None, False),  # stands still
        ([(0, 0.0), (30, 1.0), (40, 1.5)], None, False),  # still rising
        ([(0, 0.0), (30, 1.0)], None, False),  # nobody watched
        ([(0, 0.0), (20, 1.0)], None, False),  # left before the stop
    ],
)
def test_recovery(levels: Levels, back: float | None, extrapolated: bool) -> None:
    """Source: common practice, a straight line between readings, by hand."""
    found = recovery([row(*one) for one in levels], 30.0)
    assert found.back_min == (None if back is None else pytest.approx(back))
    assert found.extrapolated is extrapolated
    assert found.watched_min == max(0.0, levels[-1][0] - 30.0)


@PROPERTY
@given(number(0.1, 10), number(0.01, 1), number(1, 60))
def test_recovery_of_a_steady_fall(level: float, rate: float, watched: float) -> None:
    rows = [row(30.0, level), row(30.0 + watched, level - rate * watched)]
    found = recovery(rows, 30.0)
    assert found.back_min == pytest.approx(level / rate)
    assert found.extrapolated is (level - rate * watched > 0)
    assert found.rate_in_per_min == pytest.approx(rate, rel=1e-6)


def test_uncertainty_of_an_extrapolated_recovery_against_simulation() -> None:
    """Source: numpy, 20,000 draws of two levels."""
    draws = np.random.default_rng(9)
    high, low = (x + draws.uniform(-0.05, 0.05, 20_000) for x in (3.0, 2.0))
    simulated = 30 + low / ((high - low) / 30)
    u = 0.05 / 3**0.5
    rows = [row(30.0, ufloat(3.0, u)), row(60.0, ufloat(2.0, u))]
    found = recovery(rows, 30.0).back_min
    assert found.n == pytest.approx(90.0)
    assert found.s == pytest.approx(np.std(simulated), rel=0.05)
