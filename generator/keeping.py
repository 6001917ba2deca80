"""How long a job is kept, told from the few keys of its file that this hangs on."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from generator.problems import Problem, Refused
from generator.quantity import Day
from generator.record.around import ReportGiven
from generator.record.build import build
from generator.record.calendar_day import day
from generator.record.check import check, schema
from generator.record.firm_file import FIRM_FILE, strays
from generator.record.listed import listed
from generator.record.load import JOB_NAME, Workspace, open_job
from generator.record.model import Client
from generator.record.read import Document, read

MONTHS = 12  # of a year
ASKED = {
    "visit": ("date",),
    "client": ("name", "role"),
    "property": ("address", "place"),
}  # beside the reports given, which are asked for whole
NOT_ASKED = ("visit.inspector",)  # a job needs it; its keeping does not


@dataclass(frozen=True)
class Keeping:
    """How long one job is kept, and whose it is.

    Parameters
    ----------
    job : str
        Name of the job.
    client, address : str
        The client as called, and where the lot is.
    visit : Day
        The day on the lot.
    last : ReportGiven or None
        The report given last; None where none was given.
    until : str
        The last day on which the firm's years of keeping run (ISO 8601).
    """

    job: str
    client: str
    address: str
    visit: Day
    last: ReportGiven | None
    until: str


def kept_until(years: int | None, visit: Day, reports: Sequence[ReportGiven]) -> str:
    """Give the day on which the firm's years of keeping end; empty without any.

    Parameters
    ----------
    years : int or None
        The firm's years of keeping. [year]
    visit : Day
        The day on the lot, which counts where no report was given.
    reports : sequence of ReportGiven
        The reports given, of which the last one counts.

    Returns
    -------
    str
        ISO 8601. After February 29 it is February 28 in a year without that day.

    Examples
    --------
    >>> kept_until(10, Day("2016-02-29", ""), ())
    '2026-02-28'
    """
    if not years:
        return ""
    begin = reports[-1].date if reports else visit
    return later(date.fromisoformat(begin.iso), years * MONTHS).isoformat()


def later(start: date, months: int) -> date:
    """Give the same day of a later month, or the last day of a shorter one."""
    years, month = divmod(start.month - 1 + months, MONTHS)
    last = monthrange(start.year + years, month + 1)[1]
    return date(start.year + years, month + 1, min(start.day, last))


def keeping(workspace: Workspace, job: str, years: int) -> Keeping:
    """Tell how long a job is kept, without loading it.

    The whole file goes through the one reader, which takes about a tenth of the time
    that loading takes. Only the date of the visit, the reports given, the client and
    the address are then held against the schema. A job whose mistakes lie elsewhere is
    therefore told like any other: that it is told here does not mean that it loads,
    which ``onlot check`` tells.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    years : int
        The firm's years of keeping. [year]

    Returns
    -------
    Keeping
        How long it is kept, and whose it is.

    Raises
    ------
    generator.problems.Refused
        With every problem that keeps this from being told.
    """
    _may_be_a_job(workspace, job)
    found = _asked(workspace, job).data
    place = found["property"]
    visit = day(found["visit"]["date"])
    reports = [build(ReportGiven, one) for one in found.get("reports", ())]
    return Keeping(
        job=job,
        client=build(Client, found["client"]).called,
        address=f"{place['address']}, {place['place']}",
        visit=visit,
        last=reports[-1] if reports else None,
        until=kept_until(years, visit, reports),
    )


def _may_be_a_job(workspace: Workspace, job: str) -> None:
    """Refuse a name that no job has, and links that lead out, as loading does."""
    path = workspace.job_file(job)
    problems: list[Problem] = []
    usual = JOB_NAME.fullmatch(job) and path.name.casefold() != FIRM_FILE
    if not usual or strays(workspace, path, workspace.photo_folder(job)):
        open_job(workspace, job, problems)  # says why, and reads nothing
        raise Refused(problems)


def _asked(workspace: Workspace, job: str) -> Document:
    """Read a job file down to the keys that are asked for, or refuse."""
    path = workspace.job_file(job)
    whole = read(path, shown_as=workspace.shown(path))
    few = {key: _only(whole.data[key], keys) for key, keys in _there(whole).items()}
    document = listed(replace(whole, data=few), schema("inspection"))
    problems = check(document, "inspection")
    if wrong := [one for one in problems if one.field not in NOT_ASKED]:
        raise Refused(wrong)
    return document


def _there(whole: Document) -> dict[str, tuple[str, ...]]:
    asked = {**ASKED, "reports": ()}
    return {key: keys for key, keys in asked.items() if key in whole.data}


def _only(found: object, keys: tuple[str, ...]) -> object:
    """Take only some keys of a group; what is no group stays, to be refused."""
    if not keys or not isinstance(found, dict):
        return found
    return {key: found[key] for key in keys if key in found}
