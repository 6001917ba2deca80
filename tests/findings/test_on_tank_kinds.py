"""What is said of holding tanks, aerobic units and alarms, and what is not said."""

from __future__ import annotations

import pytest
from record_builders import make_record
from result_builders import length, make_test, stretch

from generator.codes.packs import pack
from generator.findings.answers import answers
from generator.findings.finding import Finding
from generator.findings.judge import judge
from generator.quantity import Length
from generator.record.parts import HOLDING_TANK, AbsorptionArea, Tank
from generator.results.compute import compute


def make_tank(kind: str | None = HOLDING_TANK, **changes: object) -> Tank:
    """A box that is full at 50 in."""
    given: dict[str, object] = {
        "name": "tank",
        "kind": kind,
        "shape": "box",
        "length": length(96),
        "width": length(77),
        "liquid_depth": length(50),
        **changes,
    }
    return Tank(at="tanks[0]", **given)  # type: ignore[arg-type]


def judged(tank: Tank, **parts: object) -> dict[str, Finding]:
    """Judge a house of three bedrooms with one tank."""
    record = make_record(bedrooms=3, tanks=(tank,), **parts)
    local = pack("us-pa")
    return {
        one.key: one for one in judge(record, compute(record, local), local) if one.key
    }


@pytest.mark.parametrize(
    ("now", "weight", "water"),
    [
        (20.0, "sound", ""),
        (40.0, "watch", ""),
        (44.0, "repair", ""),
        (50.0, "repair", ""),
        (52.0, "failed", "no"),
    ],
)
def test_how_full(now: float, weight: str, water: str) -> None:
    found = judged(make_tank(liquid_now=length(now)))["tank-full"]
    assert (found.weight, found.takes_water) == (weight, water)
    assert ("New Hampshire" in found.saw) == (weight != "failed")


def test_the_room_is_told() -> None:
    """By hand: 32 gal an inch; 30 in are free, 960 gal, 2.4 days of 400 gal."""
    saw = judged(make_tank(liquid_now=length(20)))["tank-full"].saw
    assert "It is 40 % full, and 960 gal still fit." in saw
    assert "2.4 days at the design flow" in saw


def test_a_holding_tank_is_not_asked_for_an_outlet() -> None:
    layers: dict[str, Length] = {"sludge": length(20), "scum": length(9)}
    marks = {"high_mark": length(4), "outlet_device_state": "missing"}
    found = judged(make_tank(liquid_now=length(20), **layers, **marks))
    for key in (
        "tank-solids",
        "tank-high-mark",
        "tank-outlet-device",
        "tank-outlet-device-not-noted",
        "tank-inlet-device-not-noted",
        "absorption-area-below-ground-unseen",
    ):
        assert key not in found
    assert {"tank-structure-not-noted", "tank-cover-not-noted"} <= set(found)


def test_a_septic_tank_is_still_asked() -> None:
    found = judged(make_tank(None, high_mark=length(4)))
    assert {
        "tank-solids",
        "tank-high-mark",
        "tank-outlet-device-not-noted",
        "absorption-area-below-ground-unseen",
    } <= set(found)
    assert not {"tank-alarm-not-noted", "tank-aerator-not-noted"} & set(found)


def test_no_load_test_is_asked_of_a_holding_tank() -> None:
    found = judged(make_tank(liquid_now=length(20)))["load-test"]
    assert found.takes_water == "not shown"
    assert found.title == "A holding tank has no outlet for a load test to show"
    assert not found.todo


def test_a_load_test_of_a_holding_tank_shows_nothing() -> None:
    test = make_test([stretch(600, 630)], [(599, 0), (630, 9)])
    area = AbsorptionArea(at="absorption_areas[0]", name="bed", kind="bed")
    found = judged(make_tank(), load_test=test, absorption_areas=(area,))
    assert found["load-test"].title.startswith("A holding tank has no outlet")


def test_a_house_with_an_area_beyond_still_wants_its_load_test() -> None:
    area = AbsorptionArea(at="absorption_areas[0]", name="bed", kind="bed")
    found = judged(make_tank(), absorption_areas=(area,))
    assert found["load-test"].title == "No water was run"
    assert "absorption-area-below-ground-unseen" in found


def test_a_full_holding_tank_answers_no() -> None:
    record = make_record(tanks=(make_tank(liquid_now=length(55)),))
    results = compute(record, None)
    answer = answers(judge(record, results, None), results)[1]
    assert (answer.word, answer.sentence) == ("no", "The tank is full.")


@pytest.mark.parametrize("kind", [HOLDING_TANK, "aerobic unit", "pump tank"])
def test_silence_on_what_this_kind_has(kind: str) -> None:
    found = judged(make_tank(kind))
    assert "tank-alarm-not-noted" in found
    assert ("tank-aerator-not-noted" in found) == (kind == "aerobic unit")
    assert ("tank-liquid-now-not-noted" in found) == (kind == HOLDING_TANK)


@pytest.mark.parametrize(
    ("word", "weight"),
    [("does not run", "repair"), ("not tried", "unseen"), ("runs", "sound")],
)
def test_aerator(word: str, weight: str) -> None:
    found = judged(make_tank("aerobic unit", aerator=word))["tank-aerator"]
    assert found.weight == weight
    assert ("electrician" in found.who) == (weight == "repair")


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
    found = judged(make_tank("aerobic unit", alarm=word))["tank-alarm"]
    assert found.weight == weight
    assert bool(found.todo) == (weight in ("repair", "watch"))
