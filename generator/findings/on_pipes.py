"""Rules on the inside of a pipe: standing water, sags, sights and what was not seen."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import DESIGNER, FIBER_SEEN_AS, OLD_PIPE, SIGHTS
from generator.findings.finding import Finding
from generator.record.model import LogEntry
from generator.results.pipe_log import SETTLED_FEET, Inside
from generator.results.result import Results, nominal


def pipe_findings(results: Results) -> Iterator[Finding]:
    """Judge every pipe that was looked into."""
    for inside in results.parts["pipes"]:
        yield from _standing(inside)
        yield from _sags(inside)
        yield from _sights(inside)
        yield from _unseen(inside)


def _standing(inside: Inside) -> Iterator[Finding]:
    standing = inside.standing
    if not standing:
        return
    run, first = inside.run, standing[0].entry
    from_ft, holes = first.distance.feet, inside.perforated_ft
    field = holes is not None and inside.seen_to_ft >= holes
    names = _water_names(inside, [sight.entry.at for sight in standing])
    deepest = max(standing, key=lambda sight: nominal(sight.water_in))
    yield Finding(
        key=f"{run.name}-standing-water".replace(" ", "-"),
        part=run.name,
        weight="failed" if field else "repair",
        title="Water stands in the absorption area"
        if field
        else f"Water stands in the {run.name}",
        saw=f"From {from_ft:g} ft on, water stood up to {_deep(deepest.entry)} deep "
        "and never cleared as far as the camera went.",
        means="So a full absorption area looks from within, even where the tank does "
        "not rise; a pipe that is blocked farther on looks the same."
        if field
        else "Water stands in this pipe from what lies beyond it.",
        todo="Use as little water as can be, and have the absorption area looked at."
        if field
        else "Find out what holds the water back beyond this pipe.",
        who=DESIGNER,
        by="now" if field else "before the sale closes",
        evidence=names,
        photos=_pictures([sight.entry.photo for sight in standing]),
        source="practice",
        takes_water="no" if field else "",
    )


def _sags(inside: Inside) -> Iterator[Finding]:
    for sight in inside.sags:
        entry = sight.entry
        end = (entry.to or entry.distance).feet
        near = end <= SETTLED_FEET
        stretch = (
            f"{entry.distance.typed} to {entry.to.typed}"
            if entry.to
            else (entry.distance.typed)
        )
        yield Finding(
            key=f"{inside.run.name}-sag-{entry.distance.feet:g}".replace(" ", "-"),
            part=inside.run.name,
            weight="watch",
            title="The pipe has settled beside the tank" if near else "The pipe sags",
            saw=f"At {stretch} water lies {_deep(entry)} deep and clears beyond."
            + _noted(entry),
            means="The first feet of pipe out of a tank have usually settled. It is no "
            "failure while water passes."
            if near
            else "Solids can settle there.",
            todo="Look again with a camera at the next inspection.",
            evidence=_water_names(inside, [entry.at]),
            photos=_pictures([entry.photo]),
            source="practice",
        )


def _sights(inside: Inside) -> Iterator[Finding]:
    run = inside.run
    clear = True
    for entry in run.log:
        sight = SIGHTS.get(entry.see)
        if sight is None:
            continue
        clear = False
        yield Finding(
            key=f"{run.name}-{entry.see}-{entry.distance.feet:g}".replace(" ", "-"),
            part=run.name,
            weight=sight.weight,
            title=sight.title,
            saw=f"{entry.see.capitalize()} at {entry.distance.typed}." + _noted(entry),
            means=sight.means,
            todo=sight.todo,
            who="a licensed septic contractor" if sight.weight != "watch" else "",
            by="before the sale closes" if sight.weight != "watch" else "",
            photos=_pictures([entry.photo]),
            source=sight.source,
            takes_water="no" if entry.see == "blockage" and inside.standing else "",
        )
    if any(entry.material == OLD_PIPE for entry in run.log) or run.material == OLD_PIPE:
        clear = False
        yield Finding(
            key=f"{run.name}-old-pipe".replace(" ", "-"),
            part=run.name,
            weight="repair",
            title="Old fiber pipe at the end of its life",
            saw="The camera log names this pipe bituminized fiber.",
            means=FIBER_SEEN_AS,
            todo="Plan to have it replaced.",
            who="a licensed septic contractor",
            by="within a year",
            source="practice",
        )
    if clear and not inside.standing and not inside.sags and not inside.overloaded:
        yield Finding(
            key=f"{run.name}-clear".replace(" ", "-"),
            part=run.name,
            weight="sound",
            title=f"The {run.name} is open as far as it was seen",
            saw=f"Seen to {inside.seen_to_ft:g} ft.",
        )


def _unseen(inside: Inside) -> Iterator[Finding]:
    if inside.unseen_ft and inside.run.length:
        yield Finding(
            key=f"{inside.run.name}-unseen".replace(" ", "-"),
            part=inside.run.name,
            weight="unseen",
            title=f"{inside.unseen_ft:g} ft of the {inside.run.name} were not seen",
            saw=f"The camera saw {inside.seen_to_ft:g} ft of "
            f"{inside.run.length.feet:g} ft"
            + (f": {inside.run.ended_because}." if inside.run.ended_because else "."),
            evidence=(f"pipe.{inside.run.name}.unseen",),
        )


def _deep(entry: LogEntry) -> str:
    return entry.water.typed if entry.water else "an unmeasured depth"


def _noted(entry: LogEntry) -> str:
    if not entry.note:
        return ""
    return f" {entry.note[:1].upper()}{entry.note[1:].rstrip('.')}."


def _water_names(inside: Inside, wanted: list[str]) -> tuple[str, ...]:
    found = [
        f"pipe.{inside.run.name}.water.{number}"
        for number, sight in enumerate(inside.sights, 1)
        if sight.entry.at in wanted
    ]
    expected = [f"pipe.{inside.run.name}.expected"] if inside.expected_in else []
    return tuple(found + expected)


def _pictures(names: list[str | None]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in names if name))
