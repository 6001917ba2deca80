"""Rows of the page on where everything is: places with their ties, and depths."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from uncertainties import ufloat

from generator.pages.rows_of_codes import beside
from generator.record.model import Inspection, Record
from generator.record.plan import Place
from generator.results.depth import Sought
from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.location import POOR_ANGLE, Spot
from generator.results.places import USUAL_WAY, way_of
from generator.results.result import Result, Results, nominal
from generator.results.rounding import decimals, written
from generator.results.separation import ON_PLAN
from generator.results.shapes import HOUSE, part_shapes

ANCHORS = 2  # fixed points that a place is taped from again; our choice
START = "start of the plan"
NOT_SAID = f"Where nothing is said of how it was measured, a {USUAL_WAY} is assumed."


@dataclass(frozen=True)
class PlaceRow:
    """One place: what it is, what it was found from, and how sure it is.

    ``working`` names the result behind ``good_to``; empty for a fixed point.
    """

    name: str
    what: str
    found: str
    good_to: str
    working: str


@dataclass(frozen=True)
class DepthRow:
    """One part that was sought by its depth."""

    part: str
    expected: Result
    probed: str
    says: str


def told(record: Record, results: Results) -> dict[str, object]:
    """Gather what the page tells, by the names that its template uses."""
    pairs = beside(results.parts["pairs"])
    rows = record.inspection.places
    return {
        "place_rows": place_rows(record, results),
        "depth_rows": depth_rows(record.inspection, results),
        "plan_pairs": [one for one in pairs if one.compared or one.pair.how == ON_PLAN],
        "way_not_said": NOT_SAID if any(map(_unsaid, rows)) else "",
        "on_plan": standing(record, results),
    }


def _unsaid(place: Place) -> bool:
    return way_of(place) != "nothing" and not (place.by or place.give_or_take)


def place_rows(record: Record, results: Results) -> list[PlaceRow]:
    """List every fixed point and place that was found, in the order of the file."""
    inspection, spots = record.inspection, results.parts["spots"]
    fixed = inspection.datum.points if inspection.datum else ()
    anchors = [spots[one.name] for one in fixed[:ANCHORS] if one.name in spots]
    return [
        _row(place, spots[place.name], results, anchors)
        for place in (*fixed, *inspection.places)
        if place.name in spots
    ]


def _row(
    place: Place, spot: Spot, results: Results, anchors: Sequence[Spot]
) -> PlaceRow:
    measured = way_of(place) != "nothing"
    working = f"place.{place.name}.give_or_take"
    return PlaceRow(
        place.name,
        place.what or "",
        f"{spot.how}{_by(place)}{_reckoned(place, spot, anchors)}"
        if measured
        else START,
        _good_to(spot),
        working if results.get(working) else "",
    )


def _reckoned(place: Place, spot: Spot, anchors: Sequence[Spot]) -> str:
    """Give ties to tape again for a place that was not found by ties. [ft]"""
    if way_of(place) == "ties" or len(anchors) < ANCHORS:
        return ""
    told = [
        f"{one.name} {hypot(*_apart(spot, one)):.1f} ft"
        for one in anchors
        if one.name != spot.name
    ]
    return f"; worked out from the plan: {' and '.join(told)}"


def _apart(one: Spot, other: Spot) -> tuple[float, float]:
    across = nominal(one.x_ft) - nominal(other.x_ft)
    return across, nominal(one.y_ft) - nominal(other.y_ft)


def _by(place: Place) -> str:
    by = f"; {place.by}" if place.by else ""
    if place.give_or_take is None:
        return by
    return f"{by}; right within {place.give_or_take.typed}"


def _good_to(spot: Spot) -> str:
    """Say how far a place may be off: half the long axis of its ellipse at k = 2."""
    off_ft = spot.ellipse.major_ft
    if not off_ft:
        return "–"
    expanded = written(COVERAGE_FACTOR * off_ft, decimals(ufloat(0.0, off_ft)))
    return f"± {expanded} ft" + (f"; {POOR_ANGLE}" if spot.poor else "")


def depth_rows(inspection: Inspection, results: Results) -> list[DepthRow]:
    """List how deep each part should lie, and where the probe hit something."""
    rows = []
    for sought in Sought.all(inspection.depths):
        probed, difference = sought.depth.probed, results.get(sought.difference)
        expected = results.all[sought.expected]
        says = difference.verdict if difference else expected.verdict
        hit = probed.typed if probed else "not probed"
        rows.append(DepthRow(sought.name, expected, hit, says))
    return rows


def standing(record: Record, results: Results) -> frozenset[str]:
    """Name everything that stands on the plan, as findings name their parts."""
    return frozenset(_standing(record.inspection, results))


def _standing(inspection: Inspection, results: Results) -> Iterator[str]:
    spots = results.parts["spots"]
    if inspection.datum is None:
        return
    for shape in part_shapes(inspection, spots):
        yield from (shape.kind, shape.name)
    yield from (run.name for run in inspection.pipe_runs if run.on_plan)
    yield from (one.name for one in inspection.features if one.on_plan or one.outline)
    if inspection.datum.house:
        yield HOUSE
