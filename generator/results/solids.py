"""Sludge and scum against each published criterion by itself, and years to pump."""

from __future__ import annotations

from dataclasses import dataclass

from generator.codes.packs import Pack, PumpRow
from generator.record.model import Tank
from generator.results.guard_band import MEETS, SHORT, hold
from generator.results.measured import SOLIDS_IN, measured
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.tank import Inside

FULLNESS_PERCENT = {"solids capacity", "solids share", "sludge share", "scum share"}
CONFIRM = "confirm with the source"  # of a figure that nobody read there
INPUTS = {
    "sludge clearance": ("liquid_depth", "sludge", "outlet_device_depth"),
    "scum clearance": ("scum", "scum_bottom", "outlet_device_depth"),
    "solids capacity": ("liquid_depth", "sludge", "scum", "scum_bottom"),
    "solids share": ("liquid_depth", "sludge", "scum"),
    "sludge share": ("liquid_depth", "sludge"),
    "scum share": ("liquid_depth", "scum"),
}
WORDS = {MEETS: "not yet", SHORT: "pump"}


@dataclass(frozen=True)
class Solids:
    """What stands in a tank, measured from the outlet invert. [in]"""

    liquid_depth_in: Number
    sludge_in: Number
    scum_in: Number
    scum_bottom_in: Number
    device_depth_in: Number | None
    inside: Inside


def sludge_clearance_in(
    liquid_depth_in: Number, sludge_in: Number, device_depth_in: Number
) -> Number:
    """Clear liquid from the bottom of the outlet device down to the sludge.

    Parameters
    ----------
    liquid_depth_in : float
        Floor to outlet invert. [in]
    sludge_in : float
        Thickness of the sludge. [in]
    device_depth_in : float
        Outlet invert to the bottom of the outlet baffle or tee. [in]

    Returns
    -------
    float
        Clearance; negative where the sludge stands in the device. [in]

    Notes
    -----
    Source: [MN-7080-2450], subp. 3 (the distance that the criterion names).

    Examples
    --------
    >>> sludge_clearance_in(48.0, 11.0, 18.0)
    19.0
    """
    return liquid_depth_in - sludge_in - device_depth_in


def scum_clearance_in(scum_bottom_in: Number, device_depth_in: Number) -> Number:
    """Clear liquid from the bottom of the scum down to that of the outlet device.

    Parameters
    ----------
    scum_bottom_in : float
        Liquid surface to the bottom of the scum. [in]
    device_depth_in : float
        Outlet invert to the bottom of the outlet baffle or tee. [in]

    Returns
    -------
    float
        Clearance; negative where the scum hangs below the device. [in]

    Notes
    -----
    Source: [MN-7080-2450], subp. 3 (the distance that the criterion names).

    Examples
    --------
    >>> scum_clearance_in(2.0, 18.0)
    16.0
    """
    return device_depth_in - scum_bottom_in


def share_percent(part_in: Number, liquid_depth_in: Number) -> Number:
    """Share of the liquid depth that a layer takes up.

    Parameters
    ----------
    part_in : float
        Thickness of the layer or layers. [in]
    liquid_depth_in : float
        Floor to outlet invert. [in]

    Returns
    -------
    float
        Share. [%]

    Notes
    -----
    Source: [PA-71-73], (b)(2)(i), which counts by depth.

    Examples
    --------
    >>> round(share_percent(15.0, 66.0), 1)
    22.7
    """
    return 100 * part_in / liquid_depth_in


def years_to_pump(tank_gal: Number, people: int) -> Number:
    """Years between pumpings for a tank and a household.

    Parameters
    ----------
    tank_gal : float
        Liquid volume. [gal]
    people : int
        People who live in the house all year; 1 to 10. [-]

    Returns
    -------
    float
        Years; not below zero. [year]

    Notes
    -----
    (V − 50 N) / (76.9 N): a reconstruction that gives back the printed table, whose
    rows run from 500 to 2,500 gal and 1 to 10 people; beyond them it is a guess.
    Source: [PUMP-TABLE], rounding of the table 0.1 year.

    Examples
    --------
    >>> round(years_to_pump(1000.0, 4), 1)
    2.6
    """
    years = (tank_gal - 50 * people) / (76.9 * people)
    return years if nominal(years) > 0 else 0.0 * years


def take(tank: Tank, inside: Inside) -> Solids | None:
    """Take what was measured in a tank, or None where sludge or scum is missing."""
    if tank.sludge is None or tank.scum is None:
        return None
    scum = measured(tank.scum.inches, SOLIDS_IN)
    bottom = tank.scum_bottom
    device = tank.outlet_device_depth
    return Solids(
        inside.liquid_depth_in,
        measured(tank.sludge.inches, SOLIDS_IN),
        scum,
        scum if bottom is None else measured(bottom.inches, SOLIDS_IN),
        None if device is None else measured(device.inches, SOLIDS_IN),
        inside,
    )


