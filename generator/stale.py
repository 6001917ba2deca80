"""Which published sites no longer stand, told without reading what a commit tells.

The published files are looked at as a listing tells them, and read only where that
differs from what was written down, so that a restored cache is as good as a fresh one
and a spoilt one is noticed.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path

from generator.record.load import Workspace
from generator.stamp_file import MIXED_UP, SPOILT, Found, keep_stamp, read_stamp
from generator.stamps import OF_FILES, made_from, made_from_given, of_commit
from generator.standing import Standing
from generator.trail.past import Past
from generator.website.as_published import holds, is_folder, looks
from generator.website.shared import SHARED, is_whole, leads_to

ALTERED = "it was altered after it was given"
FOREIGN = "what was written down of it is of a link that this firm has not given"
GONE = "its pages are not in the published folder"
TOUCHED = "its published pages were changed by something else"
THEME = "the theme files that its pages load were changed by something else"
DAMAGE = frozenset({SPOILT, MIXED_UP, FOREIGN, TOUCHED, THEME})  # told unasked


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
    owned : Collection[str]
        Folder names of all links that the firm has given.
    seen : callable
        Gives what the published sites look like, as far as somebody has looked.
    """

    workspace: Workspace
    past: Past
    stands: Mapping[str, Standing]
    public: Path
    owned: Collection[str]
    seen: Callable[[], Mapping[str, str]] = dict
    _found: dict[str, Found] = field(default_factory=dict)
    _themes: dict[str, str] = field(default_factory=dict)
    _whole: dict[str, bool] = field(default_factory=dict)

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
        stamp = self._read(job).stamp
        told = of_commit(commit, name)
        if (
            stamp
            and not why_not
            and told.items() <= stamp.made_from.items()
            and stamp.made_from.keys() == {*OF_FILES, *told}
        ):
            return stamp.made_from
        return made_from(self.workspace, job, name, commit)

    def reasons(self, job: str, sources: Mapping[str, str]) -> list[str]:
        """Say why a job must be built, its published pages not yet looked at."""
        if self.stands[job].problems:
            return [ALTERED]
        found = self._read(job)
        if found.stamp is None:
            return [found.why]
        before = found.stamp.made_from
        return [
            f"{kind} changed"
            for kind, digest in sources.items()
            if before.get(kind) != digest
        ]

    def damage(self, job: str) -> list[str]:
        """Hold the published files of a job against what was written down of them."""
        stamp = self._read(job).stamp
        if stamp is None:
            return []
        site, theme = f"{self.public}/{stamp.name}", self._theme(stamp.shared)
        seen = self.seen().get(site) or (looks(site) if is_folder(site) else "")
        if not (theme and seen):
            return [GONE]
        if (seen, theme) == (stamp.looks, stamp.theme):
            return []
        now = replace(stamp, looks=seen, theme=theme)
        if now.looks != stamp.looks and holds(Path(site)) != stamp.holds:
            return [TOUCHED]
        if now.theme != stamp.theme and not self._is_whole(stamp.shared):
            return [THEME]
        with suppress(OSError):  # the next build then reads them again
            keep_stamp(self.workspace.root / "build", now)
        return []

    def stands_whole(self, job: str) -> bool:
        """Tell by content alone whether a site and its theme are as published."""
        stamp = self._read(job).stamp
        if stamp is None or holds(self.public / stamp.name) != stamp.holds:
            return False
        return self._is_whole(stamp.shared)

    def leads(
        self, names: Mapping[str, str], changed: Collection[str]
    ) -> dict[str, set[str]]:
        """Name the theme files that sites lead to which are not built, by their folder.

        One that still stands leads where it did; of one that changed and was left with
        problems, its pages tell.
        """
        found = {}
        for job, name in names.items():
            stamp = self._read(job).stamp
            stands = stamp is not None and job not in changed
            pages = () if stands else (self.public / name).glob("*.html")
            led = (leads_to(one.read_text("utf-8", "replace")) for one in pages)
            found[name] = {stamp.shared} if stamp and stands else {*led} - {""}
        return found

    def _read(self, job: str) -> Found:
        """Read what was written down of a job, once."""
        if job not in self._found:
            found = read_stamp(self.workspace.root / "build", job)
            if found.stamp and found.stamp.name not in self.owned:
                found = Found(None, FOREIGN)
            self._found[job] = found
        return self._found[job]

    def _theme(self, copy: str) -> str:
        """List a shared copy, once for all jobs that lead to it; empty without one."""
        if copy not in self._themes:
            folder = f"{self.public}/{SHARED}/{copy}"
            self._themes[copy] = looks(folder) if is_folder(folder) else ""
        return self._themes[copy]

    def _is_whole(self, copy: str) -> bool:
        if copy not in self._whole:
            self._whole[copy] = is_whole(self.public / SHARED / copy)
        return self._whole[copy]
