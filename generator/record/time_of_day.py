"""Times of day as people type them, each read in its one meaning or refused."""

from __future__ import annotations

import re

from generator.quantity import Clock
from generator.record.spelling import AmountError, plainly, refuse

NOON_H, HOURS_IN_A_DAY, MINUTES_IN_AN_HOUR = 12, 24, 60
LAST_NIGHT_HOUR = 6  # a bare 2:05 is more likely 2:05 pm; our choice
_TYPED = re.compile(
    r"(?P<hour>\d{1,2})(?:(?P<sign>[:.]?)(?P<minute>\d\d))?"
    r"\s*(?:(?P<half>[ap])\.?\s?(?:m\.?)?|(?P<hours>h|hr|hrs|hours))?",
    re.ASCII,
)
_NOON = ("noon", "12 noon", "12:00 noon")


def clock(text: str) -> Clock:
    """Read a time of day such as ``10:05 am`` or ``14:05``. [min]

    Raises
    ------
    AmountError
        Where the text is no time of day, or may be one of two.
    """
    plain = plainly(text, "clock").lower()
    if plain in _NOON:
        return Clock(float(NOON_H * MINUTES_IN_AN_HOUR), text)
    typed = _TYPED.fullmatch(plain)
    if not typed or not _whole(typed):
        raise refuse(text, "clock", "is not a time of day that can be read.")
    hour, minute, half = int(typed["hour"]), int(typed["minute"] or 0), typed["half"]
    wrong_half = half and not 1 <= hour <= NOON_H
    if minute >= MINUTES_IN_AN_HOUR or wrong_half or hour >= HOURS_IN_A_DAY:
        raise refuse(text, "clock", "is no time of day.")
    if half:
        hour = hour % NOON_H + (NOON_H if half == "p" else 0)
    elif len(typed["hour"]) == 1 and 0 < hour <= LAST_NIGHT_HOUR:
        raise AmountError(
            f'"{text}" can be read in more than one way.',
            f'Write "{hour}:{minute:02} pm" or "{hour}:{minute:02} am".',
        )
    return Clock(float(hour * MINUTES_IN_AN_HOUR + minute), text)


def _whole(typed: re.Match[str]) -> bool:
    """Say whether a text has all the parts of one spelling."""
    if typed["half"]:
        return True  # 10 am, 10:05 am, 10.05 am, 1005 am
    if typed["hours"]:  # 1005 h, in four digits
        return typed["sign"] == "" and len(typed["hour"]) == 2
    return typed["sign"] == ":"
