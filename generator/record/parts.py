"""The parts of a system, in the order the water takes."""

from __future__ import annotations

from dataclasses import dataclass

from generator.quantity import (
    Duration,
    Flow,
    Length,
    Level,
    Loading,
    Percolation,
    Share,
    Slope,
    Volume,
)
from generator.record.node import Node
from generator.record.plan import OnPlan

HOLDING_TANK = "holding tank"  # it has no outlet
SINGLE = {  # parts of which a lot has one, by the section of each
    "distribution_box": "distribution box",
    "pump_chamber": "pump chamber",
    "cesspool": "cesspool",
}


@dataclass(frozen=True, kw_only=True)
class Compartment(Node):
    """One compartment of a tank, and what stands in it."""

    name: str
    length: Length | None = None
    gallons: Volume | None = None
    sludge: Length | None = None
    scum: Length | None = None
    scum_bottom: Length | None = None


@dataclass(frozen=True, kw_only=True)
class Tank(OnPlan):
    """One tank: its inside, what stands in it, its fittings and covers."""

    name: str
    kind: str | None = None
    material: str | None = None
    shape: str
    length: Length | None = None
    width: Length | None = None
    diameter: Length | None = None
    gallons: Volume | None = None
    liquid_depth: Length
    liquid_now: Length | None = None
    inside_height: Length | None = None
    compartments: tuple[Compartment, ...] = ()
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
    aerator: str | None = None
    alarm: str | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class Outlet(Node):
    """One outlet of a distribution box."""

    to: str
    down: Length
    flow_seen: str | None = None


@dataclass(frozen=True, kw_only=True)
class DistributionBox(OnPlan):
    """The box that shares the effluent out; depths from one level line."""

    outlets: tuple[Outlet, ...] = ()
    inlet_down: Length | None = None
    floor_down: Length | None = None
    read_to: Length | None = None
    still_level: Level | None = None
    cover: str | None = None
    covers_back: str | None = None
    structure: str | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class Drawdown(Node):
    """The pump run by hand: two readings, the time, the water that came meanwhile."""

    from_: Length
    to: Length
    time: Duration
    inflow: Flow | None = None


@dataclass(frozen=True, kw_only=True)
class PumpChamber(OnPlan):
    """The chamber, its floats, its alarm and its pump."""

    shape: str
    length: Length | None = None
    width: Length | None = None
    diameter: Length | None = None
    gallons: Volume | None = None
    liquid_depth: Length | None = None
    inside_height: Length | None = None
    measured_by: str | None = None
    read_from: str | None = None
    pump_on: Length | None = None
    pump_off: Length | None = None
    alarm_on: Length | None = None
    inlet: Length | None = None
    drain_back: Volume | None = None
    drawdown: Drawdown | None = None
    pump: str | None = None
    alarm: str | None = None
    cover: str | None = None
    covers_back: str | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class AbsorptionArea(OnPlan):
    """One bed, mound or group of trenches, as it stands in the record or was found."""

    name: str
    kind: str
    length: Length | None = None
    width: Length | None = None
    count: int | None = None
    stone_depth: Length | None = None
    void_share: Share | None = None
    soil: str | None = None
    percolation: Percolation | None = None
    loading: Loading | None = None
    loading_from: str | None = None
    measured_by: str | None = None
    standing: Length | None = None
    surface: str | None = None
    note: str | None = None
    photo: str | None = None


@dataclass(frozen=True, kw_only=True)
class Depth(Node):
    """How deep a part should lie by the pitch of its pipe, and where it was hit."""

    to: str
    invert_at_wall: Length
    run: Length
    pitch: Slope | None = None
    ground_falls: Slope | None = None
    ground_rises: Slope | None = None
    top_above_invert: Length | None = None
    probed: Length | None = None
    note: str | None = None
