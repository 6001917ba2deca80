"""Results beyond the tested tank: what stayed there, and what reached the area."""

from __future__ import annotations

from generator.record.water import LoadTest
from generator.results.load_test import Test
from generator.results.load_test_beyond import PUMP_CHAMBER, Beyond
from generator.results.result import Result, Symbol, nominal

ONLY_WHEN_PUMPED = (
    "water reaches the absorption area only when the pump runs: what stood in the pump "
    "chamber at the last reading is not counted as there"
)
MORE_THAN_PASSED = (
    "more came into the parts beyond than this tank passed on: water from elsewhere, "
    "such as what runs back from the pump's pipe, is in them"
)
STILL_RUNNING = "water still in the pipes at the last reading counts as there"


def beyond_results(test: LoadTest, worked: Test) -> list[Result]:
    """List what stayed in each part beyond, and what reached the absorption area."""
    found = [
        one
        for number, part in enumerate(worked.beyond, 1)
        for one in _stayed(number, part)
    ]
    return found + _reached(test, worked)


def _stayed(number: int, part: Beyond) -> list[Result]:
    if part.gallons is None:
        return []
    one = part.recorded
    return [
        Result(
            f"load_test.further.{number}",
            f"Water that stayed in the {one.part}",
            part.gallons,
            "gal",
            "gallons between its level before the water and at the last reading",
            (
                Symbol("h1", part.before_in, "in", "its level before the water"),
                Symbol("h2", part.after_in, "in", "its level at the last reading"),
            ),
            tuple(one.path(key) for key in ("part", "before", "after")),
            "BALANCE",
        )
    ]


def _reached(test: LoadTest, worked: Test) -> list[Result]:
    reached = worked.reached_gal
    if reached is None:
        return []
    stayed = [
        Symbol(f"V{at}", one.gallons, "gal", f"stayed in the {one.recorded.part}")
        for at, one in enumerate(worked.beyond, 1)
    ]
    pumped = any(one.recorded.part == PUMP_CHAMBER for one in worked.beyond)
    assumed = [STILL_RUNNING]
    if pumped:
        assumed.append(ONLY_WHEN_PUMPED)
    if nominal(reached) < 0:
        assumed.append(MORE_THAN_PASSED)
    return [
        Result(
            "load_test.reached",
            "Water that reached the absorption area by the last reading",
            reached,
            "gal",
            " - ".join(["Va = Vout", *(one.name for one in stayed)]),
            (
                Symbol("Vout", worked.last.passed_gal, "gal", "passed on by the tank"),
                *stayed,
            ),
            (
                *(one.path("level") for one in test.levels),
                *(one.path("after") for one in test.further),
            ),
            "BALANCE",
            tuple(assumed),
        )
    ]
