"""The list of every step to the new version: once it is written, that is published.

Before, nothing has changed. After, whoever starts next follows it to its end, however
often it is broken off: each step is done once and skipped from then on.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path, PurePosixPath

from generator.problems import Problem, Refused
from generator.website.changes import Changes
from generator.website.disk import digest, sync
from generator.website.exchange import exchange
from generator.website.shared import SHARED
from generator.website.stage import JOURNAL, NEW, OLD

DEEPEST = 2  # parts of a path: a client, a file at the top, or a copy below shared


@dataclass(frozen=True)
class Journal:
    """The steps, in order.

    Parameters
    ----------
    put : Mapping[str, str]
        The digest of what is to stand at each path. The new version lies in the stage
        for as long as what lies there has this digest.
    away : Sequence[str]
        Paths to take away.
    """

    put: Mapping[str, str]
    away: Sequence[str]


def journal_of(stage: Path, changes: Changes) -> Journal:
    """List the steps: shared copies come first, since pages lead to them.

    Parameters
    ----------
    stage : pathlib.Path
        Where everything new was made ready.
    changes : Changes
        What it was made from.

    Returns
    -------
    Journal
        What ``follow`` does.
    """
    copies = (f"{SHARED}/{name}" for name in changes.copies)
    paths = (*copies, *changes.files, *changes.sites, *changes.gone)
    put = {path: digest(stage / NEW / path) for path in paths}
    return Journal(put, tuple(changes.away))


def write(journal: Journal, stage: Path) -> None:
    """Write the journal whole and see it to the disk: this publishes what is ready.

    Parameters
    ----------
    journal : Journal
        The steps.
    stage : pathlib.Path
        Where everything new was made ready, and has reached the disk.

    Raises
    ------
    OSError
        If the disk does not take it.
    """
    draft = stage / f"{JOURNAL}.next"
    draft.write_text(json.dumps(asdict(journal), indent=1) + "\n", encoding="utf-8")
    sync(draft)
    draft.replace(stage / JOURNAL)
    sync(stage)


def read(stage: Path) -> Journal | None:
    """Read the journal of a run that was broken off; None where there is none.

    Parameters
    ----------
    stage : pathlib.Path
        The stage, which need not be there.

    Returns
    -------
    Journal or None
        The steps.

    Raises
    ------
    Refused
        If the journal was damaged since it was written.
    """
    file = stage / JOURNAL
    if not file.is_file():
        return None
    try:
        found = json.loads(file.read_text(encoding="utf-8"))
        journal = Journal(dict(found["put"]), tuple(found["away"]))
        sound = all(map(_is_sound, (*journal.put, *journal.away)))
    except (ValueError, KeyError, TypeError):
        sound = False
    if not sound:
        message = "This list of what is still to be published was damaged."
        hint = f"Remove the folder {stage.name} and build all again with --all."
        raise Refused([Problem(str(file), 0, "", message, hint)])
    return journal


def follow(journal: Journal, stage: Path, public: Path) -> None:
    """Do every step that is not done yet.

    Parameters
    ----------
    journal : Journal
        The steps.
    stage : pathlib.Path
        Where everything new was made ready.
    public : pathlib.Path
        The published folder. Each client's folder is the old one or the new one, whole,
        at any moment; where the system cannot exchange two folders, it is missing for
        the moment between two renames.

    Raises
    ------
    OSError
        If a step fails. Those before it are done; all may be followed again.
    """
    for path, told in journal.put.items():
        if digest(stage / NEW / path) == told:  # else it is in place already
            _put(stage, public, path)
    for path in journal.away:
        if os.path.lexists(public / path):
            _replace(public / path, stage / OLD / path)
    for folder in (public, public / SHARED, stage / NEW, stage / OLD):
        sync(folder)


def _put(stage: Path, public: Path, path: str) -> None:
    """Let a new file or folder take the place of the one that stands there, if any."""
    new, there = stage / NEW / path, public / path
    there.parent.mkdir(exist_ok=True)
    if not there.is_dir():
        if new.is_dir() and os.path.lexists(there):  # which no folder can replace
            there.replace(stage / OLD / path)
        new.replace(there)
    elif not exchange(new, there):
        there.replace(stage / OLD / path)
        try:
            new.replace(there)
        except OSError:
            (stage / OLD / path).replace(there)
            raise


def _replace(source: Path, target: Path) -> None:
    if target.is_dir():  # made empty, to need no room on the disk now
        target.rmdir()
    source.replace(target)


def _is_sound(path: object) -> bool:
    """Tell whether a path stays inside the published folder."""
    if not isinstance(path, str):
        return False
    parts = PurePosixPath(path).parts
    return 0 < len(parts) <= DEEPEST and not {"/", ".."} & set(parts)
