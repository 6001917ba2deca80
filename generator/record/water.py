"""Water run on the lot: the load test of a visit, and the test of two days."""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.quantity import (
    Clock,
    Day,
    Duration,
    Length,
    Level,
    Target,
    TimedVolume,
    Volume,
)
from generator.record.node import Node


@dataclass(frozen=True, kw_only=True)
class Stretch(Node):
    """One stretch of running water."""

    from_: Clock
    to: Clock
    bucket: tuple[TimedVolume, ...] = ()
    bucket_good_to: Volume | None = None
    meter_from: Volume | None = None
    meter_to: Volume | None = None
    meter_reads_to: Volume | None = None


@dataclass(frozen=True, kw_only=True)
class LevelReading(Node):
    """The level at one time."""

    level: Level
    time: Clock = field(metadata={"key": "at"})
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class Limits(Node):
    """What the test may show, and who says so."""

    rise: Length
    back_within: Duration
    named_by: str | None = None


@dataclass(frozen=True, kw_only=True)
class OtherWater(Node):
    """Water that the household sent to the tank meanwhile."""

    from_: Clock
    to: Clock
    gallons: Volume
    give_or_take: Volume | None = None
    what: str | None = None


@dataclass(frozen=True, kw_only=True)
class Further(Node):
    """A tank or chamber beyond the one whose level was read."""

    part: str
    before: Level
    after: Level


@dataclass(frozen=True, kw_only=True)
class LoadTest(Node):
    """Water run into the tank, and what the level did."""

    tank: str | None = None
    target: Target | None = None
    water: tuple[Stretch, ...]
    levels: tuple[LevelReading, ...]
    other_water: tuple[OtherWater, ...] = ()
    further: tuple[Further, ...] = ()
    levels_read: str | None = None
    mark_to_invert: Length | None = None
    levels_read_to: Length | None = None
    ended: Clock | None = None
    stop_reason: str | None = None
    limits: Limits | None = None
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class TestDay(Node):
    """One day of a two-day test: water added, and the level it reached."""

    date: Day
    time: Clock = field(metadata={"key": "at"})
    added: Volume
    level_before: Length | None = None
    level: Length


@dataclass(frozen=True, kw_only=True)
class TwoDayTest(Node):
    """The design volume run into the absorption area itself, on two days running."""

    area: str | None = None
    design_volume: Volume | None = None
    first_day: TestDay
    second_day: TestDay
    rain: str | None = None
    sewage_kept_out: str | None = None
    levels_read_to: Length | None = None
    note: str | None = None
