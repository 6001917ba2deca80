"""The section of a tank in words, with its numbers."""

from __future__ import annotations

from generator.figures.style import said_fully
from generator.figures.tank_bays import bays_known, bays_of
from generator.figures.tank_end_view import end_said
from generator.figures.tank_fittings import fittings_said
from generator.figures.tank_levels import Levels, levels_said, mark_said
from generator.figures.tank_outline import Inside, inside_of
from generator.quantity import Length
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.result import Number
from generator.results.rounding import said


def describe(
    tank: Tank, levels: Levels | None = None, share_percent: Number | None = None
) -> str:
    """Say in words what the figure shows, with its numbers."""
    tested = None if tank.kind == HOLDING_TANK else levels
    inside = inside_of(tank, tested.read_in if tested else ())
    outlet = " and no outlet" if tank.kind == HOLDING_TANK else ""
    return (
        f"Long section, to scale, of {_kind(tank)} {_size(tank, inside)}, inlet at the "
        f"left{outlet}: {_liquid(tank, inside, share_percent)}{_layers(tank, inside)}. "
        f"{fittings_said(tank)}{mark_said(tank)}{levels_said(tested)}"
        f"{_filled(tank, inside)}{end_said(tank)}"
    )


def _filled(tank: Tank, inside: Inside) -> str:
    """Say that a tank is drawn as it was found, where that is not at its outlet."""
    if tank.kind == HOLDING_TANK or not inside.level:
        return ""
    scum = any(bay.scum for bay in bays_of(tank, inside))
    counted = "; clearances are counted with it at the outlet" if scum else ""
    return f" The liquid is drawn as at the start{counted}."


def _kind(tank: Tank) -> str:
    shape = "" if tank.shape == "stated" else f"{tank.shape} "
    held = "holding tank" if tank.kind == HOLDING_TANK else "tank"
    article = "an" if shape.startswith("upright") else "a"
    return f"{article} {shape}{held}"


def _size(tank: Tank, inside: Inside) -> str:
    if not inside.plan_known:
        return "of unknown plan"
    way = "across" if tank.shape == "upright cylinder" else "long"
    return f"{said(inside.length, 'in')} {way}"


def _liquid(tank: Tank, inside: Inside, share_percent: Number | None) -> str:
    deep = f"{said(tank.liquid_depth.inches, 'in')} deep"
    if tank.kind != HOLDING_TANK:
        return f"liquid {deep}" + (" to the outlet" if inside.level else "")
    if tank.liquid_now is None:
        return f"full when {deep}, liquid of the day not measured"
    now = f"liquid {said(tank.liquid_now.inches, 'in')} deep on the day"
    full = f"full when {deep}"
    share = "" if share_percent is None else f", {said_fully(share_percent, '%')} full"
    return f"{full}, {now}{share}"


def _layers(tank: Tank, inside: Inside) -> str:
    if len(tank.compartments) < 2:
        return f", {_solids(tank.sludge, tank.scum)}"
    told = [
        f"in compartment {number} ({bay.name}) {_solids(bay.sludge, bay.scum)}"
        for number, bay in enumerate(bays_of(tank, inside), 1)
    ]
    unknown = "" if bays_known(tank) else "; the compartments were not measured"
    return f"; {'; '.join(told)}{unknown}"


def _solids(sludge: Length | None, scum: Length | None) -> str:
    return ", ".join(
        f"{said(layer.inches, 'in')} of {name}" if layer else f"{name} not measured"
        for name, layer in (("sludge", sludge), ("scum", scum))
    )
