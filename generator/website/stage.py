"""Everything new is made whole beside the published folder, before that one changes.

The stage holds ``new/``, laid out as the published folder is, ``old/`` for what leaves
it, and, once all is ready, the journal. The marker tells that it is ours.
"""

from __future__ import annotations

import shutil
from pathlib import Path

from generator.problems import Problem, Refused
from generator.website.changes import HOME, Changes
from generator.website.disk import sync
from generator.website.root_files import MARKER, root_files
from generator.website.shared import ASSETS, SHARED, led_page

NEW, OLD, JOURNAL = "new", "old", "journal.json"


def make_ready(stage: Path, changes: Changes) -> None:
    """Make everything new.

    Parameters
    ----------
    stage : pathlib.Path
        The folder to make; it must not be there yet.
    changes : Changes
        What is to be put in place later.

    Raises
    ------
    Refused
        If a site holds a link to somewhere else.
    OSError
        If the disk does not take it.
    """
    new = stage / NEW
    stage.mkdir()
    (stage / MARKER).write_bytes(root_files()[MARKER].encode("utf-8"))
    new.mkdir()
    (stage / OLD / SHARED).mkdir(parents=True)
    if changes.copies:
        (new / SHARED).mkdir()
    for name, theme in changes.copies.items():
        _copy(theme, new / SHARED / name)
    for name, content in changes.files.items():
        (new / name).write_bytes(content)
    for name, site in changes.sites.items():
        _copy(site, new / name, leave=site / ASSETS)
        if name in changes.led:
            for page in (new / name).glob("*.html"):
                page.write_bytes(led_page(page, changes.led[name]))
    for name, content in changes.gone.items():
        (new / name).mkdir()
        (new / name / HOME).write_bytes(content)


def _copy(source: Path, target: Path, leave: Path | None = None) -> None:
    """Copy a folder, so that a full disk is told as such and not as many faults."""
    target.mkdir()
    for entry in sorted(source.iterdir()):
        if entry.is_symlink():
            message = "This is a link to somewhere else, not a file."
            raise Refused([Problem(str(entry), 0, "", message)])
        if entry == leave:
            continue
        if entry.is_dir():
            _copy(entry, target / entry.name)
        else:
            shutil.copyfile(entry, target / entry.name)


def remove(stage: Path) -> None:
    """Remove a stage: its journal first, so that it is never followed by halves.

    Parameters
    ----------
    stage : pathlib.Path
        The stage; nothing is done where it is not there.

    Raises
    ------
    Refused
        If the folder is not ours. The marker goes last: it is ours until the end.
    """
    if not stage.exists():
        return
    entries = [entry for entry in sorted(stage.iterdir()) if entry.name != MARKER]
    if entries and not (stage / MARKER).exists():
        message = (
            "This folder stands where onlot prepares what it publishes, and onlot did "
            "not make it."
        )
        hint = "Move it away or give it another name."
        raise Refused([Problem(str(stage), 0, "", message, hint)])
    if (stage / JOURNAL).exists():
        (stage / JOURNAL).unlink()
        sync(stage)
    for entry in entries:
        if entry.is_dir() and not entry.is_symlink():
            shutil.rmtree(entry)
        else:
            entry.unlink(missing_ok=True)
    (stage / MARKER).unlink(missing_ok=True)
    stage.rmdir()
