"""Handing a report over: who has which link, and the words that go with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from generator.pages.cautions import DISCLAIMER
from generator.pages.wording import day
from generator.problems import Problem, Refused
from generator.record.firm_file import FIRM_FILE
from generator.record.link_book import OPEN, Link, LinkBook, known, link_book
from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.website import links

HAS_PROBLEMS = "(the job file has problems: see onlot check)"
NO_SECRET = "(no link yet: the first build makes the secret)"


def link_lines(workspace: Workspace, jobs: Iterable[str], today: str) -> Iterator[str]:
    """Tell of every link of some jobs: its number, what it does, who has it, where.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    jobs : iterable of str
        Names of the jobs.
    today : str
        The day for which it is told (ISO 8601).

    Yields
    ------
    str
        One line for each link; only an open one is written out.
    """
    for job in jobs:
        record = _record(workspace, job)
        client = record.inspection.client.called if record else HAS_PROBLEMS
        for link in known(workspace, job).links:
            state = link.state(today)
            said = [job, f"link {link.number}", state]
            said += [f"until {link.until.iso}"] if link.until else []
            said += [f"on {link.on.iso}"] if link.on else []
            said += [link.because] if link.because else []
            said += [client, private_link(workspace, record, link)] * (state == OPEN)
            yield " · ".join(said)


def _record(workspace: Workspace, job: str) -> Record | None:
    try:
        return load(workspace, job)
    except Refused:
        return None


def private_link(workspace: Workspace, record: Record | None, link: Link) -> str:
    """Write a private link, or its folder where no address of reports is known."""
    if record is None:
        return ""
    if not links.has_secret(workspace.root):
        return NO_SECRET
    secret, _ = links.read_secret(workspace.root)
    name = links.folder_name(secret, record.job, link.number)
    return links.address(record.firm.reports_at, name) or f"{name}/"


def message(workspace: Workspace, job: str, today: str) -> str:
    """Write the message that hands a report over.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    today : str
        The day of the message (ISO 8601).

    Returns
    -------
    str
        Plain text.

    Raises
    ------
    generator.problems.Refused
        Where the job has problems, or nobody can read its report.
    """
    record = load(workspace, job)
    book = link_book(workspace, job)
    if (state := book.last.state(today)) != OPEN:
        told = f"Nobody can read this report: its last link is {state}."
        hint = f"Give it a new one: onlot renew {job}."
        file = workspace.shown(workspace.job_file(job))
        raise Refused([Problem(file, 0, "", told, hint)])
    if not record.firm.reports_at:
        told = "The firm file does not say where the reports are, so no link is known."
        hint = 'Give it a line "reports_at".'
        file = workspace.shown(workspace.inspections / FIRM_FILE)
        raise Refused([Problem(file, 0, "reports_at", told, hint)])
    links.kept_secret(workspace.root, "links are")
    return _written(record, book, private_link(workspace, record, book.last))


def _written(record: Record, book: LinkBook, link: str) -> str:
    inspection, firm, last = record.inspection, record.firm, book.last.until
    until = f" It opens the report until {day(last.iso)}." if last else ""
    return f"""\
Dear {inspection.client.name},

our report on the septic system at {inspection.property.address} is here:

{link}

Whoever has this link can read the report. Please pass it on only to people who should,
and tell us if it went astray: we then close it and give you a new one.{until}

{DISCLAIMER}

{firm.name}
{firm.phone}
"""
