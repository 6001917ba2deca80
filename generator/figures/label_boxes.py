"""How large words are, and what a box of pixels touches, reckoned in plain numbers."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import inf

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.text import Text

from generator.figures.style import LOOK, TEXT_PT

Box = tuple[float, float, float, float]  # left, low, right, high [px]
Pixel = tuple[float, float]
# Which share of words lies before their anchor.
SHARE = {"left": 0.0, "center": 0.5, "right": 1.0, "bottom": 0.0, "top": 1.0}
KEPT = 8192  # words whose size is kept; our choice


@dataclass(frozen=True)
class Line:
    """A line through some points, with the box around it. [px]"""

    points: tuple[Pixel, ...]
    around: Box

    @classmethod
    def through(cls, points: Sequence[Pixel]) -> Line:
        """Make a line of its points."""
        xs, ys = zip(*points, strict=True)
        return cls(tuple(points), (min(xs), min(ys), max(xs), max(ys)))

    def meets(self, box: Box) -> bool:
        """Tell whether any piece of the line passes through a box."""
        left, low, right, high = box
        (x, y), around = self.points[0], self.around
        if around[0] > right or around[2] < left or around[1] > high or around[3] < low:
            return False
        if left <= x <= right and low <= y <= high:
            return True
        wide, tall, across, up = right - left, high - low, left + right, low + high
        for (x1, y1), (x2, y2) in pairwise(self.points):
            dx, dy = abs(x1 - x2), abs(y1 - y2)
            if (
                abs(x1 + x2 - across) < dx + wide
                and abs(y1 + y2 - up) < dy + tall
                and abs((2 * x1 - across) * (y1 - y2) - (2 * y1 - up) * (x1 - x2))
                < wide * dy + tall * dx
            ):
                return True
        return False


@dataclass(frozen=True)
class Ground:
    """How the data of some axes lie on the sheet, their frame with it. [px]"""

    scale: Pixel
    shift: Pixel
    frame: Box
    per_pt: float

    @classmethod
    def of(cls, axes: Axes, dpi: float) -> Ground:
        """Read it off axes whose scales are straight, as they stand now."""
        (wide, _, right), (_, tall, up), _ = axes.transData.get_matrix().tolist()
        return cls((wide, tall), (right, up), box_of(axes), dpi / 72)

    def pixel(self, x: float, y: float) -> Pixel:
        """Give the pixel of a point of the data."""
        (wide, tall), (right, up) = self.scale, self.shift
        return float(x * wide + right), float(y * tall + up)


def box_of(shown: Axes | Figure) -> Box:
    """Give the box of axes or of a whole sheet. [px]"""
    left, low, right, high = map(float, shown.bbox.extents)
    return left, low, right, high


def padded(box: Box, by: float) -> Box:
    """Widen a box on all sides. [px]"""
    left, low, right, high = box
    return left - by, low - by, right + by, high + by


def overlaps(box: Box, others: Iterable[Box]) -> bool:
    """Tell whether a box touches any of the others."""
    left, low, right, high = box
    for one in others:
        if one[0] <= right and one[2] >= left and one[1] <= high and one[3] >= low:
            return True
    return False


def met(box: Box, lines: Iterable[Line], most: float = inf) -> int:
    """Count the lines that pass through a box, until there are more than asked for."""
    left, low, right, high = box
    found = 0
    for line in lines:
        start, floor, end, top = line.around
        if start > right or end < left or floor > high or top < low:
            continue
        found += line.meets(box)
        if found > most:
            break
    return found


def cuts(line: Line, boxes: Iterable[Box]) -> bool:
    """Tell whether a line passes through a box other than those it starts in."""
    left, low, right, high = line.around
    x, y = line.points[0]
    for box in boxes:
        start, floor, end, top = box
        if start > right or end < left or floor > high or top < low:
            continue
        if not (start <= x <= end and floor <= y <= top) and line.meets(box):
            return True
    return False


def set_at(at: Pixel, size: Pixel, across: str, up: str) -> Box:
    """Give the box of words of a size, set to the sides of a pixel."""
    back, down = SHARE[across] * size[0], SHARE[up] * size[1]
    return (
        at[0] - back,
        at[1] - down,
        at[0] + (size[0] - back),
        at[1] + (size[1] - down),
    )


@lru_cache(KEPT)
def size_px(words: str, dpi: float) -> Pixel:
    """Measure words in the size of every label. [px]"""
    text = _ruler(dpi)
    text.set_text(words)
    box = text.get_window_extent()
    return float(box.width), float(box.height)


@lru_cache(1)
def _ruler(dpi: float) -> Text:
    """Make a text of no figure that is shown, to measure words with."""
    figure = Figure(dpi=dpi)
    FigureCanvasAgg(figure)
    look = {"family": LOOK["font.family"], "size": TEXT_PT}
    font = FontProperties(**look)  # type: ignore[arg-type]  # the stubs are narrower
    return figure.text(0, 0, "", fontproperties=font, parse_math=False)
