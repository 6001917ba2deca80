"""Rules on the load test: what the tank did with the water it was given."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import DESIGNER, LIMITS
from generator.findings.finding import Finding
from generator.findings.validity import doubts, remarks
from generator.quantity import Target
from generator.record.model import Record
from generator.record.water import LevelReading, Limits, LoadTest
from generator.results.guard_band import CLOSE, MEETS, SHORT, hold
from generator.results.inflow import volume_by_gal
from generator.results.load_test import Test
from generator.results.result import Results, nominal
from generator.results.rounding import said

STOPPED_BY_FAILURE = ("level too high", "backing up", "water on the ground")
WITHOUT_LIMITS = "No limits were named that the load test could be held against"


def load_test_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge the load test, or say that there was none."""
    test, worked = record.inspection.load_test, results.parts["load_test"]
    if test is None or worked is None:
        if record.inspection.two_day_test is None:
            yield _not_shown("No water was run", "No load test was made.")
        return
    if worked.last.minute < worked.stop_minute:
        run = said(results.all["inflow.volume"].number, "gal")
        words = f"{run} were run in, and no level was read after the water stopped."
        yield _not_shown("The load test does not show it", words)
        return
    outcome, words = _outcome(test, worked)
    words = " ".join([words, *remarks(record, outcome)])
    reasons = [] if outcome == "no" else list(doubts(record, test, worked))
    if reasons:
        yield _not_shown("The load test does not show it", " ".join(reasons))
    elif outcome == "yes":
        yield Finding(
            key="load-test",
            part="load test",
            weight="sound",
            title="The tank passed on the water it was given",
            saw=words,
            evidence=_evidence(results),
            source="LOAD-LIMITS",
            takes_water="yes",
        )
    elif outcome == "no":
        yield Finding(
            key="load-test",
            part="load test",
            weight="failed",
            title="The tank backs up under the test",
            saw=words,
            means="What lies beyond the tank does not take water as fast as it comes.",
            todo="Use as little water as can be. Have the cause found: a blocked pipe, "
            "a pump, or an absorption area that is full.",
            who=DESIGNER,
            by="now",
            evidence=_evidence(results),
            source="LOAD-LIMITS",
            takes_water="no",
        )
    else:
        close = "The load test is too close to call"
        yield _not_shown(close if test.limits else WITHOUT_LIMITS, words)


def _evidence(results: Results) -> tuple[str, ...]:
    names = ("rise", "held_back", "passed_total", "reached", "recovery")
    tested = (f"load_test.{name}" for name in names)
    return tuple(name for name in ("inflow.volume", *tested) if results.get(name))


def _not_shown(title: str, saw: str) -> Finding:
    return Finding(
        key="load-test",
        part="load test",
        weight="unseen",
        title=title,
        saw=saw,
        todo="Have a load test made that can show it.",
        who="a septic inspector",
        by="before the sale closes",
        source="LOAD-LIMITS",
        takes_water="not shown",
    )


def _outcome(test: LoadTest, worked: Test) -> tuple[str, str]:
    """Judge by the limits that the job names, and by a stop that failure forced."""
    told = _told(test, worked)
    if test.limits is None:
        if test.stop_reason in STOPPED_BY_FAILURE:
            return "no", f"{told} The test was stopped: {test.stop_reason}."
        return "not shown", f"{told} The job names no limits to hold this against."
    rise = hold(worked.peak.level_in, test.limits.rise.inches, least=False)
    back = _back_in_time(test.limits, worked)
    named = test.limits.named_by or "the inspector"
    words = (
        f"{told} Allowed by {named}: {test.limits.rise.typed} above the outlet, back "
        f"within {test.limits.back_within.typed}."
    )
    if test.stop_reason in STOPPED_BY_FAILURE:
        return "no", f"{words} The test was stopped: {test.stop_reason}."
    if SHORT in (rise, back):
        return "no", words
    if rise == MEETS and back == MEETS:
        return "yes", words
    return "not shown", words


def _told(test: LoadTest, worked: Test) -> str:
    recovery, peak = worked.recovery, worked.rows.index(worked.peak)
    words = (
        f"{said(worked.at_stop.run_in_gal, 'gal')} were run in; the level went up to "
        f"{_above(test.levels[peak])} above the outlet."
        if nominal(worked.peak.level_in) > 0
        else f"{said(worked.at_stop.run_in_gal, 'gal')} were run in; the highest level "
        f"was {test.levels[peak].level.typed}."
    )
    words += _household(worked)
    if nominal(worked.last.made_up_gal) > 0:
        words += (
            f" Of that, {said(worked.last.made_up_gal, 'gal')} filled the tank up to "
            "its outlet and tested nothing."
        )
    if test.target and worked.target_gal is not None:
        words += _against_target(test.target, worked)
    if nominal(worked.start_in) > 0:
        words += " It had stood above the outlet before any water was run."
    if nominal(worked.peak.level_in) <= 0:
        return words
    if recovery.back_min is None or recovery.extrapolated:
        return (
            f"{words} {said(recovery.watched_min, 'min')} after the water stopped it "
            f"still stood {_above(test.levels[-1])} above it."
        )
    return (
        f"{words} It was back at the outlet {said(recovery.back_min, 'min')} after the "
        "water stopped."
    )


def _household(worked: Test) -> str:
    stop = worked.first_min + worked.stop_minute
    gallons = volume_by_gal(worked.household, stop)
    if nominal(gallons) <= 0:
        return ""
    return f" {said(gallons, 'gal')} of it came from the household meanwhile."


def _against_target(target: Target, worked: Test) -> str:
    passed = worked.last.passed_gal
    if nominal(passed) >= nominal(worked.target_gal):
        return ""
    asked = target.typed
    if target.gallons is None:
        asked = f"{said(worked.target_gal, 'gal')} ({target.typed})"
    return f" {said(passed, 'gal')} passed the outlet of the {asked} that were wanted."


def _above(reading: LevelReading) -> str:
    return reading.level.typed.removesuffix(" above")


def _back_in_time(limits: Limits, worked: Test) -> str:
    recovery, allowed = worked.recovery, limits.back_within.minutes
    at_rest = LIMITS["recovered"].value
    if nominal(worked.peak.level_in) <= at_rest:
        return MEETS
    if recovery.back_min is not None and not recovery.extrapolated:
        return hold(nominal(recovery.back_min), allowed, least=False)
    if recovery.watched_min >= allowed:
        return hold(recovery.last_level_in, at_rest, least=False)
    return CLOSE
