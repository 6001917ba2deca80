"""How numbers and the inspector's words are written: the only rounding, no markup."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from markdown_it import MarkdownIt
from markupsafe import Markup, escape
from uncertainties import ufloat

from generator.results.result import Number, Result, nominal, standard
from generator.results.rounding import decimals, expanded_of, said

NO_BREAK = "\N{NO-BREAK SPACE}"  # keeps a number and its unit on one line
RISKY = frozenset('\\`*_{}[]<>#!|&~^"$@')  # these could begin markup anywhere
_WRITTEN = {ord(sign): f"&#{ord(sign)};" for sign in RISKY}
BEGINS_INLINE = re.compile(r"[*_\[\]]")  # of emphasis or a link
RISKY_FIRST = re.compile(r"^(?:[-+=:]|\d+[.)](?=\s|$))")  # or at the start of a line


def plain(text: Any) -> Markup:
    """Write a text on one line so that Markdown and HTML see nothing in it.

    Examples
    --------
    >>> str(plain("*a* <b>"))
    '&#42;a&#42; &#60;b&#62;'
    """
    if isinstance(text, Markup):
        return text
    return _without_markup(str(text))


@lru_cache(maxsize=4096)  # a report says many things more than once
def _without_markup(text: str) -> Markup:
    words = " ".join(re.split(r"[ \t\r\n]+", text.strip()))
    first = RISKY_FIRST.match(words)
    if first is None:
        return Markup(words.translate(_WRITTEN))
    at = first.end() - 1
    head, sign, rest = words[:at], words[at], words[at + 1 :]
    return Markup(f"{head.translate(_WRITTEN)}&#{ord(sign)};{rest.translate(_WRITTEN)}")


def _prose_parser() -> MarkdownIt:
    parser = MarkdownIt("zero").enable(["emphasis", "link"])
    parser.validateLink = _http  # type: ignore[method-assign]  # the documented hook
    parser.add_render_rule("text", _text)
    parser.add_render_rule("softbreak", lambda *_: " ")
    parser.add_render_rule("link_open", _link_open)
    parser.add_render_rule("link_close", _link_close)
    return parser


def _link_open(_self: Any, tokens: Any, at: int, _options: Any, _env: Any) -> str:
    return f'<a href="{escape(tokens[at].attrs["href"])}">'


def _link_close(_self: Any, tokens: Any, at: int, _options: Any, _env: Any) -> str:
    """Close a link; a title that was typed in it is shown behind it."""
    opened = next(one for one in reversed(tokens[:at]) if one.type == "link_open")
    title = opened.attrs.get("title")
    return f"</a> {plain(f'({title})')}" if title else "</a>"


def _text(_self: Any, tokens: Any, at: int, _options: Any, _env: Any) -> str:
    return _kept(tokens[at].content)


def _kept(text: str) -> str:
    """Write a run of text, with the spaces at its ends."""
    ends = [" " if text[:1] == " " else "", " " if text[-1:] == " " else ""]
    return f"{ends[0]}{plain(text)}{ends[1]}" if text.strip() else text


def _http(url: str) -> bool:
    return url.lower().startswith(("http://", "https://"))


_PARSER = _prose_parser()


def prose(text: str | None) -> Markup:
    """Write the inspector's words: emphasis and http(s) links, and nothing else.

    Examples
    --------
    >>> str(prose("a *wet* strip"))
    'a <em>wet</em> strip'
    """
    return _with_emphasis(" ".join((text or "").split()))


@lru_cache(maxsize=4096)
def _with_emphasis(line: str) -> Markup:
    if not BEGINS_INLINE.search(line):  # most lines hold none of them
        return plain(line)
    return Markup(_PARSER.renderInline(line))


def ended(text: str) -> Markup:
    """Write the inspector's words on one line, with a full stop at their end.

    Examples
    --------
    >>> str(ended("the owner")), str(ended("Today."))
    ('the owner.', 'Today.')
    """
    return prose(text if text.rstrip().endswith((".", "!", "?")) else f"{text}.")


def number(value: Number, unit: str = "") -> str:
    r"""Write a number with its expanded uncertainty (k = 2), rounded once.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> number(ufloat(82.0, 0.239), "ft"), number(31.0, "min")
    ('82.0\xa0±\xa00.5\xa0ft', '31\xa0min')
    """
    if spread := standard(value):
        value = ufloat(nominal(value), spread)  # its spread is asked for three times
    expanded = expanded_of(value)
    unit = "" if unit == "-" else unit
    places = decimals(value)
    if expanded > 0:
        middle = round(nominal(value), places) + 0.0  # no minus before a nought
        both = f"{middle:.{places}f} ± {expanded:.{places}f} {unit}"
        return both.strip().replace("-", "−").replace(" ", NO_BREAK)
    return said(value, unit).replace(" ", NO_BREAK)


def result(found: Result) -> str:
    """Write a result with its unit and its expanded uncertainty."""
    return number(found.number, found.unit)


def about(found: Result) -> str:
    """Write a rule of thumb as a whole number, at least one."""
    whole = max(1, round(found.value))
    unit = found.unit.removesuffix("s") if whole == 1 else found.unit
    return f"{whole} {unit}"


def day(iso: str) -> str:
    """Write a date in words, the same in every locale.

    Examples
    --------
    >>> day("2026-10-06")
    'October 6, 2026'
    """
    year, month, number_of_day = iso.split("-")
    return f"{MONTHS[int(month) - 1]} {int(number_of_day)}, {year}"


MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


@lru_cache(maxsize=4096)
def anchor(name: str) -> Markup:
    """Make an anchor from the name of a result or the key of a finding.

    Examples
    --------
    >>> str(anchor("pipe.outlet pipe.water.1"))
    'pipe-outlet-pipe-water-1'
    """
    ascii_only = name.lower().encode("ascii", "replace").decode("ascii")
    return Markup("".join(sign if sign.isalnum() else "-" for sign in ascii_only))


def sentence(text: str) -> str:
    """Begin with a capital."""
    return text[:1].upper() + text[1:]
