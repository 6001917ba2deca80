"""A built page loads nothing but its own files, and says so in its security policy."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from generator.website.quick_tags import quick_feed

CHARSET = '<meta charset="utf-8">'
# file: lets the pages work when a folder is opened without a server; a page that
# comes from a server can load no file of the reader's through it. Search fetches the
# index of its own report and starts a worker, both from where the page came from.
POLICY = (
    "default-src 'none'; script-src 'self' file: {scripts}; "
    "style-src 'self' file: 'unsafe-inline'; img-src 'self' file: data:; "
    "connect-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'"
)
LOADING = {
    "action",
    "background",
    "data",
    "formaction",
    "href",
    "poster",
    "src",
    "srcset",
    "xlink:href",
}
LINK_SCHEMES = {"http", "https", "mailto", "tel"}  # allowed where a reader must click
FOREIGN_STYLE = re.compile(r"""(?:url\(|@import)\s*["']?\s*(?:[a-z]+:)?//""", re.I)
NOT_RUN = {"application/json"}  # kinds of script element that hold data
UNWANTED = {"base", "iframe", "object", "embed"}
WITH_A_TASK = {"script", *UNWANTED}  # tags that do something without any attribute


class SealError(Exception):
    """A site that would load something which is not its own, or which is missing."""


def seal(site: Path) -> None:
    """Check every page and style sheet of a built site, then give each page its policy.

    Parameters
    ----------
    site : Path
        The folder that the site builder wrote.

    Raises
    ------
    SealError
        With one line for each reference that must not be there.
    """
    files = {path.relative_to(site).as_posix() for path in site.rglob("*")}
    problems: list[str] = []
    sealed: dict[Path, str] = {}
    for name in sorted(files):
        path = site / name
        if name.endswith(".html"):
            text = path.read_text(encoding="utf-8")
            page = _Page(name, files)
            page.read(text)
            problems += [f"{name}: {problem}" for problem in page.problems]
            sealed[path] = _with_policy(text, page.scripts)
        elif name.endswith(".css") and FOREIGN_STYLE.search(path.read_text("utf-8")):
            problems.append(f"{name}: loads from another host")
    if problems:
        raise SealError("; ".join(problems))
    for path, text in sealed.items():
        path.write_bytes(text.encode("utf-8"))


def _with_policy(text: str, scripts: list[str]) -> str:
    """The page with its policy right after the character set, ahead of all it loads."""
    if text.count(CHARSET) != 1:
        raise SealError(f"a page without exactly one {CHARSET}")
    digests = (hashlib.sha256(script.encode("utf-8")).digest() for script in scripts)
    sources = [f"'sha256-{base64.b64encode(digest).decode()}'" for digest in digests]
    policy = POLICY.format(scripts=" ".join(dict.fromkeys(sources)))
    tag = f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
    return text.replace(CHARSET, f"{CHARSET}\n{tag}")


class _Page(HTMLParser):
    """Reads one page and keeps its inline scripts and what is wrong with it."""

    def __init__(self, name: str, files: set[str]) -> None:
        super().__init__(convert_charrefs=True)
        self.folder = name.rpartition("/")[0]
        self.files = files
        self.scripts: list[str] = []
        self.problems: list[str] = []
        self._in_script = False

    def read(self, text: str) -> None:
        """Read a whole page, by the quick way where it is written plainly."""
        quick_feed(self, text, between=False)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Look at every attribute that can load, run or lead somewhere."""
        if not attrs and tag not in WITH_A_TASK:
            self._in_script = False
            return
        given = {key: value or "" for key, value in attrs}
        runs = tag == "script" and given.get("type") not in NOT_RUN
        self._in_script = runs and "src" not in given
        if self._in_script:
            self.scripts.append("")
        if tag in UNWANTED or "http-equiv" in given:
            self.problems.append(f"<{tag}> has no place on a page")
        for key, value in given.items():
            if key.startswith("on") or FOREIGN_STYLE.search(value):
                self.problems.append(f"<{tag} {key}> runs or loads something")
            elif key in LOADING:
                self.problems += self._wrong(tag, key, value)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Treat ``<img />`` as ``<img>``."""
        self.handle_starttag(tag, attrs)
        self._in_script = False

    def handle_endtag(self, tag: str) -> None:
        """End of an inline script."""
        self._in_script = False

    def handle_data(self, data: str) -> None:
        """Keep the text of an inline script, which the policy names by its digest."""
        if self._in_script:
            self.scripts[-1] += data

    def _wrong(self, tag: str, key: str, value: str) -> Iterator[str]:
        """Say what is wrong with one reference, if anything is."""
        address = urlsplit(value.strip())
        if tag == "img" and value.startswith("data:image/"):
            return
        if address.scheme or address.netloc:
            if tag != "a" or address.scheme not in LINK_SCHEMES:
                yield f'<{tag} {key}="{value}"> leads to another host'
        elif address.path and self._target(address.path) not in self.files:
            yield f'<{tag} {key}="{value}"> leads to a file that is not there'

    def _target(self, path: str) -> str:
        """The file of the site that a relative address means."""
        parts: list[str] = []
        for part in f"{self.folder}/{unquote(path)}".split("/"):
            if part == "..":
                parts = parts[:-1]
            elif part not in {"", "."}:
                parts.append(part)
        return "/".join(parts)
