"""A published photograph shows the picture and tells nothing else."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms

from generator.website.photos import PhotoError, prepare, two_sizes

ORIENTATION, GPS, CAMERA = 0x0112, 0x8825, 0x0110
SIDEWAYS = 6  # the camera was turned: the stored left edge is the top (Exif 2.3)


def two_halves() -> Image.Image:
    """Red on the left, blue on the right."""
    image = Image.new("RGB", (400, 200), "red")
    image.paste("blue", (200, 0, 400, 200))
    return image


def opened(content: bytes) -> Image.Image:
    return Image.open(io.BytesIO(content), formats=["JPEG"])


def segments(content: bytes) -> list[int]:
    """Markers of a JPEG up to its picture data (ITU-T T.81, B.1.1.3)."""
    found, at = [], 2
    while content[at + 1] != 0xDA:
        found.append(content[at + 1])
        at += 2 + int.from_bytes(content[at + 2 : at + 4], "big")
    return found


def test_turned_upright_and_stripped(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = SIDEWAYS
    exif[CAMERA] = "a camera that is named"
    exif[GPS] = {1: "N", 2: (46.0, 30.0, 15.0), 3: "W", 4: (93.0, 5.0, 7.0)}
    path = tmp_path / "a.jpg"
    two_halves().save(
        path, exif=exif, comment=b"a remark", dpi=(300, 300), xmp=b"<x:xmpmeta/>"
    )
    assert b"named" in path.read_bytes()
    content = prepare(path)
    image = opened(content)
    assert image.size == (200, 400)
    assert image.getpixel((100, 50))[0] > 200  # red is on top now
    assert image.getpixel((100, 350))[2] > 200
    assert not image.getexif()
    for word in (b"Exif", b"named", b"remark", b"xmp", b"ICC", b"Photoshop"):
        assert word not in content
    assert {marker for marker in segments(content) if marker >= 0xE0} == {0xE0}


def test_colors_of_a_profile_are_kept(tmp_path: Path) -> None:
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB"))
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
    plain, fitting, odd = (tmp_path / name for name in ("p.png", "f.png", "o.png"))
    two_halves().save(plain)
    two_halves().save(fitting, icc_profile=srgb.tobytes())
    two_halves().save(odd, icc_profile=lab.tobytes())  # does not fit an RGB picture
    for path in (fitting, odd):
        content = prepare(path)
        assert opened(content).info.get("icc_profile") is None
        near = zip(
            opened(content).getpixel((50, 50)),
            opened(prepare(plain)).getpixel((50, 50)),
            strict=True,
        )
        assert all(abs(one - other) <= 3 for one, other in near)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_content_counts_not_the_name(tmp_path: Path, kind: str) -> None:
    path = tmp_path / "picture.txt"
    two_halves().save(path, kind)
    assert opened(prepare(path)).size == (400, 200)


@pytest.mark.parametrize(
    ("size", "expected"),
    [
        ((4000, 2000), (1600, 800)),
        ((1000, 3000), (533, 1600)),
        ((300, 200), (300, 200)),
    ],
)
def test_shrunk_never_enlarged(
    tmp_path: Path, size: tuple[int, int], expected: tuple[int, int]
) -> None:
    path = tmp_path / "a.jpg"
    Image.new("RGB", size, "green").save(path)
    assert opened(prepare(path)).size == expected


def test_longest_side_can_be_chosen(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    two_halves().save(path)
    assert opened(prepare(path, longest_px=100)).size == (100, 50)


def test_see_through_is_laid_on_white(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    Image.new("RGBA", (40, 40), (200, 0, 0, 0)).save(path)
    assert opened(prepare(path)).getpixel((20, 20)) == (255, 255, 255)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "I;16"])
def test_gray_pictures_stay_as_light_as_they_were(tmp_path: Path, mode: str) -> None:
    path = tmp_path / "a.png"
    if mode == "I;16":
        Image.frombytes("I;16", (60, 60), struct.pack("<H", 0x8080) * 3600).save(path)
    else:
        Image.new("L", (60, 60), 255 if mode == "1" else 128).convert(mode).save(path)
    red, green, blue = opened(prepare(path)).getpixel((30, 30))
    assert red == green == blue == (255 if mode == "1" else 128)


def test_same_file_same_bytes(tmp_path: Path) -> None:
    first, second = tmp_path / "a.jpg", tmp_path / "b.jpg"
    two_halves().save(first)
    second.write_bytes(first.read_bytes())
    assert prepare(first) == prepare(second) == prepare(first)


def test_text_named_as_a_picture(tmp_path: Path) -> None:
    path = tmp_path / "lid.jpg"
    path.write_text("not a picture")
    with pytest.raises(PhotoError) as refused:
        prepare(path)
    expected = 'The file "lid.jpg" is not a JPEG, PNG, WebP or HEIC picture.'
    assert str(refused.value) == expected


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_cut_short(tmp_path: Path, kind: str) -> None:
    whole = io.BytesIO()
    Image.effect_noise((300, 300), 90).convert("RGB").save(whole, kind)
    path = tmp_path / "lid.jpg"
    path.write_bytes(whole.getvalue()[: len(whole.getvalue()) // 2])
    with pytest.raises(PhotoError) as refused:
        prepare(path)
    assert str(refused.value) == 'The picture "lid.jpg" is damaged or was cut short.'


@pytest.mark.parametrize("side", [12_000, 60_000])
def test_bomb_is_refused_unread(tmp_path: Path, side: int) -> None:
    def chunk(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    header = struct.pack(">IIBBBBB", side, side, 8, 0, 0, 0, 0)
    path = tmp_path / "a.png"
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(bytes(1000)))
        + chunk(b"IEND", b"")
    )
    with pytest.raises(PhotoError, match=r"more than 120 million|far too many pixels"):
        prepare(path)


def test_missing_file_and_folder(tmp_path: Path) -> None:
    with pytest.raises(PhotoError, match=r'There is no file "none\.jpg"'):
        prepare(tmp_path / "none.jpg")
    with pytest.raises(PhotoError, match="cannot be read"):
        prepare(tmp_path)


def test_two_sizes_of_one_file(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = SIDEWAYS
    exif[CAMERA] = "a camera that is named"
    path = tmp_path / "a.jpg"
    Image.new("RGB", (4000, 3000), "red").save(path, exif=exif, comment=b"a remark")
    sizes = two_sizes(path)
    assert opened(sizes.large).size == (1200, 1600)
    assert opened(sizes.small).size == (600, 800)
    assert two_sizes(path) == sizes
    assert sizes.large == prepare(path)
    for content in (sizes.small, sizes.large):
        assert {one for one in segments(content) if one >= 0xE0} == {0xE0}
        assert b"named" not in content


def test_a_small_picture_keeps_its_size_in_both(tmp_path: Path) -> None:
    path = tmp_path / "a.png"
    two_halves().save(path)
    sizes = two_sizes(path)
    assert opened(sizes.small).size == opened(sizes.large).size == (400, 200)
