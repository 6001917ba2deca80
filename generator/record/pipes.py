"""Pipes, and the camera's log along each."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.quantity import Length, Number, Slope
from generator.record.node import Node


@dataclass(frozen=True, kw_only=True)
class LogEntry(Node):
    """One sight of the camera at a distance."""

    distance: Length = field(metadata={"key": "at"})
    to: Length | None = None
    see: str
    material: str | None = None
    water: Length | None = None
    opening: Length | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class PipeRun(Node):
    """One pipe and the camera's log along it."""

    name: str
    from_: str | None = None
    bore: Length
    material: str | None = None
    slope: Slope | None = None
    roughness: Number | None = None
    roughness_from: str | None = None
    length: Length | None = None
    head: Length | None = None
    water_on: str | None = None
    perforated_from: Length | None = None
    on_plan: tuple[str, ...] = ()
    log: tuple[LogEntry, ...]
    ended_because: str | None = None
