"""The only writer of page trees: an ordinary docs folder with its own mkdocs.yml."""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import yaml

from generator.pages.page import Page
from generator.problems import Problem, Refused

THEME = Path(__file__).parent / "theme"
CONFIG_NAME = "mkdocs.yml"
DOCS_NAME = "docs"
HOME_PAGE = "index.md"
NOT_SEARCHED = "---\nsearch:\n  exclude: true\n---\n"

# Our choice: names that mean the same on every file system and in every address.
PLAIN_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,99}")


def write_tree(
    folder: Path,
    *,
    site_name: str,
    pages: Sequence[Page],
    figures: Mapping[str, bytes],
    photos: Mapping[str, bytes],
    base_config: Path,
) -> Path:
    """Write the page tree of one client, in place of what the folder held before.

    Parameters
    ----------
    folder : Path
        Where the tree goes. It is emptied first, and refused if it holds anything
        that is no part of a page tree.
    site_name : str
        The name in the header of every page.
    pages : Sequence[Page]
        The pages in the order of the list of pages; one of them is ``index.md``.
    figures : Mapping[str, bytes]
        SVG by name without its ending: ``tank`` becomes ``docs/figures/tank.svg``.
    photos : Mapping[str, bytes]
        JPEG by name without its ending: ``lid`` becomes ``docs/photos/lid.jpg``.
    base_config : Path
        The project's mkdocs.yml, which the tree's own inherits.

    Returns
    -------
    Path
        The tree's own mkdocs.yml.

    Raises
    ------
    Refused
        If a name would leave the folder, or the folder is not a page tree.
    """
    files = _gather(pages, figures, photos)
    _empty(folder)
    for path, content in sorted(files.items()):
        target = folder / DOCS_NAME / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    config = folder / CONFIG_NAME
    settings = _settings(folder, site_name, pages, base_config)
    config.write_bytes(yaml.safe_dump(settings, sort_keys=False).encode("ascii"))
    return config


def _gather(
    pages: Sequence[Page], figures: Mapping[str, bytes], photos: Mapping[str, bytes]
) -> dict[str, bytes]:
    """Every file of the docs folder, by path, once every name is known to be plain."""
    wrong_ends = [page.path for page in pages if not page.path.endswith(".md")]
    names = [page.path for page in pages]
    problems = [
        Problem(repr(name), 0, "", "The name of a page must end in .md.")
        for name in wrong_ends
    ]
    for group in (names, figures, photos):
        problems += _name_problems(group)
    if HOME_PAGE not in names:
        problems.append(Problem(HOME_PAGE, 0, "", "A site needs a page index.md."))
    if problems:
        raise Refused(problems)
    files = {page.path: _page_text(page).encode() for page in pages}
    files |= {f"figures/{name}.svg": content for name, content in figures.items()}
    files |= {f"photos/{name}.jpg": content for name, content in photos.items()}
    return files


def _page_text(page: Page) -> str:
    """The page behind our own settings; nothing in its text is read as such."""
    # The blank line keeps a first line such as "Note: ..." from being read as settings.
    return f"{'' if page.searched else NOT_SEARCHED}\n{page.markdown}"


def _name_problems(names: Iterable[str]) -> list[Problem]:
    """Names that would leave the folder, or that some file system takes for another."""
    problems = []
    seen: set[str] = set()
    for name in names:
        if not PLAIN_NAME.fullmatch(name):
            problems.append(
                Problem(
                    repr(name),
                    0,
                    "",
                    "This name cannot be used for a file of a site.",
                    "Use letters from a to z, digits, dots, dashes and underscores.",
                )
            )
        elif name.casefold() in seen:
            problems.append(Problem(name, 0, "", "This name is used twice."))
        seen.add(name.casefold())
    return problems


def _empty(folder: Path) -> None:
    """Remove an earlier page tree, and only that."""
    folder.mkdir(parents=True, exist_ok=True)
    found = {entry.name for entry in folder.iterdir()}
    strangers = sorted(found - {CONFIG_NAME, DOCS_NAME})
    if strangers:
        raise Refused(
            [
                Problem(
                    str(folder),
                    0,
                    "",
                    f'This folder holds "{strangers[0]}", which is no part of a page '
                    "tree, so nothing in it was touched.",
                    "Choose an empty folder.",
                )
            ]
        )
    docs = folder / DOCS_NAME
    if docs.is_symlink() or docs.is_file():
        docs.unlink()
    elif docs.exists():
        shutil.rmtree(docs)
    (folder / CONFIG_NAME).unlink(missing_ok=True)


def _settings(
    folder: Path, site_name: str, pages: Sequence[Page], base_config: Path
) -> dict[str, object]:
    """The tree's own settings; the theme is named here because its path starts here."""
    return {
        "INHERIT": _way(folder, base_config),
        "site_name": " ".join(site_name.split()),
        DOCS_NAME + "_dir": DOCS_NAME,
        "theme": {"custom_dir": _way(folder, THEME)},
        "nav": [{page.title: page.path} for page in pages],
    }


def _way(start: Path, target: Path) -> str:
    """The relative path from one to the other, written with forward slashes."""
    return Path(os.path.relpath(target.resolve(), start.resolve())).as_posix()