def solids_results(tank: Tank, solids: Solids, packs: list[Pack]) -> list[Result]:
    """Hold a tank's solids against every criterion of every pack, never merged."""
    found = []
    for pack in packs:
        if pack.pump_out is None:
            continue
        for row in pack.pump_out.rows:
            result = _against(tank, solids, pack, row)
            if result is not None:
                found.append(result)
    return found


def _against(tank: Tank, solids: Solids, pack: Pack, row: PumpRow) -> Result | None:
    worked = _measure(solids, row.criterion)
    if worked is None or pack.pump_out is None:
        return None
    number, formula, symbols = worked
    least = row.pump_when == "under"
    plain = hold(nominal(number), row.value, least=least, expand=False)
    unit = "%" if row.criterion in FULLNESS_PERCENT else "in"
    assumed = [SOLIDS_IN.assumption()]
    if row.criterion == "scum clearance" and tank.scum_bottom is None:
        assumed.append("the whole scum is taken to hang below the liquid surface")
    verdict = WORDS[plain] if pack.pump_out.seen == "yes" else CONFIRM
    return Result(
        f"solids.{tank.name}.{pack.name}.{row.criterion.replace(' ', '_')}",
        f"{pack.jurisdiction}: {row.criterion}, pump when {row.pump_when} {row.limit}",
        number,
        unit,
        formula,
        symbols,
        tuple(
            tank.path(key)
            for key in INPUTS[row.criterion]
            if getattr(tank, key) is not None
        ),
        f"pack:{pack.name}:pump_out",
        tuple(assumed),
        verdict,
    )


def _measure(
    solids: Solids, criterion: str
) -> tuple[Number, str, tuple[Symbol, ...]] | None:
    depth = Symbol("d", solids.liquid_depth_in, "in", "liquid depth")
    sludge = Symbol("s", solids.sludge_in, "in", "sludge")
    scum = Symbol("c", solids.scum_in, "in", "scum")
    if criterion.endswith("clearance"):
        if solids.device_depth_in is None:
            return None
        device = Symbol("b", solids.device_depth_in, "in", "outlet device depth")
        if criterion == "sludge clearance":
            number = sludge_clearance_in(depth.number, sludge.number, device.number)
            return number, "clearance = d - s - b", (depth, sludge, device)
        bottom = Symbol("cb", solids.scum_bottom_in, "in", "bottom of the scum")
        number = scum_clearance_in(bottom.number, device.number)
        return number, "clearance = b - cb", (device, bottom)
    if criterion == "solids capacity":
        return _capacity(solids)
    parts = {
        "solids share": (sludge.number + scum.number, "(s + c)", (sludge, scum)),
        "sludge share": (sludge.number, "s", (sludge,)),
        "scum share": (scum.number, "c", (scum,)),
    }
    thickness, letters, symbols = parts[criterion]
    number = share_percent(thickness, depth.number)
    return number, f"share = 100 × {letters} / d", (*symbols, depth)


def _capacity(solids: Solids) -> tuple[Number, str, tuple[Symbol, ...]]:
    """Share of the liquid volume: where the wall curves it is not that of depth."""
    inside, depth = solids.inside, solids.liquid_depth_in
    full = inside.volume_gal()
    sludge = inside.volume_gal(solids.sludge_in - depth)
    scum = inside.between_gal(-solids.scum_bottom_in, 0.0)
    number = share_percent(sludge + scum, full)
    return (
        number,
        "share = 100 × (Vs + Vc) / V",
        (
            Symbol("Vs", sludge, "gal", "volume of the sludge"),
            Symbol("Vc", scum, "gal", "volume of the scum below the surface"),
            Symbol("V", full, "gal", "volume of the liquid"),
        ),
    )


def years_result(tank: Tank, volume_gal: Number, people: int, path: str) -> Result:
    """Work out the years between pumpings of one tank."""
    return Result(
        f"solids.{tank.name}.years",
        f"Years between pumpings of the {tank.name} with this household",
        years_to_pump(volume_gal, people),
        "years",
        "years = (V - 50 × N) / (76.9 × N)",
        (
            Symbol("V", volume_gal, "gal", "tank volume"),
            Symbol("N", people, "-", "people"),
        ),
        (path, tank.path("liquid_depth")),
        "PUMP-TABLE",
        (
            "a rule of thumb from the start of an empty tank, for people who live "
            "there all year; what was measured counts for more",
        ),
    )
