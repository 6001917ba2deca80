"""Where a name of the site plan may stand: beside its thing, or led to by a line."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, inf, pi, sin

from matplotlib.axes import Axes

from generator.figures.labels import Labels, Spot
from generator.figures.plan_ground import View, along
from generator.figures.style import BLACK, ORANGE
from generator.results.plan_gaps import XY

SLANTED = 0.38  # share of a direction from which a name is set to its side; our choice
EDGE_STEPS, DIRECTIONS = 24, 8  # places tried along an outline, around a point
KEPT = 64  # outlines whose places are kept, as each is tried again farther off
Place = tuple[float, float, complex, tuple[str, str]]


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
    for x, y, out, sides in _places(tuple(outline), view):
        yield Spot(x, y, *sides, (reach_pt * out.real, reach_pt * out.imag))


@lru_cache(KEPT)
def _places(outline: tuple[XY, ...], view: View) -> tuple[Place, ...]:
    """List places, each with the way out of it and the sides that a name turns."""
    shown = view.shown(outline)
    if not shown:
        return ()
    ways = (1.0,) if shown[0] == shown[-1] else (1.0, -1.0)
    found = []
    for (x, y), ahead in _ways(shown):
        if not view.holds((x, y)):
            continue
        for out in (ahead * way for way in ways):
            across = _set(out.real, "left", "right")
            found.append((x, y, out, (across, _set(out.imag, "bottom", "top"))))
    return tuple(found)


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
