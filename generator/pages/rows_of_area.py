"""Rows of the page on where the water goes: box, absorption areas, two-day test."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from generator.findings.finding import Finding
from generator.findings.on_absorption import EMPTY_SPACE
from generator.pages import wording
from generator.pages.rows import typed
from generator.record.model import Inspection, Record
from generator.record.parts import AbsorptionArea, DistributionBox, Outlet
from generator.record.water import TestDay, TwoDayTest
from generator.results.distribution import lowest
from generator.results.guard_band import SHORT
from generator.results.result import Result, Results

BOX_LABELS = {
    "inlet_down": "Level line down to the inlet",
    "floor_down": "Level line down to the floor",
    "read_to": "Depths read to",
    "still_level": "Water at rest, against the outlets",
    "cover": "Cover as found",
    "covers_back": "Cover back and secure",
    "structure": "Structure",
}
AREA_LABELS = {
    "kind": "Kind",
    "length": "Length",
    "width": "Width",
    "count": "How many",
    "stone_depth": "Stone, from its bottom up to the pipe",
    "void_share": "Empty share of the stone",
    "soil": "Soil",
    "percolation": "Percolation",
    "loading": "Loading rate of the design",
    "loading_from": "Who gives that rate",
    "measured_by": "Measured by",
    "standing": "Liquid standing above the bottom",
    "surface": "Ground over it",
}
EACH = {"length": "Length of each", "width": "Width of each"}
TEST_LABELS = {
    "area": "Area",
    "design_volume": "Design volume of a day, as named",
    "rain": "Rain between the two days",
    "sewage_kept_out": "Sewage kept out meanwhile",
    "levels_read_to": "Levels read to",
}
LOWEST, HIGHEST, BETWEEN = "lowest: takes the flow first", "highest", "between"
ALIKE, NOT_NOTED = "as deep as the others", "–"
VERDICTS = {SHORT: "does not meet"}  # other words stand as they are
OF_ALL = ("area.loading", "area.required", "area.test_share")
# What no test shows of the soil: the first of these findings that was made.
OF_SOIL = (EMPTY_SPACE, "absorption-area-below-ground-unseen")

Row = tuple[str, ...]


@dataclass(frozen=True)
class Area:
    """One absorption area: what was recorded of it, and what follows from it alone."""

    recorded: AbsorptionArea
    rows: list[Row]
    results: list[Result]


def has_somewhere(inspection: Inspection) -> bool:
    """Tell whether the file says anything of where the water goes."""
    return bool(
        inspection.distribution_box
        or inspection.absorption_areas
        or inspection.two_day_test
    )


def told(
    record: Record, results: Results, findings: Sequence[Finding]
) -> dict[str, Any]:
    """Give what the template of the page may name."""
    inspection = record.inspection
    made = {one.key: one for one in findings}
    test = inspection.two_day_test
    return {
        "box": inspection.distribution_box,
        "box_rows": box_rows(inspection.distribution_box),
        "outlet_rows": outlet_rows(inspection.distribution_box),
        "areas": [area(one, results) for one in inspection.absorption_areas],
        "of_all_areas": [found for name in OF_ALL if (found := results.get(name))],
        "two_days": test,
        "two_day_rows": two_day_rows(test),
        "two_day_finding": made.get("two-day-test"),
        "verdict_words": VERDICTS,
        "of_soil": next((made[key] for key in OF_SOIL if key in made), None),
    }


def box_rows(box: DistributionBox | None) -> list[Row]:
    """List what was recorded of the distribution box itself."""
    return list(typed(box, BOX_LABELS)) if box else []


def outlet_rows(box: DistributionBox | None) -> list[Row]:
    """List each outlet: where it leads, its depth, its place, whether water left."""
    outlets = box.outlets if box else ()
    return [
        (one.to, one.down.typed, _place(one, outlets), one.flow_seen or NOT_NOTED)
        for one in outlets
    ]


def _place(one: Outlet, outlets: Sequence[Outlet]) -> str:
    downs = {other.down.inches for other in outlets}
    if len(downs) < 2:
        return ALIKE if len(outlets) > 1 else NOT_NOTED
    if one in lowest(outlets):
        return LOWEST
    return HIGHEST if one.down.inches == min(downs) else BETWEEN


def area(recorded: AbsorptionArea, results: Results) -> Area:
    """Gather one area; its results are those that hang on its own length alone."""
    own = [
        one
        for one in results.under("area.")
        if one.name not in OF_ALL and recorded.path("length") in one.inputs
    ]
    more = EACH if recorded.count is not None else {}
    return Area(recorded, list(typed(recorded, AREA_LABELS | more)), own)


def two_day_rows(test: TwoDayTest | None) -> list[Row]:
    """List what was recorded of the two-day test, day by day."""
    if test is None:
        return []
    first, second = _day(test.first_day), _day(test.second_day)
    days = [("Day 1", first), ("Day 2", second)]
    return [*days, *typed(test, TEST_LABELS)]


def _day(day: TestDay) -> str:
    before = f" from {day.level_before.typed}" if day.level_before else ""
    return (
        f"{wording.day(day.date.iso)}, {day.time.typed}: {day.added.typed} added, level"
        f"{before} to {day.level.typed}"
    )
