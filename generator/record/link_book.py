"""The links that a report has had: which one opens it, and what became of the others.

They stand in ``inspections/JOB/links.yaml``, beside the photographs of the job, so that
git keeps who was given what, and when it ended. A job without that file has one link.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass, replace
from errno import ELOOP, ENOENT, ENOTDIR
from pathlib import Path

from generator.atomic import put
from generator.problems import Problem, Refused
from generator.quantity import Day
from generator.record.build import build
from generator.record.check import check
from generator.record.load import Workspace, open_job
from generator.record.node import Node
from generator.record.read import Document, read
from generator.record.yaml_text import written

LINKS_FILE = "links.yaml"
HEAD = "# The links of this report. Written by onlot; commit it with the job file.\n"
NOT_THERE = {ENOENT, ENOTDIR, ELOOP}  # as a loop, the folder is told by its job
OPEN, REPLACED, WITHDRAWN, OVER = "open", "replaced", "withdrawn", "over"


@dataclass(frozen=True, kw_only=True)
class Link(Node):
    """One link of a report, numbered from 1, and what became of it."""

    number: int
    until: Day | None = None
    ended: str | None = None
    on: Day | None = None
    because: str | None = None

    def state(self, today: str) -> str:
        """Say what the link does on a day (ISO 8601): open the report, or not.

        Examples
        --------
        >>> Link(number=1, until=Day("2026-10-31", "")).state("2026-10-31")
        'open'
        >>> Link(number=1, until=Day("2026-10-31", "")).state("2026-11-01")
        'over'
        """
        if self.ended:
            return self.ended
        return OVER if self.until and self.until.iso < today else OPEN


@dataclass(frozen=True, kw_only=True)
class LinkBook(Node):
    """Every link of one report, from the first on; the last one counts."""

    links: tuple[Link, ...] = (Link(number=1),)

    @property
    def last(self) -> Link:
        """The link that was given last."""
        return self.links[-1]


def link_book(workspace: Workspace, job: str) -> LinkBook:
    """Read the links of a job.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.

    Returns
    -------
    LinkBook
        One link without an end where nothing was written yet.

    Raises
    ------
    generator.problems.Refused
        With every problem of the file.
    """
    try:  # asked of every job by each build, and most have none
        os.lstat(f"{workspace.inspections}/{job}/{LINKS_FILE}")
    except OSError as error:
        if error.errno in NOT_THERE:
            return LinkBook()
        raise
    path = book_file(workspace, job)
    shown = workspace.shown(path)
    if path.is_symlink():
        message = "This is a link to somewhere else, not a file."
        raise Refused([Problem(shown, 0, "", message, "Put the file itself there.")])
    document = read(path, shown_as=shown)
    problems = check(document, "links")
    if problems:
        raise Refused(problems)
    book = build(LinkBook, document.data)
    if problems := list(_out_of_order(document, book.links)):
        raise Refused(problems)
    return book


def book_file(workspace: Workspace, job: str) -> Path:
    """Give the file that holds the links of a job."""
    return workspace.photo_folder(job) / LINKS_FILE


def _out_of_order(document: Document, links: Sequence[Link]) -> list[Problem]:
    found = []
    for number, link in enumerate(links, 1):
        if link.number != number:
            message = f"The link in place {number} has the number {link.number}."
            hint = "Links are counted from 1, each once; put back what git has."
            found.append((link.path("number"), message, hint))
        if number < len(links) and not link.ended:
            message = "A later link was given, and this one has no end."
            hint = "Say how it ended: replaced or withdrawn."
            found.append((link.path("number"), message, hint))
    return [
        Problem(document.file, document.line(path), path, message, hint)
        for path, message, hint in found
    ]


def wrong_links(workspace: Workspace, job: str) -> tuple[Problem, ...]:
    """List what is wrong with the links of a job."""
    try:
        link_book(workspace, job)
    except Refused as refused:
        return refused.problems
    return ()


def known(workspace: Workspace, job: str) -> LinkBook:
    """Read the links of a job that is there, or refuse."""
    problems: list[Problem] = []
    if open_job(workspace, job, problems) is None:
        raise Refused(problems)
    return link_book(workspace, job)


def renewed(
    book: LinkBook, on: Day, because: str | None, until: Day | None = None
) -> LinkBook:
    """Give a new link; the one before it no longer opens the report."""
    before = book.last
    if not before.ended:
        before = replace(before, ended=REPLACED, on=on, because=because)
    new = Link(number=before.number + 1, until=until)
    return LinkBook(links=(*book.links[:-1], before, new))


def withdrawn(book: LinkBook, on: Day, because: str | None) -> LinkBook:
    """Take the report away from whoever has its link."""
    _refuse_ended(book)
    ended = replace(book.last, ended=WITHDRAWN, on=on, because=because)
    return LinkBook(links=(*book.links[:-1], ended))


def lasting(book: LinkBook, until: Day | None) -> LinkBook:
    """Give the present link a last day, or none."""
    _refuse_ended(book)
    return LinkBook(links=(*book.links[:-1], replace(book.last, until=until)))


def _refuse_ended(book: LinkBook) -> None:
    if book.last.ended:
        message = f"The last link of this job is {book.last.ended} already."
        raise Refused(
            [Problem("links", 0, "", message, "onlot renew gives a new one.")]
        )


def keep(workspace: Workspace, job: str, book: LinkBook) -> Path:
    """Write the links of a job, whole or not at all."""
    path = book_file(workspace, job)
    text = HEAD + written({"links": [_entry(link) for link in book.links]})
    try:
        put(path, text.encode("utf-8"))
    except OSError as error:
        message = f"The links cannot be written here: {error.strerror}."
        hint = "See to the free space and the rights of the folder."
        shown = workspace.shown(path)
        raise Refused([Problem(shown, 0, "", message, hint)]) from None
    return path


def _entry(link: Link) -> dict[str, object]:
    told = {
        "number": link.number,
        "until": link.until and link.until.iso,
        "ended": link.ended,
        "on": link.on and link.on.iso,
        "because": link.because,
    }
    return {key: value for key, value in told.items() if value}
