"""What an inspection recorded, as frozen dataclasses that mirror the schema.

Titles, descriptions and examples of every field stand in
``schemas/inspection.schema.json`` and nowhere else; a test compares the two.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from generator.quantity import Clock, Day, Duration, Length, Slope
from generator.record.around import Consent, Paper, ReportGiven, WalkOver
from generator.record.cesspool import Cesspool
from generator.record.node import Node
from generator.record.parts import (
    AbsorptionArea,
    Depth,
    DistributionBox,
    PumpChamber,
    Tank,
)
from generator.record.pipes import PipeRun
from generator.record.plan import Datum, Feature, Place
from generator.record.todo import Item
from generator.record.water import LoadTest, TwoDayTest


@dataclass(frozen=True, kw_only=True)
class Visit(Node):
    """When, by whom, in what weather."""

    date: Day
    start: Clock | None = None
    end: Clock | None = None
    inspector: str
    license: str | None = None
    weather: str | None = None
    ground: str | None = None
    rain: str | None = None


@dataclass(frozen=True, kw_only=True)
class Client(Node):
    """Who asked, and what for."""

    name: str
    role: str | None = None
    asks: str | None = None
    answer: str | None = None

    @property
    def called(self) -> str:
        """Name, and what part the client has in the matter where that is known."""
        return f"{self.name}, {self.role}" if self.role else self.name


@dataclass(frozen=True, kw_only=True)
class Property(Node):
    """The lot and its house."""

    address: str
    place: str
    code: str | None = None
    program: str | None = None
    authority: str | None = None
    bedrooms: int | None = None
    built: int | None = None
    water_supply: str | None = None
    ground_slope: Slope | None = None
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
class Distance(Node):
    """A distance taped between a part and a feature."""

    from_: str
    to: str
    distance: Length
    by: str
    give_or_take: Length | None = None
    over_plan: str | None = None
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
    consent: Consent | None = None
    records: tuple[Paper, ...] = ()
    household: Household | None = None
    datum: Datum | None = None
    places: tuple[Place, ...] = ()
    depths: tuple[Depth, ...] = ()
    tanks: tuple[Tank, ...] = ()
    distribution_box: DistributionBox | None = None
    pump_chamber: PumpChamber | None = None
    absorption_areas: tuple[AbsorptionArea, ...] = ()
    cesspool: Cesspool | None = None
    features: tuple[Feature, ...] = ()
    load_test: LoadTest | None = None
    two_day_test: TwoDayTest | None = None
    pipe_runs: tuple[PipeRun, ...] = ()
    walkover: WalkOver | None = None
    distances: tuple[Distance, ...] = ()
    photos: tuple[Photo, ...] = ()
    findings: tuple[OwnFinding, ...] = ()
    overrides: tuple[Override, ...] = ()
    not_seen: tuple[NotSeen, ...] = ()
    reports: tuple[ReportGiven, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Firm(Node):
    """The firm that signs the reports."""

    name: str
    phone: str
    email: str | None = None
    address: str | None = None
    reports_at: str | None = None
    licenses: tuple[str, ...] = ()
    logo: str | None = None
    limits: str | None = None
    code: str | None = None
    keep_years: int | None = None
    demonstration: str | None = None


@dataclass(frozen=True, kw_only=True)
class Record:
    """A checked job: its name, what it says, and the line of every key."""

    job: str
    inspection: Inspection
    firm: Firm
    lines: dict[str, int] = field(repr=False)
    photo_folder: str = ""
    codes_folder: str = ""
    open_items: tuple[Item, ...] = ()

    def line(self, path: str) -> int:
        """Give the line of a key in the job file. [-]"""
        return self.lines[path]
