"""Rounding, and the inspector's words that can never become markup."""

from __future__ import annotations

import re
from html import unescape

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from generator.pages import wording
from generator.pages.blocks import has_blocks, prose_blocks
from generator.pages.wording import number, plain, prose

EXTENSIONS = ["admonition", "attr_list", "md_in_html", "tables", "toc"]
HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "[go](javascript:alert(1))",
    "![pic](https://elsewhere.example/x.png)",
    "{: onclick=alert(1) }",
    "text {: .weight-danger onmouseover=alert(1) }",
    "# heading",
    "1. list",
    "- list",
    "> quote",
    "    code",
    "`code`",
    "***",
    "a | b\n--|--",
    "!!! danger",
    "<div markdown=1>",
    "[ref]: https://elsewhere.example",
    "&lt;b&gt;",
    "\\<b>",
    "</section><b>",
    '" onclick="alert(1)',
    "```\ncode\n```",
    "~~~ {.x}\ncode\n~~~",
    "Title\n=====",
    "Title\n-----",
    "[^1]\n\n[^1]: a footnote",
    "*[HTML]: abbreviation",
    "term\n: definition",
    "[ref]: https://elsewhere.example\n\n[ref] and [text][ref]",
    "&amp; &#60;b&#62; &lt;",
    "- item {: .weight-danger }\n- <b>\n- # heading\n- > quote\n- ```\n- | a |",
    "1. {: #id }\n2. <script>\n\n   ![pic](https://elsewhere.example/x.png)",
    '[a](https://a.example "x|` onclick=1")',
    "<p>\n\n</p>\n\n</div>\n\n</li></ul>",
    "a\n\n    indented\n\n\tindented",
    "* * *\n\n- - -\n\n___",
    "\\\n- \\\n\n\\*",
]
BLOCK_TAGS = {"p", "em", "strong", "a", "ul", "ol", "li", "br"}
PLACES = [  # where such a text may stand on a page
    "{}\n",
    "**What we saw.** {}\n\nAfter.\n",
    '<section class="finding" markdown="1">\n\n**Seen.** {}\n\n</section>\n',
    '<section markdown="1">\n\n<div class="action" markdown="1">\n\n**Do.** {} *By:*'
    " now\n\n</div>\n\n</section>\n",
]


def rendered(text: str) -> str:
    return markdown.markdown(text, extensions=EXTENSIONS)


def tags(html: str) -> set[str]:
    return set(re.findall(r"<\s*/?\s*([a-zA-Z0-9]+)", html))


@pytest.mark.parametrize("text", HOSTILE)
def test_plain_text_is_shown_as_typed(text: str) -> None:
    html = rendered(f"Before {plain(text)} after\n\n{plain(text)}\n")
    assert tags(html) <= {"p"}
    assert " onclick=" not in re.sub(r">[^<]*<", "><", html)


@pytest.mark.parametrize("text", HOSTILE)
def test_prose_knows_emphasis_and_links_only(text: str) -> None:
    html = rendered(f"Before {prose(text)} after\n\n{prose(text)}\n")
    assert tags(html) <= {"p", "em", "strong", "a"}
    assert "javascript:" not in "".join(re.findall(r'href="[^"]*"', html))


@settings(deadline=None, derandomize=True, max_examples=300)
@given(st.text(max_size=80))
def test_no_text_becomes_markup(text: str) -> None:
    assert tags(rendered(f"x {plain(text)}\n\n{plain(text)}")) <= {"p"}
    assert tags(rendered(f"x {prose(text)}\n\n{prose(text)}")) <= {
        "p",
        "em",
        "strong",
        "a",
    }


def visible(html: str) -> str:
    """The words that a reader sees, without any space."""
    return "".join(unescape(re.sub(r"<[^>]*>", "", html)).split())


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("text", HOSTILE)
def test_blocks_know_paragraphs_lists_emphasis_and_links_only(
    text: str, place: str
) -> None:
    html = rendered(place.format(prose_blocks(text)))
    assert tags(html) <= BLOCK_TAGS | tags(place)
    attributes = set(re.findall(r"<\w+ ([^>]*)>", html.replace(' class="action"', "")))
    assert all(
        re.fullmatch(r'(href="https?://[^"]*"|value="\d+"|class="finding")', one)
        for one in attributes
    )


@pytest.mark.parametrize("text", [one for one in HOSTILE if "https" not in one])
def test_blocks_show_what_was_typed(text: str) -> None:
    """Only the marks of a list go; the browser puts its own in their place."""
    typed = re.sub(r"(?m)^\s*(?:-|\d+\.)[ ](?=\S)(?!- )", "", text)
    assert visible(rendered(str(prose_blocks(text)))) == "".join(typed.split())


