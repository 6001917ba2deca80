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
from generator.record import amounts
from generator.record.node import Node

N = TypeVar("N", bound=Node)

_READERS = {
    Length: amounts.length,
    Level: amounts.level,
    Volume: amounts.volume,
    Duration: amounts.duration,
    Slope: amounts.slope,
    TimedVolume: amounts.bucket,
    Clock: amounts.clock,
    Day: amounts.day,
    Angle: amounts.angle,
    Flow: amounts.flow,
    Loading: amounts.loading,
    Number: amounts.number,
    Percolation: amounts.percolation,
    Share: amounts.share,
    Target: amounts.target,
    Tie: amounts.tie,
}


def build(kind: type[N], data: dict[str, Any], at: str = "") -> N:
    """Build one dataclass of the model from data that passed its schema.

    Parameters
    ----------
    kind : type
        The dataclass to build.
    data : dict
        Plain data of one group of keys.
    at : str
        Path of that group in the file; empty for the whole file.

    Returns
    -------
    Node
        The dataclass, with every amount read.
    """
    found: dict[str, Any] = {"at": at}
    for name, (key, hint) in fields(kind).items():  # type: ignore[arg-type]  # a class is hashable
        if key in data:
            path = f"{at}.{key}" if at else key
            found[name] = _value(hint, data[key], path)
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


def _value(hint: Any, found: Any, path: str) -> Any:
    if get_origin(hint) is tuple:
        inner = get_args(hint)[0]
        return tuple(
            _value(inner, item, f"{path}[{index}]") for index, item in enumerate(found)
        )
    if isinstance(hint, type) and issubclass(hint, Node):
        return build(hint, found, path)
    reader = _READERS.get(hint)
    return reader(found) if reader else found
