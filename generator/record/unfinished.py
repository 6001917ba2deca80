"""What a draft may leave open, and what has to be left out of it meanwhile.

A draft is checked and built while the hose still runs. A group of keys that lacks a
key it needs is left out until the key is there, and with it whatever leans on it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from generator.problems import Problem
from generator.record.check import NEVER_LATER, key_paths, resolved, schema
from generator.record.draft import Draft
from generator.record.paths import above, of_every_entry
from generator.record.slips import slips_between

SCHEMA = "inspection"
MOST_ROUNDS = 50  # our choice; each round leaves at least one more group out


def left_out(draft: Draft, later: Iterable[Problem]) -> frozenset[str]:
    """Find every group of keys that a draft cannot be built with yet.

    Parameters
    ----------
    draft : Draft
        The whole draft, without any other problem.
    later : iterable of Problem
        What is not there yet.

    Returns
    -------
    frozenset of str
        Paths of the groups to leave out, such as ``load_test.water[0]``.
    """
    out: set[str] = set()
    open_ = list(later)
    for _ in range(MOST_ROUNDS):
        out |= {_group(draft, problem.field) for problem in open_}
        _whole(draft.document.data, schema(SCHEMA), "", out)
        draft = replace(draft, left_out=frozenset(out))
        open_ = [
            one for one in slips_between(draft) if _group(draft, one.field) not in out
        ]
        if not open_:
            break
    return frozenset(out)


def told_of_known(problems: Iterable[Problem]) -> list[Problem]:
    """Choose the problems of keys that the schema knows; others stop no building."""
    known = {"", *key_paths(SCHEMA)}
    return [one for one in problems if _plain(one.field) in known]


def _plain(path: str) -> str:
    return of_every_entry(path).removesuffix("[]")


def _group(draft: Draft, path: str) -> str:
    """Give the path of the smallest group of keys around a path.

    Of a section that every job needs, only the key itself is left out.
    """
    whole = replace(draft, left_out=frozenset())
    field = path
    while path and not isinstance(whole.get(path), dict):
        path = above(path)
    return field if path in NEVER_LATER and path else path


def _whole(found: Any, node: dict[str, Any], path: str, out: set[str]) -> bool:
    """Say whether a value can stand; note whatever below it cannot."""
    node = resolved(node, SCHEMA)
    if path in out:
        return False
    if isinstance(found, list):
        stand = [
            _whole(one, node.get("items", {}), f"{path}[{number}]", out)
            for number, one in enumerate(found)
        ]
        return _noted(path, any(stand), out)
    if not isinstance(found, dict):
        return True
    known = node.get("properties", {})
    stand_by_key = {
        key: _whole(one, known.get(key, {}), f"{path}.{key}" if path else key, out)
        for key, one in found.items()
    }
    needed = node.get("required", ()) if path else ()
    return _noted(path, all(stand_by_key.get(key, False) for key in needed), out)


def _noted(path: str, stands: bool, out: set[str]) -> bool:
    if not stands:
        out.add(path)
    return stands
