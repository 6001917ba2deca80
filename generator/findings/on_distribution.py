"""Rules on the distribution box: level at rest, outlets, depths, box and cover."""

from __future__ import annotations

from collections.abc import Iterator

from generator.codes.packs import Pack
from generator.findings.criteria import DESIGNER
from generator.findings.finding import Finding, noted
from generator.findings.on_covers import cover_findings
from generator.record.model import Record
from generator.record.parts import DistributionBox
from generator.results.guard_band import CLOSE, MEETS, SHORT, hold
from generator.results.measured import LEVEL_IN, measured
from generator.results.result import Result, Results
from generator.results.rounding import said

PART = "distribution box"
CONTRACTOR = "a licensed septic contractor"
BEFORE_SALE = "before the sale closes"
AT_REST_IN = 0.0  # above the outlet invert at rest is a failure; [MA-15-303], (1)(a)
STRUCTURES = {  # a box that leaks still shares water out, so that it is a repair
    "cracked": ("repair", "is cracked"),
    "leaking": ("repair", "leaks"),
    "worn": ("watch", "shows wear"),
    "sound": ("sound", "is sound as far as it could be seen"),
    "not seen": ("unseen", "could not be seen"),
}
NEW_WORK = (
    "The code sets this figure for new boxes; the local authority decides what holds "
    "for this one."
)
UNEVEN = (
    "The lowest outlet takes most of the water, and its trench clogs first while "
    "others stay dry."
)


def distribution_findings(
    record: Record, results: Results, pack: Pack | None
) -> Iterator[Finding]:
    """Judge the distribution box, where the record has one."""
    box = record.inspection.distribution_box
    if box is None:
        return
    photos = (box.photo,) if box.photo else ()
    cover = None if box.cover == "buried" else box.cover  # usual for a box
    yield from cover_findings(PART, cover, box.covers_back, photos, vessel="box")
    yield from _structure(box, photos)
    yield from _still(box)
    yield from _spread(results, pack)
    yield from _fall(results)
    yield from _floor(box, results)
    yield from _dry_outlets(box)


def _finding(key: str, weight: str, title: str, saw: str, **more: object) -> Finding:
    return Finding(
        key=f"distribution-box-{key}",
        part=PART,
        weight=weight,
        title=title,
        saw=saw,
        **more,  # type: ignore[arg-type]  # the fields of a finding, by name
    )


def _structure(box: DistributionBox, photos: tuple[str, ...]) -> Iterator[Finding]:
    if box.structure is None:
        return
    weight, words = STRUCTURES[box.structure]
    broken = weight == "repair"
    yield _finding(
        "structure",
        weight,
        f"The distribution box {words}",
        f"The distribution box {words}.{noted(box.note)}",
        means="Effluent can leave before it is shared out." if broken else "",
        todo="Have the box mended or replaced." if broken else "",
        who=CONTRACTOR if broken else "",
        by=BEFORE_SALE if broken else "",
        photos=photos if broken else (),
        source="practice" if broken else "inspector",
    )


def _still(box: DistributionBox) -> Iterator[Finding]:
    if box.still_level is None:
        return
    level = box.still_level
    if level.inches <= AT_REST_IN:
        yield _finding(
            "still-level",
            "sound",
            "The box stands no higher than its outlets at rest",
            f"Before any water was run the level was {level.typed}.",
            source="MA-15-303",
        )
    elif hold(measured(level.inches, LEVEL_IN), AT_REST_IN, least=False) == SHORT:
        yield _finding(
            "still-level",
            "failed",
            "Water stands above the outlets of the distribution box at rest",
            f"Before any water was run the level was {level.typed} against the "
            "outlet inverts.",
            means="What lies beyond the box is full or blocked, or its pipes are.",
            todo="Use as little water as can be. Have the cause found: a blocked or "
            "uneven pipe, or an absorption area that is full.",
            who=DESIGNER,
            by="now",
            source="MA-15-303",
            takes_water="no",
        )
    else:
        yield _finding(
            "still-level",
            "watch",
            "The level at rest in the distribution box is too close to call",
            f"Before any water was run the level was {level.typed}, within what can "
            "be read of the outlet inverts.",
            todo="Have the level read again after a night without water.",
            who="a septic inspector",
            by=BEFORE_SALE,
            source="MA-15-303",
            takes_water="not shown",
        )


