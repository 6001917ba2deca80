"""What stands in a tank: liquid, sludge and scum."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    BLUE,
    GREY,
    PALE_WATER,
    block,
    stroke,
)
from generator.figures.tank_bays import Bay
from generator.figures.tank_outline import WALL_IN, Inside

PALE_SLUDGE, PALE_SCUM, DARK_SCUM = "#D9C9A3", "#F3D9A0", "#7A4B00"
LEVEL_DECIMALS = 1  # a level is read to about 1/8 in; our choice


def scum_span(bay: Bay, level: float | None) -> tuple[float, float] | None:
    """Find the bottom and the top of the scum against the nought of the drawing. [in]

    ``level`` is the top of the liquid; where nobody read it there is no place to draw.
    """
    if not bay.scum or level is None:
        return None
    thick = bay.scum.inches
    below = bay.scum_bottom.inches if bay.scum_bottom else thick
    return level - below, level + thick - below


def draw_contents(axes: Axes, bays: Sequence[Bay], inside: Inside) -> list[Rectangle]:
    """Draw liquid, sludge and scum, each where it was measured, from wall to wall."""
    return [layer for bay in bays for layer in _layers(axes, bay, inside)]


def _layers(axes: Axes, bay: Bay, inside: Inside) -> list[Rectangle]:
    layers = []
    if inside.level is not None:
        layers.append(
            block(
                axes,
                (bay.left, inside.floor),
                (bay.wide, inside.level - inside.floor),
                facecolor=PALE_WATER,
                edgecolor="none",
                label="liquid",
            )
        )
    if bay.sludge and bay.sludge.inches > 0:
        layers.append(
            block(
                axes,
                (bay.left, inside.floor),
                (bay.wide, bay.sludge.inches),
                facecolor=PALE_SLUDGE,
                edgecolor=GREY,
                hatch="///",
                label="sludge",
            )
        )
    scum = scum_span(bay, inside.level)
    if scum and scum[1] > scum[0]:
        layers.append(
            block(
                axes,
                (bay.left, scum[0]),
                (bay.wide, scum[1] - scum[0]),
                facecolor=PALE_SCUM,
                edgecolor=DARK_SCUM,
                hatch="xxx",
                label="scum",
            )
        )
    return layers


def draw_full(axes: Axes, labels: Labels, inside: Inside, words: str) -> None:
    """Draw the level at which a holding tank is full, and how full it is in words."""
    stroke(
        axes,
        (0, inside.length),
        (0, 0),
        color=BLACK,
        linewidth=1.2,
        linestyle=(0, (5, 2)),
        label="full",
        zorder=5,
    )
    above = Spot(0.5 * inside.length, inside.top + WALL_IN, "center", "bottom", (0, 4))
    if words:
        labels.put(axes, words, [above])


def draw_level(axes: Axes, left: float, right: float, at: float = 0.0) -> None:
    """Draw the surface of the liquid; at the outlet where nobody read another."""
    stroke(
        axes, (left, right), (at, at), color=BLUE, linewidth=1.6, label="liquid level"
    )
