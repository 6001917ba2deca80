"""What is said of the walk over the lot, and how much it weighs."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from record_builders import make_record
from result_builders import feet, length, make_test, stretch

from generator.findings.finding import Finding
from generator.findings.on_walkover import QUESTIONS, walkover_findings
from generator.record.around import Sign, WalkOver
from generator.record.check import schema
from generator.record.load import Workspace
from generator.record.parts import AbsorptionArea
from generator.sources import SOURCES
from generator.worked import work_out

LARCH = "demo-larch-hollow"
Change = Callable[..., Workspace]
EVERY_NO = dict.fromkeys(QUESTIONS, "no")


def sign(key: str, where: str, photo: str | None = None) -> Sign:
    return Sign(at="walkover.signs[0]", sign=key, where=where, photo=photo)


def trench(surface: str) -> AbsorptionArea:
    return AbsorptionArea(
        at="absorption_areas[0]",
        name="old trench",
        kind="trenches",
        length=feet(60),
        width=feet(3),
        stone_depth=length(12),
        surface=surface,
    )


def judged(*signs: Sign, parts: dict | None = None, **answers: str) -> dict:
    walk = WalkOver(at="walkover", signs=signs, **answers)  # type: ignore[arg-type]
    record = make_record(walkover=walk, **(parts or {}))
    found: dict[str, Finding] = {one.key: one for one in walkover_findings(record)}
    return found


def test_every_question_of_the_schema_is_judged() -> None:
    keys = schema("inspection")["properties"]["walkover"]["properties"]
    assert list(QUESTIONS) == [key for key, one in keys.items() if "enum" in one]
    assert {one.source for one in QUESTIONS.values()} <= set(SOURCES)


@pytest.mark.parametrize(
    ("key", "weight", "water"),
    [
        ("sewage_on_ground", "danger", "no"),
        ("wet_ground", "watch", "not shown"),
        ("odor", "watch", ""),
        ("lush_growth", "watch", ""),
        ("vehicles", "repair", ""),
        ("structures", "watch", ""),
        ("trees", "watch", ""),
        ("roof_water", "repair", ""),
        ("sinking_ground", "danger", ""),
        ("backup_indoors", "repair", "not shown"),
    ],
)
def test_a_yes(key: str, weight: str, water: str) -> None:
    """Sources: Minn. R. 7080.1500 subp. 4; 310 CMR 15.303(1)(a); N.J.A.C. 7:9A."""
    found = judged(sign(key, "by the shed."), **{**EVERY_NO, key: "yes"})
    one = found[f"walk-{key.replace('_', '-')}"]
    assert (one.weight, one.takes_water) == (weight, water)
    assert one.saw.endswith(": by the shed.")
    assert all((one.means, one.todo, one.who, one.by))
    assert set(found) == {one.key, "walk"}


def test_signs_give_their_places_and_pictures() -> None:
    found = judged(
        sign("vehicles", "tracks over the trench", "tracks.jpg"),
        sign("vehicles", "a trailer", "tracks.jpg"),
        sign("trees", "a willow", "willow.jpg"),
        vehicles="yes",
    )["walk-vehicles"]
    assert found.saw.endswith(": tracks over the trench; a trailer.")
    assert found.photos == ("tracks.jpg",)


def test_a_yes_without_a_place_says_so() -> None:
    assert "Where it showed was not noted." in judged(odor="yes")["walk-odor"].saw


def test_every_no_is_told_in_one_finding() -> None:
    found = judged(**EVERY_NO, walked="the back lot")
    assert list(found) == ["walk"]
    assert found["walk"].weight == "sound"
    assert "sewage on the ground" in found["walk"].saw
    assert "Walked over: the back lot." in found["walk"].saw


def test_what_was_not_answered_is_named_and_never_sound() -> None:
    found = judged(odor="no")
    assert found["walk-not-noted"].weight == "unseen"
    assert "roof, yard or sump water" in found["walk-not-noted"].saw
    assert "smell" not in found["walk-not-noted"].saw
    assert list(judged()) == ["walk-not-noted"]
    assert list(walkover_findings(make_record())) == []


@pytest.mark.parametrize(
    ("key", "surface"),
    [
        ("sewage_on_ground", "sewage on the surface"),
        ("wet_ground", "wet"),
        ("lush_growth", "lush growth"),
    ],
)
def test_what_an_area_says_is_not_said_twice(key: str, surface: str) -> None:
    parts = {"absorption_areas": (trench(surface),)}
    name = f"walk-{key.replace('_', '-')}"
    at_the_trench = sign(key, "along the Old Trench")
    assert name not in judged(parts=parts, **{key: "yes"})
    assert name not in judged(at_the_trench, parts=parts, **{key: "yes"})
    by_the_road = sign(key, "in the ditch by the road")
    found = judged(at_the_trench, by_the_road, parts=parts, **{key: "yes"})[name]
    assert found.saw.endswith(": in the ditch by the road.")
    assert name in judged(parts={"absorption_areas": (trench("dry"),)}, **{key: "yes"})


def test_backup_may_be_a_blocked_pipe() -> None:
    """Source: N.J.A.C. 7:9A-3.4(b), which leaves blocked inside plumbing out."""
    found = judged(backup_indoors="yes")["walk-backup-indoors"]
    assert (found.weight, found.takes_water) == ("repair", "not shown")
    assert "blocked pipe" in found.means


def test_backup_with_a_system_that_takes_no_water_is_its_failure() -> None:
    """Source: 310 CMR 15.303(1)(a), backup from an overloaded or clogged field."""
    test = make_test([stretch(0, 20)], [(0, 0), (25, 8)])
    stopped = type(test)(**{**vars(test), "stop_reason": "level too high"})
    for found in (
        judged(backup_indoors="yes", sewage_on_ground="yes"),
        judged(
            backup_indoors="yes",
            parts={"absorption_areas": (trench("sewage on the surface"),)},
        ),
        judged(backup_indoors="yes", parts={"load_test": stopped}),
    ):
        one = found["walk-backup-indoors"]
        assert (one.weight, one.takes_water) == ("failed", "no")


def test_silence_on_the_walk_is_unseen(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data.pop("walkover", None))
    found = {one.key: one.weight for one in work_out(workspace, LARCH).findings}
    assert found["walkover-not-noted"] == "unseen"
    assert not [key for key in found if key.startswith("walk-")]


def test_sewage_on_the_walk_answers_both_questions(with_job: Change) -> None:
    workspace = with_job(
        LARCH,
        lambda data: data.update(walkover={"sewage_on_ground": "yes", "odor": "no"}),
    )
    worked = work_out(workspace, LARCH)
    assert [one.word for one in worked.answers][:2] == ["yes", "no"]
    assert worked.findings[0].key == "walk-sewage-on-ground"
    assert "walkover-not-noted" not in {one.key for one in worked.findings}


@pytest.mark.parametrize("sign", ["wet_ground", "odor"])
def test_signs_beside_sewage_in_the_open_wait_for_nothing_of_their_own(
    with_job: Change, sign: str
) -> None:
    def both(data: dict) -> None:
        data["walkover"].update({sign: "yes", "sewage_on_ground": "yes"})

    worked = work_out(with_job(LARCH, both), LARCH)
    found = {one.key: one for one in worked.findings}[f"walk-{sign.replace('_', '-')}"]
    assert (found.todo, found.who, found.by) == ("", "", "")
    assert "most likely" in found.means
