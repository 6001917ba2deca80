"""Which prepared photographs each job uses: one that none uses any longer is dropped.

A list for each job, written when its site is built, so that a job that did not change
keeps its photographs without being looked at, a report given earlier included, whose
pictures may lie in the history alone. No time of a file is looked at.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from contextlib import suppress
from pathlib import Path

from generator.atomic import put

FOLDER = "photos"  # in a build folder: the prepared photographs
USED = "used"  # below it: the list of each job
SPOILT = "spoilt"  # below it: an empty file for each entry that was found spoilt
ENDING = ".txt"
KEY = re.compile(r"[0-9a-f]{64}")  # SHA-256, and the name of an entry
DRAFT = re.compile(r"\..*\.next")  # what a build that was killed leaves


def keep_uses(folder: Path, job: str, keys: Collection[str]) -> None:
    """Write down which prepared photographs a job uses, in place of what it did.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder; one that cannot be written costs time alone.
    job : str
        Name of the job.
    keys : collection of str
        Names of the entries.
    """
    file = folder / FOLDER / USED / f"{job}{ENDING}"
    text = "".join(f"{key}\n" for key in sorted(keys))
    with suppress(OSError):
        if text:
            put(file, text.encode("ascii"))
        else:
            file.unlink(missing_ok=True)


def uses(folder: Path, job: str) -> list[str]:
    """List the prepared photographs that a job used when it was last built.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder.
    job : str
        Name of the job.

    Returns
    -------
    list of str
        Names of entries; of a spoilt list, what can still be read.
    """
    return list(_listed(folder / FOLDER / USED / f"{job}{ENDING}"))


def drop_unused(folder: Path, jobs: Collection[str]) -> None:
    """Drop what no job uses; to be called once all jobs are built and published.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder.
    jobs : collection of str
        Names of all jobs that the firm has now. An entry stays while it stands in the
        list of one of them; the lists of others go.
    """
    if not (folder / FOLDER).is_dir():
        return
    lists = folder / FOLDER / USED
    stay = {f"{job}{ENDING}" for job in jobs}
    try:
        present = sorted(lists.iterdir()) if lists.exists() else []
    except OSError:  # nobody can tell what is used
        return
    used = {key for one in present if one.name in stay for key in _listed(one)}
    for one in present:
        if one.suffix == ENDING and one.name not in stay:
            _take_away(one)
    for one in [*_inside(folder / FOLDER), *present]:
        unused = KEY.fullmatch(one.name) and one.name not in used
        if unused or DRAFT.fullmatch(one.name):
            _take_away(one)


def mark_spoilt(folder: Path, key: str) -> None:
    """Note that an entry was found spoilt, whichever process found it."""
    with suppress(OSError):
        put(folder / FOLDER / SPOILT / key, b"", shared=True)


def spoilt(folder: Path) -> int:
    """Count the entries that were found spoilt since this was asked last. [-]"""
    inside = _inside(folder / FOLDER / SPOILT)
    for one in inside:
        _take_away(one)
    return sum(KEY.fullmatch(one.name) is not None for one in inside)


def _listed(file: Path) -> Iterator[str]:
    """Read one list; of a spoilt one, what can still be read."""
    if not file.is_file():  # a pipe would keep whoever opens it waiting
        return
    with suppress(OSError):
        lines = file.read_bytes().decode("ascii", "replace").splitlines()
        yield from filter(KEY.fullmatch, lines)


def _inside(folder: Path) -> list[Path]:
    try:
        return sorted(folder.iterdir())
    except OSError:
        return []


def _take_away(file: Path) -> None:
    with suppress(OSError):  # it stays, or somebody else took it
        file.unlink()
