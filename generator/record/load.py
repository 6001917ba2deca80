"""One job of a workspace becomes a Record, or every problem at once."""

from __future__ import annotations

import os
import re
from dataclasses import dataclass, replace
from pathlib import Path

from generator.problems import Problem, Refused
from generator.record.build import build
from generator.record.check import check, schema
from generator.record.draft import Draft
from generator.record.firm_file import FIRM_FILE, firm_of, strays
from generator.record.listed import listed
from generator.record.model import Firm, Inspection, Record
from generator.record.one_line import written_out
from generator.record.read import Document, parsed
from generator.record.settle import settled
from generator.record.slips import slips
from generator.record.slips_when_final import FINAL
from generator.record.text import raw
from generator.record.todo import Item
from generator.record.todo_rules import still_open
from generator.record.unfinished import left_out, told_of_known
from generator.record.wordings import close

LONGEST_NAME = 80  # characters; our choice
ENDING = ".yaml"  # of a job file
JOB_NAME = re.compile(rf"[A-Za-z0-9][A-Za-z0-9._-]{{0,{LONGEST_NAME - 1}}}")
NEEDED = ("visit", "client", "property")
MOST_TOLD = 200  # problems of one job; our choice


@dataclass(frozen=True)
class Workspace:
    """A firm's folder, which holds ``inspections/``."""

    root: Path

    @property
    def inspections(self) -> Path:
        """The folder of job files."""
        return self.root / "inspections"

    def jobs(self) -> list[str]:
        """List the names of all jobs, in order.

        Raises
        ------
        Refused
            Where the folder is there and cannot be listed.
        """
        try:
            names = os.listdir(self.inspections)
        except (FileNotFoundError, NotADirectoryError):
            return []
        except OSError as error:  # else every published site would belong to no job
            message = f"The folder cannot be listed: {error.strerror}."
            problem = Problem("inspections/", 0, "", message, "See to its rights.")
            raise Refused([problem]) from None
        return sorted(
            name.removesuffix(ENDING)
            for name in names
            if name.endswith(ENDING) and name != FIRM_FILE and not name.startswith(".")
        )

    def job_file(self, job: str) -> Path:
        """Give the file of a job."""
        return self.inspections / f"{job}.yaml"

    def photo_folder(self, job: str) -> Path:
        """Give the folder of a job's photographs."""
        return self.inspections / job

    def shown(self, path: Path) -> str:
        """Name a file as it stands below the workspace."""
        return path.relative_to(self.root).as_posix()


def load(workspace: Workspace, job: str) -> Record:
    """Load one job.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job: its file name without ``.yaml``.

    Returns
    -------
    Record
        The checked job.

    Raises
    ------
    Refused
        With every problem of the job file and of the firm file.
    """
    opened = look(workspace, job)
    if opened.record is None:
        raise Refused(opened.problems)
    return opened.record


@dataclass(frozen=True)
class Opened:
    """One job as its file stands.

    ``draft`` is None where the file cannot be read, ``record`` where ``problems`` stand
    in its way; ``sketch`` is what can be built beside them, for the next sums and for
    nothing else; ``items`` are still to be recorded, none in a final file.
    """

    problems: tuple[Problem, ...]
    items: tuple[Item, ...]
    draft: Draft | None
    record: Record | None
    sketch: Record | None = None


def look(workspace: Workspace, job: str) -> Opened:
    """Look at one job: what is wrong, what is still open, and what can be built.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.

    Returns
    -------
    Opened
        Its problems in the order of the file, its open items, its record.
    """
    problems: list[Problem] = []
    firm = firm_of(workspace, problems)
    draft = open_job(workspace, job, problems)
    if draft is None:
        return Opened(tuple(sorted(set(problems))), (), None, None)
    later = sorted({one for one in problems if one.later})
    items = still_open(draft, later)
    if draft.get("state") == FINAL:
        problems += [one.problem(draft) for one in items if one.needed]
        items = []
    wrong = sorted({one for one in problems if not one.later})
    if firm is None:
        return Opened(_first(wrong), tuple(items), draft, None)
    made = _Maker(workspace, job, firm, tuple(items))
    if wrong:
        sketch = made.record(draft, left_out(draft, [*later, *told_of_known(wrong)]))
        return Opened(_first(wrong), tuple(items), draft, None, sketch)
    record = made.record(draft, left_out(draft, later) if later else frozenset())
    return Opened((), tuple(items), draft, record, record)


