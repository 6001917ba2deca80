"""How a key, an entry of a list, and a value of a job file are called in a sentence."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from generator.record.keys import Key, all_keys, below

LONGEST_TEXT = 120  # characters of a text that are shown; our choice, two lines
LONGEST_CONTENT = 200  # characters of what a group holds; our choice, three lines
LONGEST_IN_BRIEF = 60  # characters of a text within a group that is cut; our choice
BEFORE_A_DIFFERENCE = 30  # characters shown before it in a long text; our choice
NOTHING, NO_ENTRY, NO_KEY = "(nothing)", "(no entry)", "(no key)"
KEYS_COUNTED, ENTRIES_COUNTED = ("value", "values"), ("entry", "entries")
_BRACED = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Entry:
    """What one entry of a list is called; the keys in braces tell it from others."""

    noun: str
    named: str = ""

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys that stay the same while the rest of an entry is mended."""
        return tuple(_BRACED.findall(self.named))


# Why these keys: each is what the entry is about (a name, a place along the pipe, a
# time, a file), so the same one stands in both versions. The end of a stretch, a date
# and a weight are left out, since they are what gets mended.
ENTRIES = {
    "records[]": Entry("record", '"{kind}"'),
    "datum.points[]": Entry("fixed point", "{name}"),
    "places[]": Entry("place", "{name}"),
    "depths[]": Entry("depth", 'to "{to}"'),
    "tanks[]": Entry("tank", '"{name}"'),
    "tanks[].compartments[]": Entry("compartment", '"{name}"'),
    "distribution_box.outlets[]": Entry("outlet", 'to "{to}"'),
    "absorption_areas[]": Entry("absorption area", '"{name}"'),
    "cesspool.water[]": Entry("water", "from {from}"),
    "cesspool.levels[]": Entry("reading", "at {at}"),
    "features[]": Entry("feature", '"{name}"'),
    "load_test.water[]": Entry("water", "from {from}"),
    "load_test.levels[]": Entry("reading", "at {at}"),
    "load_test.other_water[]": Entry("other water", "from {from}"),
    "load_test.further[]": Entry("further part", '"{part}"'),
    "pipe_runs[]": Entry("pipe run", '"{name}"'),
    "pipe_runs[].log[]": Entry("log entry", "at {at}"),
    "walkover.signs[]": Entry("sign", '"{sign}"'),
    "distances[]": Entry("distance", "{from} to {to}"),
    "photos[]": Entry("photograph", "{file}"),
    "findings[]": Entry("finding", '"{title}"'),
    "overrides[]": Entry("override", '"{finding}"'),
    "not_seen[]": Entry("part not seen", '"{what}"'),
    "reports[]": Entry("report", "number {number}"),
}


@lru_cache
def known_keys() -> dict[str, Key]:
    """Give every key of the job file by its path, such as ``tanks[].sludge``."""
    return {key.path: key for key in all_keys()}


def title(known: str) -> str:
    """Call a key by its title, as it stands in a sentence, else by itself.

    Parameters
    ----------
    known : str
        Its path without numbers.

    Returns
    -------
    str
        Its words.

    Examples
    --------
    >>> title("household.vacant_for"), title("two_day_test.first_day"), title("my_key")
    ('empty for', 'first day', 'my key')
    """
    above, _, name = known.rpartition(".")
    key, group = known_keys().get(known), known_keys().get(above.removesuffix("[]"))
    found = str(key.node["title"]) if key else ""
    beside = below(group) if group else ()
    if not key or [one.node["title"] for one in beside].count(found) > 1:
        return one_line(name.replace("_", " ")) or NOTHING
    return found if found[1:2].isupper() else found[:1].lower() + found[1:]


def within(known: str) -> str:
    """Give the path without numbers that the keys below a key begin with."""
    key = known_keys().get(known)
    return key.within if key else known


def entry_of(known: str) -> Entry:
    """Say what an entry of a list is called; known by its place where it has no name.

    Parameters
    ----------
    known : str
        Path of the list, without numbers.

    Returns
    -------
    Entry
        Its words.
    """
    return ENTRIES.get(within(known)) or Entry(f"entry of {title(known)}")


def called(entry: Entry, found: Any, number: int) -> str:
    """Call one entry by what identifies it, or by its number in the list.

    Examples
    --------
    >>> called(ENTRIES["tanks[]"], {"name": "main"}, 1), called(Entry("tie"), {}, 2)
    ('tank "main"', 'tie no. 2')
    """
    name = _named(entry, found)
    return f"{entry.noun} {name}" if name else f"{entry.noun} no. {number}"


def is_text(known: str, value: Any) -> bool:
    """Say whether a value is in the inspector's own words, and stands in quotes."""
    key = known_keys().get(known)
    plain = key is not None and not key.holds_keys and key.short_kind != "text"
    return isinstance(value, str) and bool(one_line(value)) and not plain


def typed(value: Any, known: str) -> str:
    """Write a value as it was typed, on one line; groups and lists by what they hold.

    Parameters
    ----------
    value : object
        The value.
    known : str
        Path of its key, without numbers.

    Returns
    -------
    str
        Never empty.
    """
    if isinstance(value, Mapping):
        return content(value, within(known))
    if isinstance(value, list):
        if is_full(value):
            return "; ".join(whole_entry(one, known) for one in value)
        return ", ".join(typed(one, "") for one in value) or NO_ENTRY
    return NOTHING if value is None else one_line(str(value)) or NOTHING


