"""What stands in a tank: liquid, sludge, scum, and the level of the test."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.patches import Circle, Rectangle

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    BLUE,
    GREY,
    PALE_WATER,
    VERMILION,
    block,
)
from generator.figures.tank_outline import WALL_IN, Inside
from generator.record.parts import Tank
from generator.results.rounding import said

PALE_SLUDGE, PALE_SCUM, DARK_SCUM = "#D9C9A3", "#F3D9A0", "#7A4B00"
LEVEL_DECIMALS = 1  # a level is read to about 1/8 in; our choice


def scum_span(tank: Tank) -> tuple[float, float] | None:
    """Find the bottom and the top of the scum against the outlet invert. [in]"""
    if not tank.scum:
        return None
    thick = tank.scum.inches
    below = tank.scum_bottom.inches if tank.scum_bottom else thick
    return -below, thick - below


def draw_contents(axes: Axes, tank: Tank, inside: Inside) -> list[Rectangle]:
    """Draw liquid, sludge and scum, each where it was measured, to full width."""
    long = inside.length
    layers = [
        block(
            axes,
            (0, inside.floor),
            (long, -inside.floor),
            facecolor=PALE_WATER,
            edgecolor="none",
            label="liquid",
        )
    ]
    if tank.sludge:
        layers.append(
            block(
                axes,
                (0, inside.floor),
                (long, tank.sludge.inches),
                facecolor=PALE_SLUDGE,
                edgecolor=GREY,
                hatch="///",
                label="sludge",
            )
        )
    scum = scum_span(tank)
    if scum:
        layers.append(
            block(
                axes,
                (0, scum[0]),
                (long, scum[1] - scum[0]),
                facecolor=PALE_SCUM,
                edgecolor=DARK_SCUM,
                hatch="xxx",
                label="scum",
            )
        )
    return layers


def draw_highest(
    axes: Axes, labels: Labels, levels_in: Sequence[float], inside: Inside
) -> None:
    """Draw the highest level of the load test, where it rose over the outlet."""
    high = max(levels_in, default=0.0)
    if high <= 0:
        return
    axes.plot(
        (0, inside.length),
        (high, high),
        color=VERMILION,
        linewidth=1.6,
        linestyle=(0, (5, 2)),
        label="highest level",
        zorder=5,
        clip_on=False,
    )
    roof = inside.top + WALL_IN
    axes.plot(
        (0.5 * inside.length,) * 2,
        (high, roof),
        color=VERMILION,
        linewidth=0.8,
        zorder=6,
        clip_on=False,
    )
    rise = said(round(high, LEVEL_DECIMALS), "in")
    words = f"highest in the test: {rise} above the outlet"
    labels.put(
        axes,
        words,
        [Spot(0.5 * inside.length, roof, "center", "bottom", (0, 4))],
        VERMILION,
    )


def draw_end_view(axes: Axes, labels: Labels, tank: Tank, inside: Inside) -> None:
    """Draw the round end of a lying cylinder with the same layers."""
    radius = (inside.top - inside.floor) / 2
    middle, height = inside.length / 2, inside.floor + radius
    ring = Circle((middle, height), radius, facecolor="white", edgecolor="none")
    axes.add_patch(ring)
    for layer in draw_contents(axes, tank, inside):
        layer.set_clip_path(ring)
    rim = Circle((middle, height), radius, facecolor="none", edgecolor=BLACK)
    rim.set_linewidth(2.5)
    axes.add_patch(rim)
    half = max(radius**2 - height**2, 0.0) ** 0.5
    draw_level(axes, middle - half, middle + half)
    above = Spot(middle, inside.top + WALL_IN, "center", "bottom", (0, 3))
    labels.put(axes, "end view, to the same scale", [above])
    inmost = Spot(middle, height, "center", "center", (0, 0))
    labels.put(axes, f"{said(2 * radius, 'in')} across", [inmost])


def draw_level(axes: Axes, left: float, right: float) -> None:
    """Draw the liquid level at the outlet invert."""
    axes.plot((left, right), (0, 0), color=BLUE, linewidth=1.6, label="liquid level")
