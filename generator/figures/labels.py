"""Direct labels that keep clear of one another, of lines and of the edge."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import inf

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.text import Annotation

from generator.figures.label_boxes import (
    Box,
    Ground,
    Line,
    Pixel,
    box_of,
    cuts,
    met,
    overlaps,
    padded,
    set_at,
    size_px,
)
from generator.figures.style import BLACK, GREY, INK

# How bad each fault of a place is; our choice. A label over a label is the worst.
ON_LABEL, CUT_OFF, ON_LINE = 100.0, 100.0, 1.0
EDGE_PX, CLEAR_PX = 2.0, 3.0  # kept from the frame and other labels; our choice
PAPER = {"facecolor": "white", "edgecolor": "none", "alpha": 0.85, "pad": 1.0}


@dataclass(frozen=True)
class Spot:
    """A place for a label: a point of the data, sides, and a shift in points."""

    x: float
    y: float
    across: str = "left"
    up: str = "bottom"
    shift: tuple[float, float] = (0.0, 3.0)


@dataclass
class Labels:
    """The labels of one figure and what they must keep clear of.

    A label is made where it stays; until then its words are but a size.
    """

    figure: Figure
    boxes: list[Box] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    gap_px: float = 0.0  # kept from labels and lines where there is a choice

    def keep_off(self, axes: Axes, xs: Sequence[float], ys: Sequence[float]) -> None:
        """Keep labels off a line, where there is a choice."""
        pixel = self._ground(axes).pixel
        points = [pixel(x, y) for x, y in zip(xs, ys, strict=True)]
        if len(points) > 1:
            self.lines.append(Line.through(points))

    def keep_clear(self, axes: Axes, x: float, y: float, around_pt: float) -> None:
        """Keep labels off a symbol. [pt]"""
        ground = self._ground(axes)
        centre = ground.pixel(x, y)
        self.boxes.append(padded((*centre, *centre), around_pt * ground.per_pt))

    def crosses(self, axes: Axes, x: float, y: float, rise_pt: float) -> bool:
        """Tell whether an upright line from a point would cut through a label."""
        ground = self._ground(axes)
        at, low = ground.pixel(x, y)
        high = low + rise_pt * ground.per_pt
        return any(
            box[0] - 1 <= at <= box[2] + 1 and box[1] < high and box[3] > low
            for box in self.boxes
        )

    def put(
        self, axes: Axes, words: str, spots: Sequence[Spot], color: str = BLACK
    ) -> Annotation:
        """Write words at the first of the spots that is clear, or the clearest."""
        ground, size = self._ground(axes), self._size(words)
        least: tuple[float, int] = (inf, 0)
        for number, spot in enumerate(spots):
            faults = self._faults(_box_at(ground, spot, size), axes, ground)
            least = min(least, (faults, number))
            if not faults:
                break
        spot = spots[least[1]]
        self.boxes.append(_box_at(ground, spot, size))
        return _write(axes, words, spot, color)

    def put_if_clear(
        self,
        axes: Axes,
        words: str,
        spots: Iterable[Spot],
        color: str = BLACK,
        most_lines: float = inf,
        led: bool = False,
    ) -> Spot | None:
        """Write words where they are clear of labels and frame, or not at all.

        Of the clear spots the first that covers no line is taken, else the one that
        covers the fewest, if no more than ``most_lines``. With ``led`` the line that
        leads to the words must cut through no label either.
        """
        ground, size = self._ground(axes), self._size(words)
        best: tuple[float, Spot, Box] | None = None
        for spot in spots:
            box = _box_at(ground, spot, size)
            if not self._clear(box, ground) or (
                led and cuts(Line.through(_way(ground, spot)), self.boxes)
            ):
                continue
            fewest = most_lines if best is None else best[0] - 1
            lines = met(padded(box, self.gap_px), self.lines, fewest)
            if lines <= fewest:
                best = (lines, spot, box)
            if not lines:
                break
        if best is None:
            return None
        _, spot, box = best
        self.boxes.append(box)
        _write(axes, words, spot, color)
        return spot

    def lead(self, axes: Axes, spot: Spot) -> None:
        """Draw a thin line from a thing to its label, and keep later labels off it."""
        axes.annotate(
            "",
            (spot.x, spot.y),
            spot.shift,
            textcoords="offset points",
            zorder=7,
            annotation_clip=False,
            arrowprops={
                "arrowstyle": "-",
                "color": GREY,
                "linewidth": 0.7,
                "shrinkA": 0,
                "shrinkB": 0,
            },
        )
        ground = self._ground(axes)
        self.lines.append(Line.through(_way(ground, spot)))

    def _ground(self, axes: Axes) -> Ground:
        return Ground.of(axes, self.figure.dpi)

    def _size(self, words: str) -> Pixel:
        return size_px(words, self.figure.dpi)

    def _clear(self, box: Box, ground: Ground) -> bool:
        """Tell whether a box lies inside the frame and on no label."""
        left, low, right, high = padded(ground.frame, -EDGE_PX)
        inside = box[0] > left and box[2] < right and box[1] > low and box[3] < high
        return inside and not overlaps(padded(box, CLEAR_PX), self.boxes)

    def _faults(self, box: Box, axes: Axes, ground: Ground) -> float:
        page, frame = box_of(self.figure), ground.frame
        out = box[0] < 0 or box[1] < 0 or box[2] > page[2] or box[3] > page[3]
        beside = box[0] < frame[0] and box[1] < frame[3]
        scales = axes.axison and (beside or box[1] < frame[1])
        wide = padded(box, self.gap_px)
        on_labels = sum(overlaps(wide, (other,)) for other in self.boxes)
        on_lines = ON_LINE * met(wide, self.lines)
        return float(CUT_OFF * (out + scales) + ON_LABEL * on_labels + on_lines)


def _box_at(ground: Ground, spot: Spot, size: Pixel) -> Box:
    """Reckon where words of a size would lie. [px]"""
    return set_at(_way(ground, spot)[1], size, spot.across, spot.up)


def _way(ground: Ground, spot: Spot) -> tuple[Pixel, Pixel]:
    """Give the way from a thing to the anchor of its words. [px]"""
    x, y = ground.pixel(spot.x, spot.y)
    dots = ground.per_pt
    return (x, y), (x + spot.shift[0] * dots, y + spot.shift[1] * dots)


def _write(axes: Axes, words: str, spot: Spot, color: str) -> Annotation:
    return axes.annotate(
        words,
        (spot.x, spot.y),
        spot.shift,
        textcoords="offset points",
        ha=spot.across,
        va=spot.up,
        color=INK.get(color, color),
        zorder=8,
        bbox=PAPER,
        annotation_clip=False,
    )
