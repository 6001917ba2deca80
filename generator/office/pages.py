"""The register as a page and as CSV; a message and a QR picture for each hand-over."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path

import segno
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from generator.findings.finding import MEANINGS
from generator.office.register import Row

HERE = Path(__file__).parent
QR_SCALE = 6  # our choice: 6 dots to a module print sharp at 30 mm
QR_CORRECTION = "m"  # ISO/IEC 18004: about 15 % of the picture may be lost
CSV_HEAD = (
    "job", "state", "address", "client", "visit", "reports given", "worst finding",
    "takes its water", "to do first", "missing", "falls due", "link state", "link",
)  # fmt: skip
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")  # OWASP, CSV injection, from memory


def as_csv(rows: Sequence[Row]) -> str:
    """Write the register as CSV (RFC 4180); no cell can act as a formula."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(CSV_HEAD)
    for row in rows:
        due = "; ".join(f"{one.day} {one.what}" for one in row.due)
        cells = (
            row.job, row.state, row.address, row.client, row.visit, row.reports,
            row.worst, row.takes_water, "; ".join(row.first), "; ".join(row.missing),
            due, row.link_state, row.link,
        )  # fmt: skip
        writer.writerow([_tame(str(cell)) for cell in cells])
    return out.getvalue()


def _tame(cell: str) -> str:
    return f"'{cell}" if cell.startswith(FORMULA_STARTS) else cell


def as_page(rows: Sequence[Row], firm: str, today: str) -> str:
    """Write the register as one page that loads nothing."""
    due = sorted((one, row.job) for row in rows for one in row.due)
    template = _environment().get_template("register.html.jinja")
    return template.render(
        rows=rows, due=due, firm=firm, today=today, meanings=MEANINGS
    )


def qr(link: str) -> str:
    """Draw a link as a QR picture in SVG (ISO/IEC 18004)."""
    out = io.BytesIO()
    code = segno.make(link, error=QR_CORRECTION, micro=False)
    code.save(out, kind="svg", scale=QR_SCALE, xmldecl=False, title="Private link")
    return out.getvalue().decode("utf-8")


@lru_cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(HERE),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
