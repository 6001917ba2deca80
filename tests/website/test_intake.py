"""A picture that is kept carries the picture alone, as another program sees it."""

from __future__ import annotations

import io
import json
import os
import shutil
import struct
import subprocess
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms

from generator.website import photos
from generator.website.intake import KEPT_PX, faults, format_of, stripped
from generator.website.photos import PhotoError

GPS, CAMERA, EXIF, MAKER_NOTE, TIME = 0x8825, 0x0110, 0x8769, 0x927C, 0x0132
LOSSY = ("JPEG", "HEIF", "WEBP")
KINDS = {"JPEG": "a.jpg", "HEIF": "a.heic", "PNG": "a.png", "WEBP": "a.webp"}
# Groups of the program that looks, with the only names each may have. File and System
# are what a file of any picture has: its size on the disk, its format, its dimensions.
PICTURE_ALONE = {
    "ExifTool": {"ExifToolVersion"},
    "System": {
        *("FileName", "Directory", "FileSize", "FileModifyDate", "FileAccessDate"),
        *("FileInodeChangeDate", "FilePermissions"),
    },
    "File": {
        *("FileType", "FileTypeExtension", "MIMEType", "ImageWidth", "ImageHeight"),
        *("EncodingProcess", "BitsPerSample", "ColorComponents", "YCbCrSubSampling"),
    },
    "JFIF": {"JFIFVersion", "ResolutionUnit", "XResolution", "YResolution"},
    "Composite": {"ImageSize", "Megapixels"},
}
TELLING = [
    "-overwrite_original",
    "-XMP-dc:Creator=A. Example (invented)",
    "-XMP-exif:GPSLatitude=46.5",
    "-IFD0:Make=Example (invented)",
    "-ExifIFD:SerialNumber=no such camera",
    "-ExifIFD:DateTimeOriginal=2026:10:06 09:15:00",
    "-GPS:GPSLatitude=46.5",
    "-GPS:GPSLatitudeRef=N",
]
IN_A_JPEG = ["-IPTC:City=Example Township", "-ThumbnailImage<={thumbnail}"]


@pytest.fixture
def exiftool() -> str:
    """The program that looks; a test that needs it is left out where it is not."""
    found = shutil.which("exiftool")
    if not found:
        if os.environ.get("ONLOT_EXIFTOOL") == "required":
            pytest.fail("ONLOT_EXIFTOOL asks for exiftool, and there is none")
        pytest.skip("no exiftool here")
    return found


def telling(kind: str) -> bytes:
    """A picture with a place, a camera, a maker note, a text and a profile."""
    photos.formats()
    exif = Image.Exif()
    exif[CAMERA], exif[TIME] = "a camera that is named", "2026:10:06 09:15:00"
    exif[GPS] = {1: "N", 2: (46.0, 30.0, 15.0), 3: "W", 4: (93.0, 5.0, 7.0)}
    exif[EXIF] = {MAKER_NOTE: b"a note of the maker"}
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    more: dict[str, Any] = {"exif": exif, "icc_profile": srgb}
    if kind in LOSSY:
        more["xmp"] = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'/>"
    if kind == "JPEG":
        more["comment"] = b"a remark"
    return encoded(Image.new("RGB", (400, 300), "#887766"), kind, **more)


def encoded(image: Image.Image, kind: str, **more: Any) -> bytes:
    written = io.BytesIO()
    image.save(written, kind, **more)
    return written.getvalue()


def clean(kind: str = "JPEG", side: int = 64) -> bytes:
    return encoded(Image.new("RGB", (side, 48), "#887766"), kind)


def put(folder: Path, content: bytes, name: str = "lid.jpg") -> Path:
    path = folder / name
    path.write_bytes(content)
    return path


def seen(exiftool: str, path: Path) -> dict[str, set[str]]:
    """What the program finds in a file: names by group."""
    command = [exiftool, "-j", "-G1", "-a", "-u", "-U", "-ee", str(path)]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    [found] = json.loads(run.stdout)
    groups: dict[str, set[str]] = {}
    for whole in found:
        group, _, name = whole.rpartition(":")
        if group:
            groups.setdefault(group, set()).add(name)
    return groups


@pytest.mark.parametrize("kind", KINDS)
def test_another_program_finds_the_picture_alone(
    tmp_path: Path, exiftool: str, kind: str
) -> None:
    path = put(tmp_path, telling(kind), KINDS[kind])
    thumbnail = put(tmp_path, clean(), "thumbnail.jpg")
    if kind != "WEBP":  # which it reads and does not write
        more = [one.format(thumbnail=thumbnail) for one in IN_A_JPEG]
        command = [exiftool, *TELLING, *(more if kind == "JPEG" else []), str(path)]
        subprocess.run(command, check=True, capture_output=True)
    before = seen(exiftool, path)
    assert {"IFD0", "GPS", "ICC-header"} <= set(before)
    if kind == "JPEG":
        assert {"IPTC", "IFD1", "XMP-dc", "ExifIFD"} <= set(before)
        assert "Comment" in before["File"]
    for content in (stripped(path), photos.prepare(path), photos.two_sizes(path).small):
        after = seen(exiftool, put(tmp_path, content, "after.jpg"))
        assert set(after) == set(PICTURE_ALONE)
        for group, names in after.items():
            assert names <= PICTURE_ALONE[group], group


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_of_it_is_left_in_the_bytes(tmp_path: Path, kind: str) -> None:
    path = put(tmp_path, telling(kind), KINDS[kind])
    content = stripped(path)
    assert b"named" in path.read_bytes()
    for word in (b"Exif", b"named", b"maker", b"remark", b"xmp", b"ICC", b"2026"):
        assert word not in content
    assert stripped(path) == content
    assert faults(put(tmp_path, content, "after.jpg")) == ()


