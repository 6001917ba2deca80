"""What the firm file says of licenses, limits, logo and code, and where it shows."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from generator.cli import main
from generator.problems import Refused
from generator.record.load import Workspace
from generator.site import build_site
from generator.worked import work_out

JOB = "demo-larch-hollow"
Built = Callable[[], Path]


@pytest.fixture
def built(workspace: Workspace, tmp_path: Path) -> Built:
    """Build the page tree and the site of one job as the firm file stands."""
    return lambda: build_site(workspace, work_out(workspace, JOB), tmp_path / "made")


def add(workspace: Workspace, text: str) -> None:
    file = workspace.inspections / "firm.yaml"
    file.write_text(file.read_text(encoding="utf-8") + text, encoding="utf-8")


def test_licenses_and_limits_stand_on_record_and_paper(built: Built) -> None:
    site = built()
    record = (site / "record.html").read_text(encoding="utf-8")
    assert "OR-DEMO-100 (invented)" in record
    assert "We move no furniture" in record
    paper = (site / "paper.html").read_text(encoding="utf-8")
    assert "OR-DEMO-100 (invented)" in paper
    assert "We move no furniture" in paper
    assert not (site / "photos/logo.jpg").exists()


def test_a_logo_stands_at_the_head_of_paper(workspace: Workspace, built: Built) -> None:
    picture = Image.new("RGBA", (1200, 300), (0, 80, 60, 128))
    picture.save(workspace.inspections / "logo.png")
    add(workspace, "logo: logo.png\n")
    site = built()
    paper = (site / "paper.html").read_text(encoding="utf-8")
    assert '<img class="logo" src="photos/logo.jpg" alt="Fieldstone' in paper
    with Image.open(site / "photos/logo.jpg") as shown:
        assert shown.size == (480, 120)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("logo: logo.png\n", 'There is no file "logo.png".'),
        ("logo: ../logo.png\n", "is no name of a PNG or JPEG picture."),
        ("logo: firm.yaml\n", "is no name of a PNG or JPEG picture."),
    ],
)
def test_a_logo_that_cannot_be_is_told(
    workspace: Workspace, built: Built, text: str, told: str
) -> None:
    add(workspace, text)
    with pytest.raises(Refused) as refused:
        built()
    assert told in str(refused.value.problems[0])
    assert "firm.yaml" in str(refused.value.problems[0])


def test_a_new_job_names_the_code_of_the_firm(workspace: Workspace) -> None:
    words = ["--workspace", str(workspace.root), "new", "2026-050"]
    assert CliRunner().invoke(main, words).exit_code == 0
    lines = workspace.job_file("2026-050").read_text(encoding="utf-8").splitlines()
    assert "  code: us-or" in lines
