"""The only reader of code packs: each figure comes with its citation."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from generator.codes.rows import (
    BoxRule,
    DesignFlow,
    LeastTank,
    LoadingRates,
    PumpOut,
    Separation,
    SeparationRow,
)
from generator.codes.when import SILENT, Answers
from generator.problems import Problem, Refused
from generator.record.build import build
from generator.record.check import check
from generator.record.node import Node
from generator.record.read import read

FOLDER = Path(__file__).parent
WHOLE_SYSTEM = "system"
SECTIONS = {  # of a pack, with the title of each
    "separation": "Distances",
    "pump_out": "When to pump out",
    "design_flow": "Design flow",
    "least_tank": "Least tank",
    "distribution_box": "Distribution box",
    "loading": "Loading rates",
}


@dataclass(frozen=True, kw_only=True)
class Pack(Node):
    """All figures of one jurisdiction or guide."""

    name: str
    jurisdiction: str
    level: str | None = None
    within: str | None = None
    authority: str | None = None
    separation: Separation | None = None
    pump_out: PumpOut | None = None
    design_flow: DesignFlow | None = None
    least_tank: LeastTank | None = None
    distribution_box: BoxRule | None = None
    loading: LoadingRates | None = None

    def rows(self, part: str, feature: str) -> list[SeparationRow]:
        """List the rows that speak of a pair; one for the whole system counts."""
        return [
            row
            for row in (self.separation.rows if self.separation else ())
            if row.from_ in (part, WHOLE_SYSTEM) and row.to == feature
        ]

    def asked(
        self, part: str, feature: str, answers: Answers = SILENT
    ) -> tuple[Asked, ...]:
        """List every row that holds or may hold for a pair."""
        return tuple(asked_by(self, part, feature, answers))

    def asked_by_program(
        self, part: str, feature: str, answers: Answers = SILENT
    ) -> tuple[Asked, ...]:
        """List the rows of a loan program for a pair; none in a single pack."""
        return ()

    def source(self, section: str) -> str:
        """Give the source key of one section."""
        return f"pack:{self.name}:{section}"

    def gpd(self, bedrooms: int) -> int | None:
        """Give the design flow of a house, or None where no row says. [gal/day]"""
        if self.design_flow is None:
            return None
        rows = {row.bedrooms: row.gpd for row in self.design_flow.rows}
        return _of(rows, bedrooms, self.design_flow.each_further_bedroom_gpd)

    def least_gallons(self, bedrooms: int) -> int | None:
        """Give the least tank of a house, or None where no row says. [gal]"""
        if self.least_tank is None:
            return None
        rows = {row.bedrooms: row.gallons for row in self.least_tank.rows}
        return _of(rows, bedrooms, self.least_tank.each_further_bedroom_gallons)


@dataclass(frozen=True)
class Asked:
    """One row that speaks of a pair, the pack it stands in, and whether it holds.

    ``holds`` is None where the job file does not answer its conditions.
    """

    row: SeparationRow
    pack: Pack
    firm: bool = False
    holds: bool | None = True
    unanswered: tuple[str, ...] = ()

    @property
    def whose(self) -> str:
        """Whose row it is, in words."""
        own = " (the firm's own row)" if self.firm else ""
        return f"{self.pack.jurisdiction}{own}"

    @property
    def source(self) -> str:
        """The source key of the row."""
        return source_key(self.pack, "separation", firm=self.firm)


def asked_by(
    pack: Pack, part: str, feature: str, answers: Answers, *, firm: bool = False
) -> Iterator[Asked]:
    """List the rows of one pack that hold or may hold for a pair."""
    for row in pack.rows(part, feature):
        holds = row.when.holds(answers) if row.when else True
        open_ = row.when.unanswered(answers) if row.when else ()
        if holds is not False:
            yield Asked(row, pack, firm, holds, tuple(open_))


def source_key(pack: Pack, section: str, *, firm: bool) -> str:
    """Give the source key of a section of a pack, the firm's own set apart."""
    return f"firm:{pack.name}:{section}" if firm else pack.source(section)


def _of(rows: dict[int, int], bedrooms: int, each_further: int | None) -> int | None:
    most = max(rows)
    if bedrooms > most and each_further is not None:
        return rows[most] + each_further * (bedrooms - most)
    return rows.get(bedrooms)


@lru_cache
def names() -> tuple[str, ...]:
    """List the packs that ship."""
    return tuple(sorted(path.stem for path in FOLDER.glob("*.yaml")))


@lru_cache
def pack(name: str) -> Pack:
    """Load one pack that ships; a pack with a mistake is refused as a whole."""
    return read_pack(FOLDER / f"{name}.yaml", shown_as=f"codes/{name}.yaml")


def shipped(name: str) -> Pack | None:
    """Load one pack that ships, or give None where none has that name."""
    return pack(name) if name in names() else None


def read_pack(path: Path, *, shown_as: str) -> Pack:
    """Read one pack.

    Raises
    ------
    Refused
        With every problem of its file.
    """
    document = read(path, shown_as=shown_as)
    if problems := check(document, "code"):
        raise Refused(problems)
    found = build(Pack, document.data)
    if found.name != path.stem:
        message = f'This pack is called "{found.name}", and its file is not.'
        hint = f'Write "name: {path.stem}", or rename the file.'
        line = document.line("name")
        raise Refused([Problem(document.file, line, "name", message, hint)])
    return found


def with_pump_out() -> list[Pack]:
    """List every pack that ships with pump-out criteria, by name."""
    return [found for found in map(pack, names()) if found.pump_out]
