"""A tank cut open lengthwise, to scale, with what stood in it."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from generator.figures.labels import Labels
from generator.figures.style import look
from generator.figures.tank_bays import bays_of, draw_dividers, keep_off_lines
from generator.figures.tank_contents import (
    draw_contents,
    draw_full,
    draw_highest,
    draw_level,
)
from generator.figures.tank_end_view import draw_end_view, has_end_view
from generator.figures.tank_fittings import draw_fittings
from generator.figures.tank_measures import draw_measures
from generator.figures.tank_outline import Inside, draw_shell, inside_of, new_sheet
from generator.figures.tank_words import describe
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.result import Number
from generator.results.rounding import said

__all__ = ["describe", "draw"]


def draw(
    tank: Tank, levels_in: Sequence[float], share_percent: Number | None = None
) -> Figure:
    """Draw a long section of a tank.

    Parameters
    ----------
    tank : Tank
        The recorded tank; what it leaves out is not drawn. [in]
    levels_in : sequence of float
        Levels of the load test against the outlet invert; may be empty. [in]
    share_percent : float or None
        How full a holding tank stood, where that could be worked out. [%]

    Returns
    -------
    Figure
        One section, inlet at the left; below it an end view of a tank that lies.
    """
    inside = inside_of(tank)
    bays = bays_of(tank, inside)
    lying = has_end_view(tank)
    with look():
        figure, axes, scale = new_sheet(inside, end_view=lying)
        labels = Labels(figure)
        draw_contents(axes, bays, inside)
        if inside.level is not None:
            draw_level(axes, 0, inside.length, inside.level)
        keep_off_lines(axes, labels, inside, bays)
        draw_shell(axes, labels, tank, inside)
        draw_dividers(axes, tank, inside, bays)
        draw_fittings(axes, labels, tank, inside.length)
        draw_measures(axes, labels, tank, inside, bays, scale)
        draw_highest(axes, labels, levels_in, inside)
        if tank.kind == HOLDING_TANK:
            draw_full(axes, labels, inside, _how_full(inside, share_percent))
        if lying:
            draw_end_view(figure.axes[1], labels, tank, inside)
        return figure


def _how_full(inside: Inside, share_percent: Number | None) -> str:
    if inside.level is None:
        return "liquid not measured"
    return "" if share_percent is None else f"{said(share_percent, '%')} full"
