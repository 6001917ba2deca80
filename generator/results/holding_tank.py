"""A holding tank: how full it is, what still fits, and for how many days."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.record.parts import Tank
from generator.results.design_flow import UNREAD, DailyFlow, DailyFlows
from generator.results.load_test_target import share_percent
from generator.results.measured import LEVEL_IN, TANK_INSIDE_IN, measured
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.tank import Inside, inside_paths, tank_results

OVERFULL = "no room: the liquid stands at or above the depth when full"
EVEN = "the water of a day taken as even over the days, nothing pumped meanwhile"
NO_OUTLET = "a holding tank has no outlet: its depth when full is counted"


def free_gal(full_gal: Number, now_gal: Number) -> Number:
    """Gallons that still fit into a holding tank.

    Parameters
    ----------
    full_gal : float
        Volume at the depth when full. [gal]
    now_gal : float
        Volume at the depth of the day. [gal]

    Returns
    -------
    float
        The difference; not below zero. [gal]

    Notes
    -----
    Source: [BALANCE], for the tank.

    Examples
    --------
    >>> free_gal(2000.0, 1500.0), free_gal(2000.0, 2100.0)
    (500.0, 0.0)
    """
    left = full_gal - now_gal
    return left if nominal(left) > 0 else left - left


def days_to_full(room_gal: Number, gpd: Number) -> Number:
    """Days until a holding tank is full.

    Parameters
    ----------
    room_gal : float
        Gallons that still fit. [gal]
    gpd : float
        Water of a day; above zero. [gal/day]

    Returns
    -------
    float
        Room over flow. [day]

    Notes
    -----
    Holds while nothing is pumped out. Source: [BALANCE], for the tank.

    Examples
    --------
    >>> days_to_full(500.0, 200.0)
    2.5
    """
    return room_gal / gpd


def holding_tank_results(tank: Tank, inside: Inside, flows: DailyFlows) -> list[Result]:
    """Work out the volume of a holding tank, its room, its share and its days."""
    volume = tank_results(tank, inside)[0]
    found = [
        replace(
            volume,
            name=f"holding.{tank.name}.volume",
            label=f"Volume of the {tank.name} when full",
            assumptions=(*volume.assumptions, NO_OUTLET),
        )
    ]
    if tank.liquid_now is None:
        return found
    now = measured(tank.liquid_now.inches, LEVEL_IN)
    full = inside.volume_gal()
    standing = inside.volume_gal(now - inside.liquid_depth_in)
    room = _room(tank, full, standing)
    share = _share(tank, full, standing)
    known = [flow for flow in (flows.design, flows.household) if flow]
    return [*found, room, share, *_days(tank, room, known)]


def _paths(tank: Tank) -> tuple[str, ...]:
    return (tank.path("liquid_now"), *inside_paths(tank))


def _assumed(tank: Tank) -> tuple[str, ...]:
    method = TANK_INSIDE_IN[tank.measured_by or "tape"]
    return (method.assumption(), LEVEL_IN.assumption(), NO_OUTLET)


def _symbols(full: Number, standing: Number) -> tuple[Symbol, ...]:
    return (
        Symbol("V", full, "gal", "volume when full"),
        Symbol("Vn", standing, "gal", "volume at the depth of the day"),
    )


def _room(tank: Tank, full: Number, standing: Number) -> Result:
    over = nominal(full) <= nominal(standing)
    return Result(
        f"holding.{tank.name}.free",
        f"What still fits into the {tank.name}",
        free_gal(full, standing),
        "gal",
        OVERFULL if over else "Vf = V - Vn",
        _symbols(full, standing),
        _paths(tank),
        "BALANCE",
        _assumed(tank),
    )


def _share(tank: Tank, full: Number, standing: Number) -> Result:
    return Result(
        f"holding.{tank.name}.share_full",
        f"How full the {tank.name} is",
        share_percent(standing, full),
        "%",
        "share = 100 × Vn / V",
        _symbols(full, standing),
        _paths(tank),
        "BALANCE",
        _assumed(tank),
    )


def _days(tank: Tank, room: Result, flows: Sequence[DailyFlow]) -> list[Result]:
    return [
        Result(
            f"holding.{tank.name}.days_at_{flow.words.replace(' ', '_')}",
            f"Days until the {tank.name} is full, at the {flow.words}",
            days_to_full(room.number, flow.gpd),
            "days",
            "t = Vf / Q",
            (
                Symbol("Vf", room.number, "gal", "what still fits"),
                Symbol("Q", flow.gpd, "gal/day", flow.words),
            ),
            (flow.path, *room.inputs),
            flow.source,
            (*room.assumptions, EVEN, *(() if flow.seen else (UNREAD,))),
        )
        for flow in flows
        if nominal(flow.gpd) > 0
    ]
