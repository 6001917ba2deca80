"""Files made to harm: refused in a sentence, in little time and memory."""

from __future__ import annotations

import os
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.problems import Problem
from generator.record.load import MOST_TOLD, Workspace, look
from generator.record.read import MOST_VALUES
from generator.record.text import LARGEST_FILE_BYTES

FIRM = "name: Example (invented)\nphone: 555-0100\n"
HEAD = (
    "visit: {date: 2026-10-06, inspector: N}\nclient: {name: A}\n"
    "property: {address: 1 Example Lane, place: Example}\n"
)
FULL = LARGEST_FILE_BYTES - len(HEAD) - 100
SLOWEST_S = 2.0
MOST_MIB = 100.0
LONGEST_TOLD = 100_000  # characters of all problems of one file
MIB = 1024 * 1024


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    inspections = tmp_path / "firm" / "inspections"
    inspections.mkdir(parents=True)
    (inspections / "firm.yaml").write_text(FIRM, encoding="utf-8")
    return Workspace(tmp_path / "firm")


def problems(workspace: Workspace, text: str | bytes) -> tuple[Problem, ...]:
    raw = text if isinstance(text, bytes) else text.encode()
    assert len(raw) <= LARGEST_FILE_BYTES
    workspace.job_file("job").write_bytes(raw)
    return look(workspace, "job").problems


