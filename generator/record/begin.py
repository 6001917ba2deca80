"""The text of a new job file, from the titles and examples of the schema.

A line that begins with two number signs explains; a line that begins with one becomes
part of the file when ``# `` is taken out, and then waits for its value.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from generator.record.check import schema
from generator.record.keys import Key, all_keys, below
from generator.record.like import KEPT
from generator.record.paths import section
from generator.record.yaml_text import WIDTH, block, entry

EDITOR_LINE = "# yaml-language-server: $schema=../schemas/inspection.schema.json"
STATE = {"state": "draft"}
LIKE = "  # like "

# What nearly every visit records; without keys, an entry on one line is enough.
EVERY_VISIT: dict[str, tuple[str, ...]] = {
    "visit": ("date", "start", "end", "inspector", "ground", "rain"),
    "client": ("name", "role", "asks"),
    "property": ("address", "place", "code", "bedrooms", "water_supply"),
    "consent": ("given_by", "run_water", "utilities"),
    "household": ("people", "last_pumped"),
    "datum": ("points",),
    "places": (),
    "depths": (),
    "tanks": (
        "name", "shape", "length", "width", "liquid_depth", "outlet_device_depth",
        "outlet_device_state", "sludge", "scum", "cover", "covers_back", "on_plan",
    ),
    "load_test": ("target", "water", "levels", "stop_reason"),
    "pipe_runs": ("name", "bore", "log"),
    "walkover": ("sewage_on_ground", "wet_ground"),
    "distances": (),
    "photos": (),
    "not_seen": (),
}  # fmt: skip

# Sections of which the lines themselves say too little; our choice.
EXPLAINED = ("datum", "places", "depths", "photos")

# A list whose first entries differ from all that follow.
BEGUN_WITH = {
    "datum.points": ("{name: A, what: southwest corner of the house}", "B: A 32 ft"),
}


@dataclass(frozen=True)
class Line:
    """One line: its indent, and where its number sign stands; None for a live line."""

    indent: int
    text: str
    sign_at: int | None = None
    explains: bool = False

    def __str__(self) -> str:
        """Write the line, with its number sign before the indent that it keeps."""
        if self.sign_at is None and not self.explains:
            return " " * self.indent + self.text
        at = self.indent if self.sign_at is None else self.sign_at
        sign = "##" if self.explains else "#"
        return f"{' ' * at}{sign} {' ' * (self.indent - at)}{self.text}"


def begun(job: str, *, whole: bool = False, code: str | None = None) -> str:
    """Write a new job file: what every visit needs, or every key there is.

    Parameters
    ----------
    job : str
        Name of the job.
    whole : bool
        True for every section and key of the schema.
    code : str, optional
        Code pack that the firm works under, written out.

    Returns
    -------
    str
        The file. Only what nobody can guess is left for the check to tell.
    """
    return _file(_head(job), _sections(_Page({}, whole, code)))


def begun_like(job: str, other: str, kept: Mapping[str, Any]) -> str:
    """Write a new job file for a system that an earlier file describes.

    ``kept`` is what is taken over (see ``like.kept``); the readings of the day are left
    open.
    """
    told = (
        f"Begun from {other}: the lot and the system as they stood there. Look at each "
        "line again."
    )
    return _file([*_head(job), told], _sections(_Page(kept)))


@dataclass(frozen=True)
class _Page:
    """What is taken over, whether every key is written, and the firm's own code."""

    kept: Mapping[str, Any]
    whole: bool = False
    code: str | None = None

    def wants(self, key: Key) -> bool:
        """Whether a key is written as an example or as a line to fill in."""
        rest = key.path.partition(".")[2]
        if self.whole or not rest:
            return self.whole or key.path in EVERY_VISIT
        return rest in EVERY_VISIT.get(section(key.path), ())


def _head(job: str) -> list[str]:
    return [
        f"Job {job}. Take out the # and the space before a line, and write what you "
        "found behind its colon. A line with ## explains."
    ]


def _file(head: list[str], lines: Iterator[Line]) -> str:
    told = (Line(0, row, explains=True) for one in head for row in _wrapped(one, 0))
    return "\n".join((EDITOR_LINE, *map(str, told), *map(str, lines), ""))


def _sections(page: _Page) -> Iterator[Line]:
    yield from _live(STATE, 0)
    for key in all_keys():
        if "." in key.path or key.name in STATE:
            continue
        if key.name in page.kept or key.required:
            yield from _live_section(key, page)
        elif page.wants(key):
            yield from _explained(key, 0, 0, page)
            yield from _example(key, 0, 0, page)


def _live_section(key: Key, page: _Page) -> Iterator[Line]:
    found = page.kept.get(key.name, {})
    if key.name == "property" and page.code:
        found = {**found, "code": page.code}
    if isinstance(found, dict):
        yield Line(0, f"{key.name}:")
        yield from _filled(key, found, 2, page)
    elif isinstance(found, list) and EVERY_VISIT.get(key.name):
        yield Line(0, f"{key.name}:")
        for one in found:
            yield from _entry_of_today(key, one, page)
    else:
        yield from _live({key.name: found}, 0)


