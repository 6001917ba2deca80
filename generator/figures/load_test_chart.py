"""The load test against time: the level above, the gallons below."""

from __future__ import annotations

from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator
from numpy import interp

from generator.figures.labels import Labels, Spot
from generator.figures.load_test_words import describe, level_said, recovery_said
from generator.figures.style import (
    BLACK,
    BLUE,
    GREEN,
    LEFT,
    PALE_WATER,
    RIGHT,
    SKY,
    VERMILION,
    look,
    new_figure,
)
from generator.record.water import Limits
from generator.results.inflow import volume_by_gal
from generator.results.load_test import Test
from generator.results.result import Number, nominal, standard
from generator.results.rounding import said

__all__ = ["describe", "draw"]

HEIGHT_IN = 5.7
READ: dict[str, Any] = {"markersize": 4, "capsize": 3, "elinewidth": 1, "zorder": 5}
DASHED: dict[str, Any] = {"linestyle": (0, (5, 2)), "zorder": 4}
TICK_STEPS = [1, 2, 3, 5, 10]
HEAD_ROOM, FOOT_ROOM = 0.24, 0.2  # share of the height kept for labels; our choice
LIFTS_PT = (9, 15, 22, 30, 40)  # of a label above or below its point; our choice
CLOSE_PT = 12  # a label that stands farther off has a line to its point; our choice
DOT_PT = 3.0  # around a reading; our choice
GAP_PX = 3.0  # of a label from others and from lines; our choice


def draw(test: Test, limits: Limits | None) -> Figure:
    """Draw a load test.

    Parameters
    ----------
    test : Test
        The worked test. [min], [in], [gal]
    limits : Limits or None
        What the test may show; its line is left out where nobody named one. [in]

    Returns
    -------
    Figure
        Two axes over the same minutes: level above the outlet invert, and gallons.
    """
    with look():
        figure = new_figure(HEIGHT_IN)
        grid = figure.add_gridspec(
            2,
            1,
            height_ratios=(3, 2),
            hspace=0.3,
            left=LEFT,
            right=RIGHT,
            top=0.945,
            bottom=0.095,
        )
        level = figure.add_subplot(grid[0])
        volume = figure.add_subplot(grid[1], sharex=level)
        _frame(level, volume, test, limits)
        labels = Labels(figure, gap_px=GAP_PX)
        for axes in (level, volume):
            _shade(axes, test)
        _name_shade(level, test, labels)
        _levels(level, test, limits, labels)
        _volumes(volume, test, labels)
        return figure


def _minutes(test: Test) -> list[float]:
    """List every minute at which the inflow changes or a level was read. [min]"""
    read = [row.minute for row in test.rows]
    starts = [run.start_min - test.first_min for run in test.inflows]
    stops = [run.stop_min - test.first_min for run in test.inflows]
    return sorted({*read, *starts, *stops})


def _blocked(test: Test) -> tuple[list[float], list[float]]:
    """Find the level of a blocked outlet at every turn up to the last reading. [in]"""
    known = {0.0: nominal(test.start_in)}
    for row in test.rows:
        known[nominal(row.run_in_gal)] = nominal(row.blocked_level_in)
    minutes = [at for at in _minutes(test) if at <= test.last.minute]
    gallons = [
        nominal(volume_by_gal(test.inflows, test.first_min + m)) for m in minutes
    ]
    volumes = sorted(known)
    levels = interp(gallons, volumes, [known[volume] for volume in volumes])
    return minutes, [float(level) for level in levels]


