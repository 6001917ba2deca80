"""One place from what was measured to it: ties, an offset, a bearing, or a pipe."""

from __future__ import annotations

from cmath import exp
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import radians, sqrt

from generator.quantity import Angle
from generator.record.pipes import PipeRun
from generator.record.plan import Place
from generator.results.least_squares import Reach
from generator.results.methods import COMPASS_DEG, DISTANCES_FT, RIGHT_ANGLE_DEG
from generator.results.plane import LEFT, NOTHING_FT, SIDES, Known, Shifts
from generator.results.tie_shifts import SQUARE_DEG
from generator.results.ties import Fix, Leg, Trouble, tied_result

USUAL_WAY = "tape"
NOT_SAID = "how this was measured was not said; a tape is assumed"
STRAIGHT = "the pipe is taken to run straight from point to point of the plan"
DRAWN_ON = "beyond {last} the last leg of the pipe is drawn on"
ONE_COMPASS = "both bearings are taken to be of one north, read with the same compass"
BASE_BEARING = "datum.bearing"


@dataclass(frozen=True)
class Surroundings:
    """What a place is measured from: fixes by name, runs by name, the base line."""

    fixes: Mapping[str, Fix]
    runs: Mapping[str, PipeRun]
    first: Place | None = None
    second: Place | None = None
    bearing: Angle | None = None

    def known(self, name: str) -> Known:
        """Give a point that was found before."""
        return self.fixes[name].known


def way_of(place: Place) -> str:
    """Tell by its keys how a place was measured.

    Parameters
    ----------
    place : Place
        The place.

    Returns
    -------
    str
        ``ties``, ``pipe``, ``bearing``, ``offset`` or ``nothing``.

    Notes
    -----
    Our own choice of words: common practice, no source.

    Examples
    --------
    >>> way_of(Place(name="A"))
    'nothing'
    """
    if place.ties:
        return "ties"
    if place.run is not None or place.at_run is not None:
        return "pipe"
    if place.bearing is not None or place.distance is not None:
        return "bearing"
    offset = (place.from_, place.toward, place.along, place.out)
    return "nothing" if offset == (None,) * 4 else "offset"


def found_result(place: Place, around: Surroundings) -> Fix | Trouble:
    """Find one place whose points are all known."""
    way = way_of(place)
    if place is around.first:
        if way == "nothing":
            return Fix(Known(0j), "the start of the plan")
        return Trouble(
            place.at,
            f"{place.name} is the start of the plan, so nothing is measured to it.",
            "Measure the second fixed point from it instead.",
        )
    ways = {"ties": _by_ties, "pipe": _by_pipe, "bearing": _by_bearing}
    ways["offset"] = _by_offset
    if way == "nothing":
        return Trouble(
            place.at,
            f"Nothing says where {place.name} is.",
            'Give "ties", or "from", "toward" and "along", or "run" and "at".',
        )
    return ways[way](place, around)


def half_width_ft(place: Place, reading_ft: float) -> float:
    """Give the most that a distance to a place may be off either way.

    Parameters
    ----------
    place : Place
        The place, with how it was measured.
    reading_ft : float
        The distance. [ft]

    Returns
    -------
    float
        Half the width of the rectangle. [ft]

    Notes
    -----
    The inspector's own judgment goes before the table of methods. Source: [GUM],
    4.3.7.

    Examples
    --------
    >>> half_width_ft(Place(name="L1", by="tape"), 100.0)
    0.45
    """
    if place.give_or_take is not None:
        return place.give_or_take.feet
    return DISTANCES_FT[place.by or USUAL_WAY].half_width(reading_ft)


def _u_ft(place: Place, reading_ft: float) -> float:
    return half_width_ft(place, reading_ft) / sqrt(3)


def _assumed(place: Place) -> tuple[str, ...]:
    if place.give_or_take is not None:
        return (f"the inspector judged it right within {place.give_or_take.typed}",)
    said = DISTANCES_FT[place.by or USUAL_WAY].assumption()
    return (said,) if place.by else (NOT_SAID, said)


def _with(fix: Fix | Trouble, assumptions: tuple[str, ...]) -> Fix | Trouble:
    if isinstance(fix, Trouble):
        return fix
    said = (*assumptions, *fix.assumptions)
    return Fix(fix.known, fix.how, said, fix.residual_ft, fix.crossing_deg, leg=fix.leg)


def _by_ties(place: Place, around: Surroundings) -> Fix | Trouble:
    if place is around.second and len(place.ties) == 1:
        return _on_base_line(place, around)
    reaches = [
        Reach(
            f"{place.at}.ties[{index}]",
            tie.point,
            tie.typed,
            around.known(tie.point),
            tie.feet,
            _u_ft(place, tie.feet),
        )
        for index, tie in enumerate(place.ties)
    ]
    return _with(tied_result(reaches, place.at, place.side), _assumed(place))


def _on_base_line(place: Place, around: Surroundings) -> Fix | Trouble:
    tie = place.ties[0]
    start = around.known(tie.point)
    shifts = Shifts(start.shifts)
    shifts.take(f"{place.at}.ties[0]", _u_ft(place, tie.feet) + 0j)
    how = f"{tie.typed}, which gives the base line"
    return Fix(Known(start.at + tie.feet, shifts), how, _assumed(place))


def _missing(place: Place, *keys: str) -> Trouble | None:
    given: dict[str, object] = {
        "from": place.from_,
        "toward": place.toward,
        "along": place.along,
        "bearing": place.bearing,
        "distance": place.distance,
        "run": place.run,
        "at": place.at_run,
    }
    for key in keys:
        if given[key] is None:
            listed = " and ".join(f'"{one}"' for one in keys)
            return Trouble(
                place.at, f'{place.name} has no "{key}".', f"Give {listed} together."
            )
    return None


