"""The site plan: where everything is, to scale, with ties and judged distances."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from generator.figures.labels import Labels
from generator.figures.plan_ground import View, bar_ft, finish, new_sheet, view_of
from generator.figures.plan_lines import (
    draw_gap,
    draw_pipe,
    draw_point,
    draw_tie,
    keep_off_ties,
    name_gap,
    name_pipe,
    name_point,
    name_tie,
    rings_shown,
    said_of,
)
from generator.figures.plan_parts import (
    draw_house,
    draw_thing,
    name_house,
    name_thing,
)
from generator.figures.style import look
from generator.results.rounding import written
from generator.results.site_plan import FEATURE, PART, Point, SitePlan

CAPTION = (
    "To scale. Thin dashes are measured ties. A line with a bar at each end is a "
    "distance held against the code, with its verdict; ticks across it mean short. A "
    "dotted ring shows how far off a place may be."
)
NEAR_CAPTION = "The same, nearer by: the house and the parts of the system, to scale."
NO_ROOM = "Not named for want of room: {}."
MORE_TIES = "Other tie lengths are in the table."
GAP_PX = 2.0  # of a label from others and from lines; our choice


def draw(plan: SitePlan) -> Figure:
    """Draw the site plan.

    Parameters
    ----------
    plan : SitePlan
        Everything that stands on it, with at least one point. [ft]

    Returns
    -------
    Figure
        The ground at equal scale both ways, north up where the bearing is known;
        below it a scale bar, the north arrow, and what found no room.
    """
    with look():
        view = view_of(plan)
        figure, axes = new_sheet(view)
        labels = Labels(figure, gap_px=GAP_PX)
        _draw_all(axes, labels, plan, view)
        notes = list(_name_all(axes, labels, plan, view))
        finish(figure, axes, view, notes, north_up=plan.north_up)
        return figure


def _draw_all(axes: Axes, labels: Labels, plan: SitePlan, view: View) -> None:
    draw_house(axes, labels, plan)
    for thing in plan.things:
        draw_thing(axes, labels, thing)
    for tie in plan.ties:
        draw_tie(axes, tie)
    for pipe in plan.pipes:
        draw_pipe(axes, labels, pipe)
    for gap in plan.gaps:
        draw_gap(axes, labels, gap, view)
    keep_off_ties(axes, labels, plan)
    for point in plan.points:
        draw_point(axes, labels, point, view)


def _name_all(axes: Axes, labels: Labels, plan: SitePlan, view: View) -> Iterator[str]:
    """Name what matters most first; what finds no room is told in a note."""
    unnamed = []
    for role in (PART, FEATURE):
        for thing in plan.things:
            if thing.role == role and not name_thing(axes, labels, thing, view):
                unnamed.append(thing.title)
    number = 1
    for gap in plan.gaps:
        note = name_gap(axes, labels, gap, view, number)
        if note:
            yield note
            number += note.startswith(f"{number}. ")
    if not name_house(axes, labels, plan, view):
        unnamed.append("house")
    for point in plan.points:
        if not name_point(axes, labels, point, view):
            unnamed.append(point.name)
    for pipe in plan.pipes:
        if not name_pipe(axes, labels, pipe, view):
            unnamed.append(pipe.name)
    if unnamed:
        yield NO_ROOM.format(", ".join(unnamed))
    named = [name_tie(axes, labels, tie) for tie in plan.ties]
    if not all(named):
        yield MORE_TIES


def describe(plan: SitePlan) -> str:
    """Say in words what the figure shows, with its numbers."""
    view = view_of(plan)
    wide, tall = (
        written(high - low, 0) for low, high in zip(view.low, view.high, strict=True)
    )
    up = "north up" if plan.north_up else "north not recorded"
    said = [
        f"Site plan to scale, {up}, {wide} by {tall} ft; "
        f"the scale bar is {written(bar_ft(view.pt_per_ft), 1)} ft long."
    ]
    fixed = [one.name for one in plan.points if one.fixed]
    said.append(f"Fixed {_plural('point', fixed)}: {_listed(fixed)}.")
    found = [_place(one) for one in plan.points if not one.fixed]
    if found:
        said.append(f"Measured {_plural('place', found)}: {_listed(found)}.")
    if plan.house:
        said.append("The outline of the house is drawn.")
    for role, head in ((PART, "Parts"), (FEATURE, "Around it")):
        names = [one.title for one in plan.things if one.role == role]
        if names:
            said.append(f"{head}: {_listed(names)}.")
    if plan.pipes:
        said.append(f"Pipes: {_listed(one.name for one in plan.pipes)}.")
    gaps = [f"{one.part} to {one.feature} {said_of(one)}" for one in plan.gaps]
    if gaps:
        said.append(f"Distances: {'; '.join(gaps)}.")
    unsure = [
        f"{one.name} within {written(one.ring.long_ft, 1)} ft"
        for one in rings_shown(plan)
        if one.ring
    ]
    if unsure:
        said.append(f"Known less closely: {_listed(unsure)}.")
    return " ".join(said)


def _place(point: Point) -> str:
    return f"{point.name} ({point.what})" if point.what else point.name


def _plural(word: str, found: Sequence[str]) -> str:
    return word if len(found) == 1 else f"{word}s"


def _listed(names: Iterable[str]) -> str:
    return ", ".join(names)
