"""What is said of a pit: its room, its top, its water, and what nobody noted."""

from __future__ import annotations

from dataclasses import replace

import pytest
from record_builders import make_record
from result_builders import length, stretch

from generator.codes.packs import pack
from generator.findings.answers import answers
from generator.findings.finding import Answer, Finding
from generator.findings.judge import judge
from generator.quantity import Clock, Duration
from generator.record.cesspool import Cesspool, PitLevel
from generator.record.model import Household, OwnFinding, Record
from generator.results.compute import compute
from generator.sources import SOURCES

WATER = (stretch(600, 630),)  # 120 gal
TAKES = [(599.0, 58.0), (630.0, 54.0), (660.0, 56.0)]
NOTED = {
    "cover": "sound",
    "covers_back": "yes",
    "structure": "sound",
    "overflow": "none found",
}


def job(
    levels: list[tuple[float, float]] | None = None,
    place: str = "Nowhere",
    **changes: object,
) -> Record:
    """A house of three bedrooms, 400 gal a day, with a round pit of 6 ft."""
    readings = tuple(
        PitLevel(
            at=f"cesspool.levels[{at}]",
            time=Clock(minute, f"minute {minute:g}"),
            down=length(down),
        )
        for at, (minute, down) in enumerate(levels or [])
    )
    given: dict[str, object] = {
        "kind": "cesspool",
        "walls": "concrete rings",
        "diameter": length(72),
        "inlet_down": length(30),
        "liquid_down": length(58),
        "levels": readings,
        **NOTED,
        **changes,
    }
    pit = Cesspool(at="cesspool", **given)  # type: ignore[arg-type]
    record = make_record(bedrooms=3, cesspool=pit)
    home = replace(record.inspection.property, place=place)
    return replace(record, inspection=replace(record.inspection, property=home))


def of(record: Record, code: str | None = "us-pa") -> dict[str, Finding]:
    """Every finding of a job by its key."""
    local = pack(code) if code else None
    return {one.key: one for one in judge(record, compute(record, local), local)}


def told(*given: object, **changes: object) -> dict[str, Finding]:
    """Every finding of a job with a pit."""
    return of(job(*given, **changes))  # type: ignore[arg-type]


def water_answer(record: Record) -> Answer:
    """The second answer."""
    results = compute(record, pack("us-pa"))
    return answers(judge(record, results, pack("us-pa")), results)[1]


def test_nothing_is_said_of_no_pit() -> None:
    assert not [key for key in of(make_record()) if "cesspool" in key]


@pytest.mark.parametrize(
    ("liquid", "weight", "at_home", "water"),
    [
        (58.0, "sound", "sound", ""),  # 28 in, 494 gal: 123 %
        (39.0, "repair", "failed", ""),  # 9 in, 159 gal: 40 % of a day
        (41.3, "watch", "watch", ""),  # 11.3 in, 199 gal: 49.8 %, too close
        (34.0, "repair", "failed", ""),  # within 6 in
        (30.0, "repair", "failed", "not shown"),  # at the inlet
        (26.0, "failed", "failed", "no"),  # above it
    ],
)
def test_room(liquid: float, weight: str, at_home: str, water: str) -> None:
    for place, wanted in (("Nowhere", weight), ("Nowhere, Massachusetts", at_home)):
        found = told(place=place, liquid_down=length(liquid))["cesspool-room"]
        assert (found.weight, found.takes_water) == (wanted, water)
        assert found.source == "MA-15-303-PIT"


def test_the_words_say_whose_rule_it_is() -> None:
    away = told(liquid_down=length(34))["cesspool-room"].saw
    home = told(place="X, MA", liquid_down=length(34))["cesspool-room"].saw
    assert "Massachusetts counts a cesspool as failed with less than 6 in" in away
    assert "the local one may differ" in away
    assert "the local one may differ" not in home


def test_the_numbers_are_told() -> None:
    assert told()["cesspool-room"].saw.startswith(
        "The liquid stands 28 in below the inlet invert. The free volume above it is "
        "494 gal, 123 % of one day's design flow."
    )


def test_the_rule_fails_no_seepage_pit() -> None:
    pit = job(place="X, MA", kind="seepage pit", liquid_down=length(34))
    assert of(pit)["seepage-pit-room"].weight == "repair"


def test_without_a_design_flow_the_six_inches_still_hold() -> None:
    enough = of(job(), None)["cesspool-room"]
    short = of(job(liquid_down=length(34)), None)["cesspool-room"]
    assert (enough.weight, short.weight) == ("sound", "repair")
    assert "cannot be said" in enough.saw


@pytest.mark.parametrize(
    ("word", "weight"),
    [
        ("leaning", "danger"),
        ("collapsing", "danger"),
        ("worn", "watch"),
        ("sound", "sound"),
        ("not seen", "unseen"),
    ],
)
def test_structure(word: str, weight: str) -> None:
    found = told(structure=word)["cesspool-structure"]
    assert found.weight == weight
    if weight == "danger":
        assert "Never walk near an old pit or enter it" in found.todo
        assert (found.source, found.by) == ("MN-7080-1500", "today")


def test_cover() -> None:
    found = told(cover="broken")["cesspool-cover"]
    assert found.weight == "danger"
    assert "The air in a cesspool kills" in found.means