def _spread(results: Results, pack: Pack | None) -> Iterator[Finding]:
    spread, first = results.get("box.spread"), results.get("box.first")
    if spread is None:
        return
    saw = f"From the lowest outlet to the highest it is {said(spread.number, 'in')}."
    if first is not None:
        saw += f" {first.label}."
    evidence = tuple(one.name for one in (spread, first) if one is not None)
    rule = pack.distribution_box if pack else None
    local = rule is not None and spread.verdict != ""
    differs = hold(spread.number, 0.0, least=False) == SHORT
    if spread.verdict == SHORT:
        yield _finding(
            "outlets",
            "repair",
            "The outlets of the distribution box are not level",
            saw,
            means=f"{UNEVEN} {NEW_WORK}",
            todo="Have the outlets set level with flow levelers or by resetting the "
            "box, and the flow watched.",
            who=CONTRACTOR,
            by=BEFORE_SALE,
            evidence=evidence,
            source=spread.source,
        )
    elif spread.verdict == MEETS or (spread.verdict != CLOSE and not differs):
        yield _finding(
            "outlets",
            "sound",
            "The outlets of the distribution box are level as far as can be read",
            saw,
            evidence=evidence,
            source=spread.source if local else "practice",
        )
    else:
        yield _finding(
            "outlets",
            "watch",
            "Whether the outlets of the distribution box are level is too close to call"
            if spread.verdict == CLOSE
            else "The outlets of the distribution box differ in height",
            saw,
            means=UNEVEN,
            todo="Have the flow from each outlet watched, and the outlets set level.",
            who=CONTRACTOR,
            by="the next pump-out",
            evidence=evidence,
            source=spread.source if local else "practice",
        )


def _fall(results: Results) -> Iterator[Finding]:
    fall = results.get("box.inlet_fall")
    if fall is None:
        return
    if fall.value < 0:
        yield _finding(
            "inlet",
            "repair",
            "The inlet of the distribution box lies below an outlet",
            f"The inlet lies {said(-fall.number, 'in')} below the highest outlet.",
            means="Water stands in the pipe from the tank, and solids settle there.",
            todo="Have the box reset so that its inlet lies above its outlets.",
            who=CONTRACTOR,
            by=BEFORE_SALE,
            evidence=(fall.name,),
            source=fall.source,
        )
    else:
        yield from _against(fall, "inlet", "fall from the inlet to the outlets")


def _floor(box: DistributionBox, results: Results) -> Iterator[Finding]:
    floor = results.get("box.floor")
    if floor is not None:
        yield from _against(floor, "floor", "height of the outlets above the floor")
    elif box.floor_down is not None and box.outlets:
        yield _finding(
            "floor",
            "unseen",
            "The floor of the distribution box cannot be as it was recorded",
            "As recorded, the floor lies above an outlet.",
        )


def _against(result: Result, key: str, what: str) -> Iterator[Finding]:
    saw = f"{result.label}: {said(result.number, 'in')}."
    if result.verdict == MEETS:
        yield _finding(
            key,
            "sound",
            f"The {what} meets the code",
            saw,
            evidence=(result.name,),
            source=result.source,
        )
    elif result.verdict:
        words = {
            SHORT: "is less than the code asks of a new box",
            CLOSE: "is too close to call",
        }
        yield _finding(
            key,
            "watch",
            f"The {what} {words.get(result.verdict, 'is for the authority to judge')}",
            saw,
            means=NEW_WORK,
            todo="Have the box looked into for solids.",
            who="a licensed pumper",
            by="the next pump-out",
            evidence=(result.name,),
            source=result.source,
        )


def _dry_outlets(box: DistributionBox) -> Iterator[Finding]:
    if not any(one.flow_seen == "yes" for one in box.outlets):
        return
    for number, one in enumerate(box.outlets, 1):
        if one.flow_seen == "no":
            yield _finding(
                f"outlet-{number}",
                "watch",
                f"No water was seen to leave by the outlet to {one.to}",
                "Water left by another outlet at the same time.",
                means="The outlet lies higher than the others, or it is blocked.",
                todo="Have the outlets set level and this one looked into.",
                who=CONTRACTOR,
                by="the next pump-out",
                source="practice",
            )
