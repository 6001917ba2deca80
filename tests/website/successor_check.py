"""Checks page trees that another site builder has built: every page, every link.

Run as ``python -m tests.website.successor_check TREE...``; each tree holds the built
site in its folder ``site``.
"""

from __future__ import annotations

import sys
from pathlib import Path

from tests.website.site_walk import missing, read

ITS_OWN = "404.html: "  # a page of the builder, whose addresses begin at a host
OURS = ("onlot.css", "rows.js")  # the look came along, not the builder's alone


def wrong(tree: Path) -> list[str]:
    """Everything that a built tree lacks, in one line each."""
    site = tree / "site"
    pages = [page.stem for page in sorted((tree / "docs").glob("*.md"))]
    absent = [f"{name}.html is not there" for name in pages if not _there(site, name)]
    if absent or not pages:
        return absent or ["no pages"]
    lacks = [
        f"{name}.html does not load {asset}"
        for name in pages
        for asset in OURS
        if f"assets/{asset}" not in read_text(site, name)
    ]
    inside = [
        f"{name}.html has Markdown left in it"
        for name in pages
        if 'markdown="1"' in read_text(site, name) or "{:" in read_text(site, name)
    ]
    return lacks + inside + [m for m in missing(site) if not m.startswith(ITS_OWN)]


def read_text(site: Path, name: str) -> str:
    """The text of one page."""
    return (site / f"{name}.html").read_text(encoding="utf-8")


def _there(site: Path, name: str) -> bool:
    page = site / f"{name}.html"
    return page.is_file() and "h1" in {shape[1] for shape in read(page).shapes}


def main(trees: list[str]) -> int:
    """Check each tree, and say what is wrong."""
    failed = not trees
    for tree in trees:
        found = wrong(Path(tree))
        print("\n".join(f"{tree}: {one}" for one in found or ["every page, no gap"]))
        failed = failed or bool(found)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
