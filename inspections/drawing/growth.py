"""What grows: grass on the ground, larches and alder scrub behind it.

The numbers are our choice, made by eye.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFilter

from drawing.light import DETAIL, WIDTH, View
from drawing.shapes import Array, Field, vector

Mask = NDArray[np.bool_]
Color = tuple[int, int, int]

BLADES = 5  # to a tuft
GOLD = (174, 148, 92)  # larches in October


@dataclass(frozen=True)
class Turf:
    """Where grass grows, how tall, how much of it."""

    height: Field
    where: Field  # chance of a blade, 0 to 1
    spread: tuple[float, float, float, float]  # from x to x, from y to y [in]
    count: int
    tall: float  # [in]
    wide: float = 0.13  # [in]
    droop: float = 0.5


def grass(picture: Image.Image, view: View, turf: Turf, seed: int = 1) -> None:
    """Draw tufts of grass, far ones first, in the color of the ground below."""
    chance = np.random.default_rng(seed)
    roots, lean, tint = _blades(chance, turf)
    order = np.argsort(-view.project(roots)[2], kind="stable")
    roots, lean, tint = roots[order], lean[order], tint[order]
    column, row, open_ = _seen(view, roots)
    knee = view.project(roots + lean * vector((0.4, 0.4, 0.7)))
    tip = view.project(roots + lean)
    ground = np.asarray(picture).astype(np.float32)
    pen = ImageDraw.Draw(picture)
    scale = turf.wide * view.scene.lens * WIDTH * DETAIL / 2
    for i in np.flatnonzero(open_):
        base = ground[int(row[i]), int(column[i])] * tint[i]
        r, g, b = (int(v) for v in np.clip(base, 0, 255))
        thick = min(max(1, round(float(scale / tip[2][i]))), 4)
        bend, end = ((float(at[0][i]), float(at[1][i])) for at in (knee, tip))
        root = (float(column[i]), float(row[i]))
        pen.line([root, bend], fill=(r, g, b), width=thick + (thick > 1))
        pen.line([bend, end], fill=(r, g, b), width=thick)


def _seen(view: View, points: Array, slack: float = 0.008) -> tuple[Array, Array, Mask]:
    """Pixel columns and rows of points, and which of them nothing hides."""
    column, row, distance = view.project(points)
    high, wide = view.distance.shape
    inside = (column >= 0) & (column < wide) & (row >= 0) & (row < high)
    x = np.clip(column, 0, wide - 1).astype(int)
    y = np.clip(row, 0, high - 1).astype(int)
    return column, row, inside & (distance < view.distance[y, x] * (1 + slack) + 0.3)


def _blades(chance: np.random.Generator, turf: Turf) -> tuple[Array, Array, Array]:
    """Root, lean and tint of every blade; a tuft holds several."""
    low_x, high_x, low_y, high_y = turf.spread
    spots = chance.random((turf.count, 3)).astype(np.float32)
    tufts = spots * vector((high_x - low_x, high_y - low_y, 0))
    tufts += vector((low_x, low_y, 0))
    tufts = np.repeat(tufts[turf.where(tufts) > spots[:, 2]], BLADES, axis=0)
    many = len(tufts)
    lean = chance.standard_normal((many, 3)).astype(np.float32) * turf.tall * turf.droop
    roots = tufts + lean * vector((0.35, 0.35, 0))
    roots[:, 2] = turf.height(roots) - 0.1
    lean[:, 2] = turf.tall * (0.4 + 0.6 * chance.random(many))
    tone = 0.8 + 0.5 * chance.random((many, 1)).astype(np.float32)
    warm = chance.random((many, 1)).astype(np.float32) * vector((0.06, 0.03, -0.08))
    return roots, lean, (tone + warm).astype(np.float32)


def trees(size: tuple[int, int], base: float, seed: int = 3) -> Image.Image:
    """A row of larches in autumn gold over undergrowth, on a clear layer."""
    chance = np.random.default_rng(seed)
    wide, high = size
    layer = Image.new("RGBA", size, (*GOLD, 0))
    pen = ImageDraw.Draw(layer)
    for x in chance.random(64) * wide:
        tall = high * (0.06 + 0.1 * chance.random())
        _larch(pen, chance, (x, base * high), tall)
    layer = layer.filter(ImageFilter.GaussianBlur(0.9 * DETAIL))
    brush = _brush(chance, size, base, 0.022, (132, 122, 84))
    return Image.alpha_composite(layer, brush)


def _larch(
    pen: ImageDraw.ImageDraw,
    chance: np.random.Generator,
    foot: tuple[float, float],
    tall: float,
) -> None:
    """One larch: a straight stem, and drooping branches with gaps between."""
    x, y = foot
    gold = vector(GOLD) + vector((20, 16, 8)) * chance.normal()
    haze, full = 0.45 * chance.random(), 0.16 + 0.08 * chance.random()
    pen.line([(x, y), (x, y - tall)], (116, 106, 92, 255), DETAIL)
    for share in np.sort(chance.random(190) ** 0.85):
        reach = tall * full * (1.03 - share) * (0.25 + 0.75 * chance.random())
        side = chance.choice((-1, 1))
        tone = gold * (0.78 + 0.34 * chance.random()) * (0.9 if side > 0 else 1.05)
        r, g, b = (int(v) for v in tone * (1 - haze) + vector((210, 208, 200)) * haze)
        top = y - tall * share
        bough = [(x, top), (x + side * reach * 0.6, top + reach * 0.1)]
        bough.append((x + side * reach, top + reach * 0.45))
        pen.line(bough, (r, g, b, 255), round(1.6 * DETAIL), joint="curve")


def _brush(
    chance: np.random.Generator,
    size: tuple[int, int],
    base: float,
    rise: float,
    color: Color,
) -> Image.Image:
    """A low, soft band of undergrowth, on a clear layer."""
    wide, high = size
    layer = Image.new("RGBA", size, (*color, 0))
    pen = ImageDraw.Draw(layer)
    for share in np.sort(chance.random(3000)):
        x = chance.random() * wide
        y = base * high - rise * high * (1 - share) * chance.random()
        r, g, b = (int(v) for v in vector(color) * (0.84 + 0.28 * chance.random()))
        half = 3 * DETAIL * (0.4 + chance.random())
        pen.ellipse((x - half, y - half, x + half, y + half * 2), (r, g, b, 255))
    return layer.filter(ImageFilter.GaussianBlur(2.4 * DETAIL))


def scrub(size: tuple[int, int], base: float, seed: int = 5) -> Image.Image:
    """Bare alder scrub, on a clear layer."""
    chance = np.random.default_rng(seed)
    wide, high = size
    layer = _brush(chance, size, base, 0.05, (152, 146, 140))
    pen = ImageDraw.Draw(layer)
    for depth, tone in ((0.5, 158), (0.75, 128), (1.0, 92)):
        for x in np.sort(chance.random(26)) * wide:
            for _ in range(5):
                lean = chance.normal(0, 0.22)
                tall = high * depth * (0.10 + 0.09 * chance.random())
                at = (x + chance.normal(0, 8 * DETAIL), base * high)
                _stem(pen, chance, at, lean, tall, 2.4 * depth * DETAIL, tone)
    return layer.filter(ImageFilter.GaussianBlur(0.6 * DETAIL))


def _stem(
    pen: ImageDraw.ImageDraw,
    chance: np.random.Generator,
    at: tuple[float, float],
    lean: float,
    tall: float,
    thick: float,
    tone: int,
) -> None:
    """One bare stem and its twigs."""
    for _ in range(5):
        lean += chance.normal(0, 0.12)
        end = (at[0] + np.sin(lean) * tall / 5, at[1] - np.cos(lean) * tall / 5)
        color = (tone, tone - 8, tone - 14, 255)
        pen.line([at, end], color, max(1, round(thick)))
        if thick > 1.2 and chance.random() < 0.8:
            side = lean + chance.choice((-1, 1)) * (0.4 + 0.4 * chance.random())
            _stem(pen, chance, end, side, tall * 0.45, thick * 0.5, tone)
        at, thick = end, thick * 0.82
