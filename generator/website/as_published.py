"""A published folder as a listing tells it, and as its contents do."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from stat import S_IFMT, S_ISDIR, S_ISREG


def looks(folder: Path | str) -> str:
    """Digest a folder by what a listing tells, which is quick for thousands of them.

    Parameters
    ----------
    folder : pathlib.Path or str
        The folder.

    Returns
    -------
    str
        SHA-256 of the path, size and times of every file. The time of the last change
        to a file's entry is one of them: a program that sets the other one back, as
        copying does, cannot set this one.
    """
    return _of(_listed(str(folder), ""))


def all_looks(folders: Iterable[str]) -> dict[str, str]:
    """Digest many folders by what a listing tells; without those that have none."""
    found = {}
    for folder in folders:
        with suppress(OSError):  # told by whoever needs this one
            if is_folder(folder):
                found[folder] = looks(folder)
    return found


def is_folder(path: str) -> bool:
    """Tell whether a folder is there, and no link to one."""
    try:
        return S_ISDIR(os.lstat(path).st_mode)
    except OSError:
        return False


def holds(folder: Path) -> str:
    """Digest a folder by the content of every file; no time tells in it.

    Parameters
    ----------
    folder : pathlib.Path
        The folder. A link or a pipe in it is told as such, and never followed or read.

    Returns
    -------
    str
        SHA-256 of the path and content of every file, and of whatever else is there.
    """
    return _of(
        f"{path} {hashlib.sha256(Path(entry.path).read_bytes()).hexdigest()}"
        if entry.is_file(follow_symlinks=False)
        else f"{path} {S_IFMT(entry.stat(follow_symlinks=False).st_mode):o}"
        for path, entry in _inside(str(folder), "")
    )


def has_files_alone(folder: Path) -> bool:
    """Tell whether a folder is one, and holds nothing but files and folders."""
    return (
        folder.is_dir()
        and not folder.is_symlink()
        and all(
            entry.is_file(follow_symlinks=False) or entry.is_dir(follow_symlinks=False)
            for _, entry in _inside(str(folder), "")
        )
    )


def _listed(folder: str, above: str) -> list[str]:
    """List a folder; of thousands of files each is asked for once."""
    lines = []
    with os.scandir(folder) as entries:
        for entry in entries:
            path, told = f"{above}{entry.name}", entry.stat(follow_symlinks=False)
            if S_ISREG(told.st_mode):
                times = f"{told.st_mtime_ns} {told.st_ctime_ns}"
                lines.append(f"{path} {told.st_size} {times}")
                continue
            lines.append(f"{path} {S_IFMT(told.st_mode):o}")
            if S_ISDIR(told.st_mode):
                lines += _listed(entry.path, f"{path}/")
    return lines


def _of(lines: Iterable[str]) -> str:
    text = "\n".join(sorted(lines))
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()


def _inside(folder: str, above: str) -> Iterator[tuple[str, os.DirEntry[str]]]:
    with os.scandir(folder) as entries:
        for entry in entries:
            yield f"{above}{entry.name}", entry
            if entry.is_dir(follow_symlinks=False):
                yield from _inside(entry.path, f"{above}{entry.name}/")