def test_some_codes_fail_a_pit_as_such() -> None:
    found = told()["cesspool-kind"]
    assert (found.weight, found.source) == ("watch", "PIT-CODES")
    assert found.todo.startswith("Ask the local authority")
    assert SOURCES[found.source].seen


@pytest.mark.parametrize(("down", "there"), [(29.0, True), (30.5, True), (32.0, False)])
def test_high_mark(down: float, there: bool) -> None:
    assert ("cesspool-high-mark" in told(high_mark_down=length(down))) == there


def test_overflow_not_seen() -> None:
    assert told(overflow="not seen")["cesspool-overflow"].weight == "unseen"
    assert "cesspool-overflow" not in told()


@pytest.mark.parametrize(
    "key", ["cover", "structure", "inlet_down", "liquid_down", "overflow"]
)
def test_silence(key: str) -> None:
    name = f"cesspool-{key.replace('_', '-')}-not-noted"
    assert told(**{key: None})[name].weight == "unseen"
    assert name not in told()


def test_a_cesspool_has_no_tank_to_miss() -> None:
    assert "tanks-not-noted" not in told()
    assert "tanks-not-noted" in told(kind="seepage pit")
    assert "absorption-area-below-ground-unseen" not in told()


def test_depths_that_cannot_be() -> None:
    found = told(floor_down=length(40))
    assert found["cesspool-depths"].saw.startswith(
        "As recorded, the liquid lies below the floor."
    )
    assert "cesspool-room" not in found


def test_water_taken_is_not_yet_a_pass() -> None:
    """By hand: 17.63 gal an inch; 4 in are 71 gal of 120; 2 in fell in 30 min."""
    found = told(TAKES, water=WATER)["cesspool-test"]
    assert (found.weight, found.takes_water) == ("unseen", "not shown")
    assert "120 gal (± 4) were run in." in found.saw
    assert "71 gal" in found.saw
    assert "it went on at 71 gal/h" in found.saw
    assert "No code that we read" in found.saw


def test_water_in_a_pit_speaks_in_the_place_of_a_load_test() -> None:
    assert "load-test" not in told(TAKES, water=WATER)
    assert told()["load-test"].title == "No water was run"
    assert water_answer(job(TAKES, water=WATER)).sentence.startswith("120 gal")


def test_an_empty_house_is_told() -> None:
    record = job(TAKES, water=WATER)
    home = Household(at="household", vacant_for=Duration(90 * 1440.0, "3 months"))
    lived = replace(record, inspection=replace(record.inspection, household=home))
    assert "stood empty for 3 months" in of(lived)["cesspool-test"].saw


def test_water_that_rises_above_the_inlet_is_a_failure() -> None:
    levels = [(599.0, 34.0), (630.0, 28.0)]
    record = job(levels, water=WATER, liquid_down=length(34))
    found = of(record)["cesspool-test"]
    assert (found.weight, found.takes_water) == ("failed", "no")
    assert "it stood 2 in above the inlet invert" in found.saw
    assert water_answer(record).word == "no"


def test_more_than_a_day_of_water_above_the_inlet_is_not() -> None:
    day = (stretch(600, 720),)  # 480 gal, of a day's 400
    levels = [(599.0, 58.0), (720.0, 28.0)]
    found = told(levels, water=day)["cesspool-test"]
    assert found.takes_water == "not shown"
    assert "more than one day's design flow" in found.saw


def test_water_that_only_stood_is_not_shown_to_be_taken() -> None:
    """By hand: 120 gal are 6.81 in of this pit."""
    levels = [(599.0, 58.0), (630.0, 51.2), (660.0, 51.2)]
    found = told(levels, water=WATER)["cesspool-test"]
    assert found.title.startswith("The readings do not show that the cesspool took")
    assert "no more than its readings can be off" in found.saw


def test_more_stored_than_run_in_cannot_be() -> None:
    levels = [(599.0, 58.0), (630.0, 46.0)]
    found = told(levels, water=WATER)["cesspool-test"]
    assert found.title.endswith("cannot be as they were recorded")


def test_water_without_a_level_shows_nothing() -> None:
    found = told(water=WATER)["cesspool-test"]
    assert found.title == "The water run into the cesspool shows nothing"
    assert "a level after it" in found.saw
    unread = told([(600.0, 90.0)], floor_down=length(80), water=WATER)
    assert "the liquid lies below the floor" in unread["cesspool-test"].saw


def test_the_inspector_has_the_last_word_on_a_pit() -> None:
    own = OwnFinding(
        at="findings[0]",
        part="cesspool",
        weight="sound",
        title="The cesspool takes its water",
        saw="It took the test water within the hour.",
        takes_water="yes",
    )
    record = job(TAKES, water=WATER)
    said = replace(record, inspection=replace(record.inspection, findings=(own,)))
    assert water_answer(said).word == "yes"


def test_a_pit_at_its_inlet_is_not_talked_away() -> None:
    own = OwnFinding(
        at="findings[0]",
        part="cesspool",
        weight="sound",
        title="The cesspool takes its water",
        saw="It took the test water within the hour.",
        takes_water="yes",
    )
    record = job(liquid_down=length(26))
    said = replace(record, inspection=replace(record.inspection, findings=(own,)))
    assert water_answer(said).word == "no"
