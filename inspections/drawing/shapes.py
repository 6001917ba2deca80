"""Solids as distance fields, with the noise and the colors that cover them.

Lengths are in inches, z is up, colors are linear light between 0 and 1. Nothing here
is measured: the numbers are our choice, made by eye.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float32]
Vector = tuple[float, float, float]
Field = Callable[[Array], Array]  # one number for each point
Paint = Callable[[Array], Array]  # one color for each point

GRID = 32  # the noise repeats after so many lumps
LATTICE = np.pad(
    np.random.default_rng(1979).random((GRID, GRID, GRID)).astype(np.float32),
    (0, 1),
    mode="wrap",
).ravel()
GUARD = 3.0  # inside this distance a cord is measured exactly [in]
UP, OVER = GRID + 1, (GRID + 1) ** 2  # from one lattice point to its neighbours


def noise(points: Array, size: float, octaves: int = 3) -> Array:
    """Smooth seeded noise, about -0.5 to 0.5, with lumps of ``size`` [in]."""
    total = np.zeros(len(points), np.float32)
    for octave in range(octaves):
        where = points.T * np.float32(2**octave / size) + np.float32(17.3 * octave)
        floor = np.floor(where)
        x, y, z = where - floor
        x, y, z = x * x * (3 - 2 * x), y * y * (3 - 2 * y), z * z * (3 - 2 * z)
        i, j, k = floor.astype(np.int32) & (GRID - 1)
        at = i * OVER + j * UP + k
        corner = [
            LATTICE.take(at + n + m) for n in (0, 1, UP, UP + 1) for m in (0, OVER)
        ]
        low, high, low_y, high_y = (
            a + (b - a) * x for a, b in zip(corner[::2], corner[1::2], strict=True)
        )
        low += (low_y - low) * y
        high += (high_y - high) * y
        total += (low + (high - low) * z - 0.5) * np.float32(0.5**octave)
    return total


def ink(red: int, green: int, blue: int) -> Vector:
    """A screen color as linear light."""
    r, g, b = ((value / 255) ** 2.2 for value in (red, green, blue))
    return r, g, b


def mix(first: Array | Vector, second: Array | Vector, share: Array) -> Array:
    """Two colors mixed by a share between 0 and 1 at each point."""
    part = np.clip(share, 0, 1)[:, None]
    one, two = single(first), single(second)
    return single(one * (1 - part) + two * part)


def step(value: Array, low: float, high: float) -> Array:
    """A smooth step from 0 at ``low`` to 1 at ``high``."""
    part = np.clip((value - np.float32(low)) / np.float32(high - low), 0, 1)
    return single(part * part * (3 - 2 * part))


def wash(first: Vector, second: Vector, size: float, contrast: float = 1.6) -> Paint:
    """A paint that wanders between two colors."""
    return lambda p: mix(first, second, 0.5 + contrast * noise(p, size))


def even(value: float) -> Field:
    """The same number at every point."""
    return lambda p: np.full(len(p), value, np.float32)


def across(p: Array, x: float, y: float) -> Array:
    """Level distance of each point from an upright line at x and y. [in]"""
    return single(np.hypot(p[:, 0] - x, p[:, 1] - y))


def single(value: ArrayLike) -> Array:
    """Numbers at the precision that all drawing uses."""
    return np.asarray(value, np.float32)


def length(vectors: Array) -> Array:
    """Length of each vector. [in]"""
    return single(np.sqrt(np.einsum("ij,ij->i", vectors, vectors)))


def unit(vectors: Array) -> Array:
    """Each vector at length one."""
    return single(vectors / np.maximum(length(vectors), 1e-9)[:, None])


def vector(value: Sequence[float]) -> Array:
    """A plain tuple as an array."""
    return single(value)


def _most(vectors: Array) -> Array:
    """The largest part of each vector."""
    x, y, z = vectors.T
    return single(np.maximum(np.maximum(x, y), z))


def _outside(first: Array, second: Array) -> Array:
    """Distance to a shape that is the meeting of two slabs."""
    beyond = np.sqrt(np.maximum(first, 0) ** 2 + np.maximum(second, 0) ** 2)
    return single(beyond + np.minimum(np.maximum(first, second), 0))


def box(centre: Vector, half: Vector, rounding: float = 0.0) -> Field:
    """An upright box with rounded edges."""

    def distance(p: Array) -> Array:
        q = np.abs(p - vector(centre)) - vector(half) + np.float32(rounding)
        inside = np.minimum(_most(q), 0)
        return length(np.maximum(q, 0)) + inside - np.float32(rounding)

    return distance


def pipe(
    start: Vector, end: Vector, radius: float, bore: float = 0.0, rounding: float = 0.0
) -> Field:
    """A round bar from start to end, hollow when it has a bore."""
    axis = vector(end) - vector(start)
    reach = np.float32(np.linalg.norm(axis))
    axis = axis / reach
    middle = np.float32((radius + bore) / 2 if bore else 0)
    half = np.float32((radius - bore) / 2 if bore else radius) - np.float32(rounding)

    def distance(p: Array) -> Array:
        q = p - vector(start)
        along = q @ axis
        across = np.sqrt(np.maximum(np.einsum("ij,ij->i", q, q) - along**2, 0))
        ends = np.abs(along - reach / 2) - reach / 2 + np.float32(rounding)
        return _outside(np.abs(across - middle) - half, ends) - np.float32(rounding)

    return distance


def cord(points: Sequence[Vector], radius: float, piece: int = 6) -> Field:
    """A hose, a cord or a twig through the points."""
    starts = range(0, len(points) - 1, piece)
    runs = [points[i : i + piece + 1] for i in starts]
    pieces = [_guard(_runs(run, radius), run, radius) for run in runs]
    return pieces[0] if len(runs) == 1 else _guard(join(*pieces), points, radius)


def _runs(points: Sequence[Vector], radius: float) -> Field:
    """Straight runs from point to point."""
    knots = [vector(point) for point in points]

    def distance(p: Array) -> Array:
        best = np.full(len(p), 1e9, np.float32)
        for one, two in pairwise(knots):
            run = two - one
            q = p - one
            along = np.clip(q @ run / (run @ run), 0, 1)
            best = np.minimum(best, length(q - along[:, None] * run))
        return best - np.float32(radius)

    return distance


def _guard(shape: Field, points: Sequence[Vector], radius: float) -> Field:
    """The shape, asked only by points near the box that holds it."""
    low, high = np.min(points, axis=0) - radius, np.max(points, axis=0) + radius
    middle = ((low + high) / 2).astype(np.float32)
    half = ((high - low) / 2).astype(np.float32)

    def distance(p: Array) -> Array:
        far = _most(np.abs(p - middle) - half)
        close = np.flatnonzero(far < GUARD)
        if len(close):
            far[close] = shape(p[close])
        return far

    return distance


def curve(points: Sequence[Vector], pieces: int = 8) -> list[Vector]:
    """A smooth line through the points."""
    ends = [points[0], *points, points[-1]]
    knots = [np.asarray(point, np.float64) for point in ends]
    line: list[Vector] = []
    for a, b, c, d in zip(knots, knots[1:], knots[2:], knots[3:], strict=False):
        for t in np.arange(pieces) / pieces:
            bend = (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * (b - c) + d - a) * t**3
            x, y, z = (b + 0.5 * ((c - a) * t + bend)).tolist()
            line.append((x, y, z))
    return [*line, points[-1]]


def ring(centre: Vector, radius: float, thickness: float, lie: int = 2) -> Field:
    """A round ring whose axis is x (0), y (1) or z (2)."""

    def distance(p: Array) -> Array:
        q = p - vector(centre)
        across = length(np.delete(q, lie, axis=1)) - np.float32(radius)
        return single(np.hypot(across, q[:, lie]) - thickness)

    return distance


def join(*shapes: Field) -> Field:
    """All shapes as one."""

    def distance(p: Array) -> Array:
        best = shapes[0](p)
        for shape in shapes[1:]:
            best = np.minimum(best, shape(p))
        return best

    return distance


def cut(shape: Field, *tools: Field) -> Field:
    """The shape without what lies inside the tools."""
    tool = join(*tools)
    return lambda p: np.maximum(shape(p), -tool(p))


def rough(shape: Field, size: float, depth: float, octaves: int = 3) -> Field:
    """The shape with an uneven surface."""

    def distance(p: Array) -> Array:
        far = shape(p) - np.float32(depth)
        close = far < depth
        lumps = noise(p[close], size, octaves) * np.float32(2 * depth)
        far[close] = far[close] + np.float32(depth) - lumps
        far[close] *= np.float32(0.7)
        return far

    return distance


def ground(height: Field, top: float, slack: float = 0.8) -> Field:
    """Everything below a surface that depends on x and y and stays below ``top``."""

    def distance(p: Array) -> Array:
        far = p[:, 2] - np.float32(top)
        close = far < max(2.0, top)
        far[close] = p[close, 2] - height(p[close])
        return far * np.float32(slack)

    return distance
