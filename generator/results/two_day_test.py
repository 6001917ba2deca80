"""The two-day test: whether the area took the design volume of a day within a day."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from generator.quantity import MINUTES_PER_DAY, MINUTES_PER_HOUR
from generator.record.water import TestDay, TwoDayTest
from generator.results.design_flow import DailyFlow
from generator.results.guard_band import CLOSE, COVERAGE_FACTOR, MEETS, SHORT, hold
from generator.results.measured import (
    LEVEL_IN,
    WATER_ADDED,
    from_half_width,
    measured,
)
from generator.results.result import Number, nominal, standard

SATISFACTORY, NOT_SATISFACTORY = "satisfactory", "not satisfactory"
NOT_SHOWN = "not shown"
RESTORED, BELOW, ABOVE = "restored", "below", "above"  # day 2 against day 1


@dataclass(frozen=True)
class TwoDays:
    """Both days: water, levels, hours between, and what follows. [gal], [in], [h]

    ``level`` tells how the level of day 2 ended against day 1; ``excess_gal`` is what
    stood above it, where that can be told. ``design_gal`` is None where nobody knows.
    """

    design_gal: float | None
    first_gal: Number
    second_gal: Number
    higher_in: Number
    level: str
    hours: float
    excess_gal: Number | None
    verdict: str

    @property
    def absorbed_gal(self) -> Number:
        """What the area took: the water of day 2 without what stood too high. [gal]"""
        if self.excess_gal is None:
            return self.second_gal
        return self.second_gal - self.excess_gal


def hours_between(first: TestDay, second: TestDay) -> float:
    """Hours from the level of one day to that of the next.

    Parameters
    ----------
    first, second : TestDay
        The two days. [min], for the time of day

    Returns
    -------
    float
        Time between. [h]

    Notes
    -----
    Calendar days of 24 hours; a change of the clocks between them is not known to
    the record. Source: [PSU-HLT], which asks for 24 h.

    Examples
    --------
    >>> from generator.quantity import Clock, Day, Length, Volume
    >>> one, two = (
    ...     TestDay(date=Day(day, ""), time=Clock(at, ""), added=Volume(400.0, ""),
    ...             level=Length(6.0, ""))
    ...     for day, at in (("2026-10-31", 600.0), ("2026-11-01", 630.0)))
    >>> hours_between(one, two)
    24.5
    """
    days = (
        date.fromisoformat(second.date.iso) - date.fromisoformat(first.date.iso)
    ).days
    minutes = days * MINUTES_PER_DAY + second.time.minutes - first.time.minutes
    return minutes / MINUTES_PER_HOUR


def level_ended(higher_in: Number) -> str:
    """Say how the level of day 2 ended against that of day 1.

    Parameters
    ----------
    higher_in : float
        Level of day 2 less level of day 1. [in]

    Returns
    -------
    str
        ``restored``, ``below`` or ``above``. [-]

    Notes
    -----
    Restored where the two differ by no more than the expanded uncertainty U = 2 u of
    their difference. Source: [JCGM106], 8.3.2, and [PSU-HLT] for the level asked.

    Examples
    --------
    >>> level_ended(0.0), level_ended(-0.5), level_ended(0.5)
    ('restored', 'below', 'above')
    """
    if abs(nominal(higher_in)) <= COVERAGE_FACTOR * standard(higher_in):
        return RESTORED
    return BELOW if nominal(higher_in) < 0 else ABOVE


def two_day_verdict(
    *,
    design_gal: float,
    first_gal: Number,
    second_gal: Number,
    level: str,
    excess_gal: Number | None = None,
) -> str:
    """Judge a two-day test by the published rule.

    Parameters
    ----------
    design_gal : float
        Design volume of a day. [gal]
    first_gal, second_gal : float
        Water added on day 1 and on day 2. [gal]
    level : str
        How the level of day 2 ended: ``restored``, ``below`` or ``above``.
    excess_gal : float or None
        What stood above the level of day 1, where that can be told. [gal]

    Returns
    -------
    str
        ``satisfactory``, ``not satisfactory``, ``too close to call`` or ``not shown``.

    Notes
    -----
    The rule asks for at least the design volume and names no margin, so it is accepted
    on the volumes as read, without a guard band. A failing word costs a system: it is
    said only where the shortfall is larger than the expanded uncertainty; a smaller one
    is too close to call. A level that was not restored shows a pass (enough went in and
    stood no higher) but never a fail. Too high a level shows a fail (even less was
    taken than added), and a pass only where the excess is known and leaves enough
    beyond the guard band. Source: [PSU-HLT] (rule), [JCGM106], 8.2 (acceptance as
    read), 8.3.2 and 8.3.3 (guard bands).

    Examples
    --------
    >>> [two_day_verdict(design_gal=400, first_gal=400, second_gal=x, level="restored")
    ...  for x in (400, 399)]
    ['satisfactory', 'not satisfactory']
    """
    if nominal(first_gal) < design_gal:
        return NOT_SHOWN
    enough = nominal(second_gal) >= design_gal
    if level == BELOW:
        return SATISFACTORY if enough else NOT_SHOWN
    if not enough:
        short = hold(second_gal, design_gal, least=True) == SHORT
        return NOT_SATISFACTORY if short else CLOSE
    if level == RESTORED:
        return SATISFACTORY
    if excess_gal is None:
        return NOT_SHOWN
    left = hold(second_gal - excess_gal, design_gal, least=True)
    return SATISFACTORY if left == MEETS else NOT_SHOWN


def excess_above_gal(
    *, added_gal: Number, before_in: Number, after_in: Number, higher_in: Number
) -> Number | None:
    """Gallons that stood above the level of day 1, from how the water raised it.

    Parameters
    ----------
    added_gal : float
        Water added on day 2. [gal]
    before_in, after_in : float
        Level before that water and after it. [in]
    higher_in : float
        Level of day 2 less level of day 1. [in]

    Returns
    -------
    float or None
        The excess; None where the water did not raise the level. [gal]

    Notes
    -----
    Evenly by the inch over the rise of day 2. What soaked away meanwhile makes an inch
    look larger than it is, so that the excess errs on the high side. Common practice,
    no source.

    Examples
    --------
    >>> excess_above_gal(added_gal=420.0, before_in=2.0, after_in=6.0, higher_in=0.5)
    52.5
    """
    rise = after_in - before_in
    if nominal(rise) <= COVERAGE_FACTOR * standard(rise):
        return None
    return added_gal * higher_in / rise


def work_out_two_days(test: TwoDayTest, design: DailyFlow | None) -> TwoDays:
    """Work out a recorded two-day test; the record's design volume comes first."""

    def level_in(inches: float) -> Number:
        step = test.levels_read_to
        if step is None:
            return measured(inches, LEVEL_IN)
        return from_half_width(inches, step.inches)

    one, two = test.first_day, test.second_day
    first, second = (measured(day.added.gallons, WATER_ADDED) for day in (one, two))
    after = level_in(two.level.inches)
    higher = after - level_in(one.level.inches)
    level = level_ended(higher)
    excess = None
    if level == ABOVE and two.level_before is not None:
        excess = excess_above_gal(
            added_gal=second,
            before_in=level_in(two.level_before.inches),
            after_in=after,
            higher_in=higher,
        )
    gallons = design_gallons(test, design)
    verdict = NOT_SHOWN
    if gallons is not None:
        verdict = two_day_verdict(
            design_gal=gallons,
            first_gal=first,
            second_gal=second,
            level=level,
            excess_gal=excess,
        )
    hours = hours_between(one, two)
    return TwoDays(gallons, first, second, higher, level, hours, excess, verdict)


def design_gallons(test: TwoDayTest, design: DailyFlow | None) -> float | None:
    """Give the design volume of a day, or None; a code's figure must have been read."""
    if test.design_volume is not None:
        return test.design_volume.gallons or None
    if design is None or not design.seen:
        return None
    return nominal(design.gpd) or None
