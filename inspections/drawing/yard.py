"""Out in the yard: the well with a tape run to a flag, and the toe of the mound.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

import numpy as np
from PIL import Image

from drawing.growth import Turf, grass, scrub, trees
from drawing.light import View, see
from drawing.materials import (
    AUTUMN_SKY,
    AUTUMN_SUN,
    DEAD_GRASS,
    DRY_GRASS,
    RUST,
    SNOW,
    SOIL,
    STEEL_GREY,
    level,
    snow_on,
)
from drawing.scene import Light, Liquid, Scene, Solid
from drawing.shapes import (
    Array,
    Field,
    across,
    box,
    cord,
    curve,
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
    wash,
)
from drawing.sheet import behind, develop, tape, vignette

FLAG_X, FLAG_Y = 76.0, 230.0
FLAG_ORANGE = wash(ink(226, 108, 50), ink(206, 92, 42), 5)
CONDUIT = curve([(-6, 1, -3), (-6, 1, 12), (-5.2, 0.9, 16), (-4, 0.6, 17.6)])
MUD = wash(ink(52, 42, 30), ink(34, 28, 22), 5)
TOE = 30.0  # how far the mound's toe lies from the origin


def well_head() -> Image.Image:
    """A steel well casing, and a tape run out to a flag in the lawn."""
    lawn = ground(_well_height, 6)
    cloth = box((FLAG_X + 5, FLAG_Y, 31), (5, 0.25, 4))
    stake = pipe((FLAG_X, FLAG_Y, -2), (FLAG_X, FLAG_Y, 36), 0.3)
    conduit = wash(ink(150, 152, 150), ink(132, 134, 132), 5)
    scene = Scene(
        solids=(
            Solid(lawn, _well_lawn, grain=0.5, grain_size=3),
            Solid(pipe((0, 0, -9), (0, 0, 18), 3.5), _casing_steel, even(0.35)),
            Solid(_well_cap(), STEEL_GREY, even(0.4)),
            Solid(cord(CONDUIT, 0.6), conduit),
            Solid(rough(cloth, 6, 0.5), FLAG_ORANGE),
            Solid(stake, RUST),
        ),
        lights=(AUTUMN_SUN,),
        eye=(17, -58, 46),
        target=(17, 50, 8),
        lens=1.5,
        ambient=AUTUMN_SKY,
    )
    view = see(scene)
    picture = develop(view)
    behind(picture, view, trees(picture.size, 0.186), 1400)
    _well_growth(picture, view)
    return vignette(picture, 0.2)


def _well_growth(picture: Image.Image, view: View) -> None:
    """Grass, the tape over it, and a few blades over the tape."""
    lawn = Turf(_well_height, _well_grows, (-160, 260, -40, 420), 7500, 2.6, 0.08)
    close = Turf(_well_height, _well_grows, (-45, 75, -40, 40), 1200, 2.2, 0.055)
    over = Turf(_well_height, _well_grows, (-20, 80, 5, 240), 900, 2.2, 0.09)
    grass(picture, view, lawn)
    grass(picture, view, close, 3)
    share = np.linspace(0, 1, 60)[:, None]
    start, end = vector((3.4, -1, 0)), vector((FLAG_X, FLAG_Y, 0))
    line = single(start * (1 - share) + end * share)
    line[:, 0] += 0.8 * np.sin(share[:, 0] * 9)
    line[:, 2] = _well_height(line) + 1.2
    behind(picture, view, tape(view, line, 0.9, (226, 204, 98)), 74)
    grass(picture, view, over, 2)


def _well_cap() -> Field:
    """A bolted cap on the casing."""
    rim = pipe((0, 0, 17), (0, 0, 19), 4.7, 0, 0.4)
    crown = pipe((0, 0, 18), (0, 0, 20), 3.2, 0, 0.7)
    turns = (0.3 + np.arange(6) * np.pi / 3).tolist()
    spots = [(3.9 * float(np.cos(turn)), 3.9 * float(np.sin(turn))) for turn in turns]
    bolts = [pipe((x, y, 16), (x, y, 19.6), 0.42) for x, y in spots]
    return join(rim, crown, *bolts)


def _casing_steel(p: Array) -> Array:
    """Blue-grey steel that rusts toward the ground."""
    worn = step(p[:, 2] + 5 * noise(p, 3), 9, 3)
    sound = mix(ink(96, 110, 119), ink(122, 134, 141), 0.5 + noise(p, 5))
    return mix(sound, RUST(p), worn * 0.8)


def _well_height(p: Array) -> Array:
    """Height of the lawn, raised a little around the casing. [in]"""
    rise = 3 * np.exp(-((across(p, 0, 0) / 22) ** 2))
    return single(noise(level(p), 60, 2) * 3 + rise)


def _well_lawn(p: Array) -> Array:
    """Dry grass, worn to soil around the casing."""
    return mix(DRY_GRASS(p), SOIL(p), step(across(p, 0, 0) + 8 * noise(p, 6), 11, 5))


def _well_grows(p: Array) -> Array:
    """Chance of grass."""
    return step(noise(p, 22), -0.25, 0.45) * step(across(p, 0, 0), 4, 9)


def mound_toe() -> Image.Image:
    """A long grassed mound with a wet, shining strip at its downhill toe."""
    scene = Scene(
        solids=(Solid(ground(_mound_height, 62, 0.6), _mound, _mound_shine, 0.35, 3),),
        lights=(Light((-0.6, -0.25, 0.5), (0.8, 0.77, 0.7)),),
        eye=(-70, -150, 62),
        target=(10, 60, 12),
        lens=1.35,
        ambient=AUTUMN_SKY,
        liquid=Liquid(-0.1, ink(44, 38, 26), 1.5, 0.03, 6),
    )
    view = see(scene)
    picture = develop(view, 0.2, 0.4)
    behind(picture, view, scrub(picture.size, 0.322), 500)
    slope = (-260.0, 330.0, -30.0, 230.0)
    front = (-200.0, 120.0, -130.0, -20.0)
    grass(picture, view, Turf(_mound_height, _mound_grows, slope, 8000, 3.6, 0.14, 0.6))
    grass(
        picture, view, Turf(_mound_height, _front_grows, front, 3500, 2.6, 0.08, 0.6), 2
    )
    return vignette(picture, 0.2)


def _wet(p: Array) -> Array:
    """Where the toe is wet, 0 to 1."""
    middle = TOE + 10 * noise(p * vector((1, 0, 0)), 70, 1)
    strip = step(np.abs(p[:, 1] - middle) + 12 * noise(level(p), 14), 25, 13)
    return strip * step(np.abs(p[:, 0] - 20), 190, 120)


def _mound_snow(p: Array) -> Array:
    """Where snow still lies, 0 to 1; not on the wet strip."""
    return snow_on(p * np.float32(0.55), 0.18) * step(np.abs(p[:, 1] - TOE), 30, 44)


def _mound_height(p: Array) -> Array:
    """Height of the mound and the ground before it. [in]"""
    up = step(p[:, 1], TOE + 4, 190) * step(p[:, 1], 430, 260)
    ends = step(np.abs(p[:, 0] - 40), 520, 330)
    lie = 46 * up * ends + 0.012 * np.maximum(p[:, 1] - TOE, 0) + 1.6
    lumps = noise(level(p), 45, 2) * 2.2 + 2.2 * _mound_snow(p)
    hollow = _wet(p) * (3.3 + 1.2 * noise(level(p), 16))
    return single(lie + lumps - hollow)


def _mound(p: Array) -> Array:
    """Winter grass, mud where it is wet, and snow."""
    turf = mix(DEAD_GRASS(p), ink(112, 114, 72), 0.3 + noise(p, 30))
    return mix(mix(turf, MUD(p), _wet(p) * 0.92), SNOW(p), _mound_snow(p))


def _mound_shine(p: Array) -> Array:
    """Wet ground shines."""
    return _wet(p) * np.float32(0.7)


def _mound_grows(p: Array) -> Array:
    """Chance of grass."""
    open_ground = step(_mound_snow(p), 0.5, 0.1) * step(_wet(p), 0.7, 0.2)
    return open_ground * step(noise(p, 26), -0.15, 0.5)


def _front_grows(p: Array) -> Array:
    """Chance of grass near the camera."""
    return 0.15 + _mound_grows(p)
