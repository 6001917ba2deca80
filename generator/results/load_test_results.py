"""The results of a load test, listed: every reading, the peak, the recovery."""

from __future__ import annotations

from itertools import pairwise

from generator.record.water import LevelReading, LoadTest
from generator.results.design_flow import DailyFlow
from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.load_test import Test
from generator.results.load_test_beyond_results import beyond_results
from generator.results.load_test_recovery import Balance
from generator.results.load_test_target_results import target_results
from generator.results.measured import LEVEL_IN
from generator.results.result import Number, Result, Symbol, nominal, standard

DRAWN_ON = "drawn on beyond the last reading: in truth it takes longer"
HARDLY_FELL = "the fall is no larger than its readings can be off: only a rough time"


def flow_between_gpm(before: Balance, now: Balance) -> Number:
    """Flow that passed the outlet between two readings.

    Parameters
    ----------
    before, now : Balance
        The two readings, the second later. [min], [gal]

    Returns
    -------
    float
        Mean flow from the one to the other. [gal/min]

    Notes
    -----
    Difference of what had passed, over the time; the flow of the water, the size of
    the tank and the level at the start are common to both and stay correlated.
    Source: [BALANCE].

    Examples
    --------
    >>> one, two = (Balance(m, 0, 0, 0, 0, g, 0) for m, g in ((10., 30.), (20., 70.)))
    >>> flow_between_gpm(one, two)
    4.0
    """
    return (now.passed_gal - before.passed_gal) / (now.minute - before.minute)


def load_test_results(
    test: LoadTest, worked: Test, design: DailyFlow | None = None
) -> list[Result]:
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
    found += _rate_results(test, worked)
    found += _peak_results(test, worked)
    found += beyond_results(test, worked)
    found += target_results(test, worked, design)
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


def _rate_results(test: LoadTest, worked: Test) -> list[Result]:
    return [
        Result(
            f"load_test.reading.{number}.rate",
            f"Passed on from {first.time.typed} to {second.time.typed}, a minute",
            flow_between_gpm(before, now),
            "gal/min",
            "q = (V2 - V1) / t",
            (
                Symbol("V1", before.passed_gal, "gal", "passed on by the first time"),
                Symbol("V2", now.passed_gal, "gal", "passed on by the second"),
                Symbol("t", now.minute - before.minute, "min", "time between"),
            ),
            tuple(one.path(key) for one in (first, second) for key in ("at", "level")),
            "BALANCE",
        )
        for number, ((before, now), (first, second)) in enumerate(
            zip(pairwise(worked.rows), pairwise(test.levels), strict=True), 2
        )
        if now.minute > before.minute
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
    if nominal(worked.start_in) < 0:
        found.append(
            Result(
                "load_test.made_up",
                "Water that only filled the tank up to its outlet",
                worked.last.made_up_gal,
                "gal",
                "gallons from the level before the water up to the outlet invert",
                (),
                paths,
                "BALANCE",
                ("this water tested nothing",),
            )
        )
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
                _drawn_on(worked) if drawn else (),
            )
        )
    return found


def _drawn_on(worked: Test) -> tuple[str, ...]:
    rate = worked.recovery.rate_in_per_min
    if nominal(rate) < COVERAGE_FACTOR * standard(rate):
        return DRAWN_ON, HARDLY_FELL
    return (DRAWN_ON,)
