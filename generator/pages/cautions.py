"""The cautions that must appear, each with its source and where it stands."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Caution:
    """One caution: a title, plain words, a source key, and the pages it stands on."""

    title: str
    words: str
    source: str
    pages: tuple[str, ...]
    brief: str = ""


CAUTIONS = (
    Caution(
        "The air in a tank kills",
        "Never enter a tank or a chamber, never lean into it, never smoke or strike a "
        "flame near it. Sewage gives off hydrogen sulfide, which is dangerous to life "
        "from 100 ppm and dulls the nose first, and methane, which burns from 5 % in "
        "air; and the air may hold too little oxygen. People who climbed in to help "
        "have died beside those they wanted to save. If someone falls in, call 911 and "
        "stay out.",
        "H2S",
        ("tank", "pump", "care"),
        "Never enter, never lean in, never bring a flame near. If someone falls in, "
        "call 911 and stay out.",
    ),
    Caution(
        "Keep every cover closed and locked",
        "A cover that is loose, broken or can be opened by a child is a danger now. "
        "Keep people and animals away until a sound one is on.",
        "MN-7080-1500",
        ("care",),
    ),
    Caution(
        "Old pits cave in",
        "The top of an old cesspool or seepage pit can give way without warning. Keep "
        "everyone off the ground over it, and never enter it.",
        "MN-7080-1500",
        ("care",),
    ),
    Caution(
        "Pumps and alarms carry current",
        "Use the switch and nothing else; never open the panel. Work on pumps, floats "
        "and alarms is for a licensed electrician or maintainer.",
        "practice",
        ("pump", "care"),
    ),
    Caution(
        "Before anyone digs or probes",
        "Call 811 and wait for the lines to be marked. Stay out of holes and trenches "
        "that are not held or sloped; from 5 ft on the law asks for protection, and "
        "loose soil falls in at less. Never leave a hole open.",
        "CALL811",
        ("pipes", "care"),
    ),
    Caution(
        "Sewage makes people ill",
        "Keep off wet ground over the system, wash hands, keep children and pets away, "
        "and leave clean-up to people with gloves and boots.",
        "practice",
        ("care",),
    ),
    Caution(
        "Drinking water",
        "Where a well is close to the system, or sewage is loose, use other water for "
        "drinking until a certified laboratory has tested it.",
        "practice",
        ("distances", "care"),
    ),
    Caution(
        "Keep weight off",
        "No vehicles, buildings, pools or trees on the tank, the pipes or the "
        "absorption area.",
        "practice",
        ("care",),
    ),
)
DISCLAIMER = (
    "This is what could be seen on the day of the visit. It is no warranty and no "
    "permit, and it does not say how long the system will last or whether it will "
    "serve another household. Local codes, the local authority and licensed "
    "practitioners decide."
)


def cautions_for(page: str) -> list[Caution]:
    """List the cautions that stand on a page."""
    return [one for one in CAUTIONS if page in one.pages]
