"""What stands in a code pack: sections with their source, and the rows of each."""

from __future__ import annotations

from dataclasses import dataclass

from generator.codes.when import When
from generator.quantity import Day, Number
from generator.record.node import Node


@dataclass(frozen=True, kw_only=True)
class SeparationRow(Node):
    """One least distance. [ft]"""

    from_: str
    to: str
    feet: int
    seen: str
    when: When | None = None
    exceptions: str | None = None

    @property
    def read(self) -> bool:
        """Whether the figure was read in a copy of its source; else it never counts."""
        return self.seen == "yes"


@dataclass(frozen=True, kw_only=True)
class Cited(Node):
    """Where a group of figures stands, and the copy in which it was read."""

    citation: str
    edition: str
    as_of: Day | None = None
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


def _same(one: str | None, two: str | None) -> bool:
    return (one or "").strip().casefold() == (two or "").strip().casefold()
