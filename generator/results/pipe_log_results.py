"""Results of what the camera saw: water, stretches, materials, and what was missed."""

from __future__ import annotations

from collections.abc import Iterator

from generator.record.pipes import LogEntry
from generator.results.measured import CAMERA_WATER_IN
from generator.results.pipe_inside import Inside, Sight, Water
from generator.results.result import Result, Symbol

BETWEEN_SIGHTS = (
    "water is only known where the log tells of it: it begins somewhere before the "
    "first of these sights, and ends somewhere before the sight that is clear of it"
)
NEVER_CLEAR = "never seen to clear: counted to the end of what was seen"
NEARER_COUNTS = (
    "the log and the record name different places; the nearer to the start counts"
)


def log_results(inside: Inside) -> list[Result]:
    """List what the log of one run shows."""
    return [
        *_depths(inside),
        *_waters(inside),
        *_materials(inside),
        *_perforated(inside),
        *_unseen(inside),
    ]


def _depths(inside: Inside) -> Iterator[Result]:
    run = inside.run
    for number, sight in enumerate(inside.sights, 1):
        yield Result(
            f"pipe.{run.name}.water.{number}",
            f"Water in the {run.name} at {sight.entry.distance.typed}",
            sight.water_in,
            "in",
            "depth seen",
            (),
            (sight.entry.path("water"),),
            "practice",
            (CAMERA_WATER_IN.assumption(),),
            _verdict(sight, inside),
        )


def _verdict(sight: Sight, inside: Inside) -> str:
    place = inside.reaches.index(sight.reach)
    if any(one.overloaded for one in inside.reaches[place:]):
        return "this pipe cannot carry the test flow"
    expected = sight.reach.expected_in
    if sight.deeper:
        return "deeper than the flow explains" if expected is not None else "standing"
    return "as the flow explains" if expected is not None else ""


def _waters(inside: Inside) -> Iterator[Result]:
    key, name = f"pipe.{inside.run.name}", inside.run.name
    for number, water in enumerate(inside.sags, 1):
        label = f"Length of sag {number} of the {name}"
        yield _length(f"{key}.sag.{number}", label, water, inside)
    for number, water in enumerate(inside.held_back, 1):
        label = f"Length of water held back in the {name}"
        yield _length(f"{key}.held_back.{number}", label, water, inside)
    for water in inside.standing:
        yield Result(
            f"{key}.standing_from",
            f"Water stands in the {name} from here on and was never seen to clear",
            water.start_ft,
            "ft",
            "distance along the pipe",
            (),
            (water.sights[0].entry.path("at"),),
            "practice",
        )


def _length(name: str, label: str, water: Water, inside: Inside) -> Result:
    first, last = water.sights[0].entry, water.sights[-1].entry
    end_ft = water.start_ft + water.length_ft
    paths = [first.path("at"), *_ends(water, last)]
    if water.end_ft is None:
        paths.append(inside.run.path("log"))
    told = BETWEEN_SIGHTS if last.to is None or len(water.sights) > 1 else ""
    assumed = (told, NEVER_CLEAR if water.end_ft is None else "")
    return Result(
        name,
        label,
        water.length_ft,
        "ft",
        "l = e - s",
        (
            Symbol("e", end_ft, "ft", "its end along the pipe"),
            Symbol("s", water.start_ft, "ft", "its start along the pipe"),
        ),
        tuple(dict.fromkeys(paths)),
        "practice",
        tuple(one for one in assumed if one),
    )


def _ends(water: Water, last: LogEntry) -> list[str]:
    """Give the path of the distance at which a stretch ends."""
    if water.behind is not None:
        return [water.behind.path("at")]
    if water.end_ft is None:
        return []
    if last.to is not None:
        return [last.path("to")]
    return [water.clears.path("at")] if water.clears else []


def _materials(inside: Inside) -> Iterator[Result]:
    run = inside.run
    known = [
        one for one in inside.reaches if one.material and one.end_ft > one.start_ft
    ]
    for number, reach in enumerate(known, 1):
        paths = [run.path("material")] if reach.start_ft == 0 and run.material else []
        paths += [entry.path("material") for entry in run.log if entry.material]
        yield Result(
            f"pipe.{run.name}.material.{number}",
            f"Length of {reach.material} seen in the {run.name}",
            reach.end_ft - reach.start_ft,
            "ft",
            "l = e - s",
            (
                Symbol("e", reach.end_ft, "ft", "where it ends, or was last seen"),
                Symbol("s", reach.start_ft, "ft", "where it begins"),
            ),
            (*paths, run.path("log")),
            "practice",
        )


def _perforated(inside: Inside) -> Iterator[Result]:
    run, at = inside.run, inside.perforated_ft
    if at is None:
        return
    logged = [one.distance.feet for one in run.log if one.see == "perforations"]
    told = run.perforated_from
    paths = [run.path("log")] if logged else []
    paths += [run.path("perforated_from")] if told else []
    differ = bool(logged) and told is not None and min(logged) != told.feet
    yield Result(
        f"pipe.{run.name}.perforated_from",
        f"First perforation of the {run.name}: here the absorption area begins",
        at,
        "ft",
        "distance along the pipe",
        (),
        tuple(paths),
        "practice",
        (NEARER_COUNTS,) if differ else (),
    )


def _unseen(inside: Inside) -> Iterator[Result]:
    run = inside.run
    if inside.unseen_ft is None or run.length is None:
        return
    whole = Symbol("l", run.length.feet, "ft", "length")
    seen = Symbol("e", inside.seen_to_ft, "ft", "end of what was seen")
    paths = (run.path("length"), run.path("log"))
    yield Result(
        f"pipe.{run.name}.unseen",
        f"Part of the {run.name} that the camera did not see",
        inside.unseen_ft,
        "ft",
        "x = l - e",
        (whole, seen),
        paths,
        "practice",
    )
    if run.length.feet > 0:
        yield Result(
            f"pipe.{run.name}.unseen_share",
            f"Share of the {run.name} that the camera did not see",
            100 * inside.unseen_ft / run.length.feet,
            "%",
            "p = 100 × x / l",
            (Symbol("x", inside.unseen_ft, "ft", "not seen"), whole),
            paths,
            "practice",
        )
