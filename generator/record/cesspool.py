"""A pit that takes sewage or effluent; every depth is read down from one mark."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.quantity import Clock, Length
from generator.record.node import Node
from generator.record.plan import OnPlan
from generator.record.water import Stretch


@dataclass(frozen=True, kw_only=True)
class PitLevel(Node):
    """Depth down to the liquid at one time."""

    time: Clock = field(metadata={"key": "at"})
    down: Length
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class Cesspool(OnPlan):
    """One pit: its inside, what stands in it, and what it did with water."""

    kind: str
    walls: str | None = None
    diameter: Length | None = None
    length: Length | None = None
    width: Length | None = None
    measured_by: str | None = None
    inlet_down: Length | None = None
    floor_down: Length | None = None
    liquid_down: Length | None = None
    high_mark_down: Length | None = None
    sludge: Length | None = None
    scum: Length | None = None
    overflow: str | None = None
    water: tuple[Stretch, ...] = ()
    levels: tuple[PitLevel, ...] = ()
    levels_read_to: Length | None = None
    cover: str | None = None
    covers_back: str | None = None
    structure: str | None = None
    note: str | None = None
    photo: str | None = None
