"""One row for each job: its state, its worst finding, what is open, what falls due."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from generator.doors import Doors
from generator.findings.answers import first_to_do
from generator.findings.finding import WEIGHTS
from generator.keeping import MONTHS, kept_until, later
from generator.problems import Refused
from generator.record.link_book import OPEN, Link
from generator.record.load import Workspace
from generator.results.result import Results, nominal
from generator.website import links
from generator.worked import Worked, work_out

PROBLEMS = "problems"


@dataclass(frozen=True, order=True)
class Due:
    """Something that falls due on a day (ISO 8601)."""

    day: str
    what: str


@dataclass(frozen=True)
class Row:
    """One job of the register; what is not known is empty.

    ``worst`` is the weight of the worst finding, ``first`` what is to be done first,
    ``missing`` what is still to be recorded or the problems of the file, ``link`` the
    private link where somebody can read the report.
    """

    job: str
    state: str
    address: str = ""
    client: str = ""
    visit: str = ""
    reports: int = 0
    worst: str = ""
    takes_water: str = ""
    first: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    due: tuple[Due, ...] = ()
    link_state: str = OPEN
    link: str = ""


def register(
    workspace: Workspace, jobs: Iterable[str], found: Doors, today: str
) -> list[Row]:
    """List every job for the office; a job with problems is listed with them.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    jobs : iterable of str
        Names of the jobs.
    found : Doors
        What every link opens.
    today : str
        The day (ISO 8601).

    Returns
    -------
    list of Row
        In the order of the jobs.
    """
    return [_row(workspace, job, found, today) for job in jobs]


def _row(workspace: Workspace, job: str, found: Doors, today: str) -> Row:
    last = found.books[job].last
    try:
        worked = work_out(workspace, job)
    except Refused as refused:
        told = tuple(str(one).splitlines()[0] for one in refused.problems)
        return Row(job, PROBLEMS, missing=told, link_state=last.state(today))
    return _of(worked, last, found.reports.get(job), today)


def _of(worked: Worked, last: Link, name: str | None, today: str) -> Row:
    inspection, firm = worked.record.inspection, worked.record.firm
    return Row(
        job=worked.record.job,
        state=inspection.state,
        address=f"{inspection.property.address}, {inspection.property.place}",
        client=inspection.client.called,
        visit=inspection.visit.date.iso,
        reports=len(inspection.reports),
        worst=min((one.weight for one in worked.findings), key=WEIGHTS.index),
        takes_water=worked.answers[1].word,
        first=tuple(f"{one.title}: {one.by}" for one in first_to_do(worked.findings)),
        missing=tuple(item.words for item in worked.record.open_items),
        due=tuple(sorted(_due(worked, last))),
        link_state=last.state(today),
        link=links.address(firm.reports_at, name),
    )


def _due(worked: Worked, last: Link) -> Iterator[Due]:
    """List what falls due on a day that can be worked out."""
    if last.until and not last.ended:
        yield Due(last.until.iso, "last day of the link")
    visit = date.fromisoformat(worked.record.inspection.visit.date.iso)
    for months, tank in _pump_outs(worked.results):
        yield Due(later(visit, months).isoformat(), f"next pump-out of the {tank}")
    record = worked.record
    given = record.inspection.visit.date, record.inspection.reports
    if kept := kept_until(record.firm.keep_years, *given):
        yield Due(kept, "the firm's years of keeping end")


def _pump_outs(results: Results) -> Iterator[tuple[int, str]]:
    for one in results.under("solids."):
        if one.name.endswith(".years_left"):
            _, tank, _ = one.name.split(".")
            yield max(0, int(nominal(one.number) * MONTHS)), tank
