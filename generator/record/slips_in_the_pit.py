"""Slips in a cesspool or seepage pit: its inside, its depths, its test with water."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.slips_when_final import told_unseen, when_final

PIT = "cesspool"
UPWARD = ("floor_down", "liquid_down", "high_mark_down")  # none below the one before
SAID = {
    "floor_down": "the floor",
    "liquid_down": "the liquid",
    "high_mark_down": "the high mark",
    "inlet_down": "the inlet",
}
CORNERED = ("length", "width")


def pit_slips(draft: Draft) -> Iterator[Problem]:
    """Find slips in the cesspool or seepage pit."""
    if draft.get(PIT) is None:
        return
    yield from _plan(draft)
    yield from _order(draft)
    yield from _layers(draft)
    yield from _levels(draft)


def _plan(draft: Draft) -> Iterator[Problem]:
    """Ask for a round pit or one with corners, unless nobody could measure it."""
    for key in ("diameter", *CORNERED):
        if draft.inches(f"{PIT}.{key}") == 0:
            yield draft.tell(f"{PIT}.{key}", "This cannot be zero.", "Measure it.")
    sides = [key for key in CORNERED if draft.get(f"{PIT}.{key}") is not None]
    if draft.get(f"{PIT}.diameter") is not None:
        if sides:
            yield draft.tell(
                f"{PIT}.{sides[0]}",
                f'A round pit has "diameter" and no "{sides[0]}".',
                "Keep the one that fits the shape of the pit.",
            )
    elif len(sides) == 1:
        missing = next(key for key in CORNERED if key not in sides)
        yield draft.not_yet(
            f"{PIT}.{sides[0]}",
            f'A pit with corners needs "{missing}" too.',
            'Add it, or give "diameter" where the pit is round.',
        )
    elif not sides and not told_unseen(draft, PIT, str(draft.get(f"{PIT}.kind"))):
        yield from when_final(
            draft,
            f"{PIT}.kind",
            "Nothing says how wide this pit is.",
            'Give "diameter", or "length" and "width"; or say under "not_seen" '
            "(cesspool) why it could not be measured.",
        )


def _order(draft: Draft) -> Iterator[Problem]:
    pairs = [(high, low) for at, high in enumerate(UPWARD) for low in UPWARD[:at]] + [
        ("inlet_down", "floor_down")
    ]
    for high, low in pairs:
        yield from draft.above(
            f"{PIT}.{high}",
            f"{PIT}.{low}",
            f"{SAID[high][:1].upper()}{SAID[high][1:]} ({{found}} down) lies below "
            f"{SAID[low]} ({{limit}} down).",
            "Check both; every depth is read down from the same mark.",
        )


def _layers(draft: Draft) -> Iterator[Problem]:
    floor, liquid = (
        draft.inches(f"{PIT}.{key}") for key in ("floor_down", "liquid_down")
    )
    if floor is None or liquid is None or liquid > floor:
        return
    for key in ("sludge", "scum"):
        layer = draft.inches(f"{PIT}.{key}")
        if layer is not None and layer > floor - liquid:
            yield draft.tell(
                f"{PIT}.{key}",
                f"The {key} ({draft.get(f'{PIT}.{key}')}) is deeper than the liquid "
                f"({floor - liquid:g} in, from {draft.get(f'{PIT}.liquid_down')} down "
                f"to {draft.get(f'{PIT}.floor_down')} down).",
                "Check all three measures.",
            )


def _levels(draft: Draft) -> Iterator[Problem]:
    for reading in draft.items(f"{PIT}.levels"):
        yield from draft.above(
            f"{reading}.down",
            f"{PIT}.floor_down",
            "This level ({found} down) lies below the floor ({limit} down).",
            "Check both; every depth is read down from the same mark.",
        )
    water = draft.items(f"{PIT}.water")
    if water and not draft.items(f"{PIT}.levels"):
        yield draft.not_yet(
            water[0],
            "Water was run into the pit, and no level is written down.",
            'Add "levels": the depth down to the liquid, before and after.',
        )
