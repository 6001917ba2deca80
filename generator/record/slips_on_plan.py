"""Slips in what stands on the plan: points unknown, named twice, or found two ways."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.parts import SINGLE

WAYS = {  # a way of finding a point, by the key that begins it: the keys it needs
    "ties": ("ties",),
    "toward": ("from", "toward", "along"),
    "bearing": ("from", "bearing", "distance"),
    "run": ("run", "at"),
}
SHAPED = ("tanks", "absorption_areas", "features")
CORNERS = 3  # an area has at least so many


def on_plan(draft: Draft) -> Iterator[Problem]:
    """Find slips in fixed points, places and the shapes made of them."""
    fixed = draft.items("datum.points")
    places = draft.items("places")
    known = [draft.get(f"{place}.name") for place in fixed + places]
    yield from _twice(draft, fixed + places)
    if places and not fixed:
        yield draft.not_yet(
            "places",
            "Places need the fixed points that they were tied to.",
            'List them under "datum", in "points".',
        )
    yield from _fixed(draft, fixed)
    for place in places:
        yield from _found_one_way(draft, place)
    for place in fixed + places:
        yield from _names_known(draft, place, known)
    yield from _shapes(draft, known)


def _twice(draft: Draft, places: list[str]) -> Iterator[Problem]:
    seen: set[str] = set()
    for place in places:
        name = draft.get(f"{place}.name")
        if isinstance(name, str) and name in seen:
            yield draft.tell(
                f"{place}.name",
                f'Two points are called "{name}".',
                "Give each a name of its own.",
            )
        seen.add(str(name))


def _fixed(draft: Draft, fixed: list[str]) -> Iterator[Problem]:
    for number, place in enumerate(fixed):
        if not _readable(draft, place):
            continue
        ways = _ways(draft, place)
        if number == 0 and ways:
            yield draft.tell(
                place,
                "The first fixed point is where the plan starts, and needs no tie.",
                "Take its ties out.",
            )
        elif number == 1 and (ways != ["ties"] or _count(draft, place) != 1):
            tell = draft.tell if ways else draft.not_yet
            yield tell(
                place,
                "The second fixed point needs one tie, to the first.",
                "Tape the line between the two.",
            )
        elif number > 1:
            yield from _found_one_way(draft, place)


def _found_one_way(draft: Draft, place: str) -> Iterator[Problem]:
    ways = _ways(draft, place)
    if not _readable(draft, place):
        return
    if len(ways) != 1:
        message = "Nothing says where this point is."
        if ways:
            message = f"This point is found in {len(ways)} ways: {', '.join(ways)}."
        hint = (
            'Give "ties"; or "from", "toward" and "along"; or "from", "bearing" and '
            '"distance"; or "run" and "at".'
        )
        tell = draft.tell if ways else draft.not_yet
        yield tell(place, message, hint)
        return
    for key in WAYS[ways[0]]:
        if draft.get(f"{place}.{key}") is None:
            yield draft.not_yet(
                f"{place}.{ways[0]}", f'This point also needs "{key}".', "Add it."
            )
    out = draft.inches(f"{place}.out")
    sided = draft.get(f"{place}.side") is not None
    if ways == ["toward"] and out and not sided:
        yield draft.not_yet(
            f"{place}.out",
            'An offset out from a line needs "side".',
            "Write left or right, as seen along the line.",
        )
    if ways == ["ties"]:
        yield from _enough_ties(draft, place, sided=sided)
    if ways == ["bearing"] and draft.get("datum.bearing") is None:
        yield draft.not_yet(
            f"{place}.bearing",
            "A bearing needs to know where north is on this plan.",
            'Give "bearing" under "datum": from its first point to its second.',
        )


def _enough_ties(draft: Draft, place: str, *, sided: bool) -> Iterator[Problem]:
    count = _count(draft, place)
    if count == 1:
        yield draft.not_yet(
            f"{place}.ties",
            "One tie gives a circle, not a point.",
            'Add a second tie and its "side", or a third.',
        )
    elif count == 2 and not sided:
        on_one_line = place in draft.document.on_one_line
        say = "Write left or right"
        if on_one_line:
            say = 'Add ", left" or ", right" at the end of the line'
        yield draft.not_yet(
            f"{place}.ties",
            'Two ties meet on two sides; this point needs "side".',
            f"{say}, as seen from the first named point toward the second.",
        )


def _names_known(draft: Draft, place: str, known: list[object]) -> Iterator[Problem]:
    own = draft.get(f"{place}.name")
    tied: list[str] = []
    for path in draft.items(f"{place}.ties"):
        read = draft.read(path, "tie")
        if read is None:
            continue
        yield from _known(draft, path, read.point, known)
        if read.point == own:
            yield draft.tell(
                path, "A point cannot be tied to itself.", "Name the other point."
            )
        if read.point in tied:
            yield draft.tell(
                path,
                f'This point is tied to "{read.point}" twice.',
                "Keep one of the two.",
            )
        tied.append(read.point)
    for key in ("from", "toward"):
        name = draft.get(f"{place}.{key}")
        if isinstance(name, str):
            yield from _known(draft, f"{place}.{key}", name, known)
    start = draft.get(f"{place}.from")
    if start is not None and start == draft.get(f"{place}.toward"):
        yield draft.tell(
            f"{place}.toward",
            "A line cannot run from a point toward itself.",
            "Name another point.",
        )
    run = draft.get(f"{place}.run")
    runs = [draft.get(f"{one}.name") for one in draft.items("pipe_runs")]
    if isinstance(run, str) and run not in runs:
        listed = ", ".join(map(str, runs)) or "none"
        yield draft.tell(
            f"{place}.run", f'No pipe run is called "{run}".', f"The runs: {listed}."
        )


def _shapes(draft: Draft, known: list[object]) -> Iterator[Problem]:
    nodes = [item for section in SHAPED for item in draft.items(section)]
    nodes += [*SINGLE, *draft.items("pipe_runs")]
    paths = [f"{node}.{key}" for node in nodes for key in ("on_plan", "outline")]
    for path in [*paths, "datum.house"]:
        names = draft.items(path)
        for item in names:
            found = draft.get(item)
            if isinstance(found, str):
                yield from _known(draft, item, found, known)
        if not path.endswith("on_plan") and 0 < len(names) < CORNERS:
            yield draft.tell(
                path,
                "An area needs at least three points around it.",
                'Add the others, or use "on_plan" for a spot or a line.',
            )
    for node in nodes:
        both = [draft.get(f"{node}.{key}") for key in ("on_plan", "outline")]
        if None not in both:
            yield draft.tell(
                f"{node}.outline",
                'This stands on the plan twice, by "on_plan" and by "outline".',
                "Keep one of the two.",
            )


def _known(
    draft: Draft, path: str, name: str, known: list[object]
) -> Iterator[Problem]:
    if name not in known:
        points = dict.fromkeys(one for one in known if isinstance(one, str))
        listed = ", ".join(points) or "none"
        yield draft.tell(path, f'No point is called "{name}".', f"Points: {listed}.")


def _readable(draft: Draft, place: str) -> bool:
    """Say whether the ties are a list; the schema tells where they are not."""
    return isinstance(draft.get(f"{place}.ties"), list | None)


def _ways(draft: Draft, place: str) -> list[str]:
    return [key for key in WAYS if draft.get(f"{place}.{key}") is not None]


def _count(draft: Draft, place: str) -> int:
    return len(draft.items(f"{place}.ties"))
