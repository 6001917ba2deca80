"""Which published sites no longer stand, told without reading what a commit tells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from generator.record.load import Workspace
from generator.stamps import (
    Stamp,
    holds_all,
    made_from,
    made_from_given,
    of_commit,
    read_stamp,
    why,
)
from generator.standing import Standing
from generator.trail.past import Past
from generator.website.shared import SHARED, copy_name

ALTERED = "it was altered after it was given"


@dataclass
class Stale:
    """The jobs of a firm beside what was published of them.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    past : Past
        Its history.
    stands : Mapping[str, Standing]
        What clients see of each job.
    public : pathlib.Path
        The published folder.
    """

    workspace: Workspace
    past: Past
    stands: Mapping[str, Standing]
    public: Path
    _stamps: dict[str, Stamp | None] = field(default_factory=dict)
    _themes: dict[str, str] = field(default_factory=dict)

    def sources(self, job: str, name: str) -> Mapping[str, str]:
        """Digest what the site of a job is made from, by the name of its link.

        A commit that holds the job as it stands tells all of it: where the site was
        made from that commit, by the same programs, no file is read.
        """
        revision = self.stands[job].revision
        if revision is not None:
            return made_from_given(revision, name)
        why_not = self.past.why_not(job)
        commit = why_not or self.past.index.last_touch(job)
        stamp = self._stamp(job)
        if (
            stamp
            and not why_not
            and of_commit(commit, name).items() <= (stamp.made_from.items())
        ):
            return stamp.made_from
        return made_from(self.workspace, job, name, commit)

    def reasons(self, job: str, sources: Mapping[str, str]) -> list[str]:
        """Say why a job must be built; nothing where its published site stands."""
        if self.stands[job].problems:
            return [ALTERED]
        return why(self._stamp(job), sources, self.public)

    def stands_whole(self, job: str) -> bool:
        """Tell by content alone whether a site and its theme are as published."""
        stamp = self._stamp(job)
        if stamp is None or not holds_all(stamp, self.public):
            return False
        copy = stamp.shared
        if copy not in self._themes:  # of thousands of sites nearly always one
            self._themes[copy] = copy_name(self.public / SHARED / copy)
        return self._themes[copy] == copy

    def _stamp(self, job: str) -> Stamp | None:
        if job not in self._stamps:
            self._stamps[job] = read_stamp(self.workspace.root / "build", job)
        return self._stamps[job]
