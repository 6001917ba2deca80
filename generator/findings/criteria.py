"""Every threshold and every fixed judgment, each with its source."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Limit:
    """One threshold: value, unit, source key and what it decides."""

    value: float
    unit: str
    source: str
    decides: str


LIMITS = {
    "empty_house": Limit(
        14, "day", "choice", "a house empty for longer shows little in a load test"
    ),
    "pumped_lately": Limit(
        30, "day", "choice", "a tank pumped within this time hides how it behaves"
    ),
    "tested_share": Limit(
        75, "%", "choice", "least share of the target that must have passed the outlet"
    ),
    "two_day_hours": Limit(
        24, "h", "PSU-HLT", "time between the two days of a two-day test"
    ),
    "two_day_slack": Limit(
        2, "h", "choice", "so much more or less still counts as those hours"
    ),
    "pump_sources": Limit(
        2, "source", "choice", "so many sources that say pump make it due now"
    ),
    "pit_room": Limit(
        6, "in", "MA-15-303-PIT", "least space from the liquid of a pit to its inlet"
    ),
    "pit_share": Limit(
        50, "%", "MA-15-303-PIT", "least free volume of a pit, of a day's design flow"
    ),
    "holding_full": Limit(
        80, "%", "NH-402-41", "a holding tank is emptied when so full"
    ),
    "overfull": Limit(
        100, "%", "practice", "at its depth when full a holding tank takes no more"
    ),
    "code_years": Limit(
        5, "year", "choice", "a copy of a code older than this is doubted at the visit"
    ),
    "recovered": Limit(
        0, "in", "practice", "at rest the liquid stands at the outlet invert"
    ),
}


@dataclass(frozen=True)
class Sight:
    """What a word in the log means for the pipe."""

    weight: str
    title: str
    means: str
    todo: str
    source: str = "practice"


SIGHTS = {
    "offset joint": Sight(
        "repair",
        "Two lengths of pipe do not meet",
        "Paper and roots catch on the step, and water can leave the pipe there.",
        "Have this joint dug up and set right.",
    ),
    "crack": Sight(
        "repair",
        "The pipe is cracked",
        "Roots and soil can come in.",
        "Have this length replaced.",
    ),
    "roots": Sight(
        "repair",
        "Roots grow in the pipe",
        "They catch paper and will close the pipe in time.",
        "Have the roots cut and the joint made tight.",
    ),
    "blockage": Sight(
        "failed",
        "The pipe is blocked",
        "Water cannot pass here as it should.",
        "Have the pipe cleared and looked into again.",
    ),
    "scale": Sight(
        "watch",
        "Scale hangs in the pipe",
        "Old iron pipe narrows from within.",
        "Look again at the next inspection.",
    ),
    "deposit": Sight(
        "watch",
        "Deposits lie in the pipe",
        "They narrow the pipe.",
        "Have the pipe rinsed at the next pump-out.",
    ),
}
COVERS = {
    "loose": "The cover can be moved without a tool.",
    "broken": "The cover is broken.",
    "not child-proof": "A child could open the cover.",
}
DEVICE_STATES = {
    "missing": ("repair", "is missing"),
    "damaged": ("repair", "is damaged"),
    "worn": ("watch", "is worn"),
    "sound": ("sound", "is in place and sound"),
    "not seen": ("unseen", "was not seen"),
}
STRUCTURES = {
    "cracked": ("failed", "is cracked"),
    "leaking": ("failed", "leaks"),
    "worn": ("watch", "shows wear"),
    "sound": ("sound", "shows no damage where it could be seen"),
    "not seen": ("unseen", "could not be seen"),
}
PIT_STRUCTURES = {
    "collapsing": ("danger", "is collapsing"),
    "leaning": ("danger", "leans"),
    "worn": ("watch", "shows wear"),
    "sound": ("sound", "shows no damage where it could be seen from above"),
    "not seen": ("unseen", "could not be seen"),
}
DESIGNER = "a licensed designer or contractor, with the local authority"
OLD_PIPE = "bituminized fiber"
FIBER_SEEN_AS = (
    "Pipe of wood fiber and pitch was expected to last 40 to 50 years, and what is "
    "left of it is mostly older: the end of its life even where it still works."
)
SITING = (
    "The distances of the code are rules for siting new systems; a short distance "
    "does not by itself mean that an existing system has failed. The local authority "
    "decides."
)
