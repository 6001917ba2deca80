"""The quick search within lines gives what Python-Markdown gives, for any text."""

from __future__ import annotations

import string

import yaml
from hypothesis import given
from hypothesis import strategies as st
from markdown import Markdown

from generator.website.quick_inline import SIGNS, QuickInline
from tests.website.conftest import PROJECT, SAMPLE

BUILT_IN = yaml.safe_load((PROJECT / "mkdocs.yml").read_text("utf-8"))
EXTENSIONS = [
    one if isinstance(one, str) else next(iter(one))
    for one in BUILT_IN["markdown_extensions"]
]
PARTS = [
    "*", "**", "_", "__", "`", "``", "[", "]", "(", ")", "![", "<", ">", "&", ";", "#x",
    "&amp;", "<b>", "</b>", "<https://example.org>", "a@example.org", "\\", "  \n",
    "\n", "[a]: b", "[a](b)", "{: .c}", "word", " ", "| a | b |", "- ", "1. ",
    "*[word]: w",
]  # fmt: skip


def both(text: str) -> tuple[str, str]:
    theirs = Markdown(extensions=EXTENSIONS).convert(text)
    ours = Markdown(extensions=[*EXTENSIONS, QuickInline()]).convert(text)
    return theirs, ours


@given(st.lists(st.sampled_from(PARTS)).map("".join))
def test_the_same_for_any_signs(text: str) -> None:
    theirs, ours = both(text)
    assert ours == theirs


@given(st.text(string.printable))
def test_the_same_for_any_text(text: str) -> None:
    theirs, ours = both(text)
    assert ours == theirs


def test_the_same_for_whole_pages() -> None:
    for page in sorted(SAMPLE.glob("*.md")):
        theirs, ours = both(page.read_text("utf-8"))
        assert ours == theirs


def test_it_takes_the_place_of_theirs() -> None:
    built = Markdown(extensions=[*EXTENSIONS, QuickInline()])
    assert type(built.treeprocessors["inline"]).__module__ == QuickInline.__module__
    built.convert("plain words")
    tries = built.treeprocessors["inline"]._tries
    assert [bool(signs) for signs, _ in tries] == [True] * len(built.inlinePatterns)


def test_a_pattern_that_is_not_known_is_always_tried() -> None:
    built = Markdown(extensions=[*EXTENSIONS, QuickInline()])
    known = built.inlinePatterns["entity"]
    built.inlinePatterns.register(known, "of somebody else", 1)
    built.inlinePatterns.deregister("entity")
    built.convert("plain words")
    tries = built.treeprocessors["inline"]._tries
    assert [signs for signs, one in tries if one is known] == [""]
    assert "entity" in SIGNS
