"""Rounding, and the inspector's words that can never become markup."""

from __future__ import annotations

import re

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

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
