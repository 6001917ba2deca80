"""Plain data as YAML in our own style: short lines, one line for each small entry."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from typing import Any

WIDTH = 79  # columns of a line; our choice, a phone held across shows as many
_STEP = 2  # columns of one indent
_OPENERS = tuple("-?:,[]{}#&*!|>'\"%@`=<~")
_NUMBER = re.compile(r"[-+]?(\d[\d_]*\.?\d*|\.\d+)([eE][-+]?\d+)?|0[xo][\da-fA-F]+")
_WORDS = {"null", "true", "false", ".nan", ".inf"}  # a tool may read more into these


def written(data: Mapping[str, Any]) -> str:
    """Write plain data as a YAML file.

    Parameters
    ----------
    data : mapping
        Keys with texts, whole numbers, lists and groups of keys.

    Returns
    -------
    str
        The file, which reads back as the same data.

    Examples
    --------
    >>> print(written({"tanks": [{"name": "tank", "sludge": "11 in"}]}), end="")
    tanks:
      - {name: tank, sludge: 11 in}
    """
    return "\n".join((*block(data), ""))


def block(data: Mapping[str, Any], indent: int = 0) -> list[str]:
    """Write a group of keys, each beginning a line of its own."""
    return [line for key, value in data.items() for line in _pair(key, value, indent)]


def entry(value: Any, indent: int, *, flat: bool = True) -> list[str]:
    """Write one entry of a list, on one line where it fits and ``flat`` allows it."""
    mark = " " * indent + "- "
    if flat or not _holds(value):
        line = mark + _flow(value)
        if not _holds(value) and not isinstance(value, str):
            return [line.rstrip()]
        if _fits_flat(value, line):
            return [line]
    if isinstance(value, str):
        return _text(mark.rstrip(), value, indent + _STEP)
    below = indent + _STEP
    if isinstance(value, Mapping):
        first, *rest = block(value, below)
    else:
        first, *rest = (line for one in value for line in entry(one, below))
    return [mark + first[below:], *rest]


def scalar(value: str | int | None, *, flow: bool = False) -> str:
    """Write a text or a number on one line, between quotes only where YAML needs it.

    Examples
    --------
    >>> scalar("5 gal in 75 s"), scalar("2019"), scalar("a, b", flow=True)
    ('5 gal in 75 s', '"2019"', '"a, b"')
    """
    if value is None or isinstance(value, int):
        return "" if value is None else str(value)
    if _plain(value, flow):
        return value
    if value.isprintable() and ('"' in value or "\\" in value):
        return "'" + value.replace("'", "''") + "'"
    return '"' + "".join(map(_escaped, value)) + '"'


def _pair(key: str, value: Any, indent: int) -> list[str]:
    head = f"{' ' * indent}{scalar(key, flow=True)}:"
    if isinstance(value, Mapping) and value:
        return [head, *block(value, indent + _STEP)]
    if isinstance(value, list) and value:
        line = f"{head} {_flow(value)}"
        if not any(_holds(one) for one in value) and _fits_flat(value, line):
            return [line]
        entries = (entry(one, indent + _STEP) for one in value)
        return [head, *(line for lines in entries for line in lines)]
    if isinstance(value, str):
        return _text(head, value, indent + _STEP)
    return [f"{head} {_flow(value)}".rstrip()]


def _text(head: str, value: str, indent: int) -> list[str]:
    """Write a text behind its key: on its line, or folded where it is long."""
    line = f"{head} {scalar(value)}"
    pad = " " * indent
    if len(line) > WIDTH and value.isprintable() and value == " ".join(value.split()):
        room = max(WIDTH - indent, WIDTH // 2)
        folded = textwrap.wrap(
            value, room, break_long_words=False, break_on_hyphens=False
        )
        return [f"{head} >-", *(pad + one for one in folded)]
    rows = value.split("\n")
    if len(rows) > 1 and all(map(_stands_in_a_block, rows)):
        return [f"{head} |-", *(pad + one for one in rows)]
    return [line]


def _stands_in_a_block(row: str) -> bool:
    return row != "" and row.isprintable() and row == row.strip()


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        pairs = (
            f"{scalar(key, flow=True)}: {_flow(one)}" for key, one in value.items()
        )
        return "{" + ", ".join(pairs) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return scalar(value, flow=True)


def _fits_flat(value: Any, line: str) -> bool:
    nested = value.values() if isinstance(value, Mapping) else ()
    deep = any(
        isinstance(one, Mapping) or (isinstance(one, list) and any(map(_holds, one)))
        for one in nested
    )
    return len(line) <= WIDTH and not deep and None not in _leaves(value)


def _leaves(value: Any) -> Iterator[Any]:
    if isinstance(value, Mapping):
        value = list(value.values())
    if not isinstance(value, list):
        yield value
        return
    for one in value:
        yield from _leaves(one)


def _holds(value: Any) -> bool:
    return isinstance(value, Mapping | list) and bool(value)


def _plain(text: str, flow: bool) -> bool:
    """Say whether a text needs no quotes, here and for other tools."""
    if not text or not text.isprintable() or text != text.strip():
        return False
    if text.startswith(_OPENERS) or text.lower() in _WORDS or _NUMBER.fullmatch(text):
        return False
    if ": " in text or " #" in text or text.endswith(":"):
        return False
    return not (flow and re.search(r"[,\[\]{}]", text))


def _escaped(sign: str) -> str:
    if sign in '"\\':
        return "\\" + sign
    if sign.isprintable():
        return sign
    if sign == "\n":
        return "\\n"
    code = ord(sign)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"
