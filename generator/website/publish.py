"""All or nothing: each published client's folder is replaced whole, or stays as it was.

Everything new is made ready beside the published folder (``stage.py``). A journal of
the steps is written whole: this is the moment of publication. Then each new folder
changes places with the old one (``journal.py``). A run killed before that moment has
changed nothing; one killed after it is brought to its end by the next, before that does
anything else.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from generator.problems import Problem, Refused
from generator.website import journal
from generator.website.changes import STRAYS, Changes, Edition, changes
from generator.website.disk import settle, sync
from generator.website.links import NAME
from generator.website.root_files import MARKER, root_files
from generator.website.shared import SHARED
from generator.website.stage import NEW, make_ready, remove

try:
    import fcntl
except ImportError:  # Windows: two builds at once are not kept apart there
    fcntl = None  # type: ignore[assignment]  # the name is asked for below

__all__ = ["Edition", "alone", "clients", "publish", "recover"]


def publish(edition: Edition, public: Path) -> None:
    """Put freshly built sites into the published folder, all of them or none.

    Parameters
    ----------
    edition : Edition
        What is new. Clients whom it does not name are not touched.
    public : Path
        The published folder.

    Raises
    ------
    Refused
        If the folder holds anything that is not ours, if another build is publishing,
        or if the disk does not take the new version. The folder is then untouched. Or
        if the system refuses a step after the new version was complete; the next start
        then does what is left.
    """
    if not all(NAME.fullmatch(name) for name in edition.names()):
        raise ValueError("a site without a folder name from links.folder_name")
    public = public.resolve()
    with _told_plainly(public), _locked(public):
        _recover(public)
        different = changes(edition, public, _clients(public))
        if not different:
            return
        try:
            _commit(different, public)
        except BaseException:
            with suppress(OSError):  # what stays behind goes at the next start
                remove(_stage(public))
            raise
        _recover(public)


def recover(public: Path) -> None:
    """Bring to its end what a killed run began; ``publish`` does so by itself.

    Parameters
    ----------
    public : Path
        The published folder. Where the killed run had all of the new version ready, it
        is the new version afterwards; otherwise it is as it was before that run.

    Raises
    ------
    Refused
        If the system refuses a step, or another build is publishing.
    """
    public = public.resolve()
    with _told_plainly(public), _locked(public):
        _recover(public)


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Keep a second build away from a folder; tell plainly what the disk refuses."""
    with _told_plainly(folder), _locked(folder):
        yield


def clients(public: Path) -> set[str]:
    """Folder names of the clients now published."""
    return _clients(public.resolve())


def _commit(different: Changes, public: Path) -> None:
    """Make everything ready, and then publish it at once: first folder or journal."""
    stage = _stage(public)
    make_ready(stage, different)
    steps = journal.journal_of(stage, different)
    settle(stage)
    if (public / MARKER).exists():
        journal.write(steps, stage)
    else:
        _put_first(stage / NEW, public)


def _put_first(new: Path, public: Path) -> None:
    """Let the first version take the place of no folder, or of an empty one."""
    if public.exists():
        for entry in public.iterdir():  # nothing but strays
            entry.unlink()
        if os.name != "posix":  # elsewhere a folder replaces an empty one in one step
            public.rmdir()
    new.rename(public)
    with suppress(OSError):  # it is published; only a power cut could still undo it
        sync(public.parent)


def _recover(public: Path) -> None:
    """Follow a journal to its end; remove the stage."""
    stage = _stage(public)
    steps = journal.read(stage)
    if steps is not None and (public / MARKER).exists():  # else there is no such folder
        try:
            journal.follow(steps, stage, public)
        except OSError as error:
            raise _refusal(
                public,
                f"The new version is ready, but not all of it could be put here yet: "
                f"{error.strerror}. Each client's pages are whole, old or new.",
                "See to the rights of the folder, then build again: what is left is "
                "done first.",
            ) from error
    with suppress(OSError):  # what stays behind goes at the next start
        remove(stage)


def _stage(public: Path) -> Path:
    return _beside(public, "next")


def _beside(public: Path, what: str) -> Path:
    return public.with_name(f".{public.name}.{what}")


def _clients(public: Path) -> set[str]:
    """Folder names of the clients now published; refuses a folder that is not ours.

    One listing of the folder; the system tells the kind of each entry along with it.
    """
    if not public.exists():
        return set()
    if not public.is_dir():
        raise _refusal(public, "This is a file, not a folder.")
    with os.scandir(public) as listing:
        folders = {entry.name: _is_folder(entry) for entry in listing}
    named = {name for name in folders if NAME.fullmatch(name)}
    ours = dict.fromkeys((*root_files(), *STRAYS), False)
    ours |= dict.fromkeys((*named, SHARED), True)
    strangers = sorted(
        name
        for name, is_folder in folders.items()
        if name not in ours or is_folder is not ours[name]
    )
    if MARKER not in folders:
        strangers = sorted(set(folders) - STRAYS)
    if strangers:
        raise _refusal(
            public,
            f'This folder holds "{strangers[0]}", which onlot did not put there, so '
            "nothing in it was touched.",
            "Name a new or empty folder to publish into.",
        )
    return named


def _is_folder(entry: os.DirEntry[str]) -> bool | None:
    """Tell a folder from a file; None for a link to somewhere else."""
    return None if entry.is_symlink() else entry.is_dir(follow_symlinks=False)


@contextmanager
def _locked(public: Path) -> Iterator[None]:
    """Keep a second build out for as long as this one is publishing."""
    if public == public.parent:
        raise _refusal(public, "This is the root of a disk.", "Name a folder in it.")
    public.parent.mkdir(parents=True, exist_ok=True)
    with _beside(public, "lock").open("ab") as file:
        if fcntl is not None:
            try:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                raise _refusal(
                    public,
                    "Another build is at work on this folder.",
                    "Wait until it is done, then start again.",
                ) from None
        yield


@contextmanager
def _told_plainly(public: Path) -> Iterator[None]:
    """Tell what the disk or its rights refused as a problem."""
    try:
        yield
    except OSError as error:
        raise _refusal(
            public,
            f"The new version could not be put here: {error.strerror}. What was "
            "published stays published.",
            "See to the free space and the rights of the folder around it.",
        ) from error


def _refusal(place: Path, message: str, hint: str = "") -> Refused:
    return Refused([Problem(str(place), 0, "", message, hint)])
