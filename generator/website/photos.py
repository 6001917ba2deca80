"""A photograph for the web: upright, shrunk, and nothing in it but the picture."""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError, features
from pillow_heif import register_heif_opener

FORMATS = ("JPEG", "PNG", "WEBP")  # and HEIF, and AVIF where pillow reads it
MOST_PIXELS = 120_000_000  # our choice: above a 108-megapixel telephone
LONGEST_PX = 1600  # our choice: sharp on a desk screen, opened large
ON_PAGE_PX = 800  # our choice: sharp where a phone has two dots to a pixel
QUALITY = 82  # our choice: no visible loss at half the size of 95
DRAFT_FACTOR = 2  # our choice: decode at twice the size wanted, then shrink well
PAPER = "white"  # what shows through a transparent picture
WANTED = "is not a JPEG, PNG, WebP or HEIC picture"
BROKEN = "is damaged or was cut short"
STARTS = (b"\xff\xd8\xff", b"\x89PNG", b"RIFF")  # of JPEG, PNG and WebP
AVIF_BRANDS = (b"avif", b"avis")
HEIF_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1")
FILM_BRANDS = (b"qt  ", b"isom", b"iso2", b"mp41", b"mp42", b"avc1", b"M4V ", b"3gp")
BOXED = ("HEIF", "AVIF")
DATA_BOXES = (b"ftyp", b"meta", b"mdat")  # ISO/IEC 14496-12; a trailer may be no box


class PhotoError(Exception):
    """A file that is no usable photograph, told in one plain sentence."""


@dataclass(frozen=True)
class Sizes:
    """One photograph twice: small on its page, and large where it is opened."""

    small: bytes
    large: bytes


def two_sizes(path: Path) -> Sizes:
    """Make both JPEGs of a photograph; the file is opened and decoded once.

    Parameters
    ----------
    path : Path
        A JPEG, PNG, WebP or HEIC file; what it holds counts, not what it is called.

    Returns
    -------
    Sizes
        Both as ``prepare`` makes them; a picture below either size keeps its own.

    Raises
    ------
    PhotoError
        If the file is missing, is no such picture, is cut short or is too large.
    """
    picture = _read(path, LONGEST_PX)
    large = _written(picture)
    picture.thumbnail((ON_PAGE_PX, ON_PAGE_PX), Image.Resampling.LANCZOS)
    return Sizes(_written(picture), large)


def prepare(
    path: Path, *, longest_px: int = LONGEST_PX, quality: int = QUALITY
) -> bytes:
    """Make a JPEG that shows the picture and tells nothing else.

    Parameters
    ----------
    path : Path
        A JPEG, PNG, WebP or HEIC file; what it holds counts, not what it is called.
    longest_px : int
        Longest side of the result; a smaller picture keeps its size. [px]
    quality : int
        How finely the JPEG keeps the picture, from 1 to 95. [-]

    Returns
    -------
    bytes
        A JPEG in sRGB without place, time, camera, comment or color profile, the same
        bytes for the same file every time.

    Raises
    ------
    PhotoError
        If the file is missing, is no such picture, is cut short or is too large.
    """
    return _written(_read(path, longest_px), quality)


def reason(path: Path, error: Exception) -> str:
    """Say in one plain sentence why a file could not be read as a photograph."""
    if isinstance(error, FileNotFoundError):
        return f'There is no file "{path.name}".'
    if isinstance(error, Image.DecompressionBombError):
        return f'The picture "{path.name}" has far too many pixels.'
    if isinstance(error, MemoryError):
        return f'The picture "{path.name}" needs more memory than there is here.'
    try:
        with path.open("rb") as file:
            start = file.read(12)
    except OSError as failure:
        return f'The file "{path.name}" cannot be read: {failure.strerror}.'
    if not start:
        return f'The file "{path.name}" is empty.'
    return _reason_by_start(path.name, start, error)


def _reason_by_start(name: str, start: bytes, error: Exception) -> str:
    brand = start[8:12] if start[4:8] == b"ftyp" else b""
    if brand.startswith(FILM_BRANDS) or start[4:8] in {b"moov", b"wide"}:
        return f'The file "{name}" is a film; only a still picture can be taken.'
    if brand in AVIF_BRANDS and "AVIF" not in formats():
        return f'The picture "{name}" is in the AVIF format; save it as JPEG.'
    known = brand in AVIF_BRANDS + HEIF_BRANDS or start.startswith(STARTS)
    if isinstance(error, UnidentifiedImageError) and not known:
        return f'The file "{name}" {WANTED}.'
    return f'The picture "{name}" {BROKEN}.'


