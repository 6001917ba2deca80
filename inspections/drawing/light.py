"""A small ray marcher: what a camera sees of a scene.

Lengths are in inches and z is up. The numbers are our choice, made by eye.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drawing.scene import Light, Scene, Solid
from drawing.shapes import Array, length, mix, noise, single, unit, vector

Places = NDArray[np.float64]

WIDTH, HEIGHT = 1200, 900
DETAIL = 2  # drawn this many times larger, then reduced
BLOCK = 8  # pixels that share one coarse ray
REACH = 1500.0  # nothing is drawn farther away
SKIN = 0.004  # a ray this near to a solid has met it
NOTHING, LIQUID = -1, -2  # what a ray met, when it was no solid
WATER_BEND = 0.75  # air to water, ratio of the speeds of light
WATER_MIRROR = 0.05  # share of light mirrored straight down; more than clean water


@dataclass(frozen=True)
class View:
    """A drawn scene: color, distance, facing and solid at each pixel."""

    scene: Scene
    color: Array
    distance: Array
    facing: Array
    met: NDArray[np.int32]

    def project(self, points: Array) -> tuple[Array, Array, Array]:
        """Pixel column, pixel row and distance of points."""
        forward, right, up = self.scene.frame()
        q = points - vector(self.scene.eye)
        ahead = np.maximum(q @ forward, 1e-3)
        scale = self.scene.lens * WIDTH * DETAIL / 2 / ahead
        column = single(WIDTH * DETAIL / 2 + q @ right * scale)
        return column, single(HEIGHT * DETAIL / 2 - q @ up * scale), length(q)


def see(scene: Scene) -> View:
    """Draw a scene, a strip of rows at a time."""
    wide, high = WIDTH * DETAIL, HEIGHT * DETAIL
    strips = [_strip(scene, top, 4 * BLOCK) for top in range(0, high, 4 * BLOCK)]
    color, distance, facing, met = (
        np.concatenate(part)[: wide * high] for part in zip(*strips, strict=True)
    )
    return View(
        scene,
        color.reshape(high, wide, 3),
        distance.reshape(high, wide),
        facing.reshape(high, wide, 3),
        met.reshape(high, wide),
    )


def _strip(
    scene: Scene, top: int, rows: int
) -> tuple[Array, Array, Array, NDArray[np.int32]]:
    """Color, distance, facing and solid of a strip of pixels."""
    wide = WIDTH * DETAIL
    eye = vector(scene.eye)
    rays = _rays(scene, np.arange(0.5, wide), top + np.arange(0.5, rows))
    half = BLOCK / 2
    middles = np.arange(half, rows, BLOCK)
    blocks = _rays(scene, np.arange(half, wide, BLOCK), top + middles)
    spread = 1.6 * BLOCK / (scene.lens * wide)
    start = _march(scene, np.broadcast_to(eye, blocks.shape), blocks, 0.02, spread)
    grid = start.reshape(rows // BLOCK, wide // BLOCK)
    begin = np.repeat(np.repeat(grid, BLOCK, 0), BLOCK, 1).reshape(-1)
    origin = np.broadcast_to(eye, rays.shape)
    return _look(scene, origin, rays, begin, deep=True)


def _rays(scene: Scene, columns: Places, rows: Places) -> Array:
    """One ray through each pixel."""
    forward, right, up = scene.frame()
    half = WIDTH * DETAIL / 2
    across = (columns - half) / (half * scene.lens)
    upward = (HEIGHT * DETAIL / 2 - rows) / (half * scene.lens)
    x, y = np.meshgrid(single(across), single(upward))
    flat = forward + x.reshape(-1, 1) * right + y.reshape(-1, 1) * up
    return unit(single(flat))


def _march(
    scene: Scene, origin: Array, rays: Array, begin: Array | float, spread: float = 0.0
) -> Array:
    """Walk along each ray until a solid is near; ``REACH`` when there is none."""
    walked = np.full(len(rays), 0.0, np.float32) + np.float32(begin)
    live = np.flatnonzero(walked < REACH)
    for _ in range(160):
        there = walked[live]
        gap = scene.field(origin[live] + there[:, None] * rays[live])
        gap -= there * np.float32(spread)
        near = gap < SKIN + 0.0002 * there
        walked[live] = np.where(near, there, there + gap)
        live = live[~near & (walked[live] < REACH)]
        if not len(live):
            break
    return single(np.minimum(walked, REACH))


def _look(
    scene: Scene, origin: Array, rays: Array, begin: Array | float, deep: bool
) -> tuple[Array, Array, Array, NDArray[np.int32]]:
    """Color, distance, facing and solid that each ray meets."""
    distance = _march(scene, origin, rays, begin)
    color = scene.sky(rays)
    facing = -rays
    met = np.full(len(rays), NOTHING, np.int32)
    wet = np.zeros(len(rays), np.bool_)
    if scene.liquid and deep:
        drop = np.minimum(rays[:, 2], -1e-6)
        surface = (np.float32(scene.liquid.level) - origin[:, 2]) / drop
        wet = (rays[:, 2] < 0) & (surface > 0) & (surface < distance)
        distance = np.where(wet, surface, distance).astype(np.float32)
    points = origin + distance[:, None] * rays
    hit = np.flatnonzero((distance < REACH) & ~wet)
    color[hit], facing[hit], met[hit] = _shade(scene, points[hit], rays[hit])
    lit = np.flatnonzero(wet)
    if len(lit):
        color[lit], facing[lit] = _wet(scene, points[lit], rays[lit])
        met[lit] = LIQUID
    return color, distance, facing, met


def _wet(scene: Scene, points: Array, rays: Array) -> tuple[Array, Array]:
    """Color and facing of the liquid: what it mirrors over what it hides."""
    liquid = scene.liquid
    assert liquid is not None
    tilt = np.zeros_like(points)
    for column in (0, 1):
        moved = points + np.float32(31.7 * (column + 1))
        tilt[:, column] = liquid.ripple * noise(moved, liquid.ripple_size, 2)
    facing = unit(tilt + vector((0, 0, 1)))
    slope = -np.einsum("ij,ij->i", rays, facing)
    mirrored = rays + 2 * slope[:, None] * facing
    mirrored[:, 2] = np.abs(mirrored[:, 2])
    above = _look(scene, points, mirrored, 0.05, deep=False)[0]
    bent = WATER_BEND * rays
    bent[:, 2] = -np.sqrt(1 - bent[:, 0] ** 2 - bent[:, 1] ** 2)
    below, path, _, _ = _look(scene, points, bent, 0.05, deep=False)
    glow = _lit(scene, points, facing) * vector(liquid.color)
    under = mix(glow, below, np.exp(-path / np.float32(liquid.sight)))
    mirror = WATER_MIRROR + (1 - WATER_MIRROR) * (1 - np.clip(slope, 0, 1)) ** 5
    return mix(under, above, mirror) + _glint(scene, points, mirrored), facing


def _shade(
    scene: Scene, points: Array, rays: Array
) -> tuple[Array, Array, NDArray[np.int32]]:
    """Color, facing and number of the solid at each point."""
    gaps = np.stack([solid.shape(points) for solid in scene.solids])
    met = gaps.argmin(axis=0).astype(np.int32)
    albedo, facing = np.zeros_like(points), np.zeros_like(points)
    shine = np.zeros(len(points), np.float32)
    for number, solid in enumerate(scene.solids):
        mine = np.flatnonzero(met == number)
        if len(mine):
            p = points[mine]
            albedo[mine], shine[mine] = solid.paint(p), solid.shine(p)
            facing[mine] = _facing(solid, p)
    glance = 1 - np.clip(-np.einsum("ij,ij->i", rays, facing), 0, 1)
    mirrored = rays + 2 * (1 - glance)[:, None] * facing
    gleam = shine * (0.06 + 0.94 * glance**4)
    color = albedo * _lit(scene, points, facing)
    color += _glint(scene, points, mirrored) * shine[:, None]
    around = scene.sky(mirrored) * vector(scene.ambient) * 1.6
    return mix(color, around, gleam), facing, met


def _facing(solid: Solid, points: Array) -> Array:
    """The way a solid's surface faces, roughened by its grain."""
    facing = np.zeros_like(points)
    for corner in ((1, -1, -1), (-1, -1, 1), (-1, 1, -1), (1, 1, 1)):
        push = vector(corner) * np.float32(0.02)
        facing += vector(corner) * solid.shape(points + push)[:, None]
    facing = unit(facing)
    if solid.grain:
        for column in range(3):
            moved = points + np.float32(11.3 * (column + 1))
            facing[:, column] += solid.grain * noise(moved, solid.grain_size)
        facing = unit(facing)
    return facing