BIG = {
    "digits": ("a: " + "9" * FULL, "too large a number"),
    "quoted digits": ('tanks: [{sludge: "' + "9" * FULL + '"}]', "too long for a len"),
    "one long word": ("household: " + "a" * FULL, "A group of keys is needed"),
    "a long text": ("demonstration: " + "a " * (FULL // 2), "This text has"),
    "a long key": ("k" * 900_000 + ": 1", "no colon after it"),
    "a long quoted key": ("? " + "k" * 900_000 + "\n: 1", "A key of 900000"),
    "a long dotted key": ("? " + "k." * 450_000 + "\n: 1", "A key of 900000"),
    "a long indexed key": ("? " + "k[0]" * 225_000 + "\n: 1", "A key of 900000"),
    "unknown keys": ("".join(f"k{n}: 1\n" for n in range(9000)), "follow from here"),
    "places": ("places:\n" + "- {name: A}\n" * 6000, "follow from here on"),
    "items": ("tanks:\n" + "- a\n" * 100_000, f"Over {MOST_VALUES:,} values"),
    "maps": ("tanks:\n" + "- a: 1\n" * 90_000, f"Over {MOST_VALUES:,} values"),
    "a long flow list": ("tanks: [" + "a," * 400_000 + "]", f"Over {MOST_VALUES:,}"),
    "aliases": ("a:\n" + "- *a\n" * 150_000, "An alias (*a)"),
    "tags": ("a:\n" + "- !!int 1\n" * 90_000, "A tag (!!int)"),
    "a long anchor": ("a: &" + "a" * 900_000 + " 1", "An anchor (&aaa"),
    "a long tag": ("a: !" + "a" * 900_000 + " 1", "A tag (!aaa"),
    "keys twice": ("a: 1\n" * 150_000, "stands here twice"),
    "keys that are lists": ("a: {" + "[a]: b, " * 100_000 + "}", "must be one word"),
    "documents": ("---\n" * 200_000, "A second document"),
    "flow lists": ("a: " + "[" * 500_000, ""),
    "flow maps": ("a: " + "{a: " * 200_000, "nests too deep"),
    "block lists": ("a:\n" + "- " * 400_000, "nests too deep"),
    "block maps": ("".join(" " * n + "a:\n" for n in range(1300)), "nests too deep"),
    "question marks": ("a:\n" + "? " * 400_000, "nests too deep"),
    "commas": (
        "load_test: {levels: [{10 min: '" + "a, " * 300_000 + "'}]}",
        "is not known here",
    ),
    "by": ("distances:\n  - tank to well: " + "1 ft by " * 100_000, "not known here"),
    "colons": ("a: " + ": " * 400_000, "second colon"),
    "an open quotation mark": ('a: "' + "a " * 400_000, "never closed"),
    "spaces": (" " * 900_000 + "a: 1", "does not line up"),
    "empty lines": ("\n" * 900_000 + "a: 1", "is not known here"),
    "folded lines": ("a: >\n" + "  a\n" * 200_000, "is not known here"),
}


@pytest.mark.parametrize("name", BIG)
def test_a_huge_file(name: str, workspace: Workspace) -> None:
    text, wanted = BIG[name]
    begun = time.process_time()
    found = problems(workspace, HEAD + text)
    assert time.process_time() - begun < SLOWEST_S
    tracemalloc.start()
    problems(workspace, HEAD + text)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < MOST_MIB * MIB
    assert 1 <= len(found) <= MOST_TOLD + 1
    assert wanted in " ".join(problem.message for problem in found)
    assert sum(len(str(problem)) for problem in found) < LONGEST_TOLD
    assert all(problem.line for problem in found)


def test_a_billion_laughs(workspace: Workspace) -> None:
    rows = [f"l{n}: &l{n} [{', '.join([f'*l{n - 1}'] * 9)}]\n" for n in range(1, 30)]
    found = problems(workspace, "l0: &l0 [ha]\n" + "".join(rows))
    assert 1 <= len(found) <= MOST_TOLD
    assert all("is not allowed." in problem.message for problem in found)


UNSEEN = {
    "null": "\x00",
    "bell": "\x07",
    "escape": "\x1b[2J",
    "delete": "\x7f",
    "next line": "\x85",
    "c1": "\x9b",
    "soft hyphen": "\u00ad",
    "zero-width space": "\u200b",
    "joiner": "\u200d",
    "left-to-right mark": "\u200e",
    "right-to-left override": "\u202e",
    "line separator": "\u2028",
    "isolate": "\u2066",
    "arabic mark": "\u061c",
    "filler": "\u3164",
    "byte order mark": "\ufeff",
    "tag letter": "\U000e0041",
    "no character": "\uffff",
}


@pytest.mark.parametrize("name", UNSEEN)
def test_a_character_that_nobody_sees(name: str, workspace: Workspace) -> None:
    sign = UNSEEN[name]
    [typed] = problems(workspace, HEAD.replace("Lane", f"La{sign}ne"))
    assert typed.line == 3
    assert f"(U+{ord(sign[0]):04X}) in this line." in typed.message
    escape = f"\\U{ord(sign[0]):08x}" + sign[1:]
    for place in (("name: A", f'name: "A{escape}"'), ("name", f'"na{escape}me"')):
        found = problems(workspace, HEAD.replace(*place))
        told = "\n".join(map(str, found))
        assert f"(U+{ord(sign[0]):04X}) is written here." in told
        assert sign[0] not in told
        assert found[0].line == 2


@pytest.mark.parametrize("escape", [r"\ud800", r"\r", r"\e", r"\N", r"\P", r"\_\0"])
def test_an_escape_that_hides_something(escape: str, workspace: Workspace) -> None:
    [problem] = problems(workspace, HEAD.replace("name: A", f'name: "A{escape}"'))
    assert problem.line == 2


@pytest.mark.parametrize(
    "name", ["Zoë Example", "e\u0301", "Đặng", "例", "🙂", "аpple", "Ａ", "ﷺ", "1/2 ½"]
)
def test_odd_letters_that_can_be_seen_are_kept(name: str, workspace: Workspace) -> None:
    text = HEAD.replace("name: A", f"name: {name}")
    workspace.job_file("job").write_text(text, encoding="utf-8")
    record = look(workspace, "job").record
    assert record is not None
    assert record.inspection.client.name == name


def test_a_key_in_letters_that_only_look_alike(workspace: Workspace) -> None:
    [problem] = problems(workspace, HEAD + "tаnks: [a]\n")  # а of another alphabet
    assert problem.hint == 'Did you mean "tanks"?'


def test_digits_of_another_script_are_no_number(workspace: Workspace) -> None:
    for typed in ("３", "1３", "٣"):
        text = HEAD.replace("place: Example", f"place: Example, bedrooms: {typed}")
        [problem] = problems(workspace, text)
        assert "is not a whole number" in problem.message


@pytest.mark.parametrize(
    "name",
    [
        "../lid.jpg",
        "../../etc/passwd",
        "/etc/passwd",
        "a/b.jpg",
        "..\\lid.jpg",
        "~/lid.jpg",
        ".lid.jpg",
        "-rf",
        "..",
        "lid.jpg/",
        "lid\u0301.jpg",
        '"lid.jpg\\n"',
        '"lid.jpg\\0.jpg"',
        "a" * 300 + ".jpg",
        "file:///etc/passwd",
        "https://example.com/lid.jpg",
        "none.jpg",
    ],
)
def test_tricks_in_the_name_of_a_photograph(name: str, workspace: Workspace) -> None:
    workspace.photo_folder("job").mkdir()
    text = HEAD + f"photos:\n  - file: {name}\n    shows: A lid.\n"
    found = problems(workspace, text)
    assert found
    assert all(problem.line in (4, 5) for problem in found)


def _loop(path: Path) -> None:
    path.symlink_to(path)


PLACES: dict[str, Callable[[Path], None]] = {
    "directory": lambda path: path.mkdir(),
    "pipe": lambda path: os.mkfifo(path),
    "device": lambda path: path.symlink_to("/dev/zero"),
    "loop": _loop,
    "dangling": lambda path: path.symlink_to("none"),
    "outside": lambda path: path.symlink_to("/etc/hostname"),
}


@pytest.mark.parametrize("place", PLACES)
def test_a_job_file_that_is_none(place: str, workspace: Workspace) -> None:
    PLACES[place](workspace.job_file("job"))
    [problem] = look(workspace, "job").problems
    assert problem.file == "inspections/job.yaml"
    assert problem.message.endswith(".")
    assert problem.hint


@pytest.mark.parametrize("place", PLACES)
def test_a_firm_file_that_is_none(place: str, workspace: Workspace) -> None:
    firm = workspace.inspections / "firm.yaml"
    firm.unlink()
    PLACES[place](firm)
    [problem] = problems(workspace, HEAD)
    assert problem.file == "inspections/firm.yaml"


@pytest.mark.parametrize("place", PLACES)
def test_a_photograph_that_is_no_file(place: str, workspace: Workspace) -> None:
    folder = workspace.photo_folder("job")
    folder.mkdir()
    PLACES[place](folder / "lid.jpg")
    text = HEAD + "photos:\n  - {file: lid.jpg, shows: A lid.}\n"
    [problem] = problems(workspace, text)
    assert problem.message == "There is no photograph lid.jpg in job/."


def test_a_folder_of_photographs_outside(workspace: Workspace) -> None:
    outside = workspace.root.parent / "outside"
    outside.mkdir()
    (outside / "lid.jpg").write_bytes(b"")
    workspace.photo_folder("job").symlink_to(outside)
    text = HEAD + "photos:\n  - {file: lid.jpg, shows: A lid.}\n"
    [problem] = problems(workspace, text)
    assert str(problem) == (
        "inspections/job: This link leads out of inspections/.\n"
        "  Put the folder itself there."
    )


@pytest.mark.parametrize(
    "job",
    [
        "../x",
        "/etc/passwd",
        "a/../b",
        "a\\b",
        "~",
        "~root",
        "-rf",
        "--all",
        ".",
        "..",
        "job ",
        " job",
        "job\n",
        "job\x00",
        "\x1b[2J",
        "a\u202eb",
        "jо" * 2,
        "$(id)",
        "a;b",
        "a" * 300,
        "",
    ],
)
def test_tricks_in_the_name_of_a_job(job: str, workspace: Workspace) -> None:
    [problem] = look(workspace, job).problems
    assert problem.message == "This cannot be the name of a job."
    assert str(problem).replace("\n", "").isprintable()
    assert len(str(problem)) < 250


@pytest.mark.parametrize("job", ["firm", "FIRM", "Firm"])
def test_the_firm_file_is_no_job(job: str, workspace: Workspace) -> None:
    [problem] = look(workspace, job).problems
    assert "not a job" in problem.message


def test_a_trailing_dot_names_another_file(workspace: Workspace) -> None:
    problems(workspace, HEAD)
    assert look(workspace, "job.").problems[0].message == "There is no such file."
