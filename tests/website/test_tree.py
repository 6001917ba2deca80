"""A page tree is an ordinary docs folder, whatever the names in it look like."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.problems import Refused
from generator.website.tree import THEME, Page, write_tree

HOSTILE = [
    "7 Cattail Lake Drive",
    "a: b # c",
    "!ENV HOME",
    "!!python/object/apply:os.system ['true']",
    "&x *x {[}]",
    "'quoted\" and `ticked`",
    "</title><script>alert(1)</script>",
    "- null",
    "no",
    "Größe 7½ · Straße",
]


def test_tree_holds_what_it_was_given(tmp_path: Path, sample: dict[str, Any]) -> None:
    config = write_tree(tmp_path / "tree", **sample)
    docs = config.parent / "docs"
    assert (docs / "figures/plan.svg").read_bytes() == sample["figures"]["plan"]
    assert (docs / "photos/toe.jpg").read_bytes() == sample["photos"]["toe"]
    assert (docs / "index.md").read_text("utf-8").lstrip() == sample["pages"][
        0
    ].markdown
    assert sorted(entry.name for entry in docs.iterdir()) == sorted(
        ["figures", "photos", *(page.path for page in sample["pages"])]
    )


def test_a_page_left_out_of_search_says_so(
    tmp_path: Path, sample: dict[str, Any]
) -> None:
    """In settings of our own; those in its text stay text."""
    text = "---\nsearch:\n  boost: 9\n---\n# Aside"
    pages = [*sample["pages"], Page("aside.md", "Aside", text, searched=False)]
    write_tree(tmp_path, **{**sample, "pages": pages})
    written = (tmp_path / "docs" / "aside.md").read_text("utf-8")
    assert written == f"---\nsearch:\n  exclude: true\n---\n\n{text}"


def test_settings_lead_to_project_and_theme(
    tmp_path: Path, sample: dict[str, Any]
) -> None:
    config = write_tree(tmp_path / "deep" / "tree", **sample)
    settings = yaml.safe_load(config.read_bytes())
    inherited = config.parent / settings["INHERIT"]
    theme = config.parent / settings["theme"]["custom_dir"]
    assert not Path(settings["INHERIT"]).is_absolute()
    assert inherited.resolve() == sample["base_config"].resolve()
    assert theme.resolve() == THEME.resolve()
    assert settings["docs_dir"] == "docs"
    assert settings["nav"][:2] == [
        {"The short answer": "index.md"},
        {"What we found": "findings.md"},
    ]


@pytest.mark.parametrize("name", HOSTILE)
def test_any_site_name_stays_text(
    tmp_path: Path, sample: dict[str, Any], name: str
) -> None:
    config = write_tree(tmp_path, **{**sample, "site_name": name})
    assert yaml.safe_load(config.read_bytes())["site_name"] == name


def test_site_name_is_one_line(tmp_path: Path, sample: dict[str, Any]) -> None:
    config = write_tree(tmp_path, **{**sample, "site_name": " 7 Lake\nDrive\t\n"})
    assert yaml.safe_load(config.read_bytes())["site_name"] == "7 Lake Drive"


@pytest.mark.parametrize(
    "name", ["../x", "a/b", "a\\b", "/etc/x", "..", ".", "", ".x", "a\0b", "a\nb", "ü"]
)
@pytest.mark.parametrize("kind", ["figures", "photos"])
def test_names_that_would_leave_are_refused(
    tmp_path: Path, sample: dict[str, Any], kind: str, name: str
) -> None:
    folder = tmp_path / "tree"
    with pytest.raises(Refused) as refused:
        write_tree(folder, **{**sample, kind: {name: b"x"}})
    [problem] = refused.value.problems
    assert problem.message == "This name cannot be used for a file of a site."
    assert not folder.exists()


@pytest.mark.parametrize("path", ["../x.md", "a/b.md", "/x.md", "index.html", "x.MD"])
def test_pages_that_would_leave_are_refused(
    tmp_path: Path, sample: dict[str, Any], path: str
) -> None:
    pages = [*sample["pages"], Page(path, "X", "# X")]
    with pytest.raises(Refused):
        write_tree(tmp_path, **{**sample, "pages": pages})


def test_names_that_differ_by_case_alone_are_refused(
    tmp_path: Path, sample: dict[str, Any]
) -> None:
    with pytest.raises(Refused, match="used twice"):
        write_tree(tmp_path, **{**sample, "photos": {"Lid": b"x", "lid": b"y"}})


def test_a_tree_needs_a_first_page(tmp_path: Path, sample: dict[str, Any]) -> None:
    with pytest.raises(Refused, match=r"needs a page index\.md"):
        write_tree(tmp_path, **{**sample, "pages": sample["pages"][1:]})


def test_an_earlier_tree_is_removed(tmp_path: Path, sample: dict[str, Any]) -> None:
    write_tree(tmp_path, **sample)
    write_tree(tmp_path, **{**sample, "photos": {}, "pages": sample["pages"][:1]})
    docs = tmp_path / "docs"
    assert sorted(entry.name for entry in docs.iterdir()) == ["figures", "index.md"]


def test_a_folder_of_someone_else_is_left_alone(
    tmp_path: Path, sample: dict[str, Any]
) -> None:
    letter = tmp_path / "letter.txt"
    letter.write_text("mine")
    with pytest.raises(Refused, match=r'holds "letter\.txt"'):
        write_tree(tmp_path, **sample)
    assert [entry.name for entry in tmp_path.iterdir()] == ["letter.txt"]


def test_same_parts_same_bytes(tmp_path: Path, sample: dict[str, Any]) -> None:
    first = write_tree(tmp_path / "a", **sample)
    second = write_tree(tmp_path / "b", **sample)
    assert first.read_bytes() == second.read_bytes()
