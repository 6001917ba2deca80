"""What a draft still lacks, said in the words of the schema."""

from __future__ import annotations

from typing import Any

from generator.pages.wording import sentence
from generator.record.check import resolved, schema
from generator.record.model import Record
from generator.record.paths import steps

SCHEMA = "inspection"


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
    for step in steps(path):
        if isinstance(step, int):
            node = resolved(node.get("items", {}), SCHEMA)
            titles[-1] = f"{node.get('title', titles[-1])} {step + 1}"
        else:
            node = resolved(node.get("properties", {}).get(step, {}), SCHEMA)
            titles.append(node.get("title", step.replace("_", " ")))
        is_group = isinstance(step, int) or "properties" in node
    return (titles, "") if is_group else (titles[:-1], titles[-1])


def _sentence(path: str, words: str) -> str:
    """Say in which group a field is missing that is only named by its title."""
    groups, field = _titles(path)
    named = f"{field}:"
    if not field or not groups or not words.startswith(named):
        return words
    return sentence(in_words(path) + words.removeprefix(named[:-1]))
