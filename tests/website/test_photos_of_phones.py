"""Photographs as telephones make them: HEIC, several pictures, films, odd files."""

from __future__ import annotations

import io
import struct
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, features
from pillow_heif import from_bytes

from generator.record.wordings import PHOTO_ENDINGS
from generator.website import photos
from generator.website.intake_hook import TELLING
from generator.website.photos import PhotoError, prepare

ORIENTATION = 0x0112
SIDEWAYS = 6  # the stored left edge is the top (Exif 2.3)
FAST = {"preset": "ultrafast"}  # of the encoder; the picture does not matter here
PANORAMA = (15_000, 4_000)  # 60 million pixels
MOST_MEMORY_MB = {"JPEG": 200, "PNG": 450, "WEBP": 1_100, "HEIF": 600}  # our choice
MEASURED = """
import resource, sys
from pathlib import Path
from generator.website.photos import prepare
prepare(Path(sys.argv[1]))
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""
# ICC.1:2001-04, matrix profile: Display P3 primaries, adapted to D50, gamma of 2.2.
P3 = {
    b"rXYZ": (0.51512, 0.24120, -0.00105),
    b"gXYZ": (0.29198, 0.69225, 0.04189),
    b"bXYZ": (0.15710, 0.06657, 0.78407),
    b"wtpt": (0.96420, 1.0, 0.82491),
}
# Linear light of Display P3 in that of sRGB, from the primaries of both.
P3_TO_SRGB = (
    (1.2249, -0.2247, 0.0),
    (-0.0420, 1.0419, 0.0),
    (-0.0197, -0.0786, 1.0979),
)


@pytest.fixture(autouse=True)
def _heif_is_known() -> None:
    photos.formats()


def two_halves(mode: str = "RGB") -> Image.Image:
    """Red on the left, blue on the right."""
    image = Image.new("RGB", (400, 200), "red")
    image.paste("blue", (200, 0, 400, 200))
    return image.convert(mode)


def encoded(image: Image.Image, kind: str = "HEIF", **more: Any) -> bytes:
    written = io.BytesIO()
    if kind == "HEIF":
        more = {"enc_params": FAST, "quality": 60} | more
    image.save(written, kind, **more)
    return written.getvalue()


def put(folder: Path, content: bytes, name: str = "IMG_0001.HEIC") -> Path:
    path = folder / name
    path.write_bytes(content)
    return path


def opened(path: Path) -> Image.Image:
    return Image.open(io.BytesIO(prepare(path)), formats=["JPEG"])


def refusal(path: Path) -> str:
    with pytest.raises(PhotoError) as refused:
        prepare(path)
    return str(refused.value)


def sideways() -> Image.Exif:
    exif = Image.Exif()
    exif[ORIENTATION] = SIDEWAYS
    return exif


def p3_profile() -> bytes:
    def xyz(values: tuple[float, ...]) -> bytes:
        return b"XYZ \0\0\0\0" + struct.pack(">3i", *(round(v * 65536) for v in values))

    gamma = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(2.2 * 256)) + b"\0\0"
    name = b"desc\0\0\0\0" + struct.pack(">I", 3) + b"P3\0" + bytes(78) + b"\0\0\0"
    tags = {key: xyz(values) for key, values in P3.items()}
    tags |= dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), gamma)
    tags |= {b"desc": name, b"cprt": b"text\0\0\0\0(invented)\0\0"}
    at, table, body = 128 + 4 + 12 * len(tags), b"", b""
    for key, data in tags.items():
        table += key + struct.pack(">II", at + len(body), len(data))
        body += data + bytes(-len(data) % 4)
    head = struct.pack(">I4xI", at + len(body), 0x02400000) + b"mntrRGB XYZ "
    head += (
        bytes(12) + b"acsp" + bytes(28) + struct.pack(">3I", 0xF6D6, 0x10000, 0xD32D)
    )
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + table + body


def test_a_job_may_name_what_is_looked_through() -> None:
    assert set(PHOTO_ENDINGS) <= set(TELLING)


@pytest.mark.parametrize("name", ["IMG_0001.HEIC", "lid.heif", "lid.jpg", "lid"])
def test_content_counts_not_the_name(tmp_path: Path, name: str) -> None:
    image = opened(put(tmp_path, encoded(two_halves()), name))
    assert image.size == (400, 200)
    assert image.getpixel((50, 100))[0] > 200


def test_turned_once_where_both_say_so(tmp_path: Path) -> None:
    """A telephone turns the HEIF picture and says the same in its EXIF data."""
    shot = two_halves()
    shot.info["exif"] = sideways().tobytes()
    content = encoded(shot)
    assert b"irot" in content
    assert b"Exif" in content
    image = opened(put(tmp_path, content))
    assert image.size == (200, 400)
    assert image.getpixel((100, 50))[0] > 200  # red is on top


def test_exif_alone_turns_no_heif(tmp_path: Path) -> None:
    """ISO/IEC 23008-12 turns by the picture's own properties."""
    exif = Image.Exif()
    exif[ORIENTATION] = 1
    content = encoded(two_halves(), exif=exif)
    before = struct.pack("<HHIH", ORIENTATION, 3, 1, 1)
    big = struct.pack(">HHIH", ORIENTATION, 3, 1, 1)
    order = "<" if before in content else ">"
    found = before if order == "<" else big
    assert content.count(found) == 1
    turned = struct.pack(f"{order}HHIH", ORIENTATION, 3, 1, SIDEWAYS)
    assert opened(put(tmp_path, content.replace(found, turned))).size == (400, 200)


