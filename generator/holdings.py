"""Every file and folder that belongs to one job, as it lies in the firm's folder.

It only looks: nothing is written, and no secret is made.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from generator.faults import FOLDER as FAULTS
from generator.record.link_book import LINKS_FILE
from generator.record.load import Workspace
from generator.stamp_file import FOLDER as STAMPS
from generator.stamp_file import read_stamp
from generator.website import links
from generator.website.intake_hook import TELLING
from generator.website.photo_uses import FOLDER as PHOTOS
from generator.website.photo_uses import USED
from generator.website.sealed.keys import keys_of
from generator.website.sealed.shell import ENDING

BUILD, PUBLIC = "build", "public"  # as a build without --out names them
OFFICE = "office"  # as the preview names it, which loads too much for a look
LEFT = {
    f"{BUILD}/trees/{{job}}": "its page tree",
    f"{BUILD}/sites/{{job}}": "its built site",
    f"{BUILD}/given/{{job}}": "what the report given last was made from",
    f"{BUILD}/{FAULTS}/{{job}}.txt": "what onlot broke off at",
    f"{BUILD}/looks/{{job}}": "the colors of its site",
    f"{BUILD}/{STAMPS}/{{job}}.json": "what its site was made from",
    f"{BUILD}/{PHOTOS}/{USED}/{{job}}.txt": "which prepared photographs it uses",
    f"{OFFICE}/preview/trees/{{job}}": "the page tree of its preview",
    f"{OFFICE}/preview/sites/{{job}}": "its preview",
    f"{OFFICE}/preview/given/{{job}}": "what its preview was made from",
    f"{OFFICE}/preview/looks/{{job}}": "the colors of its preview",
    f"{OFFICE}/preview/{PHOTOS}/{USED}/{{job}}.txt": "which its preview uses",
    f"{OFFICE}/handover/{{job}}.txt": "its message for the client",
    f"{OFFICE}/handover/{{job}}.svg": "the QR picture of its link",
    f"{OFFICE}/{{job}}.pdf": "its report on paper",
}  # where the other commands put them


@dataclass(frozen=True)
class Place:
    """A file or a folder, and how much is in it.

    Parameters
    ----------
    path : str
        Its place in the firm's folder.
    what : str
        What it is, in plain words.
    photographs, others : int
        Number of files that are pictures or films, and of the other files. [-]
    size : int
        What all of them hold. [byte]
    is_folder, is_link, unread : bool
        It is a folder; it is a link, and what that leads to is not counted; a part of
        it cannot be looked into.
    """

    path: str
    what: str
    photographs: int = 0
    others: int = 0
    size: int = 0
    is_folder: bool = False
    is_link: bool = False
    unread: bool = False


def own_files(workspace: Workspace, job: str) -> tuple[Place, ...]:
    """Measure the job file and its folder, those of them that are there."""
    file, folder = workspace.job_file(job), workspace.photo_folder(job)
    own = {workspace.shown(file): "the job file", workspace.shown(folder): "its folder"}
    return tuple(_there(workspace.root, own))


def links_file(workspace: Workspace, job: str) -> str:
    """Name the file of links in the folder of a job; empty without one."""
    folder = workspace.photo_folder(job)
    if folder.is_symlink() or not os.path.lexists(folder / LINKS_FILE):
        return ""
    return workspace.shown(folder / LINKS_FILE)


def made_files(
    root: Path, job: str, states: Sequence[str], secret: bytes | None
) -> tuple[Place, ...]:
    """Measure what onlot made of a job, where the commands put it by themselves.

    Parameters
    ----------
    root : pathlib.Path
        The firm's folder.
    job : str
        Name of the job.
    states : sequence of str
        What each link does, from the first on; empty where that is not known.
    secret : bytes or None
        The firm's secret. Without it, only the last build tells a published folder.

    Returns
    -------
    tuple of Place
        Those that are there.
    """
    named = _published_last(root, job)
    if secret:
        named |= _named(job, states, secret)
    left = {path.format(job=job): what for path, what in LEFT.items()}
    return tuple(_there(root, {**named, **left}))


def secret_if_here(root: Path) -> bytes | None:
    """Read the secret if it is here; ``links.read_secret`` would write beside it."""
    if not links.has_secret(root):
        return None
    given = os.environ.get(links.SECRET_VARIABLE, "").encode("utf-8", "surrogateescape")
    try:
        secret = (given or (root / links.SECRET_FILE).read_bytes()).strip()
    except OSError:
        return None
    return secret if len(secret) >= links.LEAST_SECRET_BYTES else None


def _published_last(root: Path, job: str) -> dict[str, str]:
    """Name the published folder that the last build wrote down."""
    stamp = read_stamp(root / BUILD, job).stamp
    if stamp is None:
        return {}
    return {f"{PUBLIC}/{stamp.name}": "its report as it was published last"}


def _named(job: str, states: Sequence[str], secret: bytes) -> dict[str, str]:
    """Name what is called by the secret, for every link that was ever given."""
    places = {}
    for number, state in enumerate(states, 1):
        name = links.folder_name(secret, job, number)
        places[f"{PUBLIC}/{name}"] = f"the published folder of link {number}, {state}"
        sealed = f"{OFFICE}/sealed/{keys_of(secret, job, number).name}{ENDING}"
        places[sealed] = f"its report sealed for link {number}"
    return places


def _there(root: Path, places: Mapping[str, str]) -> Iterator[Place]:
    """Measure those places that are there."""
    for path, what in places.items():
        if os.path.lexists(root / path):
            yield _measured(root / path, path, what)


def _measured(place: Path, path: str, what: str) -> Place:
    if place.is_symlink():
        return Place(path, what, is_link=True)
    files = list(_files(place))
    read = [one for one in files if one is not None]
    pictures = sum(one.suffix.lower() in TELLING for one in read)
    return Place(
        path,
        what,
        photographs=pictures,
        others=len(read) - pictures,
        size=sum(one.lstat().st_size for one in read),
        is_folder=place.is_dir(),
        unread=len(read) < len(files),
    )


def _files(place: Path) -> Iterator[Path | None]:
    """List the files of a folder and those below it; None for what cannot be read."""
    if place.is_symlink() or not place.is_dir():
        yield place
        return
    try:
        entries = sorted(place.iterdir())
    except OSError:
        yield None
        return
    for entry in entries:
        yield from _files(entry)
