"""Why a water test shows less than it seems to, and what the weather adds to it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import LIMITS
from generator.record.model import Record
from generator.record.water import LoadTest
from generator.results.guard_band import SHORT, hold
from generator.results.load_test import Test
from generator.results.result import Number, nominal
from generator.results.rounding import said


def doubts(record: Record, test: LoadTest, worked: Test) -> Iterator[str]:
    """Give each reason why a load test that went well shows less than it seems to."""
    yield from empty_house(record)
    household = record.inspection.household
    pumped = household.pumped_before if household else None
    if pumped and pumped.days <= LIMITS["pumped_lately"].value:
        yield f"The tank had been pumped {pumped.typed} before, which hides trouble."
    yield from _stopped_early(test, worked)
    yield from _little_passed(test, worked)
    yield from _beyond(test, worked)
    if record.inspection.visit.ground == "frozen":
        yield (
            "The ground was frozen: frost keeps rain out of the soil and hides water "
            "that comes up."
        )


def empty_house(record: Record) -> Iterator[str]:
    """Say that the absorption area had rested, where the house had long been empty."""
    household = record.inspection.household
    empty = household.vacant_for if household else None
    if empty and empty.days >= LIMITS["empty_house"].value:
        yield (
            f"The house had stood empty for {empty.typed}: an absorption area that has "
            "rested takes water for a while even if it cannot keep up."
        )


def remarks(record: Record, outcome: str) -> Iterator[str]:
    """Say what the ground and the rain add to a plain yes or no of a load test."""
    visit = record.inspection.visit
    wet = []
    if visit.ground == "saturated":
        wet.append("the ground was saturated")
    if visit.rain == "heavy":
        wet.append("heavy rain had fallen")
    if wet:
        told = " and ".join(wet)
        told = told[:1].upper() + told[1:]
        if outcome == "yes":
            yield f"{told}, when soil takes least: a pass then says all the more."
        if outcome == "no":
            yield (
                f"{told}, when soil takes least: it may take more when dry, but a "
                "system has to work in wet weeks too."
            )
    elif visit.rain == "light":
        yield "Light rain had fallen, which changes little."
    if visit.ground == "frozen" and outcome == "no":
        yield "The ground was frozen, which can be part of the cause."


def wanted(test: LoadTest, worked: Test) -> tuple[Number, str]:
    """Give the gallons that a test was to see, or that it saw, and the words for it."""
    if test.target is None or worked.target_gal is None:
        return worked.at_stop.run_in_gal, (
            f"{said(worked.at_stop.run_in_gal, 'gal')} that were run in"
        )
    if test.target.gallons is not None:
        return worked.target_gal, f"{test.target.typed} wanted"
    return worked.target_gal, (
        f"{said(worked.target_gal, 'gal')} wanted ({test.target.typed})"
    )


def _stopped_early(test: LoadTest, worked: Test) -> Iterator[str]:
    if test.target is not None and worked.target_gal is None:
        yield (
            f"The target was {test.target.typed}, and no figure for the design flow of "
            "this house is at hand."
        )
        return
    if test.stop_reason not in ("out of time", "other"):
        return
    if worked.target_gal is None:
        if test.stop_reason == "out of time":
            yield "The water was turned off early, for want of time."
        return
    if hold(worked.at_stop.run_in_gal - worked.target_gal, 0.0, least=True) == SHORT:
        why = "for want of time" if test.stop_reason == "out of time" else "early"
        yield f"The water was turned off {why}, before the target was reached."


def _little_passed(test: LoadTest, worked: Test) -> Iterator[str]:
    if hold(worked.peak.level_in, 0.0, least=True) == SHORT:
        yield (
            "The liquid never came up to the outlet of the tank, so that the water "
            "tested nothing beyond it."
        )
        return
    gallons, words = wanted(test, worked)
    passed = nominal(worked.last.passed_gal)
    if passed >= nominal(gallons) * LIMITS["tested_share"].value / 100:
        return
    made_up = nominal(worked.last.made_up_gal)
    low = (
        f" The tank stood below its outlet and first took {made_up:.0f} gal to fill "
        "itself; that water tested nothing."
        if made_up > 0
        else ""
    )
    yield f"Of {words}, {max(0.0, passed):.0f} gal passed the outlet.{low}"


def _beyond(test: LoadTest, worked: Test) -> Iterator[str]:
    blind = [
        *worked.unread,
        *(one.recorded.part for one in worked.beyond if one.gallons is None),
    ]
    if blind:
        named = " and the ".join(blind)
        yield (
            f"What stayed in the {named} was not measured, so that nobody can say how "
            "much water reached the absorption area."
        )
        return
    reached = worked.reached_gal
    if reached is None or not worked.beyond:
        return
    gallons, words = wanted(test, worked)
    least = nominal(gallons) * LIMITS["tested_share"].value / 100
    if nominal(reached) < least <= nominal(worked.last.passed_gal):
        stayed = " and ".join(
            f"{said(one.gallons, 'gal')} stayed in the {one.recorded.part}"
            for one in worked.beyond
            if nominal(one.gallons) > 0
        )
        yield (
            f"Of {words}, {max(0.0, nominal(reached)):.0f} gal reached the absorption "
            f"area: {stayed}."
        )
