"""What a worker does: it lays a parcel out, builds it, and gives back what came of it.

Nothing of a job stays behind: the folder is taken away, whatever happened. It lies in
the worker's own folder, which Dask takes away after a worker that was killed.
"""

from __future__ import annotations

import pickle
import traceback
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock
from typing import TypedDict

from generator.cluster.parcel import Parcel
from generator.cluster.versions import unlike
from generator.problems import Problem, Refused
from generator.seen import worked_at
from generator.site import build_site
from generator.trail.checkout import write_out
from generator.website.photo_cache import keep_entries, kept_entries
from generator.website.photo_uses import uses
from generator.website.shared import ASSETS, copy_name
from generator.workers import settle

NAME = "generator.cluster.work:NAME"  # of this line, which a worker is asked for
_ONE_AT_A_TIME = Lock()  # the site builder's log and the figures belong to the process


class Answer(TypedDict, total=False):
    """What a worker gives back; plain, so that one of another version can say so."""

    worker: str
    unlike: list[str]  # of the worker, so that nothing was built
    cannot: str  # what its system refused
    failed: str  # where the program broke off
    problems: tuple[Problem, ...]  # of the job
    files: dict[str, bytes]  # the site without the theme's files
    theme: str  # name of these
    assets: dict[str, bytes]  # the same, where they are not known yet
    photographs: dict[str, bytes]  # prepared ones that did not come with the parcel
    used: list[str]  # names of all that the job uses


def work(versions: Mapping[str, str], packed: bytes) -> Answer:
    """Build one job on a worker.

    Parameters
    ----------
    versions : mapping of str to str
        What the asker would build with.
    packed : bytes
        A pickled ``Parcel``; it is not opened by another version.

    Returns
    -------
    Answer
        What came of it.
    """
    worker, scratch = _worker()
    if different := unlike(versions):
        return {"worker": worker, "unlike": different}
    try:
        with _ONE_AT_A_TIME:
            settle()
            return {"worker": worker, **made(pickle.loads(packed), scratch)}
    except OSError as error:
        return {"worker": worker, "cannot": error.strerror or str(error)}
    except Exception:
        return {"worker": worker, "failed": traceback.format_exc()}


def made(parcel: Parcel, scratch: str | None = None) -> Answer:
    """Build a parcel in a folder of its own.

    Parameters
    ----------
    parcel : Parcel
        The job.
    scratch : str, optional
        Where that folder is made; among the system's temporary ones when left out.

    Returns
    -------
    Answer
        The site, or the problems of the job.
    """
    with TemporaryDirectory(prefix="onlot-", dir=scratch) as place:
        top = Path(place).resolve()
        workspace = write_out(parcel.files, top / "firm")
        folder = top / "build"
        keep_entries(folder, parcel.photographs)
        try:
            worked = worked_at(workspace, parcel.job, parcel.commit)
            site = build_site(workspace, worked, folder, parcel.name, parcel.origin)
        except Refused as refused:
            return {"problems": refused.problems}
        return _answer(parcel, site, folder)


def _answer(parcel: Parcel, site: Path, folder: Path) -> Answer:
    theme = copy_name(site / ASSETS)
    found = _files(site)
    leading = f"{ASSETS}/"
    kept = kept_entries(folder, parcel.job)
    answer: Answer = {
        "files": {p: data for p, data in found.items() if not p.startswith(leading)},
        "theme": theme,
        "photographs": {
            name: data for name, data in kept.items() if name not in parcel.photographs
        },
        "used": uses(folder, parcel.job),
    }
    if theme not in parcel.themes:
        answer["assets"] = _files(site / ASSETS)
    return answer


def _files(folder: Path) -> dict[str, bytes]:
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def _worker() -> tuple[str, str | None]:
    """Tell the address of this worker, and its own folder."""
    from distributed import get_worker  # the extra, which only a cluster needs

    try:
        worker = get_worker()
    except ValueError:  # called outside of one
        return "here", None
    return worker.address, worker.local_directory
