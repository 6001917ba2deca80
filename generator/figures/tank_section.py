"""A tank cut open lengthwise, to scale, with what stood in it."""

from __future__ import annotations

from matplotlib.figure import Figure

from generator.figures.labels import Labels
from generator.figures.style import look
from generator.figures.tank_bays import bays_of, draw_dividers, keep_off_lines
from generator.figures.tank_contents import (
    draw_contents,
    draw_full,
    draw_level,
)
from generator.figures.tank_end_view import draw_end_view, has_end_view
from generator.figures.tank_fittings import draw_fittings
from generator.figures.tank_levels import (
    Levels,
    draw_key,
    draw_lines,
    draw_mark,
    lines_of,
    mark_of,
)
from generator.figures.tank_measures import draw_measures, notes_of
from generator.figures.tank_outline import Inside, draw_shell, inside_of, new_sheet
from generator.figures.tank_words import describe
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.result import Number
from generator.results.rounding import said

__all__ = ["describe", "draw"]


def draw(
    tank: Tank, levels: Levels | None = None, share_percent: Number | None = None
) -> Figure:
    """Draw a long section of a tank.

    Parameters
    ----------
    tank : Tank
        The recorded tank; what it leaves out is not drawn. [in]
    levels : Levels or None
        Levels of the load test against the outlet invert, where it was this tank that
        was tested; it is then drawn filled as it was found at the start. [in]
    share_percent : float or None
        How full a holding tank stood, where that could be worked out. [%]

    Returns
    -------
    Figure
        One section, inlet at the left; below it an end view of a tank that lies.
    """
    tested = None if tank.kind == HOLDING_TANK else levels
    read_in = tested.read_in if tested else ()
    inside, lying = inside_of(tank, read_in), has_end_view(tank)
    bays, lines, mark = bays_of(tank, inside), lines_of(tested), mark_of(tank)
    key = [*lines, mark] if mark else lines
    under = len(notes_of(tank, inside))
    with look():
        figure, axes, scale = new_sheet(
            inside, end_view=lying, rows_over=len(key), rows_under=under
        )
        labels = Labels(figure)
        draw_contents(axes, bays, inside)
        if inside.level is not None and not lines:
            draw_level(axes, 0, inside.length, inside.level)
        keep_off_lines(axes, labels, inside, bays, [line.at for line in lines])
        draw_shell(axes, labels, tank, inside)
        draw_dividers(axes, tank, inside, bays)
        draw_fittings(axes, labels, tank, inside)
        draw_measures(axes, labels, tank, inside, bays, scale)
        draw_lines(axes, lines, inside)
        draw_mark(axes, mark, scale)
        draw_key(axes, labels, key, inside, scale)
        if tank.kind == HOLDING_TANK:
            draw_full(axes, labels, inside, _how_full(inside, share_percent))
        if lying:
            draw_end_view(figure.axes[1], labels, tank, inside)
        return figure


def _how_full(inside: Inside, share_percent: Number | None) -> str:
    if inside.level is None:
        return "liquid not measured"
    return "" if share_percent is None else f"{said(share_percent, '%')} full"
