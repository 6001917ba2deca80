"""Sludge and scum against each published criterion by itself."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass

from generator.codes.packs import Pack
from generator.codes.rows import PumpRow
from generator.record.parts import Compartment, Tank
from generator.results.guard_band import MEETS, SHORT, hold
from generator.results.measured import SOLIDS_IN, measured
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.solids_measures import (
    scum_clearance_in,
    share_percent,
    sludge_clearance_in,
)
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
LAYERS = {"sludge", "scum", "scum_bottom"}  # read in a compartment by itself
HANGS = {"scum clearance", "solids capacity"}  # count from the bottom of the scum
ALL_HANGS = "the whole scum is taken to hang below the liquid surface"
WORDS = {MEETS: "not yet", SHORT: "pump"}
Worked = tuple[Number, str, tuple[Symbol, ...]]


@dataclass(frozen=True)
class Solids:
    """What stands in a tank or a compartment, measured from the outlet invert. [in]

    ``share`` is that of the compartment in the inside of its tank, 1 for the whole tank
    and None where it is not known. [-]
    """

    liquid_depth_in: Number
    sludge_in: Number
    scum_in: Number
    scum_bottom_in: Number
    device_depth_in: Number | None
    inside: Inside
    share: Number | None = 1.0

    def liquid_gal(self) -> Number:
        """Volume up to the outlet. [gal]"""
        return self.share * self.inside.volume_gal()

    def sludge_gal(self) -> Number:
        """Volume of the sludge. [gal]"""
        level = self.sludge_in - self.liquid_depth_in
        return self.share * self.inside.volume_gal(level)

    def scum_gal(self) -> Number:
        """Volume of the scum that hangs below the outlet. [gal]"""
        return self.share * self.inside.between_gal(-self.scum_bottom_in, 0.0)


def take(
    tank: Tank,
    inside: Inside,
    readings: Tank | Compartment | None = None,
    share: Number | None = 1.0,
) -> Solids | None:
    """Take what was measured in a tank, or in one compartment of it.

    Gives None where sludge or scum is missing.
    """
    found = readings or tank
    if found.sludge is None or found.scum is None:
        return None
    scum = measured(found.scum.inches, SOLIDS_IN)
    bottom = found.scum_bottom
    device = tank.outlet_device_depth
    return Solids(
        inside.liquid_depth_in,
        measured(found.sludge.inches, SOLIDS_IN),
        scum,
        scum if bottom is None else measured(bottom.inches, SOLIDS_IN),
        None if device is None else measured(device.inches, SOLIDS_IN),
        inside,
        share,
    )


def solids_results(tank: Tank, solids: Solids, packs: Sequence[Pack]) -> list[Result]:
    """Hold a tank's solids against every criterion of every pack, never merged."""
    return criteria_results(tank, tank, solids, packs, INPUTS, f"solids.{tank.name}")


def criteria_results(
    tank: Tank,
    readings: Tank | Compartment,
    solids: Solids,
    packs: Sequence[Pack],
    criteria: Container[str],
    key: str,
    where: str = "",
    note: tuple[str, ...] = (),
) -> list[Result]:
    """Hold the readings of a tank or a compartment against some of the criteria."""
    found = []
    for pack, row in rows_of(packs):
        worked = _measure(solids, row.criterion) if row.criterion in criteria else None
        if worked is None:
            continue
        paths = tuple(
            owner.path(name)
            for name in INPUTS[row.criterion]
            for owner in (readings if name in LAYERS else tank,)
            if getattr(owner, name) is not None
        )
        assumed = [SOLIDS_IN.assumption()]
        assumed += note if row.criterion.endswith("clearance") else ()
        if row.criterion in HANGS and readings.scum_bottom is None:
            assumed.append(ALL_HANGS)
        found.append(held_result(key, worked, paths, tuple(assumed), pack, row, where))
    return found


def rows_of(packs: Sequence[Pack]) -> list[tuple[Pack, PumpRow]]:
    """List every criterion of every pack that has any."""
    return [
        (pack, row) for pack in packs if pack.pump_out for row in pack.pump_out.rows
    ]


def held_result(
    key: str,
    worked: Worked,
    paths: tuple[str, ...],
    assumed: tuple[str, ...],
    pack: Pack,
    row: PumpRow,
    where: str = "",
) -> Result:
    """Hold one number against one criterion."""
    number, formula, symbols = worked
    least = row.pump_when == "under"
    plain = hold(nominal(number), row.value, least=least, expand=False)
    read = pack.pump_out is not None and pack.pump_out.seen == "yes"
    subject = f"{row.criterion} in the {where}" if where else row.criterion
    return Result(
        f"{key}.{pack.name}.{row.criterion.replace(' ', '_')}",
        f"{pack.jurisdiction}: {subject}, pump when {row.pump_when} {row.limit}",
        number,
        "%" if row.criterion in FULLNESS_PERCENT else "in",
        formula,
        symbols,
        paths,
        pack.source("pump_out"),
        assumed,
        WORDS[plain] if read else CONFIRM,
    )


def _measure(solids: Solids, criterion: str) -> Worked | None:
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
        if solids.share is None:
            return None
        return capacity(solids.sludge_gal(), solids.scum_gal(), solids.liquid_gal())
    parts = {
        "solids share": (sludge.number + scum.number, "(s + c)", (sludge, scum)),
        "sludge share": (sludge.number, "s", (sludge,)),
        "scum share": (scum.number, "c", (scum,)),
    }
    thickness, letters, symbols = parts[criterion]
    number = share_percent(thickness, depth.number)
    return number, f"share = 100 × {letters} / d", (*symbols, depth)


def capacity(sludge_gal: Number, scum_gal: Number, liquid_gal: Number) -> Worked | None:
    """Work out the share of the liquid volume that sludge and scum take up.

    Parameters
    ----------
    sludge_gal, scum_gal : float
        Volume of the sludge, and of the scum below the outlet. [gal]
    liquid_gal : float
        Volume up to the outlet. [gal]

    Returns
    -------
    tuple or None
        The share [%], its formula and its symbols; None where nothing holds any water.

    Notes
    -----
    Where the wall curves it is not the share of the depth. Source: [MN-7080-2450],
    subp. 3, which counts by volume.

    Examples
    --------
    >>> capacity(200.0, 50.0, 1000.0)[0]
    25.0
    """
    if nominal(liquid_gal) <= 0:
        return None
    return (
        share_percent(sludge_gal + scum_gal, liquid_gal),
        "share = 100 × (Vs + Vc) / V",
        (
            Symbol("Vs", sludge_gal, "gal", "volume of the sludge"),
            Symbol("Vc", scum_gal, "gal", "volume of the scum below the surface"),
            Symbol("V", liquid_gal, "gal", "volume of the liquid"),
        ),
    )