def refuse_too_large(size: tuple[int, int], name: str) -> None:
    """Refuse a picture of more pixels than are taken, before it is decoded.

    Parameters
    ----------
    size : tuple of int
        Width and height. [px]
    name : str
        What the file is called.

    Raises
    ------
    PhotoError
        Above ``MOST_PIXELS``.
    """
    width, height = size
    if width * height > MOST_PIXELS:
        raise PhotoError(
            f'The picture "{name}" is {width} by {height} pixels; more than '
            f"{MOST_PIXELS // 1_000_000} million are not taken."
        )


@cache
def formats() -> tuple[str, ...]:
    """Name the formats that can be read; the reader of HEIF is made known once.

    Of a HEIF file the picture itself is read, never its thumbnail or its depth.
    """
    register_heif_opener(thumbnails=False, depth_images=False, aux_images=False)
    avif = ("AVIF",) if features.check("avif") else ()
    return (*FORMATS, *avif, "HEIF")


def _read(path: Path, longest_px: int) -> Image.Image:
    """The picture of a file, or one plain sentence on why there is none."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # damaged side data that is dropped anyway
        try:
            with Image.open(path, formats=formats()) as image:
                if image.format in BOXED and _cut_short(path):
                    raise PhotoError(f'The picture "{path.name}" {BROKEN}.')
                return _picture(image, path.name, longest_px)
        except PhotoError:
            raise
        except Exception as error:  # a decoder may raise anything on a damaged file
            raise PhotoError(reason(path, error)) from error


def _cut_short(path: Path) -> bool:
    """Whether a box of the file says that it is longer than the file.

    A picture in tiles, as telephones make it, is else read with the last tiles gray.
    """
    size, at = path.stat().st_size, 0
    with path.open("rb") as file:
        while at + 8 <= size:
            file.seek(at)
            head = file.read(16)
            length = int.from_bytes(head[:4], "big")
            if length == 1:  # the length stands behind the name
                length = int.from_bytes(head[8:16], "big")
            if head[4:8] in DATA_BOXES and at + length > size:
                return True
            if length < 8:  # up to the end of the file, or no box
                return False
            at += length
    return False


def _written(picture: Image.Image, quality: int = QUALITY) -> bytes:
    """The picture as the bytes of a JPEG."""
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=quality, optimize=True)
    return written.getvalue()


def _picture(image: Image.Image, name: str, longest_px: int) -> Image.Image:
    """The picture alone: upright, no larger than wanted, RGB.

    It is shrunk first, so that all that follows takes little memory.
    """
    refuse_too_large(image.size, name)
    width, height = image.size
    profile = image.info.get("icc_profile")
    share = longest_px * DRAFT_FACTOR / max(width, height)
    image.draft(None, (max(int(width * share), 1), max(int(height * share), 1)))
    small = _of_many_shades(image)
    small.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
    upright = small if image.format == "HEIF" else _turned(small)
    if "A" in upright.mode.upper() and upright.mode != "LAB":
        upright = _on_paper(upright)
    colors = _in_srgb(upright, profile)
    alone = Image.new("RGB", colors.size)
    alone.paste(colors)  # a new image, so that nothing of the old file's rides along
    return alone


def _of_many_shades(image: Image.Image) -> Image.Image:
    """The picture in a mode that can be shrunk well."""
    if image.mode in {"P", "PA"}:
        return image.convert("RGBA")
    if image.mode.startswith("I;16"):  # grays of 16 bits, where a screen has 8
        return image.point(lambda gray: gray / 256).convert("L")
    return image.convert("L") if image.mode == "1" else image


def _turned(image: Image.Image) -> Image.Image:
    """The picture upright by its EXIF data; its own reader turns a HEIF picture."""
    try:
        return ImageOps.exif_transpose(image)
    except Exception:  # damaged side data may raise anything; the picture is whole
        return image


def _on_paper(image: Image.Image) -> Image.Image:
    """A see-through picture laid on white."""
    see_through = image.convert("RGBA")
    paper = Image.new("RGBA", see_through.size, PAPER)
    return Image.alpha_composite(paper, see_through).convert("RGB")


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The picture's colors as a browser without a profile shows them rightly."""
    if profile:
        try:
            converted = ImageCms.profileToProfile(
                image,
                ImageCms.ImageCmsProfile(io.BytesIO(profile)),
                ImageCms.createProfile("sRGB"),
                outputMode="RGB",
            )
        except (ImageCms.PyCMSError, OSError):
            converted = None  # a profile that does not fit: take the numbers as sRGB
        if converted is not None:
            return converted
    return image.convert("RGB")
