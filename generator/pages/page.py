"""One page of a client's site: its file, its title in the navigation, its text."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Page:
    """One page of a client's site.

    Parameters
    ----------
    path : str
        File name in the docs folder, such as ``index.md``.
    title : str
        The words that lead to the page in the list of pages.
    markdown : str
        The page itself. It holds no front matter, and none is read from it.
    searched : bool
        Whether search within the report finds this page.
    """

    path: str
    title: str
    markdown: str
    searched: bool = True


@dataclass(frozen=True)
class Picture:
    """A figure of a page: its name, its caption and its text alternative."""

    name: str
    caption: str
    alternative: str
