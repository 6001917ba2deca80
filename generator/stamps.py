"""What a published site was made from: a job is built again only where that changed.

Everything counts by its content, never by its time. The published files are looked at
by path, size and time, and read again where these differ from what was written down,
so that a restored cache is as good as a fresh one and a spoilt one is noticed.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import metadata
from pathlib import Path
from platform import python_version

from generator.atomic import put
from generator.record.firm_file import FIRM_FILE
from generator.record.link_book import LINKS_FILE
from generator.record.load import Workspace
from generator.shipped import shipped
from generator.trail.revision import Revision
from generator.website.look import FIRM_LOOK
from generator.website.photo_uses import drop_unused
from generator.website.shared import SHARED

FOLDER = "stamps"
PACKAGE = Path(__file__).parent
NOT_CODE = {".pyc"}
BUILD_FOLDERS = ("build", "office/preview")  # where prepared photographs are kept
LIBRARIES = (
    "jinja2", "markdown", "markdown-it-py", "matplotlib", "mkdocs", "mkdocs-material",
    "numpy", "pillow", "pillow-heif", "pymdown-extensions", "pyyaml", "shapely",
    "uncertainties",
)  # fmt: skip
LINK, ONLOT, THE_LIBRARIES = "its private link", "onlot", "the libraries"
NEVER = "it was not built here before, or what was written down of it is spoilt"
GONE = "its pages are not in the published folder"
TOUCHED = "its published pages were changed by something else"


@dataclass(frozen=True)
class Stamp:
    """What one published site was made from, and what it looked like.

    Parameters
    ----------
    made_from : Mapping[str, str]
        Digest of each kind of input, by its name in plain words.
    name : str
        Folder name of the published site.
    shared : str
        Folder name of the theme files that its pages lead to.
    looks, holds : str
        Digest of the published files by path, size and time; and by content.
    """

    made_from: Mapping[str, str]
    name: str
    shared: str
    looks: str
    holds: str


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
    return {
        "the job file": _of_files([workspace.job_file(job)]),
        "its folder of photographs": _of_folder(
            workspace.photo_folder(job), LINKS_FILE
        ),
        "the firm file": _of_files([inspections / FIRM_FILE, *_pictures(inspections)]),
        "the firm's own codes": _of_folder(inspections / "codes"),
        "the look": _of_files([look]),
        **of_commit(commit, name),
    }


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


def stamp_of(sources: Mapping[str, str], public: Path, name: str, shared: str) -> Stamp:
    """Write down a site that was just published."""
    site = public / name
    return Stamp(dict(sources), name, shared, _looks(site), _of_folder(site))


def why(stamp: Stamp | None, sources: Mapping[str, str], public: Path) -> list[str]:
    """Say why a job must be built; nothing where its published site still stands.

    Parameters
    ----------
    stamp : Stamp or None
        What was written down when it was published last.
    sources : Mapping[str, str]
        What it would be made from now.
    public : Path
        The published folder.

    Returns
    -------
    list of str
        Reasons in plain words.
    """
    if stamp is None:
        return [NEVER]
    changed = [
        kind for kind, digest in sources.items() if stamp.made_from.get(kind) != digest
    ]
    if changed:
        return [f"{kind} changed" for kind in changed]
    site = public / stamp.name
    if not site.is_dir() or not (public / SHARED / stamp.shared).is_dir():
        return [GONE]
    if _looks(site) != stamp.looks and _of_folder(site) != stamp.holds:
        return [TOUCHED]
    return []


def holds_all(stamp: Stamp, public: Path) -> bool:
    """Tell by content alone whether a site is as it was published."""
    return _of_folder(public / stamp.name) == stamp.holds


def _looks(site: Path) -> str:
    """Digest a site by what a listing tells, which is quick for thousands of them."""
    return _of_text(sorted(_seen(str(site), "")))


def _seen(folder: str, inside: str) -> Iterator[str]:
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from _seen(entry.path, f"{inside}{entry.name}/")
            elif entry.is_file():
                stat = entry.stat()
                yield f"{inside}{entry.name} {stat.st_size} {stat.st_mtime_ns}"


def read_stamp(folder: Path, job: str) -> Stamp | None:
    """Read what was written down of a job; None where it cannot be trusted."""
    try:
        found = json.loads((folder / FOLDER / f"{job}.json").read_text("utf-8"))
        stamp = Stamp(**found)
    except (OSError, ValueError, TypeError):
        return None
    texts = (stamp.name, stamp.shared, stamp.looks, stamp.holds)
    sound = isinstance(stamp.made_from, dict) and all(isinstance(t, str) for t in texts)
    return stamp if sound else None


def keep_stamp(folder: Path, job: str, stamp: Stamp) -> None:
    """Write down what a job was made from, whole or not at all."""
    text = json.dumps(stamp.__dict__, indent=1) + "\n"
    put(folder / FOLDER / f"{job}.json", text.encode("utf-8"))


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
