"""The inside of a tank: volume, gallons for each inch, volume between two levels."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, fields, replace

from generator.quantity import CUBIC_INCHES_PER_GALLON, Length
from generator.record.parts import Tank
from generator.results.measured import STATED_VOLUME, TANK_INSIDE_IN, measured
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.solve import rising_root
from generator.results.tank_plans import (
    box_gal_per_in,
    ellipse_gal_per_in,
    oval_gal_per_in,
    upright_gal_per_in,
)
from generator.results.tank_sections import (
    chord_in,
    ellipse_area_in2,
    ellipse_width_in,
    oval_area_in2,
    oval_width_in,
    segment_area_in2,
)

GAL = CUBIC_INCHES_PER_GALLON


@dataclass(frozen=True)
class Inside:
    """The inside of a tank; heights count from its floor, levels from its outlet.

    Lengths in inches, volume in gallons; None where the shape has no such measure. The
    ends are flat. Where the section closes at its top, no level goes above it.
    """

    shape: str
    liquid_depth_in: Number
    length_in: Number = None
    width_in: Number = None
    diameter_in: Number = None
    gallons: Number = None
    height_in: Number = None

    @property
    def lies(self) -> bool:
        """Whether its wall is curved along its length, so that its section closes."""
        return self.shape in SECTIONS

    def top_in(self) -> Number:
        """Level of the top of a tank that lies, against the outlet invert. [in]"""
        high = self.diameter_in if self.shape == "lying cylinder" else self.height_in
        return high - self.liquid_depth_in

    def wetted_in2(self, level_in: Number = 0.0) -> Number:
        """Wetted area across a tank that lies, below a level. [in²]"""
        return SECTIONS[self.shape][0](self, self.liquid_depth_in + level_in)

    def surface_in(self, level_in: Number = 0.0) -> Number:
        """Width of the liquid surface across a tank that lies, at a level. [in]"""
        return SECTIONS[self.shape][1](self, self.liquid_depth_in + level_in)

    def gal_per_in(self, level_in: Number = 0.0) -> Number:
        """Gallons for each inch at a level against the outlet invert. [gal/in]"""
        if self.lies:
            return self.surface_in(level_in) * self.length_in / GAL
        return PLANS[self.shape](self)

    def volume_gal(self, level_in: Number = 0.0) -> Number:
        """Gallons below a level against the outlet invert. [gal]"""
        if self.lies:
            return self.wetted_in2(level_in) * self.length_in / GAL
        return self.gal_per_in() * (self.liquid_depth_in + level_in)

    def between_gal(self, low_in: Number, high_in: Number) -> Number:
        """Gallons between two levels: the integral, not an average. [gal]"""
        if self.lies:
            return self.volume_gal(high_in) - self.volume_gal(low_in)
        return self.gal_per_in() * (high_in - low_in)

    def level_after_in(self, start_in: Number, gallons: Number) -> Number:
        """Level against the outlet invert after adding water to a start level. [in]

        Water taken out counts as negative. A tank that lies cannot be fuller than full
        nor emptier than empty; its level stays at its top or its floor then.
        """
        if not self.lies:
            return start_in + gallons / self.gal_per_in()
        plain, start, added = self._plain(), nominal(start_in), nominal(gallons)
        top, floor = plain.top_in(), -plain.liquid_depth_in
        if added > 0 and added >= plain.between_gal(start, top):
            return self.top_in()
        if added < 0 and added <= plain.between_gal(start, floor):
            return -self.liquid_depth_in
        level = rising_root(
            lambda tried: plain.between_gal(start, tried) - added,
            start if added > 0 else floor,
            top if added > 0 else start,
        )
        level = level if added else start
        slope = plain.gal_per_in(level)
        if slope == 0:
            return level + 0.0 * gallons
        return level + (gallons - self.between_gal(start_in, level)) / slope

    def _plain(self) -> Inside:
        numbers = [one.name for one in fields(self) if one.name != "shape"]
        plain: dict[str, Number] = {
            name: nominal(getattr(self, name))
            for name in numbers
            if getattr(self, name) is not None
        }
        return replace(self, **plain)


# Gallons in an inch of the tanks that stand, whatever the level.
PLANS: dict[str, Callable[[Inside], Number]] = {
    "box": lambda one: box_gal_per_in(one.length_in, one.width_in),
    "upright cylinder": lambda one: upright_gal_per_in(one.diameter_in),
    "upright oval": lambda one: oval_gal_per_in(one.length_in, one.width_in),
    "upright ellipse": lambda one: ellipse_gal_per_in(one.length_in, one.width_in),
    "stated": lambda one: one.gallons / one.liquid_depth_in,
}
# Wetted area and surface width of the tanks that lie, by depth above the floor.
Across = Callable[[Inside, Number], Number]
SECTIONS: dict[str, tuple[Across, Across]] = {
    "lying cylinder": (
        lambda one, depth: segment_area_in2(one.diameter_in, depth),
        lambda one, depth: chord_in(one.diameter_in, depth),
    ),
    "lying oval": (
        lambda one, depth: oval_area_in2(one.width_in, one.height_in, depth),
        lambda one, depth: oval_width_in(one.width_in, one.height_in, depth),
    ),
    "lying ellipse": (
        lambda one, depth: ellipse_area_in2(one.width_in, one.height_in, depth),
        lambda one, depth: ellipse_width_in(one.width_in, one.height_in, depth),
    ),
}


def inside_of(tank: Tank) -> Inside:
    """Take the inside of a recorded tank, each measure with its uncertainty."""
    method = TANK_INSIDE_IN[tank.measured_by or "tape"]

    def inches(recorded: Length | None) -> Number:
        return None if recorded is None else measured(recorded.inches, method)

    stated = tank.gallons if tank.shape == "stated" else None
    return Inside(
        tank.shape,
        inches(tank.liquid_depth),
        inches(tank.length),
        inches(tank.width),
        inches(tank.diameter),
        measured(stated.gallons, STATED_VOLUME) if stated else None,
        inches(tank.inside_height),
    )


LIES = ("V = A × L / 231", "G = T × L / 231")
FORMULAS = {
    "box": ("V = L × W × d / 231", "G = L × W / 231"),
    "upright cylinder": (
        "V = 3.1416 × D × D / 4 × d / 231",
        "G = 3.1416 × D × D / 4 / 231",
    ),
    "upright oval": (
        "V = ((a - b) × b + 3.1416 × b × b / 4) × d / 231",
        "G = ((a - b) × b + 3.1416 × b × b / 4) / 231",
    ),
    "upright ellipse": (
        "V = 3.1416 × L × W / 4 × d / 231",
        "G = 3.1416 × L × W / 4 / 231",
    ),
    "lying cylinder": LIES,
    "lying oval": LIES,
    "lying ellipse": LIES,
    "stated": ("V = Vs", "G = Vs / d"),
}
WETTED = {
    "lying cylinder": "wetted end, D² / 8 × (θ − sin θ)",
    "lying oval": "wetted end, a rectangle and parts of two half circles",
    "lying ellipse": "wetted end, W / H × H² / 8 × (θ − sin θ)",
}
FLAT_ENDS = "ends taken as flat: a domed end holds a little more"


def tank_results(tank: Tank, inside: Inside) -> list[Result]:
    """Work out the volume below the outlet and the gallons in an inch at it."""
    symbols = _symbols(inside)
    method = TANK_INSIDE_IN[tank.measured_by or "tape"]
    assumed = STATED_VOLUME if tank.shape == "stated" else method
    key = f"tank.{tank.name}"
    volume, surface = FORMULAS[tank.shape]
    source = "Chow1959" if inside.lies else "NIST-HB44"
    return [
        Result(
            f"{key}.volume",
            f"Volume of the {tank.name} up to its outlet",
            inside.volume_gal(),
            "gal",
            volume,
            _in(volume, symbols),
            inside_paths(tank),
            source,
            (assumed.assumption(), *((FLAT_ENDS,) if inside.lies else ())),
        ),
        Result(
            f"{key}.gallons_per_inch",
            f"Gallons in one inch at the outlet of the {tank.name}",
            inside.gal_per_in(),
            "gal/in",
            surface,
            _in(surface, symbols),
            inside_paths(tank),
            source,
            (assumed.assumption(),),
        ),
    ]


def inside_paths(tank: Tank) -> tuple[str, ...]:
    """List the keys of the job file that the inside of a tank was taken from."""
    closed = ("inside_height",) if tank.shape in ("lying oval", "lying ellipse") else ()
    return tuple(
        tank.path(key)
        for key in ("length", "width", "diameter", "gallons", "liquid_depth", *closed)
        if getattr(tank, key) is not None
    )


def _in(formula: str, symbols: tuple[Symbol, ...]) -> tuple[Symbol, ...]:
    named = re.findall(r"\w+", formula.partition(" = ")[2])
    return tuple(one for one in symbols if one.name in named)


def _symbols(inside: Inside) -> tuple[Symbol, ...]:
    found = [Symbol("d", inside.liquid_depth_in, "in", "liquid depth")]
    for name, number, unit, meaning in (
        ("L", inside.length_in, "in", "inside length"),
        ("W", inside.width_in, "in", "inside width"),
        ("D", inside.diameter_in, "in", "inside diameter"),
        ("Vs", inside.gallons, "gal", "stated volume"),
    ):
        if number is not None:
            found.append(Symbol(name, number, unit, meaning))
    if inside.shape == "upright oval":
        short, long = sorted((inside.length_in, inside.width_in), key=nominal)
        found.append(Symbol("a", long, "in", "inside, the long way"))
        found.append(Symbol("b", short, "in", "inside, the short way"))
    if inside.lies:
        area, width = inside.wetted_in2(), inside.surface_in()
        found.append(Symbol("A", area, "in²", WETTED[inside.shape]))
        found.append(Symbol("T", width, "in", "width of the liquid surface"))
    return tuple(found)
