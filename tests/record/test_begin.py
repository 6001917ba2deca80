"""A new job file: short, readable as it is, and right once its signs are taken out."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.problems import Problem, Refused
from generator.record.begin import (
    EDITOR_LINE,
    EVERY_VISIT,
    EXPLAINED,
    begun,
    unguessable,
)
from generator.record.begin_file import begin
from generator.record.check import check, key_paths, schema
from generator.record.load import Workspace
from generator.record.one_line import written_out
from generator.record.read import Document, read
from generator.record.text import unseen_in
from generator.record.yaml_text import WIDTH, written

# Lines; our choice. Finding the covers, looking into a pipe and the photographs belong
# to nearly every visit, and took fifteen lines more than the sixty without them.
LONGEST_SHORT_FILE = 75
NO_VALUE = {"This has no value."}
TOP = Path(__file__).parent.parent.parent
JOBS = sorted(
    [*(TOP / "tests/jobs/good").glob("*.yaml"), *(TOP / "inspections").glob("d*.yaml")]
)


def document(text: str, folder: Path) -> Document:
    """Read a text as a job file."""
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return written_out(read(path), schema("inspection"))


def signs_out(text: str) -> str:
    """Take the first number sign, with the space behind it, out of every line."""
    first, *rest = text.splitlines()
    return "\n".join([first, *(line.replace("# ", "", 1) for line in rest), ""])


def filled(text: str) -> str:
    """Put what stands behind each line as a comment in as its value."""
    text = re.sub(r"(:|-)  # like (.*)$", r"\1 \2", text, flags=re.M)
    text = re.sub(r":  # onlot fields .*$", ': ""', text, flags=re.M)
    return re.sub(r":  # ([^,\n]+)(, .*)?$", r": \1", text, flags=re.M)


def problems(found: Document) -> list[Problem]:
    """Tell what the schema says of a file, beside the keys left empty."""
    told = check(found, "inspection")
    return [one for one in told if one.field not in unguessable()]


def paths(found: object, path: str = "") -> set[str]:
    """List the paths of all keys of plain data."""
    if isinstance(found, list):
        return {one for entry in found for one in paths(entry, f"{path}[]")}
    if not isinstance(found, dict):
        return set()
    below = {f"{path}.{key}".strip("."): value for key, value in found.items()}
    return set(below).union(*(paths(value, at) for at, value in below.items()))


def test_only_what_nobody_can_guess_is_a_problem(tmp_path: Path) -> None:
    told = check(document(begun("2026-014"), tmp_path), "inspection")
    assert [one.field for one in told] == [
        "visit.date",
        "visit.inspector",
        "client.name",
        "property.address",
        "property.place",
    ]
    assert {one.message for one in told} == {"This has no value."}


def test_the_short_file_is_short() -> None:
    lines = begun("2026-014").splitlines()
    assert lines[0] == EDITOR_LINE
    assert len(lines) <= LONGEST_SHORT_FILE
    assert max(map(len, lines)) <= WIDTH


def test_the_short_file_shows_how_a_cover_is_found() -> None:
    text = begun("2026-014")
    for lines in (
        "#     -  # like B: A 32 ft\n## Each point found, such as a cover, by its ",
        "# places:\n#   -  # like L1: A 18 ft 4 in, B 22 ft, left\n",
        "# depths:\n#   -  # like {to: tank, invert_at_wall: 22 in, run: 18 ft}\n",
        "#     on_plan:  # like [L1, L2]\n",
        "#     log:\n#       -  # like 38 ft: perforations, 3/8 in of water\n",
        "# photos:\n#   -  # like tank-open.jpg: both covers off\n",
    ):
        assert lines in text
    for section in EXPLAINED:
        assert re.search(rf"^## .*\.\n# {section}:$", text, re.M)


@pytest.mark.parametrize("whole", [False, True])
def test_every_line_is_right_without_its_sign(whole: bool, tmp_path: Path) -> None:
    text = filled(signs_out(begun("2026-014", whole=whole)))
    assert {one.message for one in problems(document(text, tmp_path))} <= NO_VALUE


@pytest.mark.parametrize("whole", [False, True])
def test_nobody_can_sign_an_example(whole: bool, tmp_path: Path) -> None:
    found = document(signs_out(begun("2026-014", whole=whole)), tmp_path)
    assert {one.message for one in problems(found)} == NO_VALUE
    assert len(problems(found)) >= len(EVERY_VISIT)


def test_a_wrong_line_would_be_seen(tmp_path: Path) -> None:
    text = begun("2026-014").replace("like 8 in", "like 8")
    told = problems(document(filled(signs_out(text)), tmp_path))
    assert {one.field for one in told} == {"tanks[0].sludge"}


def test_the_whole_file_holds_every_key(tmp_path: Path) -> None:
    found = document(signs_out(begun("2026-014", whole=True)), tmp_path)
    assert paths(found.data) == set(key_paths("inspection"))


def test_both_files_follow_the_order_of_the_schema(tmp_path: Path) -> None:
    for whole in (False, True):
        found = document(signs_out(begun("job", whole=whole)), tmp_path)
        order = [key for key in schema("inspection")["properties"] if key in found.data]
        assert list(found.data) == order


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_written_data_reads_back(job: Path, tmp_path: Path) -> None:
    plain = read(job).data
    text = written(plain)
    (tmp_path / "again.yaml").write_text(text, encoding="utf-8")
    assert read(tmp_path / "again.yaml").data == plain
    long = written_out(read(job), schema("inspection")).data
    assert document(written(long), tmp_path).data == long
    assert max(map(len, text.splitlines())) <= WIDTH + 10  # a word may be long


TEXTS = (
    st.text(st.characters(exclude_categories=("Cs",)), max_size=100)
    | st.text("ab :#-,'\"[]{}\n\\ 0", max_size=100)
    | st.lists(st.text("abc#-:", min_size=1, max_size=9), max_size=30).map(" ".join)
)
TEXTS = TEXTS.filter(lambda text: not unseen_in(text.replace("\r", "\0")))
KEYS = TEXTS.filter(
    lambda text: len(text) <= 100 and not unseen_in(text.replace("\n", "\0"))
)
LEAVES = TEXTS | st.integers(-(10**6), 10**8) | st.none()
TREES = st.recursive(
    LEAVES,
    lambda below: (
        st.lists(below, max_size=4) | st.dictionaries(KEYS, below, max_size=4)
    ),
    max_leaves=6,
)


@settings(max_examples=300, deadline=None)
@given(data=st.dictionaries(KEYS, TREES, min_size=1, max_size=4))
def test_any_plain_data_reads_back(
    data: dict[str, object], tmp_path_factory: pytest.TempPathFactory
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_text(written(data), encoding="utf-8")
    assert read(path).data == data


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("no", "key: no"),
        ("2019", 'key: "2019"'),
        ("0.012", 'key: "0.012"'),
        ("18'4\"", "key: 18'4\""),
        ("a: b", 'key: "a: b"'),
        ("", 'key: ""'),
        ('"quoted" at first', "key: '\"quoted\" at first'"),
    ],
)
def test_quotes_stand_only_where_they_are_needed(text: str, line: str) -> None:
    assert written({"key": text}) == line + "\n"


def test_a_long_text_is_folded_and_a_long_entry_is_not_flat() -> None:
    text = written({"note": "word " * 20 + "end", "list": [{"a": "x" * 40, "b": "y"}]})
    assert text.startswith("note: >-\n  word word")
    assert "  - {a: " in text
    wide = written({"list": [{"a": "x" * 40, "b": "y" * 40}]})
    assert wide == f"list:\n  - a: {'x' * 40}\n    b: {'y' * 40}\n"


def test_nothing_is_written_where_the_folder_is_a_link(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "firm").mkdir()
    (tmp_path / "firm/inspections").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(Refused, match="is a link or is not there"):
        begin(Workspace(tmp_path / "firm"), "job")
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_link_that_leads_nowhere_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "inspections").mkdir()
    (tmp_path / "inspections/job.yaml").symlink_to(tmp_path / "outside.yaml")
    with pytest.raises(Refused, match="This job is there already"):
        begin(Workspace(tmp_path), "job")
    assert not (tmp_path / "outside.yaml").exists()


def test_a_linked_schema_folder_is_not_written_through(tmp_path: Path) -> None:
    (tmp_path / "inspections").mkdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "schemas").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(Refused, match="A link stands here"):
        begin(Workspace(tmp_path), "job")
    assert list((tmp_path / "elsewhere").iterdir()) == []
    assert not (tmp_path / "inspections/job.yaml").exists()


def test_a_schema_that_is_there_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "inspections").mkdir()
    assert len(begin(Workspace(tmp_path), "a")) == 2
    assert len(begin(Workspace(tmp_path), "b")) == 1
    path = tmp_path / "schemas/inspection.schema.json"
    path.write_text("{}", encoding="utf-8")
    told = begin(Workspace(tmp_path), "c")
    assert "is not the one of this version" in told[1]
    assert path.read_text(encoding="utf-8") == "{}"


NAMES = ["../x", "a/b", "/x", "..", ".x", "", "a\\b", "x\n", "x" * 81, "a\x00b", "é"]


@pytest.mark.parametrize("name", NAMES)
def test_a_name_cannot_lead_anywhere_else(name: str, tmp_path: Path) -> None:
    (tmp_path / "inspections").mkdir()
    with pytest.raises(Refused, match="This cannot be the name of a job"):
        begin(Workspace(tmp_path), name)
    assert [path.name for path in tmp_path.rglob("*")] == ["inspections"]
