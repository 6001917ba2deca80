"""Rules on tanks that are no septic tank: holding tanks, aerobic units, alarms."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.criteria import LIMITS
from generator.findings.finding import Finding, not_noted, noted
from generator.findings.on_pit_water import pit_water_findings
from generator.findings.on_pump import BEFORE_SALE, ELECTRICIAN, LEAVE_SHUT
from generator.record.model import Inspection, Record
from generator.record.parts import HOLDING_TANK, Tank
from generator.results.compute import tested_tank
from generator.results.guard_band import CLOSE, MEETS, SHORT, hold
from generator.results.result import Result, Results
from generator.results.rounding import said

AEROBIC = "aerobic unit"
WITH_ALARM = (HOLDING_TANK, AEROBIC, "pump tank")  # usually have one; practice
MAINTAINER = "a maintainer licensed for this unit"
AERATORS = {
    "does not run": ("repair", "does not run", "It was tried and did not run."),
    "not tried": ("unseen", "was not tried", "Nobody saw it run."),
    "runs": ("sound", "runs", "It ran when it was tried."),
}
ALARMS = {
    "silent": ("repair", "stays silent", "It was tried and gave no sound."),
    "none": ("watch", "is missing", "No alarm was found."),
    "not tried": ("unseen", "was not tried", "Nobody heard it sound."),
    "sounds": ("sound", "sounds", "It sounded when it was tried."),
}


def tank_kind_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge what only some kinds of tank have."""
    for tank in record.inspection.tanks:
        if tank.kind == HOLDING_TANK:
            yield from _how_full(tank, results)
        yield from _aerator(tank)
        yield from _alarm(tank)
    if record.inspection.load_test is not None:  # else it speaks in its place
        yield from pit_water_findings(record, results)


def instead_of_a_load_test(record: Record, results: Results) -> list[Finding]:
    """Give what speaks of the water where a load test would show nothing."""
    inspection = record.inspection
    on_holding = inspection.load_test is not None and tested_tank(record) is None
    if inspection.tanks and (on_holding or only_holds(inspection)):
        return [
            Finding(
                key="load-test",
                part="load test",
                weight="unseen",
                title="A holding tank has no outlet for a load test to show",
                saw="A holding tank takes water until it is full, and nothing lies "
                "beyond it that a load test could show.",
                source="practice",
                takes_water="not shown",
            )
        ]
    if inspection.load_test is None:
        return list(pit_water_findings(record, results))
    return []


def only_holds(inspection: Inspection) -> bool:
    """Say whether all that was found is holding tanks, so that nothing drains on."""
    beyond = inspection.absorption_areas or inspection.cesspool
    kinds = {one.kind for one in inspection.tanks}
    return kinds == {HOLDING_TANK} and not beyond


def _on(
    tank: Tank, key: str, weight: str, title: str, saw: str, **more: object
) -> Finding:
    return Finding(
        key=f"{tank.name}-{key}",
        part=tank.name,
        weight=weight,
        title=title,
        saw=saw,
        **more,  # type: ignore[arg-type]  # the fields of a finding, by name
    )


def _not_noted(tank: Tank, key: str, what: str) -> Finding:
    return not_noted(f"{tank.name}-{key}", tank.name, f"{what} of the {tank.name}")


def _how_full(tank: Tank, results: Results) -> Iterator[Finding]:
    share = results.get(f"holding.{tank.name}.share_full")
    free = results.get(f"holding.{tank.name}.free")
    if share is None or free is None:
        yield _not_noted(tank, "liquid-now", "level")
        return
    days = results.under(f"holding.{tank.name}.days_at_")
    limit, overfull = LIMITS["holding_full"].value, LIMITS["overfull"].value
    evidence = (share.name, free.name, *(one.name for one in days))
    saw = _fullness(share, free, days)
    if hold(share.number, overfull, least=False) == SHORT:
        yield _overfull(tank, saw, evidence)
        return
    verdict = hold(share.number, limit, least=False)
    full = verdict == SHORT
    yield _on(
        tank,
        "full",
        {SHORT: "repair", CLOSE: "watch", MEETS: "sound"}[verdict],
        {
            SHORT: f"The {tank.name} must be pumped",
            CLOSE: f"The {tank.name} is nearly due for pumping",
            MEETS: f"The {tank.name} still has room",
        }[verdict],
        f"{saw} New Hampshire has holding tanks of its groundwater program emptied at "
        f"{limit:g} %; the local rule may differ.",
        means="A holding tank that fills up backs up into the house or spills."
        if full
        else "",
        todo={
            SHORT: "Have it pumped, and keep the receipt.",
            CLOSE: "Call the pumper, and read the level again within a week.",
            MEETS: "",
        }[verdict],
        who="" if verdict == MEETS else "a licensed pumper",
        by={SHORT: "now", CLOSE: "within a week", MEETS: ""}[verdict],
        evidence=evidence,
        source="NH-402-41",
    )


def _fullness(share: Result, free: Result, days: list[Result]) -> str:
    told = (
        f"It is {said(share.number, '%')} full, and {said(free.number, 'gal')} still "
        "fit."
    )
    spans = [
        f"{said(one.number, 'days')} at the {one.label.rpartition(' at the ')[2]}"
        for one in days
        if one.value > 0
    ]
    return f"{told} That is room for {' and '.join(spans)}." if spans else told


def _overfull(tank: Tank, saw: str, evidence: tuple[str, ...]) -> Finding:
    return _on(
        tank,
        "full",
        "failed",
        f"The {tank.name} is full",
        f"{saw} The liquid stands above the depth when full.",
        means="It takes no more water; sewage backs up into the house or spills.",
        todo="Use no water until it has been pumped, today.",
        who="a licensed pumper",
        by="today",
        evidence=evidence,
        source="practice",
        takes_water="no",
    )


def _aerator(tank: Tank) -> Iterator[Finding]:
    if tank.aerator is None:
        if tank.kind == AEROBIC:
            yield _not_noted(tank, "aerator", "aerator")
        return
    weight, words, saw = AERATORS[tank.aerator]
    still = weight == "repair"
    yield _on(
        tank,
        "aerator",
        weight,
        f"The aerator of the {tank.name} {words}",
        f"{saw}{noted(tank.note) if still else ''}",
        means="Without air the unit treats little, and what leaves it can clog the "
        "absorption area or foul water."
        if still
        else "",
        todo=f"Have the aerator and its supply looked at. {LEAVE_SHUT}"
        if still
        else "",
        who=f"{MAINTAINER}, with {ELECTRICIAN}" if still else "",
        by="now" if still else "",
        source="practice" if still else "inspector",
    )


def _alarm(tank: Tank) -> Iterator[Finding]:
    if tank.alarm is None:
        if tank.kind in WITH_ALARM:
            yield _not_noted(tank, "alarm", "alarm")
        return
    weight, words, saw = ALARMS[tank.alarm]
    deeds = {
        "repair": f"Have the alarm mended. {LEAVE_SHUT}",
        "watch": "Have an alarm fitted.",
    }
    bad = weight in deeds
    yield _on(
        tank,
        "alarm",
        weight,
        f"The alarm of the {tank.name} {words}",
        saw,
        means="When it fills up or stops, nobody will know until sewage backs up."
        if bad
        else "",
        todo=deeds.get(weight, ""),
        who=ELECTRICIAN if bad else "",
        by={"repair": BEFORE_SALE, "watch": "the next pump-out"}.get(weight, ""),
        source="practice" if bad else "inspector",
    )
