"""Inside the outlet pipe: the sag that holds water, and the first perforations.

Lengths are in inches, x runs along the pipe and z is up. The numbers are our choice,
made by eye.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

from drawing.light import see
from drawing.scene import Light, Liquid, Scene, Solid
from drawing.shapes import (
    Array,
    Field,
    Paint,
    even,
    ink,
    mix,
    noise,
    single,
    step,
    vector,
)
from drawing.sheet import develop, vignette

RADIUS = 2.0  # of a 4-inch pipe
JOINT = 6.5  # where two lengths meet
FIRST_HOLE, HOLES_APART, HOLE_RADIUS = 4.2, 3.2, 0.36
HOLE_ACROSS, HOLE_DOWN = 0.866, 0.5  # four and eight on a clock face


def settled_pipe() -> Image.Image:
    """Inside a settled pipe: water lies in the sag, before and beyond a joint."""
    return _record(_sagging_tube, _jointed_wall, drop=-2.6, water=-1.8)


def first_perforation() -> Image.Image:
    """Inside the pipe where two rows of holes begin."""
    return _record(_perforated_tube, _perforated_wall, drop=-1.6, water=-1.7)


def _record(tube: Field, paint: Paint, *, drop: float, water: float) -> Image.Image:
    """A sewer camera's picture along a pipe."""
    scene = Scene(
        solids=(Solid(tube, paint, even(0.45), 0.05, 0.35),),
        lights=(Light((-0.4, 0.3, 0.9), (2.3, 2.3, 2.2), 8, shadow=False),),
        eye=(0, 0, 0.25),
        target=(20, 0, drop),
        lens=0.92,
        ambient=(0.06, 0.06, 0.06),
        liquid=Liquid(water, ink(122, 112, 86), 0.4, 0.03, 0.8),
        zenith=(0.0, 0.0, 0.0),
        horizon=(0.0, 0.0, 0.0),
        exposure=1.3,
    )
    return vignette(develop(see(scene), crease=-2, weight=0.4), 0.5)


def _wall(p: Array, invert: Array | float) -> Array:
    """Grey-white plastic with a film that darkens toward the invert."""
    streak = noise(p * vector((0.12, 1, 1)), 0.5)
    clean = mix(ink(228, 228, 222), ink(190, 190, 182), 0.4 + 1.3 * streak)
    high = single(p[:, 2] - invert)
    film = step(high + 0.5 * streak + 0.3 * noise(p, 0.8), 0.8, 0.3)
    fleck = step(noise(p, 0.11, 1), 0.42, 0.47) * step(high, 1.9, 0.9)
    return mix(mix(clean, ink(142, 120, 84), film * 0.75), ink(92, 74, 52), fleck)


def _axis(p: Array) -> Array:
    """Height of the settled pipe's axis."""
    return -1.5 * step(p[:, 0], 2, 13) + 1.6 * step(p[:, 0], 16, 50)


def _sagging_tube(p: Array) -> Array:
    """The settled pipe, narrowed a little by the lip of the joint."""
    lip = 0.06 * step(np.abs(p[:, 0] - JOINT), 0.5, 0.1)
    out = np.hypot(p[:, 1], p[:, 2] - _axis(p))
    return single((RADIUS - lip - out) * 0.8)


def _jointed_wall(p: Array) -> Array:
    """The settled pipe's wall, dark in the seam of the joint."""
    off = np.abs(p[:, 0] - JOINT + 0.04 * noise(p, 0.6))
    seam = step(off, 0.12, 0.07) + 0.35 * step(off, 0.6, 0.1)
    return mix(_wall(p, _axis(p) - RADIUS), ink(64, 57, 48), single(seam * 0.85))


def _holes(p: Array) -> Array:
    """Two rows of round holes through the wall, low on either side."""
    ahead = p[:, 0] - FIRST_HOLE
    along = np.mod(ahead + HOLES_APART / 2, HOLES_APART) - HOLES_APART / 2
    along = np.where(ahead < 0, ahead, along)
    out = HOLE_ACROSS * np.abs(p[:, 1]) - HOLE_DOWN * p[:, 2]
    off = HOLE_DOWN * np.abs(p[:, 1]) + HOLE_ACROSS * p[:, 2]
    side = np.hypot(along, off) - HOLE_RADIUS
    return single(np.maximum(side, 1.0 - out))


def _perforated_tube(p: Array) -> Array:
    """A straight pipe with holes, and stones behind them."""
    out = np.hypot(p[:, 1], p[:, 2])
    stones = 2.5 - out + 0.3 * noise(p, 0.6, 2)
    wall = np.maximum(RADIUS - out, -np.maximum(_holes(p), -stones))
    return single(wall * 0.8)


def _perforated_wall(p: Array) -> Array:
    """The perforated pipe's wall, and dark ground behind the holes."""
    beyond = step(np.hypot(p[:, 1], p[:, 2]), RADIUS + 0.03, RADIUS + 0.07)
    return mix(_wall(p, -RADIUS), ink(58, 48, 38), beyond)
