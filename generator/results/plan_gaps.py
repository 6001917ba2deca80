"""The distances that are drawn on the plan, from edge to edge."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot

import shapely

from generator.results.asked import CONFIRM, NO_FIGURE
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.result import nominal
from generator.results.rounding import said
from generator.results.separation import ON_PLAN, Pair
from generator.results.shapes import Shape
from generator.results.taped_against_plan import comparisons_of

WORST_FIRST = (SHORT, CLOSE, CONFIRM, NO_FIGURE, MEETS)
ALWAYS_DRAWN = (SHORT, CLOSE)  # our choice; of the others the nearest of each pair
FAR = 3.0  # times the figure asked, beyond which no line is drawn; our choice
MOST_GAPS = 8  # our choice: more lines than these hide the plan
ARC_STEPS = 6  # straight pieces to a quarter of a rounded end; our choice

XY = tuple[float, float]


@dataclass(frozen=True)
class Gap:
    """The open ground between a part and a feature, with its verdict. [ft]"""

    start: XY
    end: XY
    part: str
    feature: str
    words: str
    verdict: str


def gaps_result(
    pairs: list[Pair], parts: list[Shape], features: list[Shape]
) -> tuple[Gap, ...]:
    """Choose the distances to draw, worst first, each by the measure that counts."""
    counts = {one.plan.result: one.counts for one in comparisons_of(pairs)}
    found: dict[tuple[XY, XY], Gap] = {}
    for pair in _chosen(pairs, counts):
        one = next((part for part in parts if _starts(pair, part)), None)
        other = next((item for item in features if _ends(pair, item)), None)
        if one is None or other is None:
            continue
        ends = nearest_ends(one, other)
        found.setdefault(ends, _gap(ends, pair, counts.get(pair.result, pair)))
    return tuple(found.values())[:MOST_GAPS]


def _chosen(pairs: list[Pair], counts: Mapping[str, Pair]) -> list[Pair]:
    def rank(pair: Pair) -> tuple[int, float]:
        shown = counts.get(pair.result, pair)
        return WORST_FIRST.index(shown.verdict), nominal(pair.measured_ft)

    plan = sorted(
        (one for one in pairs if one.how == ON_PLAN),
        key=lambda one: nominal(one.measured_ft),
    )
    nearest = {pair.kinds: pair for pair in reversed(plan)}
    kept = [
        one
        for one in plan
        if counts.get(one.result, one).verdict in ALWAYS_DRAWN
        or (nearest[one.kinds] is one and not _far(counts.get(one.result, one)))
    ]
    return sorted(kept, key=rank)


def _far(pair: Pair) -> bool:
    """Tell whether a distance is so much more than is asked that nobody wonders."""
    asked = pair.row.feet if pair.row else 0
    return pair.verdict == MEETS and nominal(pair.measured_ft) > FAR * asked


def _starts(pair: Pair, part: Shape) -> bool:
    same = (pair.part, pair.part_name) == (part.kind, part.name)
    return same and pair.paths[: len(part.paths)] == part.paths


def _ends(pair: Pair, feature: Shape) -> bool:
    same = (pair.feature, pair.feature_name) == (feature.kind, feature.name)
    return same and pair.paths[-len(feature.paths) :] == feature.paths


def _gap(ends: tuple[XY, XY], plan: Pair, shown: Pair) -> Gap:
    return Gap(
        *ends,
        plan.part_name or plan.part,
        plan.feature_name or plan.feature,
        said(shown.measured_ft, "ft"),
        shown.verdict,
    )


def nearest_ends(one: Shape, other: Shape) -> tuple[XY, XY]:
    """Find the two points between which two shapes are nearest, edge to edge.

    Parameters
    ----------
    one, other : Shape
        Two shapes of the plan. [ft]

    Returns
    -------
    tuple of XY
        A point on the edge of each; one and the same where the two overlap. [ft]

    Notes
    -----
    The uncertainty is left out: these ends are drawn, and decide nothing.
    Source: [GEOMETRY], shortest line between two borders, less both reaches.

    Examples
    --------
    >>> from generator.results.shapes import Vertex
    >>> tank = Shape("tank", "", (Vertex("T", 3.0, 5.0),), reach_ft=1.0)
    >>> line = Shape("line", "", (Vertex("P", 0.0, 0.0), Vertex("Q", 9.0, 0.0)))
    >>> nearest_ends(tank, line)
    ((3.0, 4.0), (3.0, 0.0))
    """
    borders = one.border, other.border
    (x1, y1), (x2, y2) = shapely.get_coordinates(shapely.shortest_line(*borders))
    apart = hypot(x2 - x1, y2 - y1)
    near, far = nominal(one.reach_ft), nominal(other.reach_ft)
    if shapely.distance(one.ground, other.ground) == 0 or apart <= near + far:
        middle = (float((x1 + x2) / 2), float((y1 + y2) / 2))
        return middle, middle
    along, across = (x2 - x1) / apart, (y2 - y1) / apart
    start = (float(x1 + near * along), float(y1 + near * across))
    return start, (float(x2 - far * along), float(y2 - far * across))


def borders_result(shape: Shape) -> tuple[tuple[XY, ...], ...]:
    """List the borders of a shape with its reach put on; none of a bare line. [ft]"""
    area, reach = shape.ground, nominal(shape.reach_ft)
    if reach > 0:
        area = shapely.buffer(area, reach, quad_segs=ARC_STEPS)
    pieces = [one for one in shapely.get_parts(area) if one.geom_type == "Polygon"]
    return tuple(
        tuple((float(x), float(y)) for x, y in one.exterior.coords) for one in pieces
    )
