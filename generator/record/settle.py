"""Readings that lean on another line: minutes since a start, levels without a side."""

from __future__ import annotations

from dataclasses import replace

from generator.quantity import Clock, Length, Level
from generator.record.levels import ABOVE, DOWN, above_invert_in
from generator.record.model import Inspection
from generator.record.water import LevelReading, LoadTest, Stretch

NOON_MIN = 12 * 60


def settled(inspection: Inspection) -> Inspection:
    """Give every reading its time of day and its height above the outlet invert."""
    test, pit = inspection.load_test, inspection.cesspool
    if test is not None:
        readings = tuple(_reading(test, one) for one in test.levels)
        inspection = replace(inspection, load_test=replace(test, levels=readings))
    if pit is not None:
        downs = tuple(
            replace(one, time=on_the_clock(one.time, pit.water)) for one in pit.levels
        )
        inspection = replace(inspection, cesspool=replace(pit, levels=downs))
    return inspection


def _reading(test: LoadTest, one: LevelReading) -> LevelReading:
    level = sided(one.level, test.levels_read, test.mark_to_invert)
    return replace(one, time=on_the_clock(one.time, test.water), level=level)


def on_the_clock(time: Clock, water: tuple[Stretch, ...]) -> Clock:
    """Turn a time since the water was turned on into a time of day. [min]"""
    if not time.after_start:
        return time
    minutes = water[0].from_.minutes + time.minutes
    return Clock(minutes, time_of_day(minutes))


def sided(level: Level, read: str | None, mark: Length | None) -> Level:
    """Give a level its side of the outlet invert. [in]"""
    inches = above_invert_in(level, read, mark.inches if mark else None)
    if level.sided or inches is None:
        return level
    if inches == 0:
        return Level(0.0, "at invert")
    if read == DOWN:
        side = "above" if inches > 0 else "below"
        return Level(inches, f"{abs(inches):g} in {side}")
    return Level(inches, f"{level.typed} {'above' if read == ABOVE else 'below'}")


def time_of_day(minutes: float) -> str:
    """Write a time of day as people do. [min]

    Examples
    --------
    >>> time_of_day(615.0), time_of_day(720.0), time_of_day(5.0)
    ('10:15 am', '12:00 pm', '12:05 am')
    """
    hour, minute = divmod(round(minutes), 60)
    return f"{(hour - 1) % 12 + 1}:{minute:02} {'pm' if minutes >= NOON_MIN else 'am'}"
