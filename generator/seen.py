"""What clients see of a job, worked out: the report given last, with what changed."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from generator.altered import reported
from generator.pages.origin import Between, Origin
from generator.problems import Problem, Refused
from generator.record.load import Workspace, document_of
from generator.record.text import raw
from generator.standing import (
    Soundness,
    Standing,
    as_it_stands,
    at_revision,
    standing,
)
from generator.trail.changes import changes
from generator.trail.checkout import Place
from generator.trail.git import short
from generator.trail.outcome import Outcome, answers_changed, findings_changed
from generator.trail.past import Past, past_of
from generator.trail.revision import Revision
from generator.worked import Worked, work_out

GIVEN = "given"  # folder below build/: what given reports were made from
FIRST = 1  # number of the first report


@dataclass(frozen=True)
class Seen:
    """A job as clients see it: where its files lie, worked out, and its origin."""

    workspace: Workspace
    worked: Worked
    origin: Origin


def seen(
    workspace: Workspace, past: Past, job: str, standing: Standing, folder: Path
) -> Seen:
    """Work out what clients see of a job.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    past : Past
        Its history.
    job : str
        Name of the job.
    standing : Standing
        What clients see of it.
    folder : pathlib.Path
        Where the files of a report that was given earlier are laid out, below
        ``given/JOB``.

    Returns
    -------
    Seen
        The job worked out.

    Raises
    ------
    Refused
        With every problem of the job, or of what was altered in it.
    """
    if standing.problems:
        raise Refused(standing.problems)
    revision = standing.revision
    if revision is not None:
        place = Place(folder / GIVEN / job, job)
        workspace = at_revision(past, revision, place)
    worked = worked_at(workspace, job, revision.commit if revision else "")
    last = partial(_version, workspace, job, worked)
    return Seen(workspace, worked, _origin(past, job, standing, last))


def worked_at(workspace: Workspace, job: str, commit: str) -> Worked:
    """Work out a job from the files that clients see.

    Parameters
    ----------
    workspace : Workspace
        Where the files lie.
    job : str
        Name of the job.
    commit : str
        The commit that they were laid out from; empty where they lie as they stand.

    Returns
    -------
    Worked
        The job worked out.

    Raises
    ------
    Refused
        With every problem of the job; of an earlier version they say so.
    """
    try:
        return work_out(workspace, job)
    except Refused as refused:
        if not commit:
            raise
        raise Refused(_as_of(one, commit) for one in refused.problems) from None


def origin_of(workspace: Workspace, past: Past, job: str, standing: Standing) -> Origin:
    """Tell where what clients see of a job stands in the history, nothing drawn.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    past : Past
        Its history.
    job : str
        Name of the job.
    standing : Standing
        What clients see of it.

    Returns
    -------
    Origin
        The same as ``seen`` tells. The job is worked out for it only where an earlier
        report was given that this one can be held against.

    Raises
    ------
    Refused
        With what was altered, or with the problems that were found on the way.
    """
    if standing.problems:
        raise Refused(standing.problems)
    revision = standing.revision

    def last() -> Version:
        if revision is None:
            return _version(workspace, job, work_out(workspace, job))
        try:
            return version_at(past, job, revision)
        except Refused as refused:
            told = [_as_of(one, revision.commit) for one in refused.problems]
            raise Refused(told) from None

    return _origin(past, job, standing, last)


def as_given(workspace: Workspace, job: str, folder: Path) -> Seen:
    """Work out what clients see of one job; see ``seen``."""
    past = past_of(workspace)
    return seen(workspace, past, job, standing(workspace, past, job), folder)


def as_drafted(workspace: Workspace, job: str, folder: Path) -> Seen:
    """Work out one job as its files stand, for the office; see ``seen``."""
    stands = as_it_stands(workspace, job)
    return seen(workspace, past_of(workspace), job, stands, folder)


def _as_of(problem: Problem, commit: str) -> Problem:
    """Say of a problem that it is in an earlier version of the file."""
    file = f"{problem.file} (commit {short(commit)})"
    return replace(problem, file=file)


@dataclass(frozen=True)
class Version:
    """One version of a job: what its file says, and what came of it."""

    data: Mapping[str, Any]
    outcome: Outcome


def version_at(past: Past, job: str, revision: Revision) -> Version:
    """Work out one version of a job, its pictures left aside.

    Raises
    ------
    Refused
        With the problems that the job had then.
    """
    with TemporaryDirectory() as folder:
        place = Place(Path(folder) / "firm", job, pictures=False)
        laid_out = at_revision(past, revision, place)
        return _version(laid_out, job, work_out(laid_out, job))


def _version(workspace: Workspace, job: str, worked: Worked) -> Version:
    path = workspace.job_file(job)
    shown = workspace.shown(path)
    outcome = Outcome(worked.results, worked.findings, worked.answers)
    return Version(document_of(raw(path, shown), shown).data, outcome)


def _origin(
    past: Past, job: str, standing: Standing, last: Callable[[], Version]
) -> Origin:
    number, revision = standing.number, standing.revision
    why_not = "" if revision else past.why_not(job)
    commit = revision.commit if revision else past.index.last_touch(job)
    between = _between(past, job, number, last)
    return Origin("" if why_not else commit, number, why_not, between)


def _between(
    past: Past, job: str, number: int, last: Callable[[], Version]
) -> tuple[Between, ...]:
    """Tell what changed from each report to the next; nothing of drafts between."""
    if number <= FIRST:  # nothing came before it
        return ()
    sound = Soundness(past, job)
    gave = {one: past.gave(job, one, sound) for one in range(1, number)}
    versions = {
        one: version_at(past, job, revision)
        for one, revision in gave.items()
        if revision is not None and revision != gave.get(one - 1)
    }
    versions[number] = last()
    return tuple(
        Between(
            later,
            tuple(
                map(str, reported(changes(versions[one].data, versions[later].data)))
            ),
            tuple(_outcome(versions[one].outcome, versions[later].outcome)),
        )
        for one, later in pairwise(sorted(versions))
    )


def _outcome(before: Outcome, after: Outcome) -> Iterator[str]:
    yield from answers_changed(before, after)
    yield from findings_changed(before, after)
