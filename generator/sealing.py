"""The report of one job sealed into one file, with the link that opens it."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from generator.atomic import put
from generator.paper import PAGE
from generator.preview import OFFICE
from generator.problems import Problem, Refused
from generator.record.link_book import link_book
from generator.record.load import Workspace
from generator.seen import Seen, as_given
from generator.site import build_site
from generator.website import links
from generator.website.sealed.keys import Keys, keys_of, typed
from generator.website.sealed.lock import locked
from generator.website.sealed.shell import ENDING, sealed_page
from generator.website.sealed.whole import whole_page

TITLE = "Inspection report"  # of the opened page; it stays in a browser's history


@dataclass(frozen=True)
class Sealed:
    """A sealed report: its file, and the link that opens it once it is uploaded."""

    file: Path
    link: str


def seal_job(workspace: Workspace, job: str, out: Path | None = None) -> Sealed:
    """Build the site of a job for this machine only, and seal its paper page.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    out : pathlib.Path, optional
        The file to write, never in ``public/``; when left out, a file in
        ``office/sealed/`` with a name that says nothing about the job.

    Returns
    -------
    Sealed
        The file, and its link with the key. A link begins with the address of the
        reports where the firm file names it, else with the name of the file.

    Raises
    ------
    Refused
        With every problem of the job; or if its report was withdrawn, if there is no
        link secret yet, or if the file cannot be written where it was asked for.
    """
    keys = _keys(workspace, job)
    file = out or workspace.root / OFFICE / "sealed" / f"{keys.name}{ENDING}"
    _may_stand(workspace, file)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as made:
        look = as_given(workspace, job, Path(made).resolve())
        page = _report(look, Path(made).resolve())
    firm = look.worked.record.firm
    sealed = locked(page, keys)
    _put(sealed_page(sealed, firm.name, firm.phone), file)
    base = f"{firm.reports_at.rstrip('/')}/" if firm.reports_at else ""
    return Sealed(file, f"{base}{quote(file.name)}#{typed(keys.key)}")


def _keys(workspace: Workspace, job: str) -> Keys:
    last = link_book(workspace, job).last
    if last.ended:
        file = workspace.shown(workspace.job_file(job))
        message = f"Nobody may read this report: it was {last.ended}."
        hint = f"Give it a new link: onlot renew {job}."
        raise Refused([Problem(file, 0, "", message, hint)])
    secret = links.kept_secret(workspace.root, "the key is")
    return keys_of(secret, job, last.number)


def _report(look: Seen, folder: Path) -> str:
    """Build the site in a folder that does not stay, and take its paper page."""
    site = build_site(
        look.workspace,
        look.worked,
        folder,
        None,
        look.origin,
        told=False,
        keep=False,
    )
    return whole_page(site / PAGE, TITLE)


def _may_stand(workspace: Workspace, file: Path) -> None:
    public = (workspace.root / "public").resolve()
    if file.resolve().is_relative_to(workspace.inspections.resolve()):
        message = "Nothing is written over the firm's own files in inspections/."
        hint = "Name another file with --out."
        raise Refused([Problem(str(file), 0, "", message, hint)])
    if file.resolve().is_relative_to(public):
        message = "A sealed report is never written into public/, which builds replace."
        hint = "Name another file with --out, and upload it by itself."
        raise Refused([Problem(str(file), 0, "", message, hint)])


def _put(page: str, file: Path) -> None:
    """Write a file whole, or leave the earlier one."""
    try:
        put(file, page.encode("utf-8"))
    except OSError as error:
        message = f"The sealed report cannot be written here: {error.strerror}."
        raise Refused([Problem(str(file), 0, "", message)]) from None
