"""The tags of a page that is written plainly; any other page is left to a full parser.

Pages that the site builder writes hold little but plain tags with quoted values. One
pattern finds them sooner than a parser that is ready for every sign of HTML.
"""

from __future__ import annotations

import re
from html import unescape

_NAME = r"[a-zA-Z][a-zA-Z0-9]*"
_KEY = r"[a-zA-Z_:][a-zA-Z0-9_:.-]*"
_PLAIN = re.compile(
    rf"<(?:/(?P<end>{_NAME})|(?P<start>{_NAME})"
    rf'(?P<keys>(?:\s+{_KEY}(?:="[^"]*")?)*)(?P<alone>\s*/)?|!doctype html)\s*>',
    re.I,
)
_PAIR = re.compile(rf'\s+({_KEY})(?:="([^"]*)")?')
_RAW = {
    name: re.compile(rf"</{name}\s*>", re.I) for name in ("script", "style")
}  # what they hold is no HTML

Attributes = list[tuple[str, str | None]]
Event = tuple[str, str, Attributes]  # start, alone, end or data; a name or a text
START, ALONE, END, DATA = "start", "alone", "end", "data"


def plain_tags(text: str) -> list[Event] | None:
    """List the tags of a page, and what its scripts and style sheets hold.

    Parameters
    ----------
    text : str
        The page.

    Returns
    -------
    list of tuple or None
        What ``html.parser`` tells of it beside the text between tags; None where
        anything in it is not written plainly.
    """
    found: list[Event] = []
    at = text.find("<")
    while at >= 0:
        tag = _PLAIN.match(text, at)
        if tag is None:
            return None
        at = tag.end()
        if tag["end"]:
            found.append((END, tag["end"].lower(), []))
        elif tag["start"]:
            name = tag["start"].lower()
            found.append((ALONE if tag["alone"] else START, name, _pairs(tag["keys"])))
            if name in _RAW:
                closing = _RAW[name].search(text, at)
                if closing is None or tag["alone"]:
                    return None
                found.append((DATA, text[at : closing.start()], []))
                at = closing.start()
        at = text.find("<", at)
    return found


def _pairs(keys: str) -> Attributes:
    return [
        (pair[1].lower(), None if pair[2] is None else unescape(pair[2]))
        for pair in _PAIR.finditer(keys)
    ]
