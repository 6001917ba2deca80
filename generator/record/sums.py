"""A sum such as ``4 ft 6 in`` in one unit, or the reason why it cannot be read."""

from __future__ import annotations

import re

from generator.quantity import UNITS
from generator.record.spelling import KINDS, AmountError, plainly, refuse

_NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+"
_TERM = re.compile(
    rf"\s*(?:(?P<whole>{_NUMBER})(?:(?: +|-)(?P<num>\d+)/(?P<den>\d+))?"
    r"|(?P<onlynum>\d+)/(?P<onlyden>\d+))"
    r"(?!\s*[\d/.,])\s*(?P<unit>[A-Za-z%'\"³°][A-Za-z/³²3 .%]*?|)(?=\s*(?:\d|\.\d|$))",
    re.ASCII,
)
_RANGE = re.compile(r"\d\s*['\"A-Za-z. ]*(?:-|–|—|\bto\b|\bor\b)\s*\d", re.ASCII)
_DASHED_FRACTION = re.compile(r"(?<![\d/])\d+-\d+/\d", re.ASCII)  # 1-1/2 in
_FEET_DASH_INCHES = re.compile(  # 18'-4" is 18' 4"
    r"('|ft)\s*-\s*(?=\d[\d /.-]*(?:\"|in\b))", re.ASCII
)
_VAGUE = re.compile(r"^(?:about|approx\.?|approximately|around|circa|ca\.?|~|≈)", re.I)


def total(text: str, kind: str) -> float:
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
