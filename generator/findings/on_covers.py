"""Rules on covers: of tanks, chambers and boxes alike."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import COVERS
from generator.findings.finding import Finding


def cover_findings(
    name: str,
    cover: str | None,
    covers_back: str | None,
    photos: tuple[str, ...] = (),
    *,
    vessel: str = "tank",
) -> Iterator[Finding]:
    """Judge the covers of one part: as they were found, and as they were left."""
    key = name if vessel == "tank" else name.replace(" ", "-")
    if cover in COVERS:
        yield Finding(
            key=f"{key}-cover",
            part=name,
            weight="danger",
            title=f"A cover of the {name} is {cover}",
            saw=COVERS[cover],
            means=f"A person or an animal can fall in. The air in a {vessel} kills "
            "within minutes, and it has killed those who climbed in to help.",
            todo=f"Keep everyone away from the {name}. Put a sound, locked cover on "
            f"today. Never climb or lean into the {vessel}.",
            who="the owner today; then a licensed septic contractor",
            by="today",
            photos=photos,
            source="MN-7080-1500",
        )
    elif cover == "buried":
        yield Finding(
            key=f"{key}-cover",
            part=name,
            weight="watch",
            title=f"The cover of the {name} is buried",
            saw="It had to be dug up.",
            means="Every pump-out and every look costs digging.",
            todo="Have a riser with a locked cover set at the next pump-out.",
            who="a licensed septic contractor",
            by="the next pump-out",
            source="practice",
        )
    elif cover == "sound":
        yield Finding(
            key=f"{key}-cover",
            part=name,
            weight="sound",
            title=f"Covers of the {name} are sound",
            saw="The covers were whole and held."
            + (
                " They were back and secure when we left."
                if covers_back == "yes"
                else ""
            ),
        )
    if covers_back == "no" and cover not in COVERS:
        yield Finding(
            key=f"{key}-covers-back",
            part=name,
            weight="danger",
            title=f"Covers of the {name} were not secure when we left",
            saw="The covers could not be put back securely.",
            means="A person or an animal can fall in.",
            todo=f"Keep everyone away from the {name}, and have the covers secured "
            "today.",
            who="the owner",
            by="today",
            source="MN-7080-1500",
        )
