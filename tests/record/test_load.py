"""The names of all jobs, or why they cannot be told."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from generator.problems import Refused
from generator.record.load import Workspace


def test_the_names_of_all_jobs(tmp_path: Path) -> None:
    place = Workspace(tmp_path)
    assert place.jobs() == []
    place.inspections.mkdir()
    for name in ("oak.yaml", "elm.2.yaml", "firm.yaml", ".ash.yaml", "fir.yml", "yaml"):
        (place.inspections / name).touch()
    assert place.jobs() == ["elm.2", "oak"]
    other = Workspace(tmp_path / "other")
    other.root.mkdir()
    other.inspections.touch()
    assert other.jobs() == []


def test_a_folder_that_cannot_be_listed_does_not_count_as_empty(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(folder: Path) -> list[str]:
        raise OSError(24, "Too many open files")

    monkeypatch.setattr(os, "listdir", refused)
    with pytest.raises(Refused) as caught:
        Workspace(tmp_path).jobs()
    assert str(caught.value) == (
        "inspections/: The folder cannot be listed: Too many open files.\n"
        "  See to its rights."
    )
