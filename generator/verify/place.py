"""Which published folders are meant: by their path, or by the name of a job."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.holdings import PUBLIC, secret_if_here
from generator.problems import Problem, Refused
from generator.record.firm_file import load_firm
from generator.record.link_book import known, link_book
from generator.record.load import Workspace
from generator.trail.change_words import one_line
from generator.verify.copy import LARGEST, copied, shown
from generator.website.changes import STRAYS
from generator.website.evidence import RECORD
from generator.website.gone import REASONS, gone_page
from generator.website.links import (
    NAME,
    folder_name,
)
from generator.website.root_files import MARKER, root_files
from generator.website.shared import COPY_NAME, SHARED, copy_name

OF_A_REPORT = (RECORD, "record.html", "paper.html")
NO_SECRET = (
    "There is no link secret here, so nobody can tell which folder is that of this job."
)
NAME_IT = "Name the folder of the report."
NOT_THERE = "There is no folder of this job in public/."
NO_REPORT = "This folder holds no report, for there is no record.json in it."
NO_FOLDER = "There is no such folder."
CLOSED = "The link of this folder was closed: there is a page that says so, no report."
NEITHER = "{} holds neither a report nor the page of a closed link."
STRANGE = "{} is nothing that onlot publishes."
CHANGED = "{} is not as onlot writes it."
MISSING = "{} is missing."
NOT_ITS_NAME = "{} does not hold the files that it is named after."


@dataclass(frozen=True)
class Found:
    """The reports that are meant; and the published folder, where it is meant whole."""

    reports: tuple[Path, ...]
    whole: Path | None = None
    job: str = ""


def find(workspace: Workspace, typed: str) -> Found:
    """Find the published reports that are meant.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    typed : str
        A path, or the name of a job.

    Returns
    -------
    Found
        One report or more.

    Raises
    ------
    Refused
        Where there is none.
    """
    job = typed.removesuffix(".yaml")
    if "/" not in typed and os.sep not in typed and job in workspace.jobs():
        return _of_job(workspace, job)
    path = Path(typed)
    if "\0" in typed or not path.is_dir():
        raise _refused(typed, NO_FOLDER, "Name a published folder, or a job.")
    path = path.resolve()
    if _is_report(path):
        return Found((path,))
    inside = _names(path)
    if os.path.lexists(path / MARKER) or any(map(_is_report, inside)):
        return Found(tuple(filter(_is_report, inside)), path)
    raise _refused(typed, CLOSED if _is_gone(workspace, path) else NO_REPORT)


def owner(workspace: Workspace, name: str) -> str:
    """Name the job that a folder name belongs to; empty where that is not known."""
    secret = secret_if_here(workspace.root)
    for job in workspace.jobs() if secret else ():
        try:
            links = link_book(workspace, job).links
        except Refused:
            continue
        if any(folder_name(secret or b"", job, one.number) == name for one in links):
            return job
    return ""


def beside(workspace: Workspace, public: Path) -> Iterator[str]:
    """Tell what is wrong in the published folder beside the reports.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    public : pathlib.Path
        The published folder.

    Yields
    ------
    str
        One sentence for each file that is not ours, or not as we write it.
    """
    ours = root_files()
    for name, text in ours.items():
        content = _content(public / name)
        if content is None:
            yield MISSING.format(name)
        elif content != text.encode("utf-8"):
            yield CHANGED.format(name)
    for path in sorted(public.iterdir()):
        if path.name in ours or path.name in STRAYS:
            continue
        folder = path.is_dir() and not path.is_symlink()
        if folder and path.name == SHARED:
            yield from _copies(path)
        elif not folder or not NAME.fullmatch(path.name):
            yield STRANGE.format(shown(path.name))
        elif not _is_report(path) and not _is_gone(workspace, path):
            yield NEITHER.format(path.name)


def _of_job(workspace: Workspace, job: str) -> Found:
    book = known(workspace, job)
    secret = secret_if_here(workspace.root)
    if secret is None:
        raise _refused(job, NO_SECRET, NAME_IT)
    path = workspace.root / PUBLIC / folder_name(secret, job, book.last.number)
    if not path.is_dir():
        raise _refused(job, NOT_THERE, "Name the folder, where it is elsewhere.")
    if not _is_report(path):
        raise _refused(job, CLOSED if _is_gone(workspace, path) else NO_REPORT)
    return Found((path,), job=job)


def _names(path: Path) -> list[Path]:
    try:
        entries = sorted(path.iterdir())
    except OSError as error:
        raise _refused(str(path), f"It cannot be read: {error.strerror}.") from None
    return [
        one
        for one in entries
        if NAME.fullmatch(one.name) and one.is_dir() and not one.is_symlink()
    ]


def _is_report(path: Path) -> bool:
    return any(os.path.lexists(path / name) for name in OF_A_REPORT)


def _is_gone(workspace: Workspace, path: Path) -> bool:
    """Say whether a folder holds the page of a closed link, and nothing else."""
    page = path / "index.html"
    content = _content(page)
    if content is None or [one.name for one in path.iterdir()] != [page.name]:
        return False
    try:
        firm = load_firm(workspace)
    except Refused:
        return False
    pages = (gone_page(one, firm.name, firm.phone) for one in REASONS)
    return content in [one.encode("utf-8") for one in pages]


def _copies(shared: Path) -> Iterator[str]:
    for path in sorted(shared.iterdir()):
        called = f"{SHARED}/{path.name}"
        if path.is_symlink() or not path.is_dir() or not COPY_NAME.fullmatch(path.name):
            yield STRANGE.format(shown(called))
            continue
        with TemporaryDirectory() as folder:
            copy = Path(folder) / "copy"
            told = copied(path, copy, f"{called}/")
            yield from told
            if not told and copy_name(copy) != path.name:
                yield NOT_ITS_NAME.format(called)


def _content(path: Path) -> bytes | None:
    """Read a small file of ours; None where there is none that can be read."""
    try:
        if path.is_symlink() or not path.is_file() or path.stat().st_size > LARGEST:
            return None
        return path.read_bytes()
    except OSError:
        return None


def _refused(typed: str, message: str, hint: str = "") -> Refused:
    return Refused([Problem(one_line(typed), 0, "", message, hint)])
