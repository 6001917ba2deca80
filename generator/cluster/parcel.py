"""What one job is made from, as bytes that any worker can build it of.

A parcel holds no secret and nothing of another job. It does hold the job file, and the
folder name behind the link.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from stat import S_ISREG

from generator.pages.origin import Origin
from generator.record.firm_file import FIRM_FILE
from generator.record.load import Workspace
from generator.record.wordings import PHOTO_ENDINGS
from generator.seen import origin_of
from generator.trail.checkout import contents, held, logo_of
from generator.website.look import FIRM_LOOK
from generator.website.photo_cache import kept_entries
from generator.workers import Bench, Task

MOST_BYTES = 512 * 1024 * 1024  # of a parcel; our choice, some hundred photographs


@dataclass(frozen=True)
class Parcel:
    """One job on its way to a worker.

    Parameters
    ----------
    job : str
        Name of the job.
    name : str
        Folder name behind its private link, which paper prints.
    commit : str
        The commit that the files are of; empty where they are as they stand.
    origin : Origin
        Where the job stands in the history, which no worker has.
    files : mapping of str to bytes
        What it is made from, by path below the firm's folder.
    photographs : mapping of str to bytes
        Its prepared photographs as they are kept.
    themes : tuple of str
        Names of the theme files that need not come back.
    """

    job: str
    name: str
    commit: str
    origin: Origin
    files: Mapping[str, bytes]
    photographs: Mapping[str, bytes]
    themes: tuple[str, ...] = ()


def parcel_of(bench: Bench, task: Task, themes: Iterable[str]) -> Parcel | None:
    """Put together what a job is made from.

    Parameters
    ----------
    bench : Bench
        The firm's folder, its history, and where prepared photographs are kept.
    task : Task
        The job.
    themes : iterable of str
        Names of the theme files that are here.

    Returns
    -------
    Parcel or None
        None for a job that is better built here, since its files are links, cannot be
        read, or are too large to travel.

    Raises
    ------
    Refused
        With what was altered in the job, or with problems found in its history.
    """
    origin = origin_of(bench.workspace, bench.past, task.job, task.standing)
    files = _files(bench, task)
    if files is None or sum(map(len, files.values())) > MOST_BYTES:
        return None
    revision = task.standing.revision
    commit = revision.commit if revision else ""
    photographs = kept_entries(bench.folder, task.job)
    known = tuple(sorted(themes))
    return Parcel(task.job, task.name, commit, origin, files, photographs, known)


def _files(bench: Bench, task: Task) -> dict[str, bytes] | None:
    revision, repository = task.standing.revision, bench.past.repository
    if revision is None or repository is None:
        return _as_they_stand(bench.workspace, task.job)
    listed = held(repository, revision.commit, revision.path)
    return contents(repository, revision.path, listed, task.job)


def _as_they_stand(workspace: Workspace, job: str) -> dict[str, bytes] | None:
    """Read the files of a job; None where one is no plain file that can be read."""
    try:
        paths = list(_paths(workspace, job))
        stats = [path.lstat() for path in paths]
        if not all(S_ISREG(one.st_mode) for one in stats):
            return None
        if sum(one.st_size for one in stats) > MOST_BYTES:
            return None
        return {workspace.shown(path): path.read_bytes() for path in paths}
    except OSError:
        return None


def _paths(workspace: Workspace, job: str) -> Iterator[Path]:
    """List what a job is made from; a file that need not be there may be absent."""
    folder, firm = workspace.photo_folder(job), workspace.inspections / FIRM_FILE
    yield workspace.job_file(job)
    yield firm
    if folder.is_symlink():  # some that lead elsewhere are refused, so let it count
        yield folder
    elif folder.is_dir():
        pictures = (one for one in folder.iterdir() if _is_picture(one))
        yield from sorted(pictures)
    yield from sorted((workspace.inspections / "codes").glob("*.yaml"))
    logo = logo_of(firm.read_bytes())
    for path in (workspace.inspections / logo, workspace.root / FIRM_LOOK):
        if path != workspace.inspections and (path.exists() or path.is_symlink()):
            yield path


def _is_picture(path: Path) -> bool:
    return path.suffix.lower() in PHOTO_ENDINGS
