"""What a draft may leave open and a final file tells, or says why nobody could see."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft

FINAL = "final"


def when_final(draft: Draft, path: str, message: str, hint: str) -> Iterator[Problem]:
    """Make a problem of a final file; a draft keeps what it has meanwhile."""
    if draft.get("state") == FINAL:
        yield draft.tell(path, message, hint)


def told_unseen(draft: Draft, *words: str) -> bool:
    """Say whether the file tells that a part could not be seen."""
    unseen = [draft.get(f"{one}.what") for one in draft.items("not_seen")]
    told = [one.casefold() for one in unseen if isinstance(one, str)]
    return any(word.casefold() in one for word in words for one in told)
