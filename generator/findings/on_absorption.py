"""Rules on absorption areas: the ground over them, standing liquid, size, space."""

from __future__ import annotations

from collections.abc import Iterator

from generator.codes.packs import Pack
from generator.findings.criteria import DESIGNER
from generator.findings.finding import Finding, noted
from generator.record.model import Record
from generator.record.parts import AbsorptionArea
from generator.results.guard_band import CLOSE, COVERAGE_FACTOR, MEETS, SHORT
from generator.results.measured import LEVEL_IN, STONE_IN, measured
from generator.results.result import Results, nominal, standard
from generator.results.rounding import said

PART = "absorption area"
EMPTY_SPACE = "absorption-area-empty-space"
ALL_OF_IT_PERCENT = 100.0  # an empty bed could have taken the whole test; by definition
NEW_WORK = (
    "A code sizes new systems for a full house; an area that is smaller has not failed "
    "by that. The local authority decides."
)
SIZES = {
    MEETS: ("sound", "has the area that the rate asks", ""),
    SHORT: (
        "watch",
        "is smaller than the rate asks of a new system",
        "Spread water use over the week, and ask the local authority before any "
        "bedroom is added.",
    ),
    CLOSE: (
        "watch",
        "is too close to call against the area that the rate asks",
        "Have it measured more closely if a permit depends on it.",
    ),
}
CONFIRM_SIZE = (
    "watch",
    "is for the local authority to judge by its size",
    "Ask the local authority for its figures.",
)


def absorption_findings(
    record: Record, results: Results, pack: Pack | None
) -> Iterator[Finding]:
    """Judge every absorption area, and all of them by their size."""
    areas = record.inspection.absorption_areas
    for one in areas:
        yield from _surface(one)
        yield from _standing(one)
    yield from _size(results, pack)
    yield from _space(results)


def _finding(
    one: AbsorptionArea, key: str, weight: str, title: str, saw: str, **more: object
) -> Finding:
    return Finding(
        key=f"{one.name.replace(' ', '-')}-{key}",
        part=one.name,
        weight=weight,
        title=title,
        saw=saw,
        **more,  # type: ignore[arg-type]  # the fields of a finding, by name
    )


def _photos(one: AbsorptionArea) -> tuple[str, ...]:
    return (one.photo,) if one.photo else ()


def _surface(one: AbsorptionArea) -> Iterator[Finding]:
    if one.surface == "sewage on the surface":
        yield _finding(
            one,
            "surface",
            "danger",
            f"Sewage comes to the surface at the {one.name}",
            "Sewage stood or ran on the ground." + noted(one.note),
            means="Sewage on the ground makes people and animals ill, and it can reach "
            "wells and streams.",
            todo="Keep people and animals away and use as little water as can be. "
            "Tell the local authority, and have the wells nearby tested.",
            who=f"the owner today; then {DESIGNER}",
            by="today",
            photos=_photos(one),
            source="MN-7080-1500",
            takes_water="no",
        )
    elif one.surface == "wet":
        yield _finding(
            one,
            "surface",
            "watch",
            f"The ground over the {one.name} is wet",
            "The ground was wet, and no sewage was seen on it." + noted(one.note),
            means="It may be rain or groundwater, or effluent on its way up.",
            todo="Look again after a week without rain; if it is still wet, have the "
            "cause found.",
            who=DESIGNER,
            by="within a month",
            photos=_photos(one),
            source="MA-15-303",
            takes_water="not shown",
        )
    elif one.surface == "lush growth":
        yield _finding(
            one,
            "surface",
            "watch",
            f"Lush growth stands over the {one.name}",
            "Plants over it grow more strongly than around it." + noted(one.note),
            means="Effluent may stand near the surface; in dry months some lush growth "
            "is usual.",
            todo="Walk it again, and look for wet ground.",
            who="the owner",
            by="the next wet season",
            photos=_photos(one),
            source="practice",
        )
    elif one.surface == "dry":
        yield _finding(
            one,
            "surface",
            "sound",
            f"The ground over the {one.name} is dry",
            "No wet ground, sewage or lush growth was seen over it." + noted(one.note),
        )
    elif one.surface == "not seen":
        yield _finding(
            one,
            "surface",
            "unseen",
            f"The ground over the {one.name} was not seen",
            "Nobody could see whether sewage comes up there." + noted(one.note),
        )


def _standing(one: AbsorptionArea) -> Iterator[Finding]:
    if one.standing is None:
        return
    seen = f"{one.standing.typed} of liquid stood in the observation port"
    if one.standing.inches <= 0:
        yield _finding(
            one,
            "standing",
            "sound",
            f"No liquid stood in the {one.name}",
            "The observation port was dry.",
        )
        return
    if one.stone_depth is None:
        yield _partly(one, f"{seen}; how deep the stone is was not recorded.")
        return
    saw = f"{seen}, in {one.stone_depth.typed} of stone up to the pipe."
    left = measured(one.stone_depth.inches, STONE_IN) - measured(
        one.standing.inches, LEVEL_IN
    )
    if nominal(left) <= 0:
        yield _finding(
            one,
            "standing",
            "failed",
            f"The {one.name} is full up to its pipe",
            saw,
            means="There is no room for more water than soaks away, and the soil takes "
            "it more slowly than it comes.",
            todo="Use as little water as can be, and have the cause found.",
            who=DESIGNER,
            by="now",
            photos=_photos(one),
            source="practice",
            takes_water="no",
        )
    elif nominal(left) < COVERAGE_FACTOR * standard(left):
        yield _partly(one, f"{saw} That is within what can be read of the pipe.", True)
    else:
        yield _partly(one, saw)


def _partly(one: AbsorptionArea, saw: str, near: bool = False) -> Finding:
    nearly = "nearly full up to its pipe" if near else "partly full"
    return _finding(
        one,
        "standing",
        "watch",
        f"The stone of the {one.name} is {nearly}",
        saw,
        means="Some standing liquid is usual as an area ages; more each year is not.",
        todo="Have the level read again, after a day of little use.",
        who="a septic inspector",
        by="within a year",
        photos=_photos(one),
        source="practice",
        takes_water="not shown" if near else "",
    )


def _size(results: Results, pack: Pack | None) -> Iterator[Finding]:
    asked = results.get("area.required")
    if asked is None:
        return
    weight, words, todo = SIZES.get(asked.verdict, CONFIRM_SIZE)
    authority = pack.authority if pack and pack.authority else "the local authority"
    there = asked.label.rpartition("; ")[2]
    yield Finding(
        key="absorption-area-size",
        part=PART,
        weight=weight,
        title=f"The absorption area {words}",
        saw=f"At the design flow {said(asked.number, 'ft²')} are asked; {there}.",
        means="" if weight == "sound" else NEW_WORK,
        todo=todo,
        who="" if weight == "sound" else f"the owner, with {authority}",
        by="" if weight == "sound" else "before any new work",
        evidence=tuple(
            name for name in ("area.loading", "area.required") if results.get(name)
        ),
        source=asked.source,
    )


def _space(results: Results) -> Iterator[Finding]:
    share = results.get("area.test_share")
    if share is None or share.value > ALL_OF_IT_PERCENT:
        return
    yield Finding(
        key=EMPTY_SPACE,
        part=PART,
        weight="unseen",
        title="How fast the soil takes water",
        saw="The test does not show that the soil still drains. The test water "
        f"would fill {said(share.number, '%')} of the empty space in the stone, so an "
        "empty area could hold all of it.",
        evidence=(share.name,),
        source="BALANCE",
    )
