"""Sludge and scum beside the limit of each published criterion, each by itself."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from textwrap import wrap

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from generator.figures.style import (
    BLACK,
    BLUE,
    GREY,
    INK,
    LETTER_PT,
    ORANGE,
    PALE_GREY,
    TEXT_PT,
    WIDTH_IN,
    block,
    look,
    new_figure,
    stroke,
)
from generator.results.rounding import written
from generator.results.solids_bars import SolidsBar

# Our choice: the sheet, in points.
LINE_PT, BAR_PT, GAP_PT = 13.5, 17.0, 14.0
TITLE_PT, SCALE_PT, FOOT_PT = 33.0, 24.0, 6.0
TITLE_PAD_PT = 11.0
EDGE = 0.03  # of the width, left and right; our choice
LETTERS = int((1 - 2 * EDGE) * WIDTH_IN * 72 / LETTER_PT)
PALE_BLUE = "#A6D2EE"  # so pale that mark and whisker show on it
PUMP = "pump"
TITLES = {
    "%": "Share, percent: pump where the bar passes the mark",
    "in": "Clearance, inches: pump where the bar ends before the mark",
}
LOOKS = {  # fill, hatch and ink by what the source says; hatch for grey print
    PUMP: (ORANGE, "////", BLACK),
    "not yet": (PALE_BLUE, "", INK[BLUE]),
}
UNREAD = (PALE_GREY, "xx", GREY)
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
    talls = [sum(map(_tall_pt, group)) for _, group in panels]
    whole = sum(talls) + len(panels) * (TITLE_PT + SCALE_PT) + FOOT_PT
    with look():
        figure = new_figure(whole / 72)
        top = whole
        for (unit, group), tall in zip(panels, talls, strict=True):
            low = top - TITLE_PT - tall
            place = (EDGE, low / whole, 1 - 2 * EDGE, tall / whole)
            _panel(figure.add_axes(place), unit, group, tall)
            top = low - SCALE_PT
        return figure


def _unit(bar: SolidsBar) -> str:
    return bar.unit


def _lines(bar: SolidsBar) -> list[str]:
    """Give the words of a bar: what it measures, then number, limit and verdict."""
    words = f"{_said(bar, bar.value)} ({_asks(bar)}): {bar.says}"
    return [*wrap(bar.label, LETTERS), *wrap(words, LETTERS)]


def _tall_pt(bar: SolidsBar) -> float:
    return LINE_PT * len(_lines(bar)) + BAR_PT + GAP_PT


def _panel(axes: Axes, unit: str, bars: Sequence[SolidsBar], tall_pt: float) -> None:
    longest = max(max(bar.value + bar.reach, bar.limit) for bar in bars)
    axes.set_xlim(0, ROOM * longest)
    axes.set_ylim(tall_pt, 0)
    axes.set_yticks([])
    axes.spines["left"].set_visible(False)
    axes.set_title(TITLES[unit], pad=TITLE_PAD_PT)
    top = 0.0
    for bar in bars:
        _bar(axes, top, bar)
        top += _tall_pt(bar)


def _bar(axes: Axes, top_pt: float, bar: SolidsBar) -> None:
    """Draw one bar under its words; the axes count points down from their top."""
    color, hatch, ink = LOOKS.get(bar.says, UNREAD)
    lines = _lines(bar)
    for row, words in enumerate(lines):
        y = top_pt + LINE_PT * row
        axes.text(0.0, y, words, fontsize=TEXT_PT, color=ink, va="top")
    top = top_pt + LINE_PT * len(lines) + 3
    block(
        axes,
        (0.0, top),
        (max(bar.value, 0.0), BAR_PT),
        facecolor=color,
        edgecolor=BLACK,
        hatch=hatch,
        linewidth=0.6,
    )
    middle = top + BAR_PT / 2
    ends = [bar.value - bar.reach, bar.value + bar.reach]
    stroke(axes, ends, [middle, middle], color=BLACK, linewidth=1.2)
    mark = [top - 2.5, top + BAR_PT + 2.5]
    stroke(axes, [bar.limit, bar.limit], mark, color=BLACK, linewidth=2.6)


def describe(bars: Sequence[SolidsBar]) -> str:
    """Say in words what the figure shows, with its numbers."""
    return " ".join(
        f"{bar.label}: {_said(bar, bar.value)} (give or take {_said(bar, bar.reach)}; "
        f"{_asks(bar)}): {bar.says}."
        for bar in bars
    )


def _asks(bar: SolidsBar) -> str:
    """Say on which side of its limit a source asks for pumping."""
    return f"pump {'over' if bar.pump_over else 'under'} {_said(bar, bar.limit)}"


def _said(bar: SolidsBar, value: float) -> str:
    """Say a number of a bar, with a decimal where it is small or near the limit."""
    near = written(bar.value, 0) == written(bar.limit, 0)
    places = 1 if near or abs(value) < WHOLE_FROM else 0
    return f"{written(value, places)} {bar.unit}"
