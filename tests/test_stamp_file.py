"""What was written down, or published, and then spoilt is noticed, said and made anew.

Each way of spoiling is done to one of two jobs; what is published afterwards equals a
clean build of both, byte for byte, and the next build builds nothing.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from generator import stale
from generator.stale import FOREIGN, GONE, THEME, TOUCHED
from generator.stamp_file import (
    EARLIER,
    MIXED_UP,
    MOST_BYTES,
    NEVER,
    SPOILT,
    written,
)
from generator.website.links import folder_name
from tests.small_firm import Firm

SAME = dict.fromkeys(("ash", "elm"), "nothing changed, so not built.")
Way = Callable[[Firm], None]


@pytest.fixture(scope="module")
def published(
    tmp_path_factory: pytest.TempPathFactory,
) -> tuple[Path, dict[str, bytes]]:
    """A firm's folder as a build left it, and what a clean build publishes."""
    made = Firm(tmp_path_factory.mktemp("made") / "firm")
    made.ask("build")
    return made.root, made.clean(tmp_path_factory.mktemp("clean") / "firm")


@pytest.fixture
def firm(published: tuple[Path, dict[str, bytes]], tmp_path: Path) -> Firm:
    copy = Firm.at(Path(shutil.copytree(published[0], tmp_path / "firm")))
    assert copy.told() == SAME  # a copy is as good as what it was copied from
    return copy


def stamp(firm: Firm, job: str = "ash") -> Path:
    return firm.root / f"build/stamps/{job}.json"


def data(firm: Firm) -> dict[str, Any]:
    found = json.loads(stamp(firm).read_text(encoding="utf-8").partition("\n")[2])
    assert isinstance(found, dict)
    return found


def rewritten(change: Callable[[dict[str, Any]], object]) -> Way:
    """Write a stamp of another shape, with a digest that fits."""

    def spoil(firm: Firm) -> None:
        stamp(firm).write_bytes(written(change(data(firm))))

    return spoil


def content(change: Callable[[bytes], bytes]) -> Way:
    return lambda firm: put(stamp(firm), change(stamp(firm).read_bytes()))


def put(file: Path, content: bytes) -> None:
    file.write_bytes(content)


def one_bit(content: bytes, at: int) -> bytes:
    return content[:at] + bytes([content[at] ^ 1]) + content[at + 1 :]


def of_the_first_layout(firm: Firm) -> None:
    told = {
        key: value
        for key, value in data(firm).items()
        if key not in ("job", "theme", "layout")
    }
    stamp(firm).write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")


def of_another_job(firm: Firm) -> None:
    shutil.copy(stamp(firm, "elm"), stamp(firm))


def of_another_firm(firm: Firm) -> None:
    name = folder_name(b"the secret of another firm", "ash", 1)
    rewritten(lambda told: told | {"name": name})(firm)


def a_folder(firm: Firm) -> None:
    stamp(firm).unlink()
    (stamp(firm) / "inside").mkdir(parents=True)


def a_dangling_link(firm: Firm) -> None:
    stamp(firm).unlink()
    stamp(firm).symlink_to("nothing")


def a_link_to_the_same(firm: Firm) -> None:
    stamp(firm).rename(firm.root / "elsewhere")
    stamp(firm).symlink_to(firm.root / "elsewhere")


def a_pipe(firm: Firm) -> None:
    stamp(firm).unlink()
    os.mkfifo(stamp(firm))


def far_too_large(firm: Firm) -> None:
    os.truncate(stamp(firm), MOST_BYTES + 1)


