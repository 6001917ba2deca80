"""The bays of a tank: its compartments as they are drawn, or the tank as one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from matplotlib.axes import Axes

from generator.figures.labels import Labels
from generator.figures.style import BLACK, GREY, block
from generator.figures.tank_outline import WALL_IN, Inside
from generator.quantity import Length
from generator.record.parts import Compartment, Tank

# Our choice, for the drawing alone.
NOT_MEASURED = "compartments not measured"


@dataclass(frozen=True)
class Bay:
    """One stretch of a tank between two walls, and what stands in it. [in]"""

    name: str
    left: float
    right: float
    sludge: Length | None
    scum: Length | None
    scum_bottom: Length | None

    @property
    def wide(self) -> float:
        """From wall to wall. [in]"""
        return self.right - self.left


def bays_of(tank: Tank, inside: Inside) -> list[Bay]:
    """List the compartments from the inlet on, or the whole tank as one bay."""
    parts = tank.compartments
    if len(parts) < 2:
        return [_bay("", 0.0, inside.length, tank)]
    sizes = _sizes(parts) or [1.0] * len(parts)
    walls = len(parts) - 1
    spare = inside.length - sum(sizes) if _by_length(parts) else WALL_IN * walls
    wall = min(max(spare / walls, 0.0), WALL_IN)
    stretch = (inside.length - wall * walls) / sum(sizes)
    bays, left = [], 0.0
    for part, size in zip(parts, sizes, strict=True):
        bays.append(_bay(part.name, left, left + size * stretch, part))
        left += size * stretch + wall
    return bays


def bays_known(tank: Tank) -> bool:
    """Tell whether the sizes of the compartments were recorded, if it has any."""
    return len(tank.compartments) < 2 or _sizes(tank.compartments) is not None


def draw_dividers(axes: Axes, tank: Tank, inside: Inside, bays: Sequence[Bay]) -> None:
    """Draw the walls between the compartments; their openings are not recorded."""
    known = bays_known(tank)
    for before, after in pairwise(bays):
        block(
            axes,
            (before.right, inside.floor),
            (after.left - before.right, inside.top - inside.floor),
            facecolor=GREY if known else "white",
            edgecolor=BLACK if known else GREY,
            linewidth=0.8,
            linestyle="-" if known else "--",
            label="divider",
            zorder=3,
        )


def keep_off_lines(
    axes: Axes,
    labels: Labels,
    inside: Inside,
    bays: Sequence[Bay],
    levels_in: Sequence[float] = (),
) -> None:
    """Keep labels off the levels and off the walls, where there is a choice."""
    surface = () if inside.level is None else (inside.level,)
    for level in {*surface, *levels_in}:
        labels.keep_off(axes, (0, inside.length), (level, level))
    for bay in bays:
        for x in (bay.left, bay.right):
            labels.keep_off(axes, (x, x), (inside.floor, inside.top))


def _bay(name: str, left: float, right: float, holds: Tank | Compartment) -> Bay:
    return Bay(name, left, right, holds.sludge, holds.scum, holds.scum_bottom)


def _by_length(parts: Sequence[Compartment]) -> bool:
    return all(part.length is not None and part.length.inches > 0 for part in parts)


def _sizes(parts: Sequence[Compartment]) -> list[float] | None:
    """Give the lengths, else the gallons, as sizes; None where neither is whole."""
    if _by_length(parts):
        return [part.length.inches for part in parts if part.length]
    stated = [part.gallons.gallons for part in parts if part.gallons]
    if len(stated) == len(parts) and min(stated) > 0:
        return stated
    return None
