"""Rules on water run into a cesspool or seepage pit: no code says what is enough."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import DESIGNER
from generator.findings.finding import Finding
from generator.findings.on_cesspool import on_pit
from generator.findings.validity import empty_house
from generator.record.cesspool import Cesspool
from generator.record.model import Record
from generator.results.cesspool_inside import Pit
from generator.results.cesspool_water import cannot
from generator.results.cesspool_water_results import NO_OVERFLOW
from generator.results.guard_band import MEETS, SHORT, hold
from generator.results.result import Result, Results
from generator.results.rounding import decimals, expanded_of, said, written

NO_LIMITS = (
    "No code that we read says how much a pit must take in such a test; the inspector "
    "judges it."
)
NOT_A_WEEK = "One test on one day says little of a wet week."
NAMES = ("run_in", "stored", "taken", "stored_last", "taken_last", "highest", "rate")


def pit_water_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge the water that was run into a pit, where any was."""
    pit = record.inspection.cesspool
    if pit is None or not pit.water:
        return
    if results.get("cesspool.run_in") is None:
        title = f"The water run into the {pit.kind} shows nothing"
        yield _not_shown(pit, results, title, _why_not(pit))
        return
    told = " ".join([*_told(pit, results), *empty_house(record)])
    highest, taken = (results.get(f"cesspool.{key}") for key in ("highest", "taken"))
    if highest is not None and hold(highest.number, 0.0, least=True) == SHORT:
        yield from _rose_too_high(pit, results, highest, told)
    elif taken is not None and hold(taken.number, 0.0, least=True) == SHORT:
        title = f"The readings in the {pit.kind} cannot be as they were recorded"
        more = "More stayed in it than was run in: other water came, or a reading errs."
        yield _not_shown(pit, results, title, f"{told} {more}")
    elif taken is not None and taken.verdict:
        title = f"The readings do not show that the {pit.kind} took any of the water"
        yield _not_shown(pit, results, title, f"{told} {NO_LIMITS}")
    else:
        title = f"How much the {pit.kind} can take is for the inspector to judge"
        yield _not_shown(pit, results, title, f"{told} {NO_LIMITS} {NOT_A_WEEK}")


def _why_not(pit: Cesspool) -> str:
    wrong = [cannot(pit), *Pit.of(pit).wrong()]
    named = [words for words in wrong if words]
    why = " and ".join(named) or (
        "a level before the water and a level after it are both needed"
    )
    return f"Nothing can be worked out from it: {why}."


def _rose_too_high(
    pit: Cesspool, results: Results, highest: Result, told: str
) -> Iterator[Finding]:
    above = said(-highest.number, "in")
    saw = f"{told} At the highest it stood {above} above the inlet invert."
    run, design = results.get("cesspool.run_in"), results.get("design.flow")
    assert run is not None  # pit_water_findings asked
    if design is not None and hold(run.number, design.value, least=False) != MEETS:
        title = f"The {pit.kind} filled above its inlet with more than a day's water"
        yield _not_shown(
            pit,
            results,
            title,
            f"{saw} It was given more than one day's design flow at once, or too near "
            "to it to say, so that this alone does not show a failure.",
        )
        return
    yield on_pit(
        pit,
        "test",
        "failed",
        f"The water run into the {pit.kind} rose above its inlet",
        saw,
        means="The pit and its soil do not hold the water of the test.",
        todo="Use as little water as can be. Ask the local authority what is to "
        "replace it.",
        who=DESIGNER,
        by="now",
        evidence=_evidence(results),
        source="practice",
        takes_water="no",
    )


def _not_shown(pit: Cesspool, results: Results, title: str, saw: str) -> Finding:
    return on_pit(
        pit,
        "test",
        "unseen",
        title,
        saw,
        evidence=_evidence(results),
        source="practice",
        takes_water="not shown",
    )


def _evidence(results: Results) -> tuple[str, ...]:
    names = (f"cesspool.{name}" for name in NAMES)
    return tuple(name for name in names if results.get(name))


def _told(pit: Cesspool, results: Results) -> Iterator[str]:
    run = results.all["cesspool.run_in"]
    yield f"{_sure(run)} were run in."
    stored, taken = results.get("cesspool.stored"), results.get("cesspool.taken")
    if stored is not None and taken is not None:
        by = stored.label.rpartition(", by ")[2]
        yield (
            f"By {by}, {_sure(stored)} were stored in the pit and {_sure(taken)} had "
            f"gone on {_where(pit)}."
        )
    else:
        yield "How much of it stayed is not known: the pit was not measured across."
    rate = results.get("cesspool.rate") or results.get("cesspool.fall")
    if rate is None:
        yield "How fast the level fell after the water stopped was not read."
        return
    clock = rate.label.rpartition(", from ")[2]
    if rate.verdict:
        yield (
            f"From {clock}, after the water stopped, the level moved by no more than "
            "its readings can be off."
        )
    else:
        went = "went on at" if rate.unit == "gal/h" else "fell"
        yield f"From {clock}, after the water stopped, it {went} {_sure(rate)}."


def _where(pit: Cesspool) -> str:
    if pit.overflow == NO_OVERFLOW:
        return "into the soil and the stone around it"
    return "into the soil and the stone around it, or out of an overflow"


def _sure(one: Result) -> str:
    expanded = expanded_of(one.number)
    words = said(one.number, one.unit)
    if not expanded:
        return words
    return f"{words} (± {written(expanded, decimals(one.number))})"
