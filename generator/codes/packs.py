"""The only reader of code packs: each figure comes with its citation."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from generator.problems import Problem, Refused
from generator.quantity import Number
from generator.record.build import build
from generator.record.check import check
from generator.record.model import Record
from generator.record.node import Node
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
class FlowRow(Node):
    """Design flow of a house with so many bedrooms. [gal/day]"""

    bedrooms: int
    gpd: int


@dataclass(frozen=True, kw_only=True)
class DesignFlow(Cited):
    """Design flow by bedrooms. [gal/day]"""

    seen: str
    rows: tuple[FlowRow, ...]
    each_further_bedroom_gpd: int | None = None


@dataclass(frozen=True, kw_only=True)
class TankRow(Node):
    """Least tank of a house with so many bedrooms. [gal]"""

    bedrooms: int
    gallons: int


@dataclass(frozen=True, kw_only=True)
class LeastTank(Cited):
    """Least liquid volume of the tank by bedrooms. [gal]"""

    seen: str
    rows: tuple[TankRow, ...]
    each_further_bedroom_gallons: int | None = None


@dataclass(frozen=True, kw_only=True)
class BoxRule(Cited):
    """What a code asks of a distribution box. [in]"""

    seen: str
    outlet_difference_in: int | None = None
    inlet_above_outlet_in: int | None = None
    outlet_above_floor_in: int | None = None


@dataclass(frozen=True, kw_only=True)
class LoadingRow(Node):
    """One loading rate, by percolation or by soil. [gal/(day ft²)]"""

    percolation_from: int | None = None
    percolation_below: int | None = None
    soil: str | None = None
    gpd_per_ft2: Number

    def fits(self, min_per_in: float | None, soil: str | None) -> bool:
        """Say whether this row speaks of a percolation rate or of a soil. [min/in]"""
        if self.percolation_from is None:
            return bool(self.soil and soil) and _same(self.soil, soil)
        if min_per_in is None or min_per_in < self.percolation_from:
            return False
        return self.percolation_below is None or min_per_in < self.percolation_below


@dataclass(frozen=True, kw_only=True)
class LoadingRates(Cited):
    """Loading rates of one code, and how much side wall it counts. [ft]"""

    seen: str
    sidewall_ft: int | None = None
    rows: tuple[LoadingRow, ...]

    def rate(self, min_per_in: float | None, soil: str | None) -> float | None:
        """Find the lowest rate that fits, or None. [gal/(day ft²)]"""
        fitting = [
            row.gpd_per_ft2.value for row in self.rows if row.fits(min_per_in, soil)
        ]
        return min(fitting, default=None)


@dataclass(frozen=True, kw_only=True)
class Pack(Node):
    """All figures of one jurisdiction or guide."""

    name: str
    jurisdiction: str
    authority: str | None = None
    separation: Separation | None = None
    pump_out: PumpOut | None = None
    design_flow: DesignFlow | None = None
    least_tank: LeastTank | None = None
    distribution_box: BoxRule | None = None
    loading: LoadingRates | None = None

    def row(self, part: str, feature: str) -> SeparationRow | None:
        """Find the strictest row for a pair; a row for the whole system counts."""
        rows = self.separation.rows if self.separation else ()
        fitting = [
            row
            for row in rows
            if row.from_ in (part, WHOLE_SYSTEM) and row.to == feature
        ]
        return max(fitting, key=lambda row: row.feet, default=None)

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


def _of(rows: dict[int, int], bedrooms: int, each_further: int | None) -> int | None:
    most = max(rows)
    if bedrooms > most and each_further is not None:
        return rows[most] + each_further * (bedrooms - most)
    return rows.get(bedrooms)


def _same(one: str | None, two: str | None) -> bool:
    return (one or "").strip().casefold() == (two or "").strip().casefold()


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
