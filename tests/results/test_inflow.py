"""Flow of the test water: printed arithmetic, and the combination of uncertainties."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from published import Entry, allowed, entry
from result_builders import PROPERTY, make_test, number, stretch
from uncertainties import ufloat

from generator.quantity import Clock, TimedVolume, Volume
from generator.record.water import OtherWater, Stretch
from generator.results.inflow import (
    NONE_NAMED,
    Running,
    household_running,
    inflow_results,
    mean_flow_gpm,
    minutes_for,
    running,
    volume_by_gal,
)
from generator.results.inflow_flow_result import STEP_ASSUMED, UNSTEADY
from generator.results.inflow_measured import bucket_flow_gpm, meter_flow_gpm, steady


def metered(**changes: object) -> Stretch:
    """Thirty minutes of water by meter."""
    given_: dict[str, object] = {
        "meter_from": Volume(100.0, "100 gal"),
        "meter_to": Volume(220.0, "220 gal"),
        **changes,
    }
    return Stretch(
        at="load_test.water[0]",
        from_=Clock(0.0, "start"),
        to=Clock(30.0, "stop"),
        **given_,  # type: ignore[arg-type]
    )


@pytest.mark.parametrize("one", [entry("bucket-a"), entry("bucket-b")])
def test_bucket(one: Entry) -> None:
    """Source: two general pages on flow, arithmetic only."""
    minutes = one["inputs"]["seconds"] / 60
    found = bucket_flow_gpm([one["inputs"]["volume_gal"]], [minutes])
    assert found.n == allowed(one, one["expected"]["gpm"])


@pytest.mark.parametrize("one", [entry("bucket-b")])
def test_three_fills_one_by_one(one: Entry) -> None:
    """Source: the same page, its total cut in three equal fills."""
    third = one["inputs"]["volume_gal"] / 3
    found = bucket_flow_gpm([third] * 3, [one["inputs"]["seconds"] / 180] * 3)
    assert found.n == allowed(one, one["expected"]["gpm"])


@pytest.mark.parametrize("one", [entry("fill-time")])
def test_time_to_fill(one: Entry) -> None:
    """Source: wastewater101.net."""
    found = minutes_for(one["inputs"]["volume_gal"], one["inputs"]["gpm"])
    assert found == allowed(one, one["expected"]["minutes"])


@pytest.mark.parametrize("one", [entry("fill-time")])
def test_water_run_in_is_the_same_sum_turned_round(one: Entry) -> None:
    """Source: wastewater101.net."""
    run = Running(0.0, one["expected"]["minutes"], one["inputs"]["gpm"])
    found = volume_by_gal([run], 1000.0)
    assert found == allowed(one, one["inputs"]["volume_gal"])


@pytest.mark.parametrize("one", [entry("sum-mahun")])
def test_stretches_add_as_squares(one: Entry) -> None:
    """Source: Mahun, root of the sum of squares; the sum is computed, not seen."""
    errors = one["inputs"]["errors_ft"]
    runs = [Running(i, i + 1.0, ufloat(10.0, u)) for i, u in enumerate(errors)]
    assert volume_by_gal(runs, 3.0).s == allowed(one, one["expected"]["s_ft"])


def test_repeats_and_bucket_mark() -> None:
    """Source: numpy, standard deviation of the mean; GUM 5.1.2 (from memory)."""
    gallons, minutes = [5.0, 5.0, 5.0], [1.25, 1.2167, 1.2667]
    rates = np.divide(gallons, minutes)
    repeats = rates.std(ddof=1) / sqrt(3)
    mark = rates.mean() * 0.1 / 5 / sqrt(3)
    found = bucket_flow_gpm(gallons, minutes, mark_half_width_gal=0.1)
    assert found.n == pytest.approx(rates.mean())
    assert found.s == pytest.approx(np.hypot(repeats, mark))


def test_a_single_fill_counts_the_watch() -> None:
    """Source: numpy; half a second in 60, and 3 % of the bucket, both rectangles."""
    found = bucket_flow_gpm([5.0], [1.0])
    assert found.s == pytest.approx(5.0 * np.hypot(0.5 / 60, 0.03) / sqrt(3))


def test_flow_by_bucket_against_simulation() -> None:
    """Source: numpy, 20,000 draws of one bucket's mark and one watch."""
    draws = np.random.default_rng(3)
    volume = 5.0 * (1 + draws.uniform(-0.03, 0.03, 20_000))
    minutes = 1.0 + draws.uniform(-0.5 / 60, 0.5 / 60, 20_000)
    found = bucket_flow_gpm([5.0], [1.0])
    assert found.s == pytest.approx(np.std(volume / minutes), rel=0.05)