def _filled(
    key: Key, found: Mapping[str, Any], indent: int, page: _Page
) -> Iterator[Line]:
    """Write what is known, a line to fill in for what must stand, and examples."""
    for one in below(key):
        if one.name in found:
            yield from _live({one.name: found[one.name]}, indent)
        elif one.required and "[]" not in one.path:
            yield from _explained(one, indent, None, page, example=True)
            yield Line(indent, f"{one.name}:")
        elif page.wants(one) and not _settled(one, found, page):
            yield from _explained(one, indent, indent, page)
            yield from _example(one, indent, indent, page)


def _settled(key: Key, found: Mapping[str, Any], page: _Page) -> bool:
    """Whether an earlier file speaks for a key: it is of the lot, or told elsewhere."""
    if "[]" not in key.path or not page.kept:
        return False
    in_parts = "compartments" in found and key.name in ("sludge", "scum")
    return in_parts or key.name in KEPT.get(section(key.path), ())


def _entry_of_today(key: Key, one: Any, page: _Page) -> Iterator[Line]:
    if not isinstance(one, dict):
        yield from (Line(2, line[2:]) for line in entry(one, 2))
        return
    lines = list(_filled(key, one, 4, page))
    first = next((n for n, line in enumerate(lines) if line.sign_at is None), 0)
    lines[first] = replace(lines[first], indent=2, text=f"- {lines[first].text}")
    yield from (lines[first], *lines[:first], *lines[first + 1 :])


def _live(data: Mapping[str, Any], indent: int) -> Iterator[Line]:
    for line in block(data, indent):
        text = line.lstrip(" ")
        yield Line(len(line) - len(text), text)


def _explained(
    key: Key, indent: int, at: int | None, page: _Page, *, example: bool = False
) -> Iterator[Line]:
    """Explain a key, in full in a whole file; a line to fill in has its example."""
    told = _in_full(key) if page.whole else _in_short(key, example)
    if example and told:
        told[-1] += f" Like this: {key.node['examples'][0]}"
    for row in (row for one in told for row in _wrapped(one, indent)):
        yield Line(indent, row, at, explains=True)


def _in_full(key: Key) -> list[str]:
    values = f" One of: {', '.join(map(str, key.listed))}." if key.listed else ""
    return [f"{key.node['title']}: {key.node['description']}{values}"]


def _in_short(key: Key, example: bool) -> list[str]:
    """Explain a section in a sentence, and a line to fill in that says too little.

    What the name of a key says already is not said again.
    """
    if key.path in EXPLAINED:
        return re.split(r"(?<=\.) ", key.node["description"])[:1]
    title: str = key.node["title"]
    same = re.sub(r"\W", "", title.lower()) == key.name.replace("_", "")
    return [f"{title}."] if example and not same else []


def _wrapped(text: str, indent: int) -> list[str]:
    return textwrap.wrap(text, WIDTH - indent - len("## "), break_long_words=False)


def _example(key: Key, indent: int, at: int, page: _Page) -> Iterator[Line]:
    """Write a key without a value, behind a number sign in one column.

    What is written out stands behind the line as a comment, so that nobody signs an
    example for a reading: a line without a value is a problem.
    """
    if not key.holds_keys:
        yield Line(indent, f"{key.name}:{_hint(key, indent)}", at)
        return
    yield Line(indent, f"{key.name}:", at)
    if shown := _entries(key, page):
        yield from (Line(indent + 2, f"-{LIKE}{like}", at) for like in shown)
        if not page.whole:
            return
    if "items" not in key.node:
        yield from _keys(key, indent + 2, at, page)
        return
    lines = list(_keys(key, indent + 4, at, page))
    first = next(n for n, line in enumerate(lines) if not line.explains)
    lines[first] = replace(
        lines[first], indent=indent + 2, text=f"- {lines[first].text}"
    )
    yield from lines


def _entries(key: Key, page: _Page) -> list[str]:
    """Show what an entry on one line is like; none where its keys are written out."""
    if key.path in BEGUN_WITH and not page.whole:
        return list(BEGUN_WITH[key.path])
    lines = key.one_line()
    if not lines and not page.whole and EVERY_VISIT.get(key.path) == ():
        lines = entry(key.node["examples"][0][0], 2)
    return [line.strip().removeprefix("- ") for line in lines]


def _keys(key: Key, indent: int, at: int, page: _Page) -> Iterator[Line]:
    for one in below(key):
        if page.wants(one):
            yield from _explained(one, indent, at, page)
            yield from _example(one, indent, at, page)


def _hint(key: Key, indent: int) -> str:
    """Say behind a key what may stand there, as far as the line allows."""
    room = WIDTH - indent - len(f"# {key.name}:")
    if key.listed:
        listed = f"  # {', '.join(map(str, key.listed))}"
        if len(listed) <= room:
            return listed
    [like, *more] = key.example()
    words = like.partition(":")[2].strip() if not more else ""
    hint = LIKE + words
    return hint if words and len(hint) <= room else f"  # onlot fields {key.name}"


def unguessable() -> list[str]:
    """List the keys that a new file leaves empty, since only the inspector knows."""
    root = schema("inspection")["required"]
    starts = tuple(f"{one}." for one in root)
    return [
        key.path
        for key in all_keys()
        if key.required and key.path.startswith(starts) and "[]" not in key.path
    ]
