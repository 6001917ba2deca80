"""Slips in tanks: measures that a shape needs, and what cannot stand inside."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft

ROUNDING_IN = 1.0  # of the inside lengths of several compartments; our choice
SCUM_READING_IN = 0.5  # between two readings of one scum; our choice
MOST_ABOVE = 0.5  # of a scum, above the liquid it floats on; our choice
MEASURES = {
    "box": ("length", "width"),
    "upright cylinder": ("diameter",),
    "lying cylinder": ("diameter", "length"),
    "upright oval": ("length", "width"),
    "lying oval": ("length", "width", "inside_height"),
    "upright ellipse": ("length", "width"),
    "lying ellipse": ("length", "width", "inside_height"),
    "stated": ("gallons",),
}


def tank_slips(draft: Draft) -> Iterator[Problem]:
    """Find slips in the measures of tanks and of the pump chamber."""
    for tank in draft.items("tanks"):
        yield from _measures(draft, tank)
        yield from _long_way(draft, tank)
    yield from _compartments(draft)
    yield from _solids(draft)
    if draft.get("pump_chamber") is not None:
        yield from _measures(draft, "pump_chamber")
        if (
            draft.get("pump_chamber.shape") == "stated"
            and draft.get("pump_chamber.liquid_depth") is None
        ):
            yield draft.not_yet(
                "pump_chamber.shape",
                'A chamber of the shape "stated" needs "liquid_depth".',
                "Add the depth that those gallons fill.",
            )


def _measures(draft: Draft, tank: str) -> Iterator[Problem]:
    shape = draft.get(f"{tank}.shape")
    for key in MEASURES.get(shape, ()) if isinstance(shape, str) else ():
        if draft.get(f"{tank}.{key}") is None:
            yield draft.not_yet(
                f"{tank}.shape",
                f'A tank of the shape "{shape}" needs "{key}".',
                'Add it, or write "shape: stated" with "gallons".',
            )
    for key in ("length", "width", "diameter", "liquid_depth", "inside_height"):
        if draft.inches(f"{tank}.{key}") == 0:
            yield draft.tell(f"{tank}.{key}", "This cannot be zero.", "Measure it.")
    volume = draft.read(f"{tank}.gallons", "volume")
    if volume is not None and volume.gallons == 0:
        yield draft.tell(f"{tank}.gallons", "This cannot be zero.", "Check it.")
    if shape == "lying cylinder":
        yield from draft.above(
            f"{tank}.liquid_depth",
            f"{tank}.diameter",
            "The liquid ({found}) is deeper than the cylinder is high ({limit}).",
            "Check both measures.",
        )
    yield from draft.above(
        f"{tank}.liquid_depth",
        f"{tank}.inside_height",
        "The liquid ({found}) is deeper than the inside is high ({limit}).",
        "Check both measures.",
    )


def _long_way(draft: Draft, tank: str) -> Iterator[Problem]:
    if draft.get(f"{tank}.shape") in ("upright oval", "upright ellipse"):
        yield from draft.above(
            f"{tank}.width",
            f"{tank}.length",
            "The short way ({found}) is longer than the long way ({limit}).",
            "Change the two round.",
        )


def _compartments(draft: Draft) -> Iterator[Problem]:
    for tank in draft.items("tanks"):
        parts = draft.items(f"{tank}.compartments")
        if len(parts) == 1:
            yield draft.tell(
                f"{tank}.compartments",
                "One compartment is the tank itself.",
                "Add the others, or leave the list out.",
            )
        names = [draft.get(f"{part}.name") for part in parts]
        for number, part in enumerate(parts):
            if names[number] is not None and names[number] in names[:number]:
                yield draft.tell(
                    f"{part}.name",
                    f'Two compartments are called "{names[number]}".',
                    "Give each a name of its own.",
                )
        total = sum(draft.inches(f"{part}.length") or 0.0 for part in parts)
        whole = draft.inches(f"{tank}.length")
        if whole is not None and total > whole + ROUNDING_IN:
            yield draft.tell(
                f"{tank}.compartments",
                f"The compartments together are longer than the tank "
                f"({draft.get(f'{tank}.length')}).",
                "Check their inside lengths.",
            )
        for key in ("sludge", "scum", "scum_bottom") if parts else ():
            if draft.get(f"{tank}.{key}") is not None:
                yield draft.tell(
                    f"{tank}.{key}",
                    "This tank has compartments, so this could be of any of them.",
                    "Write it at its compartment.",
                )


def _solids(draft: Draft) -> Iterator[Problem]:
    for tank in draft.items("tanks"):
        depth = f"{tank}.liquid_depth"
        yield from _layers(draft, tank, depth)
        for part in draft.items(f"{tank}.compartments"):
            yield from _layers(draft, part, depth)
        yield from draft.above(
            f"{tank}.outlet_device_depth",
            depth,
            "The outlet device ({found}) reaches deeper than the liquid ({limit}).",
            "Check both measures.",
        )


def _scum(draft: Draft, node: str) -> Iterator[Problem]:
    """Find a scum whose thickness and bottom cannot both be true."""
    thick, bottom = (draft.inches(f"{node}.{key}") for key in ("scum", "scum_bottom"))
    if thick is None or bottom is None:
        return
    said = (
        f"The scum is {draft.get(f'{node}.scum')} thick, and its bottom lies "
        f"{draft.get(f'{node}.scum_bottom')} below the liquid surface"
    )
    hint = (
        '"scum_bottom" is felt from the liquid surface, not from the cover; check both '
        "measures."
    )
    if bottom > thick + SCUM_READING_IN:
        message = f"{said}: it would float below the surface."
        yield draft.tell(f"{node}.scum_bottom", message, hint)
    elif thick - bottom > MOST_ABOVE * thick + SCUM_READING_IN:
        message = f"{said}: most of it would stand above the liquid."
        yield draft.tell(f"{node}.scum_bottom", message, hint)


def _layers(draft: Draft, node: str, depth: str) -> Iterator[Problem]:
    yield from _scum(draft, node)
    for key in ("sludge", "scum"):
        yield from draft.above(
            f"{node}.{key}",
            depth,
            f"The {key} ({{found}}) is deeper than the liquid ({{limit}}).",
            "Check both measures.",
        )
    parts = [draft.inches(f"{node}.{key}") for key in ("sludge", "scum")]
    full = draft.inches(depth)
    if full is None or None in parts:
        return
    sludge, scum = (part or 0.0 for part in parts)
    if max(sludge, scum) <= full < sludge + scum:
        yield draft.tell(
            f"{node}.scum",
            f"Sludge and scum together ({draft.get(f'{node}.sludge')} and "
            f"{draft.get(f'{node}.scum')}) are deeper than the liquid "
            f"({draft.get(depth)}).",
            "Check all three measures.",
        )
