"""The results of a load test, listed: every reading, the peak, the recovery."""

from __future__ import annotations

from generator.record.model import LevelReading, LoadTest
from generator.results.load_test import Balance, Test
from generator.results.measured import LEVEL_IN
from generator.results.result import Result, Symbol, nominal


def load_test_results(test: LoadTest, worked: Test) -> list[Result]:
    """List the results of a load test."""
    step = test.levels_read_to
    how = (
        LEVEL_IN.assumption()
        if step is None
        else (f"level readings: taken to be right within their step of {step.typed}")
    )
    found = [
        one
        for number, (row, reading) in enumerate(
            zip(worked.rows, test.levels, strict=True), 1
        )
        for one in _row_results(number, row, reading, how)
    ]
    found += _peak_results(test, worked)
    found += _recovery_results(test, worked)
    return found


def _row_results(
    number: int, row: Balance, reading: LevelReading, how: str
) -> list[Result]:
    key, at = f"load_test.reading.{number}", reading.time.typed
    symbols = (
        Symbol("Vin", row.run_in_gal, "gal", "water run in until then"),
        Symbol("Vfill", row.made_up_gal, "gal", "to fill the tank up to its outlet"),
        Symbol("Vup", row.stored_gal, "gal", "more above the outlet than at the start"),
    )
    paths = (reading.path("at"), reading.path("level"))
    return [
        Result(
            f"{key}.passed",
            f"Passed on by {at}",
            row.passed_gal,
            "gal",
            "Vout = Vin - Vfill - Vup",
            symbols,
            paths,
            "BALANCE",
            (how,),
        ),
        Result(
            f"{key}.blocked_level",
            f"Level at {at} if nothing had passed",
            row.blocked_level_in,
            "in",
            "level at which Vin stands in the tank",
            symbols[:1],
            paths,
            "BALANCE",
        ),
    ]


def _peak_results(test: LoadTest, worked: Test) -> list[Result]:
    peak, stop = worked.peak, worked.at_stop
    paths = tuple(one.path("level") for one in test.levels)
    tested = stop.run_in_gal - stop.made_up_gal
    found = [
        Result(
            "load_test.peak",
            "Highest level above the outlet",
            peak.level_in,
            "in",
            "highest of the readings",
            (),
            paths,
            "BALANCE",
        ),
        Result(
            "load_test.rise",
            "Rise during the test, from the level before the water",
            peak.level_in - worked.start_in,
            "in",
            "rise = h2 - h1",
            (
                Symbol("h1", worked.start_in, "in", "level before the water"),
                Symbol("h2", peak.level_in, "in", "highest level"),
            ),
            paths,
            "BALANCE",
        ),
        Result(
            "load_test.passed_total",
            "Passed on by the last reading",
            worked.last.passed_gal,
            "gal",
            "Vout = Vin - Vfill - Vup",
            (
                Symbol("Vin", worked.last.run_in_gal, "gal", "water run in"),
                Symbol("Vfill", worked.last.made_up_gal, "gal", "to fill the tank up"),
                Symbol("Vup", worked.last.stored_gal, "gal", "more above the outlet"),
            ),
            paths,
            "BALANCE",
        ),
    ]
    if nominal(tested) > 0:
        found.append(
            Result(
                "load_test.held_back",
                "Share of the water held back when the water stopped",
                100 * stop.stored_gal / tested,
                "%",
                "share = 100 × Vup / (Vin - Vfill)",
                (
                    Symbol("Vup", stop.stored_gal, "gal", "more above the outlet"),
                    Symbol("Vin", stop.run_in_gal, "gal", "water run in"),
                    Symbol("Vfill", stop.made_up_gal, "gal", "to fill the tank up"),
                ),
                paths,
                "BALANCE",
            )
        )
    return found


def _recovery_results(test: LoadTest, worked: Test) -> list[Result]:
    found, back = [], worked.recovery.back_min
    paths = tuple(one.path("level") for one in test.levels)
    if worked.recovery.rate_in_per_min is not None:
        found.append(
            Result(
                "load_test.recovery_rate",
                "Fall of the level at the end",
                60 * worked.recovery.rate_in_per_min,
                "in/h",
                "fall over time, last two readings that count",
                (),
                paths,
                "practice",
            )
        )
    if back is not None:
        drawn = worked.recovery.extrapolated
        found.append(
            Result(
                "load_test.recovery",
                "Time until the level is back at the outlet"
                + (", at least: drawn on at the last rate" if drawn else ""),
                back,
                "min",
                "straight line drawn on at the last rate"
                if drawn
                else "straight line between the readings around the outlet invert",
                (),
                paths,
                "practice",
                ("drawn on beyond the last reading: in truth it takes longer",)
                if drawn
                else (),
            )
        )
    return found
