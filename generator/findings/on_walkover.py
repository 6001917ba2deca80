"""Rules on the walk over the lot and through the house: one for each question."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.findings.criteria import DESIGNER
from generator.findings.finding import Finding, noted
from generator.findings.on_load_test import STOPPED_BY_FAILURE
from generator.record.around import Sign, WalkOver
from generator.record.model import Inspection, Record

LOT, HOUSE = "lot", "house"


@dataclass(frozen=True)
class Question:
    """What a yes to one question of the walk means, and how a no is told."""

    looked_for: str
    weight: str
    title: str
    saw: str
    means: str
    todo: str
    who: str
    by: str
    source: str
    takes_water: str = ""
    part: str = LOT


QUESTIONS = {
    "sewage_on_ground": Question(
        "sewage on the ground, in a ditch or in surface water",
        "danger",
        "Sewage was seen on the ground",
        "Sewage or effluent was seen in the open",
        "Sewage in the open makes people and animals ill, and it can reach wells and "
        "streams.",
        "Keep people and animals away and use as little water as can be. Tell the "
        "local authority, and have the wells nearby tested.",
        f"the owner today; then {DESIGNER}",
        "today",
        "MN-7080-1500",
        "no",
    ),
    "wet_ground": Question(
        "wet or soft ground over the system",
        "watch",
        "The ground over the system is wet",
        "The ground was wet or soft while it was dry around it",
        "It may be a spring, a leaking water line, or effluent on its way up.",
        "Look again after a week without rain; if it is still wet, have the cause "
        "found.",
        DESIGNER,
        "within a month",
        "MA-15-303",
        "not shown",
    ),
    "odor": Question(
        "a smell of sewage outdoors",
        "watch",
        "It smells of sewage outdoors",
        "There was a smell of sewage",
        "It may come from a vent or an ill-fitting cover, or from sewage near the "
        "surface.",
        "Have the vents and the covers looked at; if it stays, have the ground "
        "looked at.",
        "a septic contractor",
        "within a month",
        "practice",
    ),
    "lush_growth": Question(
        "plants that grow more strongly over the system",
        "watch",
        "Plants grow more strongly over the system",
        "Plants grew more strongly there than around it",
        "Effluent may stand near the surface; in dry months some lush growth is usual.",
        "Walk it again in the wet season, and look for wet ground.",
        "the owner",
        "the next wet season",
        "NJ-7-9A-E",
    ),
    "vehicles": Question(
        "tracks, vehicles or paving over a part",
        "repair",
        "Vehicles or paving are over the system",
        "Tracks, vehicles or paving were over a part",
        "Wheels crush pipes and covers and press the soil shut; paving keeps air from "
        "the soil.",
        "Keep every wheel off, with a fence or posts, and have the parts below looked "
        "at. Ask the designer what is to become of any paving.",
        f"the owner; then {DESIGNER}",
        "now",
        "NJ-7-9A-E",
    ),
    "structures": Question(
        "buildings or heavy loads over a part",
        "watch",
        "Something heavy stands over the system",
        "A building, a deck, a pool or a heavy load stood over a part",
        "It loads what lies below, and nobody can reach that to look at it or mend it.",
        "Move what can be moved, and ask the local authority before anything is built "
        "there.",
        "the owner, with the local authority",
        "before the next pump-out",
        "NJ-7-9A-E",
    ),
    "trees": Question(
        "trees or shrubs with reaching roots close to the system",
        "watch",
        "Trees or shrubs stand close to the system",
        "Trees or shrubs with reaching roots stood over a part or within 10 ft of the "
        "absorption area",
        "Roots look for water and grow into joints, holes and stone.",
        "Plant nothing more there, and have the pipes looked into for roots. Ask "
        "before a tree is felled: its roots may hold a cover or a bank.",
        "the owner, with a septic contractor",
        "at the next inspection",
        "NJ-7-9A-E",
    ),
    "roof_water": Question(
        "roof, yard or sump water that runs onto the system",
        "repair",
        "Roof, yard or sump water runs onto the system",
        "Roof, yard or sump water ran onto or into the system",
        "Clean water takes the room that the soil has for sewage.",
        "Lead it away from the tank and from the absorption area.",
        "the owner",
        "before the next wet season",
        "practice",
    ),
    "sinking_ground": Question(
        "ground that has sunk or opened",
        "danger",
        "The ground has sunk over a part",
        "The ground had sunk or opened",
        "A cover, a tank roof or an old pit may be giving way; someone can fall in.",
        "Keep everyone off and fence it at once. Have someone with the means to do it "
        "safely open it and make it sound.",
        f"the owner today; then {DESIGNER}",
        "today",
        "practice",
    ),
    "backup_indoors": Question(
        "sewage that came up in the house",
        "repair",
        "Sewage has come up in the house",
        "Sewage has come up indoors, now or by what the people there say",
        "A blocked pipe indoors or on the way to the tank can do this, and so can a "
        "system that does not take the water. This visit does not tell which.",
        "Keep off what came up. Have the pipe from the house to the tank looked "
        "through, and the cause found.",
        "a plumber or a septic contractor",
        "now",
        "NJ-7-9A-3-4",
        "not shown",
        HOUSE,
    ),
}
BACKED_UP_BY_SYSTEM = Question(
    QUESTIONS["backup_indoors"].looked_for,
    "failed",
    "The system backs up into the house",
    QUESTIONS["backup_indoors"].saw,
    "What lies beyond the house does not take the water, so this is hardly a blocked "
    "pipe indoors.",
    "Use as little water as can be, keep off what came up, and have the cause found.",
    DESIGNER,
    "now",
    "MA-15-303",
    "no",
    HOUSE,
)
PART_OF_A_LEAK = {  # beside sewage in the open these need no look of their own
    "wet_ground": "Sewage was found in the open on this lot, and this is most likely "
    "part of it.",
    "odor": "Sewage was found in the open on this lot, and the smell is most likely "
    "that of it.",
}
SAID_BY_AN_AREA = {  # the word for the ground over an area that says the same
    "sewage_on_ground": "sewage on the surface",
    "wet_ground": "wet",
    "lush_growth": "lush growth",
}


def walkover_findings(record: Record) -> Iterator[Finding]:
    """Judge every answer of the walk; one with no answer is named as unseen."""
    walk = record.inspection.walkover
    if walk is None:
        return  # on_silence.py tells it
    yield from _seen(walk, record.inspection)
    yield from _not_found(walk)
    yield from _not_answered(walk)


def _answered(walk: WalkOver, answer: str | None) -> list[str]:
    return [key for key in QUESTIONS if getattr(walk, key) == answer]


def _seen(walk: WalkOver, inspection: Inspection) -> Iterator[Finding]:
    for key in _answered(walk, "yes"):
        signs = [one for one in walk.signs if one.sign == key]
        areas = _areas_that_say(key, inspection)
        elsewhere = [one for one in signs if not _is_at(one, areas)]
        if not areas:
            yield _finding(key, _question(key, inspection), signs)
        elif elsewhere:
            yield _finding(key, _question(key, inspection), elsewhere)


def _areas_that_say(key: str, inspection: Inspection) -> list[str]:
    word = SAID_BY_AN_AREA.get(key)
    areas = inspection.absorption_areas
    return [one.name for one in areas if word is not None and one.surface == word]


def _is_at(sign: Sign, areas: list[str]) -> bool:
    where = sign.where.casefold()
    return any(name.casefold() in where for name in [*areas, "absorption area"])


def _question(key: str, inspection: Inspection) -> Question:
    if key == "backup_indoors" and _is_full(inspection):
        return BACKED_UP_BY_SYSTEM
    if key in PART_OF_A_LEAK and _sewage_is_out(inspection):
        means = PART_OF_A_LEAK[key]
        return replace(QUESTIONS[key], means=means, todo="", who="", by="")
    return QUESTIONS[key]


def _sewage_is_out(inspection: Inspection) -> bool:
    walk = inspection.walkover
    seen = walk is not None and walk.sewage_on_ground == "yes"
    return seen or bool(_areas_that_say("sewage_on_ground", inspection))


def _is_full(inspection: Inspection) -> bool:
    """Say whether something else shows that the system does not take the water."""
    if _sewage_is_out(inspection):
        return True
    test = inspection.load_test
    return test is not None and test.stop_reason in STOPPED_BY_FAILURE


def _finding(key: str, question: Question, signs: list[Sign]) -> Finding:
    places = "; ".join(one.where.strip().rstrip(".") for one in signs)
    where = f": {places}." if places else ". Where it showed was not noted."
    photos = dict.fromkeys(one.photo for one in signs if one.photo)
    return Finding(
        key=_key(key),
        part=question.part,
        weight=question.weight,
        title=question.title,
        saw=f"{question.saw}{where}",
        means=question.means,
        todo=question.todo,
        who=question.who,
        by=question.by,
        photos=tuple(photos),
        source=question.source,
        takes_water=question.takes_water,
    )


def _key(question: str) -> str:
    return f"walk-{question.replace('_', '-')}"


def _not_found(walk: WalkOver) -> Iterator[Finding]:
    if found := _answered(walk, "no"):
        yield Finding(
            key="walk" if walk.sewage_on_ground else "walk-elsewhere",
            part=LOT,
            weight="sound",
            title="The walk over the lot",
            saw=f"Looked for and not seen: {_listed(found)}."
            + noted(walk.walked and f"walked over: {walk.walked}")
            + noted(walk.note),
        )


def _not_answered(walk: WalkOver) -> Iterator[Finding]:
    if found := _answered(walk, None):
        yield Finding(
            key="walk-not-noted",
            part=LOT,
            weight="unseen",
            title="Part of the walk over the lot",
            saw="The inspector's file does not say whether this was looked for: "
            f"{_listed(found)}.",
            todo="Ask the inspector whether it was looked for.",
        )


def _listed(keys: list[str]) -> str:
    return "; ".join(QUESTIONS[key].looked_for for key in keys)
