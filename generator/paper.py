"""The paper page of a job printed to PDF by the Chromium that is installed here."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tempfile
from dataclasses import dataclass
from html import unescape
from pathlib import Path

from generator.atomic import put
from generator.preview import OFFICE, Preview
from generator.problems import Problem, Refused
from generator.record.load import Workspace

PAGE = "paper.html"
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
LETTER, A4 = "letter", "A4"  # names of paper sizes in CSS Paged Media, level 3
LONGEST = 120  # seconds that printing may take; our choice, far beyond what it takes
QUIET = (
    "--headless",
    "--disable-gpu",
    "--disable-extensions",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--no-pdf-header-footer",
    "--export-tagged-pdf",
    "--generate-pdf-document-outline",  # the headings, as bookmarks
    "--host-resolver-rules=MAP * ~NOTFOUND",  # no network, whatever a page asks for
)
TITLE = re.compile("<title>[^<]* · ([^<]*)</title>")  # of a page, and of its site
FILE_LINK = re.compile(r'<a href="(?:\./)?(?:figures|photos)/[^"]*">')
PDF_BEGINS = b"%PDF-"


@dataclass(frozen=True)
class Sheet:
    """Where the PDF goes, the size of its paper, and what is printed.

    What clients see is printed, or, where ``draft``, the files as they stand.
    """

    file: Path
    size: str = LETTER
    draft: bool = False


def print_job(workspace: Workspace, job: str, sheet: Sheet) -> Path:
    """Build the site of a job for this machine only, and print its paper page.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.
    sheet : Sheet
        Where the PDF goes, never into ``public/``; and the paper.

    Returns
    -------
    pathlib.Path
        The PDF.

    Raises
    ------
    Refused
        With every problem of the job; or if no browser is installed, if it fails or
        takes too long, or if the PDF cannot be written where it was asked for.
    """
    _may_stand(workspace, sheet.file)
    browser = _browser()
    shown = Preview(workspace, job, given=not sheet.draft)
    page = shown.build().with_name(PAGE)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as made:
        pdf = Path(made) / "paper.pdf"
        _print(browser, _sized(page, job, sheet.size), pdf)
        return _put(pdf, sheet.file)


def default_file(workspace: Workspace, job: str) -> Path:
    """Give the place of a job's PDF where none was named."""
    return workspace.root / OFFICE / f"{job}.pdf"


def _may_stand(workspace: Workspace, file: Path) -> None:
    public = (workspace.root / "public").resolve()
    if file.resolve().is_relative_to(workspace.inspections.resolve()):
        message = "Nothing is written over the firm's own files in inspections/."
        hint = "Name another file with --out."
        raise Refused([Problem(str(file), 0, "", message, hint)])
    if file.resolve().is_relative_to(public):
        message = "A PDF is never written into public/, which is uploaded as it is."
        hint = "Name another file with --out."
        raise Refused([Problem(str(file), 0, "", message, hint)])


def _browser() -> str:
    for name in BROWSERS:
        if found := shutil.which(name):
            return found
    message = "Printing needs the browser Chromium, and none was found here."
    hint = 'On Debian it is in the package "chromium": apt install chromium.'
    raise _refused(message, hint)


def _sized(page: Path, job: str, size: str) -> Path:
    """Write the page once more, for one size of paper and with its job at its foot.

    Links to files of the site become plain: a PDF would keep their path here.
    """
    text = FILE_LINK.sub("<a>", page.read_text(encoding="utf-8"))
    named = TITLE.search(text)
    title = unescape(named[1]) if named else job
    about = f"{title} · {job}" if title != job else job
    name = "".join(f"\\{ord(sign):06x}" for sign in about)  # escaped for CSS
    foot = f'@bottom-left {{ content: "{name}" }}'
    style = f"<style>@page {{ size: {size}; {foot} }}</style>"
    copy = page.with_name(f"paper-{size.lower()}.html")
    text = text.replace("</head>", f"{style}</head>", 1)
    text = TITLE.sub(
        lambda found: f"<title>Inspection report · {found[1]}</title>", text
    )
    copy.write_text(text, encoding="utf-8")
    return copy


def _print(browser: str, page: Path, pdf: Path) -> None:
    """Print one page; Chromium keeps a profile of its own beside the PDF."""
    command = [browser, *QUIET, f"--user-data-dir={pdf.parent / 'profile'}"]
    if _is_root():  # the sandbox of Chromium does not start for this user
        command.append("--no-sandbox")
    command += [f"--print-to-pdf={pdf}", page.resolve().as_uri()]
    try:
        ended = subprocess.run(
            command, capture_output=True, timeout=LONGEST, check=False
        )
    except subprocess.TimeoutExpired:
        message = f"Chromium did not print the page within {LONGEST} seconds."
        raise _refused(message, "Close other programs and try again.") from None
    except OSError as error:
        raise _refused(f"Chromium could not be started: {error.strerror}.") from None
    if ended.returncode or not _is_pdf(pdf):
        hint = f"Open {page.name} beside the preview in a browser and print it there."
        raise _refused("Chromium ended without a PDF.", hint)


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _is_pdf(file: Path) -> bool:
    return file.is_file() and file.read_bytes()[: len(PDF_BEGINS)] == PDF_BEGINS


def _put(pdf: Path, file: Path) -> Path:
    try:
        put(file, pdf.read_bytes())
    except OSError as error:
        message = f"The PDF cannot be written here: {error.strerror}."
        raise Refused([Problem(str(file), 0, "", message)]) from None
    return file


def _refused(message: str, hint: str = "") -> Refused:
    return Refused([Problem("paper", 0, "", message, hint)])
