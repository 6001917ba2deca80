"""A pipe run laid out along its length, with what the camera saw."""

from __future__ import annotations

from textwrap import shorten

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator
from numpy import arange

from generator.figures.labels import Labels, Spot
from generator.figures.pipe_marks import (
    FIRST_ROW_PT,
    ROW_PT,
    ROWS,
    draw_marks,
    name_marks,
    perforated_from_ft,
)
from generator.figures.pipe_words import (
    MISSING,
    describe,
    end_ft,
    flows_on,
    lengths,
    seen_ft,
    water_said,
)
from generator.figures.style import (
    BLACK,
    BLUE,
    GREY,
    INK,
    LEFT,
    PALE_GREY,
    RIGHT,
    SKY,
    VERMILION,
    WIDTH_IN,
    block,
    dots,
    look,
    new_figure,
    share_of_width,
    stroke,
)
from generator.record.pipes import PipeRun
from generator.results.result import Number, nominal, standard
from generator.results.rounding import said

__all__ = ["describe", "draw"]

# Our choice: the sheet. The pipe is drawn as tall at any bore.
PIPE_PT, BELOW_PT, HEAD_PT = 96.0, 42.0, 24.0
NARROW = 0.22  # share of the width that "not seen" takes up
ACROSS = (0.02, 0.1, 0.18, 0.26, 0.34, 0.42, 0.5, 0.58)
LIFTS_PT = (5, 16, 28)  # of the expected depth's name off its line; our choice
GAP_PX = 2.0  # of a label from others and from lines; our choice
HEADING = "Height in the pipe, inches (drawn stretched)"
FLOW = "flow →"
LONGEST_START = 26  # letters of the name of the start under the scale; our choice
MOST_HOLES, HOLE_STEP_SHARE = 60, 0.018


def draw(run: PipeRun, expected_depth_in: Number | None) -> Figure:
    """Draw a pipe run.

    Parameters
    ----------
    run : PipeRun
        The run and the camera's log along it. [ft], [in]
    expected_depth_in : float or None
        Depth of the test water in sound pipe; left out where it is not known. [in]

    Returns
    -------
    Figure
        Distance along the run across, height in the pipe stretched upward.
    """
    with look():
        figure, axes = _sheet(run)
        labels = Labels(figure, gap_px=GAP_PX)
        _pipe(axes, run)
        _water(axes, run)
        _expected(axes, run, expected_depth_in)
        draw_marks(axes, labels, run)
        rows_pt = name_marks(axes, labels, run, _more_to_name(run))
        _name_inside(axes, labels, run, expected_depth_in)
        _materials(axes, labels, run)
        _trim(figure, axes, rows_pt, FLOW if flows_on(run) else "")
        return figure


def _sheet(run: PipeRun) -> tuple[Figure, Axes]:
    figure = new_figure(1.0)
    axes = figure.add_axes((LEFT, 0.1, RIGHT - LEFT, 0.5))
    _trim(figure, axes, FIRST_ROW_PT + ROW_PT * ROWS)
    bore, end = run.bore.inches, end_ft(run)
    axes.set_xlim(-0.01 * end, 1.01 * end)
    axes.set_ylim(-0.45 * bore, 1.1 * bore)
    axes.set_xlabel(_scale_name(run))
    axes.spines["left"].set_bounds(0, bore)
    axes.xaxis.set_major_locator(MaxNLocator(7))
    axes.set_yticks([0, bore / 2, bore], [said(y, "") for y in (0, bore / 2, bore)])
    return figure, axes


def _scale_name(run: PipeRun) -> str:
    """Name the scale, and where it begins, where that was recorded."""
    if not run.from_:
        return "feet along the run"
    start = shorten(run.from_, LONGEST_START, placeholder="…")
    return f"feet along the run; 0 ft = {start}"


def _trim(figure: Figure, axes: Axes, rows_pt: float, corner: str = "") -> None:
    """Cut the sheet to the rows of labels; what hangs on the axes stays in place."""
    tall = BELOW_PT + PIPE_PT + rows_pt + HEAD_PT
    figure.set_size_inches(WIDTH_IN, tall / 72)
    axes.set_position((LEFT, BELOW_PT / tall, RIGHT - LEFT, PIPE_PT / tall))
    for text in figure.texts:
        text.remove()
    figure.text(0.012, 1 - 6 / tall, HEADING, va="top")
    figure.text(RIGHT, 1 - 6 / tall, corner, va="top", ha="right", color=INK[BLUE])


def _narrow(run: PipeRun) -> bool:
    """Tell whether the part not seen is too short to hold its name."""
    return end_ft(run) - seen_ft(run) < NARROW * end_ft(run)


def _more_to_name(run: PipeRun) -> list[tuple[float, str]]:
    """Name in the rows what is no sight of its own. [ft]"""
    seen, end, holes = seen_ft(run), end_ft(run), perforated_from_ft(run)
    more = [] if holes is None else [(holes, f"perforations from {said(holes, 'ft')}")]
    if end > seen and _narrow(run):
        more.append(((seen + end) / 2, "not seen"))
    more += [
        (at, f"{material} from {said(at, 'ft')}")
        for at, to, material in lengths(run)
        if not _holds(run, at, to, material)
    ]
    return more


