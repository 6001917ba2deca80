"""Slips that no schema can see: one value of the file against another.

Each rule takes the draft, which answers ``None`` for whatever is missing or unreadable,
so that every rule can look at a file that has other mistakes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.slips_in_names import names
from generator.record.slips_in_parts import beyond_the_tank
from generator.record.slips_in_tanks import tank_slips
from generator.record.slips_in_water import water_slips
from generator.record.slips_on_film import camera_log, photographs
from generator.record.slips_on_plan import on_plan

MOST_FLOW_GPM = 100  # of one bucket check; our choice, far above any house tap


def slips(draft: Draft) -> list[Problem]:
    """Find every slip in a draft."""
    return [problem for rule in _RULES for problem in rule(draft)]


def slips_between(draft: Draft) -> list[Problem]:
    """Find the slips that one group of keys can cause in another."""
    return [
        problem
        for rule in _RULES
        if rule not in (photographs,)
        for problem in rule(draft)
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


def _water(draft: Draft) -> Iterator[Problem]:
    before: tuple[float, str] | None = None
    for stretch in draft.items("load_test.water"):
        start, stop = (draft.minutes(f"{stretch}.{key}") for key in ("from", "to"))
        if start is not None and stop is not None and stop <= start:
            yield draft.tell(
                f"{stretch}.to",
                f"The water stops ({draft.get(f'{stretch}.to')}) before it starts "
                f"({draft.get(f'{stretch}.from')}).",
                "Check both times.",
            )
        if before and start is not None and start < before[0]:
            yield draft.tell(
                f"{stretch}.from",
                f"This stretch starts ({draft.get(f'{stretch}.from')}) before the one "
                f"above it stops ({before[1]}).",
                "Write the stretches in order of time.",
            )
        if stop is not None:
            before = (stop, draft.get(f"{stretch}.to"))
        yield from _how_measured(draft, stretch)
    ended = draft.minutes("load_test.ended")
    if before and ended is not None and ended < before[0]:
        yield draft.tell(
            "load_test.ended",
            f"The test ends ({draft.get('load_test.ended')}) before the water stops "
            f"({before[1]}).",
            "Check both times.",
        )


def _how_measured(draft: Draft, stretch: str) -> Iterator[Problem]:
    meter = [draft.get(f"{stretch}.{key}") for key in ("meter_from", "meter_to")]
    bucket = draft.get(f"{stretch}.bucket")
    if (bucket is None) == (meter == [None, None]):
        hint = 'Give "bucket", or "meter_from" and "meter_to".'
        if bucket is None:
            message = "The flow of this stretch is not measured."
            yield draft.not_yet(stretch, message, hint)
        else:
            message = "The flow of this stretch is measured in two ways."
            yield draft.tell(stretch, message, hint)
    elif bucket is None and None in meter:
        yield draft.not_yet(
            stretch, "One of the two meter readings is missing.", "Give both."
        )
    first, last = (
        draft.read(f"{stretch}.{key}", "volume") for key in ("meter_from", "meter_to")
    )
    if first is not None and last is not None and last.gallons <= first.gallons:
        yield draft.tell(
            f"{stretch}.meter_to",
            f"The meter did not move on from {first.typed} to {last.typed}.",
            "Check both readings.",
        )


def _too_much(draft: Draft) -> Iterator[Problem]:
    for stretch in draft.items("load_test.water"):
        for path in draft.items(f"{stretch}.bucket"):
            fill = draft.read(path, "bucket")
            if fill is not None and fill.gallons / fill.minutes > MOST_FLOW_GPM:
                yield draft.tell(
                    path,
                    f"This fill ({fill.typed}) is more than {MOST_FLOW_GPM} gpm.",
                    "No house tap gives so much; check the time.",
                )
    target = draft.read("load_test.target", "target")
    if target is not None and 0 in (target.gallons, target.minutes, target.percent):
        yield draft.tell("load_test.target", "This cannot be zero.", "Check it.")


def _levels(draft: Draft) -> Iterator[Problem]:
    ended = draft.minutes("load_test.ended")
    left = draft.minutes("visit.end")
    before: tuple[float, str] | None = None
    for reading in draft.items("load_test.levels"):
        at = draft.minutes(f"{reading}.at")
        if at is None:
            continue
        typed = draft.get(f"{reading}.at")
        if before and at <= before[0]:
            yield draft.tell(
                f"{reading}.at",
                f"This reading ({typed}) is not later than the one above it "
                f"({before[1]}).",
                "Write the readings in order of time.",
            )
        before = (at, typed)
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
    tank = tanks[names.index(named) if named in names else 0] if tanks else ""
    yield from _level_in_tank(draft, tank)


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
    tank_slips,
    beyond_the_tank,
    on_plan,
    _visit,
    _water,
    _too_much,
    _levels,
    _first_level,
    _tested_tank,
    water_slips,
    camera_log,
    photographs,
)
