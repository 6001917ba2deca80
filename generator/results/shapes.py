"""Parts and features as points, lines and areas on the plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

import shapely
from shapely.geometry.base import BaseGeometry

from generator.quantity import Length
from generator.record.model import Inspection
from generator.results.measured import DISTANCES_FT, measured
from generator.results.result import Number, nominal

SEWER = "building sewer"
HOUSE = "house"
HOUSE_KINDS = ("foundation", "building")  # words of the codes for the house itself
LEAST_CORNERS = 3  # of an area


class Located(Protocol):
    """A point that has been found on the plan. [ft]"""

    @property
    def x_ft(self) -> Number:
        """Distance along the first axis of the plan. [ft]"""

    @property
    def y_ft(self) -> Number:
        """Distance along the second axis of the plan. [ft]"""


@dataclass(frozen=True)
class Vertex:
    """One corner of a shape: its name and where it is. [ft]"""

    name: str
    x_ft: Number
    y_ft: Number

    @property
    def xy(self) -> tuple[float, float]:
        """Where it is, without the uncertainty. [ft]"""
        return nominal(self.x_ft), nominal(self.y_ft)


@dataclass(frozen=True)
class Shape:
    """A thing on the plan: a point, a line or an area, and its reach beyond. [ft]

    ``kind`` is the word of the codes, ``name`` tells two of a kind apart.
    """

    kind: str
    name: str
    vertices: tuple[Vertex, ...]
    closed: bool = False
    reach_ft: Number = 0.0
    reach_typed: str = ""
    paths: tuple[str, ...] = ()

    @property
    def called(self) -> str:
        """The kind, with the name where that says more."""
        return called(self.kind, self.name)

    @property
    def edges(self) -> list[tuple[Vertex, Vertex]]:
        """The straight pieces from corner to corner."""
        ends = self.vertices[1:] + (self.vertices[:1] if self.closed else ())
        return list(zip(self.vertices, ends, strict=False))

    @property
    def border(self) -> BaseGeometry:
        """The corners and the pieces between them, without the reach. [ft]"""
        places = [one.xy for one in self.vertices]
        if len(places) == 1:
            return shapely.Point(places[0])
        return shapely.LineString(places + places[:1] * self.closed)

    @property
    def ground(self) -> BaseGeometry:
        """The border with what lies inside it, without the reach. [ft]"""
        if not self.closed:
            return self.border
        area = shapely.Polygon([one.xy for one in self.vertices])
        return area if area.is_valid else shapely.make_valid(area)


class _OnPlan(Protocol):
    @property
    def on_plan(self) -> tuple[str, ...]: ...

    def path(self, key: str) -> str: ...


def called(kind: str, name: str) -> str:
    """Say what a thing is called: its kind, and its name where that says more.

    Examples
    --------
    >>> called("tank", "tank"), called("property line", "north line")
    ('tank', 'property line (north line)')
    """
    return kind if name in ("", kind) else f"{kind} ({name})"


def part_shapes(inspection: Inspection, spots: Mapping[str, Located]) -> list[Shape]:
    """List the parts of the system that stand on the plan.

    A thing with an unknown point is left out, since the search for the points tells
    that mistake. Where a border is given it counts alone, and the points inside it
    (a cover, a port) add nothing.
    """
    return [shape for shape in _parts(inspection, spots) if shape]


def feature_shapes(inspection: Inspection, spots: Mapping[str, Located]) -> list[Shape]:
    """List what the system must keep away from, where it stands on the plan."""
    found = [
        _shape(feature.kind, feature.name, feature, spots)
        for feature in inspection.features
    ]
    datum = inspection.datum
    if datum is not None:
        corners = _corners(datum.house, spots)
        paths = (datum.path("house"),)
        found += [
            Shape(kind, HOUSE, corners, len(corners) >= LEAST_CORNERS, paths=paths)
            for kind in HOUSE_KINDS
            if corners
        ]
    return [shape for shape in found if shape]


def _parts(
    inspection: Inspection, spots: Mapping[str, Located]
) -> Iterator[Shape | None]:
    for run in inspection.pipe_runs:
        if run.name.lower().startswith(SEWER):
            yield _shape(SEWER, run.name, run, spots)
    for tank in inspection.tanks:
        yield _shape("tank", tank.name, tank, spots)
    if inspection.distribution_box:
        box = inspection.distribution_box
        yield _shape("distribution box", "", box, spots)
    if inspection.pump_chamber:
        yield _shape("pump chamber", "", inspection.pump_chamber, spots)
    for area in inspection.absorption_areas:
        yield _shape("absorption area", area.name, area, spots)
    if inspection.cesspool:
        yield _shape(inspection.cesspool.kind, "", inspection.cesspool, spots)


def _shape(
    kind: str, name: str, node: _OnPlan, spots: Mapping[str, Located]
) -> Shape | None:
    outline: tuple[str, ...] = getattr(node, "outline", ())
    reach: Length | None = getattr(node, "reach", None)
    vertices = _corners(outline or node.on_plan, spots)
    if not vertices:
        return None
    given = ["outline" if outline else "on_plan"] + ["reach"] * (reach is not None)
    return Shape(
        kind,
        name,
        vertices,
        bool(outline) and len(vertices) >= LEAST_CORNERS,
        measured(reach.feet, DISTANCES_FT["tape"]) if reach else 0.0,
        reach.typed if reach else "",
        tuple(map(node.path, given)),
    )


def _corners(
    names: tuple[str, ...], spots: Mapping[str, Located]
) -> tuple[Vertex, ...]:
    """Find the corners, each place once in a row; empty where one is not known."""
    if not all(name in spots for name in names):
        return ()
    found: list[Vertex] = []
    for name in names:
        one = Vertex(name, spots[name].x_ft, spots[name].y_ft)
        if not found or one.xy != found[-1].xy:
            found.append(one)
    if len(found) > 1 and found[0].xy == found[-1].xy and len(found) > LEAST_CORNERS:
        found.pop()  # a border that was closed by naming its first point again
    return tuple(found)
