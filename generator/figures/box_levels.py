"""How far each outlet of the distribution box lies below the highest of them."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from generator.figures.style import (
    BLACK,
    BLUE,
    ORANGE,
    block,
    look,
    new_figure,
    said_fully,
)
from generator.record.parts import Outlet
from generator.results.distribution import lowest, spread_in
from generator.results.result import Number
from generator.results.rounding import said

CAPTION = "How far each outlet lies below the highest. The lowest takes the flow first."
# Our choice, for the drawing alone.
ROW_PT, HEAD_PT, FOOT_PT = 46.0, 6.0, 44.0
PT = 72.0  # in an inch
BAR_HIGH, BAR_DOWN = 0.26, 0.66  # of a row; its words stand above
ROOM = 1.08  # of the longest bar
LEAST_SCALE_IN = 0.5  # so that a hair's breadth does not look like a step
LONGEST_TYPED = 16  # letters of a depth
MOST = 12  # outlets in one figure; the table tells of more
LOWEST, HIGHEST = "lowest", "highest"
AXIS = "inches below the highest outlet"


def worth_drawing(outlets: Sequence[Outlet]) -> bool:
    """Tell whether outlets differ, and are no more than a phone shows."""
    downs = {one.down.inches for one in outlets}
    return len(downs) > 1 and len(outlets) <= MOST


def draw(outlets: Sequence[Outlet]) -> Figure:
    """Draw a bar for each outlet, as long as it lies below the highest.

    Parameters
    ----------
    outlets : sequence of Outlet
        The outlets of one box; at least two, each with its depth. [in]

    Returns
    -------
    Figure
        One row for each outlet, in the order of the job file.
    """
    tall = HEAD_PT + ROW_PT * len(outlets) + FOOT_PT
    spread = float(spread_in([one.down.inches for one in outlets]))
    with look():
        figure = new_figure(tall / PT)
        axes = figure.add_axes(
            (0.03, FOOT_PT / tall, 0.94, ROW_PT * len(outlets) / tall)
        )
        axes.set_xlim(0, max(spread, LEAST_SCALE_IN) * ROOM)
        axes.set_ylim(len(outlets), 0)
        axes.set_yticks([])
        axes.spines["left"].set_visible(False)
        axes.set_xlabel(AXIS)
        for row, one in enumerate(outlets):
            _row(axes, row, one, outlets)
        return figure


def describe(outlets: Sequence[Outlet], spread: Number | None) -> str:
    """Say in words what the figure shows, with its numbers."""
    told = "; ".join(
        f"{one.to} {_depth(one)}{_marked(one, outlets)}" for one in outlets
    )
    between = "" if spread is None else f" They differ by {said_fully(spread, 'in')}."
    begin = "Outlets of the box, each with its depth below one level line"
    return f"{begin}: {told}.{between}"


def place(one: Outlet, outlets: Sequence[Outlet]) -> str:
    """Say whether an outlet is the lowest, the highest, or neither; none of equals."""
    downs = [other.down.inches for other in outlets]
    if len(outlets) < 2 or min(downs) == max(downs):
        return ""
    if one in lowest(outlets):
        return LOWEST
    return HIGHEST if one.down.inches == min(downs) else ""


def _depth(one: Outlet) -> str:
    """Write a depth as it was typed, where that is short."""
    typed = one.down.typed
    short = 0 < len(typed) <= LONGEST_TYPED
    return typed if short else said(one.down.inches, "in")


def _marked(one: Outlet, outlets: Sequence[Outlet]) -> str:
    word = place(one, outlets)
    return f", {word}" if word else ""


def _row(axes: Axes, row: int, one: Outlet, outlets: Sequence[Outlet]) -> None:
    """Draw one outlet: its name, its depth and its place in words, and its bar."""
    low = one.down.inches - min(other.down.inches for other in outlets)
    is_lowest = place(one, outlets) == LOWEST
    block(
        axes,
        (0.0, row + BAR_DOWN),
        (low, BAR_HIGH),
        facecolor=ORANGE if is_lowest else BLUE,
        edgecolor=BLACK,
        hatch="////" if is_lowest else "",
        linewidth=0.6,
        label=one.to,
    )
    depth = f"{_depth(one)} down{_marked(one, outlets)}"
    axes.text(0.0, row + BAR_DOWN - 0.06, f"{one.to}\n{depth}", va="bottom")
