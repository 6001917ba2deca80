"""What an opened part still wants before its cover goes back."""

from __future__ import annotations

from collections.abc import Iterator

from generator.record.draft import Draft
from generator.record.parts import HOLDING_TANK, SINGLE
from generator.record.todo import Cost, Item

LOOKS = {
    "outlet_device_state": "outlet device",
    "inlet_device_state": "inlet device",
    "structure": "walls and top",
    "outlet_device_depth": "how deep the outlet device reaches",
}
LOOKS_OF_HOLDING = {"structure": "walls and top", "liquid_now": "how full it is"}
TRIED = {"pump": "the pump", "alarm": "the alarm"}


def vessels(draft: Draft) -> list[tuple[str, str]]:
    """List the path and the name of everything that has a cover."""
    return named(draft, "tanks") + [
        (path, words) for path, words in SINGLE.items() if draft.get(path) is not None
    ]


def named(draft: Draft, *sections: str) -> list[tuple[str, str]]:
    """List the path and the name of each entry of some sections."""
    return [
        (one, str(draft.get(f"{one}.name")))
        for section in sections
        for one in draft.items(section)
    ]


def on_parts(draft: Draft) -> Iterator[Item]:
    """Find what is still to be looked at in tanks, boxes, chambers and pipes."""
    for path, name in vessels(draft):
        yield from _cover(draft, path, name)
    for tank in draft.items("tanks"):
        yield from _tank(draft, tank)
    yield from _nothing_opened(draft)
    if draft.get("pump_chamber") is not None:
        yield from _chamber(draft)
    yield from _box(draft)
    yield from _pipes(draft)


def _nothing_opened(draft: Draft) -> Iterator[Item]:
    if not draft.items("tanks") and draft.get("cesspool") is None:
        words = "No tank has been found and opened, and no cesspool."
        yield Item(Cost.OPEN, "tanks", words, True, ("tank", "cesspool"))


def _cover(draft: Draft, path: str, name: str) -> Iterator[Item]:
    if draft.get(f"{path}.cover") is None:
        words = f"In what state the covers of the {name} are."
        about = (f"cover of the {name}", f"covers of the {name}")
        yield Item(Cost.CLOSE, f"{path}.cover", words, True, about)
    if draft.get(f"{path}.covers_back") is None:
        words = f"Whether the covers of the {name} are back and secure."
        yield Item(Cost.CLOSE, f"{path}.covers_back", words, True)


def _tank(draft: Draft, tank: str) -> Iterator[Item]:
    name = draft.get(f"{tank}.name")
    holding = draft.get(f"{tank}.kind") == HOLDING_TANK
    looks = LOOKS_OF_HOLDING if holding else LOOKS
    open_ = [
        words for key, words in looks.items() if draft.get(f"{tank}.{key}") is None
    ]
    if open_:
        words = f"Not yet noted on the {name}: {', '.join(open_)}."
        about = (f"inside of the {name}",)
        yield Item(Cost.OPEN, tank, words, False, about)
    if holding:
        return
    parts = draft.items(f"{tank}.compartments") or [tank]
    for part in parts:
        called = draft.get(f"{part}.name")
        where = f"the {name}" if part == tank else f"compartment {called} of the {name}"
        missing = [
            key for key in ("sludge", "scum") if draft.get(f"{part}.{key}") is None
        ]
        if missing:
            words = f"How deep the {' and the '.join(missing)} of {where} is."
            solids = ("sludge", "scum", "solids")
            yield Item(Cost.OPEN, part, words, True, solids)


def _chamber(draft: Draft) -> Iterator[Item]:
    untried = [
        words
        for key, words in TRIED.items()
        if draft.get(f"pump_chamber.{key}") in (None, "not tried")
    ]
    if untried:
        words = f"Try {' and '.join(untried)} of the pump chamber."
        yield Item(Cost.OPEN, "pump_chamber", words, False, ("pump", "alarm"))


def _box(draft: Draft) -> Iterator[Item]:
    box = draft.get("distribution_box")
    if box is not None and draft.get("distribution_box.still_level") is None:
        words = "Where the still liquid stands in the distribution box."
        about = ("distribution box", "level in the box")
        yield Item(Cost.OPEN, "distribution_box", words, False, about)


def _pipes(draft: Draft) -> Iterator[Item]:
    runs = draft.items("pipe_runs")
    if not runs and draft.items("tanks"):
        water = draft.items("load_test.water")
        off = bool(water) and draft.get(f"{water[-1]}.to") is not None
        words = "The inside of the pipes, while the water runs."
        if off:
            words = "The inside of the pipes."
        cost = Cost.OPEN if off else Cost.TEST
        yield Item(cost, "pipe_runs", words, False, ("pipe", "camera"))
    for run in runs:
        if draft.get(f"{run}.ended_because") is None:
            words = f"Why the camera went no farther in the {draft.get(f'{run}.name')}."
            yield Item(Cost.TEST, run, words)
