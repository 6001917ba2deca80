"""Short ways to make fixed points, places and records of them."""

from __future__ import annotations

from plan_builders import job, record
from result_builders import feet

from generator.quantity import Angle, Length, Tie
from generator.record.model import Record
from generator.record.pipes import PipeRun
from generator.record.plan import Datum, Place
from generator.results.location import Spot, locate

GIVEN = {"along", "out", "distance", "at_run", "give_or_take"}


def tie(point: str, number_ft: float) -> Tie:
    """A tie in feet."""
    return Tie(12 * number_ft, point, f"{point} {number_ft:g} ft")


def point(name: str, *ties: tuple[str, float], **given: object) -> Place:
    """A point by its ties in feet, or by keys; plain numbers are feet."""
    keys = {
        key: feet(one) if key in GIVEN and isinstance(one, int | float) else one
        for key, one in given.items()
    }
    if isinstance(keys.get("bearing"), int | float):
        degrees = keys["bearing"]
        keys["bearing"] = Angle(degrees, f"{degrees:g} deg")  # type: ignore[arg-type]
    return Place(name=name, ties=tuple(tie(*one) for one in ties), **keys)  # type: ignore[arg-type]


def at(where: str, places: tuple[Place, ...]) -> tuple[Place, ...]:
    """Give each place its path in the job file."""
    return tuple(
        Place(**{**vars(one), "at": f"{where}[{index}]"})
        for index, one in enumerate(places)
    )


def pipe(name: str, *on_plan: str) -> PipeRun:
    """A pipe along some points."""
    bore = Length(4.0, "4 in")
    return PipeRun(
        at="pipe_runs[0]", name=name, bore=bore, log=(), on_plan=tuple(on_plan)
    )


def lot(
    *places: Place,
    fixed: tuple[Place, ...] | None = None,
    bearing: float | None = None,
    runs: tuple[PipeRun, ...] = (),
) -> Record:
    """A record of places around two fixed points A and B, 32 ft apart."""
    corners = at("datum.points", fixed or (point("A"), point("B", ("A", 32.0))))
    north = None if bearing is None else Angle(bearing, f"{bearing:g} deg")
    found = at("places", places)
    paths = [
        f"{one.at}{key}"
        for one in (*corners, *found)
        for key in ("", ".name", ".ties", ".side", ".from", ".along", ".out")
    ]
    return record(
        job(
            datum=Datum(at="datum", points=corners, bearing=north),
            places=found,
            pipe_runs=runs,
        ),
        paths,
    )


def found(job_record: Record) -> dict[str, Spot]:
    """Locate everything, where nothing stands in the way."""
    spots, problems = locate(job_record)
    assert problems == []
    return spots
