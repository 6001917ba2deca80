"""Slips in names: two tanks or two pipes that nobody could tell apart."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft

NAMED = {
    "tanks": "tanks",
    "pipe_runs": "pipe runs",
    "absorption_areas": "absorption areas",
    "features": "features",
}


def names(draft: Draft) -> Iterator[Problem]:
    """Find names that stand twice, capitals and dashes aside."""
    for section, words in NAMED.items():
        seen: set[str] = set()
        for item in draft.items(section):
            name = draft.get(f"{item}.name")
            if not isinstance(name, str):
                continue
            plain = name.lower().replace("-", " ")
            if plain in seen:
                yield draft.tell(
                    f"{item}.name",
                    f'Two {words} are called "{name}".',
                    "Give each a name of its own.",
                )
            seen.add(plain)
