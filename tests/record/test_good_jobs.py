"""Each small job without a mistake loads, whatever its shape or its line ends."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.record.load import Workspace, load
from generator.record.model import Record

GOOD = Path(__file__).parent.parent / "jobs" / "good"
DEMONSTRATIONS = Path(__file__).parent.parent.parent
FIRM = "name: Example Onlot (invented)\nphone: 555-0100\n"
PHOTOS = "# photos:"


def loaded(name: str, workspace: Path) -> Record:
    """Load one good job in a workspace of its own."""
    inspections = workspace / "inspections"
    (inspections / "job").mkdir(parents=True)
    (inspections / "firm.yaml").write_text(FIRM, encoding="utf-8")
    shutil.copy(GOOD / f"{name}.yaml", inspections / "job.yaml")
    first = (GOOD / f"{name}.yaml").read_text(encoding="utf-8-sig").split("\n")[0]
    if first.startswith(PHOTOS):
        for photo in first.removeprefix(PHOTOS).split(","):
            (inspections / "job" / photo.strip()).write_bytes(b"")
    return load(Workspace(workspace), "job")


@pytest.mark.parametrize("name", sorted(file.stem for file in GOOD.glob("*.yaml")))
def test_loads(name: str, tmp_path: Path) -> None:
    record = loaded(name, tmp_path)
    assert record.job == "job"
    assert record.firm.phone == "555-0100"
    assert record.inspection.client.name == "A. Example (invented)"
    assert record.line("visit.date") >= 2


@pytest.mark.parametrize("job", Workspace(DEMONSTRATIONS).jobs())
def test_the_demonstrations_load(job: str) -> None:
    assert load(Workspace(DEMONSTRATIONS), job).inspection.demonstration


def test_a_draft_of_required_keys_holds_nothing_else(tmp_path: Path) -> None:
    inspection = loaded("draft-required-keys-only", tmp_path).inspection
    assert inspection.state == "draft"
    assert inspection.tanks == ()
    assert inspection.load_test is None


def test_line_ends_and_marks_change_nothing(tmp_path: Path) -> None:
    assert b"\r\n" in (GOOD / "crlf-lines.yaml").read_bytes()
    assert (GOOD / "byte-order-mark.yaml").read_bytes().startswith(b"\xef\xbb\xbf")
    lines = loaded("crlf-lines", tmp_path / "a").lines
    assert lines["tanks[0].sludge"] == 18
    marked = loaded("byte-order-mark", tmp_path / "b").inspection
    assert marked.visit.date.iso == "2026-10-06"


def test_a_level_below_the_outlet_is_negative(tmp_path: Path) -> None:
    test = loaded("tank-starts-below-its-outlet", tmp_path).inspection.load_test
    assert test is not None
    assert [reading.level.inches for reading in test.levels] == [-6, -1]


def test_typographic_quotes_read(tmp_path: Path) -> None:
    tank = loaded("smart-quotes", tmp_path).inspection.tanks[0]
    assert tank.width is not None
    assert tank.sludge is not None
    assert (tank.width.inches, tank.sludge.inches) == (54, 11.5)
