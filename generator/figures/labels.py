"""Direct labels that keep clear of one another, of lines and of the edge."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import inf

from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.path import Path
from matplotlib.text import Annotation
from matplotlib.transforms import Bbox

from generator.figures.style import BLACK, GREY, INK

# How bad each fault of a place is; our choice. A label over a label is the worst.
ON_LABEL, CUT_OFF, ON_LINE = 100.0, 100.0, 1.0
EDGE_PX, CLEAR_PX = 2.0, 3.0  # kept from the frame and other labels; our choice
SHARE = {"left": 0.0, "center": 0.5, "right": 1.0, "bottom": 0.0, "top": 1.0}
Sides = tuple[float, float, float, float]  # left, low, right, high [px]
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
    """The labels of one figure and what they must keep clear of."""

    figure: Figure
    boxes: list[Sides] = field(default_factory=list)
    lines: list[tuple[Path, Sides]] = field(default_factory=list)
    gap_px: float = 0.0  # kept from labels and lines where there is a choice

    def __post_init__(self) -> None:
        """Make a canvas that can measure text."""
        canvas = FigureCanvasAgg(self.figure)
        self.renderer = canvas.get_renderer()  # type: ignore[no-untyped-call]  # theirs

    def keep_off(self, axes: Axes, xs: Sequence[float], ys: Sequence[float]) -> None:
        """Keep labels off a line, where there is a choice."""
        points = [(x, y) for x, y in zip(xs, ys, strict=True)]
        if len(points) > 1:
            line = Path(axes.transData.transform(points))
            self.lines.append((line, _sides(line.get_extents())))

    def keep_clear(self, axes: Axes, x: float, y: float, around_pt: float) -> None:
        """Keep labels off a symbol. [pt]"""
        centre = axes.transData.transform((x, y))
        half = around_pt * self.figure.dpi / 72
        self.boxes.append(_sides(Bbox([centre - half, centre + half])))

    def crosses(self, axes: Axes, x: float, y: float, rise_pt: float) -> bool:
        """Tell whether an upright line from a point would cut through a label."""
        low = axes.transData.transform((x, y))
        high = low[1] + rise_pt * self.figure.dpi / 72
        return any(
            x0 - 1 <= low[0] <= x1 + 1 and y0 < high and y1 > low[1]
            for x0, y0, x1, y1 in self.boxes
        )

    def put(
        self, axes: Axes, words: str, spots: Sequence[Spot], color: str = BLACK
    ) -> Annotation:
        """Write words at the first of the spots that is clear, or the clearest."""
        label = axes.annotate(words, (0, 0), zorder=8, bbox=PAPER)
        label.set_color(INK.get(color, color))
        label.set_annotation_clip(False)
        faults = []
        for number, spot in enumerate(spots):
            self._move(label, spot)
            faults.append((self._faults(self.box(label), axes), number))
            if not faults[-1][0]:
                break
        self._move(label, spots[min(faults)[1]])
        self.boxes.append(_sides(self.box(label)))
        return label

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
        label = axes.annotate(words, (0, 0), zorder=8, bbox=PAPER)
        label.set_color(INK.get(color, color))
        label.set_annotation_clip(False)
        size = self.box(label).size
        best: tuple[float, Spot] | None = None
        for spot in spots:
            box = self._box_at(axes, spot, size)
            if not self._clear(box, axes) or (led and self._cuts(axes, spot)):
                continue
            lines = self._on_lines(box.padded(self.gap_px))
            if lines <= most_lines and (best is None or lines < best[0]):
                best = (lines, spot)
            if not lines:
                break
        if best is None:
            label.remove()
            return None
        self._move(label, best[1])
        self.boxes.append(_sides(self.box(label)))
        return best[1]

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
        dots = self.figure.dpi / 72
        x, y = axes.transData.transform((spot.x, spot.y))
        end = axes.transData.inverted().transform(
            (x + spot.shift[0] * dots, y + spot.shift[1] * dots)
        )
        self.keep_off(axes, (spot.x, float(end[0])), (spot.y, float(end[1])))

    def _box_at(self, axes: Axes, spot: Spot, size: Sequence[float]) -> Bbox:
        """Reckon where a label of a size would lie, without moving one. [px]"""
        x, y = axes.transData.transform((spot.x, spot.y))
        dots = self.figure.dpi / 72
        left = x + spot.shift[0] * dots - SHARE[spot.across] * size[0]
        low = y + spot.shift[1] * dots - SHARE[spot.up] * size[1]
        return Bbox([(left, low), (left + size[0], low + size[1])])

    def _cuts(self, axes: Axes, spot: Spot) -> bool:
        """Tell whether the line that leads to a spot would cut through a label."""
        start = axes.transData.transform((spot.x, spot.y))
        end = start + [one * self.figure.dpi / 72 for one in spot.shift]
        line = Path([start, end])
        around = _sides(line.get_extents())
        return any(
            line.intersects_bbox(_bbox(box))
            for box in self.boxes
            if _touch(around, box) and not _bbox(box).contains(*start)
        )

    def _clear(self, box: Bbox, axes: Axes) -> bool:
        """Tell whether a box lies inside the frame and on no label."""
        frame = axes.bbox
        inside = (
            box.x0 > frame.x0 + EDGE_PX
            and box.x1 < frame.x1 - EDGE_PX
            and box.y0 > frame.y0 + EDGE_PX
            and box.y1 < frame.y1 - EDGE_PX
        )
        wide = _sides(box.padded(CLEAR_PX))
        return inside and not any(_touch(wide, other) for other in self.boxes)

    def _on_lines(self, box: Bbox) -> float:
        sides = _sides(box)
        return float(
            sum(
                _touch(sides, around) and line.intersects_bbox(box, filled=False)
                for line, around in self.lines
            )
        )

    def box(self, label: Annotation) -> Bbox:
        """Measure a label. [px]"""
        label.update_positions(self.renderer)
        return Bbox(
            super(Annotation, label).get_window_extent(self.renderer).get_points()
        )

    def _move(self, label: Annotation, spot: Spot) -> None:
        label.xy = (spot.x, spot.y)
        label.set(
            anncoords="offset points",
            position=spot.shift,
            ha=spot.across,
            va=spot.up,
        )

    def _faults(self, box: Bbox, axes: Axes) -> float:
        page = self.figure.bbox
        out = box.x0 < 0 or box.y0 < 0 or box.x1 > page.x1 or box.y1 > page.y1
        beside = box.x0 < axes.bbox.x0 and box.y0 < axes.bbox.y1
        scales = axes.axison and (beside or box.y0 < axes.bbox.y0)
        wide = box.padded(self.gap_px)
        sides = _sides(wide)
        on_labels = sum(_touch(sides, other) for other in self.boxes)
        on_lines = ON_LINE * self._on_lines(wide)
        return float(CUT_OFF * (out + scales) + ON_LABEL * on_labels + on_lines)


def _sides(box: Bbox) -> Sides:
    """The sides of a box as plain numbers, which are compared far more quickly."""
    x0, y0, x1, y1 = (float(side) for side in box.extents)
    return (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _bbox(sides: Sides) -> Bbox:
    return Bbox([sides[:2], sides[2:]])


def _touch(one: Sides, other: Sides) -> bool:
    """Tell whether two boxes overlap, their sides included."""
    return (
        one[0] <= other[2]
        and other[0] <= one[2]
        and one[1] <= other[3]
        and other[1] <= one[3]
    )
