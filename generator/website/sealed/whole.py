"""One built page made whole: its styles and its pictures inside it, no script.

The page comes from our own site builder, is well formed, and was checked by
``policy.py``; the standard library's parser is therefore enough. It hands every tag on
as it was written, so that nothing changes but pictures and links.
"""

from __future__ import annotations

import base64
import re
from html import escape
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from generator.website.policy import LINK_SCHEMES

HERE = Path(__file__).parent
KINDS = {".svg": "image/svg+xml", ".jpg": "image/jpeg"}
ARTICLE = "article"
# The theme's own sheets, in a folder below, are left out: report.css takes their place.
OWN_SHEET = re.compile(r'<link rel="stylesheet" href="(assets/[^/"]+\.css)">')
# Of all large pictures of a report together: our choice, soon there on a phone.
LARGE_BYTES = 2_000_000

_PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<title>{title}</title>
<style>
{style}</style>
</head>
<body>
<main>
<article class="md-typeset">
{article}
</article>
</main>
</body>
</html>
"""


def whole_page(page: Path, title: str) -> str:
    """Put all that a page shows into one text.

    Parameters
    ----------
    page : Path
        A page of a built site, beside its style sheets and pictures.
    title : str
        The title of the whole.

    Returns
    -------
    str
        HTML that loads nothing and runs nothing. Links to files of the site are plain
        words. Pictures are large where all of them together stay small enough.
    """
    text = page.read_text(encoding="utf-8")
    article = _Article(page.parent, text, large=True)
    if article.weight > LARGE_BYTES:
        article = _Article(page.parent, text, large=False)
    own = (page.parent / name for name in OWN_SHEET.findall(text))
    sheets = [HERE / "report.css", *own]
    style = "".join(sheet.read_text(encoding="utf-8") for sheet in sheets)
    inside = "".join(article.written).strip()
    return _PAGE.format(title=escape(title), style=style, article=inside)


class _Article(HTMLParser):
    """What stands inside the article of a page, with its pictures put in.

    A picture that was shown before names the one it repeats, by its number on the page,
    and is not put in again.
    """

    def __init__(self, site: Path, text: str, *, large: bool) -> None:
        super().__init__(convert_charrefs=False)
        self.site = site
        self.large = large
        self.written: list[str] = []
        self.weight = 0  # bytes of large pictures
        self._pictures: list[str] = []
        self._links: list[str | None] = []  # of the links around; None stays a link
        self._inside = False
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Hand a tag on; take a link to a file away, and put a picture in."""
        given = {key: value or "" for key, value in attrs}
        if not self._inside:
            self._inside = tag == ARTICLE
        elif tag == "a":
            self._begin_link(given.get("href", ""))
        elif tag == "img":
            self._put_in(given)
        else:
            self._write(self.get_starttag_text() or "")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Treat ``<img />`` as ``<img>``."""
        self.handle_starttag(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        """Hand the end of a tag on."""
        if tag == ARTICLE:
            self._inside = False
        elif tag != "a":
            self._write(f"</{tag}>")
        elif self._links and self._links.pop() is None:
            self._write("</a>")

    def handle_data(self, data: str) -> None:
        """Hand text on as it was written."""
        self._write(data)

    def handle_entityref(self, name: str) -> None:
        """Hand a named sign on."""
        self._write(f"&{name};")

    def handle_charref(self, name: str) -> None:
        """Hand a numbered sign on."""
        self._write(f"&#{name};")

    def _write(self, text: str) -> None:
        if self._inside:
            self.written.append(text)

    def _begin_link(self, href: str) -> None:
        """Keep a link to a place on the page or to another host, and no other."""
        stays = href.startswith("#") or urlsplit(href).scheme in LINK_SCHEMES
        self._links.append(None if stays else href)
        if stays:
            self._write(self.get_starttag_text() or "")

    def _put_in(self, given: dict[str, str]) -> None:
        name = given.pop("src")
        behind = self._links[-1] if self._links else None
        if self.large and behind and Path(behind).suffix == Path(name).suffix:
            name = behind  # a picture is a link to its large self
        given.pop("loading", None)
        told = "".join(f' {key}="{escape(value)}"' for key, value in given.items())
        self._write(f"<img {self._source(name)}{told}>")

    def _source(self, name: str) -> str:
        before = self._pictures.index(name) if name in self._pictures else None
        self._pictures.append(name)
        if before is not None:
            return f'data-same="{before}"'
        file = self.site / unquote(name)
        content = file.read_bytes()
        self.weight += len(content)
        text = base64.b64encode(content).decode("ascii")
        return f'src="data:{KINDS[file.suffix]};base64,{text}"'
