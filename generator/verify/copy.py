"""A folder that anybody may have changed, copied so that it can be read safely."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

from generator.problems import Problem, Refused
from generator.trail.change_words import one_line

LARGEST = 50_000_000  # bytes of one file; our choice, far beyond any that onlot writes
MOST_FILES = 20_000  # of one report; our choice, as far beyond
MEGA = 1_000_000
A_LINK = "{} is a link to somewhere else, not a file. It was not followed."
NO_FILE = "{} is neither a file nor a folder, so it was not read."
TOO_LARGE = "{} is larger than {} MB, which no file of onlot is. It was not read."
NOT_READ = "{} cannot be read here: {}."
TOO_MANY = "This folder holds more than {} files, which no report does."


def copied(source: Path, target: Path, called: str = "") -> list[str]:
    """Copy a folder; what cannot be read safely becomes an empty file.

    Parameters
    ----------
    source : pathlib.Path
        A folder that may hold anything.
    target : pathlib.Path
        The copy, which is made.
    called : str, optional
        What stands before the name of each file in a sentence.

    Returns
    -------
    list of str
        One sentence for each entry that was not copied as it is.

    Raises
    ------
    Refused
        Where the folder is too large to be a report.
    """
    told: list[str] = []
    target.mkdir(parents=True)
    todo = [(source, target, called)]
    count = 0
    while todo:
        folder, copy, above = todo.pop()
        for entry in _entries(folder, above, told):
            count += 1
            if count > MOST_FILES:
                message = TOO_MANY.format(MOST_FILES)
                raise Refused([Problem(one_line(source.name), 0, "", message)])
            place = copy / entry.name
            if entry.is_dir(follow_symlinks=False):
                place.mkdir()
                todo.append((Path(entry.path), place, f"{above}{entry.name}/"))
            elif wrong := _taken(entry, place):
                told.append(wrong.format(shown(f"{above}{entry.name}")))
                place.write_bytes(b"")
    return sorted(told)


def shown(name: str) -> str:
    """Show a name without anything that a terminal would obey."""
    return "".join(sign if sign.isprintable() else "?" for sign in name)


def _entries(folder: Path, above: str, told: list[str]) -> Iterator[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as found:
            yield from sorted(found, key=lambda one: one.name)
    except OSError as error:
        name = shown(above.rstrip("/") or folder.name)
        told.append(NOT_READ.format(name, error.strerror))


def _taken(entry: os.DirEntry[str], place: Path) -> str:
    """Copy a file; say what is wrong with it where it is none that can be read."""
    try:
        if entry.is_symlink():
            return A_LINK
        if not entry.is_file(follow_symlinks=False):
            return NO_FILE
        if entry.stat(follow_symlinks=False).st_size > LARGEST:
            return TOO_LARGE.format("{}", LARGEST // MEGA)
        shutil.copyfile(entry.path, place)
    except OSError as error:
        return NOT_READ.format("{}", error.strerror)
    return ""
