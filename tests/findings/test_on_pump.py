"""What is said of a pump chamber, and how much it weighs."""

from __future__ import annotations

import pytest
from record_builders import make_record
from result_builders import length

from generator.codes.packs import pack
from generator.findings.finding import Finding
from generator.findings.on_pump import pump_findings
from generator.quantity import Duration, Volume
from generator.record.parts import Drawdown, PumpChamber
from generator.results.pump_chamber import pump_results
from generator.results.result import Results


def judged(**changes: object) -> dict[str, Finding]:
    """Judge a box of 10 gal in an inch, of a house of 400 gal a day."""
    given: dict[str, object] = {
        "shape": "box",
        "length": length(77),
        "width": length(30),
        "pump_off": length(12),
        "pump_on": length(20),
        "alarm_on": length(24),
        "inlet": length(42),
        **changes,
    }
    chamber = PumpChamber(at="pump_chamber", **given)  # type: ignore[arg-type]
    record = make_record(bedrooms=3, pump_chamber=chamber)
    results = Results()
    results.add(pump_results(record, pack("us-pa")))
    return {one.key: one for one in pump_findings(record, results)}


def down(from_in: float, to_in: float, minutes: float = 6.0) -> Drawdown:
    """A drawdown."""
    time = Duration(minutes, f"{minutes:g} min")
    return Drawdown(
        at="pump_chamber.drawdown", from_=length(from_in), to=length(to_in), time=time
    )


def test_nothing_is_said_of_nothing() -> None:
    assert list(pump_findings(make_record(), Results())) == []
    assert judged() == {}


@pytest.mark.parametrize(
    ("word", "weight", "water"),
    [
        ("does not run", "failed", "no"),
        ("not tried", "unseen", ""),
        ("runs", "sound", ""),
    ],
)
def test_pump(word: str, weight: str, water: str) -> None:
    found = judged(pump=word)["pump-chamber-pump"]
    assert (found.weight, found.takes_water) == (weight, water)


@pytest.mark.parametrize(
    ("word", "weight"),
    [
        ("silent", "repair"),
        ("none", "watch"),
        ("not tried", "unseen"),
        ("sounds", "sound"),
    ],
)
def test_alarm(word: str, weight: str) -> None:
    found = judged(alarm=word)["pump-chamber-alarm"]
    assert found.weight == weight
    if word in ("silent", "none"):
        assert found.who == "a licensed electrician"
    if word == "silent":
        assert "Nobody else opens the panel" in found.todo


def test_the_room_above_the_alarm_is_told() -> None:
    """By hand: 18 in of 10 gal are 180 gal, 10.8 hours of 400 gal a day."""
    saw = judged(alarm="sounds")["pump-chamber-alarm"].saw
    assert saw.endswith(
        "From the alarm up to the inlet 180 gal fit, "
        "which is 10.8 h of the design flow."
    )


@pytest.mark.parametrize(
    ("drawdown", "weight", "water"),
    [
        (down(24, 18), "sound", ""),
        (down(24, 24), "failed", "no"),
        (down(24, 23.9), "unseen", ""),
    ],
)
def test_a_pump_that_runs_must_move_water(
    drawdown: Drawdown, weight: str, water: str
) -> None:
    found = judged(pump="runs", drawdown=drawdown)["pump-chamber-pump"]
    assert (found.weight, found.takes_water) == (weight, water)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"pump_off": length(30)}, "pump on is not above pump off"),
        ({"inlet": length(10)}, "inlet is not above alarm on"),
        ({"drawdown": down(18, 24)}, "the drawdown ends higher than it began"),
        ({"drain_back": Volume(90.0, "90 gal")}, "no less water runs back"),
    ],
)
def test_heights_that_cannot_be(changes: dict[str, object], words: str) -> None:
    found = judged(**changes)["pump-chamber-floats"]
    assert found.weight == "unseen"
    assert words in found.saw


def test_covers_are_judged_like_those_of_a_tank() -> None:
    loose = judged(cover="loose")["pump-chamber-cover"]
    assert loose.weight == "danger"
    assert "lean into the chamber" in loose.todo
    assert judged(cover="sound")["pump-chamber-cover"].weight == "sound"
    assert judged(covers_back="no")["pump-chamber-covers-back"].weight == "danger"