STAMPS: dict[str, tuple[Way, str]] = {
    "taken away": (lambda firm: stamp(firm).unlink(), NEVER),
    "emptied": (content(lambda _: b""), SPOILT),
    "cut in half": (content(lambda told: told[: len(told) // 2]), SPOILT),
    "random bytes": (content(lambda told: bytes(range(256)) * 4), SPOILT),
    "not UTF-8": (content(lambda told: told.replace(b'"', b"\xff")), SPOILT),
    "zeros": (content(lambda told: bytes(len(told))), SPOILT),
    "lengthened": (content(lambda told: told + b"\n"), SPOILT),
    "a bit of its digest": (content(lambda told: one_bit(told, 0)), SPOILT),
    "a bit inside": (content(lambda told: one_bit(told, len(told) // 2)), SPOILT),
    "its last bit": (content(lambda told: one_bit(told, -2)), SPOILT),
    "no digest": (content(lambda told: told.partition(b"\n")[2]), SPOILT),
    "a list": (rewritten(lambda _: [1, 2]), SPOILT),
    "a number": (rewritten(lambda _: 7), SPOILT),
    "nested too deep": (
        lambda firm: put(stamp(firm), with_digest(b"[" * 30_000 + b"\n")),
        SPOILT,
    ),
    "a key less": (
        rewritten(lambda told: {k: v for k, v in told.items() if k != "holds"}),
        SPOILT,
    ),
    "a key more": (rewritten(lambda told: told | {"more": 1}), SPOILT),
    "made from a list": (rewritten(lambda told: told | {"made_from": ["x"]}), SPOILT),
    "made from numbers": (
        rewritten(
            lambda told: told | {"made_from": dict.fromkeys(told["made_from"], 1)}
        ),
        SPOILT,
    ),
    "a way out": (rewritten(lambda told: told | {"name": "../inspections"}), SPOILT),
    "another way out": (rewritten(lambda told: told | {"shared": ".."}), SPOILT),
    "another layout": (rewritten(lambda told: told | {"layout": 1}), EARLIER),
    "the first layout": (of_the_first_layout, EARLIER),
    "of another job": (of_another_job, MIXED_UP),
    "of another firm": (of_another_firm, FOREIGN),
    "a folder": (a_folder, SPOILT),
    "a dangling link": (a_dangling_link, SPOILT),
    "a link to the same": (a_link_to_the_same, SPOILT),
    "a pipe": (a_pipe, SPOILT),
    "far too large": (far_too_large, SPOILT),
}
QUIET = (NEVER, EARLIER, GONE)  # no damage: told only where it is asked for


def with_digest(text: bytes) -> bytes:
    return hashlib.sha256(text).hexdigest().encode() + b"\n" + text


def mended(firm: Firm, clean: dict[str, bytes], told: dict[str, str]) -> None:
    """Build without being asked to explain; then all is well, and nothing is built."""
    done = firm.ask("build")
    said = [line for line in done.stderr.splitlines() if line[:5] in ("ash: ", "elm: ")]
    assert said == [f"{job}: {why}." for job, why in told.items() if why not in QUIET]
    assert firm.state() == clean
    assert firm.strangers() == []
    assert firm.told() == SAME


@pytest.mark.parametrize("way", STAMPS)
def test_a_spoilt_stamp_builds_its_job(
    firm: Firm, published: tuple[Path, dict[str, bytes]], way: str
) -> None:
    spoil, why = STAMPS[way]
    spoil(firm)
    mended(firm, published[1], {"ash": why})


@pytest.mark.parametrize("way", ["taken away", "emptied", "another layout"])
def test_it_is_said_where_it_is_asked_for(firm: Firm, way: str) -> None:
    spoil, why = STAMPS[way]
    spoil(firm)
    assert firm.told() == SAME | {"ash": f"{why}."}


def test_a_folder_of_stamps_that_is_none(
    firm: Firm, published: tuple[Path, dict[str, bytes]]
) -> None:
    shutil.rmtree(firm.root / "build/stamps")
    (firm.root / "build/stamps").write_text("a file", encoding="utf-8")
    mended(firm, published[1], dict.fromkeys(("ash", "elm"), NEVER))


# ----------------------------------------------------------------- published files


def page(firm: Firm) -> Path:
    return firm.site("ash") / "care.html"


def theme(firm: Firm) -> Path:
    return next(one for one in sorted(firm.shared().rglob("*.css")) if one.is_file())


def unseen(file: Path) -> None:
    """Change one byte of a file, and keep its size and its time."""
    before = file.stat()
    file.write_bytes(one_bit(file.read_bytes(), 100))
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))
    after = file.stat()
    assert (after.st_size, after.st_mtime_ns) == (before.st_size, before.st_mtime_ns)


def a_link(file: Path) -> None:
    """Put a link to the same content in the place of a file."""
    elsewhere = file.parents[3] / f"elsewhere-{file.name}"
    shutil.copy2(file, elsewhere)
    file.unlink()
    file.symlink_to(elsewhere)


def pipe(file: Path) -> None:
    file.unlink()
    os.mkfifo(file)


def a_file_for_the_copy(firm: Firm) -> None:
    copy = firm.shared()
    shutil.rmtree(copy)
    copy.write_text("no folder", encoding="utf-8")


def a_link_for_the_copy(firm: Firm) -> None:
    copy = firm.shared()
    copy.rename(firm.root / "elsewhere")
    copy.symlink_to(firm.root / "elsewhere")


PAGES: dict[str, tuple[Way, str]] = {
    "a page emptied": (lambda firm: page(firm).write_bytes(b""), TOUCHED),
    "a byte, size and time kept": (lambda firm: unseen(page(firm)), TOUCHED),
    "a page taken away": (lambda firm: page(firm).unlink(), TOUCHED),
    "a page added": (lambda firm: put(page(firm).with_name("x.html"), b""), TOUCHED),
    "what no digest of code counts": (
        lambda firm: put(page(firm).with_name("x.pyc"), b""),
        TOUCHED,
    ),
    "a folder added": (lambda firm: (firm.site("ash") / "x").mkdir(), TOUCHED),
    "a link to the same page": (lambda firm: a_link(page(firm)), TOUCHED),
    "a link to itself": (
        lambda firm: (firm.site("ash") / "x").symlink_to(firm.site("ash")),
        TOUCHED,
    ),
    "a page made a pipe": (lambda firm: pipe(page(firm)), TOUCHED),
    "the site taken away": (lambda firm: shutil.rmtree(firm.site("ash")), GONE),
}
THEMES: dict[str, tuple[Way, str]] = {
    "a byte of the theme": (lambda firm: unseen(theme(firm)), THEME),
    "a theme file taken away": (lambda firm: theme(firm).unlink(), THEME),
    "a theme file added": (lambda firm: put(theme(firm).with_name("x"), b""), THEME),
    "a theme file made a pipe": (lambda firm: pipe(theme(firm)), THEME),
    "a theme file made a link": (lambda firm: a_link(theme(firm)), THEME),
    "the theme taken away": (lambda firm: shutil.rmtree(firm.shared()), GONE),
    "a file in its place": (a_file_for_the_copy, GONE),
    "a link in its place": (a_link_for_the_copy, GONE),
}


@pytest.mark.parametrize("way", PAGES)
def test_spoilt_pages_build_their_job(
    firm: Firm, published: tuple[Path, dict[str, bytes]], way: str
) -> None:
    spoil, why = PAGES[way]
    spoil(firm)
    mended(firm, published[1], {"ash": why})


@pytest.mark.parametrize("way", THEMES)
def test_spoilt_theme_files_build_the_jobs_that_lead_to_them(
    firm: Firm, published: tuple[Path, dict[str, bytes]], way: str
) -> None:
    spoil, why = THEMES[way]
    spoil(firm)
    mended(firm, published[1], dict.fromkeys(("ash", "elm"), why))


def test_published_elsewhere_and_back(
    firm: Firm, published: tuple[Path, dict[str, bytes]]
) -> None:
    elsewhere = ("--out", str(firm.root / "elsewhere"))
    assert firm.told(*elsewhere) == dict.fromkeys(("ash", "elm"), f"{GONE}.")
    mended(firm, published[1], {})  # what stands there still is what was written down
    edit = firm.job_file("ash").read_text(encoding="utf-8").replace("8 ft,", "9 ft,")
    firm.job_file("ash").write_text(edit, encoding="utf-8")
    firm.ask("build", *elsewhere)
    assert firm.told() == SAME | {"ash": f"{TOUCHED}."}
    assert firm.state() == firm.clean(firm.root.parent / "again")


def test_what_was_restored_is_read_once(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another time, the same content: read, written down anew, and not read again."""
    for path in firm.public.rglob("*"):
        os.utime(path, (1, 1))
    read: list[Path] = []
    whole = stale.holds

    def holds(site: Path) -> str:
        read.append(site)
        return whole(site)

    monkeypatch.setattr(stale, "holds", holds)
    for _ in range(2):
        assert firm.told() == SAME
        assert read == [firm.site("ash"), firm.site("elm")]


def test_every_copy_of_the_theme_is_looked_at_once(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[Path] = []
    whole = stale.looks

    def looks(folder: Path | str) -> str:
        seen.append(Path(folder))
        return whole(folder)

    monkeypatch.setattr(stale, "looks", looks)
    assert firm.told() == SAME
    assert sorted(seen) == sorted([firm.site("ash"), firm.site("elm"), firm.shared()])
