"""Every point of a job is found in turn, whatever order it was written in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from generator.problems import Problem
from generator.record.model import Record
from generator.record.pipes import PipeRun
from generator.record.plan import Place
from generator.record.wordings import nearest
from generator.results.places import Surroundings, found_result
from generator.results.ties import Fix, Trouble

NONE_KNOWN = 'Describe the fixed points under "datum".'
BREAK_CIRCLE = "Measure one of them from points that are already known."


@dataclass
class Whereabouts:
    """What was found and what stood in the way, in the frame of the base line."""

    places: dict[str, Place] = field(default_factory=dict)
    fixes: dict[str, Fix] = field(default_factory=dict)
    troubles: list[Trouble] = field(default_factory=list)

    def problems(self, record: Record) -> list[Problem]:
        """Tell what stood in the way, each with its line."""
        file = f"inspections/{record.job}.yaml"
        return [
            Problem(file, _line(record, one.path), one.path, one.message, one.hint)
            for one in self.troubles
        ]


def misfits(record: Record) -> list[Problem]:
    """Find every point that cannot be found, or whose measures do not fit."""
    return whereabouts_result(record).problems(record)


def _line(record: Record, path: str) -> int:
    while path and path not in record.lines:
        path = path[: max(path.rfind("."), path.rfind("["), 0)]
    return record.line(path) if path in record.lines else 0


def whereabouts_result(record: Record) -> Whereabouts:
    """Find every point of a record, or what stands in its way."""
    inspection, found = record.inspection, Whereabouts()
    fixed = inspection.datum.points if inspection.datum else ()
    for place in (*fixed, *inspection.places):
        if place.name in found.places:
            message = f"Two points are called {place.name}."
            trouble = Trouble(place.path("name"), message, "Rename one of them.")
            found.troubles.append(trouble)
        found.places.setdefault(place.name, place)
    around = Surroundings(
        found.fixes,
        {run.name: run for run in reversed(inspection.pipe_runs)},
        fixed[0] if fixed else None,
        fixed[1] if len(fixed) > 1 else None,
        inspection.datum.bearing if inspection.datum else None,
    )
    needs = {name: _needs(one, around.runs) for name, one in found.places.items()}
    failed = _misnamed(found, around, needs)
    waiting = {name: set(needs[name]) for name in found.places if name not in failed}
    _find_in_turn(found, around, waiting, failed)
    found.troubles.extend(_circles(found.places, waiting))
    return found


def _needs(place: Place, runs: Mapping[str, PipeRun]) -> dict[str, str]:
    """List the points a place is measured from, each with the path that names it."""
    named: dict[str, str] = {}
    for index, tie in enumerate(place.ties):
        named.setdefault(tie.point, f"{place.path('ties')}[{index}]")
    if place.ties:
        return named
    run = runs.get(place.run) if place.run else None
    if run is not None:
        for index, name in enumerate(run.on_plan):
            named.setdefault(name, f"{run.path('on_plan')}[{index}]")
    for key, one in (("from", place.from_), ("toward", place.toward)):
        if one is not None and place.run is None:
            named.setdefault(one, place.path(key))
    return named


def _misnamed(
    found: Whereabouts, around: Surroundings, needs: dict[str, dict[str, str]]
) -> set[str]:
    failed = set()
    for name, place in found.places.items():
        troubles = [*_slips(place, around, needs[name], found.places)]
        found.troubles.extend(one for one in troubles if one not in found.troubles)
        if troubles:
            failed.add(name)
    return failed


def _slips(
    place: Place,
    around: Surroundings,
    needs: dict[str, str],
    places: dict[str, Place],
) -> Iterator[Trouble]:
    for name, path in needs.items():
        if name == place.name:
            message = f"{name} cannot be found from itself."
            yield Trouble(path, message, "Name another point.")
        elif name not in places:
            hint = nearest(name, places) or (
                f"The points here: {', '.join(places)}." if around.first else NONE_KNOWN
            )
            yield Trouble(path, f'No point is called "{name}".', hint)
    points = [tie.point for tie in place.ties]
    for index, name in enumerate(points):
        if name in points[:index]:
            path = f"{place.path('ties')}[{index}]"
            message = f"{name} stands twice in these ties."
            yield Trouble(path, message, "Keep one of the two, or mend the name.")
    if place.run is not None and not place.ties and place.run not in around.runs:
        hint = nearest(place.run, around.runs) or 'Describe it under "pipe_runs".'
        message = f'No pipe run is called "{place.run}".'
        yield Trouble(place.path("run"), message, hint)
    if place is around.second and len(points) == 1 and around.first is not None:
        start = around.first.name
        if points[0] != start and points[0] in places and points[0] != place.name:
            path = f"{place.path('ties')}[0]"
            message = f"The second fixed point is measured from the first, {start}."
            yield Trouble(path, message, f"Measure it from {start}.")


def _find_in_turn(
    found: Whereabouts,
    around: Surroundings,
    waiting: dict[str, set[str]],
    failed: set[str],
) -> None:
    """Find what can be found until nothing moves; what is left stays waiting."""
    moved = True
    while moved:
        moved = False
        for name in list(waiting):
            if waiting[name] & failed:
                failed.add(name)
            elif waiting[name] <= found.fixes.keys():
                fix = found_result(found.places[name], around)
                if isinstance(fix, Fix):
                    found.fixes[name] = fix
                else:
                    found.troubles.append(fix)
                    failed.add(name)
            else:
                continue
            del waiting[name]
            moved = True


def _circles(
    places: dict[str, Place], waiting: dict[str, set[str]]
) -> Iterator[Trouble]:
    """Tell each point that is found, in the end, from itself."""
    for name, needs in waiting.items():
        if name in _reached(needs, waiting):
            through = ", ".join(one for one in places if one in needs & waiting.keys())
            yield Trouble(
                places[name].at,
                f"{name} goes round in a circle: it is measured from {through}, which "
                f"in the end is measured from {name}.",
                BREAK_CIRCLE,
            )


def _reached(needs: set[str], waiting: dict[str, set[str]]) -> set[str]:
    reached: set[str] = set()
    ahead = [name for name in needs if name in waiting]
    while ahead:
        name = ahead.pop()
        if name not in reached:
            reached.add(name)
            ahead.extend(one for one in waiting[name] if one in waiting)
    return reached
