"""Our SVG shows what Matplotlib's own writer shows, and is shorter by far."""

from __future__ import annotations

import base64
import io
import re
from typing import Any

import matplotlib as mpl
import numpy as np
import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.figure import Figure
from matplotlib.patches import Ellipse
from matplotlib.path import Path
from PIL import Image

from generator.figures.lean_svg import lean_svg
from generator.figures.svg_paths import outline

WIDE_PX = 600
MOST_DIFFERENT = 0.002  # share of pixels whose shade differs by a quarter; our choice
QUARTER = 64
HALF = 0.5  # of the bytes of Matplotlib's writer; figures of ours come to 0.37

units = st.integers(-5_000, 5_000)
points = st.tuples(units, units)
steps = st.one_of(
    st.tuples(st.just(Path.LINETO), st.tuples(points)),
    st.tuples(st.just(Path.CURVE3), st.tuples(points, points)),
    st.tuples(st.just(Path.CURVE4), st.tuples(points, points, points)),
)
SAID = {Path.LINETO: "lineTo", Path.CURVE3: "qCurveTo", Path.CURVE4: "curveTo"}


@given(st.lists(st.tuples(points, st.lists(steps, min_size=1), st.booleans())))
def test_another_reader_finds_the_path_that_was_meant(parts: list[Any]) -> None:
    """The reader is that of fontTools."""
    vertices, codes, meant = [], [], []
    for start, more, closed in parts:
        vertices.append(start)
        codes.append(Path.MOVETO)
        meant.append(("moveTo", (start,)))
        for code, ends in more:
            vertices += ends
            codes += [code] * len(ends)
            meant.append((SAID[code], ends))
        if closed:
            vertices.append((0, 0))
            codes.append(Path.CLOSEPOLY)
        meant.append(("closePath" if closed else "endPath", ()))
    pen = RecordingPen()
    parse_path(outline(np.reshape(vertices, (-1, 2)), codes), pen)
    found = [(word, told) for word, told in pen.value if word != "lineTo" or told]
    assert _without_way_home(found, meant) == meant


def _without_way_home(found: list[Any], meant: list[Any]) -> list[Any]:
    """Leave out the line back to the start that the reader adds where one closes."""
    kept = []
    for number, one in enumerate(found):
        wanted = meant[len(kept)] if len(kept) < len(meant) else None
        closes = number + 1 < len(found) and found[number + 1][0] == "closePath"
        if one != wanted and closes and one[0] == "lineTo":
            continue
        kept.append(one)
    return kept


def everything() -> Figure:
    """One figure with all that ours draw: hatch, dashes, clip, curves, turned words."""
    figure = Figure(figsize=(4, 3), facecolor="white")
    axes = figure.add_axes((0.15, 0.15, 0.8, 0.8))
    axes.plot([0, 4, 10], [1, 9, 20], "--", color="#0072B2", linewidth=2)  # cut off
    axes.plot([1, 2, 3], [8, 8, 8], "o", color="#D55E00", markersize=7)
    axes.fill_between([0, 10], [1, 2], [3, 3], color="#009E73", alpha=0.3, hatch="//")
    axes.add_patch(Ellipse((6, 6), 4, 2, angle=30, facecolor="#E69F00"))
    axes.text(1, 5, "turned words", rotation=40, color="#9C4500", alpha=0.7)
    axes.text(4, 8.5, "Sludge lay 11 in deep,\nand sludge it was", ha="left")
    axes.annotate("here", (6, 6), (8, 3), arrowprops={"arrowstyle": "-|>"})
    axes.set_ylim(0, 10)
    axes.set_xlim(0, 10)
    axes.set_xlabel("minutes − and more")
    return figure


def theirs(figure: Figure) -> bytes:
    buffer = io.BytesIO()
    with mpl.rc_context({"svg.fonttype": "path", "svg.hashsalt": "onlot"}):
        figure.savefig(buffer, format="svg")
    return buffer.getvalue()


def ours(figure: Figure) -> str:
    return lean_svg(figure, named='role="img"', inside="")


def shown(browser: Any, svg: bytes) -> Any:
    page = browser.new_page(viewport={"width": WIDE_PX, "height": WIDE_PX})
    try:
        address = f"data:image/svg+xml;base64,{base64.b64encode(svg).decode()}"
        page.set_content(f'<img id="it" style="width:{WIDE_PX - 20}px">')
        page.evaluate(
            "at => new Promise((yes, no) => {"
            "const it = document.getElementById('it');"
            "it.onload = yes; it.onerror = no; it.src = at})",
            address,
        )
        taken = Image.open(io.BytesIO(page.screenshot()))
        return np.asarray(taken.convert("L"), dtype=int)
    finally:
        page.close()


def test_it_shows_what_the_other_writer_shows(browser: Any) -> None:
    figure = everything()
    one = shown(browser, theirs(figure))
    other = shown(browser, ours(figure).encode())
    assert one.min() < QUARTER < 255 - QUARTER < one.max()  # something is drawn
    assert np.mean(abs(one - other) > QUARTER) < MOST_DIFFERENT


def test_it_takes_less_than_half_of_the_bytes() -> None:
    figure = everything()
    assert len(ours(figure)) < HALF * len(theirs(figure))


def test_the_same_whatever_was_drawn_before() -> None:
    first = ours(everything())
    other = Figure(figsize=(2, 2))
    other.text(0.2, 0.2, "words and turned sludge")
    ours(other)
    assert ours(everything()) == first


def test_every_name_is_defined_once_and_used() -> None:
    text = ours(everything())
    defined = re.findall(r' id="([^"]+)"', text)
    used = re.findall(r'(?:href="|url\()#([^")]+)', text)
    assert len(defined) == len(set(defined))
    assert set(defined) == set(used)


def test_a_word_that_comes_twice_is_set_once() -> None:
    figure = Figure(figsize=(2, 2))
    figure.text(0.1, 0.1, "give or take")
    figure.text(0.1, 0.6, "or take a bit")
    text = ours(figure)
    # or, take: set once; give, a and bit: 4 + 1 + 3 letters where they stand
    assert text.count('<g id="w') == 2
    assert text.count("<use ") == (2 + 4) + 4 * 1 + (4 + 1 + 3)


def test_the_figure_is_left_as_it_was() -> None:
    figure = everything()
    before = figure.dpi
    ours(figure)
    assert figure.dpi == before


def test_what_no_figure_of_ours_has_is_refused() -> None:
    formula = Figure()
    formula.text(0.1, 0.1, "$x$")
    with pytest.raises(NotImplementedError, match="formula"):
        ours(formula)
    picture = Figure()
    picture.add_axes((0, 0, 1, 1)).imshow(np.eye(4))
    with pytest.raises(NotImplementedError, match="picture"):
        ours(picture)
