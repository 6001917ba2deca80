"""The history of one job in the words of its job file, newest first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from generator.problems import Refused
from generator.record.load import Workspace, document_of
from generator.record.text import raw
from generator.seen import Version, version_at
from generator.standing import Soundness
from generator.trail.changes import changes
from generator.trail.git import Repository
from generator.trail.log import ADDED, DELETED, MOVED, RENAMED
from generator.trail.outcome import answers_changed, findings_changed, results_changed
from generator.trail.past import Past
from generator.trail.revision import Revision
from generator.trail.signatures import Maker, makers

NOBODY = Maker("", "", "")
NOT_COMMITTED = "not committed"
ONLY_NOTES = "nothing that the report uses: comments or layout"
BEGUN = "begun"
MERGED = "brings branches together"
AWAY = "taken away"
BY_THEN = "as it stood where this copy of the history begins"
CANNOT = "This version cannot be read: {first}{rest}"
WRONG = "Nothing was worked out of this version: {first}{rest}"
AND_MORE = " (and {count} more)"


@dataclass(frozen=True)
class Step:
    """One revision of a job, told.

    Parameters
    ----------
    commit : str
        Name of the commit; empty for what is not committed.
    maker : Maker
        Who made it, when, and its signature.
    how : tuple of str
        What happened to the file as a whole.
    reports : tuple of str
        The reports that were given with it, with their reasons.
    changed : tuple of str
        What changed in the file.
    outcome : tuple of str
        What came out differently because of it.
    trouble : str
        Why nothing was worked out; empty where it was.
    """

    commit: str
    maker: Maker
    how: tuple[str, ...] = ()
    reports: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    outcome: tuple[str, ...] = ()
    trouble: str = ""


@dataclass(frozen=True)
class History:
    """The revisions of one job, newest first, and whether they are all."""

    job: str
    steps: tuple[Step, ...] = ()
    git: bool = True
    whole: bool = True


def history(workspace: Workspace, past: Past, job: str) -> History:
    """Tell the history of a job.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    past : Past
        Its history.
    job : str
        Name of the job; its file may be gone.

    Returns
    -------
    History
        Every revision, through renames.
    """
    repository = past.repository
    if repository is None:
        return History(job, git=False)
    teller = _Teller(workspace, past, repository, job)
    return History(job, tuple(teller.steps()), whole=repository.whole)


class _Teller:
    """Tells the revisions of one job; each version is read and worked out once."""

    def __init__(
        self, workspace: Workspace, past: Past, repository: Repository, job: str
    ) -> None:
        self.workspace, self.past = workspace, past
        self.repository, self.job = repository, job
        self.file = f"inspections/{job}.yaml"
        self.revisions = past.revisions(job)
        self.known: dict[Revision, Version | Refused] = {}

    def steps(self) -> Iterator[Step]:
        made = makers(self.repository, (one.commit for one in self.revisions))
        gave = self._gave()
        if self.file in self.past.changed:
            yield self._uncommitted()
        for one in self.revisions:
            begins = not self.repository.whole and one.how == ADDED
            yield Step(
                one.commit,
                made.get(one.commit, NOBODY),
                (BY_THEN,) if begins else tuple(self._how(one)),
                tuple(self._reports(one, gave.get(one.commit, []))),
                *self._changed(one),
            )

    def _gave(self) -> dict[str, list[int]]:
        sound = Soundness(self.past, self.job)
        told = self.past.reports(one.blob for one in self.revisions)
        most = max(told.values(), default=0)
        found: dict[str, list[int]] = {}
        for number in range(self._earlier() + 1, most + 1):
            if revision := self.past.gave(self.job, number, sound):
                found.setdefault(revision.commit, []).append(number)
        return found

    def _earlier(self) -> int:
        """Count the reports that were given before this copy of the history begins."""
        if self.repository.whole:
            return 0
        begin = [one.blob for one in self.revisions if one.how == ADDED]
        told = self.past.said(begin).values()
        return max((len(what.reports) for what in told), default=0)

    def _how(self, one: Revision) -> Iterator[str]:
        if one.merge:
            yield MERGED
        if one.how == RENAMED:
            names = sorted({_job(name) for name in one.before if name != one.path})
            yield f"renamed from {' and '.join(names)}"
        if one.how == ADDED:
            yield BEGUN
        if one.how == DELETED:
            yield AWAY
        if one.how == MOVED:
            yield f"renamed to {_job(one.before[0])}"

    def _reports(self, one: Revision, numbers: list[int]) -> Iterator[str]:
        entries = self.past.said([one.blob])[one.blob].reports if numbers else ()
        for number in numbers:
            reason = dict(entries[number - 1]).get("reason", "")
            yield f"report {number} given: {reason}".rstrip(": ")

    def _changed(self, one: Revision) -> tuple[tuple[str, ...], tuple[str, ...], str]:
        """Tell what changed in the file, what came of it, and what kept from it."""
        if one.how in (DELETED, MOVED):
            return (), (), ""
        before = self._before(one)
        if before is None:
            return (), (), self._trouble(one)
        try:
            told = self._in_the_file(before.blob, one.blob)
        except Refused as refused:
            return (), (), _first(CANNOT, refused)
        return told, tuple(self._outcome(before, one)), self._trouble(one)

    def _before(self, one: Revision) -> Revision | None:
        older = (it for it in self.revisions if it.at < one.at)
        return next((it for it in older if it.blob == one.was[0]), None)

    def _in_the_file(self, before: str, after: str) -> tuple[str, ...]:
        if before == after:  # only its name is another
            return ()
        contents = self.repository.blobs([before, after])
        was, now = (document_of(one, self.file).data for one in contents)
        return _told(was, now)

    def _version(self, one: Revision) -> Version | Refused:
        """Work out a version, or give what is wrong with it."""
        if one not in self.known:
            try:
                self.known[one] = version_at(self.past, self.job, one)
            except Refused as refused:
                self.known[one] = refused
        return self.known[one]

    def _trouble(self, one: Revision) -> str:
        found = self._version(one)
        return "" if isinstance(found, Version) else _first(WRONG, found)

    def _outcome(self, before: Revision, after: Revision) -> Iterator[str]:
        was, now = self._version(before), self._version(after)
        if isinstance(was, Version) and isinstance(now, Version):
            yield from answers_changed(was.outcome, now.outcome)
            yield from findings_changed(was.outcome, now.outcome)
            yield from results_changed(was.outcome, now.outcome)

    def _uncommitted(self) -> Step:
        """Tell how the file differs from the last commit."""
        how = (NOT_COMMITTED,)
        path = self.workspace.job_file(self.job)
        if not path.is_file():
            return Step("", NOBODY, (*how, AWAY))
        try:
            now = document_of(raw(path, self.file), self.file).data
            if not self.revisions:
                return Step("", NOBODY, (*how, BEGUN))
            [content] = self.repository.blobs([self.revisions[0].blob])
            told = _told(document_of(content, self.file).data, now)
        except Refused as refused:
            return Step("", NOBODY, how, trouble=_first(CANNOT, refused))
        return Step("", NOBODY, how, changed=told)


def _told(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[str, ...]:
    told = tuple(map(str, changes(before, after)))
    return told or (ONLY_NOTES,)


def _job(path: str) -> str:
    return path.removeprefix("inspections/").removesuffix(".yaml")


def _first(words: str, refused: Refused) -> str:
    """Tell the first problem, and how many follow."""
    first, *others = refused.problems
    place = f"line {first.line}, {first.field}: " if first.field else ""
    rest = AND_MORE.format(count=len(others)) if others else ""
    return words.format(first=f"{place}{first.message}", rest=rest)
