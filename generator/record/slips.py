"""Slips that no schema can see: one value of the file against another.

Each rule takes the draft, which answers ``None`` for whatever is missing or unreadable,
so that every rule can look at a file that has other mistakes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.slips_around import around
from generator.record.slips_in_kinds import kinds, tested_tank
from generator.record.slips_in_names import described_parts, names
from generator.record.slips_in_parts import beyond_the_tank
from generator.record.slips_in_stretches import stretches
from generator.record.slips_in_tanks import tank_slips
from generator.record.slips_in_the_pit import pit_slips
from generator.record.slips_in_water import water_slips
from generator.record.slips_on_film import camera_log, photographs
from generator.record.slips_on_plan import on_plan


def slips(draft: Draft) -> list[Problem]:
    """Find every slip in a draft."""
    return [problem for rule in _RULES for problem in rule(draft)]


def slips_between(draft: Draft) -> list[Problem]:
    """Find the slips that one group of keys can cause in another."""
    return [
        problem for rule in _RULES if rule is not photographs for problem in rule(draft)
    ]


def _visit(draft: Draft) -> Iterator[Problem]:
    start, end = (draft.minutes(f"visit.{key}") for key in ("start", "end"))
    if start is not None and end is not None and end <= start:
        yield draft.tell(
            "visit.end",
            f"The visit ends ({draft.get('visit.end')}) before it starts "
            f"({draft.get('visit.start')}).",
            "Check both times, and am or pm.",
        )


def _ended(draft: Draft) -> Iterator[Problem]:
    stops = [
        (at, draft.get(f"{one}.to"))
        for one in draft.items("load_test.water")
        if (at := draft.minutes(f"{one}.to")) is not None
    ]
    ended = draft.minutes("load_test.ended")
    if stops and ended is not None and ended < stops[-1][0]:
        yield draft.tell(
            "load_test.ended",
            f"The test ends ({draft.get('load_test.ended')}) before the water stops "
            f"({stops[-1][1]}).",
            "Check both times.",
        )


def _no_target(draft: Draft) -> Iterator[Problem]:
    target = draft.read("load_test.target", "target")
    if target is not None and 0 in (target.gallons, target.minutes, target.percent):
        yield draft.tell("load_test.target", "This cannot be zero.", "Check it.")


def _levels(draft: Draft) -> Iterator[Problem]:
    ended = draft.minutes("load_test.ended")
    left = draft.minutes("visit.end")
    for reading in draft.items("load_test.levels"):
        at = draft.minutes(f"{reading}.at")
        if at is None:
            continue
        typed = draft.get(f"{reading}.at")
        if ended is not None and at > ended:
            yield draft.tell(
                f"{reading}.at",
                f"This reading ({typed}) is later than the end of the test "
                f"({draft.get('load_test.ended')}).",
                'Check the time, or "ended".',
            )
        elif left is not None and at > left:
            yield draft.tell(
                f"{reading}.at",
                f"This reading ({typed}) is later than the end of the visit "
                f"({draft.get('visit.end')}).",
                "Check both times.",
            )


def _first_level(draft: Draft) -> Iterator[Problem]:
    water = [draft.minutes(f"{one}.from") for one in draft.items("load_test.water")]
    levels = draft.items("load_test.levels")
    first = draft.minutes(f"{levels[0]}.at") if levels else None
    if water and water[0] is not None and first is not None and first > water[0]:
        yield draft.tell(
            f"{levels[0]}.at",
            f"The first level ({draft.get(f'{levels[0]}.at')}) was read after the "
            f"water was turned on ({draft.get('load_test.water[0].from')}).",
            "Add the level that was read before the water; all the sums start there.",
        )


def _tested_tank(draft: Draft) -> Iterator[Problem]:
    if draft.get("load_test") is None:
        return
    named = draft.get("load_test.tank")
    tanks = draft.items("tanks")
    names = [draft.get(f"{tank}.name") for tank in tanks]
    if not tanks:
        yield draft.not_yet(
            "load_test",
            "A load test needs the tank whose level was read.",
            'Describe it under "tanks".',
        )
    elif named is not None and named not in names:
        listed = ", ".join(str(name) for name in names)
        yield draft.tell(
            "load_test.tank",
            f'No tank is called "{named}".',
            f"The tanks here: {listed}.",
        )
    yield from _level_in_tank(draft, tested_tank(draft))


def _level_in_tank(draft: Draft, tank: str) -> Iterator[Problem]:
    depth = draft.inches(f"{tank}.liquid_depth")
    top = f"{tank}.inside_height"
    if draft.get(top) is None and draft.get(f"{tank}.shape") == "lying cylinder":
        top = f"{tank}.diameter"
    height = draft.inches(top)
    for reading in draft.items("load_test.levels"):
        level = draft.level(f"{reading}.level")
        typed = draft.get(f"{reading}.level")
        if level is None or depth is None:
            continue
        if level < -depth:
            yield draft.tell(
                f"{reading}.level",
                f"This level ({typed}) is below the tank floor.",
                f"The liquid is {draft.get(f'{tank}.liquid_depth')} deep.",
            )
        if height is not None and level > height - depth:
            yield draft.tell(
                f"{reading}.level",
                f"This level ({typed}) is above the top of the tank.",
                f"The inside is {draft.get(top)} high.",
            )


_RULES: tuple[Callable[[Draft], Iterator[Problem]], ...] = (
    names,
    described_parts,
    tank_slips,
    kinds,
    beyond_the_tank,
    pit_slips,
    on_plan,
    _visit,
    around,
    stretches,
    _ended,
    _no_target,
    _levels,
    _first_level,
    _tested_tank,
    water_slips,
    camera_log,
    photographs,
)
