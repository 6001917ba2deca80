"""A sum such as ``4 ft 6 in`` in one unit, or the reason why it cannot be read."""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.record.spelling import KINDS, plainly, refuse
from generator.record.sum_traps import sprung
from generator.record.units import factor

_NUMBER = r"(?:[1-9]\d{0,2}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+"
_TERM = re.compile(
    rf"\s*(?:(?P<whole>{_NUMBER})(?:(?: +| *- *)(?P<num>\d+)/(?P<den>\d+))?"
    r"|(?P<onlynum>\d+)/(?P<onlyden>\d+))"
    r"(?!\s*[\d/.,])(?:\s*|-(?=[A-Za-z]))"  # a 4-in pipe
    r"(?P<unit>[A-Za-z%'\"³°][A-Za-z/³²°'\" .%]*?|)(?=\s*\d|\s+\.\d|\s*$)",
    re.ASCII,
)
_FEET_DASH_INCHES = re.compile(  # 18'-4" is 18' 4", and 18' - 4" on every drawing
    r"(?:('\s*)[-–—]\s*|((?:ft|feet|foot)\.?)[-–—])"
    r"(?=\d[\d /.-]*(?:\"|in(?:ch|ches|s)?\b))",
    re.I,
)
_JOINED = re.compile(r"(?<=[A-Za-z.'\"])(?:,|,? +and\b)\s*(?=\d)")  # 1 h and 5 min
_AND_A_FRACTION = re.compile(r"(?<=\d) +and +(?=\d+/\d)")
_MARKS = {"'": "a foot mark", '"': "an inch mark"}


@dataclass(frozen=True)
class _Term:
    """One number with its unit; ``broken`` where it is no whole number."""

    number: float
    unit: str
    broken: bool


def total(text: str, kind: str) -> float:
    """Add up ``4 ft 6 in`` in the unit of the kind.

    Raises
    ------
    AmountError
        Where the text has no meaning or more than one.
    """
    plain = _JOINED.sub(" ", plainly(text, kind))
    plain = _AND_A_FRACTION.sub(" ", _FEET_DASH_INCHES.sub(r"\1\2 ", plain))
    trap = sprung(text, plain, kind)
    if trap:
        raise trap
    terms = _split(plain)
    if not terms:
        raise refuse(text, kind, f"is not a {KINDS[kind]} that can be read.")
    return _add(text, kind, terms)


def _split(text: str) -> list[_Term] | None:
    terms: list[_Term] = []
    rest = text
    while rest.strip():
        match = _TERM.match(rest)
        if not match or not match.end():
            return None
        terms.append(_term(match))
        rest = rest[match.end() :]
    return terms


def _term(match: re.Match[str]) -> _Term:
    unit = match["unit"].strip()
    if match["onlynum"]:
        return _Term(int(match["onlynum"]) / int(match["onlyden"]), unit, True)
    number = float(match["whole"].replace(",", ""))
    if match["num"]:
        number += int(match["num"]) / int(match["den"])
    return _Term(number, unit, bool(match["num"]) or "." in match["whole"])


def _add(text: str, kind: str, terms: list[_Term]) -> float:
    found, last = 0.0, float("inf")
    for term in terms:
        worth = _worth(text, kind, term.unit, alone=len(terms) == 1)
        if worth >= last:
            raise refuse(text, kind, "names a unit twice or in the wrong order.")
        if last < float("inf") and term.number * worth >= last:
            why = f'has too many "{term.unit}" after the larger unit.'
            raise refuse(text, kind, why)
        found, last = found + term.number * worth, worth
    if any(term.broken for term in terms[:-1]):
        raise refuse(text, kind, "has a part of the larger unit, and the smaller too.")
    return found


def _worth(text: str, kind: str, unit: str, *, alone: bool) -> float:
    if not unit:
        bare = "has no unit." if alone else "has a number without a unit."
        raise refuse(text, kind, bare)
    worth = factor(unit, kind)
    if worth is None:
        typed = unit if unit in text else unit.translate({0xB2: "2", 0xB3: "3"})
        shown = _MARKS.get(unit, f'"{typed}"')
        raise refuse(text, kind, f"has {shown} where a {KINDS[kind]} is needed.")
    return worth
