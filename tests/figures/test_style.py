"""How a figure is written: the same bytes each time, and readable aloud."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from hashlib import sha256
from pathlib import Path
from xml.etree import ElementTree

import pytest
from figure_builders import entry, make_run, make_tank, make_test
from matplotlib import rcParams
from matplotlib import style as sheets
from uncertainties import ufloat

from generator.figures import load_test_chart, pipe_strip, style, tank_section
from generator.figures.tank_levels import Levels
from generator.results.rounding import said

SVG = "{http://www.w3.org/2000/svg}"
ROOM = Path(style.__file__).parent
HOSTILE = '<script>alert("1")</script> & ]]> -- \x00\x1b ΩÄ'


def drawn() -> dict[str, bytes]:
    test = make_test([(-3.0, 0.0), (5.0, 0.375), (31.0, 0.5)], [(0.0, 31.0)])
    run = make_run(entry(0, water=0.5), entry(9, "blockage", water=2.0), feet=20)
    figures = {
        "test": load_test_chart.draw(test, None),
        "tank": tank_section.draw(make_tank(), Levels((0.0, 1.0))),
        "pipe": pipe_strip.draw(run, ufloat(0.4, 0.1)),
    }
    return {
        name: style.svg(figure, title=name, description="words")
        for name, figure in figures.items()
    }


def test_the_same_bytes_twice_and_in_another_process() -> None:
    here = drawn()
    assert here == drawn()
    code = (
        "import sys; sys.path.insert(0, sys.argv[1]); import test_style as t; "
        "from hashlib import sha256; "
        "print({k: sha256(v).hexdigest() for k, v in t.drawn().items()})"
    )
    told = subprocess.run(
        [sys.executable, "-c", code, str(Path(__file__).parent)],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOM.parents[1],
        env={**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LC_ALL": "C"},
    ).stdout
    assert ast.literal_eval(told) == {
        name: sha256(data).hexdigest() for name, data in here.items()
    }


@pytest.mark.parametrize("name", ["test", "tank", "pipe"])
def test_an_svg_names_itself_and_holds_no_date_or_maker(name: str) -> None:
    data = drawn()[name]
    root = ElementTree.fromstring(data)
    assert root.get("role") == "img"
    title, words = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert root.get("aria-labelledby") == f"{title.get('id')} {words.get('id')}"
    assert (title.text, words.text) == (name, "words")
    assert not re.search(rb"<text|<dc:date|dc:creator|Matplotlib v|<image", data)
    assert len(data) <= 70_000


def test_a_hostile_name_stays_text() -> None:
    figure = tank_section.draw(make_tank())
    data = style.svg(figure, title=HOSTILE, description=HOSTILE)
    root = ElementTree.fromstring(data)
    assert root.find(f"{SVG}title").text == HOSTILE.replace("\x00", "\ufffd").replace(
        "\x1b", "\ufffd"
    )
    assert b"<script" not in data
    assert not list(root.iter(f"{SVG}script"))


def test_words_have_contrast_enough_on_white() -> None:
    """WCAG 2.1, 1.4.3: small text needs 4.5 to 1."""
    for color in (*style.INK.values(), style.GREY, style.BLACK):
        parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        red, green, blue = (
            part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
            for part in parts
        )
        light = 0.2126 * red + 0.7152 * green + 0.0722 * blue
        assert 1.05 / (light + 0.05) >= 4.5, color


def test_no_figure_is_kept_by_a_global_list() -> None:
    for file in ROOM.glob("*.py"):
        assert "pyplot" not in file.read_text(encoding="utf-8"), file.name


@pytest.mark.parametrize(
    ("number", "expected"),
    [
        (0.0, "0 in"),
        (-2.0, "−2 in"),
        (-0.001, "0 in"),
        (1234.5, "1234 in"),
        (ufloat(0.4375, 0.07), "0.44 in"),
        (ufloat(124.4, 2.6), "124 in"),
        (ufloat(124.4, 26), "124 in"),
    ],
)
def test_numbers_are_said_no_finer_than_they_are_known(number, expected) -> None:
    assert said(number, "in") == expected


def test_the_look_is_what_matplotlib_makes_of_it_and_leaves_nothing() -> None:
    before = dict.copy(rcParams)
    with sheets.context({"lines.linewidth": 9.0}):
        with sheets.context(["default", style.LOOK]):
            wanted = dict.copy(rcParams)
        with style.look():
            assert dict.copy(rcParams) == wanted
        assert rcParams["lines.linewidth"] == 9.0
    assert dict.copy(rcParams) == before
