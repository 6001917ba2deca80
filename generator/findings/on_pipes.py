"""Rules on the inside of a pipe: what stands in the way, and what was not seen."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import FIBER_SEEN_AS, OLD_PIPE, SIGHTS, Sight
from generator.findings.finding import Finding, noted
from generator.findings.on_pipe_water import (
    CONTRACTOR,
    evidence_of,
    pictures,
    stands_behind,
    water_findings,
)
from generator.record.pipes import LogEntry
from generator.results.pipe_bore import HEAD_THAT_PASSES
from generator.results.pipe_inside import Inside
from generator.results.result import Results

# How old iron pipe looks to a camera; common practice, no source.
IRON_SEEN_AS = " Old cast iron shows orange, with scale hanging in it."
OFFSET_IN_HOLES = (
    "Soil and roots come in at the step, and what lies beyond may get little water."
)
SMALL_HEAD = " A head of this size passes anywhere in an open pipe of this bore."


def pipe_findings(results: Results) -> Iterator[Finding]:
    """Judge every pipe that was looked into."""
    for inside in results.parts["pipes"]:
        yield from water_findings(inside)
        sights = [*_sights(inside), *_old_pipe(inside)]
        yield from sights
        if not sights:
            yield from _clear(inside)
        yield from _unseen(inside)


def _sights(inside: Inside) -> Iterator[Finding]:
    for entry in inside.run.log:
        sight = SIGHTS.get(entry.see)
        if sight is not None:
            yield _sight(inside, entry, sight)


def _sight(inside: Inside, entry: LogEntry, sight: Sight) -> Finding:
    """Say what one thing in the pipe is, what it leaves open and what it holds back."""
    run = inside.run
    behind, holding = stands_behind(inside, entry)
    left, names = _bore_left(inside, entry)
    watch = sight.weight == "watch"
    iron = entry.see == "scale" and _material_at(inside, entry) == "cast iron"
    return Finding(
        key=f"{run.name}-{entry.see}-{entry.distance.feet:g}".replace(" ", "-"),
        part=run.name,
        weight=sight.weight,
        title=f"{sight.title}, and water stands behind it" if holding else sight.title,
        saw=f"{entry.see.capitalize()} at {entry.distance.typed}."
        + left
        + behind
        + noted(entry.note),
        means=_means(inside, entry, sight) + (IRON_SEEN_AS if iron else ""),
        todo=sight.todo,
        who=CONTRACTOR,
        by="" if watch else "now" if holding else "before the sale closes",
        evidence=(*names, *evidence_of(inside, holding)),
        photos=pictures([entry.photo]),
        source=sight.source,
        takes_water="no" if entry.see == "blockage" and holding else "",
    )


def _means(inside: Inside, entry: LogEntry, sight: Sight) -> str:
    """Say what it means; past the first holes water is meant to leave the pipe."""
    holes = inside.perforated_ft
    beyond = holes is not None and entry.distance.feet >= holes
    return OFFSET_IN_HOLES if beyond and entry.see == "offset joint" else sight.means


def _bore_left(inside: Inside, entry: LogEntry) -> tuple[str, tuple[str, ...]]:
    """Say how much of the bore is open at an entry, with the names of the results."""
    run = inside.run
    for number, one in enumerate(inside.narrowed, 1):
        if one.entry is not entry:
            continue
        key = f"pipe.{run.name}.bore_left"
        names = (f"{key}.{number}", f"{key}_share.{number}")
        if entry.opening is not None:
            judged = f" {entry.opening.typed} of {run.bore.typed} is open, as judged."
            return judged, names
        if run.head is not None:
            small = run.head.inches <= HEAD_THAT_PASSES * run.bore.inches
            less = f" The camera could not pass: less than {run.head.typed} of "
            return f"{less}{run.bore.typed} is open.{SMALL_HEAD * small}", names
    return "", ()


def _material_at(inside: Inside, entry: LogEntry) -> str | None:
    at = entry.distance.feet
    begun = [one.material for one in inside.reaches if one.start_ft <= at]
    return begun[-1] if begun else None


def _old_pipe(inside: Inside) -> Iterator[Finding]:
    run = inside.run
    if all(reach.material != OLD_PIPE for reach in inside.reaches):
        return
    yield Finding(
        key=f"{run.name}-old-pipe".replace(" ", "-"),
        part=run.name,
        weight="repair",
        title="Old fiber pipe at the end of its life",
        saw="The camera log names this pipe bituminized fiber.",
        means=FIBER_SEEN_AS,
        todo="Plan to have it replaced.",
        who=CONTRACTOR,
        by="within a year",
        source="practice",
    )


def _clear(inside: Inside) -> Iterator[Finding]:
    run = inside.run
    if inside.overloaded or inside.waters:
        return
    yield Finding(
        key=f"{run.name}-clear".replace(" ", "-"),
        part=run.name,
        weight="sound",
        title=f"The {run.name} is open as far as it was seen",
        saw=f"Seen to {inside.seen_to_ft:g} ft.",
    )


def _unseen(inside: Inside) -> Iterator[Finding]:
    run = inside.run
    if not inside.unseen_ft or not run.length:
        return
    why = f": {run.ended_because}." if run.ended_because else "."
    why += _share_of_holes(inside, run.length.feet)
    yield Finding(
        key=f"{run.name}-unseen".replace(" ", "-"),
        part=run.name,
        weight="unseen",
        title=f"{inside.unseen_ft:g} ft of the {run.name} were not seen",
        saw=f"The camera saw {inside.seen_to_ft:g} ft of {run.length.feet:g} ft, and "
        f"{100 * inside.unseen_ft / run.length.feet:.0f} % was not seen{why}",
        evidence=(f"pipe.{run.name}.unseen", f"pipe.{run.name}.unseen_share"),
    )


def _share_of_holes(inside: Inside, length_ft: float) -> str:
    """Say how much of the perforated length was not seen, where that is known. [ft]"""
    holes = inside.perforated_ft
    if holes is None or not 0 <= holes < length_ft:
        return ""
    unseen = length_ft - max(holes, inside.seen_to_ft)
    return (
        f" Of the {length_ft - holes:g} ft with holes, {unseen:g} ft were not seen."
        if unseen > 0
        else ""
    )
