"""Each job file with one mistake is refused with exactly the problems set down."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
import yaml

from generator.problems import Refused
from generator.record.load import Workspace, load
from generator.worked import work_out

BAD = Path(__file__).parent.parent / "jobs" / "bad"
FIRM = "name: Example Onlot (invented)\nphone: 555-0100\n"
PHOTOS = "# photos:"
FEWEST_FILES, QUESTIONS = 200, 5
TRAP = "trap-"  # what YAML, an editor or a phone makes of what was meant
FEWEST_TRAPS = 1 / 3  # of all bad files
LATER = (  # what a final file answers, and a draft may leave open
    "depth-to-an-undescribed-part",
    "distance-from-an-undescribed-part",
    "pipe-from-an-undescribed-part",
    "pit-levels-without-water",
    "pit-of-no-size",
    "pit-water-without-levels",
    "pit-without-a-width",
    "report-before-the-visit",
    "sign-not-answered",
)


def told(workspace: Path, raw: bytes) -> str:
    """Load a job file and tell its problems, one after another."""
    inspections = workspace / "inspections"
    (inspections / "job").mkdir(parents=True)
    (inspections / "firm.yaml").write_text(FIRM, encoding="utf-8")
    (inspections / "job.yaml").write_bytes(raw)
    first = raw.split(b"\n", 1)[0].decode("utf-8", "replace")
    if first.startswith(PHOTOS):
        for name in first.removeprefix(PHOTOS).split(","):
            (inspections / "job" / name.strip()).write_bytes(b"")
    with pytest.raises(Refused) as refused:
        load(Workspace(workspace), "job")
    problems = refused.value.problems
    assert list(problems) == sorted(problems)
    return "".join(f"{problem}\n" for problem in problems)


@pytest.mark.parametrize(
    "file", sorted(BAD.glob("*.yaml")), ids=lambda file: str(file.stem)
)
def test_exactly_these_problems(file: Path, tmp_path: Path) -> None:
    expected = file.with_suffix(".expected")
    found = told(tmp_path, file.read_bytes())
    if os.environ.get("ONLOT_REFRESH") == "1":
        expected.write_text(found, encoding="utf-8")
    assert found == expected.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "file", sorted(BAD.glob("*.yaml")), ids=lambda file: str(file.stem)
)
def test_the_same_problems_without_the_compiled_parser(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.record.read._Loader", yaml.SafeLoader)
    found = told(tmp_path, file.read_bytes())
    assert found == file.with_suffix(".expected").read_text(encoding="utf-8")


def test_every_bad_file_has_its_expected_problems() -> None:
    jobs = {file.stem for file in BAD.glob("*.yaml")}
    assert jobs == {file.stem for file in BAD.glob("*.expected")}
    assert len(jobs) >= FEWEST_FILES


@pytest.mark.parametrize("name", LATER)
def test_a_draft_may_leave_it_open(name: str, tmp_path: Path) -> None:
    text = (BAD / f"{name}.yaml").read_text(encoding="utf-8")
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    (inspections / "firm.yaml").write_text(FIRM, encoding="utf-8")
    assert text.startswith("state: final\n")
    draft = text.replace("state: final", "state: draft", 1)
    (inspections / "job.yaml").write_text(draft, encoding="utf-8")
    assert len(work_out(Workspace(tmp_path), "job").answers) == QUESTIONS


def test_a_third_of_the_bad_files_are_traps_of_the_notation() -> None:
    jobs = [file.stem for file in BAD.glob("*.yaml")]
    traps = [name for name in jobs if name.startswith(TRAP)]
    assert len(traps) >= FEWEST_TRAPS * len(jobs)


@pytest.mark.parametrize("name", ["bullet", "en-dash", "asterisk"])
def test_a_list_told_of_its_hyphen(name: str) -> None:
    said = (BAD / f"{TRAP}{name}-for-a-dash.expected").read_text(encoding="utf-8")
    assert 'Begin the line with "- "' in said


@pytest.mark.parametrize("file", sorted(BAD.glob("*.expected")), ids=lambda f: f.stem)
def test_no_sentence_speaks_of_the_program(file: Path) -> None:
    said = file.read_text(encoding="utf-8")
    for word in ("None", "dict", "str", "NoneType", "Traceback", "<", "{", "schema"):
        assert word not in said.split()


def test_not_utf8(tmp_path: Path) -> None:
    raw = "visit:\n  date: 2026-10-06\n  inspector: Andr\u00e9\n".encode("latin-1")
    assert told(tmp_path, raw) == (
        "inspections/job.yaml:3: The file is not UTF-8 text.\n"
        '  Save it again as "UTF-8".\n'
    )


def test_utf16(tmp_path: Path) -> None:
    assert "not UTF-8" in told(tmp_path, "visit:\n".encode("utf-16"))


def test_an_address_that_no_link_can_begin_with(tmp_path: Path) -> None:
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    firm = f"{FIRM}reports_at: www.example\n"
    (inspections / "firm.yaml").write_text(firm, encoding="utf-8")
    (inspections / "job.yaml").write_text("visit:\n", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        load(Workspace(tmp_path), "job")
    assert str(refused.value.problems[0]) == (
        'inspections/firm.yaml:3: reports_at: "www.example" is no address that a '
        "private link can begin with.\n"
        "  Address under which the published folder is reached; every private link "
        "begins with it, and paper prints the link. Write it like "
        '"https://reports.onlot.example".'
    )


def test_problems_of_the_firm_are_told_too(tmp_path: Path) -> None:
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    (inspections / "firm.yaml").write_text("name: Example Onlot\n", encoding="utf-8")
    (inspections / "job.yaml").write_text("visit:\n", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        load(Workspace(tmp_path), "job")
    files = {problem.file for problem in refused.value.problems}
    assert files == {"inspections/firm.yaml", "inspections/job.yaml"}
