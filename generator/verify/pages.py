"""The text that a page shows, line by line, each under its heading."""

from __future__ import annotations

from contextlib import suppress
from html.parser import HTMLParser
from itertools import zip_longest

from generator.trail.change_words import (
    LONGEST_TEXT,
    NOTHING,
    cut,
    one_line,
    start_of_difference,
)

SILENT = {"script", "style", "template"}
HEADINGS = {"h1", "h2", "h3", "h4", "h5", "h6"}
CELLS = {"td", "th"}
BETWEEN_CELLS = " | "
# Elements that begin a line of their own; our choice, by what stands on our pages.
LINES = HEADINGS | {
    "address", "article", "aside", "blockquote", "body", "br", "caption", "dd",
    "details", "div", "dl", "dt", "figcaption", "figure", "footer", "form", "head",
    "header", "hr", "img", "label", "li", "main", "meta", "nav", "ol", "option", "p",
    "pre", "section", "summary", "svg", "table", "text", "title", "tr", "ul",
}  # fmt: skip
PILCROW = "¶"  # the sign of a link to a heading
HIDDEN = (
    'the text that it shows is the same, and what does not show differs: "{}" here, '
    '"{}" when rebuilt'
)


def first_difference(here: str, rebuilt: str) -> str:
    """Say where two pages first differ, in the text that they show if they do there.

    Parameters
    ----------
    here, rebuilt : str
        The two pages.

    Returns
    -------
    str
        A fragment of a sentence, with both texts.

    Examples
    --------
    >>> first_difference("<h2>Tank</h2><p>48 in</p>", "<h2>Tank</h2><p>49 in</p>")
    'under "Tank": "48 in" here, "49 in" when rebuilt'
    """
    for one, other in zip_longest(_lines(here), _lines(rebuilt)):
        if one != other:
            texts = _cut_both(one[1] if one else "", other[1] if other else "")
            heading = (other or one or ("", ""))[0]
            where = f'under "{cut(heading, LONGEST_TEXT)}": ' if heading else ""
            return f"{where}{_quoted(texts[0])} here, {_quoted(texts[1])} when rebuilt"
    for line, other_line in zip_longest(here.splitlines(), rebuilt.splitlines()):
        if line != other_line:
            return HIDDEN.format(*_cut_both(line or "", other_line or ""))
    return "its line breaks differ"


def words_of(page: str) -> str:
    """Give all text that a page shows, on one line."""
    return " ".join(text for _, text in _lines(page))


def _lines(page: str) -> list[tuple[str, str]]:
    reader = _Reader()
    with suppress(AssertionError):  # what html.parser raises at a spoilt declaration
        reader.feed(page)
        reader.close()
    reader.end_line()
    return reader.lines


def _cut_both(here: str, rebuilt: str) -> tuple[str, str]:
    one, other = one_line(here), one_line(rebuilt)
    start = 0
    if max(len(one), len(other)) > LONGEST_TEXT:
        start = start_of_difference(one, other)
    return cut(one, LONGEST_TEXT, start), cut(other, LONGEST_TEXT, start)


def _quoted(text: str) -> str:
    return f'"{text}"' if text else NOTHING


class _Reader(HTMLParser):
    """Collects the lines of a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.lines: list[tuple[str, str]] = []
        self.heading = ""
        self._in_heading = False
        self._silent = ""
        self._parts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a line, a cell, a heading or what does not show."""
        if self._silent:
            return
        if tag in SILENT:
            self._silent = tag
        elif tag in LINES:
            self.end_line()
            self._in_heading = tag in HEADINGS
        elif tag in CELLS and any(map(str.strip, self._parts)):
            self._parts.append(BETWEEN_CELLS)

    def handle_endtag(self, tag: str) -> None:
        """End a line, or what does not show."""
        if tag == self._silent:
            self._silent = ""
        elif tag in LINES and not self._silent:
            self.end_line()

    def handle_data(self, data: str) -> None:
        """Take up a piece of text."""
        if not self._silent:
            self._parts.append(data)

    def end_line(self) -> None:
        """Put down the line that was read."""
        text = one_line("".join(self._parts)).removesuffix(PILCROW).strip()
        self._parts = []
        if text and self._in_heading:
            self.heading = text
        if text:
            self.lines.append((self.heading, text))
        self._in_heading = False
