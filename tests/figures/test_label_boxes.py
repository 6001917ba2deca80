"""Boxes and sizes of labels are those that Matplotlib reckons, only sooner."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Bbox

from generator.figures.label_boxes import (
    Ground,
    Line,
    overlaps,
    padded,
    set_at,
    size_px,
)
from generator.figures.labels import Labels, Spot
from generator.figures.style import look, new_figure

WORDS = ("outlet", "gap,\nno local figure", "Ägypten 4 in", "(", "a\n\nb")


def test_a_line_meets_the_boxes_that_its_path_meets() -> None:
    chance = Random(7)
    met = 0
    for _ in range(4000):
        points = [(chance.uniform(0, 9), chance.uniform(0, 9)) for _ in range(3)]
        left, low = chance.uniform(0, 9), chance.uniform(0, 9)
        box = (left, low, left + chance.uniform(0, 2), low + chance.uniform(0, 2))
        path = Path(points)
        wanted = path.intersects_bbox(Bbox.from_extents(*box), filled=False)
        assert Line.through(points).meets(box) == wanted, (points, box)
        met += wanted
    assert 500 < met < 3500


@pytest.mark.parametrize("end", [(5.0, 5.0), (9.0, 5.0), (5.0, 9.0)])
def test_a_straight_line_meets_the_box_in_its_way(end: tuple[float, float]) -> None:
    line = Line.through([(5.0, 5.0), end])
    assert line.meets((4.0, 4.0, 6.0, 6.0))
    assert not line.meets((4.0, 1.0, 9.0, 4.9))


def test_boxes_that_only_touch_overlap() -> None:
    assert overlaps((0, 0, 2, 2), [(9, 9, 9, 9), (2, 2, 3, 3)])
    assert not overlaps((0, 0, 2, 2), [(2.1, 0, 3, 2), (0, 2.1, 2, 3)])
    assert overlaps(padded((0, 0, 2, 2), 0.1), [(2.1, 0, 3, 2)])


@pytest.mark.parametrize("words", WORDS)
def test_a_label_lies_where_it_is_drawn(words: str) -> None:
    with look():
        figure = new_figure(3.0)
        axes = figure.add_axes((0.1, 0.2, 0.7, 0.6))
        axes.set(xlim=(-3, 40), ylim=(7, -2))
        labels = Labels(figure)
        renderer = FigureCanvasAgg(figure).get_renderer()
        sides = product(("left", "center", "right"), ("bottom", "center", "top"))
        for across, up in sides:
            spot = Spot(11.0, 3.0, across, up, (4.0, -7.0))
            label = labels.put(axes, words, [spot])
            label.update_positions(renderer)
            box = Text.get_window_extent(label, renderer)
            assert labels.boxes[-1] == pytest.approx(tuple(box.extents), abs=1e-9)


def test_words_are_measured_alike_whatever_was_measured_before() -> None:
    first = size_px("sludge 11 in", 100.0)
    for words in WORDS:
        size_px(words, 72.0)
    size_px.cache_clear()
    assert size_px("sludge 11 in", 100.0) == first
    assert set_at((10.0, 10.0), (4.0, 2.0), "right", "center") == (6, 9, 10, 11)


def test_the_ground_follows_its_axes() -> None:
    axes = new_figure(3.0).add_axes((0.1, 0.2, 0.7, 0.6))
    for limits in ((0, 1), (-5, 90)):
        axes.set(xlim=limits, ylim=limits[::-1])
        wanted = tuple(axes.transData.transform((0.25, 4.0)))
        assert Ground.of(axes, 100.0).pixel(0.25, 4.0) == pytest.approx(wanted)
