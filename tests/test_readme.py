"""The README keeps its word: its job file builds, its commands exist."""

from __future__ import annotations

import re
from pathlib import Path

import yaml
from click.testing import CliRunner

from generator.cli import main
from generator.record.load import Workspace

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_small_job_file_passes_and_builds(workspace: Workspace) -> None:
    job = re.search(r"first\.yaml`:\n\n```yaml\n(.*?)```", README, re.DOTALL)
    assert job is not None
    assert len(job[1].splitlines()) <= 25
    workspace.job_file("first").write_text(job[1], encoding="utf-8")
    words = ["--workspace", str(workspace.root)]
    checked = CliRunner().invoke(main, [*words, "check", "first"])
    assert checked.exit_code == 0
    assert checked.output.startswith("first: no problems\nThe sums you need next:")
    assert "Before you leave" in checked.output
    built = CliRunner().invoke(main, [*words, "build", "first"])
    assert built.exit_code == 0, built.output


def test_commands_of_the_readme_exist() -> None:
    named = set(re.findall(r"`onlot ([a-z]+)", README))
    assert named == set(main.commands)


def test_linked_files_exist() -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (ROOT / target).exists(), target


def test_ci_runs_the_test_command_of_the_readme() -> None:
    commands = re.findall(r"```sh\n(.*?)\n```", README)
    assert commands[1] in (ROOT / ".ci/run").read_text(encoding="utf-8")


def test_demonstration_says_that_it_is_one() -> None:
    for path in (ROOT / "inspections").glob("*.yaml"):
        data = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
        assert "invented" in data["demonstration"], path.name
