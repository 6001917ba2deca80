"""The quick way finds the tags that html.parser finds, or leaves the page to it."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.website.quick_tags import plain_tags, quick_feed

PARTS = [
    "<p>", "</p>", "<a href=\"x\">", "<a href='x'>", "<a href=x>", "<br/>", "<br />",
    "<img src=\"a&amp;b\" alt>", "<IMG SRC=\"x\"/>", "<!-- a -->", "<!doctype html>",
    "<script>", "</script>", "<script src=\"x\">", "<style>", "</style>", "if (a<b)",
    "word", " ", "<", ">", "\"", "&lt;", "\n", "</ p>", "<p\nid=\"a\"\n>", "<1>",
    "<?x?>",
    "<a b=\"c\"d>", "</p q>", "<a/b>",
    "<a b = \"c\">", "<a onclick=\"x()\">", "=",
    "/",
]  # fmt: skip


class Heard(HTMLParser):
    """Keeps what the quick way tells as well."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.told: list[Any] = []
        self.raw = ""

    def handle_starttag(self, tag: str, attrs: list[Any]) -> None:
        self.told.append(("start", tag, attrs))
        self.raw = tag if tag in ("script", "style") else ""
        if self.raw:
            self.told.append(("data", "", []))

    def handle_startendtag(self, tag: str, attrs: list[Any]) -> None:
        self.told.append(("alone", tag, attrs))

    def handle_endtag(self, tag: str) -> None:
        self.told.append(("end", tag, []))
        self.raw = ""

    def handle_data(self, data: str) -> None:
        if self.raw:
            kind, before, _ = self.told.pop()
            self.told.append((kind, before + data, []))


class HeardAll(HTMLParser):
    """Keeps all that a parser is told, a text that comes in parts as one."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.told: list[Any] = []

    def handle_starttag(self, tag: str, attrs: list[Any]) -> None:
        self.told.append(("start", tag, attrs))

    def handle_startendtag(self, tag: str, attrs: list[Any]) -> None:
        self.told.append(("alone", tag, attrs))

    def handle_endtag(self, tag: str) -> None:
        self.told.append(("end", tag, []))

    def handle_data(self, data: str) -> None:
        if data:
            self.told.append(("data", data, []))


def heard(text: str) -> list[Any]:
    parser = Heard()
    parser.feed(text)
    parser.close()
    return parser.told


@given(st.lists(st.sampled_from(PARTS)).map("".join))
def test_it_tells_what_the_parser_tells_or_nothing(text: str) -> None:
    found = plain_tags(text)
    if found is not None:
        assert found == heard(text)


@given(st.lists(st.sampled_from(PARTS)).map("".join))
def test_a_parser_is_told_the_same_either_way(text: str) -> None:
    quick, whole = HeardAll(), HeardAll()
    quick_feed(quick, text)
    whole.feed(text)
    for parser in (quick, whole):
        parser.close()
    assert quick.told == whole.told


def test_pages_of_a_site_are_read_the_quick_way(sample_site: Path) -> None:
    for page in sample_site.glob("*.html"):
        text = page.read_text("utf-8")
        assert plain_tags(text) == heard(text)


@pytest.mark.parametrize(
    "text",
    ["<a href='x'>", "<a href=x>", "a < b", "<!-- x -->", "<script>", "<script/>", "<"],
)
def test_what_is_not_plain_is_left_to_the_parser(text: str) -> None:
    assert plain_tags(text) is None