def _frame(level: Axes, volume: Axes, test: Test, limits: Limits | None) -> None:
    minutes = _minutes(test)
    wide = max(minutes[-1] - minutes[0], 1.0)
    level.set_xlim(minutes[0] - 0.03 * wide, minutes[-1] + 0.03 * wide)
    shown = [0.0, *_blocked(test)[1], *([limits.rise.inches] if limits else [])]
    for row in test.rows:
        doubt = 2 * standard(row.level_in)
        shown += [nominal(row.level_in) - doubt, nominal(row.level_in) + doubt]
    low, high = min(shown), max(*shown, 0.5)
    tall = (high - low) / (1 - HEAD_ROOM - FOOT_ROOM)
    level.set_ylim(low - FOOT_ROOM * tall, high + HEAD_ROOM * tall)
    level.set_title("Level above the outlet invert, inches")
    volume.set_title("Water since the start, gallons")
    volume.set_xlabel("minutes since the water was turned on")
    level.yaxis.set_major_locator(MaxNLocator(6))
    volume.yaxis.set_major_locator(MaxNLocator(5))
    volume.xaxis.set_major_locator(MaxNLocator(7, integer=True, steps=TICK_STEPS))
    for axes in (level, volume):
        axes.grid(axis="y", color="#D9D9D9", linewidth=0.5)
        axes.set_axisbelow(True)


def _shade(axes: Axes, test: Test) -> None:
    for run in test.running:
        axes.axvspan(
            run.start_min - test.first_min,
            run.stop_min - test.first_min,
            facecolor=PALE_WATER,
            edgecolor=SKY,
            linewidth=0.6,
            zorder=0,
        )


def _name_shade(axes: Axes, test: Test, labels: Labels) -> None:
    """Name where the water was turned on for the first time, and off for the last."""
    top = axes.get_ylim()[1]
    on = test.running[0].start_min - test.first_min
    off = test.running[-1].stop_min - test.first_min
    for at, words, sides in (
        (on, "water on", ("left", "right")),
        (off, "water off", ("left", "right")),
    ):
        spots = [
            Spot(at, top, side, "top", (3 if side == "left" else -3, -2 - 14 * row))
            for row in (0, 1)
            for side in sides
        ]
        labels.put(axes, words, spots)


def _levels(axes: Axes, test: Test, limits: Limits | None, labels: Labels) -> None:
    ends = axes.get_xlim()
    minutes = [row.minute for row in test.rows]
    levels = [nominal(row.level_in) for row in test.rows]
    doubts = [2 * standard(row.level_in) for row in test.rows]
    axes.axhline(0, color=BLACK, linewidth=2.2, zorder=2)
    labels.keep_off(axes, ends, (0, 0))
    axes.errorbar(minutes, levels, doubts, fmt="o-", color=BLUE, **READ)
    labels.keep_off(axes, minutes, levels)
    for minute, level, doubt in zip(minutes, levels, doubts, strict=True):
        labels.keep_off(axes, (minute, minute), (level - doubt, level + doubt))
        labels.keep_clear(axes, minute, level, DOT_PT)
    if limits:
        rise = limits.rise.inches
        axes.axhline(
            rise, color=BLACK, linestyle=":", linewidth=1, label="allowed rise"
        )
        labels.keep_off(axes, ends, (rise, rise))
    if nominal(test.last.run_in_gal) > 0:
        blocked = _blocked(test)
        axes.plot(*blocked, color=VERMILION, label="blocked outlet", **DASHED)
        labels.keep_off(axes, *blocked)
        end = (blocked[0][-1], blocked[1][-1])
        spots = [*_around(*end), *_around(ends[0], max(blocked[1]))]
        labels.put(axes, "if the outlet were blocked", spots, VERMILION)
    _name_readings(axes, test, labels)
    if limits:
        spots = [*_around(ends[1], rise), *_around(ends[0], rise)]
        labels.put(axes, f"allowed rise {said(rise, 'in')}", spots)
    left, right = _around(ends[0], 0)[::-1], _around(ends[1], 0)[::-1]
    labels.put(axes, "outlet invert", [left[0], right[0], left[1], right[1]])


def _name_readings(axes: Axes, test: Test, labels: Labels) -> None:
    peak, recovery = test.peak, test.recovery
    highest = f"highest read {level_said(peak.level_in)}"
    _point_out(axes, labels, highest, (peak.minute, nominal(peak.level_in)))
    at, level = test.last.minute, nominal(test.last.level_in)
    if recovery.back_min is not None and not recovery.extrapolated:
        at, level = test.stop_minute + nominal(recovery.back_min), 0.0
    words = recovery_said(test)
    if words:
        _point_out(axes, labels, words, (at, level))


