"""Rules on what the job file does not say: nobody may take silence for sound."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.finding import Finding, not_noted
from generator.findings.on_tank_kinds import only_holds
from generator.record.model import Inspection, Record
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.result import Results
from generator.results.separation import DRINKING_WATER

NOT_NOTED = {
    "cover": "covers of the {name}",
    "outlet_device_state": "outlet baffle or tee of the {name}",
    "inlet_device_state": "inlet baffle or tee of the {name}",
    "structure": "walls, floor and top of the {name}",
}
DEVICES = ("outlet_device_state", "inlet_device_state")  # none in a holding tank


def silence_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Name every usual part of an inspection that the job file does not speak of."""
    inspection = record.inspection
    if not inspection.tanks and not _only_a_cesspool(inspection):
        yield not_noted("tanks", "tank", "the tank")
    for tank in inspection.tanks:
        yield from _tank(tank)
        yield _unseen_by_nature(
            f"{tank.name}-below-liquid",
            tank.name,
            f"Inside of the {tank.name} below the liquid",
            "The tank was not empty; cracks and leaks under the liquid do not show.",
        )
    if _has_an_area(inspection):
        yield _unseen_by_nature(
            "absorption-area-below-ground",
            "absorption area",
            "Absorption area below the ground",
            "Stone and soil under the lawn were not opened.",
        )
    if inspection.pump_chamber is not None:
        for key in ("pump", "alarm", "cover"):
            if getattr(inspection.pump_chamber, key) is None:
                words = f"{key} of the pump chamber"
                yield not_noted(f"pump-chamber-{key}", "pump chamber", words)
    if not inspection.pipe_runs:
        yield not_noted("pipes", "pipes", "inside of the pipes")
    if inspection.walkover is None:
        yield not_noted("walkover", "lot", "the walk over the lot")
    if _own_water(inspection) and not any(
        pair.feature in DRINKING_WATER for pair in results.parts["pairs"]
    ):
        yield not_noted("well-distance", "well", "distance to drinking water")


def _tank(tank: Tank) -> Iterator[Finding]:
    for key, words in NOT_NOTED.items():
        if tank.kind == HOLDING_TANK and key in DEVICES:
            continue
        if getattr(tank, key) is None:
            name = f"{tank.name}-{key.removesuffix('_state')}".replace("_", "-")
            yield not_noted(name, tank.name, words.format(name=tank.name))


def _only_a_cesspool(inspection: Inspection) -> bool:
    pit = inspection.cesspool
    return pit is not None and pit.kind == "cesspool"  # it takes sewage with no tank


def _has_an_area(inspection: Inspection) -> bool:
    if inspection.absorption_areas:
        return True
    if only_holds(inspection) or inspection.cesspool is not None:
        return False
    return inspection.property.system is not None or bool(inspection.tanks)


def _own_water(inspection: Inspection) -> bool:
    return inspection.property.water_supply != "public water"


def _unseen_by_nature(key: str, part: str, title: str, saw: str) -> Finding:
    return Finding(
        key=f"{key}-unseen", part=part, weight="unseen", title=title, saw=saw
    )
