"""Least squares on the two unknowns of a place: where it is, what shifts it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from math import hypot, sqrt

from generator.results.plane import NOTHING_FT, Known, dot

# Of the descent; our choice, far finer than any tape.
MOST_STEPS = 200
FINE_ENOUGH_FT = 1e-11
LEAST_U_FT = 1e-6  # a tie surer than this counts as exact
FIRST_DAMPING, DAMPING_FACTOR, MOST_DAMPING = 1e-3, 10.0, 1e15
STARTING_TIES = 6  # ties whose circles are crossed for places to start from


@dataclass(frozen=True)
class Reach:
    """One tie with its known point. [ft]"""

    key: str
    name: str
    typed: str
    point: Known
    feet: float
    u_ft: float

    def toward(self, place: complex) -> complex:
        """Give the direction from its point to a place; none at the point itself."""
        line = place - self.point.at
        return line / abs(line) if line else 0j

    def residual(self, place: complex) -> float:
        """Give how much farther a place is than the tie says. [ft]"""
        return abs(place - self.point.at) - self.feet

    def spread(self, place: complex) -> float:
        """Give the standard uncertainty of the reading and its point together. [ft]"""
        ahead = self.toward(place)
        shifts = (dot(ahead, shift) for shift in self.point.shifts.values())
        return hypot(self.u_ft, *shifts)


def crossing(
    base_ft: float, first_ft: float, second_ft: float, share: float = 0.5
) -> tuple[float, float]:
    """Find where two ties meet, along their base and out from it.

    Parameters
    ----------
    base_ft : float
        Distance between the two known points; above zero. [ft]
    first_ft, second_ft : float
        The ties. [ft]
    share : float
        Share of a gap that the first tie takes where the circles miss. [-]

    Returns
    -------
    tuple of float
        Distance along the base from the first point, and out from the base on either
        side. [ft]

    Notes
    -----
    Where the circles miss, the point of the base line that divides the gap is taken:
    between them, or on the far side of the smaller one. Source: [GEOMETRY], two
    circles.

    Examples
    --------
    >>> crossing(5.0, 3.0, 4.0)
    (1.8, 2.4)
    >>> crossing(10.0, 4.0, 5.0), crossing(3.0, 9.0, 5.0)
    ((4.5, 0.0), (8.5, 0.0))
    """
    if first_ft + second_ft < base_ft:
        return first_ft + share * (base_ft - first_ft - second_ft), 0.0
    if first_ft > base_ft + second_ft:
        return first_ft - share * (first_ft - base_ft - second_ft), 0.0
    if second_ft > base_ft + first_ft:
        return -first_ft - share * (second_ft - base_ft - first_ft), 0.0
    along = (first_ft - second_ft) * (first_ft + second_ft) / (2 * base_ft)
    along += base_ft / 2
    return along, sqrt(max(0.0, (first_ft - along) * (first_ft + along)))


def starts(reaches: Sequence[Reach]) -> list[complex]:
    """Cross the circles of the first ties two by two, for places to start from.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.

    Returns
    -------
    list of complex
        Both crossings of each pair; none of points at one place. [ft]

    Notes
    -----
    Source: [GEOMETRY], two circles.

    Examples
    --------
    >>> a = Reach("a", "A", "A 3 ft", Known(0j), 3.0, 0.1)
    >>> b = Reach("b", "B", "B 4 ft", Known(5 + 0j), 4.0, 0.1)
    >>> starts([a, b])
    [(1.8+2.4j), (1.8-2.4j)]
    """
    found = []
    for one, other in combinations(reaches[:STARTING_TIES], 2):
        line = other.point.at - one.point.at
        if abs(line) > NOTHING_FT:
            along, out = crossing(abs(line), one.feet, other.feet)
            for side in (out, -out):
                found.append(one.point.at + complex(along, side) * line / abs(line))
    return found


def weights_of(reaches: Sequence[Reach]) -> list[float]:
    """Weigh each tie by its variance.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.

    Returns
    -------
    list of float
        One over each variance; all 1 where a tie has none. [1/ft²]

    Notes
    -----
    Source: [MAHUN-LS], distance intersection by least
    squares.

    Examples
    --------
    >>> weights_of([Reach("a", "A", "A 3 ft", Known(0j), 3.0, 0.5)])
    [4.0]
    """
    if any(one.u_ft <= LEAST_U_FT for one in reaches):
        return [1.0 for _ in reaches]
    return [1 / one.u_ft**2 for one in reaches]


def normal_matrix(
    reaches: Sequence[Reach], place: complex
) -> tuple[float, float, float]:
    """Add up the normal matrix of the ties at a place.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.
    place : complex
        The place. [ft]

    Returns
    -------
    tuple of float
        Its entries xx, xy and yy. [1/ft²]

    Notes
    -----
    J^T W J, where the rows of J are the directions of the ties. Source: [MAHUN-LS],
    distance intersection by least squares.

    Examples
    --------
    >>> a = Reach("a", "A", "A 3 ft", Known(0j), 3.0, 0.5)
    >>> normal_matrix([a], 3 + 0j)
    (4.0, 0.0, 0.0)
    """
    rows = [
        (weight, one.toward(place))
        for weight, one in zip(weights_of(reaches), reaches, strict=True)
    ]
    return (
        sum(weight * row.real**2 for weight, row in rows),
        sum(weight * row.real * row.imag for weight, row in rows),
        sum(weight * row.imag**2 for weight, row in rows),
    )


def misfit(reaches: Sequence[Reach], place: complex) -> float:
    """Add up the weighted squares of what a place leaves of each tie.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.
    place : complex
        The place. [ft]

    Returns
    -------
    float
        The sum that the best place makes least. [-]

    Notes
    -----
    Source: [MAHUN-LS], distance intersection by least squares.

    Examples
    --------
    >>> misfit([Reach("a", "A", "A 3 ft", Known(0j), 3.0, 0.5)], 4 + 0j)
    4.0
    """
    return sum(
        weight * one.residual(place) ** 2
        for weight, one in zip(weights_of(reaches), reaches, strict=True)
    )


def descend(reaches: Sequence[Reach], start: complex) -> complex:
    """Go down from a start to the nearest place that fits the ties best.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.
    start : complex
        Where to start. [ft]

    Returns
    -------
    complex
        The place. [ft]

    Notes
    -----
    Damped Gauss-Newton steps. Source: [MAHUN-LS], distance intersection by least
    squares.

    Examples
    --------
    >>> points = (1 + 2j, 1.414), (1 + 1j, 2.236), (2 + 2j, 1.0)
    >>> ties = [Reach(str(p), "A", "", Known(p), r, 0.1) for p, r in points]
    >>> found = descend(ties, 2 + 2.5j)
    >>> round(found.real, 3), round(found.imag, 3)
    (2.0, 3.0)
    """
    weights = weights_of(reaches)
    place, least, damping = start, misfit(reaches, start), FIRST_DAMPING
    for _ in range(MOST_STEPS):
        matrix = normal_matrix(reaches, place)
        slope = sum(
            (
                -weight * one.residual(place) * one.toward(place)
                for weight, one in zip(weights, reaches, strict=True)
            ),
            0j,
        )
        while damping < MOST_DAMPING:
            step = _solved(matrix, slope, damping)
            tried = misfit(reaches, place + step)
            if tried <= least:
                break
            damping *= DAMPING_FACTOR
        else:
            break
        place, least, damping = place + step, tried, damping / DAMPING_FACTOR
        if abs(step) <= FINE_ENOUGH_FT * (1 + abs(place)):
            break
    return place


def _solved(
    matrix: tuple[float, float, float], side: complex, damping: float
) -> complex:
    more = damping * (matrix[0] + matrix[2])
    xx, xy, yy = matrix[0] + more, matrix[1], matrix[2] + more
    area = xx * yy - xy * xy
    if area <= 0:
        return 0j
    return complex(yy * side.real - xy * side.imag, xx * side.imag - xy * side.real) / (
        area
    )
