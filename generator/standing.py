"""What clients see of a job: the report given last, and never a draft of the next.

A report that was given is amended by a later one and not altered.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from generator.problems import Problem, Refused
from generator.record.load import JOB_NAME, Workspace
from generator.record.text import raw
from generator.trail.past import Past, past_of
from generator.trail.revision import Revision
from generator.trail.said import said

if TYPE_CHECKING:
    from generator.trail.checkout import Place

REPORTS = "reports"
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
    number, revision = given
    if past.untouched_since(job, revision):
        return Standing(number, revision)
    from generator.altered import Case  # keeps check quick

    try:
        return Case(workspace, past, past.repository, job, number, revision).compared()
    except Refused:
        return Standing(number)


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
    try:
        return said(raw(workspace.job_file(job), job)).given
    except Refused:  # told by whoever opens the job
        return 0


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
        from generator.trail.checkout import Place  # keeps check quick
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
    from generator.trail.checkout import held, lay_out  # keeps check quick

    if past.repository is None:
        raise ValueError("a revision without a repository")
    files = held(past.repository, revision.commit, revision.path)
    return lay_out(past.repository, revision.path, files, place)
