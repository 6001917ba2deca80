"""Short ways to make codes, and to judge a distance by them."""

from __future__ import annotations

from uncertainties import ufloat

from generator.codes.layers import Layer, merged
from generator.codes.packs import Pack, names, pack
from generator.codes.rows import Separation, SeparationRow
from generator.codes.when import SILENT, Answers, When
from generator.results.asked import Judged, judge_all
from generator.results.result import Number

FIELD, WELL = "absorption area", "private well"
WITH_ROWS = [name for name in names() if pack(name).separation]
PAIRS = [
    (name, *pair)
    for name in WITH_ROWS
    for pair in sorted({(row.from_, row.to) for row in pack(name).separation.rows})
]


def ft(feet: float, u: float = 0.2) -> Number:
    """A distance with its standard uncertainty. [ft]"""
    return ufloat(feet, u) if u else feet


def row(feet: int, *, seen: bool = True, when: When | None = None) -> SeparationRow:
    """A row from a field to a well."""
    read = "yes" if seen else "no"
    return SeparationRow(from_=FIELD, to=WELL, feet=feet, seen=read, when=when)


def code(name: str, *rows: SeparationRow) -> Pack:
    """An invented pack with some rows."""
    section = Separation(citation="x", edition="x", measured_from="x", rows=rows)
    return Pack(name=name, jurisdiction=name.title(), separation=section)


def judged(
    feet: float, *layers: Pack, u: float = 0.0, answers: Answers = SILENT
) -> Judged:
    """Judge a distance from a field to a well by packs over one another."""
    found = merged(tuple(Layer(one, None) for one in layers))
    return judge_all(ft(feet, u), found.asked(FIELD, WELL, answers))
