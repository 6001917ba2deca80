"""The tags of a page that is written plainly; any other page is left to a full parser.

Pages that the site builder writes hold little but plain tags with quoted values. One
pattern finds them sooner than a parser that is ready for every sign of HTML.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from html import unescape
from html.parser import HTMLParser
from typing import Any

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


def quick_feed(parser: HTMLParser, text: str, *, between: bool = True) -> None:
    """Feed a whole page to a parser, by the quick way where it is written plainly.

    Parameters
    ----------
    parser : html.parser.HTMLParser
        One that reads character references as text; it is told the same either way.
    text : str
        The page.
    between : bool
        Whether it is told the text between tags as well.
    """
    events = plain_tags(text, between=between)
    if events is None:
        HTMLParser.feed(parser, text)
        return
    tell: dict[str, Callable[[Any, Attributes], object]] = {
        START: parser.handle_starttag,
        ALONE: parser.handle_startendtag,
        END: lambda name, _: parser.handle_endtag(name),
        DATA: lambda words, _: parser.handle_data(words),
    }
    for kind, told, attributes in events:
        tell[kind](told, attributes)


def plain_tags(text: str, *, between: bool = False) -> list[Event] | None:
    """List the tags of a page, and what its scripts and style sheets hold.

    Parameters
    ----------
    text : str
        The page.
    between : bool
        Whether the text between tags is listed as well.

    Returns
    -------
    list of tuple or None
        What ``html.parser`` tells of it; None where anything in it is not written
        plainly.
    """
    found: list[Event] = []
    at, end_of_last = text.find("<"), 0
    while at >= 0:
        if between and at > end_of_last:
            found.append((DATA, unescape(text[end_of_last:at]), []))
        tag = _PLAIN.match(text, at)
        if tag is None:
            return None
        at = tag.end()
        end, start, keys, alone = tag.groups()
        if end:
            found.append((END, end.lower(), []))
        elif start:
            name, pairs = start.lower(), list(_pairs(keys)) if keys else []
            found.append((ALONE if alone else START, name, pairs))
            if name in _RAW:
                closing = _RAW[name].search(text, at)
                if closing is None or alone:
                    return None
                found.append((DATA, text[at : closing.start()], []))
                at = closing.start()
        end_of_last = at
        at = text.find("<", at)
    if between and text[end_of_last:]:
        found.append((DATA, unescape(text[end_of_last:]), []))
    return found


@lru_cache(maxsize=2048)  # few stand on thousands of tags; our choice
def _pairs(keys: str) -> tuple[tuple[str, str | None], ...]:
    return tuple(
        (pair[1].lower(), None if pair[2] is None else unescape(pair[2]))
        for pair in _PAIR.finditer(keys)
    )
