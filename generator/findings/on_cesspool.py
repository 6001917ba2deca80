"""Rules on a cesspool or seepage pit: room, marks, structure, kind, what is unsaid."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from generator.codes.packs import Pack
from generator.findings.criteria import DESIGNER, LIMITS, PIT_STRUCTURES
from generator.findings.finding import Finding, not_noted, noted
from generator.findings.on_covers import cover_findings
from generator.record.cesspool import Cesspool
from generator.record.model import Record
from generator.results.cesspool_inside import Pit
from generator.results.design_flow import DailyFlows
from generator.results.guard_band import CLOSE, MEETS, SHORT, hold
from generator.results.result import Result, Results
from generator.results.rounding import said

RULE, RULED = "MA-15-303-PIT", "cesspool"  # the rule names no seepage pit
MASSACHUSETTS = re.compile(r"\bMassachusetts\b|,\s*MA\b")
MASSACHUSETTS_PACK = "us-ma"
STAY_AWAY = (
    "Never walk near an old pit or enter it: its top can give way without warning, and "
    "the air inside kills."
)
NOT_NOTED = {
    "cover": "covers of the {name}",
    "structure": "walls and roof of the {name}",
    "inlet_down": "depth of the inlet of the {name}",
    "liquid_down": "level of the liquid in the {name}",
    "overflow": "overflow of the {name}",
}


def cesspool_findings(
    record: Record, results: Results, pack: Pack | None
) -> Iterator[Finding]:
    """Judge the cesspool or seepage pit, where the record has one."""
    pit = record.inspection.cesspool
    if pit is None:
        return
    photos = (pit.photo,) if pit.photo else ()
    yield from cover_findings(
        pit.kind, pit.cover, pit.covers_back, photos, vessel=pit.kind
    )
    yield from _structure(pit)
    yield from _room(record, results, pack, pit)
    yield from _high_mark(pit)
    yield from _overflow(pit)
    yield _as_such(pit)
    yield from _wrong(pit)
    yield from _silence(pit)


def on_pit(
    pit: Cesspool, key: str, weight: str, title: str, saw: str, **more: object
) -> Finding:
    """Make a finding on a pit; ``more`` are fields of the finding by name."""
    return Finding(
        key=f"{pit.kind.replace(' ', '-')}-{key}",
        part=pit.kind,
        weight=weight,
        title=title,
        saw=saw,
        **more,  # type: ignore[arg-type]  # the fields of a finding, by name
    )


def _structure(pit: Cesspool) -> Iterator[Finding]:
    if pit.structure is None:
        return
    weight, words = PIT_STRUCTURES[pit.structure]
    title = f"The {pit.kind} {words}"
    if weight != "danger":
        again = {
            "todo": "Have it looked at again.",
            "who": "a septic inspector",
            "by": "within a year",
        }
        saw = f"Its walls and roof, from above: {pit.structure}.{noted(pit.note)}"
        yield on_pit(
            pit, "structure", weight, title, saw, **again if weight == "watch" else {}
        )
        return
    yield on_pit(
        pit,
        "structure",
        weight,
        title,
        f"Seen from above, it {words}.{noted(pit.note)}",
        means="The ground over it can fall in under a person, a child or a vehicle.",
        todo="Fence it off today and keep everyone well away. Have it emptied and "
        f"filled in, or made safe, from outside. {STAY_AWAY}",
        who="the owner today; then a licensed septic contractor",
        by="today",
        photos=(pit.photo,) if pit.photo else (),
        source="MN-7080-1500",
    )


def _room(
    record: Record, results: Results, pack: Pack | None, pit: Cesspool
) -> Iterator[Finding]:
    space = results.get("cesspool.free_space")
    if space is None:
        return
    volume, share = (results.get(f"cesspool.free_{key}") for key in ("volume", "share"))
    evidence = tuple(one.name for one in (space, volume, share) if one)
    told = _told(space, volume, share)
    at_inlet = hold(space.number, 0.0, least=True)
    if at_inlet == SHORT:
        yield _above_inlet(pit, told, evidence)
        return
    flow = DailyFlows(record, pack).design
    counted = share if flow is not None and flow.seen else None
    verdicts = [hold(space.number, LIMITS["pit_room"].value, least=True)]
    if counted is not None:
        verdicts.append(hold(counted.number, LIMITS["pit_share"].value, least=True))
    else:
        told += (
            " Whether the free volume is enough for half a day cannot be said: no "
            "design flow that was read, or no plan area, is at hand."
        )
    at_home = pit.kind == RULED and _in_massachusetts(record, pack)
    found = _by_the_rule(pit, verdicts, told, evidence, at_home=at_home)
    yield replace(found, takes_water="not shown") if at_inlet == CLOSE else found


def _told(space: Result, volume: Result | None, share: Result | None) -> str:
    told = f"The liquid stands {_below(space)} the inlet invert."
    if volume is None:
        return told
    told += f" The free volume above it is {said(volume.number, 'gal')}"
    if share is None:
        return f"{told}."
    return f"{told}, {said(share.number, '%')} of one day's design flow."


def _below(space: Result) -> str:
    if space.value < 0:
        return f"{said(-space.number, 'in')} above"
    return f"{said(space.number, 'in')} below" if space.value else "at"


def _above_inlet(pit: Cesspool, told: str, evidence: tuple[str, ...]) -> Finding:
    return on_pit(
        pit,
        "room",
        "failed",
        f"The liquid in the {pit.kind} stands above its inlet",
        told,
        means="The soil does not take what comes, and sewage backs up in the pipe.",
        todo="Use as little water as can be. Have it pumped, and ask the local "
        "authority what is to replace it.",
        who=DESIGNER,
        by="now",
        evidence=evidence,
        source=RULE,
        takes_water="no",
    )


def _by_the_rule(
    pit: Cesspool,
    verdicts: list[str],
    told: str,
    evidence: tuple[str, ...],
    *,
    at_home: bool,
) -> Finding:
    """Hold a pit against the rule of Massachusetts, which fails a system only there."""
    room, share = LIMITS["pit_room"], LIMITS["pit_share"]
    rule = (
        f" Massachusetts counts a cesspool as failed with less than {room.value:g} in "
        f"below the inlet, or less than {share.value:g} % of one day's design flow "
        "free."
    )
    if not at_home:
        rule += " That is a rule of Massachusetts, and the local one may differ."
    saw, short = told + rule, SHORT in verdicts
    if not short and CLOSE not in verdicts:
        title = f"The {pit.kind} has the free room that Massachusetts asks"
        return on_pit(pit, "room", "sound", title, saw, evidence=evidence, source=RULE)
    weight = "failed" if at_home else "repair"
    return on_pit(
        pit,
        "room",
        weight if short else "watch",
        f"The {pit.kind} has little room left"
        if short
        else f"The free room of the {pit.kind} is too close to call",
        saw,
        means="A busy day can fill it up to its inlet." if short else "",
        todo="Use little water, and ask the local authority what is asked of this pit."
        if short
        else "Have it measured again after a week of usual use.",
        who=DESIGNER if short else "a septic inspector",
        by="now" if short and at_home else "before the sale closes",
        evidence=evidence,
        source=RULE,
    )


def _in_massachusetts(record: Record, pack: Pack | None) -> bool:
    home = record.inspection.property
    code = home.code or ""
    if code == MASSACHUSETTS_PACK or code.startswith(f"{MASSACHUSETTS_PACK}-"):
        return True
    named = (home.place, home.address, pack.jurisdiction if pack else "")
    return any(MASSACHUSETTS.search(words) for words in named)


def _high_mark(pit: Cesspool) -> Iterator[Finding]:
    inside, mark = Pit.of(pit), pit.high_mark_down
    if mark is None or inside.high_mark_in is None or inside.inlet_in is None:
        return
    if hold(inside.high_mark_in - inside.inlet_in, 0.0, least=True) == MEETS:
        return
    yield on_pit(
        pit,
        "high-mark",
        "watch",
        f"The {pit.kind} has stood at its inlet or higher",
        f"The highest stain lies {mark.typed} below the mark, and the inlet invert "
        f"{pit.inlet_down.typed if pit.inlet_down else 'there too'}.",
        means="At some time water came in faster than the soil took it.",
        todo="Ask the owner when it backed up, and have the level looked at again.",
        who="the client; then a septic inspector",
        by="the next wet season",
        source="practice",
    )


def _overflow(pit: Cesspool) -> Iterator[Finding]:
    if pit.overflow == "not seen":
        title = f"An overflow of the {pit.kind} was not seen"
        saw = "Whether a pipe leads on from it, and where to, is not known."
        yield on_pit(pit, "overflow", "unseen", title, saw)


def _as_such(pit: Cesspool) -> Finding:
    return on_pit(
        pit,
        "kind",
        "watch",
        f"Some codes count a {pit.kind} as failed by what it is",
        f"Sewage or effluent goes to a {pit.kind} here. {STAY_AWAY}",
        means="Minnesota counts it as failing to protect groundwater, and Nebraska as "
        "failed or prohibited. Other places let one stay while it works.",
        todo="Ask the local authority whether it may stay, and what a sale or a new "
        "bedroom asks.",
        who="the owner, with the local authority",
        by="before the sale closes",
        source="PIT-CODES",
    )


def _wrong(pit: Cesspool) -> Iterator[Finding]:
    wrong = Pit.of(pit).wrong()
    if wrong:
        title = f"The depths in the {pit.kind} cannot be as they were recorded"
        saw = (
            f"As recorded, {' and '.join(wrong)}. What follows from them was left out."
        )
        yield on_pit(pit, "depths", "unseen", title, saw)


def _silence(pit: Cesspool) -> Iterator[Finding]:
    for key, words in NOT_NOTED.items():
        if getattr(pit, key) is None and not (key == "liquid_down" and pit.levels):
            name = f"{pit.kind} {key}".replace(" ", "-").replace("_", "-")
            yield not_noted(name, pit.kind, words.format(name=pit.kind))
    yield on_pit(
        pit,
        "below-liquid-unseen",
        "unseen",
        f"Inside of the {pit.kind} below the liquid, and the soil around it",
        "It was not empty; walls under the liquid and the soil behind do not show.",
    )
