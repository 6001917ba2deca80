"""The history of a job, asserted line by line."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from tests.trail.scripted import JOB, RENAMED, ROOT, Repository

GOLDEN = Path(__file__).with_name("history.txt")
COMMIT = re.compile(r"\b[0-9a-f]{10}\b", re.ASCII)


def asked(repository: Repository, *words: str) -> str:
    """Run ``onlot history`` and give what it prints."""
    run = CliRunner().invoke(
        main, ["--workspace", str(repository.root), "history", *words]
    )
    assert run.exit_code == 0, run.output
    return run.output


def counted(text: str) -> str:
    """Put numbers in place of the names of commits, which keys make anew each time."""
    names = dict.fromkeys(COMMIT.findall(text))
    numbers = {name: f"<commit {at}>" for at, name in enumerate(names, 1)}
    return COMMIT.sub(lambda found: numbers[found[0]], text)


def test_the_whole_history_line_by_line(told: Repository) -> None:
    text = counted(asked(told, RENAMED))
    if os.environ.get("ONLOT_REFRESH"):
        GOLDEN.write_text(text, encoding="utf-8")
    assert text == GOLDEN.read_text(encoding="utf-8")


def test_the_same_for_machines(told: Repository) -> None:
    found = json.loads(asked(told, RENAMED, "--json"))
    assert (found["job"], found["git"], found["whole"]) == (RENAMED, True, True)
    log = told.git("log", "--format=%H", "--topo-order").split()
    assert [one["commit"] for one in found["revisions"]] == log
    assert [one["reports"] for one in found["revisions"]] == [
        [],
        ["report 3 given: second visit after repair"],
        [], [], [], [],
        ["report 2 given: correction: sludge misread"],
        ["report 1 given: first report"],
        [],
    ]  # fmt: skip
    signatures = [one["signature"] for one in found["revisions"]]
    assert signatures[1] == "unknown key: nobody here vouches for it"
    assert signatures[6] == "verified"
    assert {*signatures[:1], *signatures[2:6], *signatures[7:]} == {"none"}


def test_without_a_list_of_signers_a_key_is_unknown(mine: Repository) -> None:
    mine.git("config", "--unset", "gpg.ssh.allowedSignersFile")
    found = json.loads(asked(mine, RENAMED, "--json"))
    assert [one["signature"] for one in found["revisions"]].count("unknown key") == 2


def test_what_is_not_committed_comes_first(mine: Repository) -> None:
    mine.edit(("ground: moist", "ground: wet"), job=RENAMED)
    told = asked(mine, RENAMED).splitlines()
    assert told[2:4] == ["not committed", "    ground, visit: moist → wet"]
    mine.edit(("visit:", "visit: [\n"), job=RENAMED)
    told = asked(mine, RENAMED).splitlines()
    assert told[3].startswith("  This version cannot be read: ")


def test_comments_are_told_as_such(mine: Repository) -> None:
    mine.write(mine.text(RENAMED) + "# seen by the office\n", RENAMED)
    mine.commit("Note")
    assert asked(mine, RENAMED).splitlines()[3] == (
        "    nothing that the report uses: comments or layout"
    )


def test_a_version_with_problems_says_the_first(mine: Repository) -> None:
    mine.edit(("sludge: 14 in", "sludge: 14"), job=RENAMED)
    mine.commit("Slip")
    assert asked(mine, RENAMED).splitlines()[3:5] == [
        '    sludge, tank "tank": 14 in → 14',
        "  Nothing was worked out of this version: line 71, tanks[0].sludge: "
        '"14" has no unit.',
    ]


def test_a_job_that_was_taken_away_keeps_its_history(mine: Repository) -> None:
    mine.workspace.job_file(RENAMED).unlink()
    mine.commit("Take it away")
    told = asked(mine, RENAMED).splitlines()
    assert told[0] == f"{RENAMED}: 10 revisions, 3 reports given"
    assert told[2].endswith("  taken away  signature: none")


def test_a_new_job_of_an_old_name_begins_anew(mine: Repository) -> None:
    mine.write("state: draft\n", JOB)
    mine.commit("Begin another job of the old name")
    assert asked(mine, JOB).splitlines()[0] == f"{JOB}: 1 revision, 0 reports given"


def test_an_old_name_tells_where_its_job_went(told: Repository) -> None:
    assert counted(asked(told, JOB)).splitlines()[2] == (
        "<commit 1>  2026-10-14 09:00:00 -0700  M. Quillfeather (invented)  "
        f"renamed to {RENAMED}  signature: none"
    )


def test_a_shallow_clone_goes_as_far_as_it_can(
    told: Repository, tmp_path: Path
) -> None:
    told.git(
        "clone", "--quiet", "--depth=3", f"file://{told.root}", str(tmp_path / "c")
    )
    found = counted(asked(Repository(tmp_path / "c"), RENAMED)).splitlines()
    assert found[0] == f"{RENAMED}: 3 revisions, 1 report given"
    assert found[-2:] == [
        "",
        "This copy of the history is cut off here, and what came before is not known. "
        "Fetch it with: git fetch --unshallow",
    ]
    assert found[-3] == (
        "<commit 3>  2026-10-12 09:00:00 -0700  M. Quillfeather (invented)  as it "
        "stood where this copy of the history begins  signature: none"
    )


def test_without_git_it_says_so(mine: Repository) -> None:
    (mine.root / ".git").rename(mine.root / "elsewhere")
    assert asked(mine, RENAMED) == (
        f"{RENAMED}: There is no git history here, so nothing is known of earlier "
        "versions.\n"
    )


def test_a_history_without_the_program_git(
    mine: Repository, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(mine.root))
    run = CliRunner().invoke(main, ["--workspace", str(mine.root), "history", RENAMED])
    assert run.exit_code == 1
    assert run.output.splitlines()[:2] == [
        "history: git is not installed here, and this folder has a history in git.",
        "  Install git, which the history is read with.",
    ]


def test_a_job_that_nobody_knows(told: Repository) -> None:
    assert asked(told, "nobody") == "nobody: No commit holds a job of this name yet.\n"


def test_settings_of_a_person_change_nothing(mine: Repository) -> None:
    before = asked(mine, RENAMED)
    for key, value in {
        "log.showSignature": "true",
        "diff.renames": "false",
        "diff.noprefix": "true",
        "core.quotepath": "true",
        "log.date": "relative",
        "color.ui": "always",
        "diff.external": "false",
    }.items():
        mine.git("config", key, value)
    assert asked(mine, RENAMED) == before


def test_a_hook_of_git_does_not_lead_elsewhere(
    told: Repository, tmp_path: Path
) -> None:
    other = tmp_path / "other"
    other.mkdir()
    Repository(other).git("init", "--quiet")
    run = subprocess.run(
        [
            sys.executable,
            "-m",
            "generator",
            "--workspace",
            str(told.root),
            "history",
            RENAMED,
        ],
        cwd=ROOT,
        env=os.environ | {"GIT_DIR": str(other / ".git"), "GIT_INDEX_FILE": "index"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.stdout == asked(told, RENAMED), run.stderr
