"""What every link of a firm opens on a day: a report, or a page on whom to ask."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.problems import Problem, Refused
from generator.record.link_book import OPEN, LinkBook, link_book
from generator.record.load import Workspace
from generator.website.links import folder_name


@dataclass(frozen=True)
class Doors:
    """The folder names of all links of all jobs.

    Parameters
    ----------
    books : Mapping[str, LinkBook]
        The links of every job.
    reports : Mapping[str, str]
        Folder name of the report, by job; a job that nobody may read is not in it.
    gone : Mapping[str, str]
        What became of the link, by folder name: replaced, withdrawn or over.
    """

    books: Mapping[str, LinkBook]
    reports: Mapping[str, str]
    gone: Mapping[str, str]

    def owned(self) -> set[str]:
        """Give every folder name that belongs to a link of a job."""
        return {*self.gone, *self.reports.values()}


def doors(workspace: Workspace, secret: bytes, today: str) -> Doors:
    """Read the links of every job, and tell what each of them opens.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    secret : bytes
        The firm's secret.
    today : str
        The day of the build (ISO 8601), which ends links that had a last day.

    Returns
    -------
    Doors
        Every link that was ever given.

    Raises
    ------
    generator.problems.Refused
        With every problem of every file of links.
    """
    books: dict[str, LinkBook] = {}
    problems: list[Problem] = []
    for job in workspace.jobs():
        try:
            books[job] = link_book(workspace, job)
        except Refused as refused:
            problems.extend(refused.problems)
    if problems:
        raise Refused(problems)
    reports: dict[str, str] = {}
    gone: dict[str, str] = {}
    for job, book in books.items():
        for link in book.links:
            name, state = folder_name(secret, job, link.number), link.state(today)
            if state == OPEN:
                reports[job] = name
            else:
                gone[name] = state
    return Doors(books, reports, gone)
