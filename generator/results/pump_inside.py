"""The inside of a pump chamber, and the heights that were read in it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from generator.quantity import Length, Volume
from generator.record.parts import PumpChamber
from generator.results.measured import (
    FLOAT_IN,
    STATED_VOLUME,
    TANK_INSIDE_IN,
    Method,
    measured,
)
from generator.results.result import Number
from generator.results.tank import FLAT_ENDS, Inside

NEEDS = {  # measures without which the gallons of a shape cannot be said
    "box": ("length", "width"),
    "upright cylinder": ("diameter",),
    "upright oval": ("length", "width"),
    "upright ellipse": ("length", "width"),
    "lying cylinder": ("length", "diameter"),
    "lying oval": ("length", "width", "inside_height"),
    "lying ellipse": ("length", "width", "inside_height"),
    "stated": ("gallons", "liquid_depth"),
}
ORDER = ("pump_off", "pump_on", "alarm_on", "inlet")  # from the floor up
FLOATS = {
    "pump_off": "pump off",
    "pump_on": "pump on",
    "alarm_on": "alarm on",
    "inlet": "inlet",
}


@dataclass(frozen=True)
class Chamber:
    """A pump chamber with its inside and its heights above one line. [in]"""

    recorded: PumpChamber
    inside: Inside | None

    @classmethod
    def of(cls, chamber: PumpChamber) -> Chamber:
        """Take a recorded chamber."""
        return cls(chamber, _inside(chamber))

    def height_in(self, reading: Length, method: Method) -> Number | None:
        """Height of a reading; above the floor where the wall is curved. [in]"""
        number = measured(reading.inches, method)
        if self.recorded.read_from != "top":
            return number
        if self.inside is None or not self.inside.lies:
            return -number  # upright walls: only differences count
        high = self.recorded.inside_height
        if high is None and self.recorded.shape == "lying cylinder":
            high = self.recorded.diameter
        return None if high is None else high.inches - number

    def between_gal(
        self, low: Length | None, high: Length | None, method: Method
    ) -> Number | None:
        """Gallons between two readings: the integral where the wall is curved. [gal]"""
        if self.inside is None or low is None or high is None:
            return None
        lower, upper = self.height_in(low, method), self.height_in(high, method)
        if lower is None or upper is None:
            return None
        return self.inside.between_gal(lower, upper)

    def from_inlet_gal(self, before_in: Number, after_in: Number) -> Number | None:
        """Gallons between two levels that count from the inlet invert. [gal]"""
        if self.inside is None:
            return None
        if not self.inside.lies:
            return self.inside.gal_per_in() * (after_in - before_in)
        inlet = self.recorded.inlet
        height = None if inlet is None else self.height_in(inlet, FLOAT_IN)
        if height is None:
            return None
        return self.inside.between_gal(height + before_in, height + after_in)

    def wrong(self) -> tuple[str, ...]:
        """Pairs of floats whose heights cannot be so, in words."""
        sign = -1 if self.recorded.read_from == "top" else 1
        given = [(key, getattr(self.recorded, key)) for key in ORDER]
        heights = [(key, sign * one.inches) for key, one in given if one is not None]
        return tuple(
            f"{FLOATS[upper]} is not above {FLOATS[lower]}"
            for (lower, low), (upper, high) in pairwise(heights)
            if high < low or (high == low and (lower, upper) == ORDER[:2])
        )

    def assumptions(self, method: Method) -> tuple[str, ...]:
        """Say what was assumed of the inside and of the readings."""
        stated = self.recorded.shape == "stated"
        by = TANK_INSIDE_IN[self.recorded.measured_by or "tape"]
        ends = (FLAT_ENDS,) if self.inside is not None and self.inside.lies else ()
        inside = STATED_VOLUME if stated else by
        return (inside.assumption(), method.assumption(), *ends)

    def paths(self, *keys: str) -> tuple[str, ...]:
        """List the keys that a volume came from; only those that were given."""
        more = ("read_from", *NEEDS[self.recorded.shape], *keys)
        if self.recorded.read_from == "top" and self.inside and self.inside.lies:
            more = (*more, "inside_height")
        return tuple(
            self.recorded.path(key)
            for key in dict.fromkeys(more)
            if getattr(self.recorded, key) is not None
        )


def _inside(chamber: PumpChamber) -> Inside | None:
    """Build the inside; levels count from the floor, since there is no outlet."""
    found = [getattr(chamber, key) for key in NEEDS[chamber.shape]]
    if any(one is None for one in found):
        return None
    if any(_size(one) <= 0 for one in found):
        return None
    method = TANK_INSIDE_IN[chamber.measured_by or "tape"]

    def inches(recorded: Length | None) -> Number:
        return None if recorded is None else measured(recorded.inches, method)

    stated = chamber.gallons if chamber.shape == "stated" else None
    return Inside(
        chamber.shape,
        inches(chamber.liquid_depth) if stated else 0.0,
        inches(chamber.length),
        inches(chamber.width),
        inches(chamber.diameter),
        measured(stated.gallons, STATED_VOLUME) if stated else None,
        inches(chamber.inside_height),
    )


def _size(one: Length | Volume) -> float:
    return one.gallons if isinstance(one, Volume) else one.inches
