"""Slips in what was seen through a lens: the camera's log and the photographs."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.parts import SINGLE
from generator.record.wordings import PHOTO_ENDINGS

PICTURED = (
    "datum.points",
    "places",
    "tanks",
    "absorption_areas",
    "features",
    "walkover.signs",
    "distances",
    "findings",
)


def camera_log(draft: Draft) -> Iterator[Problem]:
    """Find slips in the camera's log of each pipe run."""
    for run in draft.items("pipe_runs"):
        yield from _pipe(draft, run)
        yield from _in_order(draft, run)
        for entry in draft.items(f"{run}.log"):
            yield from _in_the_pipe(draft, run, entry)


def _pipe(draft: Draft, run: str) -> Iterator[Problem]:
    slope = draft.read(f"{run}.slope", "slope")
    if slope is not None and slope.ft_per_ft == 0:
        yield draft.tell(
            f"{run}.slope",
            "A pipe without slope carries no steady flow.",
            "Leave the slope out where it was not measured.",
        )
    yield from draft.above(
        f"{run}.head",
        f"{run}.bore",
        "The camera head ({found}) is wider than the pipe ({limit}).",
        "Check both measures.",
    )
    roughness = draft.read(f"{run}.roughness", "number")
    if roughness is not None and roughness.value == 0:
        yield draft.tell(
            f"{run}.roughness",
            "No pipe is without roughness.",
            "Check it; left out, the table is used.",
        )
    if draft.inches(f"{run}.bore") == 0:
        yield draft.tell(f"{run}.bore", "This cannot be zero.", "Measure it.")


def _in_order(draft: Draft, run: str) -> Iterator[Problem]:
    before: tuple[float, str] | None = None
    for entry in draft.items(f"{run}.log"):
        at, to = (draft.inches(f"{entry}.{key}") for key in ("at", "to"))
        typed = draft.get(f"{entry}.at")
        if at is not None and before and at < before[0]:
            yield draft.tell(
                f"{entry}.at",
                f"The log goes backwards here, from {before[1]} to {typed}.",
                "Write the entries in order of distance.",
            )
        if at is not None and to is not None and to <= at:
            yield draft.tell(
                f"{entry}.to",
                f"This stretch ends ({draft.get(f'{entry}.to')}) before it begins "
                f"({typed}).",
                "Check both distances.",
            )
        if at is not None:
            before = (at, typed)


def _in_the_pipe(draft: Draft, run: str, entry: str) -> Iterator[Problem]:
    yield from draft.above(
        f"{entry}.opening",
        f"{run}.bore",
        "The opening ({found}) is wider than the pipe ({limit}).",
        "Check both measures.",
    )
    yield from draft.above(
        f"{entry}.water",
        f"{run}.bore",
        "The water ({found}) is deeper than the pipe is wide ({limit}).",
        "Check both measures.",
    )
    for key in ("at", "to"):
        yield from draft.above(
            f"{entry}.{key}",
            f"{run}.length",
            "This distance ({found}) is beyond the end of the run ({limit}).",
            "Check both distances.",
        )


def photographs(draft: Draft) -> Iterator[Problem]:
    """Find photographs that are named and absent, or present and never named."""
    listed: dict[str, str] = {}
    there = _in_folder(draft)
    for photo in draft.items("photos"):
        path = f"{photo}.file"
        name = draft.get(path)
        if not isinstance(name, str) or not _may_name_a_file(name):
            continue  # the schema tells it
        if name in listed:
            yield draft.tell(
                path, f"{name} is listed twice.", "Take one of the two out."
            )
        listed.setdefault(name, photo)
        if draft.photo_folder is not None:
            yield from _absent(draft, path, name, draft.photo_folder, there)
    for path in _pictured(draft):
        name = draft.get(path)
        if not isinstance(name, str) or not _may_name_a_file(name):
            continue  # the schema tells it
        if name not in listed:
            yield _unlisted(draft, path, name, listed)
    yield from _never_named(draft, listed, there)


def _absent(
    draft: Draft, path: str, name: str, folder: Path, there: list[str] | None
) -> Iterator[Problem]:
    """Tell of a listed photograph that is not in the folder under that name."""
    if alike := _but_for_capitals(name, there or []):
        message = f"{name} is called {alike} in {folder.name}/: other capitals."
        yield draft.tell(path, message, f"Write {alike}, as the file is called.")
    elif not _inside(folder, name):
        message = f"There is no photograph {name} in {folder.name}/."
        yield draft.tell(path, message, "Copy it there, or correct the name.")


def _unlisted(draft: Draft, path: str, name: str, listed: dict[str, str]) -> Problem:
    if alike := _but_for_capitals(name, list(listed)):
        message = f'{name} is listed under "photos" as {alike}: other capitals.'
        return draft.tell(path, message, f"Write {alike} here as well.")
    message = f'{name} is not listed under "photos".'
    return draft.tell(path, message, "List it there and say what it shows.")


def _but_for_capitals(name: str, others: list[str]) -> str:
    """Give the other name that differs only in capitals; empty where there is none."""
    if name in others:
        return ""
    same = [one for one in others if one.casefold() == name.casefold()]
    return same[0] if same else ""


def _may_name_a_file(name: str) -> bool:
    plain = "/" not in name and "\\" not in name and not name.startswith(".")
    return plain and name.lower().endswith(PHOTO_ENDINGS)


def _inside(folder: Path, name: str) -> bool:
    path = folder / name
    try:
        return path.is_file() and path.resolve().parent == folder.resolve()
    except (OSError, ValueError):
        return False


def _in_folder(draft: Draft) -> list[str] | None:
    """List the files in the folder of photographs; None where it cannot be read."""
    folder = draft.photo_folder
    if folder is None or not folder.is_dir():
        return []
    try:
        return sorted(path.name for path in folder.iterdir())
    except OSError:
        return None


def _never_named(
    draft: Draft, listed: dict[str, str], there: list[str] | None
) -> Iterator[Problem]:
    folder = draft.photo_folder
    if folder is None:
        return
    if there is None:
        yield draft.tell(
            "photos",
            f"The folder {folder.name}/ cannot be read.",
            "Give yourself leave to read it.",
        )
        return
    known = {name.casefold() for name in listed}
    for name in there:
        if Path(name).suffix.lower() in PHOTO_ENDINGS and name.casefold() not in known:
            yield draft.tell(
                "photos",
                f"{name} lies in {folder.name}/ and is not named in the job.",
                'List it under "photos", or take it out of the folder.',
            )


def _pictured(draft: Draft) -> Iterator[str]:
    for section in PICTURED:
        for item in draft.items(section):
            yield f"{item}.photo"
    for part in SINGLE:
        yield f"{part}.photo"
    for run in draft.items("pipe_runs"):
        for entry in draft.items(f"{run}.log"):
            yield f"{entry}.photo"
