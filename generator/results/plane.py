"""A point of the plan, and what each reading behind it shifts it by.

The plan is the complex plane: x is the real part, y the imaginary part, and a quarter
turn to the left is a product with the imaginary unit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import cos, hypot, radians, sin, sqrt

LEFT = 1j  # a quarter turn, counterclockwise
SIDES = {"left": 1.0, "right": -1.0}
NOTHING_FT = 0.001  # our choice: shorter than any tape can tell


def dot(one: complex, other: complex) -> float:
    """Give the scalar product of two arrows of the plan.

    Parameters
    ----------
    one, other : complex
        The arrows. [any]

    Returns
    -------
    float
        Length of the one along the other, times the other's length. [any²]

    Notes
    -----
    Source: [GEOMETRY], product of the parts.

    Examples
    --------
    >>> dot(3 + 4j, 1j)
    4.0
    """
    return one.real * other.real + one.imag * other.imag


class Shifts(dict[str, complex]):
    """What one standard uncertainty of each reading shifts a point by. [ft]"""

    def take(self, key: str, shift: complex) -> None:
        """Add a shift by one reading."""
        if shift:
            self[key] = self.get(key, 0j) + shift


@dataclass(frozen=True)
class Ellipse:
    """The standard ellipse (k = 1): its half axes, and where the long one points."""

    major_ft: float
    minor_ft: float
    direction: complex

    @property
    def rms_ft(self) -> float:
        """Root of the mean square distance from the true place. [ft]"""
        return hypot(self.major_ft, self.minor_ft)


def ellipse_of(xx: float, xy: float, yy: float) -> Ellipse:
    """Find the standard ellipse of a point from its covariance.

    Parameters
    ----------
    xx, xy, yy : float
        The covariance. [ft²]

    Returns
    -------
    Ellipse
        Roots of its two eigenvalues. [ft]

    Notes
    -----
    Holds for any covariance; the ellipse covers about 39 % of the plane's normal
    distribution. Source: [MAHUN-LS], error ellipse.

    Examples
    --------
    >>> found = ellipse_of(4.0, 0.0, 1.0)
    >>> found.major_ft, found.minor_ft, found.direction
    (2.0, 1.0, (1+0j))
    """
    middle, half = (xx + yy) / 2, (xx - yy) / 2
    reach = hypot(half, xy)
    twice = complex(half, xy)  # twice the angle of the long axis
    direction = 1 + 0j if not twice else (twice / abs(twice)) ** 0.5
    return Ellipse(sqrt(middle + reach), sqrt(max(0.0, middle - reach)), direction)


def along_axes(major: float, minor: float, azimuth_deg: float) -> tuple[float, float]:
    """Turn an error ellipse into how sure the point is northward and eastward.

    Parameters
    ----------
    major, minor : float
        Standard uncertainties along the two axes of the ellipse. [ft]
    azimuth_deg : float
        Direction of the first axis, clockwise from north. [degree]

    Returns
    -------
    tuple of float
        Standard uncertainties to the north and to the east. [ft]

    Notes
    -----
    Source: [MAHUN-LS], error ellipse.

    Examples
    --------
    >>> along_axes(2.0, 1.0, 90.0)
    (1.0, 2.0)
    """
    turn = radians(azimuth_deg)
    north = hypot(major * cos(turn), minor * sin(turn))
    return north, hypot(major * sin(turn), minor * cos(turn))


@dataclass(frozen=True)
class Known:
    """A point that has been found. [ft]"""

    at: complex
    shifts: Mapping[str, complex] = field(default_factory=Shifts)

    def covariance(self) -> tuple[float, float, float]:
        """Give the variances of x and y with their covariance: xx, xy, yy. [ft²]"""
        moved = self.shifts.values()
        return (
            sum(one.real**2 for one in moved),
            sum(one.real * one.imag for one in moved),
            sum(one.imag**2 for one in moved),
        )

    def ellipse(self) -> Ellipse:
        """Give its standard ellipse."""
        return ellipse_of(*self.covariance())

    def turned(self, turn: complex) -> Known:
        """Turn the plan under it; ``turn`` has the length 1."""
        moved = {key: shift * turn for key, shift in self.shifts.items()}
        return Known(self.at * turn, moved)

    def carried(self, toward: Known, along_ft: float, out_ft: float) -> Known:
        """Go along the line toward another point, then out to the left. [ft]

        Only what shifts the two points is carried over: the new point swings with the
        line about this one. The two points must lie apart.
        """
        line = toward.at - self.at
        ahead = line / abs(line)
        step = complex(along_ft, out_ft) * ahead
        shifts = Shifts()
        for key in dict.fromkeys([*self.shifts, *toward.shifts]):
            own = self.shifts.get(key, 0j)
            swing = dot(toward.shifts.get(key, 0j) - own, LEFT * ahead) / abs(line)
            shifts.take(key, own + LEFT * step * swing)
        return Known(self.at + step, shifts)

    def stretch(self, other: Known) -> dict[str, float]:
        """Give what each reading adds to the distance to another point. [ft]"""
        line = other.at - self.at
        ahead = line / abs(line)
        return {
            key: dot(other.shifts.get(key, 0j) - self.shifts.get(key, 0j), ahead)
            for key in dict.fromkeys([*self.shifts, *other.shifts])
        }
