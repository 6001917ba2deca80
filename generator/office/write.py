"""The office folder is written whole, beside the preview, and never into public/."""

from __future__ import annotations

import shutil
from pathlib import Path

from generator.atomic import put
from generator.doors import doors
from generator.handing import message
from generator.office.pages import as_csv, as_page, qr
from generator.office.register import PROBLEMS, Row, register
from generator.preview import OFFICE
from generator.problems import Problem, Refused
from generator.record.firm_file import load_firm
from generator.record.load import Workspace
from generator.website import links

HANDOVER = "handover"


def write_office(workspace: Workspace, today: str) -> Path:
    """Write the register of all jobs, with a message and a QR picture for each.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    today : str
        The day (ISO 8601).

    Returns
    -------
    pathlib.Path
        The page of the register.

    Raises
    ------
    generator.problems.Refused
        Where the firm file or a file of links has problems, or nothing can be
        written. A job with problems is listed with them.
    """
    firm = load_firm(workspace)
    secret = links.kept_secret(workspace.root, "links are")
    found = doors(workspace, secret, today)
    rows = register(workspace, workspace.jobs(), found, today)
    folder = workspace.root / OFFICE
    try:
        _fresh(folder / HANDOVER)
        for row in rows:
            _hand_over(workspace, row, folder / HANDOVER, today)
        put(folder / "register.csv", as_csv(rows).encode("utf-8"))
        put(folder / "index.html", as_page(rows, firm.name, today).encode("utf-8"))
    except OSError as error:
        message_ = f"The register cannot be written here: {error.strerror}."
        hint = "See to the free space and the rights of the folder."
        raise Refused([Problem(f"{OFFICE}/", 0, "", message_, hint)]) from None
    return folder / "index.html"


def _fresh(folder: Path) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)


def _hand_over(workspace: Workspace, row: Row, folder: Path, today: str) -> None:
    if not row.link or row.state == PROBLEMS:
        return
    put(folder / f"{row.job}.txt", message(workspace, row.job, today).encode("utf-8"))
    put(folder / f"{row.job}.svg", qr(row.link).encode("utf-8"))
