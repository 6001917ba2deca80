"""A firm's own repository, as it is begun: whole, built, and never overwritten."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result

from generator.cli import main
from generator.problems import Refused
from generator.start.write import start
from generator.website.links import folder_name

SECRET = "a secret for tests only, never a client's"
LINTED = {
    ".github/workflows/reports.yml": "vendor.github-workflows",
    ".gitlab-ci.yml": "vendor.gitlab-ci",
}


@pytest.fixture
def firm(tmp_path: Path) -> Path:
    """A folder that was just begun."""
    start(tmp_path / "firm")
    return tmp_path / "firm"


def ask(firm: Path, *words: str, env: dict[str, str | None] | None = None) -> Result:
    asked = ["--workspace", str(firm), *words]
    given: dict[str, str | None] = {"ONLOT_LINK_SECRET": SECRET}
    return CliRunner().invoke(main, asked, env=given | (env or {}))


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_what_is_begun_checks_and_builds(firm: Path) -> None:
    assert ask(firm, "check").exit_code == 0
    built = ask(firm, "build")
    assert built.exit_code == 0, built.output
    page = firm / "public" / folder_name(SECRET.encode(), "example", 1) / "index.html"
    assert "demonstration" in page.read_text(encoding="utf-8")
    assert ask(firm, "office").exit_code == 0


def test_begun_twice_is_begun_once(firm: Path) -> None:
    before = files(firm)
    start(firm)
    assert files(firm) == before


def test_nothing_is_written_over(firm: Path) -> None:
    file = firm / "inspections/firm.yaml"
    file.write_text("name: Ours\nphone: 555-0101\n", encoding="utf-8")
    (firm / "README.md").unlink()
    with pytest.raises(Refused, match="is not what would be written"):
        start(firm)
    assert file.read_text(encoding="utf-8").startswith("name: Ours")
    assert not (firm / "README.md").exists()


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    told = CliRunner().invoke(main, ["start", str(tmp_path / "file" / "firm")])
    assert told.exit_code == 1
    assert "cannot be written here" in told.output


def test_git_takes_no_secret_and_nothing_built(firm: Path) -> None:
    ask(firm, "build", env={"ONLOT_LINK_SECRET": None, "CI": None})
    ask(firm, "office", env={"ONLOT_LINK_SECRET": None, "CI": None})
    assert (firm / ".onlot/link-secret").exists()
    subprocess.run(["git", "init", "-q", str(firm)], check=True)
    subprocess.run(["git", "-C", str(firm), "add", "-A"], check=True)
    listed = subprocess.run(
        ["git", "-C", str(firm), "ls-files"], check=True, capture_output=True, text=True
    ).stdout.split()
    begun = {name.split("/")[0] for name in listed}
    assert begun == {
        ".githooks", ".github", ".gitignore", ".gitlab-ci.yml", "README.md",
        "inspections", "mkdocs.yml", "requirements.txt", "schemas",
    }  # fmt: skip


@pytest.mark.parametrize("place", LINTED)
def test_pipelines_pass_a_linter(firm: Path, place: str) -> None:
    """Held to the published schema of each host by check-jsonschema."""
    command = [sys.executable, "-m", "check_jsonschema", "--builtin-schema"]
    run = subprocess.run(
        [*command, LINTED[place], str(firm / place)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout


def test_a_pipeline_without_the_secret_publishes_nothing(firm: Path) -> None:
    for env in ({"ONLOT_LINK_SECRET": ""}, {"ONLOT_LINK_SECRET": None, "CI": "true"}):
        refused = ask(firm, "build", env=env)  # type: ignore[arg-type]  # texts or none
        assert refused.exit_code == 1
        assert "Set ONLOT_LINK_SECRET as a masked variable" in refused.output
        assert not (firm / "public").exists()
        assert not (firm / ".onlot").exists()


def test_a_problem_is_shown_at_its_line_by_both_hosts(firm: Path) -> None:
    file = firm / "inspections/example.yaml"
    text = file.read_text(encoding="utf-8").replace("sludge: 11 in", "sludge: 11")
    file.write_text(text, encoding="utf-8")
    line = 1 + text[: text.index("sludge: 11")].count("\n")
    told = ask(firm, "check", "--annotate", "github")
    assert told.exit_code == 1
    assert f"::error file=inspections/example.yaml,line={line}::tanks[0].sludge: " in (
        told.output
    )
    report = ask(firm, "check", "--annotate", "gitlab")
    (found,) = yaml.safe_load(report.stdout)
    assert found["location"] == {
        "path": "inspections/example.yaml",
        "lines": {"begin": line},
    }
    assert set(found) >= {"description", "check_name", "fingerprint", "severity"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("theme: {name: other}\n", "Only theme.palette can stand"),
        ("plugins: [search]\n", "Only theme.palette can stand"),
        ("hooks: [x.py]\ntheme: {palette: []}\n", "Only theme.palette can stand"),
        ("theme: [\n", "mkdocs.yml:2: This file is not YAML"),
        ("!!python/object/apply:os.system [true]\n", "mkdocs.yml:1: This file is not"),
        ("- 1\n", "Only theme.palette can stand"),
    ],
)
def test_the_firm_sets_its_colors_and_no_more(firm: Path, text: str, told: str) -> None:
    (firm / "mkdocs.yml").write_text(text, encoding="utf-8")
    refused = ask(firm, "build")
    assert refused.exit_code == 1
    assert told in refused.output
    assert not (firm / "public").exists()


def test_a_palette_of_the_firm_is_used(firm: Path) -> None:
    palette: dict[str, Any] = {"palette": [{"scheme": "slate", "primary": "custom"}]}
    (firm / "mkdocs.yml").write_text(yaml.safe_dump({"theme": palette}), "utf-8")
    assert ask(firm, "build").exit_code == 0
    page = firm / "build/sites/example/index.html"
    assert 'data-md-color-scheme="slate"' in page.read_text(encoding="utf-8")


def test_the_hook_is_ready_to_run(firm: Path) -> None:
    hook = firm / ".githooks/pre-commit"
    assert os.access(hook, os.X_OK)
    assert subprocess.run(["sh", "-n", str(hook)], check=False).returncode == 0
