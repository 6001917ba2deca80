"""Rows of the page on the pump: what was seen in its chamber, and what came out."""

from __future__ import annotations

from generator.findings.finding import Finding
from generator.findings.on_pump import PART
from generator.pages.rows import typed
from generator.record.model import Record
from generator.record.parts import PumpChamber
from generator.results.result import Result, Results

LABELS = {
    "shape": "Inside shape",
    "length": "Inside length",
    "width": "Inside width",
    "diameter": "Inside diameter",
    "gallons": "Stated volume",
    "liquid_depth": "Depth of the stated volume",
    "inside_height": "Inside height",
    "pump_off": "Pump turns off at",
    "pump_on": "Pump turns on at",
    "alarm_on": "Alarm sounds at",
    "inlet": "Inlet invert at",
    "drain_back": "Runs back after a dose",
    "pump": "Pump",
    "alarm": "Alarm",
    "cover": "Cover as found",
    "covers_back": "Covers back and secure",
}
HEIGHTS = ("pump_off", "pump_on", "alarm_on", "inlet")
FROM = {"top": "down from the top", None: "above the floor"}


def told(
    record: Record, results: Results, findings: list[Finding]
) -> dict[str, object]:
    """Gather what the page tells, by the names that its template uses."""
    chamber = record.inspection.pump_chamber
    return {
        "pump_rows": pump_rows(chamber) if chamber else [],
        "pump_worked": worked_out(results),
        "pump_findings": [one for one in findings if one.part == PART],
    }


def pump_rows(chamber: PumpChamber) -> list[tuple[str, str]]:
    """List what was recorded of a pump chamber."""
    rows = list(typed(chamber, LABELS))
    counted = FROM.get(chamber.read_from, "above the floor")
    if chamber.drawdown or any(getattr(chamber, key) for key in HEIGHTS):
        rows.append(("Heights count", counted))
    down = chamber.drawdown
    if down is not None:
        fell = f"{down.from_.typed} to {down.to.typed} in {down.time.typed}"
        came = f", while {down.inflow.typed} came in" if down.inflow else ""
        rows.append(("Level while the pump ran", f"{fell}{came}"))
    return rows


def worked_out(results: Results) -> list[Result]:
    """List every result of the pump chamber."""
    return results.under("pump.")
