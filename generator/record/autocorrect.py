"""What a phone puts in place of what was typed: bullets, long dashes, hard spaces.

Each is told with what to type instead. A line is looked at only where the layout has
broken, so that a text may hold any of these.
"""

from __future__ import annotations

import re
from collections.abc import Collection

_BULLETS = "•·▪◦‣∙*–—−"
_MERGE = "<<"
_HARD = "\u00a0\u2007\u202f\u3000"
_HYPHEN = (
    'Begin the line with "- ", a plain hyphen and a space; a phone may change a hyphen.'
)
_SPACES = "Delete the spaces in front of it, and type them again."
_LINES: tuple[tuple[re.Pattern[str], str, str], ...] = (
    (
        re.compile(rf"\s*(?P<found>[{_BULLETS}])\s"),
        'This line begins with "{found}", which is not the hyphen of a list.',
        _HYPHEN,
    ),
    (
        re.compile(r"\s*-(?:[^\W\d_]|\d[^#\"']*:(?:\s|$))"),
        "There is no space behind the hyphen of this line.",
        'Begin it with "- ", a hyphen and a space.',
    ),
    (
        re.compile(r"\s*- - "),
        "This line begins with two hyphens.",
        'Begin it with one "- ".',
    ),
    (
        re.compile("%"),
        'A line cannot begin with "%".',
        "Take the line out; no job file needs it.",
    ),
    (
        re.compile(r"\.\.\.\s*$"),
        "A line of three dots ends the file.",
        "Take the line out.",
    ),
    (
        re.compile(rf" *[{_HARD}]"),
        "This line is indented with hard spaces, which a phone or a web page put in.",
        _SPACES,
    ),
    (
        re.compile(rf"[^#\"']*:[{_HARD}]"),
        "There is a hard space behind the colon of this line.",
        "Delete the space, and type it again.",
    ),
    (
        re.compile(r"\s*(?:- )?\w+\s?："),
        "This line has a full-width colon (：).",
        'Write a plain colon and a space: "key: value".',
    ),
)
LONGEST_MENDED = 80  # characters of a line that a hint repeats; our choice
_KEY_AND_VALUE = re.compile(
    r"\s*(?:- )?(?P<key>[A-Za-z][A-Za-z_]*)(?:\s*[:;=]\s*|\s+)(?P<rest>[^\s:].*?)\s*$"
)
_HEAD = re.compile(r" *([A-Za-z_]{1,40}) *")
_CURLY = re.compile("[“”„‟][^“”„‟]*: ")


def swapped(line: str) -> tuple[str, str] | None:
    """Say what in a broken line was not typed so, and how to mend it."""
    for pattern, message, hint in _LINES:
        if found := pattern.match(line):
            return message.format(**found.groupdict()), hint
    return None


def curly(line: str) -> bool:
    """Say whether curly quotation marks stand around a colon."""
    return _CURLY.search(line) is not None


def spaced(line: str) -> str:
    """Say how to write a line whose colon, or the space behind it, was lost.

    Examples
    --------
    >>> spaced("  given_by:seller")
    'Write it like "given_by: seller".'
    """
    if head := _HEAD.fullmatch(line):
        return f'Write "{head[1]}:", with its keys below it.'
    found = _KEY_AND_VALUE.match(line) if len(line) <= LONGEST_MENDED else None
    if not found:
        return 'Write "key: value", with a space after the colon.'
    return f'Write it like "{found["key"]}: {found["rest"]}".'


def as_meant(key: str, known: Collection[str]) -> str:
    """Say how to write a key that differs from a known one only by its looks.

    Examples
    --------
    >>> as_meant("Visit", ["visit"])
    'Write it in small letters: "visit".'
    """
    if key == _MERGE:
        return "Write its keys out here; nothing is taken over from elsewhere."
    plain = key.strip(_HARD + _BULLETS + "- ").lower()
    if any(one in key for one in _HARD) and plain in known:
        return f'There is a hard space in front of "{plain}". {_SPACES}'
    if key.startswith((*_BULLETS, "-")):
        return _HYPHEN
    if plain not in known:
        return ""
    return f'Write it in small letters: "{plain}".'
