"""Small builders of what the figures draw, and eyes for what they show."""

from __future__ import annotations

from typing import Any

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Annotation, Text
from matplotlib.transforms import Bbox
from uncertainties import ufloat

from generator.figures import style
from generator.quantity import Length
from generator.record.parts import Tank
from generator.record.pipes import LogEntry, PipeRun
from generator.results.inflow import Running, volume_by_gal
from generator.results.load_test import Balance, balance, recovery
from generator.results.load_test import Test as WorkedTest
from generator.results.tank import Inside


def inches(number: float | None) -> Length | None:
    return None if number is None else Length(number, f"{number} in")


def make_test(
    readings: list[tuple[float, float]],
    stretches: list[tuple[float, float]],
    flow: float = 4.0,
) -> WorkedTest:
    """Work out a test in a box of 22.4 gal/in; minutes count from the first water."""
    inside = Inside("box", ufloat(48, 0.3), ufloat(96, 0.3), ufloat(54, 0.3))
    runs = [Running(600 + a, 600 + b, ufloat(flow, flow * 0.02)) for a, b in stretches]
    start = ufloat(readings[0][1], 0.07)
    rows = []
    for minute, read in readings:
        level = ufloat(read, 0.07)
        run_in = volume_by_gal(runs, 600 + minute)
        made_up, stored, passed = balance(
            inside, start_in=start, level_in=level, run_in_gal=run_in
        )
        blocked = inside.level_after_in(start, run_in)
        rows.append(Balance(minute, level, run_in, made_up, stored, passed, blocked))
    stop = runs[-1].stop_min - 600
    return WorkedTest(
        running=tuple(runs),
        rows=tuple(rows),
        first_min=600.0,
        start_in=start,
        stop_minute=stop,
        recovery=recovery(rows, stop),
    )


def make_tank(**changes: Any) -> Tank:
    known: dict[str, Any] = {
        "name": "tank",
        "shape": "box",
        "length": 96.0,
        "width": 54.0,
        "liquid_depth": 48.0,
        "inside_height": 58.0,
        "inlet_above_outlet": 3.0,
        "outlet_device": "baffle",
        "outlet_device_depth": 18.0,
        "outlet_device_state": "sound",
        "inlet_device_state": "sound",
        "sludge": 11.0,
        "scum": 2.0,
        **changes,
    }
    return Tank(
        **{key: inches(v) if isinstance(v, float) else v for key, v in known.items()}
    )


def entry(feet: float, see: str = "clear", **more: Any) -> LogEntry:
    """Make a sight; ``to`` is in feet, ``water`` in inches."""
    if "to" in more:
        more["to"] = Length(more["to"] * 12, "")
    if "water" in more:
        more["water"] = inches(more["water"])
    return LogEntry(distance=Length(feet * 12, ""), see=see, **more)


def make_run(*log: LogEntry, feet: float | None = None, **more: Any) -> PipeRun:
    length = None if feet is None else Length(feet * 12, "")
    more = {"name": "outlet pipe", "material": "PVC", "bore": Length(4, "4 in"), **more}
    return PipeRun(log=log, length=length, **more)


def words(figure: Figure) -> list[str]:
    """List all words that a figure shows."""
    return [text.get_text() for text, _ in shown_text(figure)]


def shown_text(figure: Figure) -> list[tuple[Text, Bbox]]:
    """List every visible text with its box in pixels."""
    with style.look():
        canvas = FigureCanvasAgg(figure)
        canvas.draw()
        renderer = canvas.get_renderer()
        axes = figure.axes
        hidden = {
            label
            for one in axes
            if not one.axison
            for label in (*one.get_xticklabels(), *one.get_yticklabels())
        }
        for one in axes:
            for axis in (one.xaxis, one.yaxis):
                low, high = sorted(axis.get_view_interval())
                slack = 1e-9 * (high - low)
                for tick in axis.get_major_ticks():
                    if not low - slack <= tick.get_loc() <= high + slack:
                        hidden.add(tick.label1)
        found = []
        for text in figure.findobj(Text):
            if text in hidden or not text.get_visible() or not text.get_text().strip():
                continue
            if isinstance(text, Annotation):
                text.update_positions(renderer)
            box = Text.get_window_extent(text, renderer)
            found.append((text, box))
        return found


def artist(figure: Figure, name: str, axes: int = 0) -> Any:
    """Find the one artist of a name."""
    return next(
        one for one in figure.axes[axes].get_children() if one.get_label() == name
    )


def has(figure: Figure, name: str) -> bool:
    return any(
        one.get_label() == name for axes in figure.axes for one in axes.get_children()
    )
