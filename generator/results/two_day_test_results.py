"""The results of a two-day test, listed: what was absorbed, its share, the hours."""

from __future__ import annotations

from generator.record.water import TwoDayTest
from generator.results.design_flow import DailyFlow
from generator.results.load_test_target import share_percent
from generator.results.measured import LEVEL_IN, WATER_ADDED
from generator.results.result import Result, Symbol
from generator.results.two_day_test import ABOVE, BELOW, RESTORED, TwoDays

LABELS = {
    RESTORED: "Water absorbed: what it took to restore the level of day 1",
    BELOW: "Water absorbed, at least: the level of day 1 was not reached again",
    ABOVE: "Water absorbed, at most: the level ended above that of day 1",
}
LESS_EXCESS = "Water absorbed: that of day 2, less what stood too high"
EVEN_INCHES = "what stood too high: evenly by the inch over the rise of day 2"
KEPT_OUT = "sewage: taken as kept out, since the job does not say"


def two_day_results(
    test: TwoDayTest, worked: TwoDays, design: DailyFlow | None = None
) -> list[Result]:
    """List the results of a two-day test."""
    found = [_absorbed(test, worked)]
    if worked.design_gal is not None:
        found.append(_share(test, worked, worked.design_gal, design))
    days = (test.first_day, test.second_day)
    found.append(
        Result(
            "two_day.hours",
            "Time between the levels of the two days",
            worked.hours,
            "h",
            "from the level of day 1 to that of day 2",
            (),
            tuple(day.path(key) for day in days for key in ("date", "at")),
            "PSU-HLT",
        )
    )
    return found


def _absorbed(test: TwoDayTest, worked: TwoDays) -> Result:
    second = Symbol("V2", worked.second_gal, "gal", "water added on day 2")
    step = test.levels_read_to
    how = (
        f"level readings: taken to be right within their step of {step.typed}"
        if step
        else LEVEL_IN.assumption()
    )
    assumed = [WATER_ADDED.assumption(), how]
    if test.sewage_kept_out is None:
        assumed.append(KEPT_OUT)
    symbols: tuple[Symbol, ...] = (second,)
    label, formula = LABELS[worked.level], "Va = V2"
    if worked.excess_gal is not None:
        excess = Symbol(
            "Vx", worked.excess_gal, "gal", "stood above the level of day 1"
        )
        symbols, label, formula = (second, excess), LESS_EXCESS, "Va = V2 - Vx"
        assumed.append(EVEN_INCHES)
    return Result(
        "two_day.absorbed",
        label,
        worked.absorbed_gal,
        "gal",
        formula,
        symbols,
        (
            test.first_day.path("level"),
            test.second_day.path("added"),
            test.second_day.path("level"),
        ),
        "PSU-HLT",
        tuple(assumed),
    )


def _share(
    test: TwoDayTest, worked: TwoDays, gallons: float, design: DailyFlow | None
) -> Result:
    own = test.design_volume is not None
    path = test.path("design_volume") if own or not design else design.path
    return Result(
        "two_day.share",
        "Water absorbed, as a share of the design volume of a day",
        share_percent(worked.absorbed_gal, gallons),
        "%",
        "share = 100 × Va / Vd",
        (
            Symbol("Va", worked.absorbed_gal, "gal", "absorbed"),
            Symbol("Vd", gallons, "gal", "design volume of a day"),
        ),
        (path, test.second_day.path("added")),
        "PSU-HLT",
        (),
        worked.verdict,
    )
