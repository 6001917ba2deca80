"""Volume of a tank, gallons for each inch of level, and volume between two levels."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from uncertainties import umath

from generator.quantity import CUBIC_INCHES_PER_GALLON, Length
from generator.record.model import Tank
from generator.results.measured import STATED_VOLUME, TANK_INSIDE_IN, measured
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.solve import rising_root

GAL = CUBIC_INCHES_PER_GALLON


def box_gal_per_in(length_in: Number, width_in: Number) -> Number:
    """Gallons for each inch of liquid level in a box with upright walls.

    Parameters
    ----------
    length_in, width_in : float
        Inside measures. [in]

    Returns
    -------
    float
        Plan area over 231 cubic inches. [gal/in]

    Notes
    -----
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³).

    Examples
    --------
    >>> round(box_gal_per_in(84, 48), 3)
    17.455
    """
    return length_in * width_in / GAL


def upright_gal_per_in(diameter_in: Number) -> Number:
    """Gallons for each inch of liquid level in an upright cylinder.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]

    Returns
    -------
    float
        Plan area over 231 cubic inches. [gal/in]

    Notes
    -----
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³).

    Examples
    --------
    >>> round(upright_gal_per_in(72), 3)
    17.626
    """
    return pi * diameter_in**2 / 4 / GAL


def segment_area_in2(diameter_in: Number, depth_in: Number) -> Number:
    """Area of the wetted segment of a circle filled to a depth.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]
    depth_in : float
        Depth above the lowest point, from 0 to the diameter. [in]

    Returns
    -------
    float
        Wetted area. [in²]

    Notes
    -----
    A = (D²/8)(θ − sin θ) with θ = 2 arccos(1 − 2d/D). Source: [Chow1959], Table 2-1.

    Examples
    --------
    >>> round(segment_area_in2(2.0, 1.0), 4)
    1.5708
    """
    if nominal(depth_in) <= 0:
        return 0.0 * depth_in
    if nominal(depth_in) >= nominal(diameter_in):
        return pi * diameter_in**2 / 4
    angle = 2 * umath.acos(1 - 2 * depth_in / diameter_in)
    return diameter_in**2 / 8 * (angle - umath.sin(angle))


def chord_in(diameter_in: Number, depth_in: Number) -> Number:
    """Width of the liquid surface in a circle filled to a depth.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]
    depth_in : float
        Depth above the lowest point. [in]

    Returns
    -------
    float
        Width of the surface; zero when empty or full. [in]

    Notes
    -----
    T = 2 √(d (D − d)). Source: [Chow1959], Table 2-1.

    Examples
    --------
    >>> chord_in(2.0, 1.0)
    2.0
    """
    if not 0 < nominal(depth_in) < nominal(diameter_in):
        return 0.0 * depth_in
    return 2 * umath.sqrt(depth_in * (diameter_in - depth_in))


@dataclass(frozen=True)
class Inside:
    """The inside of a tank; heights count from its floor, levels from its outlet.

    Lengths in inches, volume in gallons; None where the shape has no such measure.
    """

    shape: str
    liquid_depth_in: Number
    length_in: Number = None
    width_in: Number = None
    diameter_in: Number = None
    gallons: Number = None

    def gal_per_in(self, level_in: Number = 0.0) -> Number:
        """Gallons for each inch at a level against the outlet invert. [gal/in]"""
        if self.shape == "box":
            return box_gal_per_in(self.length_in, self.width_in)
        if self.shape == "upright cylinder":
            return upright_gal_per_in(self.diameter_in)
        if self.shape == "lying cylinder":
            height = self.liquid_depth_in + level_in
            return chord_in(self.diameter_in, height) * self.length_in / GAL
        return self.gallons / self.liquid_depth_in

    def volume_gal(self, level_in: Number = 0.0) -> Number:
        """Gallons below a level against the outlet invert. [gal]"""
        height = self.liquid_depth_in + level_in
        if self.shape == "lying cylinder":
            return segment_area_in2(self.diameter_in, height) * self.length_in / GAL
        return self.gal_per_in() * height

    def between_gal(self, low_in: Number, high_in: Number) -> Number:
        """Gallons between two levels: the integral, not an average. [gal]"""
        if self.shape == "lying cylinder":
            return self.volume_gal(high_in) - self.volume_gal(low_in)
        return self.gal_per_in() * (high_in - low_in)

    def level_after_in(self, start_in: Number, gallons: Number) -> Number:
        """Level against the outlet invert after adding water to a start level. [in]

        A lying cylinder cannot be fuller than full; its level stays at its top then.
        """
        if self.shape != "lying cylinder":
            return start_in + gallons / self.gal_per_in()
        plain, start, added = self._plain(), nominal(start_in), nominal(gallons)
        top = plain.diameter_in - plain.liquid_depth_in
        level = rising_root(
            lambda tried: plain.between_gal(start, tried) - added, start, top
        )
        slope = plain.gal_per_in(level)
        if slope == 0:
            return level + 0.0 * gallons
        return level + (gallons - self.between_gal(start_in, level)) / slope

    def _plain(self) -> Inside:
        return Inside(
            self.shape,
            *(
                None if number is None else nominal(number)
                for number in (
                    self.liquid_depth_in,
                    self.length_in,
                    self.width_in,
                    self.diameter_in,
                    self.gallons,
                )
            ),
        )


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
    )


FORMULAS = {
    "box": ("V = L × W × d / 231", "G = L × W / 231"),
    "upright cylinder": ("V = 3.1416 × D² / 4 × d / 231", "G = 3.1416 × D² / 4 / 231"),
    "lying cylinder": ("V = A × L / 231", "G = T × L / 231"),
    "stated": ("V = Vs", "G = Vs / d"),
}


def tank_results(tank: Tank, inside: Inside) -> list[Result]:
    """Work out the volume below the outlet and the gallons in an inch at it."""
    symbols = _symbols(inside)
    paths = tuple(
        tank.path(key)
        for key in ("length", "width", "diameter", "gallons", "liquid_depth")
        if getattr(tank, key) is not None
    )
    method = TANK_INSIDE_IN[tank.measured_by or "tape"]
    assumed = STATED_VOLUME if tank.shape == "stated" else method
    curved = tank.shape == "lying cylinder"
    key = f"tank.{tank.name}"
    volume, surface = FORMULAS[tank.shape]
    return [
        Result(
            f"{key}.volume",
            f"Volume of the {tank.name} up to its outlet",
            inside.volume_gal(),
            "gal",
            volume,
            _in(volume, symbols),
            paths,
            "Chow1959" if curved else "NIST-HB44",
            (assumed.assumption(), *((FLAT_ENDS,) if curved else ())),
        ),
        Result(
            f"{key}.gallons_per_inch",
            f"Gallons in one inch at the outlet of the {tank.name}",
            inside.gal_per_in(),
            "gal/in",
            surface,
            _in(surface, symbols),
            paths,
            "Chow1959" if curved else "NIST-HB44",
            (assumed.assumption(),),
        ),
    ]


def _in(formula: str, symbols: tuple[Symbol, ...]) -> tuple[Symbol, ...]:
    return tuple(one for one in symbols if one.name in formula.replace("²", "").split())


FLAT_ENDS = "ends taken as flat: a domed end holds a little more"


def _symbols(inside: Inside) -> tuple[Symbol, ...]:
    depth = inside.liquid_depth_in
    found = [Symbol("d", depth, "in", "liquid depth")]
    for name, number, unit, meaning in (
        ("L", inside.length_in, "in", "inside length"),
        ("W", inside.width_in, "in", "inside width"),
        ("D", inside.diameter_in, "in", "inside diameter"),
        ("Vs", inside.gallons, "gal", "stated volume"),
    ):
        if number is not None:
            found.append(Symbol(name, number, unit, meaning))
    if inside.shape == "lying cylinder":
        area = segment_area_in2(inside.diameter_in, depth)
        width = chord_in(inside.diameter_in, depth)
        found.append(Symbol("A", area, "in²", "wetted end, D² / 8 × (θ − sin θ)"))
        found.append(Symbol("T", width, "in", "width of the liquid surface"))
    return tuple(found)
