"""The page of the tank: its headings are headings, and none skips a level."""

from __future__ import annotations

import re
import shutil
from itertools import pairwise
from pathlib import Path

import pytest

from generator.record.load import Workspace
from generator.worked import work_out
from tests.pages.composed import texts

GOOD = Path(__file__).parents[1] / "jobs/good"
HEADING = re.compile(r"^(#+) (.+)$", re.MULTILINE)


def headings(workspace: Workspace, job: str) -> list[tuple[int, str]]:
    if not workspace.job_file(job).exists():
        shutil.copy(GOOD / f"{job}.yaml", workspace.job_file(job))
    page = texts(work_out(workspace, job))["tank"]
    assert "\\#" not in page
    return [(len(signs), words) for signs, words in HEADING.findall(page)]


def test_one_tank_needs_no_name_of_its_own(workspace: Workspace) -> None:
    assert headings(workspace, "demo-larch-hollow") == [
        (1, "The tank"),
        (2, "What it holds"),
        (2, "Sludge and scum against published criteria"),
    ]


@pytest.mark.parametrize("job", ["system-two-tanks-in-series", "system-cesspool"])
def test_no_heading_skips_a_level(workspace: Workspace, job: str) -> None:
    levels = [level for level, _ in headings(workspace, job)]
    assert all(b - a <= 1 for a, b in pairwise(levels))
    assert levels.count(3) >= 1
