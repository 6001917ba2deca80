"""What was altered in a job after a report of it was given, each with its sentence."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from generator.problems import Problem
from generator.record.load import Workspace, document_of
from generator.record.read import Document
from generator.record.slips_when_final import FINAL
from generator.record.text import raw
from generator.standing import REPORTS, Standing
from generator.trail.changes import Change, changes
from generator.trail.checkout import held
from generator.trail.git import Repository
from generator.trail.past import Past
from generator.trail.revision import Revision

NOT_REPORTED = (REPORTS, "state")  # what an entry itself changes
AMEND = (
    'Amend, do not alter: add report {next} to reports, or write "state: draft" while '
    "you work on it. Clients see report {number} until then."
)
ALTERED = "This was altered after report {number} was given ({day}): {change}."
OTHER_PICTURE = "{name} is not the picture that report {number} showed."
PUT_BACK = "Put it back as it was given, and say in a new entry what is otherwise."


@dataclass(frozen=True)
class Case:
    """The files of a job beside the report that was given last."""

    workspace: Workspace
    past: Past
    repository: Repository
    job: str
    number: int
    revision: Revision

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
        for name in sorted(_shown(before) & set(old)):
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
