"""A tank cut open lengthwise, to scale, with what stood in it."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    GREY,
    look,
)
from generator.figures.tank_contents import (
    LEVEL_DECIMALS,
    draw_contents,
    draw_end_view,
    draw_highest,
    draw_level,
    scum_span,
)
from generator.figures.tank_fittings import draw_fittings, fittings_said
from generator.figures.tank_outline import (
    WALL_IN,
    Inside,
    draw_shell,
    inside_of,
    new_sheet,
)
from generator.record.parts import Tank
from generator.results.rounding import said

THIN_PT = 15.0  # a layer thinner than this cannot hold its label


def draw(tank: Tank, levels_in: Sequence[float]) -> Figure:
    """Draw a long section of a tank.

    Parameters
    ----------
    tank : Tank
        The recorded tank; what it leaves out is not drawn. [in]
    levels_in : sequence of float
        Levels of the load test against the outlet invert; may be empty. [in]

    Returns
    -------
    Figure
        One section, inlet at the left; below it an end view of a lying cylinder.
    """
    inside = inside_of(tank)
    lying = tank.shape == "lying cylinder"
    with look():
        figure, axes, scale = new_sheet(inside, end_view=lying)
        labels = Labels(figure)
        draw_contents(axes, tank, inside)
        draw_level(axes, 0, inside.length)
        draw_shell(axes, labels, tank, inside)
        draw_fittings(axes, labels, tank, inside.length)
        _measures(axes, labels, tank, inside, scale)
        draw_highest(axes, labels, levels_in, inside)
        if lying:
            draw_end_view(figure.axes[1], labels, tank, inside)
        return figure


def describe(tank: Tank, levels_in: Sequence[float]) -> str:
    """Say in words what the figure shows, with its numbers."""
    inside = inside_of(tank)
    size = (
        f"{said(inside.length, 'in')} long" if inside.plan_known else "of unknown plan"
    )
    if tank.shape == "upright cylinder":
        size = f"{said(inside.length, 'in')} across"
    kind = "tank" if tank.shape == "stated" else f"{tank.shape} tank"
    layers = [f"liquid {said(tank.liquid_depth.inches, 'in')} deep"]
    for name, layer in (("sludge", tank.sludge), ("scum", tank.scum)):
        words = (
            f"{said(layer.inches, 'in')} of {name}" if layer else f"{name} not measured"
        )
        layers.append(words)
    high = max(levels_in, default=0.0)
    rise = said(round(high, LEVEL_DECIMALS), "in")
    risen = f" The load test raised it to {rise} above the outlet." if high > 0 else ""
    return (
        f"Long section, to scale, of a {kind} {size}, inlet at the left: "
        f"{', '.join(layers)}. {fittings_said(tank)}{risen}"
    )


def _measures(
    axes: Axes, labels: Labels, tank: Tank, inside: Inside, scale: float
) -> None:
    """Draw the arrows of liquid, sludge and scum, each with its label."""
    long, depth = inside.length, tank.liquid_depth.inches
    _arrow(axes, 0.16 * long, inside.floor, 0.0)
    sludge_top = inside.floor + (tank.sludge.inches if tank.sludge else 0.0)
    scum = scum_span(tank)
    middle = (sludge_top + (scum[0] if scum else 0.0)) / 2
    if tank.sludge:
        _arrow(
            axes,
            0.44 * long,
            inside.floor,
            sludge_top,
            small=tank.sludge.inches * scale < THIN_PT,
        )
        words = f"sludge {said(tank.sludge.inches, 'in')}"
        _name(
            axes, labels, words, 0.44 * long, inside.floor, sludge_top, scale, up=True
        )
    if tank.scum and scum:
        _arrow(axes, 0.44 * long, *scum, small=(scum[1] - scum[0]) * scale < THIN_PT)
        words = f"scum {said(tank.scum.inches, 'in')}"
        _name(axes, labels, words, 0.44 * long, *scum, scale, up=False)
    spots = [
        Spot(0.16 * long, middle + step * depth, "left", "center", (5, 0))
        for step in (0, 0.08, -0.08, 0.16, -0.16, 0.24, -0.24, 0.32, -0.32)
    ]
    labels.put(axes, f"liquid {said(depth, 'in')}", spots)
    notes = [] if inside.plan_known else ["plan not measured"]
    notes += [] if inside.top_known else ["top not measured"]
    if notes:
        below = Spot(long / 2, inside.floor - WALL_IN, "center", "top", (0, -4))
        labels.put(axes, "; ".join(notes), [below], GREY)


def _name(
    axes: Axes,
    labels: Labels,
    words: str,
    x: float,
    low: float,
    high: float,
    scale: float,
    *,
    up: bool,
) -> None:
    """Label a layer inside it, or just beyond it where it is too thin."""
    inside = Spot(x, (low + high) / 2, "left", "center", (5, 0))
    beyond = (
        Spot(x, high, "left", "bottom", (5, 3))
        if up
        else Spot(x, low, "left", "top", (5, -3))
    )
    thin = (high - low) * scale < THIN_PT
    labels.put(axes, words, [beyond, inside] if thin else [inside, beyond])


def _arrow(
    axes: Axes, x: float, low: float, high: float, *, small: bool = False
) -> None:
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
