"""Rules on the two-day test: whether the area took the design volume of a day."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import DESIGNER, LIMITS
from generator.findings.finding import Finding
from generator.findings.validity import empty_house
from generator.record.model import Record
from generator.record.water import TwoDayTest
from generator.results.guard_band import CLOSE
from generator.results.result import Results, nominal
from generator.results.rounding import said
from generator.results.two_day_test import (
    ABOVE,
    BELOW,
    NOT_SATISFACTORY,
    RESTORED,
    SATISFACTORY,
    TwoDays,
)

ENDED = {
    RESTORED: "and the level stood where day 1 had ended",
    BELOW: "and the level did not come up to where day 1 had ended",
    ABOVE: "and the level ended above where day 1 had ended",
}


def two_day_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge the two-day test, where one was made."""
    test = record.inspection.two_day_test
    worked: TwoDays | None = results.parts.get("two_day")
    if test is None or worked is None:
        return
    told = " ".join([_told(test, worked), *_hours(worked)])
    reasons = list(_doubts(record, test, worked))
    if worked.verdict == SATISFACTORY and not reasons:
        yield _finding(
            test,
            results,
            "sound",
            "The absorption area took its design volume within a day",
            f"{told}{_stronger(test)}",
            "yes",
        )
    elif worked.verdict == NOT_SATISFACTORY and not reasons:
        yield _finding(
            test,
            results,
            "failed",
            "The absorption area did not take its design volume within a day",
            told,
            "no",
        )
    else:
        title = "The two-day test does not show whether the area takes its water"
        if worked.verdict == CLOSE and not reasons:
            title = "The two-day test is too close to call"
        saw = " ".join([told, *_why(worked), *reasons])
        yield _finding(test, results, "unseen", title, saw, "not shown")


def _finding(
    test: TwoDayTest, results: Results, weight: str, title: str, saw: str, water: str
) -> Finding:
    bad, blind = weight == "failed", weight == "unseen"
    names = ("two_day.absorbed", "two_day.share", "two_day.hours")
    return Finding(
        key="two-day-test",
        part=test.area or "absorption area",
        weight=weight,
        title=title,
        saw=saw,
        means="It cannot keep up with the water that the house is sized for."
        if bad
        else "",
        todo="Use as little water as can be. Have the cause found."
        if bad
        else "Have a two-day test made that can show it."
        if blind
        else "",
        who=DESIGNER if bad else "a septic inspector" if blind else "",
        by="now" if bad else "before the sale closes" if blind else "",
        evidence=tuple(name for name in names if results.get(name)),
        source="PSU-HLT",
        takes_water=water,
    )


def _told(test: TwoDayTest, worked: TwoDays) -> str:
    one, two = test.first_day, test.second_day
    asked = (
        f"The design volume of a day is {said(worked.design_gal, 'gal')}. "
        if worked.design_gal is not None
        else ""
    )
    return (
        f"{asked}{one.added.typed} were run into the absorption area on day 1, and "
        f"{two.added.typed} on day 2, {ENDED[worked.level]}."
    )


def _hours(worked: TwoDays) -> Iterator[str]:
    asked = LIMITS["two_day_hours"].value
    if abs(worked.hours - asked) > LIMITS["two_day_slack"].value:
        yield (
            f"{said(worked.hours, 'h')} lay between the two days; the method asks for "
            f"{asked:.0f}."
        )


def _why(worked: TwoDays) -> Iterator[str]:
    """Say why the rule itself gives no answer."""
    if worked.design_gal is None:
        yield "No figure for the design volume of this house is at hand."
    elif nominal(worked.first_gal) < worked.design_gal:
        yield "Less than the design volume was run in on day 1."
    elif worked.verdict == CLOSE:
        yield "The water of day 2 falls short by no more than it can be off."
    elif worked.verdict not in (SATISFACTORY, NOT_SATISFACTORY):
        if worked.level == BELOW:
            yield "More might have gone in."
        else:
            yield "How much of it stands above that level is not known well enough."


def _doubts(record: Record, test: TwoDayTest, worked: TwoDays) -> Iterator[str]:
    """Say what speaks against a plain answer, for the answer that the rule gives."""
    asked, slack = (LIMITS[f"two_day_{key}"].value for key in ("hours", "slack"))
    if worked.verdict == SATISFACTORY:
        yield from empty_house(record)
        if worked.hours > asked + slack:
            yield "The area had longer to drain than the method gives it."
    elif worked.verdict == NOT_SATISFACTORY:
        if worked.hours < asked - slack:
            yield "The area had less time to drain than the method gives it."
        if test.rain == "yes":
            yield "It rained between the two days, and rain takes up room in the area."
        if test.sewage_kept_out == "no":
            yield "Sewage ran in between the two days, and nobody measured how much."


def _stronger(test: TwoDayTest) -> str:
    more = []
    if test.rain == "yes":
        more.append("It rained meanwhile")
    if test.sewage_kept_out == "no":
        more.append("sewage ran in meanwhile" if more else "Sewage ran in meanwhile")
    if not more:
        return ""
    return f" {' and '.join(more)}, so that the area took even more than was measured."
