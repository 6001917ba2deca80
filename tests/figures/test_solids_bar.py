"""The bars of solids show every measure beside its limit, and say what follows."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgb
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


def bar(**changes: object) -> SolidsBar:
    known = SolidsBar("Ohio: scum share", "%", 24.6, 3.0, 25.0, True, "not yet")
    return replace(known, **changes)


def shown(figure: Figure) -> list[str]:
    return [text.get_text() for axes in figure.axes for text in axes.texts]


def test_words_give_every_figure() -> None:
    found = bars(DEMOS[0])
    words = solids_bar.describe(found)
    said = "27 % (give or take 3.4 %; pump over 25 %): pump."
    assert f"Minnesota: solids capacity: {said}" in words
    assert "27 % (pump over 25 %): pump" in shown(solids_bar.draw(found))


def test_figure_and_words_call_a_limit_nobody_read_the_same() -> None:
    found = [one for one in bars(DEMOS[0]) if one.says not in solids_bar.LOOKS]
    told = " ".join(shown(solids_bar.draw(found)))
    for one in found:
        assert told.count(one.says) == solids_bar.describe(found).count(one.says)
    assert "limit" not in told


def test_a_measure_that_rounds_to_its_limit_keeps_a_decimal() -> None:
    assert "24.6 % (pump over 25 %): not yet" in shown(solids_bar.draw([bar()]))


def test_long_labels_are_wrapped_inside_the_frame() -> None:
    name = "A county of a rather long name, Washington"
    long = bar(label=f"{name}: sludge clearance in it")
    figure = solids_bar.draw([long, replace(long, says="confirm with the source")])
    FigureCanvasAgg(figure).draw()
    for text in figure.axes[0].texts:
        assert text.get_window_extent().x1 <= figure.bbox.x1
    assert len(shown(figure)) == 6


def test_titles_keep_clear_of_the_scale_above() -> None:
    figure = solids_bar.draw(bars(DEMOS[1]))
    FigureCanvasAgg(figure).draw()
    upper, lower = figure.axes
    ticks = min(one.get_window_extent().y0 for one in upper.get_xticklabels())
    assert lower._left_title.get_window_extent().y1 < ticks - 3


def test_bars_are_pale_enough_for_the_black_marks_on_them() -> None:
    for color, _, _ in (*solids_bar.LOOKS.values(), solids_bar.UNREAD):
        assert rgb_to_grey(color) > 0.6


def rgb_to_grey(color: str) -> float:
    """Lightness as grey print shows it (ITU-R BT.601)."""
    red, green, blue = to_rgb(color)
    return 0.299 * red + 0.587 * green + 0.114 * blue


def test_compartments_are_named_as_people_do(workspace: Workspace) -> None:
    job = TOP / "tests" / "jobs" / "good" / "everything-new.yaml"
    shutil.copy(job, workspace.inspections)
    worked = work_out(workspace, job.stem)
    name = worked.record.inspection.tanks[0].name
    labels = [one.label for one in solids_bars(worked.results, name, with_pump_out())]
    assert "Pennsylvania: sludge share, second compartment" in labels


def test_the_same_bytes_twice() -> None:
    one, two = (
        svg(solids_bar.draw(bars(DEMOS[1])), title="t", description="d")
        for _ in range(2)
    )
    assert one == two
