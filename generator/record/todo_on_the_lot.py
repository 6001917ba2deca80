"""What the lot still wants: ties, pictures, the walk."""

from __future__ import annotations

from collections.abc import Iterator

from generator.record.check import schema
from generator.record.draft import Draft
from generator.record.parts import HOLDING_TANK
from generator.record.todo import Cost, Item
from generator.record.todo_in_parts import named, vessels

BAD = {  # words that call for a picture, by the key that holds them
    "cover": ("loose", "broken", "not child-proof"),
    "covers_back": ("no",),
    "outlet_device_state": ("worn", "damaged", "missing"),
    "inlet_device_state": ("worn", "damaged", "missing"),
    "structure": ("cracked", "leaking", "leaning", "collapsing"),
    "surface": ("lush growth", "wet", "sewage on the surface"),
    "pump": ("does not run",),
}
BAD_SIGHTS = ("offset joint", "crack", "roots", "sag", "blockage")
TITLE = {
    "cover": "cover",
    "covers_back": "cover",
    "outlet_device_state": "outlet device",
    "inlet_device_state": "inlet device",
    "structure": "structure",
    "surface": "ground",
    "pump": "pump",
}
WEIGHTY = ("danger", "failed", "repair", "watch")


def on_the_lot(draft: Draft) -> Iterator[Item]:
    """Find ties, pictures and answers of the walk that are still to be had."""
    yield from _before(draft)
    yield from _ties(draft)
    yield from _absorption(draft)
    yield from _probes(draft)
    yield from _pictures(draft)
    yield from _walk(draft)


def _before(draft: Draft) -> Iterator[Item]:
    if draft.get("consent.given_by") is None:
        words = "Who allowed water to be run, covers to be opened and holes to be dug."
        yield Item(Cost.BEFORE, "consent.given_by", words)
    if draft.get("consent.utilities") in (None, "not marked"):
        words = (
            "Whether buried cables, gas and water lines are marked: nobody digs or "
            "probes before they are."
        )
        yield Item(Cost.BEFORE, "consent.utilities", words)


def _absorption(draft: Draft) -> Iterator[Item]:
    drained = any(
        draft.get(f"{one}.kind") != HOLDING_TANK for one in draft.items("tanks")
    )
    if drained and not draft.items("absorption_areas"):
        words = (
            "What the effluent goes to: kind, size and place of the absorption area, "
            "as far as they show."
        )
        about = ("absorption area",)
        yield Item(Cost.PLACE, "absorption_areas", words, False, about)


def _ties(draft: Draft) -> Iterator[Item]:
    parts = vessels(draft) + named(draft, "absorption_areas", "features")
    about = ("tie", "sketch", "plan")
    if not draft.items("datum.points"):
        if parts:
            words = (
                "Nothing is tied to a fixed point yet: name two corners of the house, "
                "and tape every cover from both."
            )
            yield Item(Cost.PLACE, "datum", words, False, about)
        return
    for path, name in parts:
        if all(draft.get(f"{path}.{key}") is None for key in ("on_plan", "outline")):
            words = f"No tie leads to the {name}: tape it from two fixed points."
            if draft.items("places"):
                words = (
                    f"Nothing says at which places the {name} lies: tie them, and name "
                    'them in its "on_plan".'
                )
            yield Item(Cost.PLACE, path, words, False, (f"tie to the {name}",))


def _probes(draft: Draft) -> Iterator[Item]:
    for depth in draft.items("depths"):
        if draft.get(f"{depth}.top_above_invert") is None:
            words = (
                f"How far the top of the {draft.get(f'{depth}.to')} lies above the "
                "invert of its pipe."
            )
            path = f"{depth}.top_above_invert"
            yield Item(Cost.PLACE, path, words, False, ("depth",))
        if draft.get(f"{depth}.probed") is None:
            words = f"At what depth the probe hit the {draft.get(f'{depth}.to')}."
            yield Item(Cost.PLACE, depth, words, False, ("depth", "probe"))


def _pictures(draft: Draft) -> Iterator[Item]:
    for finding in draft.items("findings"):
        weighty = draft.get(f"{finding}.weight") in WEIGHTY
        if weighty and draft.get(f"{finding}.photo") is None:
            words = f"A picture of this finding: {draft.get(f'{finding}.title')}"
            yield Item(Cost.PICTURE, finding, f"{words.rstrip('.')}.")
    for path, name in vessels(draft) + named(draft, "absorption_areas"):
        if draft.get(f"{path}.photo") is None:
            yield from _picture_of(draft, path, name)
    for run in draft.items("pipe_runs"):
        for entry in draft.items(f"{run}.log"):
            sight = draft.get(f"{entry}.see")
            if sight in BAD_SIGHTS and draft.get(f"{entry}.photo") is None:
                words = f"A picture of the {sight} at {draft.get(f'{entry}.at')}."
                yield Item(Cost.PICTURE, entry, words)


def _picture_of(draft: Draft, path: str, name: str) -> Iterator[Item]:
    for key, words in BAD.items():
        found = draft.get(f"{path}.{key}")
        if found in words:
            said = f"{TITLE[key]} of the {name}"
            if key == "surface":
                said = f"ground over the {name}"
            yield Item(Cost.PICTURE, f"{path}.{key}", f"A picture of the {said}.")
            return


def _questions() -> dict[str, str]:
    """Give the questions of the walk, in the words of the schema."""
    keys = schema("inspection")["properties"]["walkover"]["properties"]
    return {
        key: str(one["title"]).lower() for key, one in keys.items() if "enum" in one
    }


def _walk(draft: Draft) -> Iterator[Item]:
    about = ("walk", "ground over", "surface")
    open_ = [
        words
        for key, words in _questions().items()
        if draft.get(f"walkover.{key}") is None
    ]
    sewage = draft.get("walkover.sewage_on_ground")
    seen = [draft.get(f"{one}.surface") for one in draft.items("absorption_areas")]
    if sewage is None and not any(seen):
        words = "Whether sewage or wet ground showed anywhere on the walk over the lot."
        yield Item(Cost.WALK, "walkover", words, True, about)
    if draft.get("walkover") is not None and open_:
        words = f"Not yet answered on the walk: {', '.join(open_)}."
        yield Item(Cost.WALK, "walkover", words, False, about)
    for key, words in _questions().items():
        signs = [draft.get(f"{one}.sign") for one in draft.items("walkover.signs")]
        if draft.get(f"walkover.{key}") == "yes" and key not in signs:
            said = f"Where {words} showed, with a picture."
            yield Item(Cost.PICTURE, f"walkover.{key}", said)
