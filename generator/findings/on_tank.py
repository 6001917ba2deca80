"""Rules on a tank: covers, fittings, structure, marks and solids."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import DEVICE_STATES, LIMITS, STRUCTURES
from generator.findings.finding import Finding
from generator.findings.on_covers import cover_findings
from generator.record.model import Record
from generator.record.parts import HOLDING_TANK, Compartment, Tank
from generator.results.result import Results

BEFORE_SALE, NEXT_PUMP_OUT = "before the sale closes", "the next pump-out"
CONTRACTOR, PUMPER = "a licensed septic contractor", "a licensed pumper"


def tank_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge every tank by every rule."""
    for tank in record.inspection.tanks:
        yield from cover_findings(
            tank.name, tank.cover, tank.covers_back, _photos(tank)
        )
        has_outlet = tank.kind != HOLDING_TANK  # which is emptied when it is full
        if has_outlet:
            yield from _device(record, tank, "outlet", tank.outlet_device_state)
        yield from _device(record, tank, "inlet", tank.inlet_device_state)
        yield from _structure(tank)
        if has_outlet:
            yield from _high_mark(tank)
            yield from _solids(record, results, tank)


def _photos(tank: Tank) -> tuple[str, ...]:
    return (tank.photo,) if tank.photo else ()


def _device(
    record: Record, tank: Tank, end: str, state: str | None
) -> Iterator[Finding]:
    if state is None:
        return
    weight, said = DEVICE_STATES[state]
    name = f"{end} {_device_word(tank, end)}"
    broken = weight == "repair"
    yield Finding(
        key=f"{tank.name}-{end}-device",
        part=tank.name,
        weight=weight,
        title=f"The {name} {said}",
        saw=f"The {name} {said}." + _salt(record, tank, weight),
        means=_device_means(end) if broken else "",
        todo=f"Have a new {end} tee or baffle fitted."
        if broken
        else _look_again(weight),
        who=CONTRACTOR if broken else PUMPER if weight == "watch" else "",
        by=BEFORE_SALE if broken else NEXT_PUMP_OUT if weight == "watch" else "",
        photos=_photos(tank) if end == "outlet" and weight != "sound" else (),
        source="PIMA-7-21" if broken else "inspector",
    )


def _device_word(tank: Tank, end: str) -> str:
    named = tank.outlet_device if end == "outlet" else None
    return named if named in ("baffle", "tee") else "baffle or tee"


def _look_again(weight: str) -> str:
    return "Have it looked at again." if weight == "watch" else ""


def _device_means(end: str) -> str:
    if end == "outlet":
        return (
            "Scum and solids can leave the tank and clog the absorption area, which is "
            "the most expensive part of the system."
        )
    return "Sewage that comes in stirs up the tank or backs up at the inlet."


def _salt(record: Record, tank: Tank, weight: str) -> str:
    household = record.inspection.household
    salty = household is not None and household.treatment_drains_to_tank == "yes"
    if salty and tank.material == "concrete" and weight in ("repair", "watch"):
        return (
            " Water treatment drains to this tank; its salt speeds the wear of "
            "concrete (common practice, no source)."
        )
    return ""


def _structure(tank: Tank) -> Iterator[Finding]:
    if tank.structure is None:
        return
    weight, said = STRUCTURES[tank.structure]
    failed = weight == "failed"
    yield Finding(
        key=f"{tank.name}-structure",
        part=tank.name,
        weight=weight,
        title=f"The {tank.name} {said}",
        saw=f"The {tank.name} {said}.",
        means="Sewage can leave the tank before it is treated, or groundwater fill it."
        if failed
        else "",
        todo="Have it emptied, looked at from within by instruments, and mended or "
        "replaced."
        if failed
        else _look_again(weight),
        who=CONTRACTOR if failed else PUMPER if weight == "watch" else "",
        by=BEFORE_SALE if failed else NEXT_PUMP_OUT if weight == "watch" else "",
        source="MA-15-303" if failed else "inspector",
    )


