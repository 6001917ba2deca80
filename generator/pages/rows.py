"""Rows of the tables: label and value, already worded."""

from __future__ import annotations

from collections.abc import Iterator

from generator.pages import wording
from generator.record.cesspool import Cesspool
from generator.record.model import Household, Record
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.load_test import Test
from generator.results.result import Result, Results

TANK_LABELS = {
    "kind": "Kind",
    "material": "Material",
    "shape": "Inside shape",
    "length": "Inside length",
    "width": "Inside width",
    "diameter": "Inside diameter",
    "gallons": "Stated volume",
    "liquid_depth": "Liquid depth, floor to outlet",
    "liquid_now": "Liquid on the day",
    "inside_height": "Inside height",
    "inlet_above_outlet": "Inlet above outlet",
    "outlet_device": "Outlet device",
    "outlet_device_depth": "Outlet device reaches down",
    "outlet_device_state": "State of the outlet device",
    "inlet_device_state": "State of the inlet device",
    "sludge": "Sludge",
    "scum": "Scum",
    "scum_bottom": "Scum reaches down, below the surface",
    "high_mark": "High-water mark above outlet",
    "cover": "Cover as found",
    "covers_back": "Covers back and secure",
    "structure": "Structure",
    "aerator": "Aerator",
    "alarm": "Alarm",
}
OF_HOLDING = {"liquid_depth": "Liquid depth when full"}  # it has no outlet
PIT_LABELS = {
    "walls": "Walls",
    "diameter": "Inside diameter",
    "length": "Inside length",
    "width": "Inside width",
    "inlet_down": "From the mark down to the inlet invert",
    "floor_down": "From the mark down to the floor",
    "liquid_down": "From the mark down to the liquid",
    "high_mark_down": "From the mark down to the highest stain",
    "sludge": "Sludge",
    "scum": "Scum",
    "overflow": "Overflow",
    "cover": "Cover as found",
    "covers_back": "Covers back and secure",
    "structure": "Structure",
}
HOUSEHOLD_LABELS = {
    "people": "People in the house",
    "vacant_for": "House empty for",
    "last_pumped": "Tank last pumped",
    "disposal_unit": "Food-waste disposer",
    "treatment_drains_to_tank": "Water treatment drains to the tank",
}
SUBJECTS = {
    "place": "Places on the plan",
    "depth": "Depths by pitch",
    "design": "Design flow",
    "tank": "Tank",
    "holding": "Holding tank",
    "solids": "Sludge and scum",
    "box": "Distribution box",
    "pump": "Pump chamber",
    "cesspool": "Cesspool or seepage pit",
    "area": "Absorption area",
    "inflow": "Test water",
    "load_test": "Load test",
    "two_day": "Two-day test",
    "pipe": "Pipes",
    "distance": "Distances",
    "plan": "Distances on the plan",
    "compare": "Taped against the plan",
}
TEST_RESULTS = (
    "inflow.volume",
    "inflow.other",
    "load_test.of_design_flow",
    "load_test.target",
    "inflow.minutes_for_target",
    "inflow.minutes_left",
    "load_test.peak",
    "load_test.rise",
    "load_test.made_up",
    "load_test.held_back",
    "load_test.passed_total",
    "load_test.recovery",
)
REACHED = ("load_test.reached", "load_test.reached_share")


def tank_rows(tank: Tank | Cesspool) -> list[tuple[str, str]]:
    """List what was recorded of a tank, or of a pit."""
    if isinstance(tank, Cesspool):
        return list(typed(tank, PIT_LABELS))
    more = OF_HOLDING if tank.kind == HOLDING_TANK else {}
    return list(typed(tank, TANK_LABELS | more))


def household_rows(household: Household | None) -> list[tuple[str, str]]:
    """List what was recorded of the household."""
    return list(typed(household, HOUSEHOLD_LABELS)) if household else []


def typed(node: object, labels: dict[str, str]) -> Iterator[tuple[str, str]]:
    """List what was recorded under some keys, as it was typed."""
    for key, label in labels.items():
        found = getattr(node, key)
        if found is not None:
            yield label, str(getattr(found, "typed", found))


def balance_rows(record: Record, results: Results) -> list[dict[str, str]]:
    """List the water balance of every reading."""
    test = record.inspection.load_test
    worked: Test | None = results.parts["load_test"]
    if test is None or worked is None:
        return []
    return [
        {
            "time": reading.time.typed,
            "level": reading.level.typed,
            "run_in": wording.number(row.run_in_gal),
            "filled": wording.number(row.made_up_gal),
            "held": wording.number(row.stored_gal),
            "passed": wording.number(row.passed_gal),
            "anchor": wording.anchor(f"load_test.reading.{number}.passed"),
        }
        for number, (row, reading) in enumerate(
            zip(worked.rows, test.levels, strict=True), 1
        )
    ]


def test_results(results: Results) -> list[Result]:
    """List the flow of each stretch and the results of the test as a whole."""
    flows = results.under("inflow.flow.")
    stayed = results.under("load_test.further.")
    before, after = (
        [found for name in names if (found := results.get(name))]
        for names in (TEST_RESULTS, REACHED)
    )
    return flows + before + stayed + after


def pump_outs(results: Results) -> list[Result]:
    """List the years between pumpings, the years left and the years of build-up."""
    ends = (".years", ".years_left", ".build_up_years")
    return [one for one in results.under("solids.") if one.name.endswith(ends)]


def sight_verdicts(results: Results) -> dict[str, str]:
    """Give the verdict of each log entry by its path."""
    verdicts: dict[str, str] = {}
    for inside in results.parts["pipes"]:
        for entry in inside.run.log:
            verdicts[entry.at] = ""
        for number, sight in enumerate(inside.sights, 1):
            found = results.all[f"pipe.{inside.run.name}.water.{number}"]
            verdicts[sight.entry.at] = found.verdict
    return verdicts
