"""The revisions of every job file, and when each job last changed."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.trail.log import DELETED, MOVED, RENAMED

ALL_JOBS = ""  # in place of the name of a job: what all jobs are made from


@dataclass(frozen=True)
class Revision:
    """One commit that revised one job file.

    Parameters
    ----------
    commit : str
        Name of the commit.
    at : int
        Its place in the history: whatever it was made from has a smaller one.
    when : str
        When it was committed, in seconds since 1970. [s]
    path : str
        The job file, below the firm's folder.
    how : str
        Added, changed, renamed, deleted; or moved, which leaves this name for another.
    before : tuple of str
        What the file was called in each parent; where it was moved, its new name.
    blob : str
        Object name of the content; all zeros where it was deleted.
    was : tuple of str
        The same in each parent; all zeros where there was no file.
    """

    commit: str
    at: int
    when: int
    path: str
    how: str
    before: tuple[str, ...]
    blob: str
    was: tuple[str, ...]

    @property
    def merge(self) -> bool:
        """Whether several branches meet in it."""
        return len(self.was) > 1


@dataclass
class Index:
    """The revisions of every job file, newest first, and when each job last changed.

    Parameters
    ----------
    head : str
        The commit up to which the log was read.
    count : int
        Number of commits read.
    revisions : dict of str to list of Revision
        By job file.
    touched : dict of str to tuple of int and str
        The last commit of the present branch, with its place, that changed what a job
        is made from, by job; what all jobs are made from stands under an empty name.
    reports : dict of str to int
        The report that a version of a job file would give, by its object name, as far
        as anyone asked; 0 for none.
    """

    head: str = ""
    count: int = 0
    revisions: dict[str, list[Revision]] = field(default_factory=dict)
    touched: dict[str, tuple[int, str]] = field(default_factory=dict)
    reports: dict[str, int] = field(default_factory=dict)
    spoilt: bool = field(default=False, compare=False)

    def of(self, path: str) -> list[Revision]:
        """Follow a job file back through its renames; newest first."""
        found: dict[tuple[int, str], Revision] = {}
        todo = [(path, self.count)]
        while todo:
            name, bound = todo.pop()
            for one in self.revisions.get(name, ()):
                if one.at >= bound or (one.at, name) in found:
                    continue
                gone = one.how in (DELETED, MOVED)
                if gone and (found or bound != self.count):
                    break  # before it there was another file of the same name
                found[one.at, name] = one
                todo += [
                    (was, one.at)
                    for was in one.before
                    if one.how == RENAMED and was != name
                ]
        return [found[key] for key in sorted(found, reverse=True)]

    def last_touch(self, job: str) -> str:
        """Name the last commit that changed what a job is made from; empty if none."""
        none = (-1, "")
        return max(self.touched.get(job, none), self.touched.get(ALL_JOBS, none))[1]
