"""What an inspection recorded, as frozen dataclasses that mirror the schema.

Titles, descriptions and examples of every field stand in
``schemas/inspection.schema.json`` and nowhere else; a test compares the two.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.quantity import (
    Clock,
    Day,
    Duration,
    Length,
    Level,
    Slope,
    TimedVolume,
    Volume,
)


@dataclass(frozen=True, kw_only=True)
class Node:
    """A group of keys in the job file; ``at`` is its path, such as ``tanks[0]``."""

    at: str = ""

    def path(self, key: str) -> str:
        """Give the path of one key of this group."""
        return f"{self.at}.{key}" if self.at else key


@dataclass(frozen=True, kw_only=True)
class Visit(Node):
    """When, by whom, in what weather."""

    date: Day
    start: Clock | None = None
    end: Clock | None = None
    inspector: str
    licence: str | None = None
    weather: str | None = None
    ground: str | None = None


@dataclass(frozen=True, kw_only=True)
class Client(Node):
    """Who asked, and what for."""

    name: str
    role: str | None = None
    asks: str | None = None
    answer: str | None = None


@dataclass(frozen=True, kw_only=True)
class Property(Node):
    """The lot and its house."""

    address: str
    place: str
    code: str | None = None
    authority: str | None = None
    bedrooms: int | None = None
    built: int | None = None
    water_supply: str | None = None
    system: str | None = None


@dataclass(frozen=True, kw_only=True)
class Household(Node):
    """Who lives there and what they send to the tank."""

    people: int | None = None
    vacant_for: Duration | None = None
    last_pumped: str | None = None
    pumped_before: Duration | None = None
    disposal_unit: str | None = None
    treatment_drains_to_tank: str | None = None


@dataclass(frozen=True, kw_only=True)
class Tank(Node):
    """One tank: its inside, what stands in it, its fittings and covers."""

    name: str
    material: str | None = None
    shape: str
    length: Length | None = None
    width: Length | None = None
    diameter: Length | None = None
    gallons: Volume | None = None
    liquid_depth: Length
    inside_height: Length | None = None
    inlet_above_outlet: Length | None = None
    measured_by: str | None = None
    outlet_device: str | None = None
    outlet_device_depth: Length | None = None
    outlet_device_state: str | None = None
    inlet_device_state: str | None = None
    sludge: Length | None = None
    scum: Length | None = None
    scum_bottom: Length | None = None
    high_mark: Length | None = None
    cover: str | None = None
    covers_back: str | None = None
    structure: str | None = None
    note: str | None = None
    photo: str | None = None


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
class LoadTest(Node):
    """Water run into the tank, and what the level did."""

    tank: str | None = None
    target: Volume | None = None
    water: tuple[Stretch, ...]
    levels: tuple[LevelReading, ...]
    levels_read_to: Length | None = None
    ended: Clock | None = None
    stop_reason: str | None = None
    limits: Limits | None = None
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class LogEntry(Node):
    """One sight of the camera at a distance."""

    distance: Length = field(metadata={"key": "at"})
    to: Length | None = None
    see: str
    material: str | None = None
    water: Length | None = None
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
    length: Length | None = None
    water_on: str | None = None
    perforated_from: Length | None = None
    log: tuple[LogEntry, ...]
    ended_because: str | None = None


@dataclass(frozen=True, kw_only=True)
class Distance(Node):
    """A distance taped between a part and a feature."""

    from_: str
    to: str
    distance: Length
    by: str
    give_or_take: Length | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class Photo(Node):
    """One photograph and what it shows."""

    file: str
    shows: str


@dataclass(frozen=True, kw_only=True)
class OwnFinding(Node):
    """A finding in the inspector's own words."""

    part: str
    weight: str
    title: str
    saw: str
    means: str | None = None
    do: str | None = None
    who: str | None = None
    by: str | None = None
    takes_water: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class Override(Node):
    """A finding that the inspector weighs differently."""

    finding: str
    weight: str
    because: str


@dataclass(frozen=True, kw_only=True)
class NotSeen(Node):
    """What could not be looked at."""

    what: str
    because: str


@dataclass(frozen=True, kw_only=True)
class Inspection(Node):
    """All that one job file says."""

    state: str = "draft"
    demonstration: str | None = None
    visit: Visit
    client: Client
    property: Property
    household: Household | None = None
    tanks: tuple[Tank, ...] = ()
    load_test: LoadTest | None = None
    pipe_runs: tuple[PipeRun, ...] = ()
    distances: tuple[Distance, ...] = ()
    photos: tuple[Photo, ...] = ()
    findings: tuple[OwnFinding, ...] = ()
    overrides: tuple[Override, ...] = ()
    not_seen: tuple[NotSeen, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Firm(Node):
    """The firm that signs the reports."""

    name: str
    phone: str
    email: str | None = None
    address: str | None = None
    demonstration: str | None = None


@dataclass(frozen=True, kw_only=True)
class Record:
    """A checked job: its name, what it says, and the line of every key."""

    job: str
    inspection: Inspection
    firm: Firm
    lines: dict[str, int] = field(repr=False)
    photo_folder: str = ""

    def line(self, path: str) -> int:
        """Give the line of a key in the job file. [-]"""
        return self.lines[path]