def _lit(scene: Scene, points: Array, facing: Array) -> Array:
    """Light that falls on each point, from the sky and from every light."""
    open_sky = np.ones(len(points), np.float32)
    for away in (0.4, 1.2, 3.0, 7.0):
        gap = scene.field(points + facing * np.float32(away))
        open_sky -= np.clip(away - gap, 0, away) / np.float32(away) * 0.22
    half = 0.65 + 0.35 * facing[:, 2]
    total = (np.maximum(open_sky, 0.08) * half)[:, None] * vector(scene.ambient)
    for light in scene.lights:
        way, far, strength = _toward(light, points)
        falls = np.clip(np.einsum("ij,ij->i", way, facing), 0, 1) * strength
        if light.shadow:
            lit = np.flatnonzero(falls > 0.002)
            start = points[lit] + facing[lit] * np.float32(0.05)
            falls[lit] *= _shadow(scene, start, way[lit], far[lit])
        total += falls[:, None] * vector(light.color)
    return single(total)


def _toward(light: Light, points: Array) -> tuple[Array, Array, Array]:
    """The way to a light, how far it is, and how strong it is there."""
    if light.reach is None:
        way = np.broadcast_to(vector(light.place), points.shape)
        ones = np.ones(len(points), np.float32)
        return unit(way), ones * REACH, ones
    way = vector(light.place) - points
    far = length(way)
    strength = 1 / (1 + (far / np.float32(light.reach)) ** 2)
    return unit(way), far, single(strength)


def _shadow(scene: Scene, start: Array, way: Array, far: Array) -> Array:
    """Share of a light that reaches each point, soft at the edge."""
    share = np.ones(len(start), np.float32)
    walked = np.full(len(start), 0.05, np.float32)
    live = np.arange(len(start))
    for _ in range(40):
        gap = scene.field(start[live] + walked[live][:, None] * way[live])
        share[live] = np.minimum(share[live], 14 * gap / walked[live])
        walked[live] += np.clip(gap, 0.06, 60)
        limit = np.minimum(far[live], 300)
        live = live[(share[live] > 0.01) & (walked[live] < limit)]
        if not len(live):
            break
    return np.clip(share, 0, 1)


def _glint(scene: Scene, points: Array, mirrored: Array) -> Array:
    """Highlights of the lights on a shining surface."""
    total = np.zeros_like(points)
    for light in scene.lights:
        way, _, strength = _toward(light, points)
        toward = np.clip(np.einsum("ij,ij->i", way, mirrored), 0, 1)
        total += (toward**60 * strength)[:, None] * vector(light.color) * 0.5
    return total
