"""A scene: solids, lights, one liquid at most, and the camera before them.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from drawing.shapes import (
    Array,
    Field,
    Paint,
    Vector,
    even,
    ink,
    join,
    mix,
    single,
    step,
    vector,
)

ZENITH, HORIZON = ink(158, 184, 208), ink(226, 229, 226)


@dataclass(frozen=True)
class Solid:
    """One shape, its color, its grain and how much it shines."""

    shape: Field
    paint: Paint
    shine: Field = field(default_factory=lambda: even(0.0))
    grain: float = 0.0
    grain_size: float = 1.0


@dataclass(frozen=True)
class Light:
    """A lamp at a place, or the sun in a direction when ``reach`` is none."""

    place: Vector
    color: Vector
    reach: float | None = None
    shadow: bool = True


@dataclass(frozen=True)
class Liquid:
    """A level surface that mirrors, and clouds what lies under it."""

    level: float
    color: Vector
    sight: float  # depth at which about a third of the light is left [in]
    ripple: float = 0.0
    ripple_size: float = 6.0


@dataclass(frozen=True)
class Scene:
    """What stands before the camera, and the camera."""

    solids: tuple[Solid, ...]
    lights: tuple[Light, ...]
    eye: Vector
    target: Vector
    lens: float
    ambient: Vector
    liquid: Liquid | None = None
    zenith: Vector = ZENITH
    horizon: Vector = HORIZON
    exposure: float = 1.5

    def field(self, p: Array) -> Array:
        """Distance to the nearest solid. [in]"""
        return join(*(solid.shape for solid in self.solids))(p)

    def sky(self, rays: Array) -> Array:
        """Color of the sky along each ray."""
        return mix(self.horizon, self.zenith, step(rays[:, 2], -0.02, 0.55))

    def frame(self) -> tuple[Array, Array, Array]:
        """The camera's forward, right and up."""
        forward = vector(self.target) - vector(self.eye)
        forward = forward / np.float32(np.linalg.norm(forward))
        right = np.cross(forward, vector((0, 0, 1)))
        right = vector((right / np.linalg.norm(right)).tolist())
        return forward, right, single(np.cross(right, forward))
