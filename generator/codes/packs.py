"""The only reader of code packs: each figure comes with its citation."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from generator.problems import Problem, Refused
from generator.record.build import build
from generator.record.check import check
from generator.record.model import Node, Record
from generator.record.read import read

FOLDER = Path(__file__).parent
WHOLE_SYSTEM = "system"


@dataclass(frozen=True, kw_only=True)
class SeparationRow(Node):
    """One least distance. [ft]"""

    from_: str
    to: str
    feet: int
    seen: str
    exceptions: str | None = None
    strictest: int | None = None


@dataclass(frozen=True, kw_only=True)
class Cited(Node):
    """Where a group of figures stands, and the copy in which it was read."""

    citation: str
    edition: str
    url: str | None = None
    notes: str | None = None


@dataclass(frozen=True, kw_only=True)
class Separation(Cited):
    """Least distances of one code."""

    measured_from: str
    rows: tuple[SeparationRow, ...]


@dataclass(frozen=True, kw_only=True)
class PumpRow(Node):
    """One condition that calls for pumping. [in] or [%]"""

    criterion: str
    pump_when: str
    limit: str

    @property
    def value(self) -> float:
        """The limit as a number. [in] or [%]"""
        number, _, _ = self.limit.partition(" ")
        top, _, bottom = number.partition("/")
        return 100 * int(top) / int(bottom) if bottom else float(number)


@dataclass(frozen=True, kw_only=True)
class PumpOut(Cited):
    """Published conditions that call for pumping."""

    seen: str
    rows: tuple[PumpRow, ...]


@dataclass(frozen=True, kw_only=True)
class Pack(Node):
    """All figures of one jurisdiction or guide."""

    name: str
    jurisdiction: str
    authority: str | None = None
    separation: Separation | None = None
    pump_out: PumpOut | None = None

    def row(self, part: str, feature: str) -> SeparationRow | None:
        """Find the strictest row for a pair; a row for the whole system counts."""
        rows = self.separation.rows if self.separation else ()
        fitting = [
            row
            for row in rows
            if row.from_ in (part, WHOLE_SYSTEM) and row.to == feature
        ]
        return max(fitting, key=lambda row: row.feet, default=None)


@lru_cache
def names() -> tuple[str, ...]:
    """List the packs that ship."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))


@lru_cache
def pack(name: str) -> Pack:
    """Load one pack by name; a pack with a mistake is refused as a whole."""
    document = read(FOLDER / f"{name}.yaml", shown_as=f"codes/{name}.yaml")
    if problems := check(document, "code"):
        raise Refused(problems)
    return build(Pack, document.data)


def pack_for(record: Record) -> Pack | None:
    """Give the local code that a job names, or None where it names none.

    Raises
    ------
    Refused
        Where no pack has that name.
    """
    named = record.inspection.property.code
    if named is None:
        return None
    if named not in names():
        near = difflib.get_close_matches(named, names(), 1)
        path = record.inspection.property.path("code")
        raise Refused(
            [
                Problem(
                    f"inspections/{record.job}.yaml",
                    record.line(path),
                    path,
                    f'No code pack is called "{named}".',
                    (f'Did you mean "{near[0]}"? ' if near else "")
                    + f"The packs: {', '.join(names())}.",
                )
            ]
        )
    return pack(named)


def with_pump_out() -> list[Pack]:
    """List every pack that has pump-out criteria, in the order of their names."""
    return [found for found in map(pack, names()) if found.pump_out]
