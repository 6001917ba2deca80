"""Rules on the pump chamber: pump, alarm, floats, rate and cover."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.finding import Finding, noted
from generator.findings.on_covers import cover_findings
from generator.record.model import Record
from generator.record.parts import PumpChamber
from generator.results.guard_band import MEETS, SHORT, hold
from generator.results.pump_inside import Chamber
from generator.results.result import Result, Results
from generator.results.rounding import said

PART = "pump chamber"
ELECTRICIAN = "a licensed electrician"
LEAVE_SHUT = "Nobody else opens the panel or touches a wire."
BEFORE_SALE = "before the sale closes"
USED_UP = " The liquid stood above the alarm on the day, so that room was used up."


def pump_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge the pump chamber, where the record has one."""
    chamber = record.inspection.pump_chamber
    if chamber is None:
        return
    photos = (chamber.photo,) if chamber.photo else ()
    yield from cover_findings(
        PART, chamber.cover, chamber.covers_back, photos, vessel="chamber"
    )
    yield from _pump(chamber, results)
    yield from _alarm(chamber, results)
    yield from _order(chamber, results)


def _pump(chamber: PumpChamber, results: Results) -> Iterator[Finding]:
    rate = results.get("pump.rate")
    if chamber.pump == "does not run":
        yield _stuck("The pump does not run", "The pump was tried and did not run.")
    elif chamber.pump == "not tried":
        yield _unseen("pump", "The pump was not tried", "Nobody saw it run.")
    elif rate is not None and rate.value <= 0:
        yield _stuck(
            "The pump moves no water",
            "The pump ran by hand, and the level in the chamber did not fall.",
        )
    elif rate is not None and hold(rate.number, 0.0, least=True) != MEETS:
        yield _unseen(
            "pump",
            "The drawdown does not show that the pump moves water",
            "The level fell by no more than its readings can be off.",
        )
    elif rate is not None and _slower(rate, results):
        yield _slow(chamber, rate, results)
    elif chamber.pump == "runs":
        moves = f" It moves {said(rate.number, 'gpm')}." if rate else ""
        yield Finding(
            key="pump-chamber-pump",
            part=PART,
            weight="sound",
            title="The pump runs",
            saw=f"The pump ran when it was tried.{moves}{noted(chamber.note)}",
            evidence=("pump.rate",) if rate else (),
        )


def _brought(results: Results) -> Result | None:
    """Give the largest flow of the test water."""
    flows = results.under("inflow.flow.")
    return max(flows, key=lambda one: one.value, default=None)


def _slower(rate: Result, results: Results) -> bool:
    brought = _brought(results)
    if brought is None:
        return False
    return hold(rate.number - brought.number, 0.0, least=True) == SHORT


def _slow(chamber: PumpChamber, rate: Result, results: Results) -> Finding:
    brought = _brought(results)
    assert brought is not None  # _slower asked
    return Finding(
        key="pump-chamber-pump",
        part=PART,
        weight="repair",
        title="The pump moves less water than the test brought",
        saw=f"The pump ran and moved {said(rate.number, 'gpm')}"
        f"{_meanwhile(chamber)}; the test water came at "
        f"{said(brought.number, 'gpm')}.{noted(chamber.note)}",
        means="The pump is worn or blocked, or what it pumps into does not take it.",
        todo=f"Have the pump and the pipe beyond it looked at. {LEAVE_SHUT}",
        who=f"{ELECTRICIAN}, with a licensed septic contractor",
        by=BEFORE_SALE,
        evidence=("pump.rate", brought.name),
        source="practice",
    )


def _meanwhile(chamber: PumpChamber) -> str:
    down = chamber.drawdown
    told = down is not None and down.inflow is not None
    return "" if told else ", less whatever ran in or back meanwhile"


