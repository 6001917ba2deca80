"""Every key of the job file with what the schema says of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from generator.record.check import YES_NO, resolved, schema
from generator.record.kinds import KIND
from generator.record.spelling import KINDS
from generator.record.yaml_text import block, entry

SCHEMA = "inspection"


@dataclass(frozen=True)
class Key:
    """One key: its path such as ``tanks[].sludge``, and its part of the schema."""

    path: str
    node: dict[str, Any]
    required: bool

    @property
    def name(self) -> str:
        """The key as it is typed."""
        return self.path.rpartition(".")[2]

    @property
    def item(self) -> dict[str, Any]:
        """What an entry of the list is; the key itself where it holds no list."""
        return resolved(self.node.get("items", self.node), SCHEMA)

    @property
    def within(self) -> str:
        """The path that the keys below this one begin with."""
        return self.path + "[]" * ("items" in self.node)

    @property
    def format(self) -> str:
        """The kind of amount, of the entries where it is a list of them; or empty."""
        return str(self.item.get("format", ""))

    @property
    def listed(self) -> list[Any]:
        """The values that the key may have, where they are listed."""
        return list(self.item.get("enum", ()))

    @property
    def holds_keys(self) -> bool:
        """Whether keys stand below this one."""
        return "properties" in self.item

    @property
    def short_kind(self) -> str:
        """The kind in a few words, for a list."""
        words = "keys" if self.holds_keys else _word(self)
        return f"list of {words}" if "items" in self.node else words

    def example(self) -> list[str]:
        """Write the first example as it stands in a file."""
        return block({self.name: self.node["examples"][0]})

    def one_line(self) -> list[str]:
        """Write the entries that may stand on one line, from their examples."""
        short = self.item.get("one_line", {})
        shown = short.get("examples", ())
        return [line for one in shown for line in entry(one, 2, flat=False)]

    def patterns(self) -> list[str]:
        """Write the ways in which an entry may stand on one line."""
        short = self.item.get("one_line", {"x-key": (), "x-value": ()})
        keys, values = short["x-key"], short["x-value"]
        wide = [f"- {keys[0]}: {value}" for value in values] if keys else []
        return wide + [f"- {key}: {values[0]}" for key in keys[1:]]


@lru_cache
def all_keys() -> tuple[Key, ...]:
    """List every key of the job file, in the order of the schema."""
    return tuple(_walk(schema(SCHEMA), ""))


def below(key: Key) -> list[Key]:
    """List the keys that stand right below one key."""
    start = key.within + "."
    return [
        one
        for one in all_keys()
        if one.path.startswith(start) and "." not in one.path.removeprefix(start)
    ]


def _walk(node: dict[str, Any], path: str) -> Iterator[Key]:
    required = node.get("required", ())
    for name, child in node.get("properties", {}).items():
        at = f"{path}.{name}" if path else name
        key = Key(at, resolved(child, SCHEMA), name in required)
        yield key
        yield from _walk(key.item, key.within)


def kind_words(key: Key) -> str:
    """Say in a sentence part what may stand behind a key."""
    item, many = key.item, "items" in key.node
    if key.holds_keys:
        return "a list; each entry is a group of keys" if many else "a group of keys"
    if key.format:
        words = f"a {KIND[key.format].title.lower()}"
    elif item.get("type") == "integer":
        words = f"a whole number from {item['minimum']} to {item['maximum']}"
    elif "pattern" in item:
        words = "a name"
    else:
        words = f"a text of at most {item['maxLength']} characters"
    return f"a list, each entry {words}" if many else words


def _word(key: Key) -> str:
    if key.format:
        return KINDS[key.format]
    if key.listed:
        return "yes or no" if tuple(key.listed) == YES_NO else f"1 of {len(key.listed)}"
    if key.item.get("type") == "integer":
        return "number"
    return "name" if "pattern" in key.item else "text"