def test_damaged_side_data_loses_no_picture(tmp_path: Path) -> None:
    content = encoded(two_halves(), "JPEG", exif=b"Exif\0\0no such thing at all")
    assert opened(put(tmp_path, content, "a.jpg")).size == (400, 200)


@pytest.mark.skipif(not features.check("avif"), reason="pillow reads no AVIF here")
def test_avif_where_pillow_reads_it(tmp_path: Path) -> None:
    path = put(tmp_path, encoded(two_halves(), "AVIF", exif=sideways()), "a.avif")
    image = opened(path)
    assert image.size == (200, 400)
    assert image.getpixel((100, 50))[0] > 200


def test_avif_elsewhere_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(photos, "formats", lambda: (*photos.FORMATS, "HEIF"))
    path = put(tmp_path, b"\0\0\0\x18ftypavif" + bytes(40), "a.avif")
    assert refusal(path) == (
        'The picture "a.avif" is in the AVIF format; save it as JPEG.'
    )


@pytest.mark.parametrize("kind", ["MPO", "HEIF"])
def test_the_first_picture_of_several_is_taken(tmp_path: Path, kind: str) -> None:
    other = Image.new("RGB", (80, 60), "green")
    content = encoded(two_halves(), kind, save_all=True, append_images=[other, other])
    assert opened(put(tmp_path, content)).size == (400, 200)


def test_the_primary_picture_of_a_burst_is_taken(tmp_path: Path) -> None:
    first = Image.new("RGB", (80, 60), "green")
    several = {"save_all": True, "append_images": [two_halves()], "primary_index": 1}
    content = encoded(first, **several)
    assert opened(put(tmp_path, content)).size == (400, 200)


def test_a_film_behind_a_picture_is_dropped(tmp_path: Path) -> None:
    film = b"\0\0\0\x14ftypmp42\0\0\0\0isom" + b"a hidden place" * 9
    path = put(tmp_path, encoded(two_halves(), "JPEG") + film, "a.jpg")
    assert b"hidden" not in prepare(path)


@pytest.mark.parametrize("brand", [b"qt  ", b"mp42", b"3gp4"])
def test_a_film_is_refused(tmp_path: Path, brand: bytes) -> None:
    path = put(tmp_path, b"\0\0\0\x14ftyp" + brand + bytes(60), "IMG_0001.MOV")
    assert refusal(path) == (
        'The file "IMG_0001.MOV" is a film; only a still picture can be taken.'
    )


@pytest.mark.parametrize(("mode", "unit"), [("RGB;16", 3), ("RGBA;16", 4), ("L;16", 1)])
def test_ten_bits(tmp_path: Path, mode: str, unit: int) -> None:
    half = struct.pack("<H", 0x8080) * (64 * 64 * unit)
    if mode == "RGBA;16":
        half = struct.pack("<4H", 0x8080, 0x8080, 0x8080, 0xFFFF) * (64 * 64)
    written = io.BytesIO()
    from_bytes(mode=mode, size=(64, 64), data=half).save(written, quality=90)
    image = Image.open(written)
    assert image.info["bit_depth"] == 10
    pixel = opened(put(tmp_path, written.getvalue())).getpixel((32, 32))
    assert all(abs(value - 128) <= 2 for value in pixel)


@pytest.mark.parametrize("kind", ["HEIF", "PNG", "WEBP"])
def test_see_through_is_laid_on_white(tmp_path: Path, kind: str) -> None:
    clear = encoded(Image.new("RGBA", (64, 64), (200, 0, 0, 0)), kind)
    pixel = opened(put(tmp_path, clear)).getpixel((32, 32))
    assert min(pixel) >= 253


def test_a_see_through_picture_is_turned_as_well(tmp_path: Path) -> None:
    content = encoded(two_halves("RGBA"), "PNG", exif=sideways())
    image = opened(put(tmp_path, content, "a.png"))
    assert image.size == (200, 400)
    assert image.getpixel((100, 50))[0] > 200


@pytest.mark.parametrize(("kind", "mode"), [("HEIF", "L"), ("JPEG", "L"), ("PNG", "L")])
def test_gray_stays_gray(tmp_path: Path, kind: str, mode: str) -> None:
    image = opened(put(tmp_path, encoded(Image.new(mode, (64, 64), 128), kind)))
    assert image.mode == "RGB"
    assert all(abs(value - 128) <= 2 for value in image.getpixel((32, 32)))