def _point_out(
    axes: Axes, labels: Labels, words: str, point: tuple[float, float]
) -> None:
    """Name a point of the readings, with a thin line where the name stands off."""
    sides = [("left", 4), ("right", -4), ("center", 0)]
    if point[0] > sum(axes.get_xlim()) / 2:
        sides[:2] = sides[1::-1]
    spots = [
        Spot(*point, side, up, (dx, sign * lift))
        for lift in LIFTS_PT
        for up, sign in (("bottom", 1), ("top", -1))
        for side, dx in sides
    ]
    label = labels.put(axes, words, spots, BLUE)
    dx, dy = label.get_position()
    if abs(float(dy)) > CLOSE_PT:
        labels.lead(axes, Spot(*point, shift=(float(dx), float(dy))))


def _around(x: float, y: float) -> list[Spot]:
    """Give the places above and below a level line, at one end of it."""
    side, dx = ("right", -3.0) if x > 0 else ("left", 3.0)
    return [Spot(x, y, side, "bottom", (dx, 5)), Spot(x, y, side, "top", (dx, -5))]


def _volumes(axes: Axes, test: Test, labels: Labels) -> None:
    minutes = _minutes(test)
    run_in = [volume_by_gal(test.inflows, test.first_min + m) for m in minutes]
    read = [row.minute for row in test.rows]
    passed = [row.passed_gal for row in test.rows]
    _banded(axes, minutes, run_in, BLUE, "-", "run in")
    axes.plot(read, [nominal(one) for one in passed], "s", color=GREEN, markersize=4)
    if read[0] < 0 < read[-1]:  # nothing can pass before there is water
        at = sum(minute < 0 for minute in read)
        read, passed = [*read[:at], 0.0, *read[at:]], [*passed[:at], 0.0, *passed[at:]]
    _banded(axes, read, passed, GREEN, (0, (5, 2)), "passed on")
    low, high = axes.get_ylim()
    bottom, top = min(low, 0.0), max(high, 1.0)
    axes.set_ylim(bottom, top + 0.25 * (top - bottom))
    for xs, numbers in ((minutes, run_in), (read, passed)):
        _keep_off_band(axes, labels, xs, numbers)
    words = f"run in {said(run_in[-1], 'gal')}"
    labels.put(axes, words, _off_band(minutes[-1], run_in[-1]), BLUE)
    words = f"passed on {said(passed[-1], 'gal')}"
    labels.put(axes, words, _off_band(read[-1], passed[-1])[::-1], GREEN)


def _keep_off_band(
    axes: Axes, labels: Labels, xs: list[float], numbers: list[Number]
) -> None:
    for times in (-2, 0, 2):
        edge = [nominal(one) + times * standard(one) for one in numbers]
        labels.keep_off(axes, xs, edge)


def _off_band(x: float, number: Number) -> list[Spot]:
    """Give the places off the band at one minute: nearest above first, below last."""
    doubt = 2 * standard(number)
    over, under = nominal(number) + doubt, nominal(number) - doubt
    above = [
        Spot(x, over, side, "bottom", (dx, dy))
        for dy in (5, 12, 22, 34)
        for side, dx in (("right", -3.0), ("left", 3.0))
    ]
    below = [
        Spot(x, under, side, "top", (dx, -dy))
        for dy in (34, 22, 12, 5)
        for side, dx in (("left", 3.0), ("right", -3.0))
    ]
    return [*above, *below]


def _banded(
    axes: Axes,
    minutes: list[float],
    numbers: list[Number],
    color: str,
    dashes: object,
    name: str,
) -> None:
    middle = [nominal(one) for one in numbers]
    doubt = [2 * standard(one) for one in numbers]
    axes.fill_between(
        minutes,
        [m - d for m, d in zip(middle, doubt, strict=True)],
        [m + d for m, d in zip(middle, doubt, strict=True)],
        color=color,
        alpha=0.22,
        linewidth=0,
        label=f"{name}, give or take",
    )
    axes.plot(minutes, middle, color=color, linestyle=dashes, label=name)
