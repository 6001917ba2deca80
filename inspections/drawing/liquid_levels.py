"""Liquid too high: at the outlet of the lying tank, and in the pump chamber.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

from drawing.growth import Turf, grass
from drawing.light import see
from drawing.materials import (
    CONCRETE,
    DEAD_GRASS,
    GREEN_PLASTIC,
    ORANGE_PLASTIC,
    PVC,
    RUBBER,
    SNOW,
    SPRING_SKY,
    SPRING_SUN,
    STEEL_GREY,
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
    ring,
    rough,
    single,
    step,
    vector,
)
from drawing.sheet import develop, vignette

HIGH_MARK, LIQUID_NOW = 9.0, 4.3  # above the outlet invert
TANK_TOP = 14.0
CHAMBER_LEVEL = -4.5  # below the rim of the chamber's cover ring
SNOW_LEAST = 0.0
TREE_X, TREE_Y = 3.5, 6.5  # the pipe that the cords are tied to
UPPER_CORD: tuple[Vector, ...] = (
    (11, 6, 0.2),
    (7, 6.6, -0.6),
    (4.6, 6, -0.9),
    (4.5, 5.9, -2.6),
    (4.7, 4.5, -5),
    (4.6, 1.5, -6.2),
    (3.4, -2.2, -7.2),
)
LOWER_CORD: tuple[Vector, ...] = (
    (11, 5.4, 0),
    (7, 7.4, -0.9),
    (4.4, 7, -2),
    (3.2, 5.4, -5),
    (0, 3, -11),
    (-2, 1, -14),
)


def level_after_test() -> Image.Image:
    """Inside the tank at the outlet: liquid stands over the invert of the tee."""
    hatch = pipe((-11, -7, 0), (-11, -7, 80), 13)
    inside = pipe((-110, 0, -16), (0, 0, -16), 30, 0, 8)
    shell = cut(box((-50, 0, -10), (70, 50, 50)), inside, hatch)
    seal = rough(ring((-0.2, 0, 2.25), 2.7, 0.5, 0), 0.8, 0.12)
    scene = Scene(
        solids=(
            Solid(shell, _tank_wall, _tank_shine, 0.12, 0.7),
            Solid(_outlet_tee(), _stained_pvc, even(0.35)),
            Solid(seal, _tank_wall, even(0.2)),
        ),
        lights=(
            Light((-14, -8, 34), (3.0, 2.9, 2.6), 26),
            Light((-16, -15, 13), (0.9, 0.88, 0.82), 14, shadow=False),
        ),
        eye=(-16, -17, 12.6),
        target=(-3.2, 1, 3.6),
        lens=1.2,
        ambient=(0.13, 0.135, 0.14),
        liquid=Liquid(LIQUID_NOW, ink(70, 62, 42), 2.0, 0.05, 4),
    )
    return vignette(develop(see(scene), 0.6), 0.4)


def _outlet_tee() -> Field:
    """A plastic tee: an upright leg, and a branch to the end wall."""
    leg = pipe((-7, 0, -16), (-7, 0, 11), 2.25)
    hub = pipe((-7, 0, -1.8), (-7, 0, 6.2), 2.65, 0, 0.15)
    side_hub = pipe((-7, 0, 2.25), (-3, 0, 2.25), 2.65, 0, 0.15)
    branch = pipe((-7, 0, 2.25), (6, 0, 2.25), 2.25)
    hollow = pipe((-7, 0, -17), (-7, 0, 12), 2.0)
    return cut(join(leg, hub, side_hub, branch), hollow)


def _tank_wall(p: Array) -> Array:
    """Fiberglass, stained up to the high mark; a green riser above the hatch."""
    fibre = noise(p * vector((0.4, 1, 1)), 0.9, 2) * 0.5 + noise(p, 9)
    dry = mix(ink(170, 164, 122), ink(136, 134, 98), 0.5 + fibre)
    run = noise(p * vector((1, 1, 0.1)), 1.3)
    wet = mix(ink(108, 94, 62), ink(74, 64, 44), 0.5 + 1.2 * run)
    edge = p[:, 2] + 0.35 * noise(p, 3)
    wall = mix(dry, wet, step(edge, HIGH_MARK + 0.12, HIGH_MARK - 0.12) * 0.85)
    line = step(np.abs(edge - HIGH_MARK), 0.42, 0.16) * 0.9
    ribs = GREEN_PLASTIC(p) * (1 + 0.35 * np.sin(p[:, 2:] * 2.2))
    above = step(p[:, 2], TANK_TOP + 0.2, TANK_TOP + 0.5)
    return mix(mix(wall, ink(44, 34, 22), line), ribs, above)


def _tank_shine(p: Array) -> Array:
    """The wall still shines where it was wet."""
    return 0.15 + 0.35 * step(p[:, 2], HIGH_MARK, HIGH_MARK - 0.3)


def _stained_pvc(p: Array) -> Array:
    """White plastic, stained up to the high mark."""
    stain = step(p[:, 2] + 1.2 * noise(p, 1.5), HIGH_MARK - 0.3, HIGH_MARK - 2.2)
    return mix(PVC(p), ink(136, 114, 80), stain * 0.75)


def pump_chamber_high() -> Image.Image:
    """The pump chamber from above: nearly full, a float hanging under water."""
    rim = pipe((0, 0, -80), (0, 0, 2), 15, 0, 0.6)
    riser = cut(rim, pipe((0, 0, -90), (0, 0, 9), 12.4))
    lawn = cut(ground(_lawn_height, 4), pipe((0, 0, -90), (0, 0, 9), 14))
    union = pipe((-5.5, 4.5, -7.6), (-5.5, 4.5, -4.9), 2.0, 0, 0.3)
    scene = Scene(
        solids=(
            Solid(lawn, _lawn, grain=0.4, grain_size=3),
            Solid(rough(riser, 2, 0.08), _chamber_wall, even(0.1), 0.2),
            Solid(_pipework(), PVC, even(0.4)),
            Solid(union, STEEL_GREY, even(0.3)),
            Solid(_cords(), RUBBER, even(0.3)),
            Solid(_floats(), ORANGE_PLASTIC, even(0.2)),
        ),
        lights=(
            SPRING_SUN,
            Light((4, -20, 40), (0.7, 0.7, 0.68), 30, shadow=False),
        ),
        eye=(2, -23, 38),
        target=(0, 0.2, -3.5),
        lens=1.5,
        ambient=SPRING_SKY,
        liquid=Liquid(CHAMBER_LEVEL, ink(82, 74, 50), 4.2, 0.03, 6),
    )
    view = see(scene)
    picture = develop(view)
    around = (-40.0, 40.0, -25.0, 60.0)
    grass(picture, view, Turf(_lawn_height, _lawn_grows, around, 2400, 2.0, 0.05, 0.6))
    return vignette(picture, 0.25)


def _pipework() -> Field:
    """The pump's discharge with its elbow, and the pipe that carries the cords."""
    x, y = -5.5, 4.5
    return join(
        pipe((x, y, -70), (x, y, -1.6), 1.2),
        pipe((x, y, -1.6), (-14, 9, -1.6), 1.2),
        pipe((x, y, -3.4), (x, y, -0.2), 1.55, 0, 0.3),
        pipe((-5.9, 4.7, -1.6), (-8, 5.8, -1.6), 1.55, 0, 0.2),
        pipe((TREE_X, TREE_Y, -60), (TREE_X, TREE_Y, 0.6), 0.85),
        pipe((TREE_X, TREE_Y, -0.2), (TREE_X, TREE_Y, 0.9), 1.1, 0, 0.2),
    )


