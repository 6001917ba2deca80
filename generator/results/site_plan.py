"""Everything that stands on the plan, as plain numbers ready to be drawn."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import atan2, degrees

from generator.record.model import Inspection
from generator.record.plan import Datum, Place
from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.location import Spot
from generator.results.places import way_of
from generator.results.plan_gaps import XY, Gap, borders_result, gaps_result
from generator.results.plane import SIDES
from generator.results.result import nominal
from generator.results.separation import Pair
from generator.results.shapes import (
    HOUSE,
    SEWER,
    Shape,
    feature_shapes,
    part_shapes,
)

PART, FEATURE = "part", "feature"
# What stands between the point and the length of a tie, as "A – 18 ft 4 in".
LEAD = re.compile(r"^(?:[\s:=,;\-‐‑–—−…]|\.(?!\d))+")


@dataclass(frozen=True)
class Ring:
    """Where a point may lie: the half axes of its ellipse at k = 2, and its turn."""

    long_ft: float
    short_ft: float
    turn_deg: float


@dataclass(frozen=True)
class Point:
    """A named point: a fixed one of the datum, or a place that was found. [ft]"""

    name: str
    what: str
    at: XY
    fixed: bool
    ring: Ring | None = None


@dataclass(frozen=True)
class TieLine:
    """One measured distance by which a place was found. [ft]"""

    start: XY
    end: XY
    words: str


@dataclass(frozen=True)
class Thing:
    """A part or a feature: its points, and its borders with the reach put on. [ft]

    ``pieces`` says how many of its kind it stands for, as the trenches of one area.
    """

    role: str
    kind: str
    name: str
    line: tuple[XY, ...]
    borders: tuple[tuple[XY, ...], ...] = ()
    pieces: int = 1

    @property
    def title(self) -> str:
        """What it is called on the drawing, with the number of its pieces."""
        pieces = f" ({self.pieces})" if self.pieces > 1 else ""
        return f"{self.name or self.kind}{pieces}"


@dataclass(frozen=True)
class Pipe:
    """A pipe along its points. [ft]"""

    name: str
    line: tuple[XY, ...]


@dataclass(frozen=True)
class SitePlan:
    """The whole plan: x to the right, y up. [ft]

    ``north_up`` is False where the bearing of the base line is not known; the plan
    then has the base line from left to right.
    """

    points: tuple[Point, ...] = ()
    house: tuple[XY, ...] = ()
    ties: tuple[TieLine, ...] = ()
    things: tuple[Thing, ...] = ()
    pipes: tuple[Pipe, ...] = ()
    gaps: tuple[Gap, ...] = ()
    north_up: bool = False


def site_plan_result(
    inspection: Inspection, spots: Mapping[str, Spot], pairs: list[Pair]
) -> SitePlan | None:
    """Gather what stands on the plan; None without any point to begin from."""
    datum = inspection.datum
    if datum is None or not spots:
        return None
    parts = part_shapes(inspection, spots)
    features = feature_shapes(inspection, spots)
    drawn = [one for one in features if not _is_house(one, datum)]
    pieces = {one.name: one.count or 1 for one in inspection.absorption_areas}
    return SitePlan(
        points=tuple(_points(datum, spots)),
        house=tuple(_at(spots[name]) for name in datum.house if name in spots),
        ties=tuple(_ties(inspection, datum, spots)),
        things=(
            *(_thing(FEATURE, one) for one in drawn),
            *(
                _thing(PART, one, pieces.get(one.name, 1))
                for one in parts
                if one.kind != SEWER
            ),
        ),
        pipes=tuple(
            Pipe(run.name, tuple(_at(spots[name]) for name in run.on_plan))
            for run in inspection.pipe_runs
            if run.on_plan and all(name in spots for name in run.on_plan)
        ),
        gaps=gaps_result(pairs, parts, features),
        north_up=datum.bearing is not None,
    )


def _is_house(shape: Shape, datum: Datum) -> bool:
    return shape.name == HOUSE and shape.paths == (datum.path("house"),)


def _at(spot: Spot) -> XY:
    return nominal(spot.x_ft), nominal(spot.y_ft)


def _points(datum: Datum, spots: Mapping[str, Spot]) -> Iterator[Point]:
    fixed = {one.name for one in datum.points}
    for spot in spots.values():
        oval = spot.ellipse
        turn = degrees(atan2(oval.direction.imag, oval.direction.real))
        ring = Ring(
            COVERAGE_FACTOR * oval.major_ft, COVERAGE_FACTOR * oval.minor_ft, turn
        )
        yield Point(spot.name, spot.what, _at(spot), spot.name in fixed, ring)


def _ties(
    inspection: Inspection, datum: Datum, spots: Mapping[str, Spot]
) -> Iterator[TieLine]:
    """List the measured lines; those of the house itself only without its outline."""
    fixed = () if datum.house else datum.points
    for place in (*fixed, *inspection.places):
        if place.name in spots:
            yield from _lines_to(place, spots)


def _lines_to(place: Place, spots: Mapping[str, Spot]) -> Iterator[TieLine]:
    end, way = _at(spots[place.name]), way_of(place)
    if way == "ties":
        for tie in place.ties:
            words = LEAD.sub("", tie.typed.removeprefix(tie.point)).strip()
            yield TieLine(_at(spots[tie.point]), end, words)
    elif way == "bearing" and place.distance:
        yield TieLine(_at(spots[str(place.from_)]), end, place.distance.typed)
    elif way == "offset" and place.along:
        start = complex(*_at(spots[str(place.from_)]))
        line = complex(*_at(spots[str(place.toward)])) - start
        foot = start + place.along.feet * line / abs(line)
        turn = (foot.real, foot.imag)
        yield TieLine((start.real, start.imag), turn, place.along.typed)
        if place.out and place.out.feet and place.side in SIDES:
            yield TieLine(turn, end, place.out.typed)


def _thing(role: str, shape: Shape, pieces: int = 1) -> Thing:
    line = tuple(one.xy for one in shape.vertices)
    return Thing(role, shape.kind, shape.name, line, borders_result(shape), pieces)
