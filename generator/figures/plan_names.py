"""Where a name of the site plan may stand: beside its thing, or led to by a line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import cos, inf, pi, sin

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.plan_ground import View, along
from generator.figures.style import BLACK, ORANGE
from generator.results.plan_gaps import XY

SLANTED = 0.38  # share of a direction from which a name is set to its side; our choice
EDGE_STEPS, DIRECTIONS = 24, 8  # places tried along an outline, around a point


def word_color(stroke: str) -> str:
    """Choose the color of words beside a stroke: orange would be too pale."""
    return BLACK if stroke == ORANGE else stroke


def put_near(
    axes: Axes,
    labels: Labels,
    words: str,
    spots: Callable[[float], Iterator[Spot]],
    reaches_pt: Sequence[float],
    color: str,
    most_lines: float = inf,
) -> bool:
    """Write words as near as they are clear, with a line to them if not close by."""
    for allowed in (0.0, inf):
        for reach in reaches_pt:
            led = reach > reaches_pt[0]
            found = labels.put_if_clear(
                axes, words, spots(reach), color, allowed, led=led
            )
            if found is not None:
                if led:
                    labels.lead(axes, found)
                return True
        if most_lines < inf:
            break
    return False


def spots_around(outline: Sequence[XY], view: View, reach_pt: float) -> Iterator[Spot]:
    """List places for a name around a point, or square off a line or border. [pt]"""
    outline = view.shown(outline)
    if not outline:
        return
    for (x, y), ahead in _ways(outline):
        if not view.holds((x, y)):
            continue
        sides = (1.0,) if outline[0] == outline[-1] else (1.0, -1.0)
        for side in sides:
            out = ahead * side
            yield Spot(
                x,
                y,
                _set(out.real, "left", "right"),
                _set(out.imag, "bottom", "top"),
                (reach_pt * out.real, reach_pt * out.imag),
            )


def _set(share: float, ahead: str, back: str) -> str:
    if abs(share) < SLANTED:
        return "center"
    return ahead if share > 0 else back


def _ways(outline: Sequence[XY]) -> Iterator[tuple[XY, complex]]:
    """Walk along an outline, each place with the direction out of it."""
    if len(outline) == 1:
        for step in range(DIRECTIONS):
            turn = 2 * pi * step / DIRECTIONS
            yield outline[0], complex(cos(turn), sin(turn))
        return
    out = -1j if _area(outline) >= 0 else 1j
    places = along(outline, EDGE_STEPS)
    order = sorted(range(len(places) - 1), key=lambda at: abs(at - EDGE_STEPS / 2))
    for at in order:
        one, other = complex(*places[at]), complex(*places[at + 1])
        if other != one:
            middle = (one + other) / 2
            way = (other - one) / abs(other - one) * out
            yield (middle.real, middle.imag), way


def _area(outline: Sequence[XY]) -> float:
    """Give twice the area of an outline; above zero where it runs to the left."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(outline))
