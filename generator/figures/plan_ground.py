"""The sheet of the site plan: how much ground it shows, its frame, scale and north."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import floor, log10
from textwrap import wrap

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Polygon

from generator.figures.bare_axes import bare_axes
from generator.figures.style import (
    BLACK,
    GREY,
    LETTER_PT,
    WIDTH_IN,
    block,
    new_figure,
    stroke,
)
from generator.results.plan_gaps import XY
from generator.results.rounding import written
from generator.results.site_plan import FEATURE, SitePlan, Thing

# Our choice: the sheet, in points.
EDGE_PT, ACROSS_PT, UP_PT = 5.0, 30.0, 24.0
LEAST_TALL_PT, MOST_TALL_PT = 190.0, 400.0
STRIP_PT, ROW_PT = 34.0, 13.5
MOST_PT_PER_FT = 12.0
LONGEST_BAR_PT = 96.0
ROUND_LENGTHS = (5, 2, 1)
BARE_FT = 10.0  # of ground around a plan of one point
RUN_ON = 0.35  # share of the ground beyond which a line runs on out of the frame
FAR_OFF = 1.5  # share of the ground beyond which a place is far off and left out
SAMPLES = 60  # along a feature, to find where it comes nearest
WIDE_PT = WIDTH_IN * 72 - 2 * EDGE_PT
NO_NORTH = "north not recorded"


@dataclass(frozen=True)
class View:
    """The ground that is shown, and how large. [ft], [pt/ft]"""

    low: XY
    high: XY
    pt_per_ft: float

    def holds(self, at: XY) -> bool:
        """Tell whether a point lies in the frame."""
        return all(
            low <= one <= high
            for low, one, high in zip(self.low, at, self.high, strict=True)
        )

    def shown(self, line: Sequence[XY]) -> Sequence[XY]:
        """Give a line as it stands; of one that runs out, its longest leg inside."""
        if all(map(self.holds, line)):
            return line
        legs = [cut for leg in pairwise(line) if (cut := self._cut(*leg))]
        return max(legs, key=lambda leg: _long_ft(*leg), default=())

    def _cut(self, start: XY, end: XY) -> tuple[XY, XY] | None:
        """Cut a leg off at the frame."""
        first, last = 0.0, 1.0
        for low, a, b, high in zip(self.low, start, end, self.high, strict=True):
            if a == b and not low <= a <= high:
                return None
            if a != b:
                near, far = sorted(((low - a) / (b - a), (high - a) / (b - a)))
                first, last = max(first, near), min(last, far)
        if first >= last:
            return None
        return between(start, end, first), between(start, end, last)

    @property
    def tall_pt(self) -> float:
        """Height of the frame. [pt]"""
        return (self.high[1] - self.low[1]) * self.pt_per_ft


def _long_ft(start: XY, end: XY) -> float:
    return abs(complex(end[0] - start[0], end[1] - start[1]))


def between(start: XY, end: XY, share: float) -> XY:
    """Give the point at a share of the way from one to the other. [ft]"""
    return (
        start[0] + share * (end[0] - start[0]),
        start[1] + share * (end[1] - start[1]),
    )


def view_of(plan: SitePlan) -> View:
    """Choose the ground to show: everything, but for long lines that run on."""
    low, high = _ground(plan)
    size = [max(b - a, 0.0) for a, b in zip(low, high, strict=True)]
    if max(size) == 0:
        size = [BARE_FT, BARE_FT]
    scale = min(
        (WIDE_PT - 2 * ACROSS_PT) / size[0] if size[0] else MOST_PT_PER_FT,
        (MOST_TALL_PT - 2 * UP_PT) / size[1] if size[1] else MOST_PT_PER_FT,
        MOST_PT_PER_FT,
    )
    tall = max(LEAST_TALL_PT, size[1] * scale + 2 * UP_PT)
    half = (WIDE_PT / scale / 2, tall / scale / 2)
    middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    return View(
        (middle[0] - half[0], middle[1] - half[1]),
        (middle[0] + half[0], middle[1] + half[1]),
        scale,
    )


def _ground(plan: SitePlan) -> tuple[XY, XY]:
    """Find the corners of the ground that must show. [ft]"""
    must = [*plan.house]
    must += [one.at for one in plan.points if one.fixed]
    must += [xy for pipe in plan.pipes for xy in pipe.line]
    must += [xy for gap in plan.gaps for xy in (gap.start, gap.end)]
    for thing in plan.things:
        if thing.role != FEATURE or len(thing.line) == 1:
            must += [*thing.line, *(xy for ring in thing.borders for xy in ring)]
    middle = middle_of(must)
    must += [_nearest(thing, middle) for thing in plan.things]
    low, high = corners(must)
    near, far = (_around(low, high, share) for share in (RUN_ON, FAR_OFF))
    lines = [xy for thing in plan.things for xy in thing.line]
    alone = [one.at for one in plan.points if one.at not in lines]
    must += filter(near.holds, lines)
    return corners([*must, *filter(far.holds, alone)])


def _around(low: XY, high: XY, share: float) -> View:
    """Widen the ground by a share of its size on every side. [ft]"""
    room = share * max(b - a for a, b in zip(low, high, strict=True))
    return View((low[0] - room, low[1] - room), (high[0] + room, high[1] + room), 1.0)


def corners(found: Sequence[XY]) -> tuple[XY, XY]:
    """Find the lower left and the upper right of some points. [ft]"""
    xs, ys = [x for x, _ in found], [y for _, y in found]
    return (min(xs), min(ys)), (max(xs), max(ys))


def middle_of(found: Sequence[XY]) -> XY:
    """Give the middle between the corners of some points. [ft]"""
    low, high = corners(found)
    return (low[0] + high[0]) / 2, (low[1] + high[1]) / 2


def _nearest(thing: Thing, to: XY) -> XY:
    outline = thing.borders[0] if thing.borders else thing.line
    places = along(outline, SAMPLES)
    return min(places, key=lambda xy: (xy[0] - to[0]) ** 2 + (xy[1] - to[1]) ** 2)


def along(line: Sequence[XY], count: int) -> list[XY]:
    """List points at equal steps along a line, both its ends included. [ft]"""
    legs = [(a, b, _long_ft(a, b)) for a, b in pairwise(line)]
    whole = sum(long for *_, long in legs)
    if not whole:
        return [line[0]]
    found = []
    for step in range(count + 1):
        left = whole * step / count
        for a, b, long in legs:
            if left <= long and long:
                found.append(between(a, b, left / long))
                break
            left -= long
        else:
            found.append(line[-1])
    return found


def new_sheet(view: View) -> tuple[Figure, Axes]:
    """Make the framed ground, at equal scale both ways."""
    figure = new_figure((view.tall_pt + 2 * EDGE_PT) / 72)
    axes = bare_axes(figure, (0, 0, 1, 1), framed=True)
    _place(figure, axes, view, 0.0)
    axes.set_xlim(view.low[0], view.high[0])
    axes.set_ylim(view.low[1], view.high[1])
    return figure, axes


def _place(figure: Figure, axes: Axes, view: View, below_pt: float) -> None:
    tall = view.tall_pt + 2 * EDGE_PT + below_pt
    figure.set_size_inches(WIDTH_IN, tall / 72)
    wide = WIDE_PT + 2 * EDGE_PT
    low = (EDGE_PT + below_pt) / tall
    axes.set_position((EDGE_PT / wide, low, WIDE_PT / wide, view.tall_pt / tall))


def finish(
    figure: Figure, axes: Axes, view: View, notes: Iterable[str], *, north_up: bool
) -> None:
    """Add scale, north and notes below the frame; what lies in it stays in place."""
    letters = int(WIDE_PT / LETTER_PT)
    rows = [
        row
        for note in notes
        for row in wrap(note, letters, subsequent_indent="   ", break_on_hyphens=False)
    ]
    below = STRIP_PT + ROW_PT * len(rows)
    _place(figure, axes, view, below)
    strip = bare_axes(figure, (0, 0, 1, below / (72 * figure.get_figheight())))
    strip.set(xlim=(0, WIDE_PT + 2 * EDGE_PT), ylim=(0, below))
    top = below - STRIP_PT
    _scale_bar(strip, view.pt_per_ft, top)
    _north(strip, top, north_up=north_up)
    for at, row in enumerate(rows):
        strip.text(EDGE_PT, top - ROW_PT * at, row, va="top")


def bar_ft(pt_per_ft: float) -> float:
    """Choose a round length for the scale bar. [ft]"""
    most = LONGEST_BAR_PT / pt_per_ft
    ten: float = 10.0 ** floor(log10(most))
    return next(one * ten for one in ROUND_LENGTHS if one * ten <= most)


def _scale_bar(strip: Axes, pt_per_ft: float, top: float) -> None:
    long = bar_ft(pt_per_ft)
    half, y = long * pt_per_ft / 2, top + 12
    for at, color in ((0, BLACK), (1, "white")):
        block(
            strip,
            (EDGE_PT + at * half, y),
            (half, 5),
            facecolor=color,
            edgecolor=BLACK,
            linewidth=0.8,
            label="scale bar",
        )
    words = f"{written(long, 1)} ft"
    strip.text(EDGE_PT + 2 * half + 6, y + 2.5, words, va="center")


def _north(strip: Axes, top: float, *, north_up: bool) -> None:
    right = EDGE_PT + WIDE_PT
    if not north_up:
        strip.text(right, top + 14.5, NO_NORTH, ha="right", va="center", color=GREY)
        return
    x, low, high = right - 8, top + 4, top + 29
    stroke(strip, (x, x), (low, high), color=BLACK, linewidth=1.2, label="north")
    head = [(x, high), (x - 5.5, high - 12), (x, high - 8)]
    strip.add_artist(Polygon(head, facecolor=BLACK, edgecolor=BLACK, linewidth=0.8))
    strip.text(x - 10, low + 8, "N", ha="right", va="center", weight="bold")
