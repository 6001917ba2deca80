"""What git knows of a firm's jobs: their revisions, and which of them gave a report."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from generator.record.load import Workspace
from generator.trail.git import Repository, repository
from generator.trail.index import LOOKED_AT, group_of, index_of, keep_index
from generator.trail.revision import ALL_JOBS, Index, Revision
from generator.trail.said import Said, said

Sound = Callable[[Revision], bool]
NO_HISTORY = "There is no git history here."
IN_PART = "This copy of the history is cut off, and what came before is not here."
NOT_COMMITTED = "What this was made from is not committed yet."


@dataclass
class Past:
    """The history of a firm's folder.

    Parameters
    ----------
    repository : Repository or None
        None where the folder has no history.
    index : Index
        The revisions of every job file.
    changed : frozenset of str
        Files, below the firm's folder, that are not as the last commit has them.
    folder : pathlib.Path or None
        Where what was read is kept.
    """

    repository: Repository | None
    index: Index = field(default_factory=Index)
    changed: frozenset[str] = frozenset()
    folder: Path | None = None

    def revisions(self, job: str) -> list[Revision]:
        """List the revisions of a job file, newest first, through its renames."""
        return self.index.of(f"inspections/{job}.yaml")

    def said(self, blobs: Iterable[str]) -> dict[str, Said]:
        """Tell what versions of job files say of their reports, by object name."""
        wanted = list(dict.fromkeys(one for one in blobs if one.strip("0")))
        contents = self.repository.blobs(wanted) if self.repository else ()
        return {
            blob: said(content) for blob, content in zip(wanted, contents, strict=True)
        }

    def reports(self, blobs: Iterable[str]) -> dict[str, int]:
        """Tell which report each version of a job file would give; 0 for none."""
        wanted = dict.fromkeys(blobs)
        known = self.index.reports
        new = [blob for blob in wanted if blob not in known]
        known.update(dict.fromkeys(new, 0))
        found = {blob: what.given for blob, what in self.said(new).items()}
        known.update(found)
        return {blob: known[blob] for blob in wanted}

    def read_ahead(self, jobs: Iterable[str]) -> None:
        """Read what all versions of many jobs say of reports, at once, and keep it."""
        revisions = (one for job in jobs for one in self.revisions(job))
        before = len(self.index.reports)
        self.reports(blob for one in revisions for blob in (one.blob, *one.was))
        if self.folder is not None and len(self.index.reports) > before:
            keep_index(self.folder, self.index)

    def last_given(self, job: str, sound: Sound) -> tuple[int, Revision] | None:
        """Tell which report of a job was given last, and the revision that gave it.

        Parameters
        ----------
        job : str
            Name of the job.
        sound : callable
            Whether a revision has no problems; asked only where the file has changed
            since, for the present file is checked when it is built.

        Returns
        -------
        tuple of int and Revision, or None
            None where no report was given yet.
        """
        revisions = self.revisions(job)
        told = self.reports(one.blob for one in revisions)
        most = max(told.values(), default=0)
        for number in range(most, 0, -1):
            if found := self.gave(job, number, sound):
                return number, found
        return None

    def gave(self, job: str, number: int, sound: Sound) -> Revision | None:
        """Find the revision that gave a report: the first sound one that lists it.

        A version with problems was never published, so that it gave nothing. Where two
        branches give the same report, the earlier commit counts.
        """
        revisions = self.revisions(job)
        told = self.reports(blob for one in revisions for blob in (one.blob, *one.was))
        listing = [one for one in revisions if told[one.blob] >= number]
        first = {one for one in listing if all(told[blob] < number for blob in one.was)}
        untouched = f"inspections/{job}.yaml" not in self.changed
        present = revisions[0].blob if revisions and untouched else ""
        for one in sorted(
            listing,
            key=lambda one: (
                one not in first,
                one.when if one in first else one.at,
                one.commit,
            ),
        ):
            if one.blob == present or sound(one):
                return one
        return None

    def untouched_since(self, job: str, revision: Revision) -> bool:
        """Tell, without reading a file, that nothing of a job changed since."""
        at, _ = self.index.touched.get(job, (revision.at, ""))
        return at <= revision.at and job not in self._dirty

    @cached_property
    def _dirty(self) -> set[str | None]:
        """The jobs with a file that is not as the last commit has it."""
        return {group_of(one) for one in self.changed}

    def why_not(self, job: str) -> str:
        """Say why no commit holds a job as it stands; empty where one does."""
        if self.repository is None:
            return NO_HISTORY
        if not self.repository.whole:
            return IN_PART
        dirty = not self._dirty.isdisjoint((job, ALL_JOBS))
        return NOT_COMMITTED if dirty or not self.index.last_touch(job) else ""


def past_of(workspace: Workspace, folder: Path | None = None) -> Past:
    """Read the history of a firm's folder.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    folder : pathlib.Path, optional
        Where what was read is kept; ``build/`` in the firm's folder when left out.

    Returns
    -------
    Past
        Its history; an empty one where there is none.

    Raises
    ------
    generator.problems.Refused
        Where there is a history that cannot be read.
    """
    found = repository(workspace.root)
    if found is None:
        return Past(None)
    kept = folder or workspace.root / "build"
    return Past(found, index_of(found, kept), _changed(found), kept)


def _changed(found: Repository) -> frozenset[str]:
    """List the files that are not as the last commit has them, new ones too."""
    answer = found.ask(
        "status", "--porcelain", "-z", "--untracked-files=all", "--ignored",
        "--no-renames", "--", *LOOKED_AT,
    )  # fmt: skip
    lines = answer.decode("utf-8", "surrogateescape").split("\0")
    return frozenset(line[3:].removeprefix(found.prefix) for line in lines if line)
