"""Where the layout of a file breaks, told at the line to mend."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import yaml

from generator.problems import Problem
from generator.record.autocorrect import curly, spaced, swapped

_SECOND_COLON = "mapping values are not allowed"
_SECOND_HYPHEN = "sequence entries are not allowed"
_COLON = re.compile(r":(?:\s|$)")
_BARE_HYPHEN = re.compile(r".*:\s+[-–—]\s*(?:#.*)?")
_CLOSED = re.compile(r":\s*[\[{][^\]}]*[\]}]\s*[^\s#]")


@dataclass(frozen=True)
class _Broken:
    """The line where the layout breaks, and what the parser says of it.

    ``before`` is what stands in front of the very place.
    """

    here: str
    before: str
    above: str
    said: str


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _last(lines: list[str], line: int) -> int:
    """Give this line, or the last one above it that is not empty."""
    while line > 1 and not lines[line - 1].strip():
        line -= 1
    return line


def grammar(file: str, text: str, error: yaml.MarkedYAMLError) -> Problem:
    """Tell where the layout breaks, at the line to mend, and how to mend it."""
    mark = error.problem_mark or error.context_mark
    if error.context and re.search("quoted|flow|simple key", error.context):
        mark = error.context_mark or mark  # where it was opened, not the file's end
    line = min(mark.line + 1, text.count("\n") + 1) if mark else 0
    lines = text.splitlines()
    here = lines[line - 1] if 0 < line <= len(lines) else ""
    above = next(
        (one for one in reversed(lines[: max(line - 1, 0)]) if one.strip()), ""
    )
    before = here[: mark.column] if mark else ""
    said = f"{error.context or ''} {error.problem or ''}"
    for at, typed in ((line, here), (line - 1, above)):
        if told := swapped(typed):
            return Problem(file, _last(lines, at), "", *told)
    broken = _Broken(here, before, above, said)
    if lost := _colon_lost(lines[: max(line - 1, 0)], broken):
        typed = lines[lost - 1].partition(" #")[0]
        hint = spaced(typed) + _A_TEXT * typed.lstrip().startswith("- ")
        return Problem(file, lost, "", _NO_COLON, hint)
    for trap, message, hint in _GRAMMAR:
        if trap(broken):
            return Problem(file, line, "", message, hint)
    return Problem(
        file,
        line,
        "",
        "The layout of this line cannot be followed.",
        "Compare its indentation and its colon with the lines around it.",
    )


def _colon_lost(above: list[str], at: _Broken) -> int:
    """Find the line whose colon was lost, told by the parser at a later one.

    Such a line goes on as one text, up to the colon of a line below it; a remark
    behind it ends the text, and the next key is then out of place.
    """
    runs_on, ended = _SECOND_COLON in at.said, "block mapping" in at.said
    if not (runs_on or ended) or _COLON.search(at.before):
        return 0
    lost = 0
    for number in range(len(above), 0, -1):
        typed = above[number - 1].partition(" #")[0].strip()
        if not typed or typed.startswith("#"):
            continue
        if _COLON.search(typed):
            return lost if typed.endswith(":") else 0
        lost = number
        if typed.startswith("- "):
            return lost if runs_on else 0
    return lost


_NO_COLON = "This line needs a colon and a space behind its key."
_A_TEXT = " A text takes no keys below it: line those up with its list."
_GRAMMAR: tuple[tuple[Callable[[_Broken], bool], str, str], ...] = (
    (
        lambda at: "\t" in at.here,
        "There is a tab in this line.",
        "Indent with spaces only.",
    ),
    (
        lambda at: _SECOND_COLON in at.said and curly(at.here),
        "Curly quotation marks do not hold a text together that has a colon in it.",
        'Use straight ones, "like these"; on a phone, hold the key down to find them.',
    ),
    (
        lambda at: (
            _SECOND_COLON in at.said
            and _COLON.search(at.before) is not None
            and at.here.partition(" #")[0].rstrip() == f"{at.before}:"
        ),
        "This line has a second colon, at its end.",
        "Take it out, or put the text between quotes.",
    ),
    (
        lambda at: (
            _SECOND_COLON in at.said
            and _COLON.search(at.before) is None
            and _indent(at.here) > _indent(at.above)
        ),
        "This line begins further to the right than the line above allows.",
        "Line up its key with the key above; a text that goes on over the line and has "
        '": " in it stands between quotes.',
    ),
    (
        lambda at: _SECOND_COLON in at.said,
        "This line has a second colon.",
        'Put a text that has ": " in it between quotes.',
    ),
    (
        lambda at: _SECOND_HYPHEN in at.said and bool(_BARE_HYPHEN.fullmatch(at.here)),
        "A hyphen by itself is no value.",
        "Write what was read, or take the line out.",
    ),
    (
        lambda at: _SECOND_HYPHEN in at.said and ": - " in at.here,
        "A list cannot begin on the line of its key.",
        'Write its lines below the key, each beginning with "- "; a number below zero '
        'has no space, as in "-2 in".',
    ),
    (
        lambda at: "escape" in at.said,
        "A backslash cannot stand between double quotation marks.",
        "Leave the backslash out, or use single ones.",
    ),
    (
        lambda at: "quoted scalar" in at.said,
        "A quotation mark is opened and never closed.",
        "Close it, or leave both out; write feet and inches as 18 ft 4 in.",
    ),
    (
        lambda at: "flow" in at.said,
        "A bracket is opened and never closed, or a comma is missing.",
        "Close it on the same line.",
    ),
    (
        lambda at: "cannot start any token" in at.said or "anchor" in at.said,
        "A text cannot begin with this character.",
        "Put the text between quotes.",
    ),
    (
        lambda at: "undefined alias" in at.said or "alias" in at.said,
        "An alias (*name) is not allowed.",
        "Write the text out, or put it between quotes.",
    ),
    (
        lambda at: "could not find expected ':'" in at.said,
        "A key here has no colon after it.",
        'Write "key: value", with a space after the colon; a text that goes on over '
        "the line stands further to the right than its key.",
    ),
    (
        lambda at: (
            "expected" in at.said and re.search(r":\s*['\"]", at.here) is not None
        ),
        "A text goes on after its closing quotation mark.",
        "Put the whole text between quotes, or none of it.",
    ),
    (
        lambda at: "expected" in at.said and _CLOSED.search(at.here) is not None,
        "Something stands behind the closing bracket of this line.",
        "Take it out, or put the whole text between quotes.",
    ),
    (
        lambda at: "expected" in at.said and at.here.lstrip().startswith("- "),
        "The hyphen of this line does not line up with those above it.",
        "Put it straight below the hyphen of the entry above.",
    ),
    (
        lambda at: "block" in at.said and "expected" in at.said,
        "This line does not line up with the keys above it.",
        "Indent it as far as the other keys of its group.",
    ),
)
