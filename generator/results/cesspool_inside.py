"""The inside of a cesspool or seepage pit, with its depths down from one mark."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from generator.quantity import GALLONS_PER_CUBIC_FOOT, INCHES_PER_FOOT, Length
from generator.record.cesspool import Cesspool
from generator.results.measured import (
    LEVEL_IN,
    TANK_INSIDE_IN,
    Method,
    from_half_width,
    measured,
)
from generator.results.result import Number, Symbol

DEPTH_IN = Method(
    0.5, 0.0, "choice", "depths in the pit: taken to be right within 1/2 in"
)
FLOOR_IN = Method(
    2.0, 0.0, "choice", "floor, felt through sludge: taken to be right within 2 in"
)
ROUGH_IN = Method(
    2.0,
    0.0,
    "choice",
    "inside of a pit with rough walls: taken to be right within 2 in",
)
SMOOTH_WALLS = "concrete rings"  # walls of all else count as rough; our choice
UPRIGHT = "walls taken as upright: a pit that narrows upward holds less than this"


def round_plan_ft2(diameter_in: Number) -> Number:
    """Plan area of a round pit.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]

    Returns
    -------
    float
        Plan area. [ft²]

    Notes
    -----
    Plain geometry. Common practice, no source.

    Examples
    --------
    >>> round(round_plan_ft2(72.0), 3)
    28.274
    """
    return pi * diameter_in**2 / 4 / INCHES_PER_FOOT**2


def cornered_plan_ft2(length_in: Number, width_in: Number) -> Number:
    """Plan area of a pit with four corners.

    Parameters
    ----------
    length_in, width_in : float
        Inside measures. [in]

    Returns
    -------
    float
        Plan area. [ft²]

    Notes
    -----
    Plain geometry. Common practice, no source.

    Examples
    --------
    >>> cornered_plan_ft2(72.0, 60.0)
    30.0
    """
    return length_in * width_in / INCHES_PER_FOOT**2


def pit_gal(plan_ft2: Number, height_in: Number) -> Number:
    """Gallons in a height of a pit.

    Parameters
    ----------
    plan_ft2 : float
        Plan area. [ft²]
    height_in : float
        Height between two levels. [in]

    Returns
    -------
    float
        Plan area times height times 7.48 gal/ft³. [gal]

    Notes
    -----
    Holds for upright walls; water between and behind the stones is left out.
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³).

    Examples
    --------
    >>> round(pit_gal(30.0, 12.0), 2)
    224.42
    """
    return plan_ft2 * height_in / INCHES_PER_FOOT * GALLONS_PER_CUBIC_FOOT


@dataclass(frozen=True)
class Pit:
    """A recorded pit with its plan and its depths down from the mark. [ft²], [in]"""

    recorded: Cesspool
    plan_ft2: Number | None
    inlet_in: Number | None
    liquid_in: Number | None
    floor_in: Number | None
    high_mark_in: Number | None

    @classmethod
    def of(cls, pit: Cesspool) -> Pit:
        """Take a recorded pit, each measure with its uncertainty."""
        return cls(
            pit,
            _plan(pit),
            _down(pit.inlet_down, DEPTH_IN),
            _down(pit.liquid_down, DEPTH_IN),
            _down(pit.floor_down, FLOOR_IN),
            _down(pit.high_mark_down, DEPTH_IN),
        )

    @property
    def free_in(self) -> Number | None:
        """Free space from the liquid up to the inlet; negative above it. [in]"""
        if self.liquid_in is None or self.inlet_in is None:
            return None
        return self.liquid_in - self.inlet_in

    def gal(self, height_in: Number | None) -> Number | None:
        """Gallons in a height; None where the plan or the height is unknown. [gal]"""
        if self.plan_ft2 is None or height_in is None:
            return None
        return pit_gal(self.plan_ft2, height_in)

    def level_in(self, down: Length) -> Number:
        """Depth of a reading of the test, by the step it was read to. [in]"""
        step = self.recorded.levels_read_to
        if step is None:
            return measured(down.inches, LEVEL_IN)
        return from_half_width(down.inches, step.inches)

    def wrong(self) -> tuple[str, ...]:
        """Say which depths cannot be as they were recorded, in words."""
        one = self.recorded
        floor = one.floor_down
        if floor is None:
            return ()
        levels = [reading.down for reading in one.levels]
        found = []
        if one.inlet_down is not None and one.inlet_down.inches >= floor.inches:
            found.append("the inlet lies at or below the floor")
        liquids = [down for down in (one.liquid_down, *levels) if down is not None]
        if any(down.inches > floor.inches for down in liquids):
            found.append("the liquid lies below the floor")
        return tuple(found)

    def plan_symbol(self) -> Symbol:
        """Give the symbol of the plan area."""
        return Symbol("A", self.plan_ft2, "ft²", "inside plan area")

    def side_symbols(self) -> tuple[Symbol, ...]:
        """Give the symbols of the measures that the plan area comes from."""
        one, method = self.recorded, _inside(self.recorded)
        return tuple(
            Symbol(
                key[0].upper(),
                measured(getattr(one, key).inches, method) / INCHES_PER_FOOT,
                "ft",
                f"inside {key}",
            )
            for key in self.plan_keys()
        )

    def plan_keys(self) -> tuple[str, ...]:
        """Name the keys that the plan area comes from."""
        return ("diameter",) if _given(self.recorded.diameter) else ("length", "width")

    def paths(self, *keys: str) -> tuple[str, ...]:
        """List those keys of the job file that were given."""
        one = self.recorded
        return tuple(one.path(key) for key in keys if getattr(one, key) is not None)

    def assumptions(self) -> tuple[str, ...]:
        """Say what was assumed of the plan."""
        return (_inside(self.recorded).assumption(), UPRIGHT)


def _inside(pit: Cesspool) -> Method:
    taken = TANK_INSIDE_IN[pit.measured_by or "tape"]
    return taken if pit.walls == SMOOTH_WALLS else ROUGH_IN


def _given(length: Length | None) -> bool:
    return length is not None and length.inches > 0


def _plan(pit: Cesspool) -> Number | None:
    method = _inside(pit)
    if pit.diameter is not None and _given(pit.diameter):
        return round_plan_ft2(measured(pit.diameter.inches, method))
    if pit.length is None or pit.width is None:
        return None
    if not (_given(pit.length) and _given(pit.width)):
        return None
    length = measured(pit.length.inches, method)
    return cornered_plan_ft2(length, measured(pit.width.inches, method))


def _down(length: Length | None, method: Method) -> Number | None:
    return None if length is None else measured(length.inches, method)