def test_flow_by_meter_against_simulation() -> None:
    """Source: numpy, 20,000 draws of two steps and the meter's accuracy."""
    draws = np.random.default_rng(4)
    steps = draws.uniform(-0.5, 0.5, (2, 20_000))
    run = 120.0 + steps[1] - steps[0]
    flows = run * (1 + draws.uniform(-0.015, 0.015, 20_000)) / 30
    found = meter_flow_gpm(100.0, 220.0, 30.0, step_gal=1.0)
    assert found.n == pytest.approx(4.0)
    assert found.s == pytest.approx(np.std(flows), rel=0.05)


@PROPERTY
@given(number(0.5, 30), number(1, 60), number(0, 30), number(0, 1))
def test_water_run_in_never_falls(
    gpm: float, minutes: float, pause: float, share: float
) -> None:
    runs = [
        Running(0.0, minutes, gpm),
        Running(minutes + pause, 2 * minutes + pause, gpm),
    ]
    end = runs[-1].stop_min
    assert volume_by_gal(runs, share * end) <= volume_by_gal(runs, end) + 1e-9
    assert volume_by_gal(runs, end) == pytest.approx(2 * minutes * gpm)
    assert minutes_for(gpm * minutes, gpm) == pytest.approx(minutes)


def test_nothing_has_run_before_the_start_or_in_a_pause() -> None:
    runs = [Running(10.0, 40.0, 4.0), Running(50.0, 60.0, 3.0)]
    found = [volume_by_gal(runs, minute) for minute in (0, 10, 40, 45, 50, 60, 90)]
    assert found == [0, 0, 120, 120, 120, 150, 150]


def test_no_flow_runs_nothing() -> None:
    assert volume_by_gal([Running(0.0, 30.0, 0.0)], 30.0) == 0
    assert volume_by_gal([], 30.0) == 0


def test_a_recorded_stretch_by_bucket_and_by_meter() -> None:
    assert running(stretch(0, 30, 4.0)).flow_gpm.n == pytest.approx(4.0)
    assert running(metered()).flow_gpm.n == pytest.approx(4.0)
    tighter = running(metered(meter_reads_to=Volume(0.1, "0.1 gal")))
    assert tighter.flow_gpm.s < running(metered()).flow_gpm.s


def test_results_name_the_assumed_step_only_where_it_was_assumed() -> None:
    for one, assumed in (
        (metered(), True),
        (metered(meter_reads_to=Volume(0.1, "0.1 gal")), False),
    ):
        results = inflow_results(make_test([one], [], target=150), [running(one)])
        assert [found.name for found in results] == [
            "inflow.flow.1",
            "inflow.volume",
        ]
        assert [found.value for found in results] == pytest.approx([4.0, 120.0])
        assert (STEP_ASSUMED in results[0].assumptions) is assumed


def test_two_fills_that_agree_are_no_surer_than_the_watch() -> None:
    """Source: numpy; the watch of each fill, and the mark common to both."""
    found = bucket_flow_gpm([5.0, 5.0], [1.0, 1.0])
    watch = 5.0 * 0.5 / 60 / sqrt(3) / sqrt(2)
    assert found.s == pytest.approx(np.hypot(watch, 5.0 * 0.03 / sqrt(3)))


def test_many_fills_against_simulation() -> None:
    """Source: numpy, 4,000 buckets of one mark each, six fills with their watch."""
    draws = np.random.default_rng(5)
    volume = 5.0 * (1 + draws.uniform(-0.03, 0.03, (4_000, 1)))
    rates = volume / (1.0 + draws.uniform(-0.5 / 60, 0.5 / 60, (4_000, 6)))
    found = bucket_flow_gpm([5.0] * 6, [1.0] * 6)
    assert found.s == pytest.approx(np.std(rates.mean(axis=1)), rel=0.05)


