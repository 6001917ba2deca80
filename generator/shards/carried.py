"""A shard as it was carried here: read safely, and held against its manifest.

Nothing in it is followed: a link or a pipe is told and left alone.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.problems import Problem, Refused
from generator.shards.manifest import FILE, Manifest, Unreadable, manifest_of
from generator.verify.copy import shown
from generator.website.disk import digest
from generator.website.shared import SHARED, copy_name
from generator.workers import Outcome

AGAIN = "Make this shard again, and carry it as it is."
NO_SHARD = "There is no shard here: no folder with a manifest.json."
NAME_IT = "Name the folders that onlot build --shard has made."
A_LINK = "This is a link to somewhere else, not a file. It was not followed."
NO_FILE = "This is neither a file nor a folder, so it was not read."
NOT_READ = "This cannot be read here: {reason}."
EMPTY = "This folder is empty, as none of a shard is."
STRANGE = "The manifest of the shard knows nothing of this."
NO_SITE = "The site of {job} is missing."
NO_THEME = "The files of this theme are missing, and pages lead to them."
OTHER_SITE = (
    "The site of {job} is not as it was made: a file is missing, added or changed."
)
OTHER_THEME = (
    "The files of this theme are not as they were made: one is missing, added or "
    "changed."
)


@dataclass(frozen=True)
class Shard:
    """A shard whose manifest could be read."""

    folder: Path
    manifest: Manifest

    def outcomes(self) -> dict[str, Outcome]:
        """Give the site of each job of the share, or what is wrong with the job."""
        parts = self.manifest.parts.items()
        return {
            job: Refused(one.problems) if one.problems else self.folder / one.name
            for job, one in parts
        }


def carried(folder: Path, problems: list[Problem]) -> Shard | None:
    """Read a shard and look at every file of it.

    Parameters
    ----------
    folder : pathlib.Path
        The folder of the shard, as it was named.
    problems : list of Problem
        Takes everything that is wrong with it.

    Returns
    -------
    Shard or None
        None where its manifest cannot be read. Where problems were found, nothing of it
        may be used.
    """
    file = folder / FILE
    if not folder.is_dir() or not os.path.lexists(file):
        problems.append(Problem(_told(folder), 0, "", NO_SHARD, NAME_IT))
        return None
    unsafe = list(_unsafe(folder))
    problems += unsafe
    if _told(file) in {one.file for one in unsafe}:
        return None
    try:
        manifest = manifest_of(file.read_bytes())
    except Unreadable as error:
        problems.append(Problem(_told(file), 0, "", str(error), AGAIN))
        return None
    except OSError as error:
        problems.append(_not_read(file, error))
        return None
    problems += _otherwise(folder, manifest, {one.file for one in unsafe})
    return Shard(folder, manifest)


def _unsafe(folder: Path) -> Iterator[Problem]:
    """Tell of everything in a folder that is no plain file and no folder of some."""
    try:
        with os.scandir(folder) as found:
            entries = sorted(found, key=lambda one: one.name)
    except OSError as error:
        yield _not_read(folder, error)
        return
    if not entries:
        yield _wrong(folder, EMPTY)
    for entry in entries:
        path = folder / entry.name
        if entry.is_symlink():
            yield _wrong(path, A_LINK)
        elif entry.is_dir(follow_symlinks=False):
            yield from _unsafe(path)
        elif not entry.is_file(follow_symlinks=False):
            yield _wrong(path, NO_FILE)


def _otherwise(
    folder: Path, manifest: Manifest, unsafe: Collection[str]
) -> Iterator[Problem]:
    """Tell of everything that is not as the manifest says."""
    sites = {one.name: job for job, one in manifest.parts.items() if one.site}
    shared = folder / SHARED
    yield from _strange(folder, {FILE, SHARED, *sites}, unsafe)
    if _safe(shared, unsafe) and shared.is_dir():
        yield from _strange(shared, manifest.themes, unsafe)
    for name in manifest.themes:
        if _safe(shared / name, unsafe):
            told = (name, NO_THEME, OTHER_THEME)
            yield from _held(shared / name, copy_name, told)
    for name, job in sites.items():
        if _safe(folder / name, unsafe):
            missing, other = NO_SITE, OTHER_SITE.format(job=shown(job))
            told = (manifest.parts[job].site, missing.format(job=shown(job)), other)
            yield from _held(folder / name, digest, told)


def _strange(
    folder: Path, known: Collection[str], unsafe: Collection[str]
) -> Iterator[Problem]:
    for path in sorted(folder.iterdir()):
        if path.name not in known and _told(path) not in unsafe:
            yield _wrong(path, STRANGE)


def _safe(path: Path, unsafe: Collection[str]) -> bool:
    """Tell whether nothing above or below a path must be left alone."""
    told = _told(path)
    return not any(
        f"{one}/".startswith(f"{told}/") or f"{told}/".startswith(f"{one}/")
        for one in unsafe
    )


def _held(
    place: Path, by: Callable[[Path], str], told: tuple[str, str, str]
) -> Iterator[Problem]:
    """Hold a folder against its digest; tell where it is missing or another."""
    right, missing, other = told
    try:
        if not place.is_dir():
            yield _wrong(place, missing)
        elif by(place) != right:
            yield _wrong(place, other)
    except OSError as error:
        yield _not_read(place, error)


def _not_read(path: Path, error: OSError) -> Problem:
    return _wrong(path, NOT_READ.format(reason=error.strerror))


def _wrong(path: Path, message: str) -> Problem:
    return Problem(_told(path), 0, "", message, AGAIN)


def _told(path: Path) -> str:
    return shown(path.as_posix())