@dataclass(frozen=True)
class _Maker:
    """Makes the record of one job, some groups of keys left out."""

    workspace: Workspace
    job: str
    firm: Firm
    items: tuple[Item, ...]

    def record(self, draft: Draft, out: frozenset[str]) -> Record | None:
        """Build the record; None where a section that every job needs is left out."""
        absent = any(draft.get(section) is None for section in NEEDED)
        if absent or not out.isdisjoint(("", *NEEDED)):
            return None
        found = build(Inspection, draft.document.data, left_out=out)
        return Record(
            job=self.job,
            inspection=settled(found),
            firm=self.firm,
            lines=draft.document.lines,
            photo_folder=str(self.workspace.photo_folder(self.job)),
            codes_folder=str(self.workspace.inspections / "codes"),
            open_items=self.items,
        )


def open_job(workspace: Workspace, job: str, problems: list[Problem]) -> Draft | None:
    """Open one job, tell its problems, and give what can be asked even of a broken one.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    problems : list of Problem
        Takes every problem; ``later`` marks what a draft may leave open.

    Returns
    -------
    Draft or None
        None where the file cannot be read at all.
    """
    if not JOB_NAME.fullmatch(job):
        problems.append(
            Problem(
                _printable(job),
                0,
                "",
                "This cannot be the name of a job.",
                "Name a job, or its file in inspections/."
                if set(job) & set("/\\")
                else "Use letters, digits, dots, dashes and underscores.",
            )
        )
        return None
    path = workspace.job_file(job)
    if path.name.casefold() == FIRM_FILE:  # some disks take both as one
        message = "This is the firm's own file, not a job."
        shown = workspace.shown(path)
        problems.append(Problem(shown, 0, "", message, "Name a job file."))
        return None
    if found := strays(workspace, path, workspace.photo_folder(job)):
        problems.extend(found)
        return None
    document = _document(workspace, job, problems)
    if document is None:
        return None
    draft = Draft(document, workspace.photo_folder(job))
    found = [*check(document, "inspection"), *slips(draft)]
    if draft.get("state") == FINAL:
        found = [replace(one, later=False) for one in found]
    problems.extend(found)
    return draft


def document_of(content: bytes, shown: str) -> Document:
    """Read the content of a job file, what it says in short written out.

    Parameters
    ----------
    content : bytes
        What the file holds.
    shown : str
        Its name in problems.

    Returns
    -------
    Document
        Its data as every rule sees them.

    Raises
    ------
    Refused
        With every problem that keeps it from being read.
    """
    rules = schema("inspection")
    return listed(written_out(parsed(content, shown), rules), rules)


def _document(
    workspace: Workspace, job: str, problems: list[Problem]
) -> Document | None:
    """Read a job file and write out what it says in short; None if it cannot be."""
    path = workspace.job_file(job)
    shown = workspace.shown(path)
    if not path.exists() and (near := _nearest(job, workspace.jobs())):
        hint = f'Did you mean "{near}"?'
        problems.append(Problem(shown, 0, "", "There is no such file.", hint))
        return None
    try:
        return document_of(raw(path, shown), shown)
    except Refused as refused:
        problems.extend(refused.problems)
        return None


def _nearest(job: str, jobs: list[str]) -> str:
    """Give the job whose name is nearest to one that does not exist."""
    alike = {one.casefold(): one for one in jobs}
    near = close(job.casefold(), alike)
    return _printable(alike[near]) if near else ""


def _first(wrong: list[Problem]) -> tuple[Problem, ...]:
    """Tell as many problems as anyone would mend at once, and how many follow."""
    told, rest = wrong[:MOST_TOLD], wrong[MOST_TOLD:]
    if rest:
        message = f"More problems follow from here on: {len(rest)}."
        hint = "Mend those above first."
        told.append(Problem(rest[0].file, rest[0].line, "", message, hint))
    return tuple(told)


def _printable(name: str) -> str:
    """Show a name without anything that a terminal would obey."""
    shown = (one if one.isprintable() else "?" for one in name[:LONGEST_NAME])
    return "".join(shown)
