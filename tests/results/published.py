"""Published values as test cases: each case is called after its entry."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

FILE = Path(__file__).parents[1] / "reference" / "published.yaml"
Entry = dict[str, Any]
ENTRIES: dict[str, Entry] = {
    entry["id"]: entry for entry in yaml.safe_load(FILE.read_text("utf-8"))
}


def label(entry: Entry) -> str:
    """Name an entry, and say so where its value was not read in the source."""
    return entry["id"] + ("" if entry["seen"] else " (computed, not seen)")


def entry(name: str) -> Any:
    """Give one entry as a case."""
    return pytest.param(ENTRIES[name], id=label(ENTRIES[name]))


def values(*names: str) -> list[Any]:
    """Give every expected value of some entries as a case (entry, key)."""
    return [
        pytest.param(ENTRIES[name], key, id=f"{label(ENTRIES[name])} {key}")
        for name in names
        for key in ENTRIES[name]["expected"]
    ]


def starting(prefix: str) -> list[str]:
    """List the entries whose names start with a prefix."""
    return [name for name in ENTRIES if name.startswith(prefix)]


def rows(name: str, given: str, wanted: str) -> list[Any]:
    """Give every row of a printed table as a case (entry, input, expected)."""
    one = ENTRIES[name]
    return [
        pytest.param(one, x, y, id=f"{label(one)} {given}={x}")
        for x, y in zip(one["inputs"][given], one["expected"][wanted], strict=True)
    ]


def allowed(one: Entry, expected: float) -> Any:
    """Make the value to compare with, give or take what its rounding allows."""
    tolerance = one["tolerance"]
    return pytest.approx(
        expected, rel=tolerance.get("relative", 0), abs=tolerance.get("absolute", 0)
    )
