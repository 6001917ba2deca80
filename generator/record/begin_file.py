"""A new job file is written into ``inspections/``, and never over another."""

from __future__ import annotations

from pathlib import Path

from generator.problems import Problem, Refused
from generator.record.begin import begun, begun_like
from generator.record.firm_file import FIRM_FILE, load_firm
from generator.record.like import kept
from generator.record.load import JOB_NAME, Workspace, open_job
from generator.shipped import shipped

SCHEMA_FILE = "schemas/inspection.schema.json"


def begin(
    workspace: Workspace, job: str, *, whole: bool = False, like: str | None = None
) -> list[str]:
    """Write a new job file, and beside it the schema that the editor reads.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the new job.
    whole : bool
        True to write every section and key.
    like : str, optional
        Name of a job whose lot and system are taken over.

    Returns
    -------
    list of str
        What was done, in plain sentences.

    Raises
    ------
    generator.problems.Refused
        Where the name cannot be, is taken, or the folder cannot be written to.
    """
    _refuse_name(workspace, job)
    path = workspace.job_file(job)
    if workspace.inspections.is_symlink() or not workspace.inspections.is_dir():
        _refuse(
            "inspections/",
            "The folder inspections/ is a link or is not there.",
            "Go to the firm's folder, or name it with --workspace.",
        )
    if path.is_symlink() or path.exists():
        _refuse(workspace.shown(path), "This job is there already.", "Take a new name.")
    text = begun(job, whole=whole, code=_firm_code(workspace))
    if like is not None:
        text = begun_like(job, like, kept(_data(workspace, like)))
    told = _schema_told(workspace)
    _write(workspace, path, text)
    return [f"{workspace.shown(path)} was written.", *told]


def _firm_code(workspace: Workspace) -> str | None:
    """Give the code pack that the firm works under; a broken firm file has none."""
    try:
        return load_firm(workspace).code
    except Refused:
        return None


def _refuse_name(workspace: Workspace, job: str) -> None:
    named_like_firm = f"{job}.yaml".casefold() == FIRM_FILE
    if JOB_NAME.fullmatch(job) and not named_like_firm:
        return
    problems: list[Problem] = []
    open_job(workspace, job.lower() if named_like_firm else job, problems)
    raise Refused(problems)


def _data(workspace: Workspace, job: str) -> dict[str, object]:
    problems: list[Problem] = []
    draft = open_job(workspace, job, problems)
    if draft is None:
        raise Refused(problems)
    return draft.document.data


def _schema_told(workspace: Workspace) -> list[str]:
    """Put the shipped schema where the editor line looks, unless one is there."""
    path, ours = workspace.root / SCHEMA_FILE, shipped(SCHEMA_FILE)
    text = ours.read_text(encoding="utf-8")
    if path.is_file():
        if path.read_text(encoding="utf-8", errors="replace") == text:
            return []
        return [
            f"{SCHEMA_FILE} is not the one of this version. Delete it, and the next "
            "new job brings it along."
        ]
    if path.parent.is_symlink() or path.is_symlink():
        _refuse(SCHEMA_FILE, "A link stands here.", "Put a folder of its own there.")
    _write(workspace, path, text)
    return [f"{SCHEMA_FILE} was written for the editor."]


def _write(workspace: Workspace, path: Path, text: str) -> None:
    """Write a file that is not there yet; a link counts as being there."""
    try:
        path.parent.mkdir(exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except OSError as error:
        shown = workspace.shown(path)
        _refuse(shown, f"The file cannot be written: {error.strerror}.")


def _refuse(file: str, message: str, hint: str = "") -> None:
    raise Refused([Problem(file, 0, "", message, hint)])