def _by_offset(place: Place, around: Surroundings) -> Fix | Trouble:
    lacks = _missing(place, "from", "toward", "along")
    if lacks or place.along is None:
        return lacks or Trouble(place.at, "")
    first, second = str(place.from_), str(place.toward)
    start, toward = around.known(first), around.known(second)
    if abs(toward.at - start.at) <= NOTHING_FT:
        return Trouble(
            place.path("toward"),
            f"{first} and {second} stand at the same place, so no line runs from one "
            "toward the other.",
            "Name a point that stands elsewhere.",
        )
    if place.out and place.out.feet and place.side not in SIDES:
        return Trouble(
            place.path("out"),
            f"The side of the line from {first} toward {second} is not said.",
            'Add "side: left" or "side: right".',
        )
    along, out = place.along.feet, place.out.feet if place.out else 0.0
    out *= SIDES.get(place.side or "", 1.0)
    leg = Leg(start, toward, along, out)
    how = f"{place.along.typed} along the line from {first} toward {second}"
    if place.out is None or not out:
        return Fix(_offset(place, leg), how, _assumed(place), leg=leg)
    how += f", then {place.out.typed} out to the {place.side}"
    said = (*_assumed(place), RIGHT_ANGLE_DEG.assumption())
    return Fix(_offset(place, leg), how, said, leg=leg)


def _offset(place: Place, leg: Leg) -> Known:
    """Carry along a leg, with the readings and the right angle judged by eye."""
    found = leg.start.carried(leg.toward, leg.along_ft, leg.out_ft)
    ahead = leg.ahead
    shifts = Shifts(found.shifts)
    shifts.take(place.path("along"), ahead * _u_ft(place, leg.along_ft))
    if leg.out_ft:
        square = radians(RIGHT_ANGLE_DEG.half_width(SQUARE_DEG)) / sqrt(3)
        shifts.take(place.path("out"), LEFT * ahead * _u_ft(place, leg.out_ft))
        shifts.take(f"{place.path('out')} angle", -ahead * leg.out_ft * square)
    return Known(found.at, shifts)


def _by_bearing(place: Place, around: Surroundings) -> Fix | Trouble:
    lacks = _missing(place, "from", "bearing", "distance")
    if lacks or place.bearing is None or place.distance is None:
        return lacks or Trouble(place.at, "")
    if around.bearing is None:
        return Trouble(
            place.path("bearing"),
            "A bearing cannot be used as long as the bearing of the base line is "
            "not known.",
            'Add "bearing" to "datum": from the first fixed point to the second.',
        )
    start, reach = around.known(str(place.from_)), place.distance.feet
    ahead = exp(1j * radians(around.bearing.degrees - place.bearing.degrees))
    turn = radians(COMPASS_DEG.half_width(place.bearing.degrees)) / sqrt(3)
    shifts = Shifts(start.shifts)
    shifts.take(place.path("distance"), ahead * _u_ft(place, reach))
    shifts.take(place.path("bearing"), -LEFT * ahead * reach * turn)
    shifts.take(BASE_BEARING, LEFT * ahead * reach * turn)
    how = f"{place.distance.typed} from {place.from_} at {place.bearing.typed}"
    said = (*_assumed(place), COMPASS_DEG.assumption(), ONE_COMPASS)
    leg = Leg(start, Known(start.at + ahead), reach, 0.0)
    return Fix(Known(start.at + reach * ahead, shifts), how, said, leg=leg)


def _by_pipe(place: Place, around: Surroundings) -> Fix | Trouble:
    lacks = _missing(place, "run", "at")
    if lacks or place.at_run is None:
        return lacks or Trouble(place.at, "")
    names = around.runs[str(place.run)].on_plan
    points = [around.known(name) for name in names]
    legs = [
        pair for pair in pairwise(points) if abs(pair[1].at - pair[0].at) > NOTHING_FT
    ]
    if not legs:
        return Trouble(
            place.path("run"),
            f"The plan does not show where the {place.run} runs.",
            'Name two or more points along it under "on_plan" of the run.',
        )
    leg, gone = _leg_at(legs, place.at_run.feet)
    found = leg.start.carried(leg.toward, leg.along_ft, 0.0)
    shifts = Shifts(found.shifts)
    for key, shift in gone.items():
        shifts.take(key, -leg.ahead * shift)
    shifts.take(place.path("at"), leg.ahead * _u_ft(place, place.at_run.feet))
    said = (*_assumed(place), STRAIGHT)
    if leg.along_ft > abs(leg.toward.at - leg.start.at) + NOTHING_FT:
        said = (*said, DRAWN_ON.format(last=names[-1]))
    how = f"{place.at_run.typed} along the {place.run}"
    return Fix(Known(found.at, shifts), how, said, leg=leg)


def _leg_at(legs: Sequence[tuple[Known, Known]], at_ft: float) -> tuple[Leg, Shifts]:
    """Find the leg of a pipe at a distance, and what shifts the length before it."""
    left, gone = at_ft, Shifts()
    for start, toward in legs[:-1]:
        if left <= abs(toward.at - start.at):
            return Leg(start, toward, left, 0.0), gone
        left -= abs(toward.at - start.at)
        for key, shift in start.stretch(toward).items():
            gone.take(key, shift + 0j)
    return Leg(*legs[-1], left, 0.0), gone
