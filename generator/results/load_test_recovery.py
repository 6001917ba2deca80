"""How the level came back to the outlet after the water of a load test stopped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from generator.results.result import Number, nominal

LEAST_RATE = 1e-6  # in/min; a fall that is slower is none, our choice (1/2 in a year)


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
    Straight line between readings. A fall that began before the water stopped is not
    drawn on, since it was slowed by the water. Common practice, no source.

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
    if not after or not watched or len(falling) == 1:
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
    if nominal(rate) < LEAST_RATE or falling[-2].minute < stop_minute:
        return Recovery(None, False, watched, last.level_in, rate)
    return Recovery(watched + last.level_in / rate, True, watched, last.level_in, rate)


def _rate(high: Balance, low: Balance) -> Number:
    return (high.level_in - low.level_in) / (low.minute - high.minute)


def _crossing(high: Balance, low: Balance) -> Number:
    if nominal(high.level_in) <= 0:
        return high.minute
    fall = high.level_in - low.level_in
    return high.minute + (low.minute - high.minute) * high.level_in / fall
