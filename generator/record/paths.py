"""Paths such as ``tanks[0].sludge``: taken apart, and put together again."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

MOST_KEPT = 4096  # paths that are not taken apart a second time; our choice
_ENTRY = re.compile(r"\[\d+\]", re.ASCII)
_LAST = re.compile(r"(\.[^.\[]*|\[\d+\]|^[^.\[]+)$")


@lru_cache(MOST_KEPT)
def steps(path: str) -> tuple[str | int, ...]:
    """Take a path apart into keys and numbers of entries.

    Examples
    --------
    >>> steps("tanks[0].sludge")
    ('tanks', 0, 'sludge')
    """
    parts = path.replace("[", ".[").split(".")
    return tuple(int(one[1:-1]) if _ENTRY.fullmatch(one) else one for one in parts)


def joined(parts: Iterable[str | int]) -> str:
    """Put a path together.

    Examples
    --------
    >>> joined(["tanks", 0, "sludge"])
    'tanks[0].sludge'
    """
    path = ""
    for part in parts:
        path += f"[{part}]" if isinstance(part, int) else f".{part}"
    return path.removeprefix(".")


def above(path: str) -> str:
    """Give the path one step up; empty where there is none."""
    return _LAST.sub("", path)


@lru_cache(MOST_KEPT)
def with_all_above(path: str) -> frozenset[str]:
    """List a path and every path above it."""
    parts = path.replace("[", "\0[").replace(".", "\0.").split("\0")
    return frozenset("".join(parts[: end + 1]) for end in range(len(parts)))


def section(path: str) -> str:
    """Name the section that a path begins with.

    Examples
    --------
    >>> section("tanks[0].sludge"), section("visit.date"), section("photos[]")
    ('tanks', 'visit', 'photos')
    """
    return path.partition(".")[0].partition("[")[0]


def of_every_entry(path: str) -> str:
    """Write a path without the numbers of its entries.

    Examples
    --------
    >>> of_every_entry("tanks[0].sludge")
    'tanks[].sludge'
    """
    return _ENTRY.sub("[]", path)
