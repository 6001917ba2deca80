"""The end of a tank that lies: round, oval or elliptic, with the same layers."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi

from matplotlib.axes import Axes
from matplotlib.patches import Circle, Ellipse, Patch, Polygon

from generator.figures.labels import Labels, Spot
from generator.figures.style import BLACK
from generator.figures.tank_bays import bays_of
from generator.figures.tank_contents import draw_contents, draw_level
from generator.figures.tank_outline import HEADSPACE_IN, WALL_IN, Inside
from generator.record.parts import Tank
from generator.results.rounding import said
from generator.results.tank_sections import ellipse_width_in, oval_width_in

ROUND, OVAL = "lying cylinder", "lying oval"
LYING = (ROUND, OVAL, "lying ellipse")
STEPS = 120  # straight pieces of each side of an oval; our choice


def has_end_view(tank: Tank) -> bool:
    """Tell whether a tank lies and its end was measured."""
    if tank.shape == ROUND:
        return True
    return tank.shape in LYING and bool(tank.width and tank.inside_height)


def end_said(tank: Tank) -> str:
    """Say how large the end is; nothing of a tank without an end view."""
    if not has_end_view(tank):
        return ""
    return f" Below it an end view, {_size(tank)}."


def draw_end_view(axes: Axes, labels: Labels, tank: Tank, inside: Inside) -> None:
    """Draw the end of a tank that lies; of several compartments that of the first."""
    high = inside.top - inside.floor
    wide = tank.width.inches if tank.width and tank.shape != ROUND else high
    middle = (inside.length / 2, inside.floor + high / 2)
    ring = _outline(tank, middle, wide, high)
    ring.set(facecolor="white", edgecolor="none")
    axes.add_artist(ring)
    first = bays_of(tank, inside)[0]
    bay = replace(first, left=middle[0] - wide / 2, right=middle[0] + wide / 2)
    for layer in draw_contents(axes, [bay], inside):
        layer.set_clip_path(ring)
    rim = _outline(tank, middle, wide, high)
    rim.set(facecolor="none", edgecolor=BLACK, linewidth=2.5)
    axes.add_artist(rim)
    if inside.level is not None:
        half = _chord(tank, wide, high, inside.level - inside.floor) / 2
        draw_level(axes, middle[0] - half, middle[0] + half, inside.level)
    _names(axes, labels, tank, inside, middle)


def _names(
    axes: Axes,
    labels: Labels,
    tank: Tank,
    inside: Inside,
    middle: tuple[float, float],
) -> None:
    above = Spot(middle[0], inside.top + WALL_IN, "center", "bottom", (0, 3))
    of_first = " of the first part" if tank.compartments else ""
    labels.put(axes, f"end view{of_first}, to the same scale", [above])
    words = _size(tank).replace(" and ", "\n")
    if inside.level is not None:
        labels.keep_off(axes, (0, inside.length), (inside.level,) * 2)
    away = (inside.top - inside.floor) / 5
    spots = [
        Spot(middle[0], middle[1] + step, "center", "center", (0, 0))
        for step in (0.0, away, -away)
    ]
    labels.put(axes, words, spots)


def _size(tank: Tank) -> str:
    if tank.shape == ROUND:
        across = tank.diameter.inches if tank.diameter else _stand_in(tank)
        return f"{said(across, 'in')} across"
    wide = tank.width.inches if tank.width else 0.0
    high = tank.inside_height.inches if tank.inside_height else 0.0
    return f"{said(wide, 'in')} wide and {said(high, 'in')} high"


def _stand_in(tank: Tank) -> float:
    return tank.liquid_depth.inches + HEADSPACE_IN


def _chord(tank: Tank, wide: float, high: float, depth: float) -> float:
    """Width of the surface across the tank at a depth. [in]"""
    across = oval_width_in if tank.shape == OVAL else ellipse_width_in
    return float(across(wide, high, min(max(depth, 0.0), high)))


def _outline(
    tank: Tank, middle: tuple[float, float], wide: float, high: float
) -> Patch:
    if tank.shape == ROUND:
        return Circle(middle, high / 2)
    if tank.shape != OVAL:
        return Ellipse(middle, wide, high)
    depths = [high * (1 - cos(pi * step / STEPS)) / 2 for step in range(STEPS + 1)]
    halves = [_chord(tank, wide, high, depth) / 2 for depth in depths]
    if wide > high:  # flat below and above, between the half circles
        halves[0] = halves[-1] = (wide - high) / 2
    low = middle[1] - high / 2
    right = [(middle[0] + a, low + d) for a, d in zip(halves, depths, strict=True)]
    left = [(middle[0] - a, low + d) for a, d in zip(halves, depths, strict=True)]
    return Polygon([*right, *reversed(left)], closed=True)
