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

LARGEST_FILE_BYTES = 1024 * 1024  # our choice; a full job file is near 10 KB
DEEPEST_NESTING = 12  # our choice; the schema itself nests five deep
LARGEST_WHOLE_NUMBER_DIGITS = 9  # our choice; keeps 20-digit slips out of sums
_LONG = "Check it; a telephone number stands between quotes."
_YAML_TAG = "tag:yaml.org,2002:"
_WHOLE_NUMBER = re.compile(r"-?(?:0|[1-9]\d*)")
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\x85\u2028\u2029\ufffe\uffff]")
_INVISIBLE = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]")

_Loader = getattr(
    yaml, "CSafeLoader", yaml.SafeLoader
)  # the C parser where it is built


@dataclass(frozen=True)
class Document:
    """Plain data of one file, with the line of every key by its path."""

    file: str
    data: dict[str, Any]
    lines: dict[str, int] = field(repr=False)

    def line(self, path: str) -> int:
        """Find the line of a path, or of the nearest key above it. [-]"""
        while path and path not in self.lines:
            path = re.sub(r"(\.[^.\[]*|\[\d+\]|^[^.\[]+)$", "", path)
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
    text = _text(path, file)
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


def _text(path: Path, file: str) -> str:
    def refuse(line: int, message: str, hint: str = "") -> Refused:
        return Refused([Problem(file, line, "", message, hint)])

    try:
        with path.open("rb") as stream:
            raw = stream.read(LARGEST_FILE_BYTES + 1)
    except FileNotFoundError:
        raise refuse(0, "There is no such file.", "Check the name.") from None
    except OSError as error:
        raise refuse(0, f"The file cannot be read: {error.strerror}.") from None
    if len(raw) > LARGEST_FILE_BYTES:
        raise refuse(
            0, "The file is over 1 MiB.", "Keep pictures in files of their own."
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise refuse(
            line, "The file is not UTF-8 text.", 'Save it again as "UTF-8".'
        ) from None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    for found, name in ((_CONTROL, "a control"), (_INVISIBLE, "an invisible")):
        if match := found.search(text):
            line = text.count("\n", 0, match.start()) + 1
            code = f"U+{ord(match[0]):04X}"
            raise refuse(
                line,
                f"There is {name} character ({code}) in this line.",
                "Delete the line and type it again.",
            )
    return text


class _Tree:
    """Builds plain data from parser events, noting lines and refusing traps."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Any = None
        self.lines: dict[str, int] = {}
        self.problems: list[Problem] = []

    def tell(self, line: int, path: str, message: str, hint: str) -> None:
        self.problems.append(Problem(self.file, line, path, message, hint))

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
        if isinstance(event, yaml.AliasEvent):
            self.tell(
                line,
                path,
                f"An alias (*{event.anchor}) is not allowed.",
                "Write the text out, or put it between quotes.",
            )
            return None
        if event.anchor or (event.tag and event.tag != "!"):
            found = (
                f"An anchor (&{event.anchor})"
                if event.anchor
                else (f"A tag ({event.tag.replace(_YAML_TAG, '!!')})")
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
            raise Refused(
                [
                    *self.problems,
                    Problem(
                        self.file,
                        line,
                        path,
                        "The file nests too deep here.",
                        "Take out the brackets that stand one in another.",
                    ),
                ]
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
            key = event.value
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

    def _scalar(self, event: Any, line: int, path: str) -> str | int | None:
        text: str = event.value
        if not event.implicit[0]:  # quoted, or a block of text
            return text
        if not text:
            return None
        if _WHOLE_NUMBER.fullmatch(text):
            if len(text) <= LARGEST_WHOLE_NUMBER_DIGITS:
                return int(text)
            self.tell(line, path, f"{text[:20]} is too large a number.", _LONG)
        return text
