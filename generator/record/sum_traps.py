"""Amounts that look like a sum and mean none, or more than one."""

from __future__ import annotations

import re
from collections.abc import Callable

from generator.quantity import INCHES_PER_FOOT
from generator.record.spelling import EXAMPLES, AmountError

ONE_VALUE = "Write the one value that you measured."
TWO_WAYS = "can be read in more than one way."

_VAGUE = re.compile(
    r"^(?:about|abt|approx|almost|around|circa|ca\b|c\.|close to|nearly|roughly|some\b"
    r"|maybe|at least|at most|up to|less than|more than|under|over|min\b|max|[~≈<>≤≥?])"
    r"|\d\+|(?:\+|\?|\bor so|\bor more|\bor less|\bplus|\bapprox\.?|\bmax\.?)$",
    re.I | re.ASCII,
)
_MARGIN = re.compile(r"±|\+/-|\+-|plus or minus", re.I)
_BETWEEN = re.compile(r"^(?:between|from)\b", re.I)
_RANGE = re.compile(
    r"\d\s*-?['\"A-Za-z. ]*(?:-|–|—|~|\.\.+|…|(?:to|or|and)(?![A-Za-z]))\s*\.?\d",
    re.ASCII,
)
_DASHED_FRACTION = re.compile(r"(?<![\d/])\d+-\d+/\d", re.ASCII)  # 1-1/2 in
_DASHED = re.compile(r"(\d+)(?:'|ft)?-(\d+)", re.ASCII)  # 18-4
_SPACED_DASH = re.compile(  # 25 ft - 6 in
    r"(\d+) *(?:ft|feet|foot)\.? *[-–—] *((\d+)[\d /.-]*?) *in(?:ch|ches|s)?\.?", re.I
)
_COMMA = re.compile(r"\d[\d,]*,[\d,]*\d|\d,", re.ASCII)
_THOUSANDS = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+", re.ASCII)
_LISTED = re.compile(r"\d\s*[,;]\s+\d", re.ASCII)
_SPACED = re.compile(r"[1-9]\d{0,2}(?: \d{3})+(?![\d/])", re.ASCII)
_ZERO = re.compile(r"/0+(?![\d.])", re.ASCII)
_COLON = re.compile(r"(\d{1,2}):(\d\d)(?!\d)", re.ASCII)
_GLUED = re.compile(r"[A-Za-z]\.\d", re.ASCII)  # 4 ft.5 in
_FRACTIONS = re.compile(r"(?:(\d)(?: +|-))?(?<![\d/.])(\d+)/(\d+)", re.ASCII)

Trap = Callable[[str, str], tuple[str, str] | None]


def sprung(text: str, plain: str, kind: str) -> AmountError | None:
    """Find the first trap that a text falls into: what is wrong, how to mend it."""
    for trap in _TRAPS:
        found = trap(plain, kind)
        if found:
            why, hint = found
            return AmountError(f'"{text}" {why}', hint)
    return None


def _like(kind: str) -> str:
    return f"Write it as {EXAMPLES[kind]}."


def _vague(plain: str, kind: str) -> tuple[str, str] | None:
    if _MARGIN.search(plain):
        return "is a value and a margin.", ONE_VALUE
    return ("is not one number.", ONE_VALUE) if _VAGUE.search(plain) else None


def _feet_or_range(plain: str, kind: str) -> tuple[str, str] | None:
    dashed = _DASHED.fullmatch(plain) if kind == "length" else None
    if not dashed or int(dashed[2]) >= INCHES_PER_FOOT:
        return None
    return _feet_or_one(dashed)


def _spaced_dash(plain: str, kind: str) -> tuple[str, str] | None:
    """Refuse 25 ft - 6 in, which may be a range, a sum or one taken off the other."""
    dashed = _SPACED_DASH.fullmatch(plain)
    if not dashed or int(dashed[3]) >= INCHES_PER_FOOT:
        return None
    return _feet_or_one(dashed)


def _feet_or_one(dashed: re.Match[str]) -> tuple[str, str]:
    feet = f"{dashed[1]} ft {dashed[2]} in"
    return TWO_WAYS, f'Write "{feet}", or the one value that you measured.'


def _range(plain: str, kind: str) -> tuple[str, str] | None:
    bare = _DASHED_FRACTION.sub("1", plain)
    if _BETWEEN.match(bare) or _RANGE.search(bare):
        return "is a range.", ONE_VALUE
    return None


def _comma(plain: str, kind: str) -> tuple[str, str] | None:
    if _LISTED.search(plain):
        return "is more than one number.", ONE_VALUE
    for found in _COMMA.findall(plain):
        if _THOUSANDS.fullmatch(found):
            continue
        pointed = plain.replace(found, found.replace(",", "."))
        hint = f'Write decimals behind a point: "{pointed}".'
        if pointed.count(".") > 1 or found.count(",") > 1 or found.endswith(","):
            hint = 'Write "1,000" or "1000" for a thousand, "1.5" for one and a half.'
        return "has a comma that does not part thousands.", hint
    return None


def _spaced(plain: str, kind: str) -> tuple[str, str] | None:
    found = _SPACED.search(plain)
    if not found:
        return None
    mended = plain.replace(found[0], found[0].replace(" ", ""))
    return "has a space inside its number.", f'Write it as "{mended}".'


def _negative(plain: str, kind: str) -> tuple[str, str] | None:
    return (
        ("is less than nothing.", _like(kind)) if plain[:1] in ("-", "–", "—") else None
    )


def _zero(plain: str, kind: str) -> tuple[str, str] | None:
    return ("divides by zero.", _like(kind)) if _ZERO.search(plain) else None


def _colon(plain: str, kind: str) -> tuple[str, str] | None:
    found = _COLON.search(plain) if kind == "duration" else None
    if not found:
        return None
    large, small = int(found[1]), int(found[2])
    hint = f'Write "{large} h {small} min" or "{large} min {small} s".'
    return TWO_WAYS, hint


def _glued(plain: str, kind: str) -> tuple[str, str] | None:
    return (TWO_WAYS, _like(kind)) if _GLUED.search(plain) else None


def _top_heavy(plain: str, kind: str) -> tuple[str, str] | None:
    """Refuse 1 5/4, and 11/4, which may be 1 1/4."""
    for whole, above, below in _FRACTIONS.findall(plain):
        if int(above) < int(below):
            continue
        if whole:
            return "has a fraction that is one or more.", _like(kind)
        if len(above) > 1 and 0 < int(above[1:]) < int(below):
            parts, rest = divmod(int(above), int(below))
            spelled = f"{parts} {rest}/{below}" if rest else f"{parts}"
            other = f"{above[0]} {above[1:]}/{below}"
            return TWO_WAYS, f"Write {spelled} or {other}, whichever you measured."
    return None


_TRAPS: tuple[Trap, ...] = (
    _vague,
    _feet_or_range,
    _spaced_dash,
    _range,
    _comma,
    _spaced,
    _negative,
    _zero,
    _colon,
    _glued,
    _top_heavy,
)