def test_the_size_that_is_kept(tmp_path: Path) -> None:
    path = put(tmp_path, clean(side=3000))
    assert faults(path) == (
        "The picture is 3000 by 48 pixels; at most 2560 on the long side are kept.",
    )
    assert Image.open(io.BytesIO(stripped(path))).size == (KEPT_PX, 41)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_alone_has_no_faults(tmp_path: Path, kind: str) -> None:
    assert faults(put(tmp_path, clean(kind))) == ()
    noise = Image.effect_noise((300, 200), 90)
    for mode in ("L", "RGB", "RGBA", "P"):
        if kind == "PNG" or (kind == "WEBP") > (mode in "LP"):
            assert faults(put(tmp_path, encoded(noise.convert(mode), kind))) == ()


@pytest.mark.parametrize("more", [{"progressive": True}, {"optimize": True}])
@pytest.mark.parametrize("mode", ["L", "RGB", "CMYK"])
def test_any_way_to_write_a_jpeg(
    tmp_path: Path, more: dict[str, bool], mode: str
) -> None:
    noise = Image.effect_noise((300, 200), 90).convert(mode)
    assert faults(put(tmp_path, encoded(noise, "JPEG", **more))) == ()


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        (
            "JPEG",
            "The picture carries a position, camera data, an editor's notes, "
            "a color profile and a comment.",
        ),
        ("PNG", "The picture carries a position, a color profile and camera data."),
        (
            "WEBP",
            "The picture carries a position, a color profile, camera data "
            "and an editor's notes.",
        ),
        ("HEIF", "The picture is in the HEIC format, which carries more than it."),
    ],
)
def test_what_it_carries_is_named(tmp_path: Path, kind: str, expected: str) -> None:
    [told] = faults(put(tmp_path, telling(kind)))
    named = told.removeprefix("The picture carries ").rstrip(".")
    words = expected.removeprefix("The picture carries ").rstrip(".")
    assert sorted(named.replace(" and ", ", ").split(", ")) == sorted(
        words.replace(" and ", ", ").split(", ")
    )


def png_chunk(name: bytes) -> bytes:
    whole = clean("PNG")
    check = struct.pack(">I", zlib.crc32(name))
    return whole[:33] + bytes(4) + name + check + whole[33:]


@pytest.mark.parametrize(
    ("content", "word"),
    [
        (clean() + b"a film", "data behind the picture"),
        (clean("PNG") + b"a film", "data behind the picture"),
        (clean("WEBP") + b"a film", "data behind the picture"),
        (png_chunk(b"tIME"), "a time"),
        (png_chunk(b"tEXt"), "a text"),
        (png_chunk(b"prVt"), "side data of a program"),
        (clean()[:2] + b"\xff\xe5\0\x06note" + clean()[2:], "side data of a program"),
        (clean()[:2] + b"\xff\xe0\0\x0aJFXX\0\x10\0\0" + clean()[2:], "a thumbnail"),
        (clean()[:2] + b"\xff\xed\0\x0cPhotoshop " + clean()[2:], "a caption"),
    ],
)
def test_one_thing_too_much(tmp_path: Path, content: bytes, word: str) -> None:
    assert faults(put(tmp_path, content)) == (f"The picture carries {word}.",)


def test_a_second_picture_is_named(tmp_path: Path) -> None:
    both = Image.new("RGB", (64, 48), "red")
    content = encoded(both, "MPO", save_all=True, append_images=[both])
    [told] = faults(put(tmp_path, content))
    assert "more pictures" in told
    assert "data behind the picture" in told


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_file_cut_short_is_told(tmp_path: Path, kind: str) -> None:
    path = put(tmp_path, clean(kind)[:-9])
    with pytest.raises(PhotoError, match="is damaged or was cut short"):
        faults(path)


def test_no_picture_is_told(tmp_path: Path) -> None:
    with pytest.raises(PhotoError, match="is not a JPEG, PNG, WebP or HEIC picture"):
        faults(put(tmp_path, b"words"))
    with pytest.raises(PhotoError, match=r"There is no file"):
        faults(tmp_path / "none.jpg")


def test_a_bomb_is_told_unread(tmp_path: Path) -> None:
    whole = clean("PNG")
    head = b"IHDR" + struct.pack(">II", 12_000, 12_000) + whole[24:29]
    check = struct.pack(">I", zlib.crc32(head))
    with pytest.raises(PhotoError, match="more than 120 million are not taken"):
        faults(put(tmp_path, whole[:12] + head + check + whole[33:]))


def test_format_by_content(tmp_path: Path) -> None:
    assert format_of(put(tmp_path, clean("PNG"), "lid.heic")) == "PNG"
    assert format_of(put(tmp_path, clean("MPO"))) == "JPEG"