def _high_mark(tank: Tank) -> Iterator[Finding]:
    if tank.high_mark is None or tank.high_mark.inches <= 0:
        return
    yield Finding(
        key=f"{tank.name}-high-mark",
        part=tank.name,
        weight="watch",
        title=f"The {tank.name} has stood higher than its outlet",
        saw=f"A mark on the wall stands {tank.high_mark.typed} above the outlet."
        + _in_the_sewer(tank),
        means="At some time water came in faster than it could leave.",
        todo="Ask the owner when it backed up, and have the level looked at again.",
        who=f"the client; then {PUMPER}",
        by=NEXT_PUMP_OUT,
        source="practice",
    )


def _in_the_sewer(tank: Tank) -> str:
    """Say that sewage once stood in the pipe from the house, where it did."""
    if tank.high_mark is None or tank.inlet_above_outlet is None:
        return ""
    above_in = tank.high_mark.inches - tank.inlet_above_outlet.inches
    if above_in <= 0:
        return ""
    return (
        f" That is {above_in:g} in above the inlet: sewage stood in the pipe from the "
        "house."
    )


def _solids(record: Record, results: Results, tank: Tank) -> Iterator[Finding]:
    found = results.under(f"solids.{tank.name}.")
    held = [one for one in found if one.verdict in ("pump", "not yet")]
    if not held:
        if not _measured(tank):
            yield Finding(
                key=f"{tank.name}-solids",
                part=tank.name,
                weight="unseen",
                title=f"Sludge and scum in the {tank.name} were not measured",
                saw="Without both, nobody can say when to pump.",
            )
        return
    over = [one for one in held if one.verdict == "pump"]
    code = record.inspection.property.code
    local = [one for one in over if code and f".{code}." in one.name]
    weight = "sound"
    if over:
        agreeing = len({one.source for one in over}) >= LIMITS["pump_sources"].value
        weight = "repair" if local or agreeing else "watch"
    counted = (
        f"Of {len(held)} published rules {len(over) or 'none'} "
        f"say{'s' * (len(over) == 1)} to pump now; each stands by itself."
    )
    if tank.outlet_device_depth is None:
        counted += (
            " How near the solids are to the outlet device cannot be said: its depth "
            "was not measured."
        )
    yield Finding(
        key=f"{tank.name}-solids",
        part=tank.name,
        weight=weight,
        title={
            "repair": f"The {tank.name} must be pumped",
            "watch": f"The {tank.name} is due for pumping",
            "sound": f"The {tank.name} does not need pumping yet",
        }[weight],
        saw=f"{_layers(tank)}, in {tank.liquid_depth.typed} of liquid. {counted}",
        means="Solids that reach the outlet clog the absorption area." if over else "",
        todo={
            "repair": "Have the whole tank pumped and looked at while it is empty.",
            "watch": "Have the tank pumped at the next change of household or within a "
            "year, and measured again.",
            "sound": "",
        }[weight],
        who=PUMPER if over else "",
        by={"repair": "now", "watch": "within a year", "sound": ""}[weight],
        evidence=tuple(one.name for one in held),
        source="practice",
    )


def _measured(tank: Tank) -> bool:
    layers = tank.compartments or (tank,)
    return all(one.sludge is not None and one.scum is not None for one in layers)


def _layers(tank: Tank) -> str:
    if not tank.compartments:
        return f"Sludge {_typed(tank, 'sludge')}, scum {_typed(tank, 'scum')}"
    said = [
        f"{one.name} compartment: sludge {_typed(one, 'sludge')}, scum "
        f"{_typed(one, 'scum')}"
        for one in tank.compartments
    ]
    words = "; ".join(said)
    return f"{words[:1].upper()}{words[1:]}"


def _typed(layers: Tank | Compartment, key: str) -> str:
    amount = getattr(layers, key)
    return str(amount.typed) if amount else "not measured"
