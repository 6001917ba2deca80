"""A photograph is prepared once; what was kept of it is trusted only where whole."""

from __future__ import annotations

import hashlib
import io
import os
import shutil
import subprocess
import sys
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image, ImageDraw
from pillow_heif import register_heif_opener

from generator.site import build_site
from generator.website import photo_cache, photo_uses, photos
from generator.website.photo_cache import PhotoCache
from generator.website.photo_uses import FOLDER, KEY, USED
from generator.website.photos import PhotoError, Sizes
from generator.worked import work_out

TOP = Path(__file__).parents[2]
JOB = "demo-larch-hollow"
Decodes = list[str]
SEVERAL = """
import sys
from pathlib import Path
from generator.website.photo_cache import PhotoCache
source, build, times = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3])
found = set()
for _ in range(times):
    cache = PhotoCache(build)
    found.add(cache.two_sizes(source))
    for entry in (build / "photos").glob("[0-9a-f]*"):
        entry.unlink(missing_ok=True)
cache.two_sizes(source)
print(len(found))
"""


@pytest.fixture
def decodes(monkeypatch: pytest.MonkeyPatch) -> Decodes:
    """The name of every file that is decoded, in order."""
    found: Decodes = []
    read = photos._read

    def counted(path: Path, longest_px: int) -> Image.Image:
        found.append(path.name)
        return read(path, longest_px)

    monkeypatch.setattr(photos, "_read", counted)
    return found


def picture(path: Path, color: str = "red", kind: str = "JPEG") -> Path:
    image = Image.new("RGB", (1000, 500), color)
    ImageDraw.Draw(image).ellipse((180, 120, 460, 400), fill="#3a3128", width=6)
    image.save(path, kind)
    return path


def entries(build: Path) -> list[Path]:
    return sorted(one for one in (build / FOLDER).iterdir() if KEY.fullmatch(one.name))


def test_made_once_and_the_same_as_without(tmp_path: Path, decodes: Decodes) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    plain = photos.two_sizes(path)
    assert PhotoCache(None).two_sizes(path) == plain
    assert not build.exists()
    del decodes[:]
    first = PhotoCache(build)
    assert first.two_sizes(path) == plain
    assert decodes == ["lid.jpg"]
    again = PhotoCache(build)
    assert again.two_sizes(path) == plain
    assert decodes == ["lid.jpg"]
    assert first.used == again.used == {one.name for one in entries(build)}


def test_heic_is_kept_like_any_other(tmp_path: Path, decodes: Decodes) -> None:
    register_heif_opener()
    path = picture(tmp_path / "lid.heic", kind="HEIF")
    plain = photos.two_sizes(path)
    assert PhotoCache(tmp_path).two_sizes(path) == plain
    assert PhotoCache(tmp_path).two_sizes(path) == plain
    assert decodes == ["lid.heic"] * 2  # one of them without a cache


def test_content_counts_and_neither_name_nor_time(
    tmp_path: Path, decodes: Decodes
) -> None:
    one, build = picture(tmp_path / "one.jpg"), tmp_path / "build"
    sizes = PhotoCache(build).two_sizes(one)
    other = Path(shutil.copyfile(one, tmp_path / "other.png"))
    os.utime(other, (0, 0))
    restored = Path(shutil.copytree(build, tmp_path / "restored"))
    for entry in entries(restored):
        os.utime(entry, (0, 0))
    assert PhotoCache(build).two_sizes(other) == sizes
    assert PhotoCache(restored).two_sizes(other) == sizes
    assert decodes == ["one.jpg"]
    picture(one, "green")
    os.utime(one, (0, 0))
    assert PhotoCache(build).two_sizes(one) == photos.two_sizes(one) != sizes
    assert len(entries(build)) == 2


