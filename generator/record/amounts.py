"""Amounts as people type them, each read in its one meaning or refused."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any

from generator.quantity import (
    Angle,
    Clock,
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
from generator.record.calendar_day import day
from generator.record.spelling import EXAMPLES, AmountError, plainly, refuse
from generator.record.sum_traps import sprung
from generator.record.sums import total
from generator.record.time_of_day import clock

FULL_CIRCLE = 360.0  # degrees
SHORTEST_SIDE = 3  # letters; a shorter word is a point without its length, our choice
WHOLE = 100.0  # percent

AT_INVERT = (
    "at invert",
    "at the invert",
    "at outlet invert",
    "at the outlet invert",
    "level",
    "level with the invert",
    "even with the invert",
)
_SIDE = re.compile(
    r"([+-]?)\s*(.*?)\s*(above|below)?(?: (?:the )?(?:outlet )?invert)?", re.I
)
_OVER = r"(?<=[A-Za-z.'\"])\s*/\s*(?=[\d.])"  # 5 gal/75 s, and not 1/4
_FILL = re.compile(rf"{_OVER}|\s+(?:in|per)\s+(?=\S)", re.I)
_FALL = re.compile(rf"{_OVER}|\s+(?:in|per|over)\s+(?=[\d.])", re.I)
_POINT = "([A-Za-z][A-Za-z0-9_]{0,11})"
_DASH = r"\s*[-‐‑–—]\s+|(?<=\w)[-‐‑–—](?=\d)"  # A - 18 ft and A-18 ft; A -18 ft is less
_TIE = re.compile(rf"\s*{_POINT}(?:\s*[:=]\s*|{_DASH}|\s+)(.+)", re.S)
_TIE_FROM = re.compile(rf"(.+)\s+from\s+{_POINT}\s*", re.S)
_SHARE_OF = re.compile(
    r"(.+?)\s+of\s+(?:the\s+)?(?:daily\s+)?design\s+flow\s*", re.I | re.S
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
    """Read a slope such as ``1/4 in per ft`` or ``6 in in 20 ft``. [ft/ft]"""
    plainly(text, "slope")  # refuses a text far too long
    halves = _FALL.split(text)
    if len(halves) != 2 or not re.search("[A-Za-z'\"]", halves[0]):
        return Slope(total(text, "slope"), text)
    fall, run = (total(half, "length") for half in halves)
    if run <= 0:
        raise refuse(text, "slope", "divides by zero.")
    return Slope(fall / run, text)


def level(text: str) -> Level:
    """Read a level against the outlet invert, ``1/2 in above`` or ``-2 in``. [in]"""
    plain = re.sub("^[–—]", "-", plainly(text, "level"))
    if " ".join(plain.lower().split()) in AT_INVERT:
        return Level(0.0, text)
    side = _SIDE.fullmatch(plain)
    sign, amount, word = side.groups() if side else ("", plain, None)
    if not amount or (sign and word):
        raise refuse(text, "level", "is not a level that can be read.")
    try:
        inches = total(amount, "length")
    except AmountError as error:
        found = error.message.removeprefix(f'"{amount}" ')
        raise _as_a("level", error, f'"{text}" {found}') from None
    if inches and not sign and not word:
        raise refuse(text, "level", "does not say above or below the outlet invert.")
    below = sign == "-" or (word or "").lower() == "below"
    return Level(-inches if below and inches else inches, text)


def _as_a(kind: str, error: AmountError, message: str = "") -> AmountError:
    """Tell the refusal of a length within an amount of another kind."""
    hint = error.hint.replace(EXAMPLES["length"], EXAMPLES[kind])
    return AmountError(message or error.message, hint)


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
    plainly(text, "bucket")  # refuses a text far too long
    halves = _FILL.split(text.strip())
    if len(halves) != 2:
        raise refuse(text, "bucket", "is not a bucket check that can be read.")
    gallons, minutes = total(halves[0], "volume"), total(halves[1], "duration")
    if gallons <= 0 or minutes <= 0:
        raise refuse(text, "bucket", "needs water and time above zero.")
    return TimedVolume(gallons, minutes, text)


def moment(text: str) -> Clock:
    """Read a time of day, or a time since the water was turned on. [min]"""
    try:
        return clock(text)
    except AmountError as refused:
        try:
            return Clock(total(text, "duration"), text, after_start=True)
        except AmountError:
            raise refused from None


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
    if re.search(r"\d,\d", plain, re.ASCII):
        trap = sprung(text, plain, "number")
        if trap:
            raise trap
        plain = plain.replace(",", "")
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
    """Read a tie: ``A 18 ft 4 in`` or ``18 ft 4 in from A``. [in]"""
    plainly(text, "tie")  # refuses a text far too long
    if named := _TIE.fullmatch(text):
        point, distance = named.groups()
    elif named := _TIE_FROM.fullmatch(text):
        distance, point = named.groups()
    else:
        raise _no_tie(text)
    try:
        return Tie(total(distance, "length"), point, text)
    except AmountError as error:
        raise _as_a("tie", error) from None


def _no_tie(text: str) -> AmountError:
    error = refuse(text, "tie", "does not name a point and a distance from it.")
    if not text.isalpha() or len(text) < SHORTEST_SIDE:
        return error
    return AmountError(
        error.message, f'{error.hint[:-1]}; a side is "left" or "right".'
    )


def target(text: str) -> Target:
    """Read a target: ``120 gal``, ``30 min`` or ``30 % of design flow``."""
    plainly(text, "target")  # refuses a text far too long
    share_of = _SHARE_OF.fullmatch(text)
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
        hint = refused[0].hint.replace(EXAMPLES["volume"], EXAMPLES["target"])
        raise AmountError(refused[0].message, hint)
    raise refuse(text, "target", "is not a target that can be read.")


_READERS: dict[str, Callable[[str], Any]] = {
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

MOST_KEPT = 4096  # amounts of a kind that are not read a second time; our choice
READERS: dict[str, Callable[[str], Any]] = {
    kind: lru_cache(MOST_KEPT)(reader) for kind, reader in _READERS.items()
}
