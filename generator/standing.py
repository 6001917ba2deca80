"""What clients see of a job: the report given last, and never a draft of the next.

A report that was given is amended by a later one and not altered.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from generator.problems import Problem, Refused
from generator.record.load import JOB_NAME, Workspace, document_of
from generator.record.read import Document
from generator.record.slips_when_final import FINAL
from generator.record.text import raw
from generator.trail.changes import Change, changes
from generator.trail.checkout import Place, held, lay_out
from generator.trail.git import Repository
from generator.trail.past import Past, past_of
from generator.trail.revision import Revision
from generator.trail.said import said

REPORTS = "reports"
NOT_REPORTED = (REPORTS, "state")  # what an entry itself changes
AMEND = (
    'Amend, do not alter: add report {next} to reports, or write "state: draft" while '
    "you work on it. Clients see report {number} until then."
)
ALTERED = "This was altered after report {number} was given ({day}): {change}."
OTHER_PICTURE = "{name} is not the picture that report {number} showed."
PUT_BACK = "Put it back as it was given, and say in a new entry what is otherwise."
FETCH = (
    "Fetch the whole history: git fetch --unshallow. A pipeline asks for it with "
    "fetch-depth: 0 or GIT_DEPTH: 0."
)


@dataclass(frozen=True)
class Standing:
    """What clients see of a job.

    Parameters
    ----------
    number : int
        Number of the report; 0 where none was given yet.
    revision : Revision or None
        The revision that gave it; None where clients see the files as they stand.
    draft : bool
        Whether the files as they stand are a draft of the next report.
    problems : tuple of Problem
        What was altered after it was given.
    """

    number: int = 0
    revision: Revision | None = None
    draft: bool = False
    problems: tuple[Problem, ...] = ()


def standing(workspace: Workspace, past: Past, job: str) -> Standing:
    """Tell what clients see of a job.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    past : Past
        Its history.
    job : str
        Name of a job whose file is there.

    Returns
    -------
    Standing
        The report given last, or the files as they stand; these too where the job
        file cannot be read, so that whoever opens it tells why.
    """
    if past.repository is None:
        return Standing(_listed(workspace, job))
    if not past.repository.whole:
        return _in_part(workspace, job)
    given = past.last_given(job, Soundness(past, job))
    if given is None:
        return Standing(_listed(workspace, job))
    case = _Case(workspace, past, past.repository, job, *given)
    if case.untouched():
        return Standing(case.number, case.revision)
    try:
        return case.compared()
    except Refused:
        return Standing(case.number)


def as_it_stands(workspace: Workspace, job: str) -> Standing:
    """Take the files of a job as they stand, whatever was given."""
    return Standing(_listed(workspace, job))


class Alterations:
    """Tells, job by job, what was altered after it was given."""

    def __init__(self, workspace: Workspace, jobs: Sequence[str]) -> None:
        self.workspace = workspace
        self.jobs = jobs
        self.past: Past | None = None

    def __call__(self, job: str) -> tuple[Problem, ...]:
        """List what was altered; the history is read with the first job asked for."""
        if not JOB_NAME.fullmatch(job) or not self.workspace.job_file(job).is_file():
            return ()  # told by whoever opens the job
        try:
            if self.past is None:
                self.past = past_of(self.workspace)
                self.past.read_ahead(self.jobs)
            return standing(self.workspace, self.past, job).problems
        except Refused as refused:
            return refused.problems


def _listed(workspace: Workspace, job: str) -> int:
    path = workspace.job_file(job)
    return said(raw(path, workspace.shown(path))).given


def _in_part(workspace: Workspace, job: str) -> Standing:
    """Refuse where nobody can tell what was given."""
    number = _listed(workspace, job)
    if not number:
        return Standing()
    file = workspace.shown(workspace.job_file(job))
    message = (
        f"This copy of the history is cut off, so nobody can tell here what report "
        f"{number} said when it was given."
    )
    return Standing(number, problems=(Problem(file, 0, REPORTS, message, FETCH),))


class Soundness:
    """Tells whether a revision of a job had no problems; asked once of each."""

    def __init__(self, past: Past, job: str) -> None:
        self.past = past
        self.job = job
        self.known: dict[Revision, bool] = {}

    def __call__(self, revision: Revision) -> bool:
        """Work the job out as it stood at that revision."""
        if revision not in self.known:
            self.known[revision] = self._asked(revision)
        return self.known[revision]

    def _asked(self, revision: Revision) -> bool:
        from generator.worked import work_out  # keeps check quick

        with TemporaryDirectory() as folder:
            place = Place(Path(folder) / "firm", self.job, pictures=False)
            try:
                work_out(at_revision(self.past, revision, place), self.job)
            except Refused:
                return False
        return True


def at_revision(past: Past, revision: Revision, place: Place) -> Workspace:
    """Lay a job out as it stood at a revision, with what it was made from."""
    if past.repository is None:
        raise ValueError("a revision without a repository")
    files = held(past.repository, revision.commit, revision.path)
    return lay_out(past.repository, revision.path, files, place)


@dataclass(frozen=True)
class _Case:
    """The files of a job beside the report that was given last."""

    workspace: Workspace
    past: Past
    repository: Repository
    job: str
    number: int
    revision: Revision

    def untouched(self) -> bool:
        """Tell, without reading a file, that nothing of the job changed since."""
        at, _ = self.past.index.touched.get(self.job, (self.revision.at, ""))
        ours = (f"inspections/{self.job}.yaml", f"inspections/{self.job}/")
        dirty = any(one.startswith(ours) for one in self.past.changed)
        return at <= self.revision.at and not dirty

    def compared(self) -> Standing:
        """Hold the files as they stand against those of the report."""
        path = self.workspace.job_file(self.job)
        shown = self.workspace.shown(path)
        now = document_of(raw(path, shown), shown)
        [content] = self.repository.blobs([self.revision.blob])
        before = document_of(content, shown)
        altered = list(_entries_altered(before, now))
        if str(now.data.get("state")).lower() != FINAL:
            return Standing(self.number, self.revision, True, tuple(altered))
        if len(_entries(now)) > self.number:
            return Standing(self.number + 1, problems=tuple(altered))
        altered += [*self._altered(before, now), *self._pictures(before, now)]
        return Standing(self.number, self.revision, problems=tuple(altered))

    def _altered(self, before: Document, now: Document) -> Iterator[Problem]:
        """Tell of everything that is not as the report said it."""
        day = _entries(before)[self.number - 1].get("date")
        for one in reported(changes(before.data, now.data)):
            message = ALTERED.format(number=self.number, day=day, change=one)
            line = now.line(one.path)
            yield Problem(now.file, line, one.path, message, self._amend())

    def _pictures(self, before: Document, now: Document) -> Iterator[Problem]:
        """Tell of photographs that are not those that the report showed."""
        old = self._photographs(self.revision.commit, self.revision.path)
        new = self._photographs(self.repository.head, f"inspections/{self.job}.yaml")
        for name in _shown(before) & set(old):
            dirty = f"inspections/{self.job}/{name}" in self.past.changed
            if dirty or new.get(name) != old[name]:
                message = OTHER_PICTURE.format(name=name, number=self.number)
                line = now.line("photos")
                yield Problem(now.file, line, "photos", message, self._amend())

    def _photographs(self, commit: str, path: str) -> dict[str, str]:
        folder = path.removesuffix(".yaml") + "/"
        files = held(self.repository, commit, path)
        return {one.path.removeprefix(folder): one.blob for one in files}

    def _amend(self) -> str:
        return AMEND.format(next=self.number + 1, number=self.number)


def reported(found: tuple[Change, ...]) -> list[Change]:
    """Leave out of what changed what the entry of a report itself changes."""
    return [one for one in found if one.path.split("[")[0] not in NOT_REPORTED]


def _entries(document: Document) -> list[dict[str, Any]]:
    found = document.data.get(REPORTS)
    listed = found if isinstance(found, list) else []
    return [one if isinstance(one, dict) else {} for one in listed]


def _shown(document: Document) -> set[str]:
    found = document.data.get("photos")
    listed = found if isinstance(found, list) else []
    return {str(one.get("file")) for one in listed if isinstance(one, dict)}


def _entries_altered(before: Document, now: Document) -> Iterator[Problem]:
    """Tell of entries of reports that are not as they were when they were given."""
    present = _entries(now)
    for place, entry in enumerate(_entries(before)):
        number, path = place + 1, f"{REPORTS}[{place}]"
        if place >= len(present):
            message = f"Report {number} was given, and its entry is not here."
            yield Problem(now.file, now.line(REPORTS), REPORTS, message, PUT_BACK)
        elif present[place] != entry:
            found = changes({REPORTS: [entry]}, {REPORTS: [present[place]]})
            told = "; ".join(map(str, found))
            message = f"The entry of report {number} was altered: {told}."
            yield Problem(now.file, now.line(path), path, message, PUT_BACK)
