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
from dataclasses import dataclass, field
from pathlib import Path

from generator.problems import Problem, Refused
from generator.website.exchange import exchange
from generator.website.links import NAME
from generator.website.root_files import MARKER, root_files
from generator.website.shared import ASSETS, SHARED, led_page, share_assets

try:
    import fcntl
except ImportError:  # Windows: two builds at once are not kept apart there
    fcntl = None  # type: ignore[assignment]  # the name is asked for below

STRAYS = {".DS_Store", "Thumbs.db"}  # what file browsers drop; left behind


@dataclass(frozen=True)
class Edition:
    """What a build changes in the published folder.

    Parameters
    ----------
    sites : Mapping[str, Path]
        The built site of each folder name, from ``links.folder_name``.
    gone : Mapping[str, str]
        The page that stands in place of a site, by folder name.
    removed : Collection[str]
        Folder names that must not be there any longer.
    """

    sites: Mapping[str, Path] = field(default_factory=dict)
    gone: Mapping[str, str] = field(default_factory=dict)
    removed: Collection[str] = ()

    def names(self) -> set[str]:
        """Every folder name that this edition speaks of."""
        return {*self.sites, *self.gone, *self.removed}


def publish(edition: Edition, public: Path) -> None:
    """Put freshly built sites into the published folder, all of them or none.

    Parameters
    ----------
    edition : Edition
        What is new. Clients whom it does not name stay as they are.
    public : Path
        The published folder.

    Raises
    ------
    Refused
        If the folder holds anything that is not ours, if another build is publishing,
        or if the disk does not take the new version. The folder is then untouched.
    """
    if not all(NAME.fullmatch(name) for name in edition.names()):
        raise ValueError("a site without a folder name from links.folder_name")
    public = public.resolve()
    with _told_plainly(public), _locked(public):
        _recover(public)
        kept = _clients(public) - edition.names()
        stage = _beside(public, "next")
        try:
            _fill(stage, edition, {name: public / name for name in kept})
            _settle(stage)
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
    ours = {*root_files(), *STRAYS, SHARED}
    strangers = [
        name
        for name, entry in sorted(entries.items())
        if not (name in ours or NAME.fullmatch(name))
        or entry.is_symlink()
        or entry.is_dir() != (name == SHARED or bool(NAME.fullmatch(name)))
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


def _fill(stage: Path, edition: Edition, kept: Mapping[str, Path]) -> None:
    """Make a complete version: our own files, the new sites, the clients that stay."""
    stage.mkdir()
    for name, text in root_files().items():  # the marker first: the folder is ours
        (stage / name).write_bytes(text.encode("utf-8"))
    for name, folder in sorted(kept.items()):
        _copy(folder, stage / name, link=True)
        present = folder.parent / SHARED  # what the pages of those who stay lead to
        if present.is_dir() and not (stage / SHARED).exists():
            _copy(present, stage / SHARED, link=True)
    for name, site in sorted(edition.sites.items()):
        _copy_led(site, stage / name, stage / SHARED)
    for name, page in sorted(edition.gone.items()):
        (stage / name).mkdir()
        (stage / name / "index.html").write_bytes(page.encode("utf-8"))


def _copy_led(site: Path, target: Path, shared: Path) -> None:
    """Copy a new site without its theme files, which all clients share."""
    own = site / ASSETS
    _copy(site, target, link=False, leave=own)
    if own.is_dir():
        copy = share_assets(site, shared)
        for page in target.glob("*.html"):
            page.write_bytes(led_page(page, copy))


def _copy(source: Path, target: Path, *, link: bool, leave: Path | None = None) -> None:
    """Copy a folder, or let both share its files where the file system can."""
    target.mkdir()
    for entry in sorted(source.iterdir()):
        copy = target / entry.name
        if entry.is_symlink():
            raise _refusal(entry, "This is a link to somewhere else, not a file.")
        if entry == leave:
            continue
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
