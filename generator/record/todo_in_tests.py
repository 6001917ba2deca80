"""What a test with water still wants: readings that cannot be had afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from generator.record.draft import Draft
from generator.record.slips_around import WATER_RUN
from generator.record.todo import Cost, Item

NO_WATER = 'Water has not been run. Run it, or say under "not_seen" why it was not run.'


def on_tests(draft: Draft) -> Iterator[Item]:
    """Find readings of the tests that are still to be taken."""
    if draft.get("load_test") is not None:
        yield from _load_test(draft)
    elif _no_test(draft) and draft.get("consent.run_water") != "no":
        about = ("load test", "water run", "running water")
        yield Item(Cost.TEST, "load_test", NO_WATER, True, about)


def _no_test(draft: Draft) -> bool:
    return all(draft.get(test) is None for test in WATER_RUN)


def _load_test(draft: Draft) -> Iterator[Item]:
    water = draft.items("load_test.water")
    starts, stops = (
        [draft.minutes(f"{one}.{key}") for one in water] for key in ("from", "to")
    )
    readings = [
        (draft.minutes(f"{one}.at"), one) for one in draft.items("load_test.levels")
    ]
    timed = [(minute, one) for minute, one in readings if minute is not None]
    start = starts[0] if starts else None
    stop = stops[-1] if stops else None
    if start is None or stop is None:
        return
    if not any(start < minute <= stop for minute, _ in timed):
        yield Item(
            Cost.TEST,
            "load_test.levels",
            "A level while the water ran, best just before it was turned off.",
        )
    yield from _afterwards(draft, [one for one in timed if one[0] > stop], water[-1])
    if draft.get("load_test.stop_reason") is None:
        words = "Why the water was turned off."
        yield Item(Cost.TEST, "load_test.stop_reason", words, True)


def _afterwards(
    draft: Draft, after: list[tuple[float, str]], last: str
) -> Iterator[Item]:
    """Ask for the recovery: nothing later tells whether the water went away."""
    off = draft.get(f"{last}.to")
    path = "load_test.levels"
    if not after:
        words = (
            f"A level after the water was turned off at {off}: read it until it is "
            "back at the outlet invert."
        )
        yield Item(Cost.TEST, path, words, True, ("recovery",))
        return
    _, reading = max(after)
    level = draft.level(f"{reading}.level")
    if level is not None and level > 0:
        limit = draft.get("load_test.limits.back_within")
        until = f", at most {limit} after it was turned off" if limit else ""
        words = (
            f"The level went on falling: it was last read {_typed(draft, reading)} at "
            f"{draft.get(f'{reading}.at')}. Read on until it is back at the outlet "
            f"invert{until}."
        )
        yield Item(Cost.TEST, path, words)


def _typed(draft: Draft, reading: str) -> str:
    return str(draft.get(f"{reading}.level"))
