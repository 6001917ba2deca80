"""Whether a published report is what was given: held against a rebuild from git."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from generator.problems import Refused
from generator.record.load import Workspace
from generator.trail.change_words import LONGEST_IN_BRIEF, cut, one_line
from generator.trail.past import IN_PART, NO_HISTORY, NOT_COMMITTED
from generator.verify import compare
from generator.verify.copy import copied
from generator.verify.job import JobFile, job_file_words
from generator.verify.pages import words_of
from generator.verify.place import beside, find, owner
from generator.verify.rebuild import Rebuilt, Wanted, rebuild
from generator.verify.versions import unlike
from generator.website.evidence import RECORD
from generator.website.evidence_check import MISSING, differences
from generator.website.links import NAME
from generator.website.root_files import root_files
from generator.website.shared import COPY_NAME, SHARED

ANY_NAME = "a" * 32  # where paper prints no address, no page tells the folder name
MADE_OF, FIRM_FILES = "made_of", "files_of_the_firm"
MADE_WITHOUT = (
    "It was made from files that no commit held{}, so it cannot be made again."
)
SAID = (NO_HISTORY, IN_PART, NOT_COMMITTED)  # why there was no commit
FROM_PAPER = (
    "The name of this folder is none of a link, so the one was taken that paper.html "
    "prints."
)
NO_THEME = "The theme's files do not lie beside it in shared/, and were not compared."
OF_ANOTHER = "This is the folder of {}, and record.json names the job {}."
NOT_THE_JOB = "record.json names the job {}, and not {}."
_ADDRESS = re.compile(rf'<span class="address">[^<]*/({NAME.pattern})/</span>')


@dataclass(frozen=True)
class Verdict:
    """What is told of one published report, or of our own files beside the reports.

    Parameters
    ----------
    folder : pathlib.Path
        The folder.
    job, commit : str
        The job that its record.json names, and the commit it was made again from.
    report : int
        Number of the report; 0 where none was given.
    files : int
        How many files were compared.
    own : tuple of str
        What differs from its own record.json.
    rebuilt : tuple of str
        What differs from the rebuild.
    untold : tuple of str
        Why it cannot be made again; empty where it was.
    versions, notes : tuple of str
        Versions that are others here; what a reader must know beside.
    beside : bool
        True where it is of our own files beside the reports.
    """

    folder: Path
    job: str = ""
    commit: str = ""
    report: int = 0
    files: int = 0
    own: tuple[str, ...] = ()
    rebuilt: tuple[str, ...] = ()
    untold: tuple[str, ...] = ()
    versions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    beside: bool = False

    @property
    def identical(self) -> bool:
        """Whether every byte is as it is made again."""
        return not (self.own or self.rebuilt or self.untold)


def verify(workspace: Workspace, typed: str, commit: str = "") -> Iterator[Verdict]:
    """Hold published reports against themselves and against a rebuild.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder; nothing in it is changed.
    typed : str
        A folder of one report, a whole published folder, or the name of a job.
    commit : str, optional
        The commit to rebuild from; the one that record.json names when left out.

    Yields
    ------
    Verdict
        One for each report; of a whole folder, one for our own files in it as well.

    Raises
    ------
    Refused
        Where there is no report.
    """
    found = find(workspace, typed)
    for path in found.reports:
        yield _Case(workspace, path, commit, found.job).verdict()
    if found.whole is not None:
        told = tuple(beside(workspace, found.whole))
        yield Verdict(found.whole, files=len(root_files()), own=told, beside=True)


@dataclass(frozen=True)
class _Case:
    """One published report to be held against a rebuild."""

    workspace: Workspace
    folder: Path
    commit: str
    job: str

    def verdict(self) -> Verdict:
        """Copy it, so that nothing changes meanwhile, and look into the copy."""
        with TemporaryDirectory() as name:
            place = Path(name)
            try:
                odd = copied(self.folder, place / "here" / "site")
                odd += self._theme(place / "here")
            except Refused as refused:
                return Verdict(self.folder, untold=_sentences(refused))
            found = self._looked(place / "here", place)
            return replace(found, own=(*odd, *found.own))

    def _theme(self, here: Path) -> list[str]:
        """Copy the theme's files that record.json leads to, where they lie beside."""
        theme = _read(here / "site").get("theme")
        led = theme.get("folder") if isinstance(theme, dict) else None
        copy = led.rpartition("/")[2] if isinstance(led, str) else ""
        source = self.folder.parent / SHARED / copy
        if not COPY_NAME.fullmatch(copy) or not source.is_dir():
            return []
        return copied(source, here / SHARED / copy, f"{SHARED}/{copy}/")

    def _looked(self, here: Path, place: Path) -> Verdict:
        site, shared = here / "site", here / SHARED
        own = differences(site, shared)
        notes = []
        if not (self.folder.parent / SHARED).is_dir():
            notes.append(NO_THEME)
            own = [one for one in own if not _of_theme(one)]
        made_of = _mapping(_read(site).get(MADE_OF))
        job = str(made_of.get("job") or self.job or owner(self.workspace, self._name))
        name, note = self._named(site)
        own += self._other_job(job)
        found = Verdict(self.folder, _plain(job), own=tuple(own))
        commit = self.commit or _text(made_of.get("commit"))
        if not commit and made_of:
            untold = MADE_WITHOUT.format(_why(site))
            return replace(found, untold=(untold,), notes=tuple(notes))
        wanted = Wanted(job, commit, name, made_of)
        try:
            made = rebuild(self.workspace, wanted, place / "made")
        except Refused as refused:
            versions = tuple(one.to_tell() for one in unlike(made_of))
            return replace(
                found, untold=_sentences(refused), versions=versions, notes=tuple(notes)
            )
        found = replace(found, notes=(*notes, *note, *made.notes))
        return _compared(found, here, made, wanted)

    @property
    def _name(self) -> str:
        return self.folder.name

    def _named(self, site: Path) -> tuple[str, list[str]]:
        """Give the folder name that paper prints, and say where it comes from."""
        if NAME.fullmatch(self._name):
            return self._name, []
        found = _ADDRESS.search(_page(site / "paper.html"))
        return (found[1], [FROM_PAPER]) if found else (ANY_NAME, [])

    def _other_job(self, job: str) -> list[str]:
        """Tell of a report that lies in the folder of another job."""
        if self.job and self.job != job:
            return [NOT_THE_JOB.format(_plain(job), self.job)]
        of = owner(self.workspace, self._name)
        return [OF_ANOTHER.format(of, _plain(job))] if of and of != job else []


