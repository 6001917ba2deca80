"""Shortest horizontal distance between two shapes of the plan, edge to edge."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

import shapely
from uncertainties import ufloat, umath

from generator.results.result import Number, Symbol, nominal, standard
from generator.results.shapes import Shape, Vertex

SAME_PLACE = 1e-9  # share of the size of the plan within which two places are one
OVERLAP = "the two overlap on the plan"
ENDS_FORMULA = "D = sqrt((x1 − x2)² + (y1 − y2)²) − r1 − r2"
SIDE_FORMULA = (
    "D = |(x2 − x1) × (y − y1) − (x − x1) × (y2 − y1)| "
    "/ sqrt((x2 − x1)² + (y2 − y1)²) − r1 − r2"
)


@dataclass(frozen=True)
class Gap:
    """The open ground between two shapes, and how it was worked out. [ft]"""

    number: Number
    formula: str
    symbols: tuple[Symbol, ...]
    assumptions: tuple[str, ...]


def gap_result(one: Shape, other: Shape) -> Gap:
    """Work out the open ground between two shapes, with the working."""
    pieces = _nearest(one, other)
    number, overlap = _between(one, other, pieces)
    ends = len(pieces) == 2
    marks = ("1", "2") if ends else ("", "1", "2")
    formula = ENDS_FORMULA if ends else SIDE_FORMULA
    symbols = tuple(
        Symbol(f"{axis}{mark}", value, "ft", f"{axis} of {vertex.name}")
        for mark, vertex in zip(marks, pieces, strict=True)
        for axis, value in (("x", vertex.x_ft), ("y", vertex.y_ft))
    ) + tuple(
        Symbol(f"r{place}", shape.reach_ft, "ft", f"reach of the {shape.called}")
        for place, shape in enumerate((one, other), 1)
    )
    reaches = tuple(
        f"reach of the {shape.called}: {shape.reach_typed}, taken to be right as a "
        "distance by tape"
        for shape in (one, other)
        if shape.reach_typed
    )
    if overlap:
        return Gap(number, "nought, where two overlap", (), (OVERLAP, *reaches))
    return Gap(number, formula, symbols, reaches)


def edge_to_edge(one: Shape, other: Shape) -> Number:
    """Shortest horizontal distance between the edges of two shapes.

    Parameters
    ----------
    one, other : Shape
        Two shapes whose corners and reaches may be correlated. [ft]

    Returns
    -------
    uncertainties.UFloat
        The distance less both reaches; zero where the two touch or overlap. [ft]

    Notes
    -----
    The nearest places of the bare numbers lie on a corner and a corner, or on a corner
    and a side between two; the distance is a function of those two or three corners,
    so that ties which they share are counted once. First-order propagation; source:
    [GUM], 5.2. It is not near-linear where the two nearly touch, nor where another
    corner or side is nearest within the uncertainty (two sides that are parallel): the
    mean is then somewhat less than what is given here. At an overlap the distance is
    zero and keeps the uncertainty of the corner and side that lie nearest.

    Examples
    --------
    >>> tank = Shape("tank", "", (Vertex("T", 3.0, 5.0),), reach_ft=1.0)
    >>> line = Shape("line", "", (Vertex("P", 0.0, 0.0), Vertex("Q", 9.0, 0.0)))
    >>> edge_to_edge(tank, line)
    4.0
    """
    return _between(one, other, _nearest(one, other))[0]


def _between(
    one: Shape, other: Shape, pieces: tuple[Vertex, ...]
) -> tuple[Number, bool]:
    """Give the distance, and whether the two overlap. [ft]"""
    bare = _corner_to_corner(*pieces) if len(pieces) == 2 else _to_side(*pieces)
    inside = shapely.distance(one.ground, other.ground) == 0
    if inside:
        bare = bare - nominal(bare)
    number = bare - one.reach_ft - other.reach_ft
    if inside or nominal(number) < 0:
        return _cleared(number - nominal(number)), True
    return _cleared(number), False


def _cleared(number: Number) -> Number:
    """Drop an uncertainty that is only the computer's rounding. [ft]"""
    size = max(1.0, abs(nominal(number)))
    return number if standard(number) > SAME_PLACE * size else nominal(number)


def _nearest(one: Shape, other: Shape) -> tuple[Vertex, ...]:
    """Give the corner and corner, or the corner and both ends of a side.

    The borders are asked, so that shapes one inside the other have nearest corners
    too; where borders cross, shapely gives the crossing, and a corner is chosen.
    """
    borders = one.border, other.border
    first, second = shapely.get_coordinates(shapely.shortest_line(*borders))
    at, to = _piece(one, *first), _piece(other, *second)
    if len(at) == 2 and len(to) == 2:  # both on a side: only where borders cross
        return (min(at, key=lambda corner: hypot(*_off(corner, *second))), *to)
    return at + to if len(at) == 1 else to + at


def _piece(shape: Shape, x_ft: float, y_ft: float) -> tuple[Vertex, ...]:
    """Find the corner at a place, or the ends of the side that it lies on."""
    corner = min(shape.vertices, key=lambda one: hypot(*_off(one, x_ft, y_ft)))
    size = max(1.0, abs(x_ft), abs(y_ft))
    if not shape.edges or hypot(*_off(corner, x_ft, y_ft)) <= SAME_PLACE * size:
        return (corner,)
    place = shapely.Point(x_ft, y_ft)
    return min(
        shape.edges,
        key=lambda ends: shapely.distance(
            shapely.LineString([end.xy for end in ends]), place
        ),
    )


def _off(corner: Vertex, x_ft: float, y_ft: float) -> tuple[float, float]:
    x, y = corner.xy
    return x - x_ft, y - y_ft


def _corner_to_corner(one: Vertex, other: Vertex) -> Number:
    """Distance of two corners; at zero the spread is that of both axes. [ft]"""
    x, y = one.x_ft - other.x_ft, one.y_ft - other.y_ft
    if nominal(x) == 0 and nominal(y) == 0:
        spread = hypot(standard(x), standard(y))
        return ufloat(0.0, spread) if spread else 0.0
    return umath.hypot(x, y)


def _to_side(corner: Vertex, start: Vertex, end: Vertex) -> Number:
    """Distance of a corner from the line through two others. [ft]"""
    x, y = end.x_ft - start.x_ft, end.y_ft - start.y_ft
    across = x * (corner.y_ft - start.y_ft) - (corner.x_ft - start.x_ft) * y
    distance = across / umath.hypot(x, y)
    return -distance if nominal(distance) < 0 else distance
