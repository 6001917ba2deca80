"""Amounts as people type them, each read in its one meaning or refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any

from generator.quantity import (
    UNITS,
    Clock,
    Day,
    Duration,
    Flow,
    Length,
    Level,
    Slope,
    TimedVolume,
    Volume,
)
from generator.record.spelling import KINDS, AmountError, plainly, refuse

_NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+"
_TERM = re.compile(
    rf"\s*(?:(?P<whole>{_NUMBER})(?:(?: +|-)(?P<num>\d+)/(?P<den>\d+))?"
    r"|(?P<onlynum>\d+)/(?P<onlyden>\d+))"
    r"(?!\s*[\d/.,])\s*(?P<unit>[A-Za-z%'\"³][A-Za-z/³3 .%]*?|)(?=\s*(?:\d|\.\d|$))",
    re.ASCII,
)
_RANGE = re.compile(r"\d\s*['\"A-Za-z. ]*(?:-|–|—|\bto\b|\bor\b)\s*\d", re.ASCII)
_DASHED_FRACTION = re.compile(r"(?<![\d/])\d+-\d+/\d", re.ASCII)  # 1-1/2 in
_FEET_DASH_INCHES = re.compile(  # 18'-4" is 18' 4"
    r"('|ft)\s*-\s*(?=\d[\d /.-]*(?:\"|in\b))", re.ASCII
)
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
_VAGUE = re.compile(r"^(?:about|approx\.?|approximately|around|circa|ca\.?|~|≈)", re.I)


def _factor(unit: str, kind: str) -> float | None:
    wanted = " ".join(unit.lower().replace(" / ", "/").split())
    if kind == "length":
        wanted = {"'": "ft", '"': "in"}.get(wanted, wanted)
    for spellings, factor in UNITS[kind].items():
        if wanted in spellings.split("|"):
            return factor
    return None


def _number(match: re.Match[str]) -> float:
    if match["onlynum"]:
        return _ratio(match["onlynum"], match["onlyden"])
    number = float(match["whole"].replace(",", ""))
    return number + (_ratio(match["num"], match["den"]) if match["num"] else 0.0)


def _ratio(numerator: str, denominator: str) -> float:
    return int(numerator) / int(denominator)


def _split(text: str) -> list[tuple[float, str]] | None:
    terms: list[tuple[float, str]] = []
    rest = text
    while rest.strip():
        match = _TERM.match(rest)
        if not match or not match.end():
            return None
        terms.append((_number(match), match["unit"].strip()))
        rest = rest[match.end() :]
    return terms


def _total(text: str, kind: str) -> float:
    """Add up ``4 ft 6 in`` in the unit of the kind (the first of its table)."""
    plain = _FEET_DASH_INCHES.sub(r"\1 ", plainly(text, kind))
    if _VAGUE.match(plain):
        raise refuse(text, kind, "is not one number.")
    if _RANGE.search(_DASHED_FRACTION.sub("1", plain)):
        raise AmountError(
            f'"{text}" is a range.', "Write the one value that you measured."
        )
    if plain.startswith("-"):
        raise refuse(text, kind, "is less than nothing.")
    if re.search(r"/0+(?![\d.])", plain, re.ASCII):
        raise refuse(text, kind, "divides by zero.")
    terms = _split(plain)
    if not terms:
        raise refuse(text, kind, f"is not a {KINDS[kind]} that can be read.")
    return _add(text, kind, terms)


def _add(text: str, kind: str, terms: list[tuple[float, str]]) -> float:
    total, last = 0.0, float("inf")
    for number, unit in terms:
        if not unit:
            bare = "has no unit." if len(terms) == 1 else "has a number without a unit."
            raise refuse(text, kind, bare)
        factor = _factor(unit, kind)
        if factor is None:
            raise refuse(text, kind, f'has "{unit}" where a {KINDS[kind]} is needed.')
        if factor >= last:
            raise refuse(text, kind, "names a unit twice or in the wrong order.")
        if last < float("inf") and number * factor >= last:
            raise refuse(text, kind, f'has too many "{unit}" after the larger unit.')
        total, last = total + number * factor, factor
    return total


def length(text: str) -> Length:
    """Read a length such as ``18 ft 4 in`` or ``1¼ in``. [in]"""
    return Length(_total(text, "length"), text)


def volume(text: str) -> Volume:
    """Read a volume such as ``1,000 gal``. [gal]"""
    return Volume(_total(text, "volume"), text)


def duration(text: str) -> Duration:
    """Read a time such as ``1 h 5 min``. [min]"""
    return Duration(_total(text, "duration"), text)


def flow(text: str) -> Flow:
    """Read a flow such as ``4 gpm``. [gal/min]"""
    return Flow(_total(text, "flow"), text)


def slope(text: str) -> Slope:
    """Read a slope such as ``1/4 in per ft``. [ft/ft]"""
    return Slope(_total(text, "slope"), text)


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
        inches = _total(amount, "length")
    except AmountError as error:
        found = error.message.removeprefix(f'"{amount}" ')
        raise refuse(text, "level", found) from None
    if inches and not sign and not word:
        raise refuse(text, "level", "does not say above or below the outlet invert.")
    return Level(-inches if sign == "-" or word == "below" else inches, text)


def bucket(text: str) -> TimedVolume:
    """Read a bucket check such as ``5 gal in 75 s``. [gal], [min]"""
    halves = re.split(r"\s+in\s+", plainly(text, "bucket"))
    if len(halves) != 2:
        raise refuse(text, "bucket", "is not a bucket check that can be read.")
    gallons, minutes = _total(halves[0], "volume"), _total(halves[1], "duration")
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


READERS: dict[str, Callable[[str], Any]] = {
    "length": length,
    "volume": volume,
    "duration": duration,
    "flow": flow,
    "slope": slope,
    "level": level,
    "bucket": bucket,
    "clock": clock,
    "day": day,
}
