"""A report that was given is amended and not altered; clients see the last one."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.pipeline import Order, build
from generator.problems import Refused
from generator.website import journal
from tests.plain_job import plain
from tests.trail.scripted import DEMO, JOB, ROOT, Repository, begun, entry

TODAY = "2026-11-01"
AMEND = (
    '  Amend, do not alter: add report 2 to reports, or write "state: draft" while you '
    "work on it. Clients see report 1 until then."
)
PUT_BACK = "  Put it back as it was given, and say in a new entry what is otherwise."


@pytest.fixture
def given(tmp_path: Path) -> Repository:
    """A repository with one report given."""
    made = begun(tmp_path / "firm")
    made.write(plain(made.text()) + entry(1, "first report", "2026-10-07"))
    made.commit("Give the first report")
    return made


def check(repository: Repository) -> list[str]:
    run = CliRunner().invoke(main, ["--workspace", str(repository.root), "check"])
    assert run.exit_code in (0, 1), run.output
    return run.output.splitlines()


def built(repository: Repository) -> tuple[dict[str, bytes], list[str]]:
    """Build; give every published file but those of the theme, and what was told."""
    notes: list[str] = []
    public = repository.root / "public"
    order = Order(repository.workspace.jobs(), public, TODAY)
    found = build(repository.workspace, order, notes.append)
    if found.problems:
        raise Refused(found.problems)
    files = {
        path.relative_to(public).as_posix(): path.read_bytes()
        for path in sorted(public.rglob("*"))
        if path.is_file() and "shared" not in path.parts
    }
    return files, notes


def test_what_was_given_and_not_altered_is_no_problem(given: Repository) -> None:
    assert check(given) == [f"{JOB}: no problems"]


def test_an_alteration_is_a_problem_with_its_sentence(given: Repository) -> None:
    given.edit(("sludge: 11 in", "sludge: 14 in"))
    told = [
        f"inspections/{JOB}.yaml:46: tanks[0].sludge: This was altered after report 1 "
        'was given (2026-10-07): sludge, tank "tank": 11 in → 14 in.',
        AMEND,
        "1 problem; nothing published has changed.",
    ]
    assert check(given) == told
    given.commit("Alter it all the same")
    assert check(given) == told
    with pytest.raises(Refused) as refused:
        built(given)
    assert str(refused.value).splitlines() == told[:2]


def test_every_alteration_is_told_at_once(given: Repository) -> None:
    given.edit(("sludge: 11 in", "sludge: 14 in"), ("ground: dry", "ground: wet"))
    given.write(given.text().replace("  - tank to private well: 63 ft by tape\n", ""))
    fields = [line.split(": ")[1] for line in check(given) if "altered after" in line]
    assert fields == ["visit.ground", "tanks[0].sludge", "distances[1]"]


def test_comments_and_layout_alter_nothing(given: Repository) -> None:
    given.write("# looked through again\n" + given.text().replace("\n\n", "\n\n\n"))
    assert check(given) == [f"{JOB}: no problems"]


def test_a_draft_of_the_next_stays_in_the_office(given: Repository) -> None:
    before, _ = built(given)
    given.edit(("state: final", "state: draft"), ("sludge: 11 in", "sludge: 14 in"))
    (given.workspace.photo_folder(JOB) / "tank-open.jpg").unlink()
    for commit in (False, True):
        if commit:
            given.commit("Work on the next")
        after, notes = built(given)
        assert after == before
        assert notes[0] == (
            f"{JOB}: clients see report 1; the file is a draft of the next, which "
            "stays in the office."
        )


def test_an_amended_report_is_what_clients_see(given: Repository) -> None:
    before, _ = built(given)
    given.edit(("sludge: 11 in", "sludge: 14 in"))
    given.write(given.text() + entry(2, "correction", "2026-10-09"))
    assert check(given) == [f"{JOB}: no problems"]
    uncommitted, _ = built(given)
    given.commit("Give the second report")
    after, _ = built(given)
    [page] = [name for name in after if name.endswith("/record.html")]
    assert b"14 in" in after[page]
    assert b"14 in" in uncommitted[page]
    assert b"14 in" not in before[page]
    assert given.head().encode() in after[page]
    assert b"not committed yet" in uncommitted[page]


def test_nothing_of_drafts_between_is_told(given: Repository) -> None:
    given.edit(("state: final", "state: draft"), ("sludge: 11 in", "sludge: 33 in"))
    given.commit("Misread it")
    given.edit(("state: draft", "state: final"), ("sludge: 33 in", "sludge: 14 in"))
    given.write(given.text() + entry(2, "correction", "2026-10-09"))
    given.commit("Give the second report")
    files, _ = built(given)
    text = b"".join(text for name, text in files.items() if name.endswith(".html"))
    assert b"11 in \xe2\x86\x92 14 in" in text
    assert b"33 in" not in text
    assert b"Misread it" not in text


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (
            'reason: "first report"', 'reason: "first"',
            'reports[0]: The entry of report 1 was altered: reason, report number 1: '
            '"first report" → "first".',
        ),
        (
            entry(1, "first report", "2026-10-07"), "",
            "reports: Report 1 was given, and its entry is not here.",
        ),
    ],
    ids=["altered", "taken out"],
)  # fmt: skip
@pytest.mark.parametrize("state", ["draft", "final"])
def test_an_entry_of_a_report_stays_as_it_is(
    given: Repository, old: str, new: str, told: str, state: str
) -> None:
    given.edit((old, new), ("state: final", f"state: {state}"))
    lines = check(given)
    at = next(number for number, line in enumerate(lines) if told in line)
    assert lines[at + 1] == PUT_BACK


def test_another_picture_of_the_same_name_is_an_alteration(given: Repository) -> None:
    folder = given.workspace.photo_folder(JOB)
    (folder / "tank-open.jpg").write_bytes((folder / "well-head.jpg").read_bytes())
    told = [
        f"inspections/{JOB}.yaml:86: photos: tank-open.jpg is not the picture that "
        "report 1 showed.",
        AMEND,
        "1 problem; nothing published has changed.",
    ]
    assert check(given) == told
    given.commit("Put another picture there")
    assert check(given) == told


def test_a_version_with_problems_gave_no_report(tmp_path: Path) -> None:
    made = begun(tmp_path / "firm")
    text = made.text() + entry(1, "first report", "2026-10-07")
    made.write(text.replace("sludge: 11 in", "sludge: 11"))
    made.commit("Give it with a slip, which no pipeline publishes")
    made.write(text)
    assert check(made) == [f"{JOB}: no problems"]
    made.commit("Mend the slip")
    assert check(made) == [f"{JOB}: no problems"]
    made.edit(("sludge: 11 in", "sludge: 12 in"))
    assert "altered after report 1" in check(made)[0]


def test_a_demonstration_is_given_to_nobody(tmp_path: Path) -> None:
    made = begun(tmp_path / "firm")
    made.write((ROOT / "inspections" / f"{DEMO}.yaml").read_text(encoding="utf-8"))
    made.commit("Show what it can do")
    made.edit(("sludge: 11 in", "sludge: 14 in"))
    assert check(made) == [f"{JOB}: no problems"]
    made.commit("Show it otherwise")
    assert check(made) == [f"{JOB}: no problems"]


def test_a_report_does_not_become_a_demonstration(given: Repository) -> None:
    given.write("demonstration: This was never so.\n" + given.text())
    assert check(given)[0] == (
        f"inspections/{JOB}.yaml:1: demonstration: This was altered after report 1 was "
        'given (2026-10-07): demonstration notice: added "This was never so.".'
    )


def test_a_renamed_job_keeps_its_report(given: Repository) -> None:
    given.git("mv", f"inspections/{JOB}.yaml", "inspections/moved.yaml")
    given.git("mv", f"inspections/{JOB}", "inspections/moved")
    given.commit("Call it otherwise")
    assert check(given) == ["moved: no problems"]
    given.edit(("sludge: 11 in", "sludge: 14 in"), job="moved")
    assert check(given)[0].startswith("inspections/moved.yaml:46: tanks[0].sludge: ")


def test_a_shallow_clone_cannot_tell_and_publishes_nothing(
    given: Repository, tmp_path: Path
) -> None:
    given.write(given.text() + "# later\n")
    given.commit("Later")
    place = tmp_path / "clone"
    given.git("clone", "--quiet", "--depth=1", f"file://{given.root}", str(place))
    told = [
        f"inspections/{JOB}.yaml: reports: This copy of the history is cut off, so "
        "nobody can tell here what report 1 said when it was given.",
        "  Fetch the whole history: git fetch --unshallow. A pipeline asks for it with "
        "fetch-depth: 0 or GIT_DEPTH: 0.",
    ]
    clone = Repository(place)
    assert check(clone)[:2] == told
    with pytest.raises(Refused) as refused:
        built(clone)
    assert str(refused.value).splitlines() == told


def test_without_a_history_it_is_said_that_nothing_can_be_told(
    given: Repository,
) -> None:
    (given.root / ".git").rename(given.root / "elsewhere")
    assert check(given) == [f"{JOB}: no problems"]
    _, notes = built(given)
    assert notes[0] == (
        "There is no git history here, so nothing tells a report that was altered "
        "after it was given."
    )


def test_an_incremental_build_equals_a_clean_one(
    given: Repository, tmp_path: Path
) -> None:
    built(given)
    given.write("state: draft\n", "other")
    given.commit("Begin another job")
    given.workspace.job_file("other").unlink()
    given.commit("Give it up")
    given.edit(("sludge: 11 in", "sludge: 14 in"))
    given.write(given.text() + entry(2, "correction", "2026-10-09"))
    given.commit("Give the second report")
    grown, _ = built(given)
    given.git("clone", "--quiet", f"file://{given.root}", str(tmp_path / "clone"))
    clean, _ = built(Repository(tmp_path / "clone"))
    assert grown == clean


def test_a_firm_that_moves_house_leaves_what_was_given(given: Repository) -> None:
    before, _ = built(given)
    firm = given.workspace.inspections / "firm.yaml"
    firm.write_text(firm.read_text().replace("555-0142", "555-0199"))
    given.commit("Move house")
    after, notes = built(given)
    assert after == before
    assert notes == ["1 of 1 jobs had not changed."]


def test_a_job_file_that_is_none_leaves_the_others_alone(given: Repository) -> None:
    (given.workspace.inspections / "folder.yaml").mkdir()
    public = given.root / "public"
    order = Order(given.workspace.jobs(), public, TODAY)
    found = build(given.workspace, order, lambda _: None)
    assert list(found.pages) == [JOB]
    assert found.left == ["folder"]
    assert [one.message for one in found.problems] == ["This is not a file."]


def test_what_a_killed_build_left_is_finished_before_anything_is_compared(
    given: Repository, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Killed once its journal stood; the file is set back before the next build."""
    (given.root / ".git").rename(given.root / "elsewhere")
    before, _ = built(given)
    text = given.text()

    def killed(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(journal, "follow", killed)
        given.edit(("ground: dry", "ground: moist"))
        with pytest.raises(KeyboardInterrupt):
            built(given)
    given.write(text)
    after, _ = built(given)
    assert after == before
