"""Every good job file is worked out whole: finite, sourced, traced to its lines."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from generator.codes.packs import names, pack
from generator.findings.answers import answers
from generator.findings.judge import judge
from generator.record.load import Workspace, load
from generator.results.compute import compute

TOP = Path(__file__).parents[2]
GOOD = sorted((TOP / "tests" / "jobs" / "good").glob("*.yaml"))
WITHOUT_PHOTOS = [file for file in GOOD if "\nphotos:" not in file.read_text("utf-8")]
QUESTIONS = 5


@pytest.mark.parametrize("file", WITHOUT_PHOTOS, ids=lambda file: str(file.stem))
def test_a_good_job_is_worked_out(file: Path, tmp_path: Path) -> None:
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    (inspections / "job.yaml").write_bytes(file.read_bytes())
    firm = TOP / "inspections" / "firm.yaml"
    (inspections / "firm.yaml").write_bytes(firm.read_bytes())
    record = load(Workspace(tmp_path), "job")
    home = record.inspection.property
    for code in [None, *names()] if home.code is None else [home.code]:
        local = pack(code) if code else None
        results = compute(record, local)
        for one in results.all.values():
            assert math.isfinite(one.value), one.name
            assert math.isfinite(one.uncertainty), one.name
            assert all(record.line(path) for path in one.inputs), one.name
        found = judge(record, results, local)
        assert len(answers(found, results)) == QUESTIONS


def test_the_fullest_job_speaks_of_every_subject(tmp_path: Path) -> None:
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    for file in (
        TOP / "tests" / "jobs" / "good" / "everything-new.yaml",
        TOP / "inspections" / "firm.yaml",
    ):
        (inspections / file.name).write_bytes(file.read_bytes())
    record = load(Workspace(tmp_path), "everything-new")
    results = compute(record, pack("us-pa"))
    subjects = {name.partition(".")[0] for name in results.all}
    assert subjects == {
        "place",
        "depth",
        "design",
        "tank",
        "solids",
        "box",
        "pump",
        "area",
        "inflow",
        "load_test",
        "two_day",
        "pipe",
        "distance",
        "plan",
        "compare",
    }
