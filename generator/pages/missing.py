"""What a draft still lacks, said in the words of the schema."""

from __future__ import annotations

import re
from typing import Any

from generator.record.check import resolved, schema
from generator.record.model import Record

SCHEMA = "inspection"
STEP = re.compile(r"([^.\[\]]+)(?:\[(\d+)\])?")


def missing(record: Record) -> list[str]:
    """List what the job file still lacks, one sentence each, dearest first."""
    return [_sentence(item.path, item.words) for item in record.open_items]


def in_words(path: str) -> str:
    """Say in the words of the schema which field a path leads to.

    Examples
    --------
    >>> in_words("tanks[0].liquid_depth")
    'tank 1: Liquid depth'
    >>> in_words("load_test.levels[2]")
    'load test, level reading 3'
    """
    groups, field = _titles(path)
    around = ", ".join(one.lower() for one in groups)
    return ": ".join(one for one in (around, field) if one)


def _titles(path: str) -> tuple[list[str], str]:
    """Give the titles of the groups around a field, and the title of the field."""
    node: dict[str, Any] = schema(SCHEMA)
    titles: list[str] = []
    is_group = True
    for key, number in STEP.findall(path):
        found = node.get("properties", {}).get(key, {})
        node = resolved(found, SCHEMA)
        title = node.get("title", key.replace("_", " "))
        if number:
            node = resolved(node.get("items", {}), SCHEMA)
            title = f"{node.get('title', title)} {int(number) + 1}"
        is_group = bool(number) or "properties" in node
        titles.append(title)
    return (titles, "") if is_group else (titles[:-1], titles[-1])


def _sentence(path: str, words: str) -> str:
    """Say in which group a field is missing that is only named by its title."""
    groups, field = _titles(path)
    named = f"{field}:"
    if not field or not groups or not words.startswith(named):
        return words
    said = in_words(path) + words.removeprefix(named[:-1])
    return said[:1].upper() + said[1:]
