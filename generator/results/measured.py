"""How sure a reading is, by how it was taken.

A half-width ``a`` with nothing known inside it is taken as a rectangle, so that its
standard uncertainty is ``a / sqrt(3)`` (source key GUM, 4.3.7).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from uncertainties import ufloat

from generator.results.result import Number


@dataclass(frozen=True)
class Method:
    """Half-width of a way of measuring: a fixed part and a share of the reading."""

    fixed: float
    share: float
    source: str
    words: str

    def half_width(self, reading: float) -> float:
        """Give the half-width at a reading, in the unit of the table. [unit]"""
        return self.fixed + self.share * abs(reading)

    def assumption(self) -> str:
        """Say what was assumed, in words for the working page."""
        return f"{self.words} ({SAID[self.source]})"


SAID = {
    "practice": "common practice, no source",
    "choice": "our own assumption, no source",
    "MAINE-POLICY": "Maine policy for locating an existing field or well",
}

# Distances over the ground, in feet.
DISTANCES_FT = {
    "tape": Method(
        0.25, 0.002, "choice", "tape: taken to be right within 3 in and 0.2 %"
    ),
    "wheel": Method(
        0.5, 0.01, "choice", "measuring wheel: taken to be right within 6 in and 1 %"
    ),
    "paced": Method(
        2.0, 0.05, "choice", "paced: taken to be right within 2 ft and 5 %"
    ),
    "as-built": Method(
        2.0, 0.0, "MAINE-POLICY", "as-built: taken to be right within 2 ft"
    ),
    "phone": Method(
        16.0, 0.0, "choice", "phone position: taken to be right within 16 ft"
    ),
}
# Inside measures of a tank, in inches.
TANK_INSIDE_IN = {
    "tape": Method(
        0.5, 0.0, "choice", "inside measures by tape: taken to be right within 1/2 in"
    ),
    "plan": Method(
        1.0, 0.0, "choice", "inside measures from a plan: taken to be right within 1 in"
    ),
    "plate": Method(
        1.0,
        0.0,
        "choice",
        "inside measures from the maker's plate: taken to be right within 1 in",
    ),
}
STATED_VOLUME = Method(
    0.0, 0.05, "choice", "stated volume: taken to be right within 5 %"
)
# Readings of liquid, sludge and scum, in inches.
LEVEL_IN = Method(
    0.125, 0.0, "choice", "level readings: taken to be right within 1/8 in"
)
SOLIDS_IN = Method(
    1.0, 0.0, "practice", "sludge and scum: taken to be right within 1 in"
)
CAMERA_WATER_IN = Method(
    0.25, 0.0, "choice", "water depth seen by camera: taken to be right within 1/4 in"
)
# Bucket and watch.
BUCKET = Method(0.0, 0.03, "choice", "bucket mark: taken to be right within 3 %")
WATCH_MIN = Method(
    0.5 / 60, 0.0, "choice", "stopwatch: taken to be right within half a second"
)
METER_SHARE = Method(
    0.0, 0.015, "choice", "water meter: taken to be right within 1.5 %"
)
SLOPE = Method(
    0.0, 0.25, "choice", "slope from the record: taken to be right within a quarter"
)


def from_half_width(value: float, half_width: float) -> Number:
    """Make a number from a reading and the most it may be off either way.

    Parameters
    ----------
    value : float
        The reading. [any]
    half_width : float
        Half the width of the rectangle. [same]

    Returns
    -------
    uncertainties.UFloat
        The reading with its standard uncertainty, plain where there is none. [same]

    Notes
    -----
    Source: [GUM], 4.3.7.

    Examples
    --------
    >>> round(from_half_width(10.0, 0.5).std_dev, 4)
    0.2887
    """
    return ufloat(value, half_width / sqrt(3)) if half_width else value


def measured(value: float, method: Method) -> Number:
    """Make a number from a reading by a method of the tables above.

    Parameters
    ----------
    value : float
        The reading, in the unit of the table. [unit]
    method : Method
        How it was taken.

    Returns
    -------
    uncertainties.UFloat
        The reading with its standard uncertainty. [unit]

    Notes
    -----
    Source: [GUM], 4.3.7.

    Examples
    --------
    >>> round(measured(82.0, DISTANCES_FT["tape"]).std_dev, 3)
    0.239
    """
    return from_half_width(value, method.half_width(value))


def stepped(value: float, step: float) -> Number:
    """Make a number from an instrument that shows steps.

    Parameters
    ----------
    value : float
        The reading. [any]
    step : float
        Smallest step shown. [same]

    Returns
    -------
    uncertainties.UFloat
        The reading; its standard uncertainty is 0.29 of the step. [same]

    Notes
    -----
    Source: [GUM], F.2.2.1.

    Examples
    --------
    >>> round(stepped(48211.0, 1.0).std_dev, 2)
    0.29
    """
    return from_half_width(value, step / 2)
