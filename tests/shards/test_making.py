"""A shard is written whole or not at all, and takes over only what stands."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.pipeline import Order, build
from generator.problems import Refused
from generator.shards import making
from generator.shards.making import make_shard
from generator.shards.manifest import manifest_of
from generator.shards.share import Share
from generator.website.links import folder_name
from tests.shards.conftest import DAY, JOBS, SECRET, Firm, files, small_sites


def name(job: str) -> str:
    return folder_name(SECRET.encode(), job, 1)


def published(firm: Firm) -> None:
    order = Order(JOBS, firm.public, DAY, make=small_sites)
    build(firm.place, order, lambda _: None)


def built(firm: Firm, folder: Path) -> list[str]:
    """Make a shard of all jobs; name those that were built for it."""
    found: list[str] = []

    def make(bench, tasks, done):  # type: ignore[no-untyped-def]  # as the stand-in
        found.extend(one.job for one in tasks)
        return small_sites(bench, tasks, done)

    order = Order(JOBS, firm.public, DAY, make=make)
    make_shard(firm.place, order, Share(1, 1), folder, lambda _: None)
    return found


def test_a_shard_holds_its_sites_and_the_theme_once(firm: Firm) -> None:
    found = files(firm.shard(2, 2))
    [theme] = [one for one in found if one.startswith("shared/")]
    own = {
        f"{name(job)}/{one}"
        for job in ("elm", "oak")
        for one in ("index.html", "record.txt")
    }
    assert set(found) == {"manifest.json", theme, *own}
    manifest = manifest_of(found["manifest.json"])
    assert manifest.jobs == JOBS
    assert list(manifest.parts) == ["elm", "oak"]
    assert not firm.public.exists()


def test_what_still_stands_is_taken_over(firm: Firm, tmp_path: Path) -> None:
    published(firm)
    before = files(firm.public)
    assert built(firm, tmp_path / "shard") == []
    shard = files(tmp_path / "shard")
    del shard["manifest.json"]
    assert shard.items() <= before.items()
    firm.edit("elm", "11 in", "12 in")
    assert built(firm, tmp_path / "shard") == ["elm"]
    assert files(firm.public) == before


def spoil_a_page(firm: Firm) -> Path:
    return firm.public / name("fir") / "record.txt"


def spoil_the_theme(firm: Firm) -> Path:
    return next((firm.public / "shared").glob("*/look.css"))


@pytest.mark.parametrize(
    ("which", "again"), [(spoil_a_page, ["fir"]), (spoil_the_theme, list(JOBS))]
)
def test_what_was_spoilt_without_a_trace_is_built(
    firm: Firm, tmp_path: Path, which: Callable[[Firm], Path], again: list[str]
) -> None:
    published(firm)
    clean = files(firm.shard(1, 1, "clean"))
    file = which(firm)
    was = file.stat()
    file.write_bytes(b"?" + file.read_bytes()[1:])
    os.utime(file, ns=(was.st_atime_ns, was.st_mtime_ns))
    assert built(firm, tmp_path / "shard") == again
    assert files(tmp_path / "shard") == clean


def full(_: Path) -> None:
    raise OSError(errno.ENOSPC, "No space left on device")


def test_an_earlier_shard_is_replaced_or_stays(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = files(firm.shard(1, 2))
    firm.edit("ash", "11 in", "12 in")
    with monkeypatch.context() as patch:
        patch.setattr(
            making,
            "settle",
            lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")),
        )
        with pytest.raises(Refused, match="could not be put here: No space left"):
            firm.shard(1, 2)
    folder = firm.root.parent / "1-of-2"
    assert files(folder) == before
    after = files(firm.shard(1, 2))
    assert {one for one in before if after[one] != before[one]} == {
        "manifest.json", f"{name('ash')}/record.txt",
    }  # fmt: skip
    monkeypatch.setattr(making, "exchange", lambda *_: False)
    assert files(firm.shard(1, 2)) == after
    beside = [one.name for one in folder.parent.iterdir() if "of" in one.name]
    assert beside == ["1-of-2"]


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("inspections/x", "A shard cannot be put inside inspections/."),
        ("public/x", "A shard cannot be put inside public/."),
        (
            "other",
            "This is no shard that was made before, so nothing in it was touched.",
        ),
        (
            "build",
            "This is no shard that was made before, so nothing in it was touched.",
        ),
    ],
)
def test_a_folder_of_something_else_is_left_alone(
    firm: Firm, place: str, told: str
) -> None:
    (firm.root / "build" / "sites").mkdir(parents=True)
    (firm.root / "other").mkdir()
    (firm.root / "other" / "manifest.json").write_text('{"name": "other"}', "utf-8")
    folder = firm.root / place
    run = firm.ask("build", "--shard", "1/1", "--out", folder)
    assert run.exit_code == 1
    assert run.output.splitlines() == [
        f"{folder}: {told}",
        "  Name another folder with --out.",
        "1 problem; nothing published has changed.",
    ]


def test_no_machine_makes_a_secret_of_its_own(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("ONLOT_LINK_SECRET")
    monkeypatch.delenv("CI", raising=False)
    with pytest.raises(Refused, match="that links are made from is missing here"):
        firm.shard(1, 2)
    assert not (firm.root / ".onlot").exists()
