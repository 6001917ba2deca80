"""The load test against time: the level above, the gallons below."""

from __future__ import annotations

from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator
from numpy import interp

from generator.figures.labels import Labels, Spot
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
    said_fully,
)
from generator.record.water import Limits
from generator.results.inflow import volume_by_gal
from generator.results.load_test import Test
from generator.results.result import Number, nominal, standard
from generator.results.rounding import said

HEIGHT_IN = 5.4
READ: dict[str, Any] = {"markersize": 4, "capsize": 3, "elinewidth": 1, "zorder": 5}
DASHED: dict[str, Any] = {"linestyle": (0, (5, 2)), "zorder": 4}
TICK_STEPS = [1, 2, 3, 5, 10]
HEAD_ROOM, FOOT_ROOM = 0.24, 0.13  # share of the height kept for labels; our choice
LIFTS = (("bottom", 9), ("bottom", 20), ("bottom", 28), ("top", -9), ("top", -20))
NARROW = 0.16  # share of the width below which a stretch is too narrow to label


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
        labels = Labels(figure)
        for axes in (level, volume):
            _shade(axes, test)
        _name_shade(level, test, labels)
        _levels(level, test, limits, labels)
        _volumes(volume, test, labels)
        return figure


def describe(test: Test, limits: Limits | None) -> str:
    """Say in words what the figure shows, with its numbers."""
    peak, last = test.peak, test.last
    first = test.rows[0]
    parts = [
        f"{said_fully(last.run_in_gal, 'gal')} of water ran in over "
        f"{said(sum(run.stop_min - run.start_min for run in test.running), 'min')}; "
        f"{said_fully(last.passed_gal, 'gal')} had passed on by the last reading.",
        f"The level began {_against(first.level_in)}, stood highest "
        f"{_against(peak.level_in)} at {said(peak.minute, 'min')}, and was last read "
        f"{_against(last.level_in)} at {said(last.minute, 'min')}.",
    ]
    if nominal(last.run_in_gal) > 0:
        blocked = f"A blocked outlet would have shown {_against(last.blocked_level_in)}"
        allowed = (
            f"; the allowed rise is {said(limits.rise.inches, 'in')}."
            if limits
            else "."
        )
        parts.append(blocked + allowed)
    elif limits:
        parts.append(f"The allowed rise is {said(limits.rise.inches, 'in')}.")
    return " ".join(parts)


def _against(level_in: Number) -> str:
    value = nominal(level_in)
    if said(level_in, "") == "0":
        return "at the outlet invert"
    side = "above" if value > 0 else "below"
    return (
        f"{said(level_in if value > 0 else -level_in, 'in')} {side} the outlet invert"
    )


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
    left, right = axes.get_xlim()
    widest = max(test.running, key=lambda run: run.stop_min - run.start_min)
    middle = (widest.start_min + widest.stop_min) / 2 - test.first_min
    top = axes.get_ylim()[1]
    narrow = widest.stop_min - widest.start_min < NARROW * (right - left)
    words = "water on" if not narrow else "water on (shaded)"
    spots = [
        Spot(middle, top, "center", "top", (0, -2)),
        Spot(left, top, "left", "top", (3, -2)),
        Spot(right, top, "right", "top", (-3, -2)),
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
    named: list[tuple[str, list[Spot], str]] = []
    if nominal(test.last.run_in_gal) > 0:
        blocked = _blocked(test)
        axes.plot(*blocked, color=VERMILION, label="blocked outlet", **DASHED)
        labels.keep_off(axes, *blocked)
        spots = [*_around(ends[1], blocked[1][-1]), *_around(ends[0], max(blocked[1]))]
        named.append(("if the outlet were blocked", spots, VERMILION))
    if limits:
        rise = limits.rise.inches
        axes.axhline(
            rise, color=BLACK, linestyle=":", linewidth=1, label="allowed rise"
        )
        labels.keep_off(axes, ends, (rise, rise))
        spots = [*_around(ends[1], rise), *_around(ends[0], rise)]
        named.append((f"allowed rise {said(rise, 'in')}", spots, BLACK))
    under, over = _around(ends[1], 0)[::-1], _around(ends[0], 0)[::-1]
    named.append(("outlet invert", [under[0], over[0], under[1], over[1]], BLACK))
    for words, spots, colour in named:
        labels.put(axes, words, spots, colour)
    _name_readings(axes, test, labels)


def _name_readings(axes: Axes, test: Test, labels: Labels) -> None:
    peak = test.peak
    at, level = peak.minute, nominal(peak.level_in)
    spots = [
        Spot(at, level, side, up, (dx, dy))
        for up, dy in LIFTS
        for side, dx in (("left", 4), ("right", -4), ("center", 0))
    ]
    labels.put(axes, f"highest read {said(peak.level_in, 'in')}", spots, BLUE)


def _around(x: float, y: float) -> list[Spot]:
    """Give the places above and below a level line, at one end of it."""
    side, dx = ("right", -3.0) if x > 0 else ("left", 3.0)
    return [Spot(x, y, side, "bottom", (dx, 3)), Spot(x, y, side, "top", (dx, -4))]


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
    axes.set_ylim(bottom, top + 0.2 * (top - bottom))
    for xs, numbers in ((minutes, run_in), (read, passed)):
        labels.keep_off(axes, xs, [nominal(one) for one in numbers])
    right = axes.get_xlim()[1]
    total, through = nominal(run_in[-1]), nominal(passed[-1])
    words = f"run in {said(run_in[-1], 'gal')}"
    labels.put(axes, words, [*_around(right, total), *_around(-1, total)], BLUE)
    under = [Spot(right, through, "right", "top", (-3, -dy)) for dy in (4, 12, 22, 34)]
    under += [*_around(right, through), *_around(-1, through)]
    labels.put(axes, f"passed on {said(passed[-1], 'gal')}", under, GREEN)


def _banded(
    axes: Axes,
    minutes: list[float],
    numbers: list[Number],
    colour: str,
    dashes: object,
    name: str,
) -> None:
    middle = [nominal(one) for one in numbers]
    doubt = [2 * standard(one) for one in numbers]
    axes.fill_between(
        minutes,
        [m - d for m, d in zip(middle, doubt, strict=True)],
        [m + d for m, d in zip(middle, doubt, strict=True)],
        color=colour,
        alpha=0.22,
        linewidth=0,
        label=f"{name}, give or take",
    )
    axes.plot(minutes, middle, color=colour, linestyle=dashes, label=name)