def _stuck(title: str, saw: str) -> Finding:
    return Finding(
        key="pump-chamber-pump",
        part=PART,
        weight="failed",
        title=title,
        saw=saw,
        means="Sewage fills the chamber, and then backs up or spills.",
        todo="Use as little water as can be. Have the pump, its floats and its supply "
        f"looked at. {LEAVE_SHUT}",
        who=f"{ELECTRICIAN}, with a licensed septic contractor",
        by="now",
        source="practice",
        takes_water="no",
    )


def _unseen(key: str, title: str, saw: str) -> Finding:
    return Finding(
        key=f"pump-chamber-{key}", part=PART, weight="unseen", title=title, saw=saw
    )


def _alarm(chamber: PumpChamber, results: Results) -> Iterator[Finding]:
    if chamber.alarm == "silent":
        yield Finding(
            key="pump-chamber-alarm",
            part=PART,
            weight="repair",
            title="The high-water alarm stays silent",
            saw="The alarm was tried and gave no sound." + _room(chamber, results),
            means="When the pump stops, nobody will know until sewage backs up.",
            todo=f"Have the alarm mended. {LEAVE_SHUT}",
            who=ELECTRICIAN,
            by=BEFORE_SALE,
            evidence=_reserve(results),
            source="practice",
        )
    elif chamber.alarm == "none":
        yield Finding(
            key="pump-chamber-alarm",
            part=PART,
            weight="watch",
            title="The pump chamber has no alarm",
            saw="No high-water alarm was found." + _room(chamber, results),
            means="When the pump stops, nobody will know until sewage backs up.",
            todo="Have a high-water alarm fitted.",
            who=ELECTRICIAN,
            by="the next work on the pump",
            evidence=_reserve(results),
            source="practice",
        )
    elif chamber.alarm == "not tried":
        yield _unseen(
            "alarm", "The high-water alarm was not tried", "Nobody heard it sound."
        )
    elif chamber.alarm == "sounds":
        yield Finding(
            key="pump-chamber-alarm",
            part=PART,
            weight="sound",
            title="The high-water alarm sounds",
            saw="The alarm sounded when it was tried." + _room(chamber, results),
            evidence=_reserve(results),
        )


def _reserve(results: Results) -> tuple[str, ...]:
    names = ("pump.reserve", "pump.reserve_hours")
    return tuple(name for name in names if results.get(name))


def _room(chamber: PumpChamber, results: Results) -> str:
    gallons = results.get("pump.reserve")
    hours = results.get("pump.reserve_hours")
    if gallons is None:
        return ""
    words = f" From the alarm up to the inlet {said(gallons.number, 'gal')} fit"
    used = USED_UP if _above_the_alarm(chamber) else ""
    if hours is None:
        return f"{words}.{used}"
    flow = hours.label.rpartition(" at the ")[2]
    return f"{words}, which is {said(hours.number, 'h')} of the {flow}.{used}"


def _above_the_alarm(chamber: PumpChamber) -> bool:
    """Tell whether the liquid stood above the alarm when it was read."""
    down, alarm = chamber.drawdown, chamber.alarm_on
    if down is None or alarm is None:
        return False
    higher = down.from_.inches - alarm.inches
    return higher < 0 if chamber.read_from == "top" else higher > 0


def _order(chamber: PumpChamber, results: Results) -> Iterator[Finding]:
    wrong = [*Chamber.of(chamber).wrong()]
    down, net = chamber.drawdown, results.get("pump.net_dose")
    if net is not None and net.value <= 0:
        wrong.append("no less water runs back than the pump moves in a dose")
    if down is not None:
        fell = down.from_.inches - down.to.inches
        rose = fell > 0 if chamber.read_from == "top" else fell < 0
        if rose and results.get("pump.rate") is None:
            wrong.append("the drawdown ends higher than it began")
    if wrong:
        yield _unseen(
            "floats",
            "The heights in the pump chamber cannot be as they were recorded",
            f"As recorded, {'; '.join(wrong)}. What follows from them was left out.",
        )
