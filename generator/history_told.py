"""The history of a job for a terminal, or as data for machines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from generator.histories import History, Step
from generator.problems import counted
from generator.trail.git import short

NO_GIT = "There is no git history here, so nothing is known of earlier versions."
IN_PART = (
    "This copy of the history is cut off here, and what came before is not known. "
    "Fetch it with: git fetch --unshallow"
)
NOTHING = "No commit holds a job of this name yet."


def as_data(found: History) -> dict[str, Any]:
    """Give the history as plain data."""
    return {
        "job": found.job,
        "git": found.git,
        "whole": found.whole,
        "revisions": [_data(one) for one in found.steps],
    }


def _data(one: Step) -> dict[str, Any]:
    data = asdict(one)
    return {"commit": data.pop("commit"), **data.pop("maker"), **data}


def as_text(found: History) -> str:
    """Tell the history in a terminal, newest first."""
    return "\n".join(_lines(found))


def _lines(found: History) -> Iterator[str]:
    if not found.git:
        yield f"{found.job}: {NO_GIT}"
        return
    if not found.steps:
        yield f"{found.job}: {NOTHING}"
    else:
        given = sum(len(one.reports) for one in found.steps)
        made = counted(sum(1 for one in found.steps if one.commit), "revision")
        yield f"{found.job}: {made}, {counted(given, 'report')} given"
    for one in found.steps:
        yield ""
        yield from _step(one)
    if not found.whole:
        yield ""
        yield IN_PART


def _step(one: Step) -> Iterator[str]:
    head = (short(one.commit), one.maker.when, one.maker.author)
    signature = f"signature: {one.maker.signature}" if one.commit else ""
    yield "  ".join(part for part in (*head, *one.how, signature) if part)
    for report in one.reports:
        yield f"  {report}"
    for line in one.changed:
        yield f"    {line}"
    if one.outcome:
        yield "  and so"
        for line in one.outcome:
            yield f"    {line}"
    if one.trouble:
        yield f"  {one.trouble}"