def _cords() -> Field:
    """Two cords, and the ties that hold them to the pipe."""
    ties = [ring((TREE_X, TREE_Y, z), 1.0, 0.2) for z in (-0.9, -2.6, -7.5)]
    tails = [cord([(2.6, 5.8, z), (2.0, 5.0, z + 0.6)], 0.1) for z in (-0.9, -2.6)]
    cords = [cord(curve(line, 5), 0.27) for line in (UPPER_CORD, LOWER_CORD)]
    return join(*ties, *tails, *cords)


def _floats() -> Field:
    """A float under water, and a second one deeper down."""
    return join(
        pipe((3.3, -2.4, -7.2), (2.2, -6.2, -7.6), 1.75, 0, 1.2),
        pipe((3.5, -1.6, -7.2), (3.2, -3.0, -7.3), 0.9, 0, 0.3),
        pipe((-2, 1, -14), (-3.6, -2.6, -14.6), 1.7, 0, 1.2),
    )


def _chamber_wall(p: Array) -> Array:
    """Concrete, stained just above the liquid."""
    stain = step(p[:, 2] + noise(p, 2), -1.6, -2.4)
    return mix(CONCRETE(p), ink(92, 82, 62), stain * 0.8)


def _lawn_height(p: Array) -> Array:
    """Height of the ground around the chamber, with its snow. [in]"""
    off = step(across(p, 0, 0), 15, 22)
    snow = 2.4 * snow_on(p, SNOW_LEAST, 0.3)
    return single((noise(level(p), 30, 1) * 2 + snow) * off - 0.3)


def _lawn(p: Array) -> Array:
    """Winter grass and snow."""
    snow = snow_on(p, SNOW_LEAST) * step(across(p, 0, 0), 16, 18)
    return mix(DEAD_GRASS(p), SNOW(p), snow)


def _lawn_grows(p: Array) -> Array:
    """Chance of grass."""
    return step(snow_on(p, SNOW_LEAST), 0.5, 0.1) * step(across(p, 0, 0), 15.3, 18)
