"""Levels that a tank has seen: those of the load test, and an old mark on its wall."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    BLUE,
    GREEN,
    LETTER_PT,
    VERMILION,
    stroke,
)
from generator.figures.tank_contents import LEVEL_DECIMALS
from generator.figures.tank_outline import ROW_PT, WALL_IN, Inside
from generator.quantity import Length
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.load_test import Test
from generator.results.measured import LEVEL_IN
from generator.results.result import nominal
from generator.results.rounding import written

LEAST = 1e-9  # steps are compared a hair wider than they are, for their rounding
SWATCH_PT, TICK_PT = 24.0, 9.0  # the drawing alone; our choice
DOTTED, DASHED, DASH_DOT = (0, (1, 1.4)), (0, (5, 2)), (0, (6, 1.5, 1, 1.5))
MARK = "old high mark"


@dataclass(frozen=True)
class Levels:
    """Levels of a load test against the outlet, in order, the start first. [in]

    Two that differ by no more than ``step_in`` are told as one.
    """

    read_in: tuple[float, ...]
    step_in: float = LEVEL_IN.fixed

    @property
    def start(self) -> float:
        """Level before any water ran in. [in]"""
        return self.read_in[0]

    @property
    def highest(self) -> float:
        """Highest level, that of the start included. [in]"""
        return max(self.read_in)

    @property
    def last(self) -> float:
        """Level at the last reading. [in]"""
        return self.read_in[-1]

    def alike(self, one: float, other: float) -> bool:
        """Tell whether two levels lie within a step of each other. [in]"""
        return abs(one - other) <= self.step_in + LEAST


@dataclass(frozen=True)
class Line:
    """One level to be drawn, its line and its words. [in]"""

    name: str
    at: float
    words: str
    color: str
    style: tuple[float, Sequence[float]] | str
    width: float = 1.6


def levels_of(test: Test, read_to: Length | None) -> Levels:
    """Take from a worked-out test its levels, from the start of the water on. [in]"""
    before = [row for row in test.rows if row.minute <= 0]
    rows = test.rows[max(len(before) - 1, 0) :]
    step = read_to.inches if read_to else LEVEL_IN.fixed
    return Levels(tuple(nominal(row.level_in) for row in rows), step)


def against_outlet(level_in: float) -> str:
    """Say on which side of the outlet a level lies, and how far. [in]

    Examples
    --------
    >>> against_outlet(-6.0), against_outlet(0.02), against_outlet(5.375)
    ('6 in below the outlet', 'at the outlet', '5.4 in above the outlet')
    """
    far = written(abs(level_in), LEVEL_DECIMALS)
    if far == "0":
        return "at the outlet"
    return f"{far} in {'above' if level_in > 0 else 'below'} the outlet"


def lines_of(levels: Levels | None) -> list[Line]:
    """List the levels to be drawn: start, highest and last, where they differ."""
    if levels is None:
        return []
    start, high, last = levels.start, levels.highest, levels.last
    if len(levels.read_in) == 1:
        return [_start("start", start)]
    if levels.alike(start, high) and levels.alike(high, last):
        return [_start("all through the test", start)]
    if levels.alike(high, last):
        return [_start("start", start), _highest("highest and last", high)]
    if levels.alike(start, high):
        return [_highest("start and highest", high), _last(last)]
    if levels.alike(start, last):
        return [_start("start and last", start), _highest("highest in the test", high)]
    return [_start("start", start), _highest("highest in the test", high), _last(last)]


def mark_of(tank: Tank) -> Line | None:
    """Give the old high mark on the wall of a tank that has an outlet."""
    if tank.high_mark is None or tank.kind == HOLDING_TANK:
        return None
    at = tank.high_mark.inches
    words = f"{MARK} {written(at, LEVEL_DECIMALS)} in{_over_inlet(tank)}"
    return Line("high mark", at, words, BLACK, "-", 3.0)


def draw_lines(axes: Axes, lines: Sequence[Line], inside: Inside) -> None:
    """Draw the levels of the test from wall to wall."""
    for line in lines:
        _stroke(axes, line, (0, inside.length), line.at, f"{line.name} level")


def draw_mark(axes: Axes, mark: Line | None, scale: float) -> None:
    """Draw the old high mark as a tick on the inside of the inlet's wall."""
    if mark:
        _stroke(axes, mark, (0, TICK_PT / scale), mark.at, mark.name)


def draw_key(
    axes: Axes, labels: Labels, lines: Sequence[Line], inside: Inside, scale: float
) -> None:
    """Say over the tank what each line is, the first on top."""
    longest = max((len(line.words) for line in lines), default=0)
    wide = (SWATCH_PT + longest * LETTER_PT) / scale
    left, right = axes.get_xlim()
    x = max(left, min(-WALL_IN, right - wide))
    for row, line in enumerate(reversed(lines)):
        y = inside.top + WALL_IN + (row + 0.8) * ROW_PT / scale
        long = (TICK_PT if line.name == "high mark" else SWATCH_PT) / scale
        end = x + SWATCH_PT / scale
        _stroke(axes, line, (end - long, end), y, "key")
        labels.put(axes, line.words, [Spot(end, y, "left", "center", (5, 0))])


def levels_said(levels: Levels | None) -> str:
    """Say where the level began, stood highest and ended; nothing without a test."""
    if levels is None:
        return ""
    start = against_outlet(levels.start)
    if len(levels.read_in) == 1:
        return f" At the start of the load test the level stood {start}."
    if len(lines_of(levels)) == 1:
        return f" All through the load test the level stood {start}."
    return (
        f" In the load test the level began {start}, stood highest "
        f"{against_outlet(levels.highest)} and was last read "
        f"{against_outlet(levels.last)}."
    )


def mark_said(tank: Tank) -> str:
    """Say where an old high mark stands; nothing where there is none."""
    mark = mark_of(tank)
    if mark is None:
        return ""
    return f" An {MARK} stands {against_outlet(mark.at)}{_over_inlet(tank)}."


def _start(words: str, at: float) -> Line:
    return Line("start", at, f"{words}: {against_outlet(at)}", BLUE, DOTTED, 2.2)


def _highest(words: str, at: float) -> Line:
    return Line("highest", at, f"{words}: {against_outlet(at)}", VERMILION, DASHED)


def _last(at: float) -> Line:
    return Line("last", at, f"last: {against_outlet(at)}", GREEN, DASH_DOT)


def _over_inlet(tank: Tank) -> str:
    inlet = tank.inlet_above_outlet
    over = inlet and tank.high_mark and tank.high_mark.inches > inlet.inches
    return ", above the inlet" if over else ""


def _stroke(
    axes: Axes, line: Line, across: tuple[float, float], at: float, name: str
) -> None:
    stroke(
        axes,
        across,
        (at, at),
        color=line.color,
        linewidth=line.width,
        linestyle=line.style,
        dash_capstyle="butt",
        solid_capstyle="butt",
        label=name,
        zorder=5,
        clip_on=False,
    )