def _pipe(axes: Axes, run: PipeRun) -> None:
    bore, seen, end = run.bore.inches, seen_ft(run), end_ft(run)
    if end > seen:
        block(
            axes,
            (seen, 0),
            (end - seen, bore),
            facecolor=PALE_GREY,
            edgecolor=GREY,
            hatch="///",
            linewidth=0,
            label="not seen",
            zorder=1,
        )
    for y, name in ((0.0, "invert"), (bore, "crown")):
        stroke(axes, (0, end), (y, y), color=BLACK, linewidth=2, zorder=5, label=name)
    holes = perforated_from_ft(run)
    if holes is not None:
        step = max(HOLE_STEP_SHARE * end, end / MOST_HOLES)
        until = min(max(seen, holes + step), end)
        at = arange(holes, until + step / 2, step).tolist()
        dots(
            axes,
            at,
            [-0.09 * bore] * len(at),
            "o",
            color=BLACK,
            markersize=2.2,
            label="perforations",
            clip_on=False,
        )


def _profile(run: PipeRun) -> tuple[list[float], list[float]]:
    """List the water's depth along the run, a stretch held to its end. [ft], [in]"""
    feet, inches = [], []
    for entry in run.log:
        if entry.water is None:
            continue
        for at in (entry.distance, entry.to):
            if at is not None:
                feet.append(at.feet)
                inches.append(entry.water.inches)
    return feet, inches


def _water(axes: Axes, run: PipeRun) -> None:
    feet, inches = _profile(run)
    if not feet:
        return
    axes.fill_between(
        feet, inches, color=SKY, alpha=0.75, linewidth=0, zorder=2, label="water seen"
    )
    stroke(
        axes,
        feet,
        inches,
        color=BLUE,
        linewidth=1.6,
        zorder=3,
        label="water seen",
        marker="o" if len(feet) == 1 else None,
        markersize=5,
    )


def _expected(axes: Axes, run: PipeRun, depth_in: Number | None) -> None:
    if depth_in is None:
        return
    depth, doubt = min(nominal(depth_in), run.bore.inches), 2 * standard(depth_in)
    ends = (0.0, end_ft(run))
    axes.fill_between(
        ends,
        max(depth - doubt, 0.0),
        min(depth + doubt, run.bore.inches),
        color=VERMILION,
        alpha=0.2,
        linewidth=0,
        zorder=3,
        label="expected, give or take",
    )
    stroke(
        axes,
        ends,
        (depth, depth),
        color=VERMILION,
        linestyle=(0, (5, 2)),
        zorder=4,
        label="expected depth",
    )


def _name_inside(
    axes: Axes, labels: Labels, run: PipeRun, expected_depth_in: Number | None
) -> None:
    """Name the water, the expected depth and the part not seen, inside the pipe."""
    bore, seen, end = run.bore.inches, seen_ft(run), end_ft(run)
    feet, inches = _profile(run)
    labels.keep_off(axes, feet, inches)
    for y in (0.0, bore):
        labels.keep_off(axes, (0, end), (y, y))
    labels.keep_off(axes, (seen, seen), (0, bore))
    if end > seen and not _narrow(run):
        middle = Spot((seen + end) / 2, 0.55 * bore, "center", "center", (0, 0))
        labels.put(axes, "not seen", [middle])
    if expected_depth_in is not None:
        depth = min(nominal(expected_depth_in), bore)
        labels.keep_off(axes, (0, end), (depth, depth))
        words = f"expected {said(expected_depth_in, 'in')} (dashed)"
        near = [
            Spot(share * end, depth, "left", up, (3, sign * lift))
            for lift in LIFTS_PT
            for up, sign in (("bottom", 1), ("top", -1))
            for share in ACROSS
        ]
        labels.put(axes, words, near, VERMILION)
    if feet:
        words = water_said(run)
        room = seen / end - share_of_width(words)
        shares = [share for share in ACROSS if share <= room] or ACROSS
        spots = [
            Spot(share * end, height * bore, "left", "center", (3, 0))
            for height in (0.5, 0.62, 0.35, 0.74)
            for share in shares
        ]
        labels.put(axes, words, spots, BLUE)


def _holds(run: PipeRun, at: float, end: float, material: str) -> bool:
    return (end - at) / end_ft(run) > share_of_width(material)


def _materials(axes: Axes, labels: Labels, run: PipeRun) -> None:
    """Name each material under the pipe, where its length can hold its name."""
    for at, end, material in lengths(run):
        if at > 0:
            ends = (-0.45 * run.bore.inches, 0)
            stroke(axes, (at, at), ends, color=BLACK, label="material changes")
        if _holds(run, at, end, material):
            middle = Spot((at + end) / 2, 0, "center", "top", (0, -11))
            labels.put(axes, material, [middle], GREY if material == MISSING else BLACK)
