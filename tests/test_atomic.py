"""A file is written whole, or the earlier one stays and nothing lies beside it."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.atomic import make_way, put


def test_a_new_file_in_a_new_folder(tmp_path: Path) -> None:
    put(tmp_path / "deep" / "file", b"one")
    put(tmp_path / "deep" / "file", b"two")
    assert [one.name for one in (tmp_path / "deep").iterdir()] == ["file"]
    assert (tmp_path / "deep" / "file").read_bytes() == b"two"


@pytest.mark.parametrize("step", ["write_bytes", "replace"])
def test_a_disk_that_refuses_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    file = tmp_path / "file"
    put(file, b"one")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as changed:
        changed.setattr(Path, step, full)
        with pytest.raises(OSError, match="No space left"):
            put(file, b"two")
    assert file.read_bytes() == b"one"
    assert list(tmp_path.iterdir()) == [file]


def test_one_writer_in_the_middle_of_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, held = tmp_path / "file", []

    def in_two_halves(draft: Path, content: bytes) -> None:
        monkeypatch.undo()
        with draft.open("wb") as opened:
            opened.write(content[:5])
            opened.flush()
            put(file, b"theirs, the longer one", shared=True)
            held.append(file.read_bytes())
            opened.write(content[5:])

    monkeypatch.setattr(Path, "write_bytes", in_two_halves)
    put(file, b"ours, whole", shared=True)
    assert held == [b"theirs, the longer one"]
    assert file.read_bytes() == b"ours, whole"
    assert list(tmp_path.iterdir()) == [file]


def test_what_is_no_file_makes_way(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.write_bytes(b"of somebody else")
    folder = tmp_path / "deep"
    folder.symlink_to("nothing")
    make_way(folder / "file")
    assert not folder.is_symlink()
    (folder / "file" / "inside").mkdir(parents=True)
    make_way(folder / "file")
    os.mkfifo(folder / "file")
    make_way(folder / "file")
    (folder / "file").symlink_to(elsewhere)
    make_way(folder / "file")
    assert list(folder.iterdir()) == []
    put(folder / "file", b"one")
    make_way(folder / "file")
    assert (folder / "file").read_bytes() == b"one"
    assert elsewhere.read_bytes() == b"of somebody else"