def whole_entry(found: Any, known: str) -> str:
    """Write a whole entry: what identifies it, then in brackets what else it holds.

    Parameters
    ----------
    found : object
        The entry.
    known : str
        Path of its list, without numbers.

    Returns
    -------
    str
        Such as ``lid.jpg (both covers off)``.
    """
    if not isinstance(found, Mapping):
        return typed(found, "")
    entry = entry_of(known)
    name = _named(Entry(entry.noun, entry.named.replace('"', "")), found)
    if not name:
        return content(found, within(known))
    rest = {key: one for key, one in found.items() if key not in entry.keys}
    if not rest:
        return name
    return f"{name} ({_on_one_line(rest, known) or content(rest, within(known))})"


def content(found: Mapping[str, Any], above: str) -> str:
    """Write what a group holds; of much, as much as fits and how many more follow.

    Parameters
    ----------
    found : mapping
        The group.
    above : str
        What the paths of its keys begin with, without numbers.

    Returns
    -------
    str
        Such as ``people 4, empty for 3 weeks``.
    """
    paths = {key: f"{above}.{key}" if above else str(key) for key in found}
    whole = ", ".join(_held(one, paths[key]) for key, one in found.items())
    if len(whole) <= LONGEST_CONTENT:
        return whole or NO_KEY
    told: list[str] = []
    for key, one in found.items():
        part = _in_brief(one, paths[key])
        if told and len(", ".join([*told, part])) > LONGEST_CONTENT:
            break
        told.append(part)
    more = len(found) - len(told)
    return ", ".join(told) + (f", and {more} more" if more else "")


def cut(text: str, longest: int, start: int = 0) -> str:
    """Cut a text to a length, with a sign where something is left out.

    Examples
    --------
    >>> cut("one two three", 7), cut("one two three", 9, 4), cut("one", 7)
    ('one two…', '…two three', 'one')
    """
    piece = text[start:]
    if len(piece) > longest:
        word = piece.rfind(" ", max(0, longest - BEFORE_A_DIFFERENCE), longest + 1)
        piece = f"{piece[: longest if word < 0 else word].rstrip()}…"
    return f"…{piece}" if start else piece


def start_of_difference(before: str, after: str) -> int:
    """Say where to begin two long texts so that their difference is seen."""
    pairs = enumerate(zip(before, after, strict=False))
    shorter = min(len(before), len(after))
    at = next((n for n, (one, other) in pairs if one != other), shorter)
    if at <= LONGEST_TEXT - BEFORE_A_DIFFERENCE:
        return 0
    word = before.rfind(" ", 0, at - BEFORE_A_DIFFERENCE) + 1
    return max(word, at - LONGEST_TEXT // 2)  # a word may be longer than the line


def is_full(value: Any) -> bool:
    """Say whether a value is a list of more than words and numbers."""
    many = isinstance(value, list)
    return many and any(isinstance(one, Mapping | list) for one in value)


def one_line(text: str) -> str:
    """Put a text on one line, without anything that a terminal would obey."""
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def _named(entry: Entry, found: Any) -> str:
    """Fill in what identifies an entry; empty where it does not say all of it."""
    return _filled(entry.named, found, entry.keys)


def _filled(pattern: str, found: Any, keys: Collection[str]) -> str:
    if not isinstance(found, Mapping) or not keys:
        return ""
    if any(key not in found or found[key] in (None, "") for key in keys):
        return ""
    said = {key: cut(typed(found[key], ""), LONGEST_TEXT) for key in keys}
    return _BRACED.sub(lambda match: said[match[1]], pattern)


def _on_one_line(rest: Mapping[str, Any], known: str) -> str:
    """Write the rest of an entry as on one line in the file; empty if it cannot be."""
    key = known_keys().get(known)
    short = key.item.get("one_line", {"x-value": ()}) if key else {"x-value": ()}
    for pattern in short["x-value"]:
        keys = _BRACED.findall(pattern)
        if rest.keys() == set(keys):
            return _filled(pattern, rest, keys)
    return ""


def _held(value: Any, known: str) -> str:
    """Write one key of a group with all that it holds."""
    said = typed(value, known)
    if is_text(known, value):
        return f'{title(known)} "{said}"'
    many = isinstance(value, Mapping | list) and len(value) > 1
    return f"{title(known)} " + (f"({said})" if many or is_full(value) else said)


def _in_brief(value: Any, known: str) -> str:
    """Write one key of a group shortly: a long text cut, a group by how much it is."""
    if isinstance(value, Mapping) or is_full(value):
        counted = KEYS_COUNTED if isinstance(value, Mapping) else ENTRIES_COUNTED
        return f"{title(known)} ({len(value)} {counted[len(value) != 1]})"
    said = cut(typed(value, known), LONGEST_IN_BRIEF)
    if is_text(known, value):
        return f'{title(known)} "{said}"'
    many = isinstance(value, list) and len(value) > 1
    return f"{title(known)} " + (f"({said})" if many else said)
