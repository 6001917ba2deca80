"""Colors of the stuff on site, its weather, and where snow still lies.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

from drawing.scene import Light
from drawing.shapes import Array, ink, noise, step, vector, wash

FLOOR = -400.0  # far below anything seen [in]

DRY_GRASS = wash(ink(152, 144, 100), ink(118, 118, 80), 14)
DEAD_GRASS = wash(ink(148, 130, 98), ink(112, 99, 72), 12)
SOIL = wash(ink(100, 86, 68), ink(70, 60, 48), 4)
CONCRETE = wash(ink(176, 172, 162), ink(142, 138, 130), 5)
PVC = wash(ink(222, 220, 212), ink(206, 204, 196), 6)
STEEL_GREY = wash(ink(96, 101, 106), ink(76, 82, 86), 3)
RUST = wash(ink(116, 74, 50), ink(82, 56, 42), 2)
RUBBER = wash(ink(40, 40, 42), ink(30, 30, 32), 3)
GREEN_PLASTIC = wash(ink(58, 96, 70), ink(46, 80, 60), 8)
ORANGE_PLASTIC = wash(ink(236, 130, 44), ink(218, 110, 34), 3)
FIBERGLASS = wash(ink(150, 146, 112), ink(122, 120, 92), 4)
BARK = wash(ink(128, 104, 80), ink(84, 66, 50), 1.6)
SNOW = wash(ink(240, 243, 248), ink(222, 228, 238), 9)

AUTUMN_SUN = Light((-0.62, 0.3, 0.62), (1.15, 1.05, 0.85))
AUTUMN_SKY = (0.42, 0.46, 0.52)
SPRING_SUN = Light((-0.6, 0.2, 0.75), (0.7, 0.66, 0.58))
SPRING_SKY = (0.54, 0.57, 0.62)


def level(p: Array) -> Array:
    """The points laid on one level, for noise that ignores height."""
    return p * vector((1, 1, 0))


def snow_on(p: Array, least: float, soft: float = 0.05) -> Array:
    """How surely snow still lies at each point, 0 to 1."""
    return step(noise(level(p) + vector((40, 90, 0)), 55, 4), least, least + soft)
