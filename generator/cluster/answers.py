"""What came back of a job is written to the disk, and nothing beside its own folder."""

from __future__ import annotations

import shutil
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from generator.cluster.themes import Themes
from generator.problems import Problem, Refused
from generator.website.photo_cache import keep_entries
from generator.website.photo_uses import KEY, keep_uses
from generator.website.shared import ASSETS

LEADS_OUT = "The worker {worker} gave back files that no site of {job} can hold."
NOT_OURS = "See who runs on this cluster: it gave back what onlot never makes."


def take(folder: Path, job: str, answer: Mapping[str, Any], themes: Themes) -> Path:
    """Write the site of a job from what a worker gave back.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder, which takes ``sites/JOB`` and the prepared photographs.
    job : str
        Name of the job.
    answer : mapping
        What the worker gave back: ``generator.cluster.work.Answer``.
    themes : Themes
        The theme's files that are here; takes new ones.

    Returns
    -------
    pathlib.Path
        The folder of the site.

    Raises
    ------
    Refused
        Where something in it leads out of the folder; nothing is written then.
    """
    files, theme, assets = answer["files"], answer["theme"], answer.get("assets")
    fits = isinstance(theme, str) and _fits(files)
    fits = fits and not any(_begins(path, ASSETS) for path in files)
    if assets is not None:
        fits = fits and _fits(assets) and themes.keep(theme, assets)
    if not fits or theme not in themes.known:
        message = LEADS_OUT.format(worker=answer.get("worker", ""), job=job)
        raise Refused([Problem("--cluster", 0, "", message, NOT_OURS)])
    site = folder / "sites" / job
    _written(site, files)
    themes.lay(theme, site / ASSETS)
    keep_entries(folder, answer["photographs"])
    keep_uses(folder, job, [key for key in answer["used"] if KEY.fullmatch(key)])
    return site


def _written(site: Path, files: Mapping[str, bytes]) -> None:
    if site.is_symlink():
        site.unlink()
    elif site.exists():
        shutil.rmtree(site)
    site.mkdir(parents=True)
    for path, content in files.items():
        file = site / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)


def _fits(files: object) -> bool:
    """Tell whether all of it is files with paths that stay below their folder."""
    return isinstance(files, dict) and all(
        isinstance(path, str) and isinstance(content, bytes) and _stays(path)
        for path, content in files.items()
    )


def _stays(path: str) -> bool:
    plain = not set(path) & set("\\:\0")
    return plain and all(part not in ("", ".", "..") for part in path.split("/"))


def _begins(path: str, folder: str) -> bool:
    return path.split("/")[0].casefold() == folder  # some disks take both as one
