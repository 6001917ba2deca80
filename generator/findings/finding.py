"""A finding: what was seen, what it means, what to do, and how much it weighs."""

from __future__ import annotations

from dataclasses import dataclass

MEANINGS = {  # worst first
    "danger": "Someone can be hurt now.",
    "failed": "This part is not doing its job.",
    "repair": "It works, and something is broken or wrong.",
    "watch": "Wear or settlement that is usual; look again by a date.",
    "sound": "Looked at, and in order.",
    "unseen": "Could not be looked at, and why.",
}
WEIGHTS = tuple(MEANINGS)


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One finding; ``evidence`` names results, ``photos`` names files.

    ``takes_water`` is ``yes``, ``no`` or ``not shown`` where the finding says something
    of the second answer, and empty elsewhere. ``was`` is the weight before the
    inspector weighed it differently, and ``because`` the reason given.
    """

    key: str
    part: str
    weight: str
    title: str
    saw: str
    means: str = ""
    todo: str = ""
    who: str = ""
    by: str = ""
    evidence: tuple[str, ...] = ()
    photos: tuple[str, ...] = ()
    source: str = "inspector"
    takes_water: str = ""
    own: bool = False
    was: str = ""
    because: str = ""


@dataclass(frozen=True)
class Answer:
    """One of the five answers: question, word, sentence and the findings behind it."""

    question: str
    word: str
    sentence: str
    findings: tuple[str, ...] = ()
    mark: str = ""


def not_noted(key: str, part: str, what: str) -> Finding:
    """Say that the job file does not speak of something that is usually looked at."""
    return Finding(
        key=f"{key}-not-noted",
        part=part,
        weight="unseen",
        title=f"{what[:1].upper()}{what[1:]}: nothing was noted",
        saw="The inspector's file says nothing of it, so this report cannot.",
        todo="Ask the inspector whether it was looked at.",
    )


def noted(note: str | None) -> str:
    """Give the inspector's note as one more sentence, or nothing.

    Examples
    --------
    >>> noted("roots in the corner."), noted(None)
    (' Roots in the corner.', '')
    """
    return f" {note[:1].upper()}{note[1:].rstrip('.')}." if note else ""
