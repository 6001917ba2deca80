"""A prepared photograph is dropped once no job of the firm uses it."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from PIL import Image

from generator.preview import Preview
from generator.record.load import Workspace
from generator.website import photo_uses
from generator.website.photo_cache import PhotoCache
from generator.website.photo_uses import (
    FOLDER,
    USED,
    drop_unused,
    keep_uses,
    mark_spoilt,
    spoilt,
)

JOB, OTHER = "demo-larch-hollow", "demo-cattail-lake"


def uses(build: Path, job: str, *colors: str) -> None:
    """Prepare one photograph of each color for a job."""
    cache = PhotoCache(build)
    for color in colors:
        path = build.parent / f"{color}.png"
        Image.new("RGB", (40, 30), color).save(path)
        cache.two_sizes(path)
    cache.used_by(job)


def count(build: Path) -> int:
    return sum(one.is_file() for one in (build / FOLDER).iterdir())


def lists(build: Path) -> list[str]:
    return sorted(one.name for one in (build / FOLDER / USED).iterdir())


@pytest.fixture
def build(tmp_path: Path) -> Path:
    folder = tmp_path / "build"
    uses(folder, "ash", "red", "green")
    uses(folder, "elm", "green", "blue")
    return folder


def test_what_two_jobs_share_is_kept_once(build: Path) -> None:
    assert count(build) == 3
    drop_unused(build, ["ash", "elm"])
    assert count(build) == 3
    assert lists(build) == ["ash.txt", "elm.txt"]


def test_what_a_job_used_before_is_dropped(build: Path) -> None:
    uses(build, "ash", "gray")
    assert count(build) == 4
    drop_unused(build, ["ash", "elm"])
    assert count(build) == 3  # red is gone; green is used by the other
    drop_unused(build, ["ash", "elm"])
    assert count(build) == 3


def test_a_job_without_photographs_has_no_list(build: Path) -> None:
    uses(build, "oak")
    assert lists(build) == ["ash.txt", "elm.txt"]
    uses(build, "ash")
    drop_unused(build, ["ash", "elm", "oak"])
    assert lists(build) == ["elm.txt"]
    assert count(build) == 2


def test_what_a_job_used_that_is_gone_is_dropped(build: Path) -> None:
    drop_unused(build, ["ash"])
    assert count(build) == 2
    assert lists(build) == ["ash.txt"]
    drop_unused(build, [])
    assert count(build) == 0
    assert lists(build) == []


def test_a_spoilt_list_costs_time_alone(build: Path) -> None:
    (build / FOLDER / USED / "ash.txt").write_bytes(b"\xff\n../elm.txt\n\n/etc\n")
    (build / FOLDER / USED / "elm.txt").unlink()
    (build / FOLDER / USED / "elm.txt").mkdir()
    drop_unused(build, ["ash", "elm"])
    assert count(build) == 0


def test_drafts_are_dropped_and_other_files_stay(build: Path) -> None:
    place = build / FOLDER
    (place / f".{'0' * 64}.next").write_text("of a build that was killed")
    (place / USED / ".ash.txt.next").write_text("of a build that was killed")
    (place / ("f" * 64)).symlink_to(build.parent / "red.png")
    (place / "a note").write_text("somebody else's")
    (place / ("e" * 64)).mkdir()
    drop_unused(build, ["ash", "elm"])
    assert {one.name for one in place.iterdir() if len(one.name) < 64} == {
        "a note",
        USED,
    }
    assert lists(build) == ["ash.txt", "elm.txt"]
    assert count(build) == 4
    assert not (place / ("f" * 64)).is_symlink()
    assert (build.parent / "red.png").is_file()


def test_a_folder_that_is_not_there_or_cannot_be_written(
    build: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    drop_unused(build / "none", ["ash"])
    assert not (build / "none").exists()

    def refused(*words: object, **how: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(photo_uses, "put", refused)
    monkeypatch.setattr(Path, "unlink", refused)
    keep_uses(build, "ash", [])
    drop_unused(build, [])
    assert count(build) == 3


def test_lists_that_cannot_be_listed_drop_nothing(
    build: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = Path.iterdir

    def refused(folder: Path) -> Iterator[Path]:
        if folder.name == USED:
            raise PermissionError(13, "Permission denied")
        return whole(folder)

    with monkeypatch.context() as changed:
        changed.setattr(Path, "iterdir", refused)
        drop_unused(build, ["ash"])
    assert count(build) == 3


def test_a_preview_drops_what_no_job_uses(workspace: Workspace) -> None:
    folder = workspace.root / "office" / "preview"
    Preview(workspace, JOB).build()
    first = count(folder)
    Preview(workspace, OTHER).build()
    assert lists(folder) == [f"{OTHER}.txt", f"{JOB}.txt"]
    assert count(folder) > first > 0
    workspace.job_file(OTHER).unlink()
    Preview(workspace, JOB).build()
    assert lists(folder) == [f"{JOB}.txt"]
    assert count(folder) == first


def test_what_was_found_spoilt_is_counted_once(build: Path) -> None:
    assert spoilt(build) == 0
    for key in ("0" * 64, "1" * 64, "1" * 64):
        mark_spoilt(build, key)
    assert [spoilt(build), spoilt(build)] == [2, 0]


def test_a_pipe_for_a_list_keeps_nobody_waiting(build: Path) -> None:
    listed = build / FOLDER / USED / "ash.txt"
    listed.unlink()
    os.mkfifo(listed)
    drop_unused(build, ["ash", "elm"])
    assert count(build) == 2
