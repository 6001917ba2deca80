"""What each tie and its point shift a place by, also where ties hardly cross."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import acos, degrees, inf, sqrt

from generator.results.least_squares import (
    LEAST_U_FT,
    Reach,
    normal_matrix,
    weights_of,
)
from generator.results.plane import LEFT, Known, Shifts, dot, ellipse_of

SINGULAR = 1e-12  # of the normal matrix, weaker to stronger; our choice
SMALLEST_SHARE = 1e-6  # of the largest uncertainty, for a tie that has none; our choice
SQUARE_DEG = 90.0


def crossing_deg(reaches: Sequence[Reach], place: complex) -> float | None:
    """Find the angle at which the best two of the ties cross.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.
    place : complex
        Where they cross. [ft]

    Returns
    -------
    float or None
        The angle nearest to 90; None where fewer than two ties have a direction.
        [degree]

    Notes
    -----
    Source: [GEOMETRY], angle between two lines.

    Examples
    --------
    >>> a = Reach("a", "A", "A 3 ft", Known(0j), 3.0, 0.1)
    >>> b = Reach("b", "B", "B 4 ft", Known(3 + 4j), 4.0, 0.1)
    >>> crossing_deg([a, b], 3 + 0j)
    90.0
    """
    lines = [line for line in (one.toward(place) for one in reaches) if line]
    angles = [
        degrees(acos(max(-1.0, min(1.0, dot(one, other)))))
        for one, other in combinations(lines, 2)
    ]
    return min(angles, key=lambda angle: abs(angle - SQUARE_DEG)) if angles else None


def widest_shift(reaches: Sequence[Reach], place: complex, across: complex) -> float:
    """Bound how far a place can be off in the direction its ties say least about.

    Parameters
    ----------
    reaches : sequence of Reach
        The ties.
    place : complex
        The place. [ft]
    across : complex
        The direction, of length 1. [-]

    Returns
    -------
    float
        The largest standard uncertainty to state in that direction. [ft]

    Notes
    -----
    Where the ties lie along one line, a place near that line is not nearly linear in
    the readings: to first order its uncertainty across the line has no bound. A shift
    h across lengthens a tie r by h²/(2 r) all the same, so that the readings do rule
    out a large one. Taking away what a shift along the line could make good, the sum
    of weighted squares grows as Q h⁴, and reaches 1 at h = Q^(-1/4): for one tie with
    standard uncertainty u that is the square root of 2 r u. The bound is never more
    than the diameter of the smallest circle, which the place lies on, and never less
    than the largest uncertainty of the ties themselves. It is our own derivation; a
    test holds it against random draws. Source: [GEOMETRY], second-order term of a
    distance.

    Examples
    --------
    >>> a = Reach("a", "A", "A 10 ft", Known(0j), 10.0, 0.2)
    >>> b = Reach("b", "B", "B 10 ft", Known(20 + 0j), 10.0, 0.2)
    >>> round(widest_shift([a, b], 10 + 0j, 1j), 2)
    1.68
    """
    spreads = [one.spread(place) for one in reaches]
    largest = max(spreads)
    if largest <= LEAST_U_FT:
        return largest
    weights = [1 / max(one, SMALLEST_SHARE * largest) ** 2 for one in spreads]
    lines = [one.toward(place) for one in reaches]
    radii = [abs(place - one.point.at) for one in reaches]
    if min(radii) <= 0:
        return largest
    bends = [
        (1 - dot(line, across) ** 2) / (2 * radius)
        for line, radius in zip(lines, radii, strict=True)
    ]
    ahead = [dot(line, LEFT * across) for line in lines]
    grows = sum(w * b * b for w, b in zip(weights, bends, strict=True))
    made = sum(w * b * a for w, b, a in zip(weights, bends, ahead, strict=True))
    along = sum(w * a * a for w, a in zip(weights, ahead, strict=True))
    quartic = grows - made * made / along if along > 0 else grows
    bound = quartic**-0.25 if quartic > 0 else inf
    return max(largest, min(bound, 2 * min(radii)))


def shifted(reaches: Sequence[Reach], place: complex, key: str) -> Known:
    """Carry the uncertainty of ties and their points over to the place they give.

    Parameters
    ----------
    reaches : sequence of Reach
        Two or more ties of a length above zero.
    place : complex
        The place that fits them best. [ft]
    key : str
        Name of the place, for a shift that no reading explains.

    Returns
    -------
    Known
        The place with what one standard uncertainty of each reading shifts it by.
        [ft]

    Notes
    -----
    By the implicit function, dP = (J^T W J)^-1 J^T W (dr_i + u_i . dP_i), with u_i
    the direction of tie i, dr_i its reading and dP_i its point. First order; across
    ties that hardly cross it is held to ``widest_shift``. Source: [MAHUN-LS],
    distance intersection by least squares.

    Examples
    --------
    >>> a = Reach("a", "A", "A 3 ft", Known(0j), 3.0, 0.1)
    >>> b = Reach("b", "B", "B 4 ft", Known(3 + 4j), 4.0, 0.2)
    >>> found = shifted([a, b], 3 + 0j, "P").ellipse()
    >>> round(found.major_ft, 6), round(found.minor_ft, 6)
    (0.2, 0.1)
    """
    strong, across = _axes(normal_matrix(reaches, place))
    weak = _strength(reaches, place, across)
    full = _strength(reaches, place, strong)
    shifts = Shifts()
    if full <= 0:
        return Known(place, shifts)
    singular = weak <= SINGULAR * full
    for weight, one in zip(weights_of(reaches), reaches, strict=True):
        line = one.toward(place)
        lever = strong * dot(line, strong) * weight / full
        if not singular:
            lever += across * dot(line, across) * weight / weak
        shifts.take(one.key, lever * one.u_ft)
        for name, shift in one.point.shifts.items():
            shifts.take(name, lever * dot(line, shift))
    return Known(place, _held(shifts, reaches, place, across, key, singular=singular))


def _axes(matrix: tuple[float, float, float]) -> tuple[complex, complex]:
    strong = ellipse_of(*matrix).direction
    return strong, LEFT * strong


def _strength(reaches: Sequence[Reach], place: complex, way: complex) -> float:
    return sum(
        weight * dot(one.toward(place), way) ** 2
        for weight, one in zip(weights_of(reaches), reaches, strict=True)
    )


def _held(
    shifts: Shifts,
    reaches: Sequence[Reach],
    place: complex,
    across: complex,
    key: str,
    *,
    singular: bool,
) -> Shifts:
    bound = widest_shift(reaches, place, across)
    if singular:
        shifts.take(f"{key} across", across * bound)
        return shifts
    spread = sqrt(sum(dot(shift, across) ** 2 for shift in shifts.values()))
    if spread <= bound:
        return shifts
    held = Shifts()
    for name, shift in shifts.items():
        over = dot(shift, across) * (1 - bound / spread)
        held.take(name, shift - over * across)
    return held
