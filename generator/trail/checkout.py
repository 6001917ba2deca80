"""The files that one job was made from at one commit, laid out as a firm's folder."""

from __future__ import annotations

import shutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from generator.problems import Refused
from generator.record.firm_file import FIRM_FILE
from generator.record.link_book import LINKS_FILE
from generator.record.load import Workspace
from generator.record.read import parsed
from generator.trail.git import Repository

A_FILE = ("100644", "100755")  # modes of git: no links, no other repositories
FIRM = f"inspections/{FIRM_FILE}"
SHARED = (FIRM, "inspections/codes", "mkdocs.yml")


@dataclass(frozen=True)
class Held:
    """One file that a commit holds: its path below the firm's folder, its content."""

    path: str
    blob: str


def held(repository: Repository, commit: str, path: str) -> list[Held]:
    """List the files that a job was made from at a commit.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    commit : str
        The commit.
    path : str
        The job file as it was called there, below the firm's folder.

    Returns
    -------
    list of Held
        Job file, its photographs, firm file, the firm's codes, logo and look; neither
        links nor anything of another job.
    """
    folder = path.removesuffix(".yaml")
    found = _listed(repository, commit, (path, folder, *SHARED))
    if logo := _logo(repository, found):
        found += _listed(repository, commit, (f"inspections/{logo}",))
    return [one for one in found if PurePosixPath(one.path).name != LINKS_FILE]


def _listed(repository: Repository, commit: str, paths: Iterable[str]) -> list[Held]:
    words = ("ls-tree", "-r", "-z", "--full-tree", commit, "--")
    where = (repository.prefix + path for path in paths)
    lines = repository.ask(*words, *where).decode("utf-8", "surrogateescape")
    split = (line.partition("\t") for line in lines.split("\0") if line)
    return [
        Held(path.removeprefix(repository.prefix), about.split()[2])
        for about, _, path in split
        if about.split()[0] in A_FILE
    ]


def _logo(repository: Repository, found: list[Held]) -> str:
    blobs = [one.blob for one in found if one.path == FIRM]
    return "".join(map(logo_of, repository.blobs(blobs)))


def logo_of(firm: bytes) -> str:
    """Give the name of the logo that a firm file names; empty where it names none."""
    try:
        logo = parsed(firm, FIRM).data.get("logo")
    except Refused:  # the firm file is told of when the job is opened
        return ""
    return logo if isinstance(logo, str) and "/" not in logo else ""


@dataclass(frozen=True)
class Place:
    """Where the files of one job are laid out, and under which name.

    Parameters
    ----------
    folder : pathlib.Path
        The folder; what it held before is removed.
    job : str
        Name of the job, which may have been renamed since.
    pictures : bool
        False where the pictures need only be there, as empty files.
    """

    folder: Path
    job: str
    pictures: bool = True


def lay_out(
    repository: Repository, path: str, files: Iterable[Held], place: Place
) -> Workspace:
    """Write the files of a job out as a firm's folder of its own.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    path : str
        The job file as it was called in the commit.
    files : iterable of Held
        What ``held`` listed.
    place : Place
        Where they go.

    Returns
    -------
    Workspace
        The folder, with the job under its present name.
    """
    listed = list(files)
    read = [one for one in listed if place.pictures or _is_text(one.path)]
    empty = {_moved(one.path, path, place.job): b"" for one in listed}
    return write_out(empty | contents(repository, path, read, place.job), place.folder)


def contents(
    repository: Repository, path: str, files: Iterable[Held], job: str
) -> dict[str, bytes]:
    """Read the files of a job, by their paths under its present name.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    path : str
        The job file as it was called in the commit.
    files : iterable of Held
        What ``held`` listed.
    job : str
        Name of the job, which may have been renamed since.

    Returns
    -------
    dict of str to bytes
        Content by path below the firm's folder.
    """
    wanted = list(files)
    read = repository.files((one.path, one.blob) for one in wanted)
    targets = (_moved(one.path, path, job) for one in wanted)
    return dict(zip(targets, read, strict=True))


def write_out(files: Mapping[str, bytes], folder: Path) -> Workspace:
    """Write the files of a job out as a firm's folder of its own.

    Parameters
    ----------
    files : mapping of str to bytes
        Content by path below the firm's folder.
    folder : pathlib.Path
        The folder; what it held before is removed.

    Returns
    -------
    Workspace
        The folder.
    """
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "inspections").mkdir(parents=True)
    for path, content in files.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
    return Workspace(folder)


def _moved(path: str, job_file: str, job: str) -> str:
    """Give the path of a file once its job has its present name."""
    old, new = job_file.removesuffix(".yaml"), f"inspections/{job}"
    if path == f"{old}.yaml":
        return f"{new}.yaml"
    return new + path.removeprefix(old) if path.startswith(f"{old}/") else path


def _is_text(path: str) -> bool:
    return path.endswith((".yaml", ".yml"))
