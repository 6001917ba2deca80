"""The only file that knows the site builder: a page tree becomes a folder of HTML."""

from __future__ import annotations

import functools
import logging
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from fnmatch import fnmatch
from html import escape
from pathlib import Path
from typing import Any

import jinja2
import mkdocs.config.defaults
import mkdocs.utils
import yaml
from markupsafe import Markup
from material.plugins.search import plugin as search  # type: ignore[import-untyped]
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException
from mkdocs.theme import Theme
from mkdocs.utils.yaml import get_yaml_loader

from generator.website.joined import lead_to_joined, singles, write_joined
from generator.website.policy import SealError, seal
from generator.website.quick_inline import QuickInline
from generator.website.quick_tags import quick_feed
from generator.website.slim import slim

# Which themes are installed is asked of every package, for every site; once will do.
mkdocs.utils.get_themes = functools.cache(mkdocs.utils.get_themes)

# The settings are the same for every site but for a few lines, and YAML in C is quick.
mkdocs.config.defaults.get_yaml_loader = functools.partial(  # type: ignore[attr-defined]  # where it is asked for
    get_yaml_loader, getattr(yaml, "CLoader", yaml.Loader)
)
# So is a page that is written plainly, for the search index.
search.Parser.feed = quick_feed

# What the theme would add to every site and no page of ours uses.
LEFT_OUT = (
    "*.map",
    "assets/images/favicon.png",
    "assets/javascripts/lunr/*",  # search in other languages
    "sitemap.xml",
)


# How a template of the theme names another one that it is made of.
NAMES = re.compile(r'{%-?\s*(?:extends|include|import|from)\s+"([^"]+)"')
THEME, FIRST = "material", "main.html"


class RenderError(Exception):
    """The page tree cannot become a site: a mistake of the program, not of a job."""


def render(config_file: Path, out: Path) -> None:
    """Build one page tree into a folder, strictly and without a word on the terminal.

    Parameters
    ----------
    config_file : Path
        The mkdocs.yml of the page tree.
    out : Path
        The folder that takes the site. What it held before is removed.

    Raises
    ------
    RenderError
        If the builder warns of anything, such as a broken link, or if a page would
        load something from another host.

    Notes
    -----
    One site at a time in a process, since the builder's log belongs to the process;
    processes may run side by side.
    """
    with _listening() as heard:
        try:
            config = load_config(str(config_file), site_dir=str(out), strict=True)
            joined = _prepare(config)
            build(config)
        except MkDocsException as error:
            told = heard or [error.format_message()]
            raise RenderError(f"{config_file}: " + "; ".join(told)) from error
    write_joined(out, joined)
    slim(out)
    try:
        seal(out)
    except SealError as error:
        raise RenderError(f"{config_file}: {error}") from error


def _prepare(config: MkDocsConfig) -> dict[str, bytes]:
    """Make text safe in the theme, leave out what no page uses, join what is ours.

    Gives the content of the joined files, by path in the site.
    """
    # The theme puts these into HTML as they are.
    config.site_name = Markup(escape(config.site_name))
    config.nav = [
        {Markup(escape(title)): path for title, path in item.items()}
        for item in config.nav or []
    ]
    extensions: list[Any] = config.markdown_extensions  # takes these as well as names
    extensions.append(QuickInline())
    theme = config.theme
    theme.static_templates.clear()  # no site map, no 404 page
    folders = tuple(map(os.path.realpath, theme.dirs))  # the same from every page tree
    shared = functools.partial(_environment, theme.name or "", folders)
    theme.get_env = shared  # type: ignore[method-assign]  # compiled once for all sites
    return lead_to_joined(config)


def compile_ahead(folder: Path) -> None:
    """Compile the templates that every page is made by, before there is a page.

    Parameters
    ----------
    folder : Path
        Our own part of the theme.
    """
    dirs = Theme(THEME, custom_dir=str(folder)).dirs
    folders = tuple(map(os.path.realpath, dirs))
    environment, files = _environment(THEME, folders), _ThemeFiles(folders)
    todo, known = [FIRST], {FIRST}
    while todo:
        name = todo.pop()
        try:
            source, _, _ = files.get_source(environment, name)
            environment.get_template(name)
        except jinja2.TemplateNotFound:  # a name that is put together of parts
            continue
        found = set(NAMES.findall(source)) - known
        known |= found
        todo += sorted(found)


@functools.lru_cache(maxsize=4)
def _environment(name: str, folders: tuple[str, ...]) -> jinja2.Environment:
    """The theme's templates, compiled once and then shared by every site."""
    theme = Theme(name, custom_dir=folders[0])
    environment = theme.get_env()
    environment.loader = _ThemeFiles(folders)
    return environment


class _ThemeFiles(jinja2.FileSystemLoader):
    """Theme folders that list only the files a site of ours needs."""

    def list_templates(self) -> list[str]:
        """Every file outside hidden folders; the theme hides 14 000 icons in one."""
        return sorted({name for folder in self.searchpath for name in _names(folder)})


def _names(folder: str) -> Iterator[str]:
    for place, folders, files in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith((".", "__"))]
        inside = os.path.relpath(place, folder)
        for file in files:
            name = os.path.normpath(os.path.join(inside, file)).replace(os.sep, "/")
            left_out = any(fnmatch(name, pattern) for pattern in LEFT_OUT)
            if not left_out and name not in singles():
                yield name


@contextmanager
def _listening() -> Iterator[list[str]]:
    """Keep the builder's warnings from the terminal, and hand them over instead."""
    heard: list[str] = []
    logger = logging.getLogger("mkdocs")
    before = (logger.propagate, logger.level, logger.handlers)
    logger.propagate, logger.handlers = False, [_Ear(heard)]
    logger.setLevel(logging.WARNING)
    try:
        yield heard
    finally:
        logger.propagate, level, logger.handlers = before
        logger.setLevel(level)


class _Ear(logging.Handler):
    """A handler that only remembers."""

    def __init__(self, heard: list[str]) -> None:
        super().__init__(logging.WARNING)
        self.heard = heard

    def emit(self, record: logging.LogRecord) -> None:
        """Remember one message."""
        self.heard.append(record.getMessage())