def test_four_inks(tmp_path: Path) -> None:
    image = Image.new("CMYK", (64, 64), (0, 255, 255, 0))
    red = opened(put(tmp_path, encoded(image, "JPEG"), "a.jpg")).getpixel((32, 32))
    assert red[0] > 240
    assert max(red[1:]) < 15


@pytest.mark.parametrize("kind", ["HEIF", "JPEG", "PNG", "WEBP"])
def test_wide_colors_become_those_of_a_screen(tmp_path: Path, kind: str) -> None:
    wide = (180, 120, 100)
    light = [(value / 255) ** 2.2 for value in wide]
    expected = [
        255
        * sum(share * one for share, one in zip(row, light, strict=True)) ** (1 / 2.2)
        for row in P3_TO_SRGB
    ]
    assert expected[0] - wide[0] > 5  # it would show if the profile were dropped
    flat = Image.new("RGB", (64, 64), wide)
    content = encoded(flat, kind, icc_profile=p3_profile(), quality=95)
    found = opened(put(tmp_path, content)).getpixel((32, 32))
    assert all(abs(a - b) <= 3 for a, b in zip(found, expected, strict=True)), found


@pytest.mark.parametrize("tiles", [{}, {"tile_size": 256}], ids=["whole", "tiles"])
@pytest.mark.parametrize("share", [0.01, 0.1, 0.3, 0.7, 0.99])
def test_cut_short(tmp_path: Path, tiles: dict[str, int], share: float) -> None:
    noise = Image.effect_noise((700, 600), 90).convert("RGB")
    whole = encoded(noise, **tiles)
    path = put(tmp_path, whole[: int(len(whole) * share)])
    assert refusal(path) == ('The picture "IMG_0001.HEIC" is damaged or was cut short.')


def test_bytes_behind_a_heic_are_no_damage(tmp_path: Path) -> None:
    path = put(tmp_path, encoded(two_halves()) + b"SEFT of some telephone")
    assert opened(path).size == (400, 200)


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"", 'The file "lid.jpg" is empty.'),
        (b"\xff\xd8\xff", 'The picture "lid.jpg" is damaged or was cut short.'),
        (b"GIF89a" + bytes(90), 'The file "lid.jpg" is not a JPEG, PNG, WebP or HEIC'),
        (b"\0\0\0\x18ftypcrx " + bytes(90), 'The file "lid.jpg" is not a JPEG, PNG'),
    ],
)
def test_odd_files(tmp_path: Path, content: bytes, expected: str) -> None:
    said = refusal(put(tmp_path, content, "lid.jpg"))
    assert said.startswith(expected)
    assert said.endswith(".")


@pytest.mark.parametrize(
    ("side", "expected"),
    [
        (60_000, 'The picture "IMG_0001.HEIC" has far too many pixels.'),
        (
            12_000,
            'The picture "IMG_0001.HEIC" is 12000 by 12000 pixels; '
            "more than 120 million are not taken.",
        ),
        (10_000, 'The picture "IMG_0001.HEIC" is damaged or was cut short.'),
        (20, 'The picture "IMG_0001.HEIC" is damaged or was cut short.'),
    ],
)
def test_a_size_that_is_not_so(tmp_path: Path, side: int, expected: str) -> None:
    content = encoded(two_halves())
    at = content.index(b"ispe") + 8
    lying = content[:at] + struct.pack(">II", side, side) + content[at + 8 :]
    assert refusal(put(tmp_path, lying)) == expected


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "HEIF", "MPO"])
def test_same_file_same_bytes(tmp_path: Path, kind: str) -> None:
    noise = Image.effect_noise((1700, 900), 60).convert("RGB")
    path = put(tmp_path, encoded(noise, kind))
    assert prepare(path) == prepare(path)


def test_a_thin_strip(tmp_path: Path) -> None:
    strip = encoded(Image.new("RGB", (9_000, 1), "red"), "JPEG")
    assert opened(put(tmp_path, strip)).size == (1600, 1)


@pytest.mark.parametrize("kind", MOST_MEMORY_MB)
def test_a_panorama_takes_bounded_memory(
    tmp_path: Path, kind: str, capsys: pytest.CaptureFixture[str]
) -> None:
    image = Image.new("RGB", PANORAMA, "#887766")
    image.paste("navy", (0, 0, 7_000, 2_000))
    more = {
        "HEIF": {"tile_size": 1024, "quality": 10},
        "PNG": {"compress_level": 1},
        "WEBP": {"method": 0},
    }
    path = put(tmp_path, encoded(image, kind, **more.get(kind, {})))
    # By way of a shell: a process begins with the most that its parent ever used.
    command = ["sh", "-c", '"$@"; exit $?', "sh", sys.executable, "-c", MEASURED, path]
    run = subprocess.run(command, capture_output=True, text=True, check=True)
    unit = 1024 if sys.platform != "darwin" else 1024 * 1024
    peak = int(run.stdout) / unit
    with capsys.disabled():
        print(f"\n{kind} of 60 million pixels: {peak:.0f} MB at most")
    assert peak < MOST_MEMORY_MB[kind]