@pytest.mark.parametrize(
    ("minutes", "expected"),
    [
        ([1.25, 1.25], True),
        ([1.25, 1.2167, 1.2667], True),  # 4 % apart where 7 % can be explained
        ([1.25, 1.1], False),
        ([1.25], True),
    ],
)
def test_steady(minutes: list[float], expected: bool) -> None:
    """Source: by hand, twice 3 % of the mark and half a second of the time."""
    assert steady([5.0] * len(minutes), minutes) is expected
    fills = tuple(TimedVolume(5.0, one, "a fill") for one in minutes)
    one = Stretch(from_=Clock(0.0, ""), to=Clock(30.0, ""), bucket=fills)
    [flow, _] = inflow_results(make_test([one], []), [running(one)])
    assert (UNSTEADY in flow.assumptions) is not expected


def test_four_gallons_a_minute_for_half_an_hour() -> None:
    """Common practice, no source: a household seldom sends 100 gal at once."""
    assert volume_by_gal([running(stretch(0, 30, 4.0))], 30.0).n == pytest.approx(120.0)


@pytest.mark.parametrize("errors", [(0.1, 0.2), (0.3, 0.1)])
def test_mean_flow_over_stretches(errors: tuple[float, float]) -> None:
    """Source: numpy, mean weighted by the time; the pause does not count."""
    runs = [
        Running(0.0, 30.0, ufloat(4.0, errors[0])),
        Running(45.0, 55.0, ufloat(2.0, errors[1])),
    ]
    found = mean_flow_gpm(runs)
    assert found.n == pytest.approx(np.average([4.0, 2.0], weights=[30, 10]))
    assert found.s == pytest.approx(np.hypot(0.75 * errors[0], 0.25 * errors[1]))


def use(start: float, stop: float, gallons: float, off: float | None) -> OtherWater:
    """Some water of the household."""
    return OtherWater(
        at="load_test.other_water[0]",
        from_=Clock(start, "from"),
        to=Clock(stop, "to"),
        gallons=Volume(gallons, f"{gallons:g} gal"),
        give_or_take=None if off is None else Volume(off, f"{off:g} gal"),
    )


def test_household_water_runs_evenly() -> None:
    """Source: by hand, 12 gal in 8 min."""
    runs = household_running([use(10, 18, 12.0, 0.0)], 0.0)
    found = [volume_by_gal(runs, minute) for minute in (9, 10, 14, 18, 60)]
    assert found == pytest.approx([0, 0, 6, 12, 12])


@pytest.mark.parametrize(("off", "half"), [(2.0, 2.0), (None, 3.0), (0.0, 0.0)])
def test_how_sure_household_water_is(off: float | None, half: float) -> None:
    """Source: a rectangle; a quarter of 12 gal where nothing is named (our choice)."""
    test = replace(
        make_test([stretch(0, 30)], [(-5, 0.0)]), other_water=(use(10, 18, 12.0, off),)
    )
    [_, _, other] = inflow_results(test, [running(test.water[0])])
    assert (other.name, other.value) == ("inflow.other", pytest.approx(12.0))
    assert other.uncertainty == pytest.approx(half / sqrt(3))
    quarter = "household water: taken to be right within a quarter"
    assert any(quarter in one for one in other.assumptions) is (off is None)


@pytest.mark.parametrize(
    ("start", "stop", "counted"),
    [(-20, -10, 0.0), (-10, 0, 6.0), (-5, 5, 12.0), (40, 50, 12.0)],
)
def test_water_before_the_first_level_is_left_out(
    start: float, stop: float, counted: float
) -> None:
    test = replace(
        make_test([stretch(0, 30)], [(-5, 0.0)]),
        other_water=(use(start, stop, 12.0, 0.0),),
    )
    other = inflow_results(test, [running(test.water[0])])[-1]
    assert other.value == pytest.approx(counted)


def test_silence_on_household_water_is_an_assumption() -> None:
    test = make_test([stretch(0, 30)], [])
    assert NONE_NAMED in inflow_results(test, [running(test.water[0])])[1].assumptions
