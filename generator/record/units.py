"""What a typed unit is worth in the unit of its kind."""

from __future__ import annotations

import re
from functools import lru_cache

from generator.quantity import AREAS, MINUTES_PER_DAY, UNITS

_RATIOS = {
    "flow": ("volume", "duration"),
    "slope": ("length", "length"),
    "percolation": ("duration", "length"),
}
_MARKS = {"'": "ft", '"': "in"}
_PER = re.compile(r"\s*/\s*|(?:\s+|(?<=\"))(?:per|an?)\s+")
_DOT = re.compile(r"(?<=[a-z])\.")  # of an abbreviation
_FACTORS = {
    kind: {
        spelling: factor
        for spellings, factor in units.items()
        for spelling in spellings.split("|")
    }
    for kind, units in {**UNITS, "area": AREAS}.items()
}


@lru_cache(maxsize=1024)
def factor(unit: str, kind: str) -> float | None:
    """Find what one of a unit is worth; None for a unit of another kind.

    Examples
    --------
    >>> factor("Feet", "length"), factor("gal. per min.", "flow"), factor("gal", "flow")
    (12.0, 1.0, None)
    """
    wanted = " ".join(_DOT.sub("", unit.lower()).split())
    known = _one(wanted, kind)
    if known is not None:
        return known
    parts = _PER.split(wanted)
    if kind == "loading":
        return _loading(parts)
    if kind not in _RATIOS or len(parts) != len(_RATIOS[kind]):
        return None
    above, below = (
        _one(part, one) for part, one in zip(parts, _RATIOS[kind], strict=True)
    )
    return above / below if above and below else None


def _one(unit: str, kind: str) -> float | None:
    if kind == "length":
        unit = _MARKS.get(unit, unit)
    return _FACTORS[kind].get(unit)


def _loading(parts: list[str]) -> float | None:
    """Take a flow on an area apart: gpd/ft2, gal/day/ft2 or gal/ft2/day."""
    *flowing, area = parts
    if len(parts) == 3 and _one(parts[1], "area"):
        flowing, area = [parts[0], parts[2]], parts[1]
    gpm, square_feet = factor("/".join(flowing), "flow"), _one(area, "area")
    return gpm * MINUTES_PER_DAY / square_feet if gpm and square_feet else None
