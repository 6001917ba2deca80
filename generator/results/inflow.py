"""Flow of the test water, the volume run by any minute, and minutes for a target."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from statistics import fmean, stdev

from uncertainties import ufloat

from generator.record.model import LoadTest, Stretch
from generator.results.measured import (
    BUCKET,
    METER_SHARE,
    WATCH_MIN,
    from_half_width,
    stepped,
)
from generator.results.result import Number, Result, Symbol

METER_STEP_GAL = 1.0  # assumed where the job names none; our choice, shown as such


@dataclass(frozen=True)
class Running:
    """One stretch of running water: start, stop and flow. [min], [min], [gal/min]"""

    start_min: float
    stop_min: float
    flow_gpm: Number


def bucket_flow_gpm(
    gallons: Sequence[float],
    minutes: Sequence[float],
    *,
    mark_half_width_gal: float | None = None,
) -> Number:
    """Flow from timed fills of a bucket, repeats and instruments combined.

    Parameters
    ----------
    gallons : sequence of float, shape (n,)
        Volume of each fill. [gal]
    minutes : sequence of float, shape (n,)
        Time of each fill. [min]
    mark_half_width_gal : float, optional
        The most that the bucket's mark may be off; 3 % of a fill when left out. [gal]

    Returns
    -------
    uncertainties.UFloat
        Mean flow with its standard uncertainty. [gal/min]

    Notes
    -----
    Repeats: standard deviation of the mean. Bucket mark: one rectangle common to
    all fills. Stopwatch: one rectangle a fill, counted only where a single fill
    leaves no scatter to show it. Sources: [GUM], 4.2.3 (repeats), 4.3.7 (rectangle)
    and 5.1.2 (root of the sum of squares).

    Examples
    --------
    >>> bucket_flow_gpm([5.0], [0.25]).nominal_value
    20.0
    """
    rates = [gallon / minute for gallon, minute in zip(gallons, minutes, strict=True)]
    mean = fmean(rates)
    fill = fmean(gallons)
    mark = (
        BUCKET.half_width(fill) if mark_half_width_gal is None else mark_half_width_gal
    )
    watch = WATCH_MIN.fixed / fmean(minutes)
    share = mark / fill / sqrt(3)
    if len(rates) > 1:
        repeats = stdev(rates) / sqrt(len(rates))
    else:
        repeats = mean * watch / sqrt(3)
    return ufloat(mean, sqrt(repeats**2 + (mean * share) ** 2))


def meter_flow_gpm(
    first_gal: float, last_gal: float, minutes: float, *, step_gal: float
) -> Number:
    """Flow from two readings of a water meter.

    Parameters
    ----------
    first_gal, last_gal : float
        The readings. [gal]
    minutes : float
        Time between them. [min]
    step_gal : float
        Smallest step that the meter shows. [gal]

    Returns
    -------
    uncertainties.UFloat
        Flow with its standard uncertainty. [gal/min]

    Notes
    -----
    Two stepped readings and the meter's own accuracy. Source: [GUM], F.2.2.1 (steps)
    and 4.3.7 (rectangle).

    Examples
    --------
    >>> round(meter_flow_gpm(100.0, 220.0, 30.0, step_gal=1.0).nominal_value, 3)
    4.0
    """
    run = stepped(last_gal, step_gal) - stepped(first_gal, step_gal)
    accuracy = from_half_width(1.0, METER_SHARE.share)
    return run * accuracy / minutes


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
        The stretches. [min], [gal/min]
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


def inflow_results(test: LoadTest, runs: Sequence[Running]) -> list[Result]:
    """Work out the flow of each stretch, the whole volume and the target's minutes."""
    results = [
        _flow_result(number, stretch, run)
        for number, (stretch, run) in enumerate(zip(test.water, runs, strict=True), 1)
    ]
    total = volume_by_gal(runs, runs[-1].stop_min)
    minutes = sum(run.stop_min - run.start_min for run in runs)
    mean = total / minutes
    clock = tuple(one.path(key) for one in test.water for key in ("from", "to"))
    results.append(
        Result(
            "inflow.volume",
            "Water run in",
            total,
            "gal",
            "V = Q × t",
            (
                Symbol("Q", mean, "gal/min", "mean flow"),
                Symbol("t", minutes, "min", "time that the water ran"),
            ),
            clock,
            "EXAM-FILL",
        )
    )
    if test.target:
        target = test.target.gallons
        results.append(
            Result(
                "inflow.minutes_for_target",
                "Minutes of running water for the target",
                minutes_for(target, mean),
                "min",
                "t = Vt / Q",
                (
                    Symbol("Vt", target, "gal", "target volume"),
                    Symbol("Q", mean, "gal/min", "mean flow"),
                ),
                (test.path("target"),),
                "EXAM-FILL",
            )
        )
    return results


def _flow_result(number: int, stretch: Stretch, run: Running) -> Result:
    name = f"inflow.flow.{number}"
    label = f"Flow of the test water from {stretch.from_.typed}"
    if stretch.bucket:
        fills = stretch.bucket
        rates = [
            Symbol(f"q{i}", fill.gallons / fill.minutes, "gal/min", fill.typed)
            for i, fill in enumerate(fills, 1)
        ]
        names = " + ".join(symbol.name for symbol in rates)
        mark = BUCKET.assumption()
        if stretch.bucket_good_to:
            recorded = stretch.bucket_good_to.typed
            mark = f"bucket mark: right within {recorded}, as recorded"
        return Result(
            name,
            label,
            run.flow_gpm,
            "gal/min",
            f"Q = ({names}) / n",
            (*rates, Symbol("n", len(fills), "-", "number of fills")),
            (stretch.path("bucket"),),
            "GUM",
            (mark, *(() if len(fills) > 1 else (WATCH_MIN.assumption(),))),
        )
    assert stretch.meter_from is not None  # slips.py holds this
    assert stretch.meter_to is not None  # and this
    return Result(
        name,
        label,
        run.flow_gpm,
        "gal/min",
        "Q = (m2 − m1) / t",
        (
            Symbol("m1", stretch.meter_from.gallons, "gal", "meter at start"),
            Symbol("m2", stretch.meter_to.gallons, "gal", "meter at end"),
            Symbol("t", run.stop_min - run.start_min, "min", "time between"),
        ),
        tuple(stretch.path(key) for key in ("meter_from", "meter_to", "from", "to")),
        "GUM",
        (
            METER_SHARE.assumption(),
            *(() if stretch.meter_reads_to else (STEP_ASSUMED,)),
        ),
    )


STEP_ASSUMED = "meter read to 1 gal (our own assumption; the job names no step)"
