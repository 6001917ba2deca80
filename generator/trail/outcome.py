"""What came out differently between two versions of a job, in plain words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.findings.finding import Answer, Finding
from generator.pages.wording import result
from generator.results.result import Result, Results


@dataclass(frozen=True)
class Outcome:
    """What one version of a job came to."""

    results: Results
    findings: Sequence[Finding]
    answers: Sequence[Answer]


def answers_changed(before: Outcome, after: Outcome) -> Iterator[str]:
    """Tell which of the five answers changed.

    Yields
    ------
    str
        The question, with its answer before and after.
    """
    was = {one.question: one.word for one in before.answers}
    for one in after.answers:
        if was.get(one.question, one.word) != one.word:
            yield f"{one.question} {was[one.question]} → {one.word}"


def findings_changed(before: Outcome, after: Outcome) -> Iterator[str]:
    """Tell which findings came, went, or weigh differently.

    Yields
    ------
    str
        The finding by its title, with its weight.
    """
    was = {one.key: one for one in before.findings}
    now = {one.key: one for one in after.findings}
    for key, one in now.items():
        earlier = was.get(key)
        if earlier is None:
            yield f"new finding: {one.title} ({one.weight})"
        elif earlier.title != one.title:
            yield f"{earlier.title} ({earlier.weight}) → {one.title} ({one.weight})"
        elif earlier.weight != one.weight:
            yield f"{one.title}: {earlier.weight} → {one.weight}"
    for key, one in was.items():
        if key not in now:
            yield f"no longer found: {one.title} ({one.weight})"


def results_changed(before: Outcome, after: Outcome) -> Iterator[str]:
    """Tell which numbers changed, as the report writes them.

    Yields
    ------
    str
        The result by its label, with its value before and after.
    """
    was, now = before.results.all, after.results.all
    for name, one in now.items():
        if name not in was:
            yield f"{one.label}: now {result(one)}"
            continue
        if (told := _told(was[name])) != _told(one):
            yield f"{one.label}: {told} → {_told(one)}"
    for name, one in was.items():
        if name not in now:
            yield f"{one.label}: no longer worked out (was {result(one)})"


def _told(one: Result) -> str:
    return f"{result(one)} ({one.verdict})" if one.verdict else result(one)
