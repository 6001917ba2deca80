"""The theme's files once for all clients: pages lead to a folder that is named by them.

A folder is called after the digest of what it holds, so that a client who was not built
again keeps the files that its pages were made for.
"""

from __future__ import annotations

import re
from functools import partial
from pathlib import Path

from generator.website.as_published import has_files_alone
from generator.website.disk import digest

ASSETS, SHARED = "assets", "shared"
DIGEST_SIGNS = 32  # hexadecimal, 128 bits: our choice, two never share one
LEADING = ('href="', 'src="', '"search": "')  # what stands before a theme file
COPY_NAME = re.compile(rf"[0-9a-f]{{{DIGEST_SIGNS}}}")
_LED = re.compile(rf'"\.\./{SHARED}/([0-9a-f]{{{DIGEST_SIGNS}}})/')


def led_to_shared(page: str, name: str) -> str:
    """Lead a page to a shared copy of the theme's files, in place of its own.

    Examples
    --------
    >>> led_to_shared('<link href="assets/onlot.css">', "0f")
    '<link href="../shared/0f/onlot.css">'
    """
    *before, last = page.split(f"{ASSETS}/")  # sooner than a pattern finds it
    return "".join(map(partial(_led, way=f"{way_to(name)}/"), before)) + last


def _led(before: str, way: str) -> str:
    """Lead on from what stands before the folder of the theme's files."""
    start = before.removesuffix("./")
    return start + way if start.endswith(LEADING) else f"{before}{ASSETS}/"


def led_page(page: Path, name: str) -> bytes:
    """Give the content of a page as it is published, led to a shared copy."""
    return led_to_shared(page.read_text(encoding="utf-8"), name).encode("utf-8")


def way_to(name: str) -> str:
    """Give the way from a published site to a shared copy."""
    return f"../{SHARED}/{name}"


def leads_to(page: str) -> str:
    """Name the shared copy that a page leads to; empty where it leads to none.

    Examples
    --------
    >>> leads_to('<link href="../shared/00112233445566778899aabbccddeeff/onlot.css">')
    '00112233445566778899aabbccddeeff'
    """
    found = _LED.search(page)
    return found[1] if found else ""


def copy_name(folder: Path) -> str:
    """Name the shared copy of a folder of theme files after what it holds."""
    return digest(folder)[:DIGEST_SIGNS]


def is_whole(folder: Path) -> bool:
    """Tell whether a shared copy still holds what it is named after, all read."""
    return has_files_alone(folder) and copy_name(folder) == folder.name
