"""A pipe run in words, with its numbers."""

from __future__ import annotations

from generator.figures.pipe_marks import (
    marks,
    perforated_from_ft,
    place_said,
    stretch_ft,
)
from generator.figures.style import said_fully
from generator.record.pipes import LogEntry, PipeRun
from generator.results.result import Number
from generator.results.rounding import said

SHORTEST_FT = 1.0
MISSING = "material not recorded"
OUTLET = "outlet"  # water runs on from where a camera went in at one; our choice


def describe(run: PipeRun, expected_depth_in: Number | None) -> str:
    """Say in words what the figure shows, with its numbers."""
    names = [mark.words for mark in marks(run)]
    holes = perforated_from_ft(run)
    if holes is not None:
        names.append(f"perforations from {said(holes, 'ft')}")
    things = "; ".join(names) if names else "nothing to mark"
    water = _water(run)
    if expected_depth_in is not None:
        water += f"; expected depth {said_fully(expected_depth_in, 'in')}"
    return f"{_seen(run)} {_made_of(run)} {water}. Along it: {things}."


def _seen(run: PipeRun) -> str:
    seen, whole = seen_ft(run), run.length
    start = f", from the {run.from_}" if run.from_ else ""
    flow = " with the flow" if flows_on(run) else ""
    pipe = f"the {said(run.bore.inches, 'in')} pipe called {run.name}{start}{flow}"
    if whole is None or whole.feet <= seen:
        return f"The camera saw {said(seen, 'ft')} of {pipe}."
    rest, reach = said(whole.feet - seen, "ft"), said(whole.feet, "ft")
    return (
        f"The camera saw {said(seen, 'ft')} of {pipe}; the last {rest} of its {reach} "
        "were not seen."
    )


def _made_of(run: PipeRun) -> str:
    found = lengths(run)
    if len(found) == 1:
        material = found[0][2]
        return "Material not recorded." if material == MISSING else f"It is {material}."
    steps = [f"{material} from {said(at, 'ft')}" for at, _, material in found]
    return f"Along the run: {', '.join(steps)}."


def _water(run: PipeRun) -> str:
    read = _read(run)
    if not read:
        return "No depth of water was written down"
    depths = [one.water.inches for one in read if one.water]
    low, high = said(min(depths), ""), said(max(depths), "in")
    if len(read) == 1:
        return f"Water stood {high} deep {_where(read[0])}"
    span = high if min(depths) == max(depths) else f"{low} to {high}"
    return f"Water stood {span} deep"


def water_said(run: PipeRun) -> str:
    """Say how deep the water stood at most, and where, if read at one place only."""
    read = _read(run)
    deepest = said(max(one.water.inches for one in read if one.water), "in")
    if len(read) == 1:
        return f"water {deepest} {_where(read[0])}"
    return f"water at most {deepest}"


def _read(run: PipeRun) -> list[LogEntry]:
    return [entry for entry in run.log if entry.water]


def _where(entry: LogEntry) -> str:
    at, to = stretch_ft(entry)
    return f"{'at' if to is None else 'from'} {place_said((at, to), 'ft')}"


def flows_on(run: PipeRun) -> bool:
    """Tell whether the water is known to run the way in which distances count."""
    return (run.from_ or "").lower().endswith(OUTLET)


def seen_ft(run: PipeRun) -> float:
    """Find how far the camera saw. [ft]"""
    return max((entry.to or entry.distance).feet for entry in run.log)


def end_ft(run: PipeRun) -> float:
    """Find how far the run reaches, as far as anything tells. [ft]"""
    known = run.length.feet if run.length else 0.0
    holes = perforated_from_ft(run) or 0.0
    return max(known, seen_ft(run), holes, SHORTEST_FT)


def lengths(run: PipeRun) -> list[tuple[float, float, str]]:
    """List each material with where it begins and ends, the unknown included. [ft]"""
    begins = {0.0: run.material or MISSING}
    begins |= {one.distance.feet: one.material for one in run.log if one.material}
    ends = [*list(begins)[1:], end_ft(run)]
    return [
        (at, end, material)
        for (at, material), end in zip(begins.items(), ends, strict=True)
    ]
