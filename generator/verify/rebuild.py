"""A report made again from a commit, in a folder of its own, as clients saw it then."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from generator.pages.origin import Origin
from generator.problems import Problem, Refused
from generator.provenance import made_of
from generator.record.load import JOB_NAME, Workspace
from generator.seen import Seen, seen
from generator.site import build_site
from generator.standing import FETCH, Soundness, Standing
from generator.trail.change_words import LONGEST_IN_BRIEF, cut, one_line
from generator.trail.checkout import Place, held, lay_out
from generator.trail.git import Repository, repository
from generator.trail.index import index_of
from generator.trail.past import NO_HISTORY, Past
from generator.trail.revision import Revision
from generator.verify.versions import adopt, unlike
from generator.website.publish import Edition, publish

HISTORY = "history"
NO_JOB = "record.json names no job, so nobody can tell what to make again."
NO_COMMIT = "record.json names no commit, so nobody can tell what it was made from."
NOT_HELD = "The history here has no commit {}."
WRONG_FOLDER = "See that this is the firm's folder with its whole history."
NOT_IN_IT = "The commit {} holds no job file of {}, under this name or another."
ASIDE = (
    "The commit {} does not lie behind the one that is checked out here: its branch "
    "was dropped, or is another one."
)
IN_PART = (
    "This copy of the history is cut off. What differs may come from that: fetch the "
    "whole history with git fetch --unshallow."
)
GIVEN_SINCE = "Report {} was given since, by the commit {}."
CHANGED_SINCE = "What the report is made from was changed since, by the commit {}."


@dataclass(frozen=True)
class Wanted:
    """What is to be made again.

    Parameters
    ----------
    job : str
        Name of the job as it was published; anything may stand there.
    commit : str
        The commit, as it was named.
    name : str
        Folder name behind the private link, which paper prints.
    made_of : mapping
        What record.json says that it was made of.
    """

    job: str
    commit: str
    name: str
    made_of: Mapping[str, Any]


@dataclass(frozen=True)
class Rebuilt:
    """A report made again: its folder, the theme's beside it, what was seen of it."""

    site: Path
    shared: Path
    seen: Seen
    trail: Trail
    notes: tuple[str, ...]

    @property
    def origin(self) -> Origin:
        """Where it stands in the history."""
        return self.seen.origin


@dataclass(frozen=True)
class Trail:
    """The history up to a commit, and the job file as it was called there."""

    repository: Repository
    commit: str
    path: str
    job: str
    folder: Path

    def then(self) -> Past:
        """Read the history behind the commit; other branches are left aside."""
        at = replace(self.repository, head=self.commit, whole=True)
        index = index_of(at, self.folder / "then")
        old = Path(self.path).stem
        if old in index.touched:
            index.touched[self.job] = index.touched[old]
        return _Then(at, index, called=self.path)

    def now(self) -> Past:
        """Read the whole history."""
        found = index_of(self.repository, self.folder / "now")
        return Past(self.repository, found)


@dataclass
class _Then(Past):
    """A history in which the job has one name, which it may have lost since."""

    called: str = field(default="")

    def revisions(self, job: str) -> list[Revision]:
        """List the revisions of the job file as it was called."""
        return self.index.of(self.called)


def rebuild(workspace: Workspace, wanted: Wanted, folder: Path) -> Rebuilt:
    """Make a report again from a commit.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder; nothing in it is changed.
    wanted : Wanted
        What is to be made again.
    folder : pathlib.Path
        Where it is made.

    Returns
    -------
    Rebuilt
        The report as it would have been published.

    Raises
    ------
    Refused
        With why it cannot be made again.
    """
    trail = trail_of(workspace, wanted, folder)
    look = _seen(trail, folder)
    site = build_site(
        look.workspace, look.worked, folder, wanted.name, origin=look.origin
    )
    if unlike(wanted.made_of):
        adopt(site, made_of(look.workspace, look.worked, look.origin), wanted.made_of)
    public = folder / "public"
    publish(Edition({wanted.name: site}), public)
    notes = tuple(_notes(trail, workspace, look.origin))
    return Rebuilt(public / wanted.name, public / "shared", look, trail, notes)


def trail_of(workspace: Workspace, wanted: Wanted, folder: Path) -> Trail:
    """Find the commit and the job file in it.

    Raises
    ------
    Refused
        Where there is no such commit, or it does not hold the job.
    """
    if not JOB_NAME.fullmatch(wanted.job):
        raise _untold(NO_JOB)
    if not wanted.commit:
        raise _untold(NO_COMMIT)
    found = repository(workspace.root)
    if found is None:
        raise _untold(NO_HISTORY)
    commit = _commit(found, wanted.commit)
    path = f"inspections/{wanted.job}.yaml"
    if not _holds(found, commit, path):
        path = _earlier(found, commit, path, folder)
    if not path:
        raise _untold(NOT_IN_IT.format(commit, wanted.job))
    return Trail(found, commit, path, wanted.job, folder)


def _commit(found: Repository, typed: str) -> str:
    words = ("rev-parse", "--verify", "--end-of-options", f"{typed}^{{commit}}")
    try:
        if "\0" in typed:
            raise ValueError(typed)
        return found.ask(*words).decode().strip()
    except (Refused, ValueError):
        message = NOT_HELD.format(cut(one_line(typed), LONGEST_IN_BRIEF))
        raise _untold(message, WRONG_FOLDER if found.whole else FETCH) from None


def _holds(found: Repository, commit: str, path: str) -> bool:
    return any(one.path == path for one in held(found, commit, path))


def _earlier(found: Repository, commit: str, path: str, folder: Path) -> str:
    """Follow a job file back to the name that it had at a commit; empty if none."""
    revisions = index_of(found, folder / "now").of(path)
    names = dict.fromkeys(
        name for one in revisions for name in (one.path, *one.before) if name != path
    )
    return next((name for name in names if _holds(found, commit, name)), "")


def _seen(trail: Trail, folder: Path) -> Seen:
    """Work out what clients saw of the job at the commit."""
    past, job = trail.then(), trail.job
    given = past.last_given(job, Soundness(past, job))
    if given is not None:
        place = Workspace(folder / "unused")  # the files come from the commit
        return seen(place, past, job, Standing(*given), folder)
    files = held(trail.repository, trail.commit, trail.path)
    place = lay_out(trail.repository, trail.path, files, Place(folder / "firm", job))
    revisions = past.revisions(job)
    newest = [one.blob for one in revisions[:1]]
    number = sum(past.reports(newest).values())
    return seen(place, past, job, Standing(number), folder)


def _notes(trail: Trail, workspace: Workspace, origin: Origin) -> list[str]:
    """Tell what a reader must know beside: where the commit is, what came since."""
    found, notes = trail.repository, []
    if not found.whole:
        notes.append(IN_PART)
    aside = not found.head or found.ask(
        "rev-list", "--max-count=1", trail.commit, f"^{found.head}"
    )
    if aside:
        return [*notes, ASIDE.format(trail.commit)]
    past = trail.now()
    given = past.last_given(trail.job, Soundness(past, trail.job))
    if given is not None:
        if given[0] > origin.report or given[1].commit != origin.commit:
            notes.append(GIVEN_SINCE.format(given[0], given[1].commit))
    elif workspace.job_file(trail.job).is_file():
        last = past.index.last_touch(trail.job)
        if last != origin.commit:
            notes.append(CHANGED_SINCE.format(last))
    return notes


def _untold(message: str, hint: str = "") -> Refused:
    return Refused([Problem(HISTORY, 0, "", message, hint)])
