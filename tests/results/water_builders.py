"""Short ways to make the tests with water, and to judge them."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from record_builders import make_record
from result_builders import box, length, make_test, stretch

from generator.findings.answers import answers
from generator.findings.finding import Answer, Finding
from generator.findings.on_water import load_test_findings, two_day_findings
from generator.quantity import Clock, Day, Duration, Volume
from generator.record.model import Household, Record
from generator.record.water import Limits, LoadTest, TwoDayTest
from generator.record.water import TestDay as DayOfTest
from generator.results.design_flow import DailyFlow
from generator.results.inflow import inflow_results, running
from generator.results.load_test import work_out
from generator.results.load_test_results import load_test_results
from generator.results.result import Results
from generator.results.two_day_test import work_out_two_days
from generator.results.two_day_test_results import two_day_results

SOUND = [(-3.0, 0.0), (30.0, 0.5), (45.0, 0.0)]
CLIMBS = [(-3.0, 0.0), (30.0, 5.0), (60.0, 4.5)]
LIMITS = Limits(rise=length(1.0), back_within=Duration(30.0, "30 min"))
DESIGN = DailyFlow(400.0, "design flow", "property.bedrooms", "pack:us-pa:design_flow")


def load(
    levels: list[tuple[float, float]] = SOUND,
    minutes: float = 30.0,
    target: float | None = 120.0,
    **changes: Any,
) -> LoadTest:
    """A load test at 4 gal/min into the usual box."""
    test = make_test([stretch(0, minutes)], levels, target=target)
    return replace(test, **{"limits": LIMITS, **changes})


def days(
    second: float = 410.0, ended: float = 6.0, hours: float = 24.0, **changes: Any
) -> TwoDayTest:
    """A two-day test of 400 gal."""

    def day(date: str, at: float, gallons: float, level: float) -> DayOfTest:
        return DayOfTest(
            date=Day(date, date),
            time=Clock(at, "a time"),
            added=Volume(gallons, f"{gallons:g} gal"),
            level=length(level),
        )

    return TwoDayTest(
        first_day=day("2026-10-06", 600.0, 400.0, 6.0),
        second_day=day("2026-10-07", 600.0 + 60 * (hours - 24), second, ended),
        **changes,
    )


def judged(
    test: LoadTest | None = None,
    two_days: TwoDayTest | None = None,
    household: Household | None = None,
    beyond: tuple[str, ...] = (),
    volumes: dict[str, Any] | None = None,
    **visit: Any,
) -> tuple[dict[str, Finding], Answer]:
    """Judge both tests, and give the second answer."""
    record: Record = make_record(load_test=test, two_day_test=two_days)
    inspection = record.inspection
    inspection = replace(
        inspection, household=household, visit=replace(inspection.visit, **visit)
    )
    record = replace(record, inspection=inspection)
    results = Results()
    results.parts.update(load_test=None, two_day=None, pairs=[])
    if test is not None:
        runs = [running(one) for one in test.water]
        results.add(inflow_results(test, runs))
        worked = work_out(test, box(), runs, volumes=volumes, beyond=beyond)
        results.parts["load_test"] = worked
        results.add(load_test_results(test, worked))
    if two_days is not None:
        results.parts["two_day"] = work_out_two_days(two_days, DESIGN)
        results.add(two_day_results(two_days, results.parts["two_day"], DESIGN))
    found = [
        *load_test_findings(record, results),
        *two_day_findings(record, results),
    ]
    return {one.key: one for one in found}, answers(found, results)[1]


def said(test: LoadTest, **more: Any) -> tuple[str, str]:
    """Give the outcome of a load test, and the words."""
    finding = judged(test, **more)[0]["load-test"]
    return finding.takes_water, finding.saw
