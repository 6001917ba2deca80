"""Sludge and scum beside the limit of each published criterion, each by itself."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.gridspec import GridSpec

from generator.figures.style import (
    BLACK,
    BLUE,
    GREY,
    INK,
    ORANGE,
    PALE_GREY,
    TEXT_PT,
    block,
    look,
    new_figure,
)
from generator.results.rounding import written
from generator.results.solids_bars import SolidsBar

ROW_IN = 0.66  # height of one criterion; our choice
HEAD_IN = 0.75  # title and scale of one panel; our choice
BAR_HIGH = 0.34
PUMP = "pump"
TITLES = {
    "%": "Share, percent: pump where the bar passes the mark",
    "in": "Clearance, inches: pump where the bar ends before the mark",
}
LOOKS = {  # fill and hatch by what the source says; hatch for grey print
    PUMP: (ORANGE, "////"),
    "not yet": (BLUE, ""),
}
UNREAD = (PALE_GREY, "xx")
NOT_READ = "limit not read"
WHOLE_FROM = 10  # from here on words tell no decimal; our choice
ROOM = 1.12  # of the longest bar, so that its whisker keeps clear of the frame


def draw(bars: Sequence[SolidsBar]) -> Figure:
    """Draw every measure as a bar, and its limit as a mark across it.

    Parameters
    ----------
    bars : sequence of SolidsBar
        At least one, those of one unit together. [in] or [%]

    Returns
    -------
    Figure
        One panel a unit; the whisker is the expanded uncertainty (k = 2).
    """
    panels = [(unit, list(group)) for unit, group in groupby(bars, _unit)]
    heights = [HEAD_IN + ROW_IN * len(group) for _, group in panels]
    with look():
        figure = new_figure(sum(heights))
        grid = GridSpec(
            len(panels),
            1,
            height_ratios=[len(group) + 0.4 for _, group in panels],
            left=0.03,
            right=0.97,
            top=1 - 0.32 / sum(heights),
            bottom=0.34 / sum(heights),
            hspace=0.72 / max(1, len(bars) / len(panels)),
        )
        for number, (unit, group) in enumerate(panels):
            _panel(figure.add_subplot(grid[number]), unit, group)
        return figure


def _unit(bar: SolidsBar) -> str:
    return bar.unit


def _panel(axes: Axes, unit: str, bars: Sequence[SolidsBar]) -> None:
    longest = max(max(bar.value + bar.reach, bar.limit) for bar in bars)
    axes.set_xlim(0, ROOM * longest)
    axes.set_ylim(len(bars) - 0.3, -0.75)
    axes.set_yticks([])
    axes.spines["left"].set_visible(False)
    axes.set_title(TITLES[unit])
    for row, bar in enumerate(bars):
        _bar(axes, row, bar)


def _bar(axes: Axes, row: int, bar: SolidsBar) -> None:
    color, hatch = LOOKS.get(bar.says, UNREAD)
    block(
        axes,
        (0.0, row - BAR_HIGH / 2),
        (max(bar.value, 0.0), BAR_HIGH),
        facecolor=color,
        edgecolor=BLACK,
        hatch=hatch,
        linewidth=0.6,
    )
    axes.plot(
        [bar.value - bar.reach, bar.value + bar.reach], [row, row], color=BLACK, lw=1.2
    )
    half = BAR_HIGH * 0.68
    axes.plot([bar.limit, bar.limit], [row - half, row + half], color=BLACK, lw=2.6)
    ink = INK.get(color, GREY)
    axes.text(
        0.0,
        row - BAR_HIGH / 2 - 0.09,
        f"{bar.label}: {bar.says if bar.says in LOOKS else NOT_READ}",
        fontsize=TEXT_PT,
        color=BLACK if bar.says == PUMP else ink,
        va="bottom",
    )


def describe(bars: Sequence[SolidsBar]) -> str:
    """Say in words what the figure shows, with its numbers."""
    return " ".join(
        f"{bar.label}: {_said(bar.value)} {bar.unit}, limit {_said(bar.limit)} "
        f"{bar.unit}: {bar.says}."
        for bar in bars
    )


def _said(value: float) -> str:
    return written(value, 0 if abs(value) >= WHOLE_FROM else 1)
