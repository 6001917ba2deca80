"""The bars of solids show every measure beside its limit, and say what follows."""

from __future__ import annotations

from pathlib import Path

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from generator.codes.packs import with_pump_out
from generator.figures import solids_bar
from generator.figures.style import svg
from generator.record.load import Workspace
from generator.results.solids_bars import SolidsBar, solids_bars
from generator.worked import work_out

TOP = Path(__file__).parents[2]
DEMOS = ("demo-larch-hollow", "demo-cattail-lake")


def bars(job: str) -> list[SolidsBar]:
    worked = work_out(Workspace(TOP), job)
    return solids_bars(worked.results, "tank", with_pump_out())


def rectangles(figure: Figure) -> list[Rectangle]:
    return [
        patch
        for axes in figure.axes
        for patch in axes.patches
        if isinstance(patch, Rectangle)
    ]


def test_every_criterion_of_every_source_stands_once() -> None:
    """Minn. R. 7080.2450: 12 in, 3 in and 25 %; 25 Pa. Code 71.73: 1/3 and 1/3."""
    found = {bar.label: (bar.limit, bar.pump_over) for bar in bars(DEMOS[0])}
    assert len(found) == len(bars(DEMOS[0])) == 10
    assert found["Minnesota: sludge clearance"] == (12.0, False)
    assert found["Minnesota: solids capacity"] == (25.0, True)
    assert found["Pennsylvania: scum share"] == (pytest.approx(100 / 3), True)


@pytest.mark.parametrize("job", DEMOS)
def test_bars_are_as_long_as_the_measures(job: str) -> None:
    drawn = rectangles(solids_bar.draw(bars(job)))
    assert [patch.get_width() for patch in drawn] == pytest.approx(
        [bar.value for bar in bars(job)]
    )


@pytest.mark.parametrize("job", DEMOS)
def test_what_says_pump_lies_beyond_its_limit(job: str) -> None:
    for bar in bars(job):
        beyond = bar.value > bar.limit if bar.pump_over else bar.value < bar.limit
        assert bar.says == ("pump" if beyond else "not yet") or "confirm" in bar.says


@pytest.mark.parametrize("job", DEMOS)
def test_words_neither_overlap_nor_leave_the_frame(job: str) -> None:
    figure = solids_bar.draw(bars(job))
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    texts = [text for axes in figure.axes for text in axes.texts]
    boxes = [text.get_window_extent(canvas.get_renderer()) for text in texts]
    frame = figure.bbox
    for number, box in enumerate(boxes):
        assert box.x1 <= frame.x1
        assert not any(box.overlaps(other) for other in boxes[:number])


def test_a_hatch_tells_in_grey_what_the_color_tells() -> None:
    found = bars(DEMOS[0])
    hatches = [patch.get_hatch() for patch in rectangles(solids_bar.draw(found))]
    said = {bar.says for bar in found}
    assert len({hatch or "" for hatch in hatches}) == len(said) == 3


def test_words_give_every_figure() -> None:
    words = solids_bar.describe(bars(DEMOS[0]))
    assert "Minnesota: solids capacity: 27 %, limit 25 %: pump." in words


def test_the_same_bytes_twice() -> None:
    one, two = (
        svg(solids_bar.draw(bars(DEMOS[1])), title="t", description="d")
        for _ in range(2)
    )
    assert one == two