def test_each_setting_has_its_own(tmp_path: Path, decodes: Decodes) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    made = {px: PhotoCache(build).prepare(path, longest_px=px) for px in (480, 200)}
    assert len(entries(build)) == 2
    PhotoCache(build).two_sizes(path)
    assert len(entries(build)) == 3
    assert decodes == ["lid.jpg"] * 3
    for px, content in made.items():
        assert PhotoCache(build).prepare(path, longest_px=px) == content
        with Image.open(io.BytesIO(content)) as image:
            assert image.size == (px, px // 2)
    assert decodes == ["lid.jpg"] * 3


@pytest.mark.parametrize("name", ["LONGEST_PX", "ON_PAGE_PX", "QUALITY"])
def test_a_changed_setting_makes_it_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    path = picture(tmp_path / "lid.jpg")
    before = PhotoCache(tmp_path).two_sizes(path)
    monkeypatch.setattr(photos, name, 60)
    changed = PhotoCache(tmp_path).two_sizes(path)
    assert len(entries(tmp_path)) == 2
    if name != "QUALITY":  # which photos.py takes as it is loaded
        assert changed == photos.two_sizes(path) != before


@pytest.mark.parametrize(
    ("owner", "name", "value"),
    [
        (photo_cache, "pillow_version", "0.0"),
        (photo_cache.pillow_heif, "__version__", "0.0"),
        (photo_cache.pillow_heif, "libheif_info", lambda: {"libheif": "0.0"}),
        (photo_cache.features, "version", lambda name: f"{name} of another kind"),
        (photo_cache.platform, "machine", lambda: "another kind"),
        (photo_cache.photos, "__file__", __file__),
        (photo_cache, "LAYOUT", "0"),
    ],
    ids=["pillow", "pillow-heif", "libheif", "libjpeg", "machine", "code", "layout"],
)
def test_another_workshop_makes_it_anew(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    decodes: Decodes,
    owner: object,
    name: str,
    value: object,
) -> None:
    path = picture(tmp_path / "lid.jpg")
    sizes = PhotoCache(tmp_path).two_sizes(path)
    with monkeypatch.context() as changed:
        changed.setattr(owner, name, value)
        photo_cache.workshop.cache_clear()
        assert PhotoCache(tmp_path).two_sizes(path) == sizes
    photo_cache.workshop.cache_clear()
    assert len(entries(tmp_path)) == len(decodes) == 2
    PhotoCache(tmp_path).two_sizes(path)
    assert len(decodes) == 2


def emptied(entry: Path) -> None:
    entry.write_bytes(b"")


def cut(entry: Path) -> None:
    entry.write_bytes(entry.read_bytes()[:-1])


def cut_in_its_head(entry: Path) -> None:
    entry.write_bytes(entry.read_bytes()[:70])


def lengthened(entry: Path) -> None:
    entry.write_bytes(entry.read_bytes() + b"\xff")


def one_bit_turned(entry: Path) -> None:
    content = bytearray(entry.read_bytes())
    content[-200] ^= 1
    entry.write_bytes(bytes(content))


def filled_with_zeros(entry: Path) -> None:
    entry.write_bytes(bytes(entry.stat().st_size))


def foreign(entry: Path) -> None:
    entry.write_text("something else entirely\n\n\n")


def digest_of_its_own(rest: bytes) -> bytes:
    return hashlib.sha256(rest).hexdigest().encode() + b"\n" + rest


def foreign_with_a_digest(entry: Path) -> None:
    entry.write_bytes(digest_of_its_own(b"{}"))


def without_lengths(entry: Path) -> None:
    entry.write_bytes(digest_of_its_own(f"{entry.name}\nso long\n".encode()))


def of_one_part(entry: Path) -> None:
    entry.write_bytes(digest_of_its_own(f"{entry.name}\n3\nabc".encode()))


def of_too_short_lengths(entry: Path) -> None:
    entry.write_bytes(digest_of_its_own(f"{entry.name}\n1 1\nabc".encode()))


def of_lengths_backward(entry: Path) -> None:
    entry.write_bytes(digest_of_its_own(f"{entry.name}\n3 -3\nabc".encode()))


def of_another_key(entry: Path) -> None:
    other = picture(entry.parent / "other.jpg", "green")
    apart = entry.parent / "apart"
    PhotoCache(apart).two_sizes(other)
    shutil.copyfile(entries(apart)[0], entry)


def far_too_large(entry: Path) -> None:
    os.truncate(entry, photo_cache.MOST_BYTES + 1)


def a_link_to_a_whole_one(entry: Path) -> None:
    elsewhere = entry.parent / "elsewhere"
    entry.rename(elsewhere)
    entry.symlink_to(elsewhere)


def a_link_to_nothing(entry: Path) -> None:
    entry.unlink()
    entry.symlink_to(entry.parent / "nothing")


def a_pipe(entry: Path) -> None:
    entry.unlink()
    os.mkfifo(entry)


@pytest.mark.parametrize(
    "spoil",
    [
        emptied,
        cut,
        cut_in_its_head,
        lengthened,
        one_bit_turned,
        filled_with_zeros,
        foreign,
        foreign_with_a_digest,
        without_lengths,
        of_one_part,
        of_too_short_lengths,
        of_lengths_backward,
        of_another_key,
        far_too_large,
        a_link_to_a_whole_one,
        a_link_to_nothing,
        a_pipe,
    ],
)
def test_a_spoilt_entry_is_made_anew(
    tmp_path: Path, decodes: Decodes, spoil: Callable[[Path], None]
) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    sizes = PhotoCache(build).two_sizes(path)
    (entry,) = entries(build)
    whole = entry.read_bytes()
    spoil(entry)
    del decodes[:]
    assert PhotoCache(build).two_sizes(path) == sizes
    assert decodes == ["lid.jpg"]
    assert entry.is_file()
    assert not entry.is_symlink()
    assert entry.read_bytes() == whole
    assert PhotoCache(build).two_sizes(path) == sizes
    assert decodes == ["lid.jpg"]


def test_what_a_link_leads_to_is_not_written_over(tmp_path: Path) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    PhotoCache(build).two_sizes(path)
    (entry,) = entries(build)
    kept = tmp_path / "kept"
    kept.write_text("of somebody else")
    entry.unlink()
    entry.symlink_to(kept)
    PhotoCache(build).two_sizes(path)
    assert kept.read_text() == "of somebody else"


def test_an_entry_that_cannot_be_read_is_made_anew(
    tmp_path: Path, decodes: Decodes, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    sizes = PhotoCache(build).two_sizes(path)
    (entry,) = entries(build)
    read = Path.read_bytes

    def refused(file: Path) -> bytes:
        if file == entry:
            raise PermissionError(13, "Permission denied")
        return read(file)

    with monkeypatch.context() as changed:
        changed.setattr(Path, "read_bytes", refused)
        assert PhotoCache(build).two_sizes(path) == sizes
    assert decodes == ["lid.jpg"] * 2
    entry.unlink()
    entry.mkdir()  # which cannot be replaced by a file
    assert PhotoCache(build).two_sizes(path) == sizes
    assert decodes == ["lid.jpg"] * 3


def test_a_folder_that_cannot_be_written_costs_time_alone(
    tmp_path: Path, decodes: Decodes, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = picture(tmp_path / "lid.jpg")
    plain = photos.two_sizes(path)
    (tmp_path / FOLDER).write_text("a file where the folder would be")
    cache = PhotoCache(tmp_path)
    assert cache.two_sizes(path) == plain
    cache.used_by("job")
    (tmp_path / FOLDER).unlink()

    def refused(file: Path, content: bytes, *, shared: bool) -> None:
        raise OSError(30, "Read-only file system")

    monkeypatch.setattr(photo_cache, "put", refused)
    assert PhotoCache(tmp_path).two_sizes(path) == plain
    assert len(decodes) == 3


def test_no_error_is_kept(tmp_path: Path, decodes: Decodes) -> None:
    path, build = tmp_path / "lid.jpg", tmp_path / "build"
    cache = PhotoCache(build)
    told = []
    with pytest.raises(PhotoError) as missing:
        cache.two_sizes(path)
    path.write_text("not a picture")
    for _ in range(2):
        with pytest.raises(PhotoError) as refused:
            cache.two_sizes(path)
        told.append(str(refused.value))
    assert str(missing.value) == 'There is no file "lid.jpg".'
    assert told == ['The file "lid.jpg" is not a JPEG, PNG, WebP or HEIC picture.'] * 2
    assert len(decodes) == 3
    assert not build.exists()
    assert cache.used == set()


def test_a_picture_that_is_exchanged_meanwhile_is_not_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    before, make = path.read_bytes(), photos.two_sizes

    def exchanged(path: Path) -> Sizes:
        picture(path, "green")
        return make(path)

    with monkeypatch.context() as changed:
        changed.setattr(photos, "two_sizes", exchanged)
        sizes = PhotoCache(build).two_sizes(path)
    assert sizes == make(path)
    path.write_bytes(before)
    assert PhotoCache(build).two_sizes(path) == make(path) != sizes


def test_a_large_file_is_digested_in_little_memory(tmp_path: Path) -> None:
    path = tmp_path / "large.jpg"
    path.touch()
    os.truncate(path, 60_000_000)
    tracemalloc.start()
    digest = photo_cache._digest_of(path)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert digest == hashlib.sha256(bytes(60_000_000)).hexdigest()
    assert most < 1_000_000


def test_several_processes_write_the_same_entry(tmp_path: Path) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    command = [sys.executable, "-c", SEVERAL, str(path), str(build), "25"]
    running = [
        subprocess.Popen(command, cwd=TOP, stdout=subprocess.PIPE, text=True)
        for _ in range(4)
    ]
    assert [one.communicate()[0] for one in running] == ["1\n"] * 4
    assert [one.returncode for one in running] == [0] * 4
    sizes = photos.two_sizes(path)
    assert PhotoCache(build).two_sizes(path) == sizes
    (entry,) = entries(build)
    assert [*(build / FOLDER).iterdir()] == [entry]


def test_an_entry_that_comes_while_it_is_looked_for_is_not_spoilt(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, build = picture(tmp_path / "lid.jpg"), tmp_path / "build"
    sizes = PhotoCache(build).two_sizes(path)
    (entry,) = entries(build)
    entry.unlink()
    read = Path.lstat

    def missed(looked_at: Path) -> os.stat_result:
        monkeypatch.undo()
        try:
            return read(looked_at)
        finally:
            PhotoCache(build).two_sizes(path)  # another process, a moment later

    monkeypatch.setattr(Path, "lstat", missed)
    assert PhotoCache(build).two_sizes(path) == sizes
    assert entries(build) == [entry]
    assert photo_uses.spoilt(build) == 0


def test_a_site_is_the_same_built_again(workspace, tmp_path, decodes, folders) -> None:
    Image.new("RGB", (900, 300), "navy").save(workspace.inspections / "logo.png")
    firm = workspace.inspections / "firm.yaml"
    firm.write_text(firm.read_text("utf-8") + "logo: logo.png\n", encoding="utf-8")
    worked, build = work_out(workspace, JOB), tmp_path / "build"
    first = folders.state(build_site(workspace, worked, build))
    shown = len(worked.record.inspection.photos) + 1
    assert len(decodes) == shown > 2
    assert folders.state(build_site(workspace, worked, build)) == first
    assert len(decodes) == shown
    used = (build / FOLDER / USED / f"{JOB}.txt").read_text().split()
    assert used == [one.name for one in entries(build)]
    apart = tmp_path / "apart"
    assert folders.state(build_site(workspace, worked, apart, keep=False)) == first
    assert not (apart / FOLDER).exists()
    assert len(decodes) == 2 * shown
