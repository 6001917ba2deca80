"""Slips in names: two of one name, and parts named that nothing describes."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.parts import SINGLE
from generator.record.slips_when_final import told_unseen, when_final

NAMED = {
    "tanks": "tanks",
    "pipe_runs": "pipe runs",
    "absorption_areas": "absorption areas",
    "features": "features",
}
PARTS = {  # parts with a section of their own; an absorption area is rarely opened
    "tank": "tanks",
    **{words: section for section, words in SINGLE.items()},
}
NAMING = {"depths": "to", "pipe_runs": "from", "distances": "from"}


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


def described_parts(draft: Draft) -> Iterator[Problem]:
    """Find parts that a final file names and nowhere describes."""
    for section, key in NAMING.items():
        for item in draft.items(section):
            named = draft.get(f"{item}.{key}")
            for part, home in PARTS.items() if isinstance(named, str) else ():
                if named.lower() in (part, f"{part} outlet", f"{part} inlet"):
                    yield from _described(draft, f"{item}.{key}", part, home)


def _described(draft: Draft, path: str, part: str, home: str) -> Iterator[Problem]:
    if draft.get(home) is None and not told_unseen(draft, part):
        yield from when_final(
            draft,
            path,
            f"The {part} is named here and described nowhere.",
            f'Describe it under "{home}", or say under "not_seen" ({part}) why it '
            "was not opened.",
        )
