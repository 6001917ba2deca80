"""The only reader: a YAML file becomes plain data that knows the line of every key.

Every plain scalar stays the text that was typed, except whole numbers, so that ``no``,
``10:30``, ``012`` and dates cannot turn into something else on the way.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from generator.problems import Problem, Refused
from generator.record.grammar import grammar
from generator.record.paths import above
from generator.record.text import decoded, raw, unseen_in

DEEPEST_NESTING = 12  # our choice; the schema itself nests five deep
LONGEST_KEY = 100  # characters; our choice, the schema's longest has 24
MOST_VALUES = 20_000  # of one file; our choice, a full job file holds some 500
MOST_TOLD = 100  # problems of the layout; our choice, nobody mends more at once
DIGITS_SHOWN = 20  # of a number that is too large; our choice
LARGEST_WHOLE_NUMBER_DIGITS = 9  # our choice; keeps 20-digit slips out of sums
_LONG = "Check it; a telephone number stands between quotes."
_PLAIN = "Take the backslash and the letters behind it out."
_YAML_TAG = "tag:yaml.org,2002:"
_WHOLE_NUMBER = re.compile(r"-?(?:0|[1-9]\d*)", re.ASCII)
_Loader = getattr(
    yaml, "CSafeLoader", yaml.SafeLoader
)  # the C parser where it is built


@dataclass(frozen=True)
class Document:
    """Plain data of one file, with the line of every key by its path.

    ``on_one_line`` are the entries that stood on one line and were written out;
    ``overfull`` are those among them that have further keys below it.
    """

    file: str
    data: dict[str, Any]
    lines: dict[str, int] = field(repr=False)
    on_one_line: frozenset[str] = field(default=frozenset(), repr=False)
    overfull: frozenset[str] = field(default=frozenset(), repr=False)

    def line(self, path: str) -> int:
        """Find the line of a path, or of the nearest key above it. [-]"""
        while path and path not in self.lines:
            path = above(path)
        return self.lines.get(path, 1)


def read(path: Path, *, shown_as: str | None = None) -> Document:
    """Read one YAML file into plain data.

    Parameters
    ----------
    path : pathlib.Path
        The file.
    shown_as : str, optional
        Its name in problems; the path itself when left out.

    Returns
    -------
    Document
        The data with the line of every key.

    Raises
    ------
    generator.problems.Refused
        With every problem that keeps the file from being read.
    """
    file = shown_as or path.as_posix()
    return parsed(raw(path, file), file)


def parsed(content: bytes, file: str) -> Document:
    """Read the content of one YAML file into plain data.

    Parameters
    ----------
    content : bytes
        The content.
    file : str
        Its name in problems.

    Returns
    -------
    Document
        The data with the line of every key.

    Raises
    ------
    generator.problems.Refused
        With every problem that keeps the content from being read.
    """
    text = decoded(content, file)
    tree = _Tree(file)
    try:
        tree.take(yaml.parse(text, Loader=_Loader))
    except yaml.MarkedYAMLError as error:
        raise Refused([*tree.problems, grammar(file, text, error)]) from None
    except yaml.YAMLError as error:
        raise Refused([Problem(file, 0, "", f"This is not YAML: {error}.")]) from None
    if not tree.problems and not isinstance(tree.root, dict):
        tree.tell(
            1, "", "This file holds no keys.", 'Begin with a line such as "visit:".'
        )
    if tree.problems:
        raise Refused(tree.problems)
    return Document(file, tree.root, tree.lines)


def _written(name: str) -> str:
    return f"{name[0].upper()}{name[1:]} is written here."


def _cut(name: str | None) -> str:
    name = name or ""
    return name if len(name) <= LONGEST_KEY else f"{name[: LONGEST_KEY - 1]}…"


class _Tree:
    """Builds plain data from parser events, noting lines and refusing traps."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Any = None
        self.lines: dict[str, int] = {}
        self.problems: list[Problem] = []
        self.values = 0

    def tell(self, line: int, path: str, message: str, hint: str) -> None:
        self.problems.append(Problem(self.file, line, path, message, hint))
        if len(self.problems) >= MOST_TOLD:
            raise Refused(self.problems)

    def refuse(self, line: int, path: str, message: str, hint: str) -> Refused:
        last = Problem(self.file, line, path, message, hint)
        return Refused([*self.problems, last])

    def take(self, events: Any) -> None:
        documents = 0
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    mark = event.start_mark
                    self.tell(
                        mark.line + 1 if mark else 0,
                        "",
                        'A second document begins here ("---").',
                        "Write one job in each file.",
                    )
                    return
            elif isinstance(event, yaml.NodeEvent):
                self.root = self._node(event, events, "", 0)

    def _node(self, event: Any, events: Any, path: str, depth: int) -> Any:
        line = event.start_mark.line + 1
        self.values += 1
        if self.values > MOST_VALUES:
            raise self.refuse(
                line, path, f"Over {MOST_VALUES:,} values end here.", "Split the job."
            )
        if isinstance(event, yaml.AliasEvent):
            self.tell(
                line,
                path,
                f"An alias (*{_cut(event.anchor)}) is not allowed.",
                "Write the text out, or put it between quotes.",
            )
            return None
        if event.anchor or (event.tag and event.tag != "!"):
            found = (
                f"An anchor (&{_cut(event.anchor)})"
                if event.anchor
                else (f"A tag ({_cut(event.tag.replace(_YAML_TAG, '!!'))})")
            )
            self.tell(
                line,
                path,
                f"{found} is not allowed.",
                "Take it out, or put the text between quotes.",
            )
        if isinstance(event, yaml.ScalarEvent):
            return self._scalar(event, line, path)
        if depth >= DEEPEST_NESTING:
            raise self.refuse(
                line,
                path,
                "The file nests too deep here.",
                "Take out the brackets that stand one in another.",
            )
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(events, path, depth)
        return self._mapping(events, path, depth)

    def _sequence(self, events: Any, path: str, depth: int) -> list[Any]:
        items: list[Any] = []
        for event in events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            at = f"{path}[{len(items)}]"
            self.lines[at] = event.start_mark.line + 1
            items.append(self._node(event, events, at, depth + 1))
        return items

    def _mapping(self, events: Any, path: str, depth: int) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                break
            line = event.start_mark.line + 1
            if not isinstance(event, yaml.ScalarEvent):
                self.tell(line, path, "A key must be one word.", 'Write "key: value".')
                self._node(event, events, path, depth + 1)
                self._node(next(events), events, path, depth + 1)
                continue
            key = self._key(event.value, line, path)
            at = f"{path}.{key}" if path else key
            if key in found:
                self.tell(
                    line,
                    at,
                    f'"{key}" stands here twice (first in line {self.lines[at]}).',
                    "Keep one of the two.",
                )
            else:
                self.lines[at] = line
            value = self._node(next(events), events, at, depth + 1)
            found.setdefault(key, value)
        return found

    def _key(self, key: str, line: int, path: str) -> str:
        """Clean a key that no problem could repeat as it stands."""
        if unseen := unseen_in(key.replace("\r", "\0").replace("\n", "\0")):
            self.tell(line, path, _written(unseen[0]), _PLAIN)
            key = "".join(sign if sign.isprintable() else "?" for sign in key)
        if len(key) > LONGEST_KEY:
            message = f"A key of {len(key)} characters stands here."
            self.tell(line, path, message, 'Write "key: value", with a short key.')
        return key[:LONGEST_KEY]

    def _scalar(self, event: Any, line: int, path: str) -> str | int | None:
        text: str = event.value
        if not event.implicit[0]:  # quoted, or a block of text
            if unseen := unseen_in(text.replace("\r", "\0")):  # by an escape
                self.tell(line, path, _written(unseen[0]), _PLAIN)
            return text
        if not text:
            return None
        if _WHOLE_NUMBER.fullmatch(text):
            if len(text) <= LARGEST_WHOLE_NUMBER_DIGITS:
                return int(text)
            self.tell(
                line, path, f"{text[:DIGITS_SHOWN]} is too large a number.", _LONG
            )
        return text