def _compared(found: Verdict, here: Path, made: Rebuilt, wanted: Wanted) -> Verdict:
    """Hold both against each other, byte by byte."""
    told = compare.unlike(here / "site", made.site)
    files = compare.count(made.site)
    if (here / SHARED).is_dir():
        told += compare.unlike_shared(here / SHARED, made.shared)
        files += compare.count(made.shared)
    others = unlike(wanted.made_of)
    if told:
        told += _of_job_file(made, wanted)
        versions = tuple(one.to_tell() for one in others)
    else:
        versions = tuple(one.makes_no_difference() for one in others)
    return replace(
        found,
        commit=made.origin.commit,
        report=made.origin.report,
        files=files,
        rebuilt=tuple(told),
        versions=versions,
    )


def _of_job_file(made: Rebuilt, wanted: Wanted) -> list[str]:
    """Tell what was changed in the job file, where record.json names another one."""
    job = made.trail.job
    path = f"inspections/{job}.yaml"
    digest = _mapping(wanted.made_of.get(FIRM_FILES)).get(path)
    if not isinstance(digest, str):
        return []
    content = made.seen.workspace.job_file(job).read_bytes()
    file = JobFile(job, made.origin.commit, content)
    pasts = (one() for one in (made.trail.now, made.trail.then))
    told = job_file_words(pasts, file, digest)
    return [told] if told else []


def _why(site: Path) -> str:
    """Say why there was no commit, where the record page says so."""
    words = words_of(_page(site / "record.html"))
    found = next((one for one in SAID if one in words), "")
    return f' ("{found}")' if found else ""


def _of_theme(sentence: str) -> bool:
    return sentence.startswith(f"{SHARED}/") and sentence.endswith(MISSING.format(""))


def _sentences(refused: Refused) -> tuple[str, ...]:
    return tuple(
        f"{one.file}:{one.line}: {one.message}"
        if one.line
        else _joined(one.message, one.hint)
        for one in refused.problems
    )


def _joined(message: str, hint: str) -> str:
    return f"{message} {hint}".strip()


def _read(site: Path) -> Mapping[str, Any]:
    try:
        return _mapping(json.loads((site / RECORD).read_bytes()))
    except (OSError, ValueError, RecursionError):
        return {}


def _page(path: Path) -> str:
    try:
        return path.read_bytes().decode("utf-8", "replace")
    except OSError:
        return ""


def _mapping(value: object) -> Mapping[str, Any]:
    return value if isinstance(value, dict) else {}


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""


def _plain(text: str) -> str:
    return cut(one_line(text), LONGEST_IN_BRIEF)
