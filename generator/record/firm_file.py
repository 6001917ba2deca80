"""The firm's own file becomes a Firm, or every problem in it at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from generator.problems import Problem, Refused
from generator.record.build import build
from generator.record.check import check
from generator.record.model import Firm
from generator.record.read import read

if TYPE_CHECKING:
    from generator.record.load import Workspace

FIRM_FILE = "firm.yaml"


def load_firm(workspace: Workspace) -> Firm:
    """Load the firm's own file, or refuse with every problem in it."""
    problems: list[Problem] = []
    firm = firm_of(workspace, problems)
    if firm is None:
        raise Refused(problems)
    return firm


def firm_of(workspace: Workspace, problems: list[Problem]) -> Firm | None:
    """Load the firm's own file; None where there are problems by now."""
    path = workspace.inspections / FIRM_FILE
    if found := strays(workspace, path):
        problems.extend(found)
        return None
    try:
        document = read(path, shown_as=workspace.shown(path))
    except Refused as refused:
        problems.extend(refused.problems)
        return None
    problems.extend(check(document, "firm"))
    return build(Firm, document.data) if not problems else None


def strays(workspace: Workspace, *paths: Path) -> list[Problem]:
    """Tell of links that lead out of the folder of job files."""
    return [
        Problem(
            workspace.shown(path),
            0,
            "",
            "This link leads out of inspections/.",
            "Put the file itself there."
            if path.suffix == ".yaml"
            else "Put the folder itself there.",
        )
        for path in paths
        if path.is_symlink() and not _stays(path, workspace.inspections)
    ]


def _stays(path: Path, folder: Path) -> bool:
    try:
        return path.resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError):  # a link that leads back to itself
        return False
