"""Walks a built site without a browser: its links, its pictures, how it is made up."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

LOADING = {"href", "src", "poster", "xlink:href"}
EMPTY = {"area", "br", "col", "hr", "img", "input", "link", "meta", "source", "wbr"}


class Reading(HTMLParser):
    """One page: the addresses it names, the places it offers, the shapes it is of.

    A shape is an element with its classes inside an element with its classes. Pages of
    the same shapes are laid out and read out by the same rules.
    """

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.addresses: list[str] = []
        self.places: set[str] = set()
        self.shapes: set[tuple[str, str]] = set()
        self._open: list[tuple[str, str]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take in one element."""
        given = {key: value or "" for key, value in attrs}
        self.addresses += [given[key] for key in sorted(LOADING & given.keys())]
        self.places |= {given[key] for key in ("id", "name") if key in given}
        shape = ".".join([tag, *sorted(given.get("class", "").split())])
        self.shapes.add((self._open[-1][1] if self._open else "", shape))
        if tag not in EMPTY:
            self._open.append((tag, shape))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take in one element that closes itself."""
        self.handle_starttag(tag, attrs)
        if tag not in EMPTY:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        """Leave an element, and those in it that were never closed."""
        for depth in range(len(self._open) - 1, -1, -1):
            if self._open[depth][0] == tag:
                del self._open[depth:]
                return


def read(page: Path) -> Reading:
    """Read one page of a site."""
    return Reading(page.read_text(encoding="utf-8"))


def missing(site: Path) -> list[str]:
    """Every link, picture and place in a page that leads to nothing."""
    found = {page.relative_to(site).as_posix(): read(page) for page in _pages(site)}
    return [
        f"{name}: {address}"
        for name, reading in found.items()
        for address in reading.addresses
        if not _leads(site, name, address, found)
    ]


def unlike(pages: Iterable[Path], seen: Iterable[Path] = ()) -> Iterator[Path]:
    """Those pages that hold a shape which no page before them holds."""
    known: set[tuple[str, str]] = set()
    for page in seen:
        known |= read(page).shapes
    for page in pages:
        shapes = read(page).shapes
        if not shapes <= known:
            known |= shapes
            yield page


def _pages(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def _leads(site: Path, name: str, address: str, found: dict[str, Reading]) -> bool:
    """Tell whether one address of one page leads to something that is there."""
    parts = urlsplit(address)
    if parts.scheme or parts.netloc:
        return True
    here = posixpath.dirname(name)
    path = posixpath.normpath(posixpath.join(here, unquote(parts.path)))
    target = path if parts.path else name
    if target in {".", ""}:
        target = "index.html"
    place = unquote(parts.fragment)
    if target in found:
        return not place or place in found[target].places
    return (site / target).is_file() and not target.startswith("..")
