"""What can wait for a desk: facts about the house, papers, words for the client."""

from __future__ import annotations

from collections.abc import Iterator

from generator.record.draft import Draft
from generator.record.todo import Cost, Item

ADVICE = {  # keys that make the report say more, and what each is for
    "visit.start": "When you arrived.",
    "visit.end": "When you left.",
    "visit.license": "The license under which the inspection was made.",
    "visit.ground": "The state of the ground; it tells what the test can show.",
    "visit.rain": "The rain of the last two days; it tells what the test can show.",
    "property.bedrooms": "The bedrooms; codes size systems by them.",
    "property.system": "The system in one sentence, in the order the water takes.",
    "household.people": "How many people live there.",
    "household.last_pumped": "When the tank was last pumped, and who says so.",
    "household.vacant_for": "How long the house stood empty; 0 days where it did not.",
    "records": "Which papers were looked for: permit, as-built, earlier reports.",
}
DEEDS = {"do": "What has to be done", "who": "Who does what has to be done"}
TO_MEND = ("danger", "failed", "repair")


def at_the_desk(draft: Draft) -> Iterator[Item]:
    """Find what is still to be written that needs no second visit."""
    if draft.get("property.code") is None and draft.get("property.authority") is None:
        words = "Which local code holds here, or which office decides."
        yield _desk("property.code", words, needed=True)
    if draft.get("property.water_supply") is None:
        words = "Where the house gets its drinking water."
        yield _desk("property.water_supply", words, needed=True)
    if draft.get("client.asks") is not None and draft.get("client.answer") is None:
        yield _desk(
            "client.answer", "Your answer to what the client asks.", needed=True
        )
    yield from _limits(draft)
    for finding in draft.items("findings"):
        yield from _deeds(draft, finding)
    for path, words in ADVICE.items():
        if draft.get(path) is None:
            yield _desk(path, words)


def _desk(path: str, words: str, *, needed: bool = False) -> Item:
    return Item(Cost.DESK, path, words, needed)


def _limits(draft: Draft) -> Iterator[Item]:
    if draft.get("load_test") is None:
        return
    if draft.get("load_test.target") is None:
        yield _desk("load_test.target", "How much water the test was to see.")
    if draft.get("load_test.limits") is None:
        words = (
            "What the test may show, and who says so; without limits the report says "
            "that nothing was shown."
        )
        cost = Cost.DESK if draft.items("load_test.water") else Cost.BEFORE
        yield Item(cost, "load_test.limits", words)


def _deeds(draft: Draft, finding: str) -> Iterator[Item]:
    if draft.get(f"{finding}.weight") not in TO_MEND:
        return
    title = draft.get(f"{finding}.title")
    for key, words in DEEDS.items():
        if draft.get(f"{finding}.{key}") is None:
            yield _desk(f"{finding}.{key}", f"{words} about: {title}.", needed=True)
