"""The one look of every figure, down to the bytes of its SVG."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from hashlib import sha256
from typing import Any
from xml.sax.saxutils import escape

from matplotlib import rcParams
from matplotlib import style as sheets
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle

from generator.figures.lean_svg import lean_svg
from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.result import Number, standard
from generator.results.rounding import decimals, said, written

# Colors that stay apart for color-blind eyes: Okabe and Ito, "Color Universal
# Design" (2008). Line styles and hatches say the same again.
BLUE, VERMILION, GREEN = "#0072B2", "#D55E00", "#009E73"
ORANGE, SKY, BLACK, GREY = "#E69F00", "#56B4E9", "#000000", "#595959"
# Darker shades of the same for words, so that small text has contrast enough.
INK = {BLUE: "#005A8E", VERMILION: "#9C4500", GREEN: "#00684C"}
PALE_WATER, PALE_GREY = "#D6ECF9", "#E4E4E4"

# Our choice: on a phone 390 px wide a page leaves about 358 px for a figure, where
# 9.6 pt of a figure 4.3 in wide are 11 px.
WIDTH_IN = 4.3
TEXT_PT = 9.6
LEFT, RIGHT = 0.125, 0.975
LETTER_PT = 0.6 * TEXT_PT  # a letter of the font is about so wide
AXES_PT = (RIGHT - LEFT) * WIDTH_IN * 72

LOOK = {
    "font.family": "DejaVu Sans",
    "font.size": TEXT_PT,
    "axes.labelsize": TEXT_PT,
    "axes.titlesize": TEXT_PT,
    "axes.titlelocation": "left",
    "axes.titlepad": 5.0,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.linewidth": 0.8,
    "axes.unicode_minus": True,
    "axes.titley": 1.0,  # else each axis is measured for it, at every drawing
    "xtick.labelsize": TEXT_PT,
    "ytick.labelsize": TEXT_PT,
    "text.parse_math": False,
    "hatch.linewidth": 0.6,
    "lines.linewidth": 1.4,
    "path.simplify": True,
}
UNLAWFUL_IN_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


@contextmanager
def look() -> Iterator[None]:
    """Set the look for as long as a figure is drawn or written."""
    before = dict.copy(rcParams)
    del before["backend"]
    try:
        rcParams._update_raw(_settings())
        yield
    finally:
        rcParams._update_raw(before)


def new_figure(height_in: float) -> Figure:
    """Make an empty figure of the common width. [in]"""
    return Figure(figsize=(WIDTH_IN, height_in), facecolor="white")


def block(
    axes: Axes, corner: tuple[float, float], size: tuple[float, float], **how: object
) -> Rectangle:
    """Put a rectangle into axes whose limits are set, cut off at their edge alone.

    Asking each thing how far it reaches costs more than the thing.
    """
    patch = Rectangle(corner, *size, **how)  # type: ignore[arg-type]  # passed through
    axes.add_artist(patch)
    return patch


def stroke(axes: Axes, xs: Sequence[float], ys: Sequence[float], **how: object) -> None:
    """Put a line into axes whose limits are set."""
    axes.add_artist(Line2D(xs, ys, **how))  # type: ignore[arg-type]  # passed through


def dots(
    axes: Axes, xs: Sequence[float], ys: Sequence[float], mark: str, **how: object
) -> None:
    """Put the same mark on each of some points, into axes whose limits are set."""
    stroke(axes, xs, ys, marker=mark, linestyle="none", **how)


def arrow(axes: Axes, x: float, low: float, high: float) -> None:
    """Draw an upright arrow with two heads. [in]"""
    axes.annotate(
        "",
        (x, high),
        (x, low),
        zorder=7,
        arrowprops={
            "arrowstyle": "<|-|>",
            "color": BLACK,
            "linewidth": 1.1,
            "shrinkA": 0,
            "shrinkB": 0,
            "mutation_scale": 7,
        },
    )


def share_of_width(words: str) -> float:
    """Guess which share of the width of full axes some words take up. [-]"""
    return len(words) * LETTER_PT / AXES_PT


def said_fully(number: Number, unit: str) -> str:
    """Say a number with twice its standard uncertainty, where it has one.

    Examples
    --------
    >>> said_fully(4.0, "in")
    '4 in'
    """
    doubt = written(COVERAGE_FACTOR * standard(number), decimals(number))
    give = f" (give or take {doubt} {unit})" if doubt != "0" else ""
    return said(number, unit) + give


def svg(figure: Figure, *, title: str, description: str) -> bytes:
    """Write a figure as SVG that reads itself out and repeats byte for byte.

    Parameters
    ----------
    figure : Figure
        The figure; an axis without a name gets a fixed place for it, and is else left.
    title, description : str
        Its name and its text alternative, in plain text.

    Returns
    -------
    bytes
        The whole file, in UTF-8.
    """
    key = sha256(f"{title}\n{description}".encode("utf-8", "replace")).hexdigest()[:12]
    inside = (
        f'<title id="t{key}">{_plain(title)}</title>\n'
        f'<desc id="d{key}">{_plain(description)}</desc>\n'
    )
    for axis in (one for axes in figure.axes for one in (axes.xaxis, axes.yaxis)):
        if not axis.label.get_text():  # then nobody asks how far its numbers reach
            axis.set_label_coords(0, 0)
    with look():
        text = lean_svg(
            figure, named=f'role="img" aria-labelledby="t{key} d{key}"', inside=inside
        )
    return text.encode("utf-8")


@lru_cache(1)
def _settings() -> dict[Any, Any]:
    """Check the whole look once; Matplotlib would do so each time it is set."""
    with sheets.context(["default", LOOK]):
        settings = dict.copy(rcParams)
    del settings["backend"]  # that is chosen by the process, and no look
    return settings


def _plain(text: str) -> str:
    return escape(UNLAWFUL_IN_XML.sub("\ufffd", text))
