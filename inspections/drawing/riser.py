"""The riser: its broken cover from outside, and the scum at its foot.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

from drawing.growth import Turf, grass
from drawing.light import see
from drawing.materials import (
    BARK,
    DEAD_GRASS,
    FIBERGLASS,
    GREEN_PLASTIC,
    SNOW,
    SOIL,
    SPRING_SKY,
    SPRING_SUN,
    level,
    snow_on,
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
    rough,
    single,
    step,
    vector,
)
from drawing.sheet import develop, vignette

SNOW_LEAST = 0.02
GAP_X, GAP_Y = 3.0, -2.5  # middle of the hole in the cover
GAP_EDGE = (6.8, 5.2, 7.4, 6.0, 8.2, 5.4, 6.6, 4.6, 6.4, 7.6, 5.0, 6.9, 5.6, 6.8)
CRACKS: tuple[tuple[Vector, ...], ...] = (
    ((-2, 1.5, 4), (-5, 4.6, 4), (-7, 5.4, 4), (-11, 9, 4)),
    ((9, -4, 4), (10.6, -3.4, 4), (13, -5, 4)),
    ((4, 3, 4), (3.4, 6, 4), (5, 8.2, 4), (4.6, 10, 4)),
)
BRANCH: tuple[Vector, ...] = (
    (-25, -11, 3.2),
    (-13, -6.5, 5.4),
    (-2, -3.4, 5.9),
    (9, 2.6, 5.7),
    (22, 7.6, 4),
)
TWIG: tuple[Vector, ...] = ((9, 2.6, 5.8), (13, 7, 7.4), (16, 12, 7.2))
STICK_FOOT, STICK_HEAD = vector((1.5, -1.0, -34.0)), vector((7.8, 4.6, 14.0))
SCUM_TOP = -15.0


def broken_riser_cover() -> Image.Image:
    """A green riser at grade, its cover broken through, a branch laid across."""
    well = pipe((0, 0, -60), (0, 0, 9), 12)
    shell = pipe((0, 0, -60), (0, 0, 3.4), 12.4, 11.3, 0.2)
    cover = cut(_ribbed_cover, _gap, *(_flat_cut(crack) for crack in CRACKS))
    branch = join(cord(curve(BRANCH, 5), 0.75), cord(curve(TWIG, 4), 0.38))
    lawn = cut(ground(_lawn_height, 4.5), well)
    scene = Scene(
        solids=(
            Solid(lawn, _lawn, grain=0.4, grain_size=3),
            Solid(shell, _riser_wall, even(0.2)),
            Solid(cover, GREEN_PLASTIC, even(0.3), 0.05, 0.4),
            Solid(_shard, GREEN_PLASTIC, even(0.1)),
            Solid(rough(branch, 1.4, 0.14), BARK, grain=0.4, grain_size=0.6),
        ),
        lights=(SPRING_SUN,),
        eye=(-7, -42, 43),
        target=(0.5, -1, 1),
        lens=1.62,
        ambient=SPRING_SKY,
    )
    view = see(scene)
    picture = develop(view)
    around = (-60.0, 60.0, -40.0, 80.0)
    grass(picture, view, Turf(_lawn_height, _lawn_grows, around, 5000, 2.2, 0.055, 0.6))
    return vignette(picture, 0.25)


def _lawn_height(p: Array) -> Array:
    """Height of the ground around the riser, with its snow. [in]"""
    off = step(across(p, 0, 0), 13, 26)
    snow = 2.2 * snow_on(p, SNOW_LEAST, 0.3)
    return single((noise(level(p), 40, 1) * 2 + snow) * off - 0.4)


def _lawn(p: Array) -> Array:
    """Winter grass, soil at the riser, and snow."""
    out = across(p, 0, 0)
    turf = mix(DEAD_GRASS(p), SOIL(p), step(out + 8 * noise(p, 8), 20, 14))
    return mix(turf, SNOW(p), snow_on(p, SNOW_LEAST) * step(out, 15, 19))


def _lawn_grows(p: Array) -> Array:
    """Chance of grass."""
    bare = step(snow_on(p, SNOW_LEAST), 0.5, 0.1) * step(noise(p, 12), -0.2, 0.4)
    return bare * step(across(p, 0, 0), 12.5, 17)


def _ribbed_cover(p: Array) -> Array:
    """A domed plastic cover with ribs and a rim."""
    out = across(p, 0, 0)
    turn = np.arctan2(p[:, 1], p[:, 0])
    rib = step(np.abs(np.sin(turn * 7)) * out, 3.2, 0.8) * step(out, 11, 10)
    rim = step(np.abs(out - 11.6), 0.8, 0.4)
    top = 4.3 + 0.3 * np.maximum(rib, rim) - 0.004 * out**2
    plate = np.maximum(np.abs(p[:, 2] - top + 0.5) - 0.5, out - 12.8)
    return single(plate * 0.5)


def _gap(p: Array) -> Array:
    """The hole that was broken through the cover."""
    turn = np.arctan2(p[:, 1] - GAP_Y, p[:, 0] - GAP_X)
    edge = np.interp(turn, np.linspace(-np.pi, np.pi, len(GAP_EDGE)), GAP_EDGE)
    return single((across(p, GAP_X, GAP_Y) - edge) * 0.6)


def _flat_cut(line: tuple[Vector, ...]) -> Field:
    """A crack that goes right through."""
    crack = cord(line, 0.14)
    lift = vector((0, 0, 4))
    return lambda p: crack(level(p) + lift)


def _shard(p: Array) -> Array:
    """A piece of the cover that hangs in the hole."""
    turn = np.array([[0.8, 0.1, -0.59], [-0.3, 0.93, -0.25], [0.52, 0.38, 0.77]])
    q = ((p - vector((5.4, 0.6, 0.6))) @ turn.T).astype(np.float32)
    piece = cut(box((0, 0, 0), (2.6, 2.2, 0.4)), box((3, 2.4, 0), (1.6, 1.9, 2)))
    return piece(q) * np.float32(0.8)


def _riser_wall(p: Array) -> Array:
    """Green plastic, black inside where no light comes."""
    dark = step(p[:, 2], 3.2, -1) * step(across(p, 0, 0), 12.2, 11.6)
    return mix(GREEN_PLASTIC(p), ink(8, 9, 8), dark)


def scum_and_sludge() -> Image.Image:
    """Down a riser: a white measuring stick stands in a thick crust of scum."""
    lip = pipe((0, 0, -11.6), (0, 0, -10.4), 14, 11.2)
    shaft = pipe((0, 0, -60), (0, 0, 10), 13)
    lawn = cut(box((0, 0, -4), (60, 60, 4.6)), shaft)
    scene = Scene(
        solids=(
            Solid(
                ground(_crust, SCUM_TOP + 2, 0.45), _crust_color, even(0.12), 0.5, 0.5
            ),
            Solid(_ringed_wall, GREEN_PLASTIC, even(0.25)),
            Solid(_stick, _stick_marks, even(0.2)),
            Solid(lip, FIBERGLASS, even(0.2)),
            Solid(rough(lawn, 5, 0.5), DEAD_GRASS, grain=0.6, grain_size=1.5),
        ),
        lights=(
            Light((-16, -20, 40), (2.1, 2.0, 1.85), 32),
            Light((0, -8, 24), (0.45, 0.45, 0.43), 26, shadow=False),
        ),
        eye=(-1, -8, 21),
        target=(0.8, 0.4, -12),
        lens=1.55,
        ambient=(0.32, 0.33, 0.34),
        liquid=Liquid(SCUM_TOP - 1.6, ink(40, 32, 20), 1, 0.05, 2),
    )
    view = see(scene)
    picture = develop(view, 0.1, 0.5)
    around = (-40.0, 40.0, -30.0, 30.0)
    grass(picture, view, Turf(even(0.6), _rim_grows, around, 1600, 1.6, 0.04, 0.6))
    return vignette(picture, 0.35)


def _rim_grows(p: Array) -> Array:
    """Chance of grass outside the riser."""
    return step(across(p, 0, 0), 14.2, 15)


def _crust(p: Array) -> Array:
    """Height of the scum, poked through around the stick. [in]"""
    flat = level(p)
    hole = step(across(p, 4.0, 1.2) + noise(flat, 1.5), 2.2, 1.2)
    lumps = 1.5 * noise(flat, 4, 2) + 0.9 * noise(flat, 1.3)
    return SCUM_TOP + lumps - 2.4 * hole


def _crust_color(p: Array) -> Array:
    """Brown, dried lighter on top, with pale bits and wet hollows."""
    dry = mix(ink(104, 80, 54), ink(156, 130, 92), 0.45 + 1.5 * noise(p, 4))
    pale = step(noise(p + 50, 1.1), 0.32, 0.42)
    wet = step(p[:, 2], SCUM_TOP - 0.5, SCUM_TOP - 1.4)
    return mix(mix(dry, ink(190, 178, 148), pale * 0.8), ink(46, 34, 22), wet)


def _ringed_wall(p: Array) -> Array:
    """The inside of a plastic riser, ringed for strength."""
    wave = 0.35 * np.sin(p[:, 2] * 1.6)
    wall = np.abs(across(p, 0, 0) - 12.6 + wave) - 0.6
    ends = np.maximum(p[:, 2] - 2, -11 - p[:, 2])
    return single(np.maximum(wall, ends) * 0.7)


def _along_stick(p: Array) -> Array:
    """Points as seen from the stick: across its face, through it, along it."""
    axis = (STICK_HEAD - STICK_FOOT) / np.linalg.norm(STICK_HEAD - STICK_FOOT)
    side = np.cross(axis, vector((-0.35, -0.94, 0)))
    side = side / np.linalg.norm(side)
    q = p - STICK_FOOT
    turned = np.stack([q @ side, q @ np.cross(side, axis), q @ axis], 1)
    return turned.astype(np.float32)


def _stick(p: Array) -> Array:
    """A flat white stick."""
    return box((0, 0, 25), (0.75, 0.22, 25), 0.1)(_along_stick(p))


def _stick_marks(p: Array) -> Array:
    """A mark each inch, a longer one each six, and the stain of the scum."""
    beside, _, along = _along_stick(p).T
    inch = np.abs(np.mod(along + 0.5, 1) - 0.5) < 0.07
    six = np.abs(np.mod(along + 3, 6) - 3) < 0.14
    tick = ((inch & (beside > 0.2)) | six).astype(np.float32)
    stain = step(along + 2.2 * noise(p, 1.1), 25, 20)
    clean = mix(ink(240, 238, 230), ink(40, 38, 36), tick)
    return mix(clean, ink(92, 66, 38), stain * 0.85)
