"""One flow of water from what was read: fills of a bucket, or a meter."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from statistics import fmean, stdev

from uncertainties import ufloat

from generator.results.measured import (
    BUCKET,
    METER_SHARE,
    WATCH_MIN,
    from_half_width,
    stepped,
)
from generator.results.result import Number


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
        Volume of each fill; above zero. [gal]
    minutes : sequence of float, shape (n,)
        Time of each fill; above zero. [min]
    mark_half_width_gal : float, optional
        The most that the bucket's mark may be off; 3 % of a fill when left out. [gal]

    Returns
    -------
    uncertainties.UFloat
        Mean flow with its standard uncertainty. [gal/min]

    Notes
    -----
    Repeats (type A): standard deviation of the mean. Bucket mark (type B): one
    rectangle common to all fills. Stopwatch (type B): one rectangle a fill. The scatter
    already holds the watch, so the larger of the two counts, never both: two fills that
    happen to agree are not surer than the watch.
    A few fills are not widened by Student's t. Their standard deviation is itself
    known only to 76, 52 or 42 % with 2, 3 or 4 fills, and t would make a flow from two
    fills seven times as wide although the mark and the watch bound it; the result
    says how few they were, and flags fills that differ too much.
    Sources: [GUM], 4.2.3 (repeats), 4.3.7 (rectangle), 4.3.10 (counted once), 5.1.2
    (root of the sum of squares), E.4.3 (few repeats).

    Examples
    --------
    >>> bucket_flow_gpm([5.0], [0.25]).nominal_value
    20.0
    """
    rates = [gallon / minute for gallon, minute in zip(gallons, minutes, strict=True)]
    mean, fills = fmean(rates), sqrt(len(rates))
    mark = _mark_share(gallons, mark_half_width_gal) / sqrt(3)
    watch = mean * WATCH_MIN.fixed / fmean(minutes) / sqrt(3) / fills
    scatter = stdev(rates) / fills if len(rates) > 1 else 0.0
    return ufloat(mean, sqrt(max(scatter, watch) ** 2 + (mean * mark) ** 2))


def steady(
    gallons: Sequence[float],
    minutes: Sequence[float],
    *,
    mark_half_width_gal: float | None = None,
) -> bool:
    """Tell whether fills differ by no more than reading them explains.

    Parameters
    ----------
    gallons, minutes : sequence of float, shape (n,)
        Volume and time of each fill; above zero. [gal], [min]
    mark_half_width_gal : float, optional
        The most that the bucket's mark may be off; 3 % of a fill when left out. [gal]

    Returns
    -------
    bool
        False where the largest and the smallest rate lie farther apart than the mark
        and the watch can put them. [-]

    Notes
    -----
    Each fill may be off by its mark and by half a second, one way or the other.
    Source: [GUM], 4.3.7, for the bounds of a rectangle.

    Examples
    --------
    >>> steady([5.0, 5.0], [1.25, 1.22]), steady([5.0, 5.0], [1.25, 1.0])
    (True, False)
    """
    rates = [gallon / minute for gallon, minute in zip(gallons, minutes, strict=True)]
    share = _mark_share(gallons, mark_half_width_gal) + WATCH_MIN.fixed / min(minutes)
    return max(rates) - min(rates) <= 2 * share * fmean(rates)


def meter_flow_gpm(
    first_gal: float, last_gal: float, minutes: float, *, step_gal: float
) -> Number:
    """Flow from two readings of a water meter.

    Parameters
    ----------
    first_gal, last_gal : float
        The readings. [gal]
    minutes : float
        Time between them; above zero. [min]
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


def _mark_share(gallons: Sequence[float], half_width_gal: float | None) -> float:
    fill = fmean(gallons)
    half_width = BUCKET.half_width(fill) if half_width_gal is None else half_width_gal
    return half_width / fill
