"""Short ways to make shapes, spots and jobs that stand on a plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from result_builders import feet, length
from uncertainties import ufloat

from generator.quantity import Day
from generator.record.model import (
    Client,
    Distance,
    Firm,
    Inspection,
    Property,
    Record,
    Visit,
)
from generator.record.parts import AbsorptionArea, Tank
from generator.record.plan import Feature
from generator.results.result import Number
from generator.results.shapes import Shape, Vertex


@dataclass(frozen=True)
class Spot:
    """A point that was found. [ft]"""

    x_ft: Number
    y_ft: Number


def spot(x: float, y: float, u: float = 0.2) -> Spot:
    """A point whose axes are each sure to u."""
    return Spot(ufloat(x, u), ufloat(y, u))


def shape(
    *places: tuple[Number, Number], closed: bool = False, reach_ft: Number = 0.0
) -> Shape:
    """A shape with named corners."""
    vertices = tuple(Vertex(f"P{at}", x, y) for at, (x, y) in enumerate(places))
    return Shape("tank", "", vertices, closed, reach_ft)


def area(name: str = "field", **given: object) -> AbsorptionArea:
    """An absorption area."""
    at = "absorption_areas[0]"
    return AbsorptionArea(at=at, name=name, kind="trenches", **given)  # type: ignore[arg-type]


def tank(name: str = "tank", place: int = 0, **given: object) -> Tank:
    """A tank."""
    return Tank(
        at=f"tanks[{place}]",
        name=name,
        shape="stated",
        liquid_depth=length(48.0),
        **given,  # type: ignore[arg-type]
    )


def feature(kind: str, *points: str, name: str = "", outline: bool = False) -> Feature:
    """A feature at some points."""
    on = {"outline" if outline else "on_plan": points}
    return Feature(at="features[0]", name=name or kind, kind=kind, **on)  # type: ignore[arg-type]


def taped(
    measured_ft: float,
    part: str = "absorption area",
    to: str = "private well",
    over_plan: str | None = None,
    place: int = 0,
) -> Distance:
    """One distance by tape."""
    return Distance(
        at=f"distances[{place}]",
        from_=part,
        to=to,
        distance=feet(measured_ft),
        by="tape",
        over_plan=over_plan,
    )


def job(**given: object) -> Inspection:
    """An inspection with nothing but what is given."""
    return Inspection(
        visit=Visit(date=Day("2026-10-06", "2026-10-06"), inspector="A. Nyman"),
        client=Client(name="B. Client"),
        property=Property(address="1 Demo Lane", place="Nowhere"),
        **given,  # type: ignore[arg-type]
    )


def record(inspection: Inspection, paths: Sequence[str] = ()) -> Record:
    """A record in which each path stands on a line of its own, from 10."""
    return Record(
        job="demo",
        inspection=inspection,
        firm=Firm(name="Demo firm", phone="000"),
        lines={path: line for line, path in enumerate(paths, 10)},
    )
