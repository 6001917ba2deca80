"""The concrete tank: its two open access holes, and its eaten-away outlet baffle.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

from drawing.growth import Turf, grass
from drawing.light import see
from drawing.materials import (
    AUTUMN_SKY,
    AUTUMN_SUN,
    CONCRETE,
    DRY_GRASS,
    FLOOR,
    PVC,
    RUST,
    SOIL,
    level,
)
from drawing.scene import Light, Liquid, Scene, Solid
from drawing.shapes import (
    Array,
    Field,
    Vector,
    across,
    box,
    cord,
    curve,
    cut,
    even,
    ground,
    ink,
    join,
    mix,
    noise,
    pipe,
    ring,
    rough,
    single,
    step,
    vector,
    wash,
)
from drawing.sheet import develop, vignette

HOLES = ((-31.0, 10.0), (31.0, 10.0))
COVERS = ((-42.0, -27.0), (62.0, 36.0))
HEAPS = ((42.0, -30.0, 11.0, 1.0), (56.0, -22.0, 9.0, 0.6))  # x, y, reach, share
HOSE: tuple[Vector, ...] = (
    (-120, -30, 1),
    (-96, -36, 1),
    (-74, -22, 1),
    (-62, 2, 1),
    (-50, 11, 2.3),
    (-44, 12, 3.4),
    (-37, 12, 2),
    (-34, 12, -5),
    (-33.6, 12, -9),
)
BAIL: tuple[Vector, ...] = (
    (-4, 0.4, 3),
    (-3.2, 0.4, 5.6),
    (3.2, -0.4, 5.8),
    (4, -0.4, 3),
)


def tank_open() -> Image.Image:
    """Two open access holes in dry grass, their covers and the spoil beside them."""
    pits = [pipe((x, y, FLOOR), (x, y, 30), 13) for x, y in HOLES]
    collars = [pipe((x, y, -14), (x, y, 2.2), 15, 11.5, 0.6) for x, y in HOLES]
    covers = [
        pipe((x, y, 0.4), (x + 0.5, y - 0.4, 3.4), 13.5, 0, 0.5) for x, y in COVERS
    ]
    bails = [
        cord(curve([(x + a, y + b, c) for a, b, c in BAIL]), 0.38) for x, y in COVERS
    ]
    lawn = ground(_lawn_height, 13, 0.6)
    scene = Scene(
        solids=(
            Solid(cut(lawn, *pits), _lawn, grain=0.5, grain_size=3),
            Solid(rough(_clods(), 1.5, 0.35), SOIL, grain=0.4),
            Solid(rough(join(*collars), 2.2, 0.1), CONCRETE, grain=0.25),
            Solid(rough(join(*covers), 2.2, 0.08), CONCRETE, grain=0.25),
            Solid(join(*bails), RUST),
            Solid(cord([HOSE[-1], (-33.4, 12, -14)], 0.35), PVC, even(0.6)),
            Solid(
                cord(curve(HOSE, 6), 0.6),
                wash(ink(52, 104, 70), ink(44, 92, 62), 9),
                even(0.5),
            ),
        ),
        lights=(AUTUMN_SUN,),
        eye=(-8, -92, 104),
        target=(2, 0, -6),
        lens=1.78,
        ambient=AUTUMN_SKY,
        liquid=Liquid(-11, ink(46, 40, 28), 2.5, 0.08, 4),
    )
    view = see(scene)
    picture = develop(view)
    turf = Turf(_lawn_height, _lawn_grows, (-110, 110, -70, 150), 9000, 2.0, 0.06)
    grass(picture, view, turf)
    return vignette(picture, 0.25)


def _from_holes(p: Array) -> Array:
    """Level distance to the nearer hole. [in]"""
    return np.minimum(across(p, *HOLES[0]), across(p, *HOLES[1]))


def _heap(p: Array) -> Array:
    """Where the spoil lies, 0 to about 1."""
    total = np.zeros(len(p), np.float32)
    for x, y, reach, share in HEAPS:
        total += share * np.exp(-((across(p, x, y) / np.float32(reach)) ** 2))
    return total


def _clods() -> Field:
    """Lumps of soil that rolled off the heap."""
    chance = np.random.default_rng(11)
    turns, reaches = chance.random(16) * 2 * np.pi, 9 + 9 * chance.random(16)
    sizes = 0.7 + 1.3 * chance.random(16)
    lumps = []
    for turn, reach, size in zip(turns.tolist(), reaches, sizes.tolist(), strict=True):
        x = 48 + 1.3 * float(reach * np.cos(turn))
        y = -27 + float(reach * np.sin(turn))
        z = 0.3 + float(_lawn_height(vector((x, y, 0))[None])[0])
        lumps.append(cord([(x, y, z), (x + size * 0.6, y + 0.3, z)], size))
    return join(*lumps)


def _lawn_height(p: Array) -> Array:
    """Height of the ground around the holes. [in]"""
    flat = step(_from_holes(p), 14, 40)
    for x, y in COVERS:
        flat = flat * step(across(p, x, y), 8, 24)
    lie = (noise(level(p), 40, 1) * 2 + 0.4) * flat
    lumps = 8 + 1.3 * noise(level(p), 3, 2) + 3 * noise(level(p), 9, 1)
    return single(lie + _heap(p) * lumps)


def _lawn(p: Array) -> Array:
    """Dry grass, with soil where it was dug and where it lies."""
    bare = step(_from_holes(p) + 10 * noise(p, 9), 26, 17)
    return mix(
        DRY_GRASS(p), SOIL(p), bare + step(_heap(p) * (1 + noise(p, 2)), 0.06, 0.2)
    )


def _lawn_grows(p: Array) -> Array:
    """Chance of grass."""
    grows = step(_from_holes(p) + 10 * noise(p, 9), 19, 32) * step(_heap(p), 0.2, 0.03)
    for x, y in COVERS:
        grows = grows * step(across(p, x, y), 13, 15)
    return grows * step(noise(p, 22), -0.35, 0.4)


def outlet_baffle() -> Image.Image:
    """Down the outlet opening: an eaten-away concrete baffle before the pipe."""
    opening = pipe((0, -13.5, 0), (0, -13.5, 20), 12.5)
    lid = cut(box((0, -20, 12), (60, 22, 2)), opening)
    bore = pipe((0, 70, 2.25), (0, -3, 2.25), 2.2)
    stub = pipe((0, 60, 2.25), (0, -2.6, 2.25), 2.25, 2.0)
    mortar = ring((0, -0.1, 2.25), 2.7, 0.5, 1)
    wire = cord([(5.6, -4.6, 0), (5.4, -4.4, 3.6), (5.0, -3.7, 4.8)], 0.13)
    scum = wash(ink(104, 86, 62), ink(66, 54, 40), 2)
    scene = Scene(
        solids=(
            Solid(cut(box((0, 23, 0), (60, 23, 60)), bore), _end_wall, grain=0.3),
            Solid(_baffle, _worn_concrete, even(0.1), 0.35, 0.4),
            Solid(stub, PVC, even(0.35)),
            Solid(rough(mortar, 0.7, 0.15), CONCRETE),
            Solid(rough(lid, 1.5, 0.08), CONCRETE, grain=0.25),
            Solid(_scum_mat, scum, even(0.15), 0.4, 0.7),
            Solid(wire, RUST),
        ),
        lights=(
            Light((-11, -24, 44), (3.0, 2.8, 2.45), 26),
            Light((8, -20, 26), (0.8, 0.8, 0.76), 20, shadow=False),
        ),
        eye=(2.5, -21, 27),
        target=(0.2, -3.6, 1.2),
        lens=1.95,
        ambient=(0.2, 0.21, 0.22),
        liquid=Liquid(0.5, ink(52, 45, 32), 0.15, 0.05, 3),
    )
    return vignette(develop(see(scene), 0.55), 0.35)


def _eaten_to(p: Array) -> Array:
    """Height to which the baffle still stands. [in]"""
    angle = np.arctan2(p[:, 0], -p[:, 1])
    turns = (-1.2, -0.75, -0.2, 0.5, 1.1, 1.5)
    top = np.interp(angle, turns, (7, 5.6, 2.4, 1.3, 3.6, 5))
    jags = 1.5 * noise(p, 1.7) + 0.7 * noise(p, 0.6, 2)
    return single(top + jags)


def _baffle(p: Array) -> Array:
    """A half-round shell against the end wall, its top broken away."""
    gap = pipe((0, 0, -22), (0, 0, 6), 8.2, 5.9, 0.3)(p)
    near = np.flatnonzero(gap < 1.5)
    broken = (p[near, 2] - _eaten_to(p[near])) * np.float32(0.4)
    gap[near] = np.maximum(gap[near], broken)
    return gap


def _worn_concrete(p: Array) -> Array:
    """Sound grey concrete, pale mortar and bare stones where it broke."""
    fresh = step(p[:, 2] - _eaten_to(p) + noise(p, 1.2), -0.9, -0.3)
    damp = step(p[:, 2] + noise(p, 1.5), 2.4, 0.5)
    mortar = mix(ink(186, 178, 156), ink(150, 142, 122), 0.5 + noise(p, 0.4))
    stone = mix(ink(128, 122, 114), ink(96, 92, 90), noise(p, 2))
    broken = mix(mortar, stone, step(noise(p, 0.7, 1), 0.14, 0.2))
    sound = mix(CONCRETE(p), ink(150, 134, 104), 0.5 + noise(p, 3))
    return mix(mix(sound, broken, fresh), ink(70, 58, 42), damp * 0.85)


def _end_wall(p: Array) -> Array:
    """Concrete, streaked above the liquid and dark near it."""
    damp = step(p[:, 2] + noise(p, 2), 2.4, 0.4)
    streak = noise(p * vector((1, 1, 0.12)), 1.6) + 0.2
    return mix(mix(CONCRETE(p), ink(120, 104, 80), streak), ink(66, 56, 42), damp * 0.8)


def _scum_mat(p: Array) -> Array:
    """Scum that floats on the tank's side of the baffle."""
    lumps = p[:, 2] - 1.15 - noise(p, 2.5) * 0.7
    return single(np.maximum(lumps * 0.6, 7.8 - across(p, 0, 0)))
