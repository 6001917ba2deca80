"""A photograph for the web: upright, shrunk, and nothing in it but the picture."""

from __future__ import annotations

import io
import warnings
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

FORMATS = ("JPEG", "PNG", "WEBP")
MOST_PIXELS = 120_000_000  # our choice: above a 108-megapixel telephone
LONGEST_PX = 1600  # our choice: sharp on a desk screen, opened large
ON_PAGE_PX = 800  # our choice: sharp where a phone has two dots to a pixel
QUALITY = 82  # our choice: no visible loss at half the size of 95
DRAFT_FACTOR = 2  # our choice: decode at twice the size wanted, then shrink well
PAPER = "white"  # what shows through a transparent picture
HEIF_BRANDS = {b"heic", b"heix", b"hevc", b"mif1", b"msf1", b"avif"}  # ISO/IEC 23008-12


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
        A JPEG, PNG or WebP file; what it holds counts, not what it is called.

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


def prepare(path: Path, *, longest_px: int = LONGEST_PX) -> bytes:
    """Make a JPEG that shows the picture and tells nothing else.

    Parameters
    ----------
    path : Path
        A JPEG, PNG or WebP file; what it holds counts, not what it is called.
    longest_px : int
        Longest side of the result; a smaller picture keeps its size. [px]

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
    return _written(_read(path, longest_px))


def _read(path: Path, longest_px: int) -> Image.Image:
    """The picture of a file, or one plain sentence on why there is none."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # damaged side data that is dropped anyway
        try:
            with Image.open(path, formats=FORMATS) as image:
                return _picture(image, path.name, longest_px)
        except PhotoError:
            raise
        except Exception as error:  # a decoder may raise anything on a damaged file
            raise PhotoError(_reason(path, error)) from error


def _written(picture: Image.Image) -> bytes:
    """The picture as the bytes of a JPEG."""
    written = io.BytesIO()
    picture.save(written, "JPEG", quality=QUALITY, optimize=True)
    return written.getvalue()


def _picture(image: Image.Image, name: str, longest_px: int) -> Image.Image:
    """The picture alone: upright, no larger than wanted, RGB."""
    width, height = image.size
    if width * height > MOST_PIXELS:
        raise PhotoError(
            f'The picture "{name}" is {width} by {height} pixels; more than '
            f"{MOST_PIXELS // 1_000_000} million are not taken."
        )
    profile = image.info.get("icc_profile")
    image.draft(None, (longest_px * DRAFT_FACTOR, longest_px * DRAFT_FACTOR))
    upright = ImageOps.exif_transpose(image)
    if upright.mode in {"P", "PA", "LA", "RGBA", "RGBa"}:
        upright = _on_paper(upright)
    elif upright.mode.startswith("I;16"):  # grays of 16 bits, where a screen has 8
        upright = upright.point(lambda gray: gray / 256).convert("L")
    upright.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
    colors = _in_srgb(upright, profile)
    alone = Image.new("RGB", colors.size)
    alone.paste(colors)  # a new image, so that nothing of the old file's rides along
    return alone


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


def _reason(path: Path, error: Exception) -> str:
    """One plain sentence for a file that could not be read."""
    if isinstance(error, FileNotFoundError):
        return f'There is no file "{path.name}".'
    if isinstance(error, Image.DecompressionBombError):
        return f'The picture "{path.name}" has far too many pixels.'
    try:
        with path.open("rb") as file:
            start = file.read(12)
    except OSError as failure:
        return f'The file "{path.name}" cannot be read: {failure.strerror}.'
    if start[4:8] == b"ftyp" and start[8:12] in HEIF_BRANDS:
        return f'The picture "{path.name}" is in the HEIC format; save it as JPEG.'
    if isinstance(error, UnidentifiedImageError):
        return f'The file "{path.name}" is not a JPEG, PNG or WebP picture.'
    return f'The picture "{path.name}" is damaged or was cut short.'
