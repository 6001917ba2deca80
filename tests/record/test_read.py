"""The reader keeps what was typed, knows every line, and refuses tricks."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.problems import Refused
from generator.record.load import Workspace, load, look
from generator.record.read import (
    DEEPEST_NESTING,
    LARGEST_WHOLE_NUMBER_DIGITS,
    Document,
    read,
)
from generator.record.text import LARGEST_FILE_BYTES


def written(folder: Path, text: str) -> Path:
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def refused(path: Path) -> list[str]:
    with pytest.raises(Refused) as found:
        read(path, shown_as="job.yaml")
    return [str(problem) for problem in found.value.problems]


NESTED = """\
# a comment

visit:
  date: 2026-10-06
tanks:
  - name: tank

    sludge: 8 in
  - {name: second, sludge: 2 in}
load_test:
  water:
    - from: 10:05 am
      bucket:
        - 5 gal in 75 s
        - 5 gal in 73 s
note: >-
  two lines
  of text
last: 1
"""
LINES = {
    "visit": 3,
    "visit.date": 4,
    "tanks": 5,
    "tanks[0]": 6,
    "tanks[0].name": 6,
    "tanks[0].sludge": 8,
    "tanks[1]": 9,
    "tanks[1].name": 9,
    "tanks[1].sludge": 9,
    "load_test": 10,
    "load_test.water": 11,
    "load_test.water[0]": 12,
    "load_test.water[0].from": 12,
    "load_test.water[0].bucket": 13,
    "load_test.water[0].bucket[0]": 14,
    "load_test.water[0].bucket[1]": 15,
    "note": 16,
    "last": 19,
}


def test_the_line_of_every_nested_key(tmp_path: Path) -> None:
    document = read(written(tmp_path, NESTED))
    assert document.lines == LINES
    assert document.data["note"] == "two lines of text"


@pytest.mark.parametrize(
    ("path", "line"),
    [
        ("tanks[1].sludge", 9),
        ("tanks[1].cover", 9),
        ("tanks[7].cover.deep", 5),
        ("client.name", 1),
        ("", 1),
    ],
)
def test_a_missing_path_falls_to_the_key_above_it(
    tmp_path: Path, path: str, line: int
) -> None:
    assert read(written(tmp_path, NESTED)).line(path) == line


STAYS_TEXT = [
    "no",
    "yes",
    "on",
    "off",
    "No",
    "YES",
    "true",
    "false",
    "null",
    "Null",
    "~",
    "y",
    "n",
    "10:30",
    "1:30:00",
    "012",
    "0o14",
    "0x1F",
    "1e3",
    "1_000",
    "1.5",
    ".5",
    "-0.0",
    ".inf",
    ".nan",
    "+4",
    "2026-10-06",
    "2026-10-06T10:00:00Z",
    "=",
    "<<",
    "03/04/26",
]


@pytest.mark.parametrize("typed", STAYS_TEXT)
def test_plain_text_stays_as_typed(tmp_path: Path, typed: str) -> None:
    document = read(written(tmp_path, f"key: {typed}\n"))
    assert document.data == {"key": typed}
    assert read(written(tmp_path, f"{typed}: value\n")).data == {typed: "value"}


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("12", 12),
        ("0", 0),
        ("-3", -3),
        ('"12"', "12"),
        ("'no'", "no"),
        ("", None),
        ('""', ""),
        ("9" * LARGEST_WHOLE_NUMBER_DIGITS, int("9" * LARGEST_WHOLE_NUMBER_DIGITS)),
    ],
)
def test_only_plain_whole_numbers_are_numbers(
    tmp_path: Path, typed: str, found: object
) -> None:
    value = read(written(tmp_path, f"key: {typed}\n")).data["key"]
    assert value == found
    assert type(value) is type(found)


def test_two_mistakes_are_told_at_once(tmp_path: Path) -> None:
    problems = refused(written(tmp_path, "a: 1\na: 2\nb: &x 3\n"))
    assert [problem.split(": ")[0] for problem in problems] == [
        "job.yaml:2",
        "job.yaml:3",
    ]


def test_the_size_limit(tmp_path: Path) -> None:
    text = "key: value\n"
    full = text + "#" * (LARGEST_FILE_BYTES - len(text))
    assert read(written(tmp_path, full)).data == {"key": "value"}
    assert refused(written(tmp_path, full + "#")) == [
        "job.yaml: The file is over 1 MiB.\n  Keep pictures in files of their own."
    ]


@pytest.mark.parametrize("opening", ["[", "{a: ", "- "])
def test_deep_nesting_is_refused(tmp_path: Path, opening: str) -> None:
    text = "key:\n  " + opening * (DEEPEST_NESTING + 1)
    assert "nests too deep" in refused(written(tmp_path, text))[0]
    assert len(refused(written(tmp_path, text + opening * 100_000))) == 1


def test_no_file(tmp_path: Path) -> None:
    assert refused(tmp_path / "none.yaml") == [
        "job.yaml: There is no such file.\n  Check the name."
    ]


@pytest.mark.parametrize("typed", ["2026-21", "2026-02l", "2026_021"])
def test_the_nearest_job_is_offered(typed: str, tmp_path: Path) -> None:
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    for name in ("2026-021", "firm"):
        (inspections / f"{name}.yaml").write_text("visit:\n", encoding="utf-8")
    told = [str(one) for one in look(Workspace(tmp_path), typed).problems]
    assert (
        f'inspections/{typed}.yaml: There is no such file.\n  Did you mean "2026-021"?'
    ) in told


def test_a_folder_for_a_file(tmp_path: Path) -> None:
    assert refused(tmp_path) == [
        "job.yaml: This is not a file.\n  Put the file itself there."
    ]


@pytest.mark.parametrize(
    "text", ["", "- a\n- b\n", "words\n", "12\n", "---\n", "# only\n"]
)
def test_a_file_without_keys(tmp_path: Path, text: str) -> None:
    assert "This file holds no keys." in refused(written(tmp_path, text))[0]


def test_a_document_shows_no_lines_in_its_name() -> None:
    assert repr(Document("a.yaml", {}, {"key": 1})) == (
        "Document(file='a.yaml', data={})"
    )


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    inspections = tmp_path / "firm" / "inspections"
    inspections.mkdir(parents=True)
    (inspections / "firm.yaml").write_text("name: Example\nphone: 555-0100\n")
    return Workspace(tmp_path / "firm")


MINIMAL = (
    "visit: {date: 2026-10-06, inspector: N}\nclient: {name: A}\n"
    "property: {address: 1 Example Lane, place: Example}\n"
)


def load_refused(workspace: Workspace, job: str) -> str:
    with pytest.raises(Refused) as found:
        load(workspace, job)
    return str(found.value)


def test_a_link_out_of_inspections_is_refused(workspace: Workspace) -> None:
    outside = workspace.root.parent / "outside.yaml"
    outside.write_text(MINIMAL)
    (workspace.inspections / "job.yaml").symlink_to(outside)
    assert load_refused(workspace, "job") == (
        "inspections/job.yaml: This link leads out of inspections/.\n"
        "  Put the file itself there."
    )


def test_a_link_to_itself_is_refused(workspace: Workspace) -> None:
    link = workspace.inspections / "job.yaml"
    link.symlink_to(link)
    assert load_refused(workspace, "job").startswith("inspections/job.yaml: ")


def test_a_link_inside_inspections_is_followed(workspace: Workspace) -> None:
    (workspace.inspections / "kept.yaml").write_text(MINIMAL)
    (workspace.inspections / "job.yaml").symlink_to("kept.yaml")
    assert load(workspace, "job").job == "job"


def test_a_photograph_linked_from_outside_is_refused(workspace: Workspace) -> None:
    outside = workspace.root.parent / "lid.jpg"
    outside.write_bytes(b"")
    folder = workspace.photo_folder("job")
    folder.mkdir()
    (folder / "lid.jpg").symlink_to(outside)
    text = MINIMAL + "photos:\n  - {file: lid.jpg, shows: Illustration.}\n"
    (workspace.inspections / "job.yaml").write_text(text)
    assert "There is no photograph lid.jpg" in load_refused(workspace, "job")


@pytest.mark.parametrize(
    "job",
    [
        "",
        ".",
        "..",
        "../job",
        "a/b",
        "a\\b",
        "/etc/passwd",
        ".hidden",
        "-rf",
        "job\n",
        "job\x00",
        "jób",
        "a" * 81,
        "job ",
        "~",
    ],
)
def test_tricks_in_the_name_of_a_job(workspace: Workspace, job: str) -> None:
    assert "This cannot be the name of a job." in load_refused(workspace, job)


def test_the_firm_file_is_no_job(workspace: Workspace) -> None:
    assert load_refused(workspace, "firm") == (
        "inspections/firm.yaml: This is the firm's own file, not a job.\n"
        "  Name a job file."
    )


def test_jobs_are_listed_in_order(workspace: Workspace) -> None:
    for name in ("b", "a"):
        (workspace.inspections / f"{name}.yaml").write_text(MINIMAL)
    assert workspace.jobs() == ["a", "b"]
