"""Dates as people type them, each read in its one meaning or refused."""

from __future__ import annotations

import re
from datetime import date

from generator.quantity import Day
from generator.record.spelling import AmountError, plainly, refuse

FIRST_YEAR, LAST_YEAR = 1800, 2199  # our choice; nothing here is older or later
THIS_CENTURY = 2000
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
_WEEKDAYS = (
    "monday",
    "tuesday",
    "wednesday",
    "thursday",
    "friday",
    "saturday",
    "sunday",
)
_NAME = "|".join([*_MONTHS, *(month[:3] for month in _MONTHS), "sept"])
_WEEKDAY = re.compile(
    r"\b(mon|tues?|wed|weds|wednes|thur?s?|fri|sat|satur|sun)(?:day)?\b\.?", re.ASCII
)
_YEAR, _NUMBER, _GAP = r"(?P<year>\d{4})", r"(?P<day>\d{1,2})", r"[ -]+"
_NAMED = rf"(?P<month>{_NAME})\.?"
_NTH = rf"(?:the )?{_NUMBER}(?:st|nd|rd|th)?"
_ORDERS = tuple(
    re.compile(order, re.ASCII)
    for order in (
        rf"{_NAMED}{_GAP}{_NTH}{_GAP}{_YEAR}",
        rf"{_NTH}(?: of)?{_GAP}{_NAMED}{_GAP}{_YEAR}",
        rf"{_YEAR}{_GAP}{_NAMED}{_GAP}{_NUMBER}",
        rf"{_YEAR}(?P<sign>[-/.])(?P<month>\d{{1,2}})(?P=sign){_NUMBER}",
    )
)
_NUMBERS = re.compile(r"(\d{1,2})([-/. ])(\d{1,2})\2(\d{4}|\d\d)", re.ASCII)
_SHORT_YEAR = re.compile(
    rf"(?:{_NAMED}{_GAP}{_NTH}|\d{{1,2}}{_GAP}(?:{_NAME})\.?){_GAP}'?\d\d", re.ASCII
)
_NO_YEAR = re.compile(rf"{_NAMED}{_GAP}{_NTH}|\d{{1,2}}{_GAP}(?:{_NAME})\.?", re.ASCII)


def day(text: str) -> Day:
    """Read a date such as ``2026-10-06`` or ``Oct 6, 2026``.

    Raises
    ------
    AmountError
        Where the text is no date, or may be one of two.
    """
    plain = plainly(text, "day").lower().translate(str.maketrans(",()", "   "))
    weekday = _WEEKDAY.search(plain)
    bare = " ".join(_WEEKDAY.sub(" ", plain, 1).split())
    found = _on_the_calendar(text, bare)
    if weekday:
        _hold_weekday(text, weekday[1], found)
    return Day(found.isoformat(), text)


def _on_the_calendar(text: str, bare: str) -> date:
    for order in _ORDERS:
        typed = order.fullmatch(bare)
        if typed:
            year, month, number = typed["year"], typed["month"], typed["day"]
            found = _date(int(year), _month(month), int(number))
            if found:
                return found
            raise refuse(text, "day", "is no day of the calendar.")
    numbers = _NUMBERS.fullmatch(bare)
    if numbers:
        return _only_one(text, int(numbers[1]), int(numbers[3]), numbers[4])
    if _SHORT_YEAR.fullmatch(bare):
        hint = "Write the year with its four digits."
        raise AmountError(f'"{text}" can be read in more than one way.', hint)
    if _NO_YEAR.fullmatch(bare):
        raise refuse(text, "day", "names no year.")
    raise refuse(text, "day", "is not a date that can be read.")


def _only_one(text: str, first: int, second: int, typed_year: str) -> date:
    """Read a date in numbers where month first and day first give one day alone."""
    short = len(typed_year) == 2
    year = int(typed_year) + (THIS_CENTURY if short else 0)
    either = [_date(year, first, second), _date(year, second, first)]
    found = list(dict.fromkeys(one for one in either if one))
    if not found:
        raise refuse(text, "day", "is no day of the calendar.")
    if len(found) == 1 and not short:
        return found[0]
    shown = " or ".join(f'"{_spelled(one)}"' for one in found)
    if len(found) > 1:
        shown += ", whichever it was"
    raise AmountError(f'"{text}" can be read in more than one way.', f"Write {shown}.")


def _hold_weekday(text: str, named: str, found: date) -> None:
    right = _WEEKDAYS[found.weekday()]
    if not right.startswith(named[:3]):
        wrong = next(one for one in _WEEKDAYS if one.startswith(named[:3]))
        raise AmountError(
            f'"{text}" says {wrong.capitalize()}, and that day is a '
            f"{right.capitalize()}.",
            "Check the day, the month and the year.",
        )


def _date(year: int, month: int, number: int) -> date | None:
    try:
        return date(year, month, number) if FIRST_YEAR <= year <= LAST_YEAR else None
    except ValueError:
        return None


def _month(typed: str) -> int:
    if typed.isdigit():
        return int(typed)
    return next(n for n, month in enumerate(_MONTHS, 1) if month[:3] == typed[:3])


def _spelled(found: date) -> str:
    return f"{_MONTHS[found.month - 1][:3].capitalize()} {found.day}, {found.year}"
