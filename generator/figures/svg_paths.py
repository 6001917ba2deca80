"""A path said short in SVG: whole units, each point from the one before."""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.path import Path

STEPS = {Path.LINETO: "l", Path.CURVE3: "q", Path.CURVE4: "c"}
POINTS = {Path.LINETO: 1, Path.CURVE3: 2, Path.CURVE4: 3}


def outline(vertices: Any, codes: Any = None) -> str:
    """Write a path as the ``d`` of an SVG.

    Parameters
    ----------
    vertices : array of shape (n, 2)
        Its points, rounded here to whole units.
    codes : array of shape (n,), optional
        What each point is, as in ``matplotlib.path.Path``; lines where left out.

    Returns
    -------
    str
        The path, in the grammar of SVG 1.1, chapter 8.3.

    Examples
    --------
    >>> outline([(0, 0), (100.4, 0), (100, 50), (0, 0)], [1, 2, 2, 79])
    'M0 0h100v50z'
    """
    points = np.rint(np.asarray(vertices)).astype(int).tolist()
    kinds = [Path.MOVETO] + [Path.LINETO] * (len(points) - 1)
    if codes is not None:
        kinds = np.asarray(codes).tolist()
    written: list[str] = []
    start = here = (0, 0)
    last, number = "", 0
    while number < len(points):
        kind, (x, y) = kinds[number], points[number]
        if kind == Path.STOP:
            break
        count = POINTS.get(kind, 1)
        if kind == Path.MOVETO:
            start, last = (x, y), ""
            written.append(f"M{x} {y}")
        elif kind == Path.CLOSEPOLY:
            (x, y), last = start, ""
            written.append("z")
        else:
            ends = points[number : number + count]
            letter, numbers = _step(STEPS[kind], here, ends)
            written.append((" " if letter == last else letter) + numbers)
            (x, y), last = ends[-1], letter
        here = (x, y)
        number += count
    return "".join(written).replace(" -", "-")


def _step(
    letter: str, here: tuple[int, int], ends: list[tuple[int, int]]
) -> tuple[str, str]:
    """Say one step; a level or upright line needs one number."""
    across, up = ends[0][0] - here[0], ends[0][1] - here[1]
    if letter == "l" and not up:
        return "h", str(across)
    if letter == "l" and not across:
        return "v", str(up)
    return letter, " ".join(f"{x - here[0]} {y - here[1]}" for x, y in ends)