# Signs that can mark emphasis, a link or a list are left out of these words.
UNMARKED = st.text(
    st.characters(exclude_characters="*_[]-+\x02\x03\x00", exclude_categories=["Cs"])
).filter(lambda text: not re.search(r"(?m)^\s*1[.)]", text))


@settings(deadline=None, derandomize=True, max_examples=300)
@given(UNMARKED, st.sampled_from(PLACES))
def test_blocks_of_any_text_show_it_as_typed(text: str, place: str) -> None:
    html = rendered(place.format(prose_blocks(text)))
    assert tags(html) <= BLOCK_TAGS | tags(place)
    assert visible(html) == visible(rendered(place.format("@"))).replace(
        "@", "".join(text.split())
    )


@settings(deadline=None, derandomize=True, max_examples=300)
@given(
    st.lists(st.text("ab*_[]()-+1. \n\t<>{}:#`|&;!\\/hts\"'", max_size=30), max_size=4),
    st.sampled_from(PLACES),
)
def test_no_block_becomes_markup(parts: list[str], place: str) -> None:
    html = rendered(place.format(prose_blocks("\n".join(parts))))
    assert tags(html) <= BLOCK_TAGS | tags(place)


ITEMS = st.lists(st.sampled_from(["wet", "<b>", "# a", "{: .x }", "| a |"]), min_size=1)


@settings(deadline=None, derandomize=True, max_examples=100)
@given(ITEMS, st.sampled_from(["- {}", "* {}", "{n}. {}"]), st.sampled_from(PLACES))
def test_lists_live(items: list[str], mark: str, place: str) -> None:
    typed = [mark.format(one, n=n) for n, one in enumerate(items, 1)]
    text = "\n".join(["Seen:", *typed, "", "The end."])
    html = rendered(place.format(prose_blocks(text)))
    found = re.findall(r"<li>(.*?)</li>", html, re.S)
    assert [unescape(one) for one in found] == items
    assert ("<ol>" in html) == mark.startswith("{n}")
    assert has_blocks(text)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("", ""),
        (None, ""),
        ("one\nline", "one line"),
        ("one\n\ntwo", "one\n\n<p>two</p>\n\n"),
        ("1. a\n5. b", '\n\n<ol><li>a</li><li value="5">b</li></ol>\n\n'),
        ("1979. The tank", "1979&#46; The tank"),
        ("-5 in", "&#45;5 in"),
        ("+ a", "&#43; a"),
        ("- a\n  - b", "\n\n<ul><li>a<ul><li>b</li></ul></li></ul>\n\n"),
        ("- a\n\n  b", "\n\n<ul><li><p>a</p><p>b</p></li></ul>\n\n"),
        ("- " * 40 + "a", None),
    ],
)
def test_blocks(text: str | None, wanted: str | None) -> None:
    found = str(prose_blocks(text))
    assert wanted is None or found == wanted
    assert "a" not in (text or "") or "a" in visible(found)


def test_title_of_a_link_is_shown_behind_it() -> None:
    found = str(prose('[here](https://a.example "its | title")'))
    assert found == '<a href="https://a.example">here</a> (its &#124; title)'


def test_emphasis_and_links_live() -> None:
    html = rendered(str(prose("a *wet* **strip**, see [here](https://a.example/b_c)")))
    assert "<em>wet</em>" in html
    assert "<strong>strip</strong>" in html
    assert 'href="https://a.example/b_c"' in html


def test_rounding_keeps_at_most_two_digits_of_the_uncertainty() -> None:
    """GUM 7.2.6: an uncertainty is quoted with at most two significant digits."""
    cases = {
        number(ufloat(124.589, 2.617), "gal"): "125 ± 5 gal",
        number(ufloat(22.442, 0.138), "gal/in"): "22.44 ± 0.28 gal/in",
        number(ufloat(0.436, 0.0239), "in"): "0.44 ± 0.05 in",
        number(ufloat(-11.0, 3.0), "gal"): "−11 ± 6 gal",
        number(31.0, "min"): "31 min",
    }
    for found, wanted in cases.items():
        assert found.replace("\N{NO-BREAK SPACE}", " ") == wanted


def test_no_minus_before_a_nought() -> None:
    assert number(ufloat(-0.004, 0.4), "ft") == "0.0\xa0±\xa00.8\xa0ft"


@given(st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"])))
def test_a_line_without_emphasis_or_link_is_written_alike_the_short_way(
    text: str,
) -> None:
    line = " ".join(text.split())
    assert prose(text) == wording._PARSER.renderInline(line)
