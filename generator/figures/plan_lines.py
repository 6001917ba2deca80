"""Ties, pipes, points and judged distances on the site plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from math import nan

from matplotlib.axes import Axes
from matplotlib.patches import Ellipse

from generator.figures.labels import Labels, Spot
from generator.figures.plan_ground import View, between
from generator.figures.plan_names import put_near, spots_around, word_color
from generator.figures.style import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    ORANGE,
    VERMILION,
    dots,
    stroke,
)
from generator.results.asked import CONFIRM, NO_FIGURE
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.plan_gaps import XY, Gap
from generator.results.site_plan import Pipe, Point, SitePlan, TieLine

RING_FROM_FT = 1.0  # a place surer than this needs no ring; our choice
RING_PT = 3.5  # least half width of a ring, so that it reads as one; our choice
DOT_PT = 2.0
RUNG_PT, RUNGS_PT = 2.6, 7.0  # half a tick of a short distance, and between two
TICK_PT = 3.5  # half the bar at either end of a distance
ACROSS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
# How far a name may stand off; from the second on a thin line leads to it.
POINT_PT = (5.0, 13.0, 22.0, 32.0, 44.0)
GAP_PT = (4.0, 14.0, 24.0, 36.0, 50.0)
# The verdict in a word or two; the page gives it in full.
IN_A_WORD = {
    SHORT: "short",
    CLOSE: "too close to call",
    CONFIRM: "confirm",
    NO_FIGURE: "no local figure",
    MEETS: "meets",
}
STROKES: dict[str, tuple[str, float, str | tuple[float, tuple[float, ...]]]] = {
    SHORT: (VERMILION, 2.4, "-"),
    CLOSE: (ORANGE, 2.0, (0, (6, 2))),
    CONFIRM: (GREY, 1.6, (0, (6, 2, 1.5, 2))),
    NO_FIGURE: (GREY, 1.6, (0, (1.5, 2))),
    MEETS: (GREEN, 1.2, "-"),
}


def draw_pipe(axes: Axes, labels: Labels, pipe: Pipe) -> None:
    """Draw a pipe along its points."""
    xs, ys = zip(*pipe.line, strict=True)
    stroke(axes, xs, ys, color=BLACK, linewidth=3.0, zorder=4.5, label=pipe.name)
    stroke(axes, xs, ys, color="white", linewidth=1.4, zorder=4.6)
    labels.keep_off(axes, xs, ys)


def name_pipe(axes: Axes, labels: Labels, pipe: Pipe, view: View) -> bool:
    """Name a pipe beside it."""
    if len(pipe.line) < 2:
        return True
    spots = partial(spots_around, pipe.line, view)
    return put_near(axes, labels, pipe.name, spots, GAP_PT, BLACK)


def keep_off_ties(axes: Axes, labels: Labels, plan: SitePlan) -> None:
    """Keep the lengths of ties off any tie but their own."""
    for tie in plan.ties:
        labels.keep_off(axes, *zip(tie.start, tie.end, strict=True))


def draw_tie(axes: Axes, tie: TieLine) -> None:
    """Draw a tie as a thin dashed line."""
    xs, ys = zip(tie.start, tie.end, strict=True)
    stroke(
        axes,
        xs,
        ys,
        color=GREY,
        linewidth=0.7,
        linestyle=(0, (4, 3)),
        zorder=2.5,
        label="tie",
    )


def name_tie(axes: Axes, labels: Labels, tie: TieLine) -> bool:
    """Write the length on a tie, where nothing else stands; False without room."""
    for side, shift, own in (("center", 0, 1), ("right", -2, 0), ("left", 2, 0)):
        places = [between(tie.start, tie.end, share) for share in ACROSS]
        spots = [Spot(*at, side, "center", (shift, 0)) for at in places]
        if labels.put_if_clear(axes, tie.words, spots, GREY, most_lines=own):
            return True
    return False


def rings_shown(plan: SitePlan) -> list[Point]:
    """List the points that are sure to no better than a foot."""
    return [one for one in plan.points if _has_ring(one)]


def _has_ring(point: Point) -> bool:
    return point.ring is not None and point.ring.long_ft > RING_FROM_FT


def draw_point(axes: Axes, labels: Labels, point: Point, view: View) -> None:
    """Draw a point, with a ring where it is not sure to a foot."""
    mark, size = ("s", 2.2 * DOT_PT) if point.fixed else ("o", 1.6 * DOT_PT)
    dots(
        axes,
        [point.at[0]],
        [point.at[1]],
        mark,
        color=BLACK,
        markersize=size,
        zorder=6,
        label=point.name,
    )
    labels.keep_clear(axes, *point.at, DOT_PT)
    if point.ring and _has_ring(point):
        axes.add_artist(
            Ellipse(
                point.at,
                2 * point.ring.long_ft,
                2 * max(point.ring.short_ft, RING_PT / view.pt_per_ft),
                angle=point.ring.turn_deg,
                facecolor="none",
                edgecolor=BLUE,
                linestyle=(0, (1, 1.5)),
                linewidth=1.2,
                zorder=5.5,
                label=f"{point.name} may lie here",
            )
        )


def name_point(axes: Axes, labels: Labels, point: Point, view: View) -> bool:
    """Write the name of a point beside it."""
    if not view.holds(point.at):
        return True
    spots = partial(spots_around, [point.at], view)
    return put_near(axes, labels, point.name, spots, POINT_PT, BLACK)


def draw_gap(axes: Axes, labels: Labels, gap: Gap, view: View) -> None:
    """Draw a judged distance from edge to edge, with a bar at either end."""
    color, width, dashes = STROKES[gap.verdict]
    name = f"{gap.part} to {gap.feature}"
    xs, ys = zip(gap.start, gap.end, strict=True)
    line = complex(xs[1] - xs[0], ys[1] - ys[0])
    if not line:
        dots(axes, xs[:1], ys[:1], "X", color=color, markersize=8, zorder=7, label=name)
        return
    stroke(
        axes,
        xs,
        ys,
        color=color,
        linewidth=width,
        linestyle=dashes,
        zorder=6,
        label=name,
    )
    _bars(axes, gap, [0.0, 1.0], TICK_PT / view.pt_per_ft, 1.6)
    if gap.verdict == SHORT:
        rungs = int(abs(line) * view.pt_per_ft / RUNGS_PT)
        shares = [rung / rungs for rung in range(1, rungs)]
        _bars(axes, gap, shares, RUNG_PT / view.pt_per_ft, 1.1)
    labels.keep_off(axes, xs, ys)


def _bars(
    axes: Axes, gap: Gap, shares: Sequence[float], half_ft: float, width: float
) -> None:
    """Draw bars across a distance, at shares of its way, in one line with gaps."""
    line = complex(gap.end[0] - gap.start[0], gap.end[1] - gap.start[1])
    out = 1j * line / abs(line) * half_ft
    xs, ys = [], []
    for x, y in (between(gap.start, gap.end, share) for share in shares):
        xs += [x - out.real, x + out.real, nan]
        ys += [y - out.imag, y + out.imag, nan]
    color = STROKES[gap.verdict][0]
    stroke(axes, xs, ys, color=color, linewidth=width, zorder=6, label="bars")


def said_of(gap: Gap) -> str:
    """Say a distance with its verdict in a word."""
    return f"{gap.words}, {IN_A_WORD[gap.verdict]}"


def name_gap(
    axes: Axes, labels: Labels, gap: Gap, view: View, number: int
) -> str | None:
    """Write distance and verdict on the line, or its number and give a note."""
    color = word_color(STROKES[gap.verdict][0])
    words = said_of(gap)
    line = [gap.start] if gap.start == gap.end else [gap.start, gap.end]
    spots = partial(_beside, line, view)
    for one in (words, words.replace(", ", ",\n", 1)):
        if put_near(axes, labels, one, spots, GAP_PT, color, most_lines=0):
            return None
    note = f"{gap.part} to {gap.feature}: {words}"
    placed = put_near(axes, labels, str(number), spots, GAP_PT, color)
    return f"{number}. {note}" if placed else note


def _beside(line: Sequence[XY], view: View, reach_pt: float) -> Iterator[Spot]:
    """List places square off a line, then all around its middle."""
    yield from spots_around(line, view, reach_pt)
    middle = tuple(sum(one) / len(line) for one in zip(*line, strict=True))
    yield from spots_around([(middle[0], middle[1])], view, reach_pt)
