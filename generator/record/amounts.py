"""Amounts as people type them, each read in its one meaning or refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any

from generator.quantity import (
    Angle,
    Clock,
    Day,
    Duration,
    Flow,
    Length,
    Level,
    Loading,
    Number,
    Percolation,
    Share,
    Slope,
    Target,
    Tie,
    TimedVolume,
    Volume,
)
from generator.record.spelling import EXAMPLES, AmountError, plainly, refuse
from generator.record.sums import total

FULL_CIRCLE = 360.0  # degrees
WHOLE = 100.0  # percent

_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)


def length(text: str) -> Length:
    """Read a length such as ``18 ft 4 in`` or ``1¼ in``. [in]"""
    return Length(total(text, "length"), text)


def volume(text: str) -> Volume:
    """Read a volume such as ``1,000 gal``. [gal]"""
    return Volume(total(text, "volume"), text)


def duration(text: str) -> Duration:
    """Read a time such as ``1 h 5 min``. [min]"""
    return Duration(total(text, "duration"), text)


def flow(text: str) -> Flow:
    """Read a flow such as ``4 gpm``. [gal/min]"""
    return Flow(total(text, "flow"), text)


def slope(text: str) -> Slope:
    """Read a slope such as ``1/4 in per ft``. [ft/ft]"""
    return Slope(total(text, "slope"), text)


def level(text: str) -> Level:
    """Read a level against the outlet invert, ``1/2 in above`` or ``-2 in``. [in]"""
    plain = plainly(text, "level").lower()
    if plain in ("at invert", "at the invert", "at the outlet invert", "level"):
        return Level(0.0, text)
    side = re.fullmatch(
        r"([+-]?)\s*(.*?)\s*(above|below)?(?: (?:the )?(?:outlet )?invert)?", plain
    )
    sign, amount, word = side.groups() if side else ("", plain, None)
    if not amount or (sign and word):
        raise refuse(text, "level", "is not a level that can be read.")
    try:
        inches = total(amount, "length")
    except AmountError as error:
        found = error.message.removeprefix(f'"{amount}" ')
        raise refuse(text, "level", found) from None
    if inches and not sign and not word:
        raise refuse(text, "level", "does not say above or below the outlet invert.")
    return Level(-inches if sign == "-" or word == "below" else inches, text)


def reading(text: str) -> Level:
    """Read a level with its side, or a bare ``1/2 in`` that leaves the side open. [in]

    The side of a bare one is said once for all readings of a test.
    """
    try:
        return level(text)
    except AmountError as refused:
        try:
            return Level(total(text, "length"), text, sided=False)
        except AmountError:
            raise refused from None


def bucket(text: str) -> TimedVolume:
    """Read a bucket check such as ``5 gal in 75 s``. [gal], [min]"""
    halves = re.split(r"\s+in\s+", plainly(text, "bucket"))
    if len(halves) != 2:
        raise refuse(text, "bucket", "is not a bucket check that can be read.")
    gallons, minutes = total(halves[0], "volume"), total(halves[1], "duration")
    if gallons <= 0 or minutes <= 0:
        raise refuse(text, "bucket", "needs water and time above zero.")
    return TimedVolume(gallons, minutes, text)


def clock(text: str) -> Clock:
    """Read a time of day such as ``10:05 am`` or ``14:05``. [min]"""
    match = re.fullmatch(
        r"(\d{1,2})(?::(\d\d))?\s*(?:([ap])\.?(?:m\.?)?)?",
        plainly(text, "clock").lower(),
        re.ASCII,
    )
    if not match or (match[2] is None and match[3] is None):
        raise refuse(text, "clock", "is not a time of day that can be read.")
    hour, minute = int(match[1]), int(match[2] or 0)
    if minute > 59 or (match[3] and not 1 <= hour <= 12) or hour > 23:
        raise refuse(text, "clock", "is no time of day.")
    if match[3]:
        hour = hour % 12 + (12 if match[3] == "p" else 0)
    return Clock(hour * 60.0 + minute, text)


def moment(text: str) -> Clock:
    """Read a time of day, or a time since the water was turned on. [min]"""
    try:
        return clock(text)
    except AmountError as refused:
        try:
            return Clock(total(text, "duration"), text, after_start=True)
        except AmountError:
            raise refused from None


def day(text: str) -> Day:
    """Read a date such as ``2026-10-06`` or ``Oct 6, 2026``."""
    plain = plainly(text, "day").lower().replace(",", " ")
    iso = re.fullmatch(r"(\d{4})-(\d{1,2})-(\d{1,2})", plain, re.ASCII)
    named = re.fullmatch(r"([a-z]{3,9})\.? +(\d{1,2}) +(\d{4})", plain, re.ASCII)
    turned = re.fullmatch(r"(\d{1,2}) +([a-z]{3,9})\.? +(\d{4})", plain, re.ASCII)
    if named:
        year, month, number = named[3], _month(named[1]), named[2]
    elif turned:
        year, month, number = turned[3], _month(turned[2]), turned[1]
    elif iso:
        year, month, number = iso[1], int(iso[2]), iso[3]
    else:
        why = "can be read in more than one way."
        if not re.fullmatch(r"[\d/. -]+", plain, re.ASCII):
            why = "is not a date that can be read."
        raise refuse(text, "day", why)
    try:
        return Day(date(int(year), month, int(number)).isoformat(), text)
    except ValueError:
        raise refuse(text, "day", "is no day of the calendar.") from None


def _month(name: str) -> int:
    for number, month in enumerate(_MONTHS, 1):
        if name in (month, month[:3]) or (name == "sept" and month == "september"):
            return number
    return 0


def angle(text: str) -> Angle:
    """Read a direction such as ``140 deg``, clockwise from north. [degree]"""
    degrees = total(text, "angle")
    if degrees > FULL_CIRCLE:
        raise refuse(text, "angle", "is more than a full circle.")
    return Angle(degrees, text)


def share(text: str) -> Share:
    """Read a share such as ``35 %``. [%]"""
    percent = total(text, "share")
    if percent > WHOLE:
        raise refuse(text, "share", "is more than the whole.")
    return Share(percent, text)


def number(text: str) -> Number:
    """Read a plain number such as ``0.012``. [-]"""
    plain = plainly(text, "number")
    if not re.fullmatch(r"\d{1,9}(?:\.\d{1,9})?|\.\d{1,9}", plain, re.ASCII):
        raise refuse(text, "number", "is not a number that can be read.")
    return Number(float(plain), text)


def percolation(text: str) -> Percolation:
    """Read a percolation rate such as ``20 min/in``. [min/in]"""
    return Percolation(total(text, "percolation"), text)


def loading(text: str) -> Loading:
    """Read a loading rate such as ``0.6 gpd/ft2``. [gal/(day ft²)]"""
    return Loading(total(text, "loading"), text)


def tie(text: str) -> Tie:
    """Read a tie such as ``A 18 ft 4 in``: a point, then the distance from it. [in]"""
    named = re.fullmatch(
        r"([A-Za-z]\w{0,11})[ :]\s*(.+)", plainly(text, "tie"), re.ASCII
    )
    if not named:
        raise refuse(text, "tie", "does not name a point and a distance from it.")
    try:
        return Tie(total(named[2], "length"), named[1], text)
    except AmountError as error:
        raise AmountError(error.message, f"Write it as {EXAMPLES['tie']}.") from None


def target(text: str) -> Target:
    """Read a target: ``120 gal``, ``30 min`` or ``30 % of design flow``."""
    share_of = re.fullmatch(
        r"(.+?)\s+of\s+(?:the\s+)?(?:daily\s+)?design\s+flow",
        plainly(text, "target"),
        re.I,
    )
    if share_of:
        return Target(None, None, total(share_of[1], "share"), text)
    refused: list[AmountError] = []
    for kind in ("volume", "duration"):
        try:
            amount = total(text, kind)
        except AmountError as error:
            refused.append(error)
            continue
        return Target(
            amount if kind == "volume" else None,
            amount if kind == "duration" else None,
            None,
            text,
        )
    if refused[0].message == refused[1].message:  # no unit, a range, less than nothing
        raise AmountError(refused[0].message, f"Write it as {EXAMPLES['target']}.")
    raise refuse(text, "target", "is not a target that can be read.")


READERS: dict[str, Callable[[str], Any]] = {
    "length": length,
    "volume": volume,
    "duration": duration,
    "flow": flow,
    "slope": slope,
    "level": level,
    "reading": reading,
    "bucket": bucket,
    "clock": clock,
    "moment": moment,
    "day": day,
    "angle": angle,
    "share": share,
    "number": number,
    "percolation": percolation,
    "loading": loading,
    "tie": tie,
    "target": target,
}
