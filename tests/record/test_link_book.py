"""The links of a report: one counts, the others are ended, and all stay in the file."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.problems import Refused
from generator.quantity import Day
from generator.record.link_book import (
    OPEN,
    OVER,
    REPLACED,
    WITHDRAWN,
    LinkBook,
    keep,
    lasting,
    link_book,
    renewed,
    withdrawn,
)
from generator.record.load import Workspace

FRIDAY = Day("2026-11-20", "Nov 20, 2026")
REASON = 'told "everyone": #1, and more'


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    """A firm's folder with one job without any link written down."""
    (tmp_path / "inspections").mkdir()
    (tmp_path / "inspections/elm.yaml").write_text("visit:\n", encoding="utf-8")
    return Workspace(tmp_path)


def states(book: LinkBook, today: str = "2026-12-01") -> list[str]:
    return [link.state(today) for link in book.links]


def told(workspace: Workspace, text: str) -> str:
    folder = workspace.photo_folder("elm")
    folder.mkdir(exist_ok=True)
    (folder / "links.yaml").write_text(text, encoding="utf-8")
    with pytest.raises(Refused) as refused:
        link_book(workspace, "elm")
    return "\n".join(str(problem) for problem in refused.value.problems)


def test_a_job_begins_with_one_open_link(workspace: Workspace) -> None:
    assert states(link_book(workspace, "elm")) == [OPEN]


def test_what_is_kept_reads_back(workspace: Workspace) -> None:
    until = Day("2027-01-31", "2027-01-31")
    book = renewed(LinkBook(), FRIDAY, REASON, until)
    keep(workspace, "elm", book)
    found = link_book(workspace, "elm")
    assert states(found) == [REPLACED, OPEN]
    assert states(found, "2027-02-01") == [REPLACED, OVER]
    first, second = found.links
    assert (first.on and first.on.iso, first.because) == ("2026-11-20", REASON)
    assert second.until
    assert second.until.iso == "2027-01-31"


def test_a_withdrawn_report_takes_a_new_link(workspace: Workspace) -> None:
    gone = withdrawn(LinkBook(), FRIDAY, None)
    assert states(gone) == [WITHDRAWN]
    again = renewed(gone, FRIDAY, "asked for again")
    assert states(again) == [WITHDRAWN, OPEN]  # what it was withdrawn for stays
    assert again.last.number == 2


@pytest.mark.parametrize("again", [withdrawn, lasting])
def test_an_ended_link_ends_once(again: object) -> None:
    gone = withdrawn(LinkBook(), FRIDAY, None)
    more = (FRIDAY, None) if again is withdrawn else (FRIDAY,)
    with pytest.raises(Refused, match="withdrawn already"):
        again(gone, *more)  # type: ignore[operator]  # one of the two above


def test_a_last_day_can_be_taken_off() -> None:
    assert lasting(lasting(LinkBook(), FRIDAY), None) == LinkBook()


def test_a_file_edited_by_hand_is_held_to_its_order(workspace: Workspace) -> None:
    assert told(workspace, "links:\n  - {number: 2}\n") == (
        "inspections/elm/links.yaml:2: links[0].number: The link in place 1 has the "
        "number 2.\n"
        "  Links are counted from 1, each once; put back what git has."
    )
    assert told(workspace, "links:\n  - {number: 1}\n  - {number: 2}\n") == (
        "inspections/elm/links.yaml:2: links[0].number: A later link was given, and "
        "this one has no end.\n"
        "  Say how it ended: replaced or withdrawn."
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("links: []\n", "links"),
        ("links:\n  - {number: 1, ended: lost}\n", "ended"),
        ("links:\n  - {number: 1, until: soon}\n", "until"),
        ("links:\n  - {number: one}\n", "number"),
        ("- 1\n", ""),
        ("links: *a\n", ""),
    ],
)
def test_a_broken_file_is_told_with_its_line(
    workspace: Workspace, text: str, words: str
) -> None:
    found = told(workspace, text)
    assert found.startswith("inspections/elm/links.yaml:")
    assert words in found


def test_a_link_to_elsewhere_is_not_followed(workspace: Workspace) -> None:
    folder = workspace.photo_folder("elm")
    folder.mkdir()
    (folder / "links.yaml").symlink_to("/etc/hostname")
    with pytest.raises(Refused, match="link to somewhere else"):
        link_book(workspace, "elm")


def test_a_folder_that_is_none_has_no_file(workspace: Workspace) -> None:
    folder = workspace.photo_folder("elm")
    folder.symlink_to(folder)  # a loop, which the job tells
    assert link_book(workspace, "elm") == LinkBook()
    folder.unlink()
    folder.touch()
    assert link_book(workspace, "elm") == LinkBook()


def test_a_folder_that_cannot_be_written_is_told(workspace: Workspace) -> None:
    workspace.photo_folder("elm").write_text("in the way", encoding="utf-8")
    with pytest.raises(Refused, match="cannot be written here"):
        keep(workspace, "elm", LinkBook())
