"""Checked plain data becomes the dataclasses of the model, field by field."""

from __future__ import annotations

import dataclasses
import types
from functools import lru_cache
from typing import Any, TypeVar, get_args, get_origin, get_type_hints

from generator.quantity import (
    Angle,
    Clock,
    Day,
    Duration,
    Flow,
    Length,
    Level,
    Loading,
    Number,
    Percolation,
    Share,
    Slope,
    Target,
    Tie,
    TimedVolume,
    Volume,
)
from generator.record.amounts import READERS
from generator.record.node import Node

N = TypeVar("N", bound=Node)

_READERS = {
    Length: READERS["length"],
    Level: READERS["reading"],  # takes every level; the schema asks for a side
    Volume: READERS["volume"],
    Duration: READERS["duration"],
    Slope: READERS["slope"],
    TimedVolume: READERS["bucket"],
    Clock: READERS["moment"],  # takes every time; the schema says which
    Day: READERS["day"],
    Angle: READERS["angle"],
    Flow: READERS["flow"],
    Loading: READERS["loading"],
    Number: READERS["number"],
    Percolation: READERS["percolation"],
    Share: READERS["share"],
    Target: READERS["target"],
    Tie: READERS["tie"],
}


def build(
    kind: type[N],
    data: dict[str, Any],
    at: str = "",
    left_out: frozenset[str] = frozenset(),
) -> N:
    """Build one dataclass of the model from data that passed its schema.

    Parameters
    ----------
    kind : type
        The dataclass to build.
    data : dict
        Plain data of one group of keys.
    at : str
        Path of that group in the file; empty for the whole file.
    left_out : frozenset of str
        Paths of groups that a draft cannot be built with yet.

    Returns
    -------
    Node
        The dataclass, with every amount read.
    """
    found: dict[str, Any] = {"at": at}
    for name, (key, hint) in fields(kind).items():  # type: ignore[arg-type]  # a class is hashable
        path = f"{at}.{key}" if at else key
        if key in data and path not in left_out:
            found[name] = _value(hint, data[key], path, left_out)
    return kind(**found)


@lru_cache
def fields(kind: type[Node]) -> dict[str, tuple[str, Any]]:
    """Map each field of a dataclass to its key in the file and its type."""
    hints = get_type_hints(kind)
    return {
        field.name: (
            field.metadata.get("key", field.name.rstrip("_")),
            _without_none(hints[field.name]),
        )
        for field in dataclasses.fields(kind)
        if field.name != "at"
    }


def _without_none(hint: Any) -> Any:
    if get_origin(hint) in (types.UnionType,):
        return next(one for one in get_args(hint) if one is not type(None))
    return hint


def _value(hint: Any, found: Any, path: str, left_out: frozenset[str]) -> Any:
    if get_origin(hint) is tuple:
        inner = get_args(hint)[0]
        return tuple(
            _value(inner, item, f"{path}[{index}]", left_out)
            for index, item in enumerate(found)
            if f"{path}[{index}]" not in left_out
        )
    if isinstance(hint, type) and issubclass(hint, Node):
        return build(hint, found, path, left_out)
    reader = _READERS.get(hint)
    return reader(found) if reader else found
