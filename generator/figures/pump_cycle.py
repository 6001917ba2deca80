"""One run of the pump: the levels that switch it, and how the liquid falls."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from generator.figures.labels import Labels, Spot
from generator.figures.style import (
    BLACK,
    BLUE,
    GREEN,
    PALE_GREY,
    PALE_WATER,
    VERMILION,
    block,
    look,
    new_figure,
    said_fully,
    stroke,
)
from generator.quantity import Length
from generator.record.parts import PumpChamber
from generator.results.result import Number, Results, nominal
from generator.results.rounding import said

CAPTION = (
    "The heights that switch the pump, and how the liquid fell while it ran. Dashed "
    "from pump on to pump off: one dose, where it does not take too long to draw."
)
# Our choice, for the drawing alone.
HEIGHT_IN = 4.3
LEFT, RIGHT, LOW, HIGH = 0.125, 0.975, 0.14, 0.91
ROOM = 0.12  # of the span of the heights, above and below
LONGEST_RUN = 4.0  # times the measured run, beyond which a dose is told and not drawn
ONLY_LEVELS_MIN = 10.0  # width where nothing was timed
LEVELS = {
    "pump_off": ("pump off", BLUE, "-"),
    "pump_on": ("pump on", BLUE, "-"),
    "alarm_on": ("alarm on", VERMILION, (0, (5, 2))),
    "inlet": ("inlet invert", BLACK, (0, (1, 1.5))),
}


@dataclass(frozen=True)
class Cycle:
    """What is known of one run of a pump. [in, min]"""

    heights: dict[str, Length]
    from_top: bool
    drawdown: tuple[Length, Length, float] | None
    rate: Number | None
    inflow_gpm: float
    dose: Number | None
    reserve: Number | None
    reserve_hours: Number | None

    @property
    def dose_min(self) -> float | None:
        """Minutes in which the level falls by one dose, at what came in then. [min]"""
        if self.rate is None or self.dose is None:
            return None
        net_gpm = nominal(self.rate) - self.inflow_gpm
        return nominal(self.dose) / net_gpm if net_gpm > 0 else None

    @property
    def drawn_dose_min(self) -> float | None:
        """The same, where it is not so long that the measured run would vanish."""
        if self.dose_min is None or self.drawdown is None:
            return None
        return (
            self.dose_min if self.dose_min <= LONGEST_RUN * self.drawdown[2] else None
        )


def cycle_of(chamber: PumpChamber, results: Results) -> Cycle | None:
    """Gather what is drawn; None where no height and no drawdown was read."""
    heights = {
        key: found for key in LEVELS if (found := getattr(chamber, key)) is not None
    }
    down = chamber.drawdown
    timed = down is not None and down.time.minutes > 0
    drawdown = (down.from_, down.to, down.time.minutes) if down and timed else None
    if not heights and drawdown is None:
        return None

    def number(name: str) -> Number | None:
        found = results.get(name)
        return found.number if found else None

    return Cycle(
        heights,
        chamber.read_from == "top",
        drawdown,
        number("pump.rate"),
        down.inflow.gpm if down and down.inflow else 0.0,
        number("pump.dose"),
        number("pump.reserve"),
        number("pump.reserve_hours"),
    )


def draw(cycle: Cycle) -> Figure:
    """Draw heights as lines, volumes as bands, and the level while the pump ran.

    Parameters
    ----------
    cycle : Cycle
        What is known, from ``cycle_of``. [in, min]

    Returns
    -------
    Figure
        Height against minutes; upside down where readings count from the top.
    """
    with look():
        figure = new_figure(HEIGHT_IN)
        axes = figure.add_axes((LEFT, LOW, RIGHT - LEFT, HIGH - LOW))
        _frame(axes, cycle)
        labels = Labels(figure)
        _lines(axes, cycle, labels)
        _run(axes, cycle, labels)
        _name_heights(axes, cycle, labels)
        _bands(axes, cycle, labels)
        _name_run(axes, cycle, labels)
    return figure


def _frame(axes: Axes, cycle: Cycle) -> None:
    read = [one.inches for one in cycle.heights.values()]
    if cycle.drawdown:
        read += [cycle.drawdown[0].inches, cycle.drawdown[1].inches]
    room = ROOM * max(max(read) - min(read), 1.0)
    low, high = min(read) - room, max(read) + room
    axes.set_ylim(*((high, low) if cycle.from_top else (low, high)))
    where = "down from the top" if cycle.from_top else "above the floor"
    axes.set_title(f"Level {where}, inches")
    ends = [cycle.drawdown[2]] if cycle.drawdown else []
    ends += [cycle.drawn_dose_min] if cycle.drawn_dose_min else []
    axes.set_xlim(0, 1.05 * max(ends, default=ONLY_LEVELS_MIN))
    if ends:
        axes.set_xlabel("minutes since the pump was turned on")
        axes.xaxis.set_major_locator(MaxNLocator(6, integer=True))
    else:
        axes.set_xticks([])
        axes.spines["bottom"].set_visible(False)


def _bands(axes: Axes, cycle: Cycle, labels: Labels) -> None:
    for low, high, words, color, hatch in _volumes(cycle):
        bottom = min(cycle.heights[low].inches, cycle.heights[high].inches)
        top = max(cycle.heights[low].inches, cycle.heights[high].inches)
        right = axes.get_xlim()[1]
        block(
            axes, (0, bottom), (right, top - bottom),
            facecolor=color, edgecolor="#B5B5B5", hatch=hatch, linewidth=0,
        )  # fmt: skip
        middle = (bottom + top) / 2
        spots = [
            Spot(right * share, height, "right", "center", (0, 0))
            for share in (0.98, 0.75, 0.6)
            for height in (middle, (middle + top) / 2, (middle + bottom) / 2)
        ]
        labels.put(axes, words, spots)


def _volumes(cycle: Cycle) -> Iterator[tuple[str, str, str, str, str]]:
    if cycle.dose is not None and {"pump_off", "pump_on"} <= cycle.heights.keys():
        words = f"dose {said(cycle.dose, 'gal')}"
        yield "pump_off", "pump_on", words, PALE_WATER, ""
    if cycle.reserve is not None and {"alarm_on", "inlet"} <= cycle.heights.keys():
        words = f"room above the alarm {said(cycle.reserve, 'gal')}"
        yield "alarm_on", "inlet", words, PALE_GREY, "//"


def _lines(axes: Axes, cycle: Cycle, labels: Labels) -> None:
    right = axes.get_xlim()[1]
    for key, length in cycle.heights.items():
        _, color, dashes = LEVELS[key]
        level = (length.inches, length.inches)
        stroke(axes, (0, right), level, color=color, linestyle=dashes, zorder=3)
        labels.keep_off(axes, (0, right), level)


def _run(axes: Axes, cycle: Cycle, labels: Labels) -> None:
    on, off = (cycle.heights.get(key) for key in ("pump_on", "pump_off"))
    if cycle.drawn_dose_min and on and off:
        times, levels = (0, cycle.drawn_dose_min), (on.inches, off.inches)
        stroke(axes, times, levels, color=GREEN, linestyle=(0, (5, 2)), zorder=5)
        labels.keep_off(axes, times, levels)
    if cycle.drawdown is not None:
        start, end, ran = cycle.drawdown
        levels = (start.inches, end.inches)
        stroke(axes, (0, ran), levels, color=BLACK, marker="o", markersize=5, zorder=6)
        labels.keep_off(axes, (0, ran), levels)
        for x, y in zip((0, ran), levels, strict=True):
            labels.keep_clear(axes, x, y, 4.0)


def _name_heights(axes: Axes, cycle: Cycle, labels: Labels) -> None:
    right = axes.get_xlim()[1]
    for key, length in cycle.heights.items():
        words, color, _ = LEVELS[key]
        spots = [
            Spot(share * right, length.inches, "left", up, (0, shift))
            for share in (0.02, 0.3, 0.6)
            for up, shift in (("bottom", 2.0), ("top", -2.0))
        ]
        labels.put(axes, f"{words} {length.typed}", spots, color)


def _name_run(axes: Axes, cycle: Cycle, labels: Labels) -> None:
    if cycle.drawdown is None:
        return
    start, end, ran = cycle.drawdown
    words = f"read: {start.typed} to {end.typed}"
    right = axes.get_xlim()[1]
    spots = []
    for share in (0.98, 0.85, 0.7, 0.6):
        x = min(share * right, ran)
        level = start.inches + (end.inches - start.inches) * x / ran
        spots += [
            Spot(share * right, level, "right", up, (0, shift))
            for up, shift in (("bottom", 7.0), ("top", -7.0), ("bottom", 20.0))
        ]
    labels.put(axes, words, spots)


def describe(cycle: Cycle) -> str:
    """Tell in words and figures what the drawing shows."""
    where = "down from the top" if cycle.from_top else "above the floor"
    told = [
        f"{LEVELS[key][0]} at {length.typed}" for key, length in cycle.heights.items()
    ]
    said_of = [f"Heights {where}: {', '.join(told)}."] if told else []
    if cycle.drawdown:
        start, end, ran = cycle.drawdown
        said_of.append(
            f"While the pump ran for {ran:g} minutes the level went from {start.typed} "
            f"to {end.typed}."
        )
    if cycle.rate is not None:
        said_of.append(f"The pump moved {said_fully(cycle.rate, 'gpm')}.")
    if cycle.dose is not None:
        took = (
            f", in {cycle.dose_min:.0f} minutes as it fell then"
            if cycle.dose_min
            else ""
        )
        said_of.append(f"One dose is {said_fully(cycle.dose, 'gal')}{took}.")
    if cycle.reserve is not None:
        hours = cycle.reserve_hours
        lasts = f", room for {said(hours, 'h')} of use" if hours is not None else ""
        amount = said_fully(cycle.reserve, "gal")
        said_of.append(f"From the alarm up to the inlet {amount} fit{lasts}.")
    return " ".join(said_of)
