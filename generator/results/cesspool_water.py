"""Water run into a pit: what stayed in it, what went on, how fast it fell after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.quantity import MINUTES_PER_HOUR
from generator.record.cesspool import Cesspool, PitLevel
from generator.record.water import Stretch
from generator.results.cesspool_inside import Pit
from generator.results.inflow import Running, running, volume_by_gal
from generator.results.measured import Method, measured
from generator.results.result import Number

CLOCK_MIN = Method(
    0.5, 0.0, "choice", "times of the readings: taken to be right within half a minute"
)


def taken_gal(run_in_gal: Number, stored_gal: Number) -> Number:
    """Water that left a pit while water ran in.

    Parameters
    ----------
    run_in_gal : float
        Water run in. [gal]
    stored_gal : float
        What the rise of the level stored; negative where it fell. [gal]

    Returns
    -------
    float
        Run in less stored. [gal]

    Notes
    -----
    It holds what went into the soil, into the stone round the pit, and out of an
    overflow. Source: [BALANCE], for the pit.

    Examples
    --------
    >>> taken_gal(120.0, 84.0)
    36.0
    """
    return run_in_gal - stored_gal


def fall_in_per_h(first_in: Number, last_in: Number, minutes: Number) -> Number:
    """Rate at which a level falls.

    Parameters
    ----------
    first_in, last_in : float
        Depth down to the liquid at the first and at the last reading. [in]
    minutes : float
        Time between the two; above zero. [min]

    Returns
    -------
    float
        Mean fall; negative where the level rose. [in/h]

    Notes
    -----
    A mean over the time: outflow slackens as the level falls. Common practice, no
    source.

    Examples
    --------
    >>> fall_in_per_h(50.0, 51.0, 30.0)
    2.0
    """
    return (last_in - first_in) / minutes * MINUTES_PER_HOUR


@dataclass(frozen=True)
class Row:
    """Where the water was at one reading; gallons are None without a plan."""

    recorded: PitLevel
    down_in: Number
    run_in_gal: Number
    stored_gal: Number | None
    taken_gal: Number | None

    @property
    def minute(self) -> float:
        """Time of day of the reading. [min]"""
        return self.recorded.time.minutes


@dataclass(frozen=True)
class PitTest:
    """A test of a pit: its water, and its readings from the first water on."""

    pit: Pit
    runs: tuple[Running, ...]
    start_in: Number
    start_path: str
    rows: tuple[Row, ...]

    @classmethod
    def of(cls, pit: Pit) -> PitTest | None:
        """Work out a recorded test, or give None where it cannot be worked out."""
        if not pit.recorded.water or cannot(pit.recorded):
            return None
        runs = tuple(running(one) for one in pit.recorded.water)
        first = runs[0].start_min
        levels = sorted(pit.recorded.levels, key=lambda one: one.time.minutes)
        before = [one for one in levels if one.time.minutes <= first]
        after = [one for one in levels if one.time.minutes > first]
        if before:
            start, path = pit.level_in(before[-1].down), before[-1].path("down")
        else:
            start, path = pit.liquid_in, pit.recorded.path("liquid_down")
        if start is None or not after:
            return None
        rows = tuple(_row(pit, runs, start, one) for one in after)
        return cls(pit, runs, start, path, rows)

    @property
    def stop_min(self) -> float:
        """Time of day at which the last water stopped. [min]"""
        return max(run.stop_min for run in self.runs)

    @property
    def still(self) -> list[Row]:
        """The readings from the stop of the water on."""
        return [row for row in self.rows if row.minute >= self.stop_min]

    @property
    def at_stop(self) -> Row:
        """The first reading from the stop on, or the last one before it."""
        return (self.still or [self.rows[-1]])[0]

    @property
    def highest(self) -> Row:
        """The reading at which the liquid stood highest."""
        return min(self.rows, key=lambda row: row.recorded.down.inches)

    @property
    def run_in_gal(self) -> Number:
        """All the water that ran in. [gal]"""
        return volume_by_gal(self.runs, self.stop_min)

    @property
    def minutes(self) -> Number:
        """Time between the first and the last reading after the stop. [min]"""
        return _between(self.still[0], self.still[-1])


def _row(pit: Pit, runs: Sequence[Running], start_in: Number, one: PitLevel) -> Row:
    down, run_in = pit.level_in(one.down), volume_by_gal(runs, one.time.minutes)
    stored = pit.gal(start_in - down)
    taken = None if stored is None else taken_gal(run_in, stored)
    return Row(one, down, run_in, stored, taken)


def _between(first: Row, last: Row) -> Number:
    return measured(last.minute, CLOCK_MIN) - measured(first.minute, CLOCK_MIN)


def rate_in_per_h(first: Row, last: Row) -> Number:
    """Rate at which the liquid fell between two readings.

    Parameters
    ----------
    first, last : Row
        Two readings at different times. [in], [min]

    Returns
    -------
    float
        Mean fall. [in/h]

    Notes
    -----
    Levels and times both carry their uncertainty. Source: [GUM], 5.1.2.

    Examples
    --------
    >>> from generator.quantity import Clock, Length
    >>> rows = [Row(PitLevel(time=Clock(m, ""), down=Length(d, "")), d, 0, 0, 0)
    ...         for m, d in ((600.0, 50.0), (630.0, 51.0))]
    >>> round(rate_in_per_h(*rows).nominal_value, 3)
    2.0
    """
    return fall_in_per_h(first.down_in, last.down_in, _between(first, last))


def cannot(pit: Cesspool) -> str:
    """Say why the water of a pit cannot be worked out, or nothing.

    Parameters
    ----------
    pit : Cesspool
        The recorded pit.

    Returns
    -------
    str
        A part of a sentence; empty where nothing stands in the way.

    Notes
    -----
    Our reading of a file; common practice, no source.

    Examples
    --------
    >>> cannot(Cesspool(kind="cesspool"))
    ''
    """
    if any(_unmeasured(one) for one in pit.water):
        return "the flow of the water was not measured"
    if any(one.to.minutes <= one.from_.minutes for one in pit.water):
        return "the water stops before it starts"
    for one, following in pairwise(pit.water):
        if following.from_.minutes < one.to.minutes:
            return "one stretch of water starts before the one above it stops"
    times = [one.time.minutes for one in pit.levels]
    if any(later <= earlier for earlier, later in pairwise(times)):
        return "the levels do not stand in order of time"
    return ""


def _unmeasured(one: Stretch) -> bool:
    if one.bucket:
        return any(fill.minutes <= 0 for fill in one.bucket)
    if one.meter_from is None or one.meter_to is None:
        return True
    return one.meter_to.gallons <= one.meter_from.gallons
