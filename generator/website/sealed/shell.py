"""The page around a sealed report: it names the firm, holds the key to nothing."""

from __future__ import annotations

import base64
import hashlib
from html import escape
from pathlib import Path

from generator.website.sealed.lock import LABEL, NONCE_BYTES
from generator.website.tree import THEME

HERE = Path(__file__).parent
ENDING = ".html"
POLICY = (
    "default-src 'none'; script-src 'sha256-{digest}'; style-src 'unsafe-inline'; "
    "img-src data:; base-uri 'none'; form-action 'none'"
)
# The script stands before the sealed text, so that it can tell of a file cut short.
_PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta name="robots" content="noindex, nofollow, noarchive">
<meta name="referrer" content="no-referrer">
<link rel="icon" href="data:,">
<title>Sealed report</title>
<style>
{style}</style>
<noscript><style>#told {{ display: none; }}</style></noscript>
</head>
<body>
<main>
<h1>Sealed report</h1>
<p id="told" role="status">The report is being opened. If these words stay, the file is
not whole, or this browser is too old.</p>
<noscript><p>This browser runs no JavaScript, which opens the report. Allow it for this
page, and load the page again.</p></noscript>
<p>Questions? Ask {firm}, {phone}.</p>
</main>
<script>{script}</script>
<script type="application/octet-stream" id="sealed" data-label="{label}"
data-nonce-bytes="{nonce_bytes}" data-digest="{sealed_digest}">
{sealed}</script>
</body>
</html>
"""


def sealed_page(sealed: bytes, firm: str, phone: str) -> str:
    """Write the page that holds a sealed report and opens it with the key of its link.

    Parameters
    ----------
    sealed : bytes
        The sealed report, from ``lock.locked``.
    firm : str
        The firm, whom a reader may ask.
    phone : str
        Its telephone.

    Returns
    -------
    str
        HTML that loads nothing, says nothing about the client, and holds no key.
    """
    script = _script()
    return _PAGE.format(
        policy=POLICY.format(digest=_base64(hashlib.sha256(script.encode()).digest())),
        style=(HERE / "shell.css").read_text(encoding="utf-8"),
        firm=escape(firm),
        phone=escape(phone),
        script=script,
        label=LABEL.decode("ascii"),
        nonce_bytes=NONCE_BYTES,
        sealed_digest=_base64(hashlib.sha256(sealed).digest()),
        sealed=base64.encodebytes(sealed).decode("ascii"),
    )


def _script() -> str:
    """Our script; the one that stacks wide tables on a phone becomes a function."""
    opening = (HERE / "open.js").read_text(encoding="utf-8")
    tables = (THEME / "assets" / "rows.js").read_text(encoding="utf-8")
    return f"\n{opening}\nfunction stackTables() {{\n{tables}}}\n"


def _base64(digest: bytes) -> str:
    return base64.b64encode(digest).decode("ascii")
