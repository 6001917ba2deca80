"""The pages of a site as the chapters of one: links between them stay on it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages.page import Page

PAPER = "paper"

HEADING = re.compile(r"^(?=#{1,5} )", re.MULTILINE)
TITLE = re.compile(r"\A## (.+)$", re.MULTILINE)
FOLD = re.compile(r"^(?:</?details.*>|<summary>.*</summary>)\n", re.MULTILINE)
PLACE = re.compile(r'(\{: #| id=")([\w-]+)')
LINK = re.compile(r'(\]\(|href=")(?:([\w-]+)\.(?:md|html))?(?:#([\w-]+))?(?=\)|")')


@dataclass(frozen=True)
class Chapter:
    """One page of the site on paper: its name, its title and its text."""

    name: str
    title: str
    text: Markup


def chapters(pages: Sequence[Page]) -> list[Chapter]:
    """Make every page a chapter, in the order of the site.

    Parameters
    ----------
    pages : sequence of Page
        The composed pages. What stands above the title of a page is its banners,
        which paper shows once and not in every chapter.

    Returns
    -------
    list of Chapter
        With headings one level down and links that lead to a place on the one page.
    """
    return [_chapter(page, page.path.removesuffix(".md")) for page in pages]


def place_of(page: str, spot: str | None = None) -> str:
    """Name the place of a page on paper, or of a spot on that page.

    Examples
    --------
    >>> place_of("working"), place_of("working", "tank-volume")
    ('page-working', 'working-tank-volume')
    """
    return f"{page}-{spot}" if spot else f"page-{page}"


def _chapter(page: Page, name: str) -> Chapter:
    text = FOLD.sub("", _from_its_title(page.markdown))  # nothing is folded on paper
    text = HEADING.sub("#", text)
    text = PLACE.sub(lambda found: found[1] + place_of(name, found[2]), text)
    text = LINK.sub(lambda found: _led(found, name), text)
    text = TITLE.sub(lambda found: f"{found[0]} {{: #{place_of(name)} }}", text)
    return Chapter(name, page.title, Markup(text))


def _from_its_title(text: str) -> str:
    begin = re.search("^# ", text, re.MULTILINE)
    return text[begin.start() :] if begin else text


def _led(link: re.Match[str], here: str) -> str:
    begin, page, spot = link.groups()
    if not page and not spot:  # leads elsewhere: a figure, or another host
        return link[0]
    return f"{begin}#{place_of(page or here, spot)}"
