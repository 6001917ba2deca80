"""The load test as a water balance at every reading: what went in, stayed, went on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.record.model import LevelReading, LoadTest
from generator.results.inflow import Running, volume_by_gal
from generator.results.measured import LEVEL_IN, from_half_width, measured
from generator.results.result import Number, nominal
from generator.results.tank import Inside


@dataclass(frozen=True)
class Balance:
    """Where the water was at one reading.

    ``minute`` counts from the first water; levels are against the outlet invert.
    """

    minute: float
    level_in: Number
    run_in_gal: Number
    made_up_gal: Number
    stored_gal: Number
    passed_gal: Number
    blocked_level_in: Number


@dataclass(frozen=True)
class Recovery:
    """How the level fell after the water stopped; None where nothing shows it."""

    back_min: Number | None
    extrapolated: bool
    watched_min: float
    last_level_in: Number
    rate_in_per_min: Number | None


@dataclass(frozen=True)
class Test:
    """The whole test: the stretches, the balance of every reading, the recovery."""

    running: tuple[Running, ...]
    rows: tuple[Balance, ...]
    first_min: float
    start_in: Number
    stop_minute: float
    recovery: Recovery

    @property
    def peak(self) -> Balance:
        """The reading with the highest level."""
        return max(self.rows, key=lambda row: nominal(row.level_in))

    @property
    def last(self) -> Balance:
        """The last reading."""
        return self.rows[-1]

    @property
    def at_stop(self) -> Balance:
        """The last reading that was taken no later than the water stopped."""
        return [row for row in self.rows if row.minute <= self.stop_minute][-1]


def balance(
    inside: Inside, *, start_in: Number, level_in: Number, run_in_gal: Number
) -> tuple[Number, Number, Number]:
    """Split the water run in into what filled up, what stands above and what went on.

    Parameters
    ----------
    inside : Inside
        The tank.
    start_in, level_in : float
        Level before the water and level now, against the outlet invert. [in]
    run_in_gal : float
        Water run in until now. [gal]

    Returns
    -------
    tuple of float, shape (3,)
        Deficit made up below the invert, change of storage above it, and what passed
        the outlet. [gal]

    Notes
    -----
    Conservation of volume: in = made up + stored + passed on. A tank that stands below
    its outlet first fills itself. Source: [GUM] for the propagation; the balance
    follows from the definition of the volumes.

    Examples
    --------
    >>> from generator.results.tank import Inside
    >>> box = Inside("box", 48.0, 96.0, 54.0)
    >>> [round(x, 1) for x in
    ...  balance(box, start_in=-2.0, level_in=0.5, run_in_gal=100.0)]
    [44.9, 11.2, 43.9]
    """
    start, now = nominal(start_in), nominal(level_in)
    low_start, low_now = (x if nominal(x) < 0 else 0.0 for x in (start_in, level_in))
    top_start, top_now = (x if nominal(x) >= 0 else 0.0 for x in (start_in, level_in))
    made_up = inside.between_gal(low_start, low_now) if min(start, now) < 0 else 0.0
    stored = inside.between_gal(top_start, top_now) if max(start, now) >= 0 else 0.0
    return made_up, stored, run_in_gal - made_up - stored


def work_out(test: LoadTest, inside: Inside, runs: Sequence[Running]) -> Test:
    """Work out the balance of every reading of a recorded test."""
    first = runs[0].start_min
    readings = [(one.time.minutes, _level(test, one)) for one in test.levels]
    start = [level for minute, level in readings if minute <= first][-1]
    rows = []
    for minute, level in readings:
        run_in = volume_by_gal(runs, minute)
        made_up, stored, passed = balance(
            inside, start_in=start, level_in=level, run_in_gal=run_in
        )
        blocked = inside.level_after_in(start, run_in)
        rows.append(
            Balance(minute - first, level, run_in, made_up, stored, passed, blocked)
        )
    stop = runs[-1].stop_min - first
    return Test(tuple(runs), tuple(rows), first, start, stop, recovery(rows, stop))


def recovery(rows: Sequence[Balance], stop_minute: float) -> Recovery:
    """Find when the level was back at the outlet invert after the water stopped.

    Parameters
    ----------
    rows : sequence of Balance
        The readings in order of time. [min], [in]
    stop_minute : float
        When the water stopped. [min]

    Returns
    -------
    Recovery
        Minutes from the stop until the invert: read between two readings, or drawn on
        at the last rate where the readings end above it (then a lower bound, since
        outflow slackens as the level falls). [min], [in], [in/min]

    Notes
    -----
    Straight line between readings. Common practice, no source.

    Examples
    --------
    >>> rows = [Balance(m, h, 0, 0, 0, 0, 0) for m, h in ((30., 1.), (40., 0.))]
    >>> recovery(rows, 30.0).back_min
    10.0
    """
    after = [row for row in rows if row.minute >= stop_minute]
    before = [row for row in rows if row.minute < stop_minute]
    falling = (
        [*before[-1:], *after] if not after or after[0].minute > stop_minute else after
    )
    last = rows[-1]
    watched = max(0.0, last.minute - stop_minute)
    if not after or not watched:
        return Recovery(None, False, watched, last.level_in, None)
    for high, low in pairwise(falling):
        if low.minute > stop_minute and nominal(low.level_in) <= 0:
            back = _crossing(high, low) - stop_minute
            return Recovery(
                back if nominal(back) > 0 else 0.0,
                False,
                watched,
                last.level_in,
                _rate(high, low),
            )
    rate = _rate(falling[-2], falling[-1])
    if nominal(rate) <= 0:
        return Recovery(None, False, watched, last.level_in, rate)
    return Recovery(watched + last.level_in / rate, True, watched, last.level_in, rate)


def _rate(high: Balance, low: Balance) -> Number:
    return (high.level_in - low.level_in) / (low.minute - high.minute)


def _crossing(high: Balance, low: Balance) -> Number:
    if nominal(high.level_in) <= 0:
        return high.minute
    fall = high.level_in - low.level_in
    return high.minute + (low.minute - high.minute) * high.level_in / fall


def _level(test: LoadTest, reading: LevelReading) -> Number:
    step = test.levels_read_to
    if step is None:
        return measured(reading.level.inches, LEVEL_IN)
    return from_half_width(reading.level.inches, step.inches)
