"""Rule on the size of the tanks: all of them together against the code."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.finding import Finding
from generator.results.guard_band import CLOSE, MEETS, SHORT, hold
from generator.results.result import Results, nominal
from generator.results.rounding import said

NEW_TANKS = (
    "The code sizes new tanks; an older one has not failed by that. A small tank has "
    "to be pumped more often. The local authority decides."
)
SIZES = {
    MEETS: ("sound", "holds what the code asks of a new one", "", ""),
    SHORT: (
        "watch",
        "is smaller than the code asks of a new one",
        "Ask the local authority what holds for this house, and have the tank measured "
        "for sludge and scum more often.",
        "the client",
    ),
    CLOSE: (
        "watch",
        "is too close to call against what the code asks of a new one",
        "Ask the local authority if a permit depends on it.",
        "the client",
    ),
}


CONFIRM_SIZE = (
    "watch",
    "may be smaller than the code asks of a new one",
    "Ask the local authority for its figure.",
    "the client",
)
ENOUGH_PERCENT = 100.0  # by definition: all of what the code asks


def tank_size_findings(results: Results) -> Iterator[Finding]:
    """Judge the tanks by what they hold, where a code that was read says how much."""
    share, least = results.get("design.tank_share"), results.get("design.least_tank")
    if share is None or least is None:
        return
    small = hold(share.number, ENOUGH_PERCENT, least=True) == SHORT
    if share.verdict not in SIZES and not small:
        return  # a figure that nobody read praises no tank
    weight, words, todo, who = SIZES.get(share.verdict, CONFIRM_SIZE)
    yield Finding(
        key="tank-size",
        part="tank",
        weight=weight,
        title=f"The tank {words}",
        saw=f"It holds {said(share.number, '%')} of the "
        f"{nominal(least.number):,.0f} gal that the code asks for this house"
        + ("." if share.verdict in SIZES else ", by a figure that we did not read."),
        means=NEW_TANKS if todo else "",
        todo=todo,
        who=who,
        by="before any new work" if todo else "",
        evidence=(share.name,),
        source=share.source,
    )
