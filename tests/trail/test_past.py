"""Which revision gave which report, and what git may refuse."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.problems import Refused
from generator.trail.past import IN_PART, NO_HISTORY, NOT_COMMITTED, Past, past_of
from generator.trail.revision import Revision
from generator.trail.said import said
from tests.trail.scripted import JOB, RENAMED, Repository, begun, entry


def sound(_: Revision) -> bool:
    return True


def gave(past: Past, job: str, most: int) -> list[str | None]:
    found = [past.gave(job, number, sound) for number in range(1, most + 1)]
    return [one and one.commit for one in found]


def test_the_reports_of_the_story(told: Repository) -> None:
    past = past_of(told.workspace)
    log = told.git("log", "--reverse", "--topo-order", "--format=%H %s").splitlines()
    reasons = ("Give the first", "Correct the sludge", "Give the third")
    given = [line.split()[0] for line in log if any(one in line for one in reasons)]
    assert gave(past, RENAMED, 4) == [*given, None]
    last = past.last_given(RENAMED, sound)
    assert last is not None
    assert (last[0], last[1].commit, last[1].path) == (
        3,
        given[2],
        f"inspections/{JOB}.yaml",
    )


def test_of_two_branches_the_earlier_commit_counts(tmp_path: Path) -> None:
    made = begun(tmp_path / "firm")
    made.commit("Begin")
    made.git("switch", "-q", "--create", "other")
    made.write(made.text() + entry(1, "first report", "2026-10-07"))
    early = made.commit("Give it on a branch")
    made.git("switch", "-q", "main")
    made.write(made.text() + entry(1, "first report, told otherwise", "2026-10-08"))
    made.commit("Give it here as well")
    made.days += 1
    made.git("merge", "-q", "--no-edit", "--strategy-option=theirs", "other")
    for folder in ("one", "two"):
        assert gave(past_of(made.workspace, tmp_path / folder), JOB, 1) == [early]


def test_an_entry_in_a_draft_gives_nothing_yet(tmp_path: Path) -> None:
    made = begun(tmp_path / "firm")
    made.edit(("state: final", "state: draft"))
    made.write(made.text() + entry(1, "first report", "2026-10-07"))
    made.commit("List it ahead")
    assert past_of(made.workspace).last_given(JOB, sound) is None
    made.edit(("state: draft", "state: final"))
    head = made.commit("Give it")
    assert gave(past_of(made.workspace), JOB, 1) == [head]


def test_why_no_commit_holds_a_job(told: Repository, tmp_path: Path) -> None:
    assert past_of(told.workspace).why_not(RENAMED) == ""
    place = tmp_path / "clone"
    told.git("clone", "-q", "--depth=1", f"file://{told.root}", str(place))
    assert past_of(Repository(place).workspace).why_not(RENAMED) == IN_PART
    made = begun(tmp_path / "firm")
    assert past_of(made.workspace).why_not(JOB) == NOT_COMMITTED
    made.commit("Begin")
    (made.workspace.inspections / "other.yaml").write_text("a: 1\n")
    assert past_of(made.workspace).why_not(JOB) == ""
    assert past_of(made.workspace).why_not("other") == NOT_COMMITTED
    (made.workspace.inspections / "firm.yaml").write_text("a: 1\n")
    assert past_of(made.workspace).why_not(JOB) == NOT_COMMITTED
    (made.root / ".git").rename(tmp_path / "away")
    assert past_of(made.workspace).why_not(JOB) == NO_HISTORY


def test_the_last_commit_of_a_job_holds_all_that_it_is_made_from(
    told: Repository,
) -> None:
    past = past_of(told.workspace)
    commit = past.index.last_touch(RENAMED)
    changed = told.git("diff", "--name-only", commit, "HEAD", "--", "inspections")
    assert commit
    assert changed == ""


@pytest.mark.parametrize(
    ("text", "given"),
    [
        ("state: final\nreports:\n  - {number: 1, date: 2026-10-07}\n", 1),
        ("state: Final\nreports:\n- number: 1\n- number: 2\nvisit: {}\n", 2),
        ("'state': final\n\"reports\": [{number: 1}]\n", 1),
        ("{state: final, reports: [{number: 1}]}\n", 1),
        ("\ufeffstate: final\r\nreports:\r\n  - {number: 1}\r\n", 1),
        ("# state: draft\n---\nstate: final\nreports: [{number: 1}]\n", 1),
        ("state: final # sure\nreports: # all\n  # one\n  - {number: 1}\n", 1),
        ("state: final\nreports:\n  - {number: 1}\ndemonstration: shown\n", 0),
        ("state: draft\nreports:\n  - {number: 1}\n", 0),
        ("reports:\n  - {number: 1}\n", 0),
        ("state: final\nnote: >-\n  reports:\n  - one\n", 0),
        ("state: final\nreports: none\n", 0),
        ("state: final\nreports: [1, 2]\n", 0),
        ("state: final\nreports:\n  - {number: 1\n", 0),
        ("state: final\nreports: *all\n", 0),
    ],
)
def test_what_a_version_says_of_its_reports(text: str, given: int) -> None:
    assert said(text.encode()).given == given


def test_what_git_refuses_is_told_with_a_way_out(tmp_path: Path) -> None:
    made = begun(tmp_path / "firm")
    made.commit("Begin")
    objects = made.root / ".git" / "objects"
    name = made.git("rev-parse", "HEAD^{tree}")
    broken = objects / name[:2] / name[2:]
    broken.chmod(0o644)
    broken.write_bytes(b"spoilt")
    with pytest.raises(Refused) as refused:
        past_of(made.workspace)
    told = str(refused.value).splitlines()
    assert told[0].startswith("history: git says: ")
    assert told[1] == (
        '  See with "git fsck" what is wrong, or clone the repository anew.'
    )
