"""What stands around the system: leave, papers, the walk, the reports given."""

from __future__ import annotations

from dataclasses import dataclass

from generator.quantity import Day
from generator.record.node import Node


@dataclass(frozen=True, kw_only=True)
class Consent(Node):
    """Who allowed the work on the lot."""

    given_by: str | None = None
    run_water: str | None = None
    open_and_dig: str | None = None
    utilities: str | None = None
    locate_ticket: str | None = None
    present: str | None = None
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class Paper(Node):
    """One paper that was looked for."""

    kind: str
    found: str | None = None
    from_: str | None = None
    dated: str | None = None
    says: str | None = None
    agrees: str | None = None
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class Sign(Node):
    """Where one sign was seen on the walk."""

    sign: str
    where: str
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class WalkOver(Node):
    """What the lot and the house showed on foot, question by question."""

    walked: str | None = None
    sewage_on_ground: str | None = None
    wet_ground: str | None = None
    odor: str | None = None
    lush_growth: str | None = None
    vehicles: str | None = None
    structures: str | None = None
    trees: str | None = None
    roof_water: str | None = None
    sinking_ground: str | None = None
    backup_indoors: str | None = None
    signs: tuple[Sign, ...] = ()
    note: str | None = None


@dataclass(frozen=True, kw_only=True)
class ReportGiven(Node):
    """One report that the client was given."""

    number: int
    date: Day
    reason: str
    by: str | None = None
