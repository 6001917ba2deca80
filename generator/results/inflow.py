"""Water that has run in by any minute: from the hose, and from the household."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.record.water import LoadTest, OtherWater, Stretch
from generator.results.inflow_flow_result import METER_STEP_GAL, flow_result
from generator.results.inflow_measured import bucket_flow_gpm, meter_flow_gpm
from generator.results.measured import (
    OTHER_WATER,
    from_half_width,
    measured,
)
from generator.results.result import Number, Result, Symbol

NONE_NAMED = "household water meanwhile: none, since the job names none"
EVENLY = "household water: taken as running evenly between its times (our own choice)"


@dataclass(frozen=True)
class Running:
    """One stretch of running water: start, stop and flow. [min], [min], [gal/min]"""

    start_min: float
    stop_min: float
    flow_gpm: Number


def minutes_for(target_gal: Number, flow_gpm: Number) -> Number:
    """Minutes of running water for a target volume.

    Parameters
    ----------
    target_gal : float
        The volume. [gal]
    flow_gpm : float
        The flow; above zero. [gal/min]

    Returns
    -------
    float
        The time. [min]

    Notes
    -----
    Volume over flow. Source: [EXAM-FILL], time to fill a tank.

    Examples
    --------
    >>> minutes_for(500.0, 25.0)
    20.0
    """
    return target_gal / flow_gpm


def volume_by_gal(runs: Sequence[Running], minute: float) -> Number:
    """Water run in by a minute, over every stretch.

    Parameters
    ----------
    runs : sequence of Running
        The stretches; they may overlap. [min], [gal/min]
    minute : float
        The time on the same clock. [min]

    Returns
    -------
    float
        Volume run in until then. [gal]

    Notes
    -----
    Sum of flow times time. Source: [EXAM-FILL].

    Examples
    --------
    >>> volume_by_gal([Running(0.0, 30.0, 4.0), Running(40.0, 50.0, 3.0)], 45.0)
    135.0
    """
    total: Number = 0.0
    for run in runs:
        ran = max(0.0, min(minute, run.stop_min) - run.start_min)
        total = total + run.flow_gpm * ran
    return total


def mean_flow_gpm(runs: Sequence[Running]) -> Number:
    """Mean flow while the water ran, over every stretch.

    Parameters
    ----------
    runs : sequence of Running
        The stretches, at least one, each longer than nothing. [min], [gal/min]

    Returns
    -------
    float
        The whole volume over the whole time, pauses left out. [gal/min]

    Notes
    -----
    Volume over time. Source: [EXAM-FILL].

    Examples
    --------
    >>> mean_flow_gpm([Running(0.0, 30.0, 4.0), Running(40.0, 50.0, 2.0)])
    3.5
    """
    minutes = sum(run.stop_min - run.start_min for run in runs)
    return sum(run.flow_gpm * (run.stop_min - run.start_min) for run in runs) / minutes


def running(stretch: Stretch) -> Running:
    """Take one recorded stretch with its flow and uncertainty."""
    start, stop = stretch.from_.minutes, stretch.to.minutes
    if stretch.bucket:
        good_to = stretch.bucket_good_to
        flow = bucket_flow_gpm(
            [fill.gallons for fill in stretch.bucket],
            [fill.minutes for fill in stretch.bucket],
            mark_half_width_gal=good_to.gallons if good_to else None,
        )
        return Running(start, stop, flow)
    assert stretch.meter_from is not None  # slips.py holds this
    assert stretch.meter_to is not None  # and this
    step = stretch.meter_reads_to
    flow = meter_flow_gpm(
        stretch.meter_from.gallons,
        stretch.meter_to.gallons,
        stop - start,
        step_gal=step.gallons if step else METER_STEP_GAL,
    )
    return Running(start, stop, flow)


def household_running(
    uses: Sequence[OtherWater], since_min: float
) -> tuple[Running, ...]:
    """Take the water of the household, each use evenly between its times.

    Parameters
    ----------
    uses : sequence of OtherWater
        The recorded uses. [gal], [min]
    since_min : float
        When the level before the test was read; what ran before it is already in that
        level and is left out. [min]

    Returns
    -------
    tuple of Running
        One stretch a use, none for a use that was over by then. [min], [gal/min]

    Notes
    -----
    A use without its own give-or-take is taken to be right within a quarter. Common
    practice, no source.

    Examples
    --------
    >>> from generator.quantity import Clock, Volume
    >>> use = OtherWater(from_=Clock(10.0, ""), to=Clock(20.0, ""),
    ...                  gallons=Volume(12.0, ""), give_or_take=Volume(0.0, ""))
    >>> household_running([use], 15.0)
    (Running(start_min=15.0, stop_min=20.0, flow_gpm=1.2),)
    """
    return tuple(
        Running(
            max(use.from_.minutes, since_min),
            use.to.minutes,
            _gallons(use) / (use.to.minutes - use.from_.minutes),
        )
        for use in uses
        if use.to.minutes > max(since_min, use.from_.minutes)
    )


def inflow_results(test: LoadTest, runs: Sequence[Running]) -> list[Result]:
    """Work out the flow of each stretch, the whole volume and the household's share."""
    found = [
        flow_result(number, stretch, run.flow_gpm)
        for number, (stretch, run) in enumerate(zip(test.water, runs, strict=True), 1)
    ]
    minutes = sum(run.stop_min - run.start_min for run in runs)
    clock = tuple(one.path(key) for one in test.water for key in ("from", "to"))
    found.append(
        Result(
            "inflow.volume",
            "Water run in by the hose" if test.other_water else "Water run in",
            volume_by_gal(runs, runs[-1].stop_min),
            "gal",
            "V = Q × t",
            (
                Symbol("Q", mean_flow_gpm(runs), "gal/min", "mean flow"),
                Symbol("t", minutes, "min", "time that the water ran"),
            ),
            clock,
            "EXAM-FILL",
            () if test.other_water else (NONE_NAMED,),
        )
    )
    return found + _other_results(test)


def _other_results(test: LoadTest) -> list[Result]:
    if not test.other_water:
        return []
    first = test.water[0].from_.minutes
    before = [one.time.minutes for one in test.levels if one.time.minutes <= first]
    since = before[-1] if before else first
    uses = household_running(test.other_water, since)
    keys = ("from", "to", "gallons")
    assumed = [EVENLY]
    if any(use.give_or_take is None for use in test.other_water):
        assumed.append(OTHER_WATER.assumption())
    if any(use.from_.minutes < since for use in test.other_water):
        assumed.append("what ran before the first level was read is left out")
    return [
        Result(
            "inflow.other",
            "Household water that came meanwhile",
            volume_by_gal(uses, max((use.stop_min for use in uses), default=since)),
            "gal",
            "sum of the uses, from the level before the test on",
            (),
            tuple(use.path(key) for use in test.other_water for key in keys),
            "practice",
            tuple(assumed),
        )
    ]


def _gallons(use: OtherWater) -> Number:
    if use.give_or_take is None:
        return measured(use.gallons.gallons, OTHER_WATER)
    return from_half_width(use.gallons.gallons, use.give_or_take.gallons)
