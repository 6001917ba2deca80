"""What a published site is made from: a job is built again only where that changed.

Everything that goes into it counts by its content, never by its time.
"""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Mapping
from functools import lru_cache
from importlib import metadata
from pathlib import Path
from platform import python_version

from generator.record.firm_file import FIRM_FILE
from generator.record.link_book import LINKS_FILE
from generator.record.load import Workspace
from generator.shipped import shipped
from generator.stamp_file import Stamp
from generator.trail.revision import Revision
from generator.website.as_published import holds, looks
from generator.website.look import FIRM_LOOK
from generator.website.photo_uses import drop_unused
from generator.website.shared import SHARED, leads_to

HOME = "index.html"
PACKAGE = Path(__file__).parent
NOT_CODE = {".pyc"}
OF_FILES = (
    "the job file", "its folder of photographs", "the firm file",
    "the firm's own codes", "the look",
)  # fmt: skip
BUILD_FOLDERS = ("build", "office/preview")  # where prepared photographs are kept
LIBRARIES = (
    "jinja2", "markdown", "markdown-it-py", "matplotlib", "mkdocs", "mkdocs-material",
    "numpy", "pillow", "pillow-heif", "pymdown-extensions", "pyyaml", "shapely",
    "uncertainties",
)  # fmt: skip
LINK, ONLOT, THE_LIBRARIES = "its private link", "onlot", "the libraries"


def made_from_given(revision: Revision, name: str) -> dict[str, str]:
    """Digest what a report given earlier depends on: a commit never changes.

    Parameters
    ----------
    revision : Revision
        The revision that gave it.
    name : str
        Folder name behind its private link, which paper prints.

    Returns
    -------
    dict of str to str
        SHA-256 by the name of the input.
    """
    return {
        "the report given": _of_text([revision.commit, revision.path]),
        **_always(name),
    }


def made_from(
    workspace: Workspace, job: str, name: str, commit: str = ""
) -> dict[str, str]:
    """Digest everything that the site of a job depends on, kind by kind.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    name : str
        Folder name behind its private link, which paper prints.
    commit : str, optional
        The commit that holds it, or why there is none.

    Returns
    -------
    dict of str to str
        SHA-256 by the name of the input.
    """
    inspections = workspace.inspections
    look = workspace.root / FIRM_LOOK
    digests = (
        _of_files([workspace.job_file(job)]),
        _of_folder(workspace.photo_folder(job), LINKS_FILE),
        _of_files([inspections / FIRM_FILE, *_pictures(inspections)]),
        _of_folder(inspections / "codes"),
        _of_files([look]),
    )
    return {**dict(zip(OF_FILES, digests, strict=True)), **of_commit(commit, name)}


def of_commit(commit: str, name: str) -> dict[str, str]:
    """Digest what tells all inputs of a job, where a commit holds them as they stand.

    Parameters
    ----------
    commit : str
        The commit.
    name : str
        Folder name behind the private link, which paper prints.

    Returns
    -------
    dict of str to str
        SHA-256 by the name of the input.
    """
    return {"its place in the history": _of_text([commit]), **_always(name)}


def _always(name: str) -> dict[str, str]:
    return {LINK: _of_text([name]), **programs()}


def programs() -> dict[str, str]:
    """Digest the programs that every site is made by."""
    return {ONLOT: of_onlot(), THE_LIBRARIES: _of_libraries()}


def _pictures(inspections: Path) -> list[Path]:
    """The firm's logo may be any picture beside the job files."""
    return sorted(one for one in inspections.glob("*.[jJpP][pPnN]*") if one.is_file())


def _of_text(texts: Iterable[str]) -> str:
    return hashlib.sha256("\n".join(texts).encode("utf-8")).hexdigest()


def _of_files(files: Iterable[Path], top: Path | None = None) -> str:
    """Digest files by name and content; one that is not there counts as well."""
    told = []
    for file in files:
        called = file.relative_to(top).as_posix() if top else file.name
        content = file.read_bytes() if file.is_file() else b""
        told.append(f"{called} {hashlib.sha256(content).hexdigest()}")
    return _of_text(told)


def _of_folder(folder: Path, without: str = "") -> str:
    """Digest a folder; the links of a job tell on no page and are left out."""
    found = (one for one in folder.rglob("*") if one.is_file())
    files = sorted(one for one in found if one.name != without)
    return _of_files((one for one in files if one.suffix not in NOT_CODE), folder)


@lru_cache
def of_onlot() -> str:
    """Digest the code of onlot and what ships beside it."""
    beside = [shipped("mkdocs.yml"), *sorted(shipped("schemas").glob("*.json"))]
    return _of_text([_of_folder(PACKAGE), _of_files(beside)])


@lru_cache
def _of_libraries() -> str:
    known = (f"{one} {metadata.version(one)}" for one in LIBRARIES)
    return _of_text([f"python {python_version()}", *known])


def stamp_of(job: str, sources: Mapping[str, str], site: Path) -> Stamp:
    """Tell of a site that was just published what is written down of it.

    Parameters
    ----------
    job : str
        Name of the job.
    sources : Mapping[str, str]
        What it was made from.
    site : pathlib.Path
        Its published folder.

    Returns
    -------
    Stamp
        What ``generator.stale`` holds it against at the next build.
    """
    shared = leads_to((site / HOME).read_text(encoding="utf-8"))
    theme = looks(site.parent / SHARED / shared)
    return Stamp(job, dict(sources), site.name, shared, looks(site), holds(site), theme)


def drop_photographs(workspace: Workspace, built: Collection[str]) -> None:
    """Drop the prepared photographs that no job uses, once all jobs are published.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    built : collection of str
        The jobs that were built or had not changed; with one left out, nothing is
        dropped.
    """
    jobs = workspace.jobs()
    if set(jobs) <= set(built):
        for folder in BUILD_FOLDERS:
            drop_unused(workspace.root / folder, jobs)
