"""The shapes of what hangs at a tank's pipes: a baffle, and a tee with its leg."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from matplotlib.axes import Axes

from generator.figures.style import (
    BLACK,
    GREY,
    PALE_WATER,
    block,
    stroke,
)
from generator.figures.tank_outline import BORE_IN, Inside

BROKEN = (0, (4, 2.5))  # outline of what is spoiled; our choice


@dataclass(frozen=True)
class Device:
    """One baffle or tee: its left edge, its ends, and how its outline is. [in]"""

    name: str
    left: float
    wide: float
    bottom: float
    top: float
    known: bool
    spoiled: bool

    @property
    def right(self) -> float:
        """Its right edge. [in]"""
        return self.left + self.wide

    @property
    def outline(self) -> dict[str, Any]:
        """Whole; broken where it is spoiled; grey where its depth is a guess."""
        color = BLACK if self.known or self.spoiled else GREY
        style = BROKEN if self.spoiled else "-" if self.known else "--"
        return {
            "linestyle": style,
            "color": color,
            "linewidth": 1.4 if color == BLACK else 1.0,
        }


def draw_baffle(axes: Axes, device: Device) -> None:
    """Draw a baffle, or what stands for a device that nobody measured."""
    how = device.outline
    block(
        axes,
        (device.left, device.bottom),
        (device.wide, device.top - device.bottom),
        facecolor="white",
        edgecolor=how.pop("color"),
        label=device.name,
        zorder=4,
        **how,
    )


def draw_tee(axes: Axes, device: Device, inside: Inside) -> None:
    """Draw a tee, open above and below, with its leg to the outlet and its water."""
    bore = min(BORE_IN, device.top)
    upright = (device.left, device.bottom, device.wide, device.top)
    leg = (device.right, 0.0, inside.length - device.right, bore)
    for part, name in ((upright, device.name), (leg, "outlet leg")):
        _hollow(axes, part, inside.level, name)
    ends = (device.bottom, device.top)
    edges = [
        ((device.left, device.left), ends),
        ((device.right, device.right, inside.length), (device.bottom, 0.0, 0.0)),
        ((inside.length, device.right, device.right), (bore, bore, device.top)),
    ]
    for xs, ys in edges:
        stroke(axes, xs, ys, label="tee wall", zorder=4, **device.outline)


def _hollow(
    axes: Axes,
    part: tuple[float, float, float, float],
    level: float | None,
    name: str,
) -> None:
    """Clear the inside of a pipe, and fill it up to the level of the liquid."""
    left, low, wide, high = part
    how = {"edgecolor": "none", "zorder": 3.5}
    block(axes, (left, low), (wide, high - low), facecolor="white", label=name, **how)
    full = min(level, high) - low if level is not None else 0.0
    if full > 0:
        block(
            axes,
            (left, low),
            (wide, full),
            facecolor=PALE_WATER,
            label=f"water in {name}",
            **how,
        )
