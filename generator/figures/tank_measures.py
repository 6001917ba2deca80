"""The measures written into the section of a tank: arrows, each with its label."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.style import BLACK, GREY, LETTER_PT
from generator.figures.tank_bays import NOT_MEASURED, Bay, bays_known
from generator.figures.tank_contents import scum_span
from generator.figures.tank_outline import WALL_IN, Inside
from generator.quantity import Length
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.rounding import said

# Our choice, for the drawing alone: where along a bay the arrows stand. [-]
LIQUID_AT, LAYERS_AT, FULL_AT = 0.16, 0.44, 0.84
LABEL_PT = 72.0  # "sludge 11 in" beside its arrow
THIN_PT = 15.0  # a layer thinner than this cannot hold its label


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
    _notes(axes, labels, tank, inside)


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
    """Draw the arrow of a layer; label it inside, or just beyond where it is thin."""
    low, high = span
    thin = (high - low) * scale < THIN_PT
    arrow(axes, x, low, high, small=thin)
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
    """Draw the depth of the liquid, which of a holding tank is that of the day."""
    if inside.level is None:
        return
    depth = inside.level - inside.floor
    x = bay.left + LIQUID_AT * bay.wide
    arrow(axes, x, inside.floor, inside.level)
    sludge_top = inside.floor + (bay.sludge.inches if bay.sludge else 0.0)
    scum = scum_span(bay, inside.level)
    middle = (sludge_top + (scum[0] if scum else inside.level)) / 2
    spots = [
        Spot(x, middle + step * depth, "left", "center", (5, 0))
        for step in (0, 0.08, -0.08, 0.16, -0.16, 0.24, -0.24, 0.32, -0.32)
    ]
    spots.append(Spot(x, inside.level, "left", "bottom", (5, 3)))  # where it is low
    labels.put(axes, f"liquid {said(depth, 'in')}", spots)


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


def _notes(axes: Axes, labels: Labels, tank: Tank, inside: Inside) -> None:
    notes = [] if inside.plan_known else ["plan not measured"]
    notes += [] if inside.top_known else ["top not measured"]
    notes += [] if bays_known(tank) else [NOT_MEASURED]
    if notes:
        below = Spot(
            inside.length / 2, inside.floor - WALL_IN, "center", "top", (0, -4)
        )
        labels.put(axes, "; ".join(notes), [below], GREY)


def arrow(
    axes: Axes, x: float, low: float, high: float, *, small: bool = False
) -> None:
    """Draw an upright arrow with two heads, or a bar where there is no room."""
    axes.annotate(
        "",
        (x, high),
        (x, low),
        zorder=7,
        arrowprops={
            "arrowstyle": "-" if small else "<|-|>",
            "color": BLACK,
            "linewidth": 3.0 if small else 1.1,
            "shrinkA": 0,
            "shrinkB": 0,
            "mutation_scale": 7,
        },
    )
