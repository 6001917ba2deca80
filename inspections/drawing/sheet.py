"""From a drawn view to a finished sheet: tone, ink, layers, plate and file.

The numbers are our choice, made by eye.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from drawing.light import DETAIL, HEIGHT, NOTHING, WIDTH, View
from drawing.shapes import Array, noise, single, vector

Color = tuple[int, int, int]

PLATE_TEXT = "ILLUSTRATION"
PLATE_MARGIN, PLATE_PAD, PLATE_SIZE = 18, 8, 17  # pixels of the finished sheet
BEST_QUALITY, LEAST_QUALITY = 82, 60
MOST_BYTES = 90_000
FADE = 500.0  # no ink beyond about this distance [in]
LINE_COLOUR = vector((38, 34, 32))


def develop(view: View, crease: float = 0.72, weight: float = 0.62) -> Image.Image:
    """The view as a picture, with its edges drawn in ink."""
    light = 1 - np.exp(-view.scene.exposure * np.maximum(view.color, 0))
    tone = np.clip(light, 0, 1) ** (1 / 2.2)
    tone = 255 * (tone - 0.03 * np.sin(2 * np.pi * tone))
    pen = (_lines(view, crease) * weight * _close(view))[..., None]
    tone = tone * (1 - pen) + LINE_COLOUR * pen
    return Image.fromarray(tone.round().astype(np.uint8))


def _close(view: View) -> Array:
    """Ink thins out with distance."""
    return single(np.clip(1.2 - view.distance / FADE, 0, 1))


def _lines(view: View, crease: float) -> Array:
    """How much ink each pixel takes: where a thing ends or folds."""
    edge = np.zeros(view.met.shape, np.bool_)
    for axis in (0, 1):
        other = np.roll(view.facing, 1, axis)
        near = np.minimum(view.distance, np.roll(view.distance, 1, axis))
        jump = np.abs(view.distance - np.roll(view.distance, 1, axis)) / near
        change = view.met != np.roll(view.met, 1, axis)
        fold = np.einsum("ijk,ijk->ij", view.facing, other) < crease
        mark = change | (fold & (view.met != NOTHING)) | (jump > 0.05)
        mark[0, :] = mark[:, 0] = False
        edge |= mark
    sheet = Image.fromarray((edge * 255).astype(np.uint8))
    sheet = sheet.filter(ImageFilter.MaxFilter(3)).filter(ImageFilter.GaussianBlur(0.9))
    return _by_hand(single(np.asarray(sheet) / 255))


def _by_hand(lines: Array) -> Array:
    """Lines that waver and press as a hand does."""
    high, wide = lines.shape
    rows, columns = np.mgrid[0:high, 0:wide]
    flat = np.stack([rows.ravel(), columns.ravel(), 0 * rows.ravel()], 1)
    flat = flat.astype(np.float32)
    sway = (noise(flat, 90, 1) * 4).round().astype(int).reshape(high, wide)
    lift = (noise(flat + 500, 90, 1) * 4).round().astype(int).reshape(high, wide)
    press = 0.85 + 0.6 * noise(flat + 900, 140, 1).reshape(high, wide)
    rows = np.clip(rows + lift, 0, high - 1)
    columns = np.clip(columns + sway, 0, wide - 1)
    return single(np.clip(lines[rows, columns] * press, 0, 1))


def tape(view: View, line: Array, wide: float, color: Color) -> Image.Image:
    """A flat tape along a line of points, ticked each foot, on a clear layer."""
    side = np.gradient(line, axis=0)[:, [1, 0, 2]] * vector((1, -1, 0))
    side = side / np.linalg.norm(side, axis=1, keepdims=True) * wide / 2
    layer = Image.new("RGBA", (WIDTH * DETAIL, HEIGHT * DETAIL))
    pen = ImageDraw.Draw(layer)
    cast = line + vector((wide * 0.35, -wide * 0.1, -0.2))
    for middle, tone in ((cast, (104, 98, 64)), (line, color)):
        left, right = view.project(middle + side), view.project(middle - side)
        edge = np.concatenate([np.stack(left[:2], 1), np.stack(right[:2], 1)[::-1]])
        pen.polygon([(float(x), float(y)) for x, y in edge], fill=tone)
    steps = np.linalg.norm(np.diff(line, axis=0), axis=1)
    along = np.concatenate([[0], np.cumsum(steps)])
    for inch in np.arange(3, along[-1], 3):
        at = vector([np.interp(inch, along, line[:, n]) for n in range(3)])
        over = vector([np.interp(inch, along, side[:, n]) for n in range(3)])
        ends = np.stack([at + over, at + over * (-0.9 if inch % 12 == 0 else 0.1)])
        x, y, far = view.project(ends)
        if inch % 12 == 0 or far[0] < 110:
            mark = [*zip(x.tolist(), y.tolist(), strict=True)]
            pen.line(mark, (60, 52, 40), 1 if far[0] > 150 else DETAIL)
    return layer


def behind(picture: Image.Image, view: View, layer: Image.Image, beyond: float) -> None:
    """Lay a transparent layer behind everything nearer than ``beyond``. [in]"""
    far = Image.fromarray(((view.distance > beyond) * 255).astype(np.uint8))
    clear = Image.new("L", far.size)
    picture.paste(layer, (0, 0), Image.composite(layer.getchannel("A"), clear, far))


def vignette(picture: Image.Image, strength: float) -> Image.Image:
    """Corners darkened, as a lens does."""
    wide, high = picture.size
    y, x = np.mgrid[0:high, 0:wide].astype(np.float32)
    off = np.hypot((x / wide - 0.5) * 1.25, y / high - 0.5) / 0.8
    shade = 1 - strength * np.clip(off, 0, 1) ** 2.4
    tone = np.asarray(picture).astype(np.float32) * shade[..., None]
    return Image.fromarray(tone.round().astype(np.uint8))


def finish(picture: Image.Image, path: Path) -> str:
    """Reduce, add the plate, write, and tell how many bytes it took."""
    sheet = picture.resize((WIDTH, HEIGHT), Image.Resampling.LANCZOS)
    _plate(sheet)
    path.parent.mkdir(parents=True, exist_ok=True)
    for quality in range(BEST_QUALITY, LEAST_QUALITY - 1, -2):
        page = BytesIO()
        sheet.save(page, "JPEG", quality=quality, optimize=True, progressive=True)
        if page.tell() <= MOST_BYTES:
            break
    path.write_bytes(page.getvalue())
    return f"{path.name}: {page.tell()} bytes, quality {quality}"


def _plate(sheet: Image.Image) -> None:
    """Write the word in a small plate at the lower left."""
    font = ImageFont.load_default(PLATE_SIZE)
    word = " ".join(PLATE_TEXT)
    pen = ImageDraw.Draw(sheet)
    left, top, right, bottom = pen.textbbox((0, 0), word, font=font)
    wide, high = right - left + 2 * PLATE_PAD, bottom - top + 2 * PLATE_PAD
    x, y = PLATE_MARGIN, sheet.height - PLATE_MARGIN - high
    pen.rounded_rectangle((x, y, x + wide, y + high), 4, (244, 240, 228), (52, 48, 44))
    at = (x + PLATE_PAD - left, y + PLATE_PAD - top)
    pen.text(at, word, fill=(52, 48, 44), font=font)
