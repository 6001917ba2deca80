"""All or nothing: the published folder is replaced whole, or stays as it was.

A complete next version is made beside the published folder, and the two change places
in one step (``exchange.py``). Where the system offers no such step, two renames follow
one another: a run killed between the two leaves no published folder, and the next run
puts the old version back before it does anything else.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from generator.problems import Problem, Refused
from generator.website.exchange import exchange
from generator.website.links import NAME

try:
    import fcntl
except ImportError:  # Windows: two builds at once are not kept apart there
    fcntl = None  # type: ignore[assignment]  # the name is asked for below

MARKER = ".onlot-published"
STRAYS = {".DS_Store", "Thumbs.db"}  # what file browsers drop; left behind
ROOT_FILES = {
    MARKER: "This folder is written by onlot. Put nothing of your own into it.\n",
    "robots.txt": "User-agent: *\nDisallow: /\n",
    "index.html": """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta name="robots" content="noindex, nofollow, noarchive">
<meta name="referrer" content="no-referrer">
<title>Private pages</title>
</head>
<body>
<p>There is nothing to see on this page. If you were given a link, please use all of
it.</p>
</body>
</html>
""",
}


def publish(
    sites: Mapping[str, Path], public: Path, *, withdrawn: Collection[str] = ()
) -> None:
    """Put freshly built sites into the published folder, all of them or none.

    Parameters
    ----------
    sites : Mapping[str, Path]
        The built site of each folder name, from ``links.folder_name``.
    public : Path
        The published folder. Clients who are not in ``sites`` stay as they are.
    withdrawn : Collection[str]
        Folder names that must not be there any longer.

    Raises
    ------
    Refused
        If the folder holds anything that is not ours, if another build is publishing,
        or if the disk does not take the new version. The folder is then untouched.
    """
    for name in (*sites, *withdrawn):
        if not NAME.fullmatch(name):
            raise ValueError("a site without a folder name from links.folder_name")
    public = public.resolve()
    with _told_plainly(public), _locked(public):
        _recover(public)
        kept = _clients(public) - set(sites) - set(withdrawn)
        stage = _beside(public, "next")
        try:
            _fill(stage, sites, {name: public / name for name in kept})
            _put_in_place(stage, public)
        finally:
            with suppress(OSError):  # what stays behind goes at the next start
                _recover(public)


def recover(public: Path) -> None:
    """Put right what a killed run left behind; ``publish`` does so by itself."""
    public = public.resolve()
    with _told_plainly(public), _locked(public):
        _recover(public)


def _recover(public: Path) -> None:
    before = _beside(public, "before")
    if (before / MARKER).exists() and not public.exists():
        before.rename(public)
    _tidy(public)


def _tidy(public: Path) -> None:
    """Remove versions that are not the published one, once there is a published one."""
    _remove(_beside(public, "next"))
    if public.exists():
        _remove(_beside(public, "before"))


def _beside(public: Path, what: str) -> Path:
    return public.with_name(f".{public.name}.{what}")


def _clients(public: Path) -> set[str]:
    """Folder names of the clients now published; refuses a folder that is not ours."""
    if not public.exists():
        return set()
    if not public.is_dir():
        raise _refusal(public, "This is a file, not a folder.")
    entries = {entry.name: entry for entry in public.iterdir()}
    strangers = [
        name
        for name, entry in sorted(entries.items())
        if not (name in ROOT_FILES or name in STRAYS or NAME.fullmatch(name))
        or entry.is_symlink()
        or entry.is_dir() != bool(NAME.fullmatch(name))
    ]
    if MARKER not in entries:
        strangers = sorted(set(entries) - STRAYS)
    if strangers:
        raise _refusal(
            public,
            f'This folder holds "{strangers[0]}", which onlot did not put there, so '
            "nothing in it was touched.",
            "Name a new or empty folder to publish into.",
        )
    return {name for name in entries if NAME.fullmatch(name)}


def _fill(stage: Path, sites: Mapping[str, Path], kept: Mapping[str, Path]) -> None:
    """Make a complete version: our own files, the new sites, the clients that stay."""
    stage.mkdir()
    for name, text in ROOT_FILES.items():  # the marker first: it makes the folder ours
        (stage / name).write_bytes(text.encode("utf-8"))
    for name, site in sorted(sites.items()):
        _copy(site, stage / name, link=False)
    for name, folder in sorted(kept.items()):
        _copy(folder, stage / name, link=True)
    _settle(stage)


def _copy(source: Path, target: Path, *, link: bool) -> None:
    """Copy a folder, or let both share its files where the file system can."""
    target.mkdir()
    for entry in sorted(source.iterdir()):
        copy = target / entry.name
        if entry.is_symlink():
            raise _refusal(entry, "This is a link to somewhere else, not a file.")
        if entry.is_dir():
            _copy(entry, copy, link=link)
            continue
        if link:
            with suppress(OSError):
                os.link(entry, copy)
                continue
        shutil.copyfile(entry, copy)


def _put_in_place(stage: Path, public: Path) -> None:
    """Let the new version take the place of the published one."""
    if not public.exists():
        stage.rename(public)
    elif not exchange(stage, public):
        before = _beside(public, "before")
        public.rename(before)
        try:
            stage.rename(public)
        except OSError:
            before.rename(public)
            raise
    with suppress(OSError):  # it is published; only a power cut could still undo it
        _sync(public.parent)


def _remove(folder: Path) -> None:
    """Remove a version of ours, its marker last: it is known as ours until the end."""
    if not folder.exists():
        return
    entries = sorted(folder.iterdir(), key=lambda entry: entry.name == MARKER)
    if entries and entries[-1].name != MARKER:
        raise _refusal(
            folder,
            "This folder stands where onlot prepares what it publishes, and onlot did "
            "not make it.",
            "Move it away or give it another name.",
        )
    for entry in entries:
        if entry.is_dir() and not entry.is_symlink():
            shutil.rmtree(entry)
        else:
            entry.unlink()
    folder.rmdir()


def _settle(folder: Path) -> None:
    """Have the system write all of a folder to the disk before we go on."""
    if sys.platform == "linux":
        os.sync()  # waits like fsync on every file (sync(2)), and is far quicker
        return
    for path in (folder, *folder.rglob("*"), folder.parent):
        _sync(path)


def _sync(path: Path) -> None:
    if os.name != "posix" and path.is_dir():
        return
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


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
def alone(folder: Path) -> Iterator[None]:
    """Keep a second build away from a folder; tell plainly what the disk refuses."""
    with _told_plainly(folder), _locked(folder):
        yield


def clients(public: Path) -> set[str]:
    """Folder names of the clients now published."""
    return _clients(public.resolve())


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
