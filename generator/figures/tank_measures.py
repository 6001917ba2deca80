"""The measures written into the section of a tank: arrows, each with its label."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    GREY,
    LETTER_PT,
    WIDTH_IN,
    arrow,
    stroke,
)
from generator.figures.tank_bays import NOT_MEASURED, Bay, bays_known
from generator.figures.tank_contents import scum_span
from generator.figures.tank_fittings import inlet_notes
from generator.figures.tank_outline import ROW_PT, WALL_IN, Inside
from generator.quantity import Length
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.rounding import said

# Our choice, for the drawing alone: where along a bay the arrows stand. [-]
LIQUID_AT, LAYERS_AT, FULL_AT = 0.16, 0.44, 0.84
LABEL_PT = 72.0  # "sludge 11 in" beside its arrow
THIN_PT = 15.0  # a layer thinner than this cannot hold its label
HOOK_PT = 5.0  # the ends of the bracket beside such a layer
THINNEST_PT, LEAD_PT = 4.0, 10.0  # too thin for a bracket: a line leads to its words
NOTE_LETTERS = int(WIDTH_IN * 72 / LETTER_PT)  # of a row under the tank
TO_OUTLET = "to the outlet"


def draw_measures(
    axes: Axes,
    labels: Labels,
    tank: Tank,
    inside: Inside,
    bays: Sequence[Bay],
    scale: float,
) -> None:
    """Draw the arrows of liquid, sludge and scum, and what was not measured."""
    one = len(bays) == 1
    for number, bay in enumerate(bays, 1):
        if not one:
            _title(axes, labels, bay, number, inside, scale)
        x = bay.left + LAYERS_AT * bay.wide
        if not one:
            x = bay.left + max(
                0.1 * bay.wide, min(LAYERS_AT * bay.wide, bay.wide - LABEL_PT / scale)
            )
        _layers(axes, labels, bay, inside, x, scale, must=one)
    if tank.kind == HOLDING_TANK:
        _full(axes, labels, tank, bays[0], inside)
    _liquid(axes, labels, tank, inside, bays[0])
    for row, words in enumerate(notes_of(tank, inside)):
        down = -4 - row * ROW_PT
        below = Spot(
            inside.length / 2, inside.floor - WALL_IN, "center", "top", (0, down)
        )
        labels.put(axes, words, [below], GREY)


def notes_of(tank: Tank, inside: Inside) -> list[str]:
    """List the rows under the tank: what was not measured, what the inlet lacks."""
    notes = [] if inside.plan_known else ["plan not measured"]
    notes += [] if inside.top_known else ["top not measured"]
    notes += [] if bays_known(tank) else [NOT_MEASURED]
    rows: list[str] = []
    for note in notes + inlet_notes(tank):
        longer = f"{rows[-1]}; {note}" if rows else ""
        if rows and len(longer) <= NOTE_LETTERS:
            rows[-1] = longer
        else:
            rows.append(note)
    return rows


def _title(
    axes: Axes, labels: Labels, bay: Bay, number: int, inside: Inside, scale: float
) -> None:
    """Name a compartment under the top; by its number where its name is too long."""
    fits = len(bay.name) * LETTER_PT < bay.wide * scale
    middle = (bay.left + bay.right) / 2
    spots = [
        Spot(middle, inside.top, "center", "top", (0, -2)),
        Spot(bay.left, inside.top, "left", "top", (4, -2)),
    ]
    labels.put(axes, bay.name if fits else str(number), spots)


def _layers(
    axes: Axes,
    labels: Labels,
    bay: Bay,
    inside: Inside,
    x: float,
    scale: float,
    *,
    must: bool,
) -> None:
    if bay.sludge:
        span = (inside.floor, inside.floor + bay.sludge.inches)
        _layer(axes, labels, "sludge", bay.sludge, x, span, scale, must=must)
    scum = scum_span(bay, inside.level)
    if bay.scum and scum:
        _layer(axes, labels, "scum", bay.scum, x, scum, scale, must=must)


def _layer(
    axes: Axes,
    labels: Labels,
    name: str,
    thick: Length,
    x: float,
    span: tuple[float, float],
    scale: float,
    *,
    must: bool,
) -> None:
    """Measure a layer; label it inside, or just beyond where it is thin."""
    low, high = span
    thin = (high - low) * scale < THIN_PT
    if thin:
        bracket(axes, x, low, high, scale, up=name == "sludge")
    else:
        arrow(axes, x, low, high)
    within = Spot(x, (low + high) / 2, "left", "center", (5, 0))
    edge, up, shift = (high, "bottom", 3) if name == "sludge" else (low, "top", -3)
    beyond = Spot(x, edge, "left", up, (5, shift))
    aside = Spot(x, edge, "right", up, (-5, shift))
    spots = [beyond, aside, within] if thin else [within, beyond, aside]
    words = f"{name} {said(thick.inches, 'in')}"
    if must:
        labels.put(axes, words, spots)
    else:
        labels.put_if_clear(axes, words, spots, most_lines=0)


def _liquid(axes: Axes, labels: Labels, tank: Tank, inside: Inside, bay: Bay) -> None:
    """Draw the depth of the liquid: up to the outlet, of a holding tank as found."""
    if inside.level is None:
        return
    holding = tank.kind == HOLDING_TANK
    top = inside.level if holding else 0.0
    depth = top - inside.floor
    x = bay.left + LIQUID_AT * bay.wide
    arrow(axes, x, inside.floor, top)
    sludge_top = inside.floor + (bay.sludge.inches if bay.sludge else 0.0)
    scum = scum_span(bay, inside.level)
    middle = (sludge_top + (scum[0] if scum else inside.level)) / 2
    spots = [
        Spot(x, middle + step * depth, "left", "center", (5, 0))
        for step in (0, 0.08, -0.08, 0.16, -0.16, 0.24, -0.24, 0.32, -0.32)
    ]
    spots.append(Spot(x, inside.level, "left", "bottom", (5, 3)))  # where it is low
    name = "liquid" if inside.level == top else TO_OUTLET
    labels.put(axes, f"{name} {said(depth, 'in')}", spots)


def _full(axes: Axes, labels: Labels, tank: Tank, bay: Bay, inside: Inside) -> None:
    """Draw the depth at which a holding tank is full."""
    x = bay.left + FULL_AT * bay.wide
    arrow(axes, x, inside.floor, 0.0)
    depth = tank.liquid_depth.inches
    spots = [
        Spot(x, -depth * share, "right", "center", (-5, 0))
        for share in (0.35, 0.5, 0.65, 0.15, 0.8)
    ]
    labels.put(axes, f"full {said(depth, 'in')}", spots)


def bracket(
    axes: Axes, x: float, low: float, high: float, scale: float, *, up: bool
) -> None:
    """Draw a bracket where an arrow has no room, and nothing where nothing is. [in]

    A layer too thin even for that has a line that leads ``up`` or down to its words.
    """
    if high <= low:
        return
    hook, lead = HOOK_PT / scale, LEAD_PT / scale
    xs: tuple[float, ...] = (x - hook, x, x, x - hook)
    ys: tuple[float, ...] = (low, low, high, high)
    if (high - low) * scale < THINNEST_PT:
        xs, ys = (x, x), (low, high + lead) if up else (low - lead, high)
    stroke(
        axes,
        xs,
        ys,
        color=BLACK,
        linewidth=1.1,
        solid_joinstyle="miter",
        label="bracket",
        zorder=7,
    )
