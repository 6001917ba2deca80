"""Readings on one line, such as ``- 10 min: 1/2 in above``, written out in full.

Which lists may be written so stands in the schema: ``x-key`` and ``x-value`` are
patterns with the names of keys in braces, and the first pattern that fits is taken.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import Any

from generator.record.listed import as_listed, followed
from generator.record.read import Document
from generator.record.wordings import LONGEST_SHOWN, close

_BRACED = re.compile(r"\{(\w+)\}")
_NAME = re.compile(r"\\\{(\w+)\\\}")
_BETWEEN = re.compile(r"\s*,\s*")
_ENDS = re.compile(
    r"(?P<first>\d[\d./ ]*?)\s*(?P<own>[a-z'\"]*)\s*(?:-|–|—|to)\s*"
    r"(?P<second>\d[\d./ ]*?)\s*(?P<unit>[a-z'\"]+)",
    re.I,
)
_TWO_TIMES = re.compile(r"\s*\d?\d:\d\d[ apm.]*[-–—]\s*\d?\d:\d\d[ apm.]*", re.I)
LONGEST_LINE = 1000  # characters; our choice, a longer one is not taken apart
SHORTEST_WORD = 3  # letters; a shorter key cannot be told from a name, our choice


def written_out(document: Document, schema: dict[str, Any]) -> Document:
    """Write out every reading that stands on one line.

    Parameters
    ----------
    document : Document
        What the reader made of the file.
    schema : dict
        The schema of the file, in its checked form.

    Returns
    -------
    Document
        The same data in the long form; each new key has the line of its reading.
        ``on_one_line`` are the entries written out, ``overfull`` those among them
        that have further keys below their line, which the check refuses.
    """
    root = _Root(schema, dict(document.lines))
    data = _node(document.data, schema, "", root)
    return replace(
        document,
        data=data,
        lines=root.lines,
        on_one_line=frozenset(root.on_one_line),
        overfull=frozenset(root.overfull),
    )


def two_times(found: str) -> bool:
    """Say whether a text is two times of day with a dash between them."""
    return _TWO_TIMES.fullmatch(found) is not None


def in_two_ends(found: str, key: str, others: dict[str, Any], like: str) -> str:
    """Say how to write a range where the group has room for both of its ends."""
    ends = _ENDS.fullmatch(found.strip())
    if not ends:
        return f'Write it like "{like}", or give "{key}" and "to".'
    first, second = ends["first"], f"{ends['second']} {ends['unit']}"
    first = f"{first} {ends['own'] or ends['unit']}"
    texts = [one for one in others.values() if isinstance(one, str)]
    said = texts[0] if texts and len(texts[0]) <= LONGEST_SHOWN else "..."
    return f'Write it like "{first} to {second}: {said}", or give "{key}" and "to".'


class _Root:
    """What every step needs: the whole schema, and what is noted on the way."""

    def __init__(self, schema: dict[str, Any], lines: dict[str, int]) -> None:
        self.schema = schema
        self.lines = lines
        self.on_one_line: set[str] = set()
        self.overfull: set[str] = set()

    def resolved(self, node: dict[str, Any]) -> dict[str, Any]:
        return followed(node, self.schema)


def _node(found: Any, schema: dict[str, Any], path: str, root: _Root) -> Any:
    schema = root.resolved(schema)
    if isinstance(found, list) and "items" in schema:
        item = root.resolved(schema["items"])
        return [
            _node(_entry(one, item, f"{path}[{n}]", root), item, f"{path}[{n}]", root)
            for n, one in enumerate(found)
        ]
    if isinstance(found, dict) and "properties" in schema:
        known = schema["properties"]
        return {
            key: _node(one, known[key], f"{path}.{key}" if path else key, root)
            if key in known
            else one
            for key, one in found.items()
        }
    return found


def _entry(found: Any, schema: dict[str, Any], path: str, root: _Root) -> Any:
    """Write out one entry of a list where it is on one line; else leave it."""
    if "one_line" not in schema or not isinstance(found, dict) or not found:
        return found
    (key, value), *further = found.items()
    long = _in_full(key, value, schema, root)
    if not long or (further and not _overfull(dict(further), schema)):
        return found
    root.on_one_line.add(path)
    if further:
        root.overfull.add(path)
    for name in long.keys() - dict(further).keys():
        root.lines[f"{path}.{name}"] = root.lines.get(path, 1)
    return {**long, **dict(further)}


def _in_full(
    key: str, value: Any, schema: dict[str, Any], root: _Root
) -> dict[str, Any] | None:
    """Give the long form of a reading; None for what is no reading on one line."""
    if key in schema["properties"] or not isinstance(value, str | int):
        return None
    if len(key) + len(str(value)) > LONGEST_LINE:
        return None
    short = schema["one_line"]
    left = _taken(key, short["x-key"], schema, root)
    right = _taken(str(value), short["x-value"], schema, root)
    if left is None or right is None:
        return None
    if _misspelt(key, schema) and not _listed(key, schema, root):
        return None
    return {**left, **right}


def _overfull(further: dict[str, Any], schema: dict[str, Any]) -> bool:
    """Say whether further keys stand below a reading, and none that it gives itself."""
    short = schema["one_line"]
    given = set(_BRACED.findall(short["x-key"][-1] + short["x-value"][-1]))
    return not further.keys() & given


def _listed(key: str, schema: dict[str, Any], root: _Root) -> bool:
    """Say whether a word is one of a list, such as ``other``, and no key misspelt."""
    kinds = (root.resolved(one) for one in schema["properties"].values())
    return any(key in kind.get("enum", ()) for kind in kinds)


def _misspelt(key: str, schema: dict[str, Any]) -> bool:
    long_enough = len(key) >= SHORTEST_WORD and key.isidentifier()
    return long_enough and bool(close(key, schema["properties"]))


def _taken(
    text: str, patterns: list[str], schema: dict[str, Any], root: _Root
) -> dict[str, Any] | None:
    """Take a text apart: as the first way in which every listed word is in its list."""
    matches = [match for pattern in patterns for match in _ways(pattern, text) if match]
    if not matches:
        return None
    kinds = {name: root.resolved(kind) for name, kind in schema["properties"].items()}
    for match in matches:
        parts = match.groupdict()
        if all(_may_be(part, kinds[name]) for name, part in parts.items()):
            break
    return {name: _typed(part, kinds[name]) for name, part in parts.items()}


def _ways(pattern: str, text: str) -> tuple[re.Match[str] | None, ...]:
    """Match a pattern with its first part short, and with its first part long."""
    return tuple(one.fullmatch(text) for one in _compiled(pattern))


@lru_cache
def _compiled(pattern: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    escaped = re.escape(pattern)
    return (
        re.compile(_NAME.sub(r"(?P<\1>.+?)", escaped), re.I),
        re.compile(_NAME.sub(r"(?P<\1>.+)", escaped), re.I),
    )


def _may_be(text: str, kind: dict[str, Any]) -> bool:
    return "enum" not in kind or as_listed(text, kind["enum"]) is not None


def _typed(text: str, kind: dict[str, Any]) -> Any:
    if kind.get("type") == "array":
        return _BETWEEN.split(text)
    if kind.get("type") == "integer" and text.isascii() and text.isdigit():
        return int(text)
    return text
