"""What the log says of every job, kept beside the build so that it is read once.

What was kept counts only where its digest is right and its last commit lies behind the
present one; then only the commits since are read.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from generator.problems import Refused
from generator.record.firm_file import FIRM_FILE
from generator.record.link_book import LINKS_FILE
from generator.trail.git import Repository
from generator.trail.keep import keep, read_kept
from generator.trail.log import (
    CHANGED,
    MOVED,
    RENAMED,
    Commit,
    Entry,
    Step,
    commits,
    entries,
)
from generator.trail.revision import ALL_JOBS, Index, Revision

KEPT = "trail.json"
KEEP_FROM = 500  # commits and versions; fewer are read in no time; our choice
LOOKED_AT = ("inspections", "mkdocs.yml")
_JOB_FILE = re.compile(r"inspections/([A-Za-z0-9][^/]*)\.yaml")
_PICTURE = re.compile(r"inspections/[^/]+\.(?:jpe?g|png)", re.IGNORECASE)
_IN_FOLDER = re.compile(r"inspections/([^/]+)/(.*)")  # git names some folders whole


def index_of(repository: Repository, folder: Path) -> Index:
    """Read the log, or only what came since it was read last.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    folder : pathlib.Path
        Where what was read is kept.

    Returns
    -------
    Index
        Every revision of every job file up to the present commit.
    """
    kept = read_kept(folder / KEPT)
    if kept.head == repository.head:
        return kept
    index = _longer(repository, kept) if kept.head else None
    if index is None:
        index = _read(repository, Index(spoilt=kept.spoilt), commits(repository))
    if index.spoilt and not _is_long(index):
        with suppress(OSError):  # so few are not kept
            (folder / KEPT).unlink()
    keep_index(folder, index)
    return index


def keep_index(folder: Path, index: Index) -> None:
    """Keep what was read of a long log, or of many versions."""
    if _is_long(index):
        with suppress(OSError):  # a disk that takes nothing costs time alone
            keep(folder / KEPT, index)


def _is_long(index: Index) -> bool:
    return index.count + len(index.reports) >= KEEP_FROM


def _longer(repository: Repository, kept: Index) -> Index | None:
    """Add the commits since; None where what was kept is of another history."""
    try:
        new = commits(repository, after=kept.head)
    except Refused:
        return None
    parents = {one.name: one.parents for one in new}
    at = repository.head
    while at in parents:
        at = next(iter(parents[at]), "")
    return _read(repository, kept, new) if at == kept.head else None


def _read(repository: Repository, index: Index, new: Sequence[Commit]) -> Index:
    """Put newer commits on top of an index."""
    branch = set(_branch(repository.head, new))
    place = index.count + len(new)
    fresh: dict[str, list[Revision]] = {}
    for entry in entries(repository, new, LOOKED_AT):
        place -= 1
        revised = entry.revised()
        for path, steps in revised.items():
            if _is_job(path):
                one = _revision(entry, place, steps)
                for left in {path, *_left(one, revised)}:
                    told = one if left == path else _moved(one, left)
                    fresh.setdefault(left, []).append(told)
        if entry.commit.name in branch:
            for group in _groups(entry):
                before = index.touched.get(group, (-1, ""))
                index.touched[group] = max(before, (place, entry.commit.name))
    for path, revisions in fresh.items():
        index.revisions[path] = revisions + index.revisions.get(path, [])
    index.head, index.count = repository.head, index.count + len(new)
    return index


def _branch(head: str, new: Sequence[Commit]) -> Iterator[str]:
    """Name the commits of the present branch: each the first parent of the next."""
    parents = {one.name: one.parents for one in new}
    at = head
    while at in parents:
        yield at
        at = next(iter(parents[at]), "")


def _revision(entry: Entry, place: int, steps: tuple[Step, ...]) -> Revision:
    ways = {step.how for step in steps}
    how = RENAMED if RENAMED in ways else ways.pop() if len(ways) == 1 else CHANGED
    return Revision(
        commit=entry.commit.name,
        at=place,
        when=entry.commit.seconds,
        path=steps[0].path,
        how=how,
        before=tuple(step.before for step in steps),
        blob=steps[0].blobs[1],
        was=tuple(step.blobs[0] for step in steps),
    )


def _left(one: Revision, revised: Collection[str]) -> set[str]:
    """Give the names that a renamed file had before, and has no longer."""
    if one.how != RENAMED:
        return set()
    return {was for was in one.before if was not in revised and _is_job(was)}


def _moved(one: Revision, left: str) -> Revision:
    """Tell of a name that its file has left for another one."""
    nothing = "0" * len(one.blob)
    there = (one.path,) * len(one.was)
    return replace(one, path=left, how=MOVED, before=there, blob=nothing)


def _is_job(path: str) -> bool:
    found = _JOB_FILE.fullmatch(path)
    return found is not None and f"{found[1]}.yaml" != FIRM_FILE


def _groups(entry: Entry) -> set[str]:
    """Name the jobs that a commit changed; one that changed all is named empty."""
    steps = entry.against[0].values()
    named = (group_of(path) for step in steps for path in (step.path, step.before))
    return {group for group in named if group is not None}


def group_of(path: str) -> str | None:
    """Name the job that a file belongs to.

    Examples
    --------
    >>> group_of("inspections/lot-7/lid.jpg"), group_of("inspections/firm.yaml")
    ('lot-7', '')
    >>> group_of("inspections/lot-7/links.yaml")
    """
    if found := _IN_FOLDER.fullmatch(path):
        if found[1] == "codes":
            return ALL_JOBS
        return None if found[2] == LINKS_FILE else found[1]
    if _is_job(path):
        return path.removeprefix("inspections/").removesuffix(".yaml")
    for_all = (
        path == f"inspections/{FIRM_FILE}"
        or _PICTURE.fullmatch(path)
        or path == "mkdocs.yml"
    )
    return ALL_JOBS if for_all else None
