"""A fault of onlot itself at one job, told as a problem of that job alone."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

from generator.atomic import put
from generator.problems import Problem, Refused
from generator.record.load import Workspace

FOLDER, ENDING = "faults", ".txt"  # in a build folder
MESSAGE = "onlot broke off at this job, which is a fault of onlot: {last}."
HINT = "Give {file} and the job file to whoever keeps onlot; no other job waits for it."
LONGEST = 200  # characters of a line that are shown; our choice


def fault(workspace: Workspace, folder: Path, job: str, told: str) -> Refused:
    """Make a problem of what nobody foresaw, and keep all that is known of it.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    folder : pathlib.Path
        The build folder, which takes the whole in ``faults/JOB.txt``.
    job : str
        Name of the job.
    told : str
        What Python tells of the exception, its own line last.

    Returns
    -------
    Refused
        The one problem: what was published of the job stays as it was.
    """
    file = folder / FOLDER / f"{job}{ENDING}"
    with suppress(OSError):  # it is told all the same
        put(file, told.encode("utf-8", "backslashreplace"))
    last = (told.strip().splitlines() or [""])[-1][:LONGEST].rstrip(".")
    hint = HINT.format(file=f"{folder.name}/{FOLDER}/{file.name}")
    shown = workspace.shown(workspace.job_file(job))
    return Refused([Problem(shown, 0, "", MESSAGE.format(last=last), hint)])
