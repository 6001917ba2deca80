"""Where things are: fixed points, places found by ties, and features of the lot."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.quantity import Angle, Length, Tie
from generator.record.node import Node


@dataclass(frozen=True, kw_only=True)
class OnPlan(Node):
    """A thing that can stand on the plan, by the names of points.

    ``on_plan`` is one point, or a line along several; ``outline`` is the border of an
    area; ``reach`` is how far the thing extends beyond either. [in]
    """

    on_plan: tuple[str, ...] = ()
    outline: tuple[str, ...] = ()
    reach: Length | None = None


@dataclass(frozen=True, kw_only=True)
class Place(Node):
    """One point, found by ties, by an offset, by a bearing, or along a pipe."""

    name: str
    what: str | None = None
    ties: tuple[Tie, ...] = ()
    side: str | None = None
    from_: str | None = None
    toward: str | None = None
    along: Length | None = None
    out: Length | None = None
    bearing: Angle | None = None
    distance: Length | None = None
    run: str | None = None
    at_run: Length | None = field(default=None, metadata={"key": "at"})
    by: str | None = None
    give_or_take: Length | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class Datum(Node):
    """The fixed points that ties are taken from, and the outline of the house."""

    points: tuple[Place, ...]
    bearing: Angle | None = None
    house: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Feature(OnPlan):
    """Something on the lot that the system must keep away from."""

    name: str
    kind: str
    lies: str | None = None
    flows: str | None = None
    piped: str | None = None
    lined: str | None = None
    casing: Length | None = None
    note: str | None = None
    photo: str | None = None
