"""What no reader sees is left out of a built site: indents, and tags in the index."""

from __future__ import annotations

import json
import re
from pathlib import Path

SEARCH_INDEX = "search/search_index.json"
INDENT = re.compile(r"\n\s+")
AS_WRITTEN = re.compile(r"<(?:pre|textarea)\b", re.I)  # blanks inside them are seen
TAG = re.compile(r"<[^>]*>")


def slim(site: Path) -> None:
    """Write the pages and the search index of a site shorter, for the same reader.

    Parameters
    ----------
    site : pathlib.Path
        The folder that the site builder wrote.
    """
    for page in sorted(site.rglob("*.html")):
        text = page.read_text(encoding="utf-8")
        if not AS_WRITTEN.search(text):
            page.write_bytes(INDENT.sub("\n", text).encode("utf-8"))
    if (site / SEARCH_INDEX).is_file():
        _shorten(site / SEARCH_INDEX)


def _shorten(file: Path) -> None:
    """Leave the words of the search index, without the tags around them."""
    index = json.loads(file.read_text("utf-8"))
    for place in index["docs"]:
        place["text"] = " ".join(TAG.sub(" ", place["text"]).split())
    text = json.dumps(index, ensure_ascii=False, separators=(",", ":"))
    file.write_bytes(text.encode("utf-8"))
