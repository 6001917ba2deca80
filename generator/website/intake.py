"""What a picture file carries beside its picture, and the file without it."""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterator
from pathlib import Path

from PIL import Image

from generator.website import photos
from generator.website.photos import PhotoError

KEPT_PX = 2560  # our choice: a mark on a lid can still be read, in about a megabyte
KEPT_QUALITY = 90  # our choice: above that of a report, which is made from it
CLEAN_FORMATS = ("JPEG", "PNG", "WEBP")  # whose parts are looked through
POSITION = "a position"
CAMERA, NOTES, PROFILE = "camera data", "an editor's notes", "a color profile"
MORE, TEXT, BEHIND = "more pictures", "a text", "data behind the picture"
GPS_TAG = 0x8825  # Exif 2.3, 4.6.3

# JPEG: ITU-T T.81 table B.1; application segments by the word that they begin with.
START, END, SCAN, COMMENT = 0xD8, 0xD9, 0xDA, 0xFE
APPLICATION = range(0xE0, 0xF0)
PICTURE_SEGMENTS = {(b"JFIF\0", 16), (b"Adobe", 14)}  # with no thumbnail: their lengths
SEGMENT_WORDS = {
    b"Exif": CAMERA,
    b"http://ns.adobe.com/": NOTES,
    b"ICC_PROFILE": PROFILE,
    b"MPF": MORE,
    b"JFXX": "a thumbnail",
    b"Photoshop": "a caption",
}
NEXT_MARKER = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")

# PNG: chunks of the third edition, chapter 11; WebP: RFC 9649, chapter 2.
PNG_START, PNG_END = b"\x89PNG\r\n\x1a\n", b"IEND"
PICTURE_CHUNKS = (
    *(b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM"),
    *(b"sRGB", b"sBIT", b"bKGD", b"pHYs", b"VP8 ", b"VP8L", b"VP8X", b"ALPH"),
)
CHUNK_WORDS = {
    **dict.fromkeys((b"eXIf", b"EXIF"), CAMERA),
    **dict.fromkeys((b"tEXt", b"zTXt", b"iTXt"), TEXT),
    **dict.fromkeys((b"iCCP", b"ICCP"), PROFILE),
    **dict.fromkeys((b"acTL", b"fcTL", b"fdAT", b"ANIM", b"ANMF"), MORE),
    b"XMP ": NOTES,
    b"tIME": "a time",
}


def stripped(path: Path) -> bytes:
    """Make the JPEG that the firm keeps: upright, shrunk, the picture alone.

    Parameters
    ----------
    path : Path
        A JPEG, PNG, WebP or HEIC file; what it holds counts, not what it is called.

    Returns
    -------
    bytes
        At most ``KEPT_PX`` long, the same bytes for the same file every time.

    Raises
    ------
    PhotoError
        If the file is missing, is no such picture, is cut short or is too large.
    """
    return photos.prepare(path, longest_px=KEPT_PX, quality=KEPT_QUALITY)


def format_of(path: Path) -> str:
    """Name the format that a file holds, whatever it is called.

    Raises
    ------
    PhotoError
        If the file is missing or is no picture.
    """
    return _opened(path)[0]


def faults(path: Path) -> tuple[str, ...]:
    """Tell why a picture should be taken in first, in plain sentences.

    Parameters
    ----------
    path : Path
        A picture.

    Returns
    -------
    tuple of str
        None where it carries nothing but the picture and is no larger than kept.

    Raises
    ------
    PhotoError
        If the file is missing, is no picture or is cut short.
    """
    kind, size, has_position = _opened(path)
    if kind not in CLEAN_FORMATS:
        name = "AVIF" if kind == "AVIF" else "HEIC"
        return (f"The picture is in the {name} format, which carries more than it.",)
    found = [POSITION] if has_position else []
    found += [word for word in _carried(path) if word not in found]
    told = [f"The picture carries {_listed(found)}."] if found else []
    if max(size) > KEPT_PX:
        told.append(
            f"The picture is {size[0]} by {size[1]} pixels; "
            f"at most {KEPT_PX} on the long side are kept."
        )
    return tuple(told)


def _opened(path: Path) -> tuple[str, tuple[int, int], bool]:
    """The format, the size and whether there is a position."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # damaged side data, and large pictures
        try:
            with Image.open(path, formats=photos.formats()) as image:
                photos.refuse_too_large(image.size, path.name)
                kind = str(image.format).replace("MPO", "JPEG")
                return kind, image.size, _has_position(image)
        except PhotoError:
            raise
        except Exception as error:  # a decoder may raise anything on a damaged file
            raise PhotoError(photos.reason(path, error)) from error


def _has_position(image: Image.Image) -> bool:
    try:
        return bool(image.getexif().get_ifd(GPS_TAG))
    except Exception:  # damaged side data may raise anything; it is told all the same
        return False


def _listed(words: list[str]) -> str:
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


def _carried(path: Path) -> Iterator[str]:
    """Name what lies in the file beside the picture, in the order of the file."""
    content = path.read_bytes()
    try:
        if content.startswith(PNG_START):
            yield from _in_png(content)
        elif content.startswith(b"RIFF"):
            yield from _in_webp(content)
        else:
            yield from _in_jpeg(content)
    except IndexError:
        raise PhotoError(f'The picture "{path.name}" {photos.BROKEN}.') from None


def _in_jpeg(content: bytes) -> Iterator[str]:
    at = 2
    while content[at + 1] != END:
        marker = content[at + 1]
        if content[at] != 0xFF or marker == START:
            raise IndexError
        if marker == 0xFF:  # padding before a marker
            at += 1
            continue
        length = int.from_bytes(content[at + 2 : at + 4], "big")
        if marker == COMMENT:
            yield "a comment"
        elif marker in APPLICATION:
            yield from _in_segment(content[at + 4 : at + 2 + length], length)
        at += 2 + length
        if marker == SCAN:
            found = NEXT_MARKER.search(content, at)
            at = found.start() if found else len(content)
    if content[at + 2 :]:
        yield BEHIND


def _in_segment(data: bytes, length: int) -> Iterator[str]:
    if any(data.startswith(word) and length == own for word, own in PICTURE_SEGMENTS):
        return
    known = (word for start, word in SEGMENT_WORDS.items() if data.startswith(start))
    yield next(known, "side data of a program")


def _in_png(content: bytes) -> Iterator[str]:
    at, name = len(PNG_START), b""
    while name != PNG_END:
        name = content[at + 4 : at + 8]
        at += 12 + int.from_bytes(content[at : at + 4], "big")
        if at > len(content):
            raise IndexError
        yield from _in_chunk(name)
    if content[at:]:
        yield BEHIND


def _in_webp(content: bytes) -> Iterator[str]:
    at, end = 12, 8 + int.from_bytes(content[4:8], "little")
    if end > len(content):
        raise IndexError
    while at + 8 <= end:
        yield from _in_chunk(content[at : at + 4])
        length = int.from_bytes(content[at + 4 : at + 8], "little")
        at += 8 + length + length % 2
    if content[end:]:
        yield BEHIND


def _in_chunk(name: bytes) -> Iterator[str]:
    if name not in PICTURE_CHUNKS:
        yield CHUNK_WORDS.get(name, "side data of a program")
