"""Photographs on their way into the firm's folder: stripped before they are kept."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from generator.atomic import put
from generator.problems import Problem, Refused
from generator.record.firm_file import FIRM_FILE, strays
from generator.record.load import JOB_NAME, Workspace, open_job
from generator.website.intake import faults, format_of, stripped
from generator.website.intake_hook import TELLING
from generator.website.photos import PhotoError

ENDING = ".jpg"
OWN_ENDINGS = (".jpg", ".jpeg")  # keep their name in place
LONGEST_STEM = 80 - len(ENDING)  # characters: the schema's photograph name
HOW = 'Run "onlot intake" on it.'


@dataclass(frozen=True)
class Done:
    """One photograph that was taken in; ``line`` is what the job file then says."""

    told: str
    line: str = ""


@dataclass(frozen=True)
class Intake:
    """What became of many photographs: those done, and every problem of the others."""

    done: tuple[Done, ...]
    problems: tuple[Problem, ...]


def take_in(files: Iterable[Path], *, keep: bool = False) -> Intake:
    """Strip photographs where they lie.

    Parameters
    ----------
    files : iterable of Path
        JPEG files keep their name; of another format a JPEG is made beside it.
    keep : bool
        True to leave the file of another format where it is.

    Returns
    -------
    Intake
        A file that carries only its picture is left as it is, byte for byte.
    """
    return _each(files, lambda path: _in_place(path, keep))


def take_into_job(
    workspace: Workspace, job: str, files: Iterable[Path], *, keep: bool = False
) -> Intake:
    """Make a stripped JPEG of each photograph in the folder of a job.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    files : iterable of Path
        Those outside the folder of the job stay as they are.
    keep : bool
        True to leave also those that lie in the folder of the job.

    Returns
    -------
    Intake
        Each with the line for the job file; no other picture is ever written over.

    Raises
    ------
    Refused
        If there is no such job.
    """
    folder = _folder(workspace, job)
    return _each(files, lambda path: _into(folder, path, keep))


def look_over(files: Iterable[Path]) -> tuple[Problem, ...]:
    """Tell of every photograph that carries more than its picture or is too large."""
    problems = []
    for path in files:
        try:
            found = faults(path)
            problems += [_problem(path, message, HOW) for message in found]
        except PhotoError as error:
            problems.append(_problem(path, str(error)))
    return tuple(problems)


def photographs(workspace: Workspace) -> list[Path]:
    """List every picture and film in the folder of job files, in order."""
    return sorted(
        path
        for path in workspace.inspections.rglob("*")
        if path.suffix.lower() in TELLING and path.is_file()
    )


def plain_name(name: str) -> str:
    """Give a photograph a name that a job file and every disk can hold.

    Examples
    --------
    >>> plain_name("IMG 0001 (2).HEIC"), plain_name("Tank öffnen.PNG"), plain_name("井")
    ('img-0001-2.jpg', 'tank-offnen.jpg', '')
    """
    letters = unicodedata.normalize("NFKD", Path(name).stem).encode("ascii", "ignore")
    stem = re.sub(r"[^a-z0-9_]+", "-", letters.decode().lower()).strip("-_")
    return stem[:LONGEST_STEM] + ENDING if stem else ""


def _each(files: Iterable[Path], work: Callable[[Path], Done]) -> Intake:
    done, problems = [], []
    for path in dict.fromkeys(files):
        try:
            done.append(work(path))
        except PhotoError as error:
            problems.append(_problem(path, str(error)))
        except Refused as refused:
            problems.extend(refused.problems)
        except OSError as error:
            message = f"The picture cannot be written: {error.strerror}."
            hint = "See to the free space and the rights of the folder."
            problems.append(_problem(path, message, hint))
    return Intake(tuple(done), tuple(problems))


def _in_place(path: Path, keep: bool) -> Done:
    made = _made(path)
    if not faults(path):
        return Done(f"{path.as_posix()} carries nothing but the picture already.")
    own = path.suffix.lower() in OWN_ENDINGS
    target = path if own else path.with_suffix(ENDING)
    told = _placed(made, target, path)
    if target == path:
        return Done(f"{path.as_posix()} {told}.")
    gone = _gone(path, target, keep)
    return Done(f"{path.as_posix()} {told} as {target.name}{gone}.")


def _into(folder: Path, path: Path, keep: bool) -> Done:
    made = _made(path)
    name = plain_name(path.name)
    if not name:
        message = "The name holds no letter and no digit that a job file can take."
        raise Refused([_problem(path, message, "Rename the file first.")])
    if format_of(path) == "JPEG" and not faults(path):
        made = path.read_bytes()  # not made worse by a second encoding
    told = _placed(made, folder / name, path)
    ours = path.resolve().parent == folder.resolve()
    gone = _gone(path, folder / name, keep) if ours else ""
    told = f"{path.as_posix()} {told} as {folder.name}/{name}{gone}."
    return Done(told, f"- {name}: what it shows")


def _made(path: Path) -> bytes:
    """The stripped JPEG of a file; also the proof that a clean one can be decoded."""
    if path.is_symlink():
        raise PhotoError(f'"{path.name}" is a link; name the file itself.')
    return stripped(path)


def _placed(made: bytes, target: Path, path: Path) -> str:
    """Write a picture under its new name, and never over another one."""
    for other in _of_that_name(target, path):
        if other.name == target.name and other.read_bytes() == made:
            return "is there already"
        message = f"There is another picture called {other.name} in {_home(target)}."
        hint = f"Rename {path.name} first, or take the other one away."
        raise Refused([_problem(path, message, hint)])
    put(target, made)
    return "is taken in"


def _of_that_name(target: Path, path: Path) -> list[Path]:
    """Files other than the photograph itself that some disk takes for the target."""
    if not target.parent.is_dir():
        return []
    same = [
        one
        for one in target.parent.iterdir()
        if one.name.casefold() == target.name.casefold()
    ]
    return sorted(one for one in same if one.is_symlink() or not one.samefile(path))


def _home(target: Path) -> str:
    return f"{target.parent.name}/" if target.parent.name else "this folder"


def _gone(path: Path, target: Path, keep: bool) -> str:
    """Take the original away where the new file stands beside it, and say so."""
    if keep or path.samefile(target):
        return ""
    path.unlink()
    return f"; {path.name} is gone"


def _folder(workspace: Workspace, job: str) -> Path:
    """Give the folder of a job's photographs, or refuse as the job would be."""
    file, folder = workspace.job_file(job), workspace.photo_folder(job)
    problems: list[Problem] = []
    is_job = JOB_NAME.fullmatch(job) and file.name.casefold() != FIRM_FILE
    if not is_job or not file.is_file():
        open_job(workspace, job, problems)
    problems = problems or strays(workspace, file, folder)
    if problems:
        raise Refused(problems)
    return folder


def _problem(path: Path, message: str, hint: str = "") -> Problem:
    return Problem(path.as_posix(), 0, "", message, hint)
