"""Code packs told in a terminal: which there are, and one in full."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.codes import packs
from generator.codes.packs import SECTIONS, Pack
from generator.codes.rows import Cited, SeparationRow
from generator.codes.when import When

OWN = "the firm's own"
CONDITIONS = {  # a condition in words, with its value put in
    "lies": "where the feature lies {}",
    "flows": "where it holds water {}",
    "piped": "piped: {}",
    "lined": "lined: {}",
    "watertight": "the part watertight: {}",
    "casing_from": "casing of {} ft or more",
    "casing_below": "casing of less than {} ft",
    "slope_at_most": "ground of {} % or less",
    "slope_over": "ground of more than {} %",
    "flow_from": "design flow of {} gal a day or more",
    "flow_below": "design flow of less than {} gal a day",
    "flow_at_most": "design flow of {} gal a day or less",
    "flow_over": "design flow of more than {} gal a day",
}


def listed(own: Mapping[str, Pack]) -> Iterator[str]:
    """Tell every pack in two lines: what it is of, and what it holds."""
    for name in sorted({*packs.names(), *own}):
        for found, whose in ((own.get(name), f", {OWN}"), (packs.shipped(name), "")):
            if found is not None:
                level = f", {found.level}" if found.level else ""
                yield f"{name}: {found.jurisdiction}{level}{whose}"
                yield f"    {_holds(found)}"


def _holds(pack: Pack) -> str:
    told = []
    rows = pack.separation.rows if pack.separation else ()
    if rows:
        read = sum(row.read for row in rows)
        told.append(f"{len(rows)} distance{'s' * (len(rows) != 1)}, {read} read")
    told += [
        words.lower()
        for key, words in SECTIONS.items()
        if key != "separation" and getattr(pack, key) is not None
    ]
    dates = [one.as_of.iso for one in sections(pack).values() if one.as_of]
    told.append(f"as of {max(dates)}" if dates else "undated")
    return "; ".join(told)


def sections(pack: Pack) -> dict[str, Cited]:
    """Give every section that a pack has, by its key."""
    found = {key: getattr(pack, key) for key in SECTIONS}
    return {key: one for key, one in found.items() if one is not None}


def in_full(pack: Pack, *, own: bool = False) -> Iterator[str]:
    """Tell one pack with every figure and where it stands."""
    yield f"{pack.name}: {pack.jurisdiction}" + (f", {OWN}" if own else "")
    if pack.within:
        yield f"Within: {pack.within}, whose rows hold as well."
    if pack.authority:
        yield f"To ask: {pack.authority}."
    for key, section in sections(pack).items():
        yield ""
        yield SECTIONS[key]
        yield from _cited(section)
        if key == "separation":
            yield from map(_row, pack.separation.rows if pack.separation else ())
        else:
            yield from _figures(section)


def _cited(section: Cited) -> Iterator[str]:
    yield f"  {section.citation}"
    yield f"  Read in: {section.edition}"
    if section.url:
        yield f"  {section.url}"
    measured = getattr(section, "measured_from", None)
    if measured:
        yield f"  Measured from: {measured}"
    if section.notes:
        yield f"  {section.notes}"
    if getattr(section, "seen", "yes") != "yes":
        yield "  Remembered and not read: it decides nothing by itself."


def _row(row: SeparationRow) -> str:
    told = f"  {row.from_} to {row.to}: {row.feet} ft"
    if row.when:
        told += f"; {', '.join(conditions(row.when))}"
    if row.exceptions:
        told += f" ({row.exceptions})"
    return told if row.read else f"{told}; remembered and not read"


def conditions(when: When) -> list[str]:
    """Say in words under which conditions a row holds."""
    return [
        words.format(getattr(when, key))
        for key, words in CONDITIONS.items()
        if getattr(when, key) is not None
    ]


def _figures(section: Cited) -> Iterator[str]:
    plain = {"at", "citation", "edition", "as_of", "url", "notes", "seen", "rows"}
    for row in getattr(section, "rows", ()):
        yield "  " + ", ".join(_said(row, {"at"}))
    yield from (f"  {one}" for one in _said(section, plain))


def _said(node: object, leave_out: set[str]) -> Iterator[str]:
    for key, value in vars(node).items():
        if key not in leave_out and value is not None:
            yield f"{key.replace('_', ' ')} {getattr(value, 'typed', value)}"
