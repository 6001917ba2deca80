"""The results that hold a load test against its target, and against a day of use."""

from __future__ import annotations

from generator.record.water import LoadTest
from generator.results.design_flow import UNREAD, DailyFlow
from generator.results.inflow import mean_flow_gpm, minutes_for
from generator.results.load_test import Test
from generator.results.load_test_target import share_percent
from generator.results.result import Number, Result, Symbol, nominal


def target_results(
    test: LoadTest, worked: Test, design: DailyFlow | None
) -> list[Result]:
    """List the target, its minutes, the share that reached the end, and of a day."""
    found = []
    target = worked.target_gal
    if test.target is not None and target is not None and nominal(target) > 0:
        found.append(_target(test, worked, design))
        found += _minutes(test, worked, target)
        found += _reached_share(test, worked, target)
    return found + _of_design_flow(test, worked, design)


def _target(test: LoadTest, worked: Test, design: DailyFlow | None) -> Result:
    target, path = worked.target_gal, test.path("target")
    name, label = "load_test.target", "Water that the test was to see"
    assert test.target is not None  # the caller holds this
    if test.target.minutes is not None:
        symbols = (
            Symbol("t", test.target.minutes, "min", "target"),
            Symbol("Q", mean_flow_gpm(worked.running), "gal/min", "mean flow"),
        )
        formula = "Vt = t × Q"
        return Result(
            name, label, target, "gal", formula, symbols, (path,), "EXAM-FILL"
        )
    if test.target.percent is not None and design is not None:
        return Result(
            name,
            label,
            target,
            "gal",
            "Vt = p / 100 × Qd",
            (
                Symbol("p", test.target.percent, "%", "target"),
                Symbol("Qd", design.gpd, "gal/day", "design flow, times one day"),
            ),
            (path, design.path),
            design.source,
            () if design.seen else (UNREAD,),
        )
    words = "as recorded"
    return Result(name, label, target, "gal", words, (), (path,), "inspector")


def _minutes(test: LoadTest, worked: Test, target: Number) -> list[Result]:
    mean = mean_flow_gpm(worked.running)
    if nominal(mean) <= 0:
        return []
    flow = Symbol("Q", mean, "gal/min", "mean flow")
    wanted = Symbol("Vt", target, "gal", "target volume")
    paths = (test.path("target"),)
    found = [
        Result(
            "inflow.minutes_for_target",
            "Minutes of running water for the target",
            minutes_for(target, mean),
            "min",
            "t = Vt / Q",
            (wanted, flow),
            paths,
            "EXAM-FILL",
        )
    ]
    short = target - worked.total_gal
    if nominal(short) > 0:
        ran = Symbol("V", worked.total_gal, "gal", "all the water that ran in")
        found.append(
            Result(
                "inflow.minutes_left",
                "Minutes that were still to run for the target",
                minutes_for(short, mean),
                "min",
                "t = (Vt - V) / Q",
                (wanted, ran, flow),
                (*paths, *_clock(test)),
                "EXAM-FILL",
            )
        )
    return found


def _reached_share(test: LoadTest, worked: Test, target: Number) -> list[Result]:
    reached = worked.reached_gal
    if reached is None or nominal(reached) < 0:
        return []
    return [
        Result(
            "load_test.reached_share",
            "Share of the target that reached the absorption area",
            share_percent(reached, target),
            "%",
            "share = 100 × Va / Vt",
            (
                Symbol("Va", reached, "gal", "reached the absorption area"),
                Symbol("Vt", target, "gal", "target volume"),
            ),
            (test.path("target"),),
            "BALANCE",
        )
    ]


def _of_design_flow(
    test: LoadTest, worked: Test, design: DailyFlow | None
) -> list[Result]:
    if design is None or nominal(design.gpd) <= 0:
        return []
    return [
        Result(
            "load_test.of_design_flow",
            "Water run in, as a share of the design flow of a day",
            share_percent(worked.total_gal, design.gpd),
            "%",
            "share = 100 × V / Qd",
            (
                Symbol("V", worked.total_gal, "gal", "all the water that ran in"),
                Symbol("Qd", design.gpd, "gal/day", "design flow, times one day"),
            ),
            (*_clock(test), design.path),
            design.source,
            () if design.seen else (UNREAD,),
        )
    ]


def _clock(test: LoadTest) -> tuple[str, ...]:
    return tuple(one.path(key) for one in test.water for key in ("from", "to"))
