"""Our style sheets in one file and our scripts in one, so that a phone asks for two."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig

from generator.website.tree import THEME

ASSETS = "assets"
STYLE, SCRIPT = f"{ASSETS}/report.css", f"{ASSETS}/report.js"


@cache
def singles() -> frozenset[str]:
    """Name the files that are published as parts of the two alone."""
    found = (THEME / ASSETS).iterdir()
    return frozenset(
        f"{ASSETS}/{one.name}" for one in found if one.suffix in (".css", ".js")
    )


def lead_to_joined(config: MkDocsConfig) -> dict[str, bytes]:
    """Lead the pages of a site to the joined files, in place of their parts.

    Parameters
    ----------
    config : MkDocsConfig
        The settings of the site, whose own sheets and scripts are all ours.

    Returns
    -------
    dict of str to bytes
        Content of the joined files, by path in the site.
    """
    sheets = tuple(map(str, config.extra_css))
    scripts = tuple(map(str, config.extra_javascript))
    config.extra_css = [STYLE]
    config.extra_javascript = [SCRIPT]
    return {STYLE: _joined(sheets), SCRIPT: _joined(scripts, "{\n", "}\n")}


@cache
def _joined(names: tuple[str, ...], before: str = "", after: str = "") -> bytes:
    """Put files behind each other; names of one script stay in its braces."""
    texts = ((THEME / name).read_text(encoding="utf-8") for name in names)
    return "".join(f"{before}{text}{after}" for text in texts).encode("utf-8")


def write_joined(site: Path, contents: dict[str, bytes]) -> None:
    """Write the joined files into a built site."""
    for name, content in contents.items():
        (site / name).parent.mkdir(exist_ok=True)
        (site / name).write_bytes(content)
