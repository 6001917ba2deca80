"""What is still to be recorded: its order, its words, and what a final file needs."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from generator.problems import Problem, Refused
from generator.record.check import key_paths, schema
from generator.record.draft import Draft
from generator.record.one_line import written_out
from generator.record.read import read
from generator.record.todo import Cost, Item, described
from generator.record.todo_at_the_desk import ADVICE
from generator.record.todo_on_the_lot import BAD, BAD_SIGHTS
from generator.record.todo_rules import still_open

JOBS = Path(__file__).parent.parent / "jobs"
START = """\
visit: {date: 2026-10-06, inspector: N. Example (invented)}
client: {name: A. Example (invented)}
property: {address: 1 Example Lane, place: Example Township (invented)}
"""


def draft(tmp_path: Path, text: str) -> Draft:
    path = tmp_path / "job.yaml"
    path.write_text(START + text, encoding="utf-8")
    return Draft(written_out(read(path), schema("inspection")))


def items(tmp_path: Path, text: str) -> dict[str, Item]:
    return {one.path: one for one in still_open(draft(tmp_path, text))}


@pytest.mark.parametrize("file", sorted(JOBS.glob("*/*.yaml")), ids=lambda f: f.stem)
def test_every_item_names_a_key_of_the_schema(file: Path) -> None:
    try:
        document = written_out(read(file), schema("inspection"))
    except Refused:  # a file that cannot be read has no items
        return
    known = set(key_paths("inspection")) | {"load_test", "tanks"}
    found = still_open(Draft(document))
    assert found == sorted(found, key=lambda one: one.cost)
    for one in found:
        plain = re.sub(r"\[\d+\]", "[]", one.path).removesuffix("[]")
        assert plain in known, one
        assert one.words.endswith("."), one


def test_words_of_the_rules_stand_in_the_lists_of_the_schema() -> None:
    listed: dict[str, set[str]] = {}

    def walk(node: dict[str, Any], key: str) -> None:
        listed.setdefault(key, set()).update(map(str, node.get("enum", ())))
        for name, child in node.get("properties", {}).items():
            walk(child, name)
        if "items" in node:
            walk(node["items"], key)

    walk(schema("inspection"), "")
    for key, words in BAD.items():
        assert set(words) <= listed[key], key
    assert set(BAD_SIGHTS) <= listed["see"]
    assert set(ADVICE) <= set(key_paths("inspection"))


def test_the_dearest_comes_first(tmp_path: Path) -> None:
    found = still_open(draft(tmp_path, "tanks: [{name: tank}]\n"))
    assert [one.path for one in found[:2]] == ["consent.given_by", "consent.utilities"]
    assert next(one for one in found if one.cost is Cost.TEST).path == "load_test"
    assert [one.cost for one in found] == sorted(one.cost for one in found)
    assert found[-1].cost is Cost.DESK


def test_no_level_after_the_water(tmp_path: Path) -> None:
    test = (
        "load_test:\n  water: [{from: 10:05 am, to: 10:36 am}]\n"
        "  levels:\n    - 10:02 am: at invert\n    - 10:30 am: 1/2 in above\n"
    )
    wanted = items(tmp_path, test)["load_test.levels"]
    assert wanted.needed
    assert wanted.words.startswith("A level after the water was turned off at 10:36 am")
    later = items(tmp_path, f"{test}    - 10:50 am: at invert\n")
    assert "load_test.levels" not in later


def test_a_holding_tank_has_no_solids_to_measure(tmp_path: Path) -> None:
    tank = "tanks: [{name: tank, kind: holding tank, structure: sound}]\n"
    found = items(tmp_path, tank)
    assert found["tanks[0]"].words == "Not yet noted on the tank: how full it is."


def test_compartments_are_asked_one_by_one(tmp_path: Path) -> None:
    tank = (
        "tanks:\n  - name: tank\n    compartments:\n"
        "      - {name: first, sludge: 8 in, scum: 2 in}\n      - {name: second}\n"
    )
    found = items(tmp_path, tank)
    assert "tanks[0].compartments[0]" not in found
    assert "compartment second" in found["tanks[0].compartments[1]"].words


def test_a_bad_state_wants_its_picture(tmp_path: Path) -> None:
    tank = "tanks: [{name: tank, cover: broken%s}]\n"
    assert "tanks[0].cover" in items(tmp_path, tank % "")
    assert "tanks[0].cover" not in items(tmp_path, tank % ", photo: a.jpg")


def test_an_own_finding_wants_a_deed_and_somebody(tmp_path: Path) -> None:
    finding = "findings: [{part: yard, weight: %s, title: A hole, saw: A hole.}]\n"
    assert items(tmp_path, finding % "repair")["findings[0].do"].needed
    assert "findings[0].do" not in items(tmp_path, finding % "sound")


def test_a_sign_on_the_walk_wants_its_place(tmp_path: Path) -> None:
    found = items(tmp_path, "walkover: {vehicles: yes}\n")
    assert found["walkover.vehicles"].words == "Where vehicles showed, with a picture."


def test_a_need_tells_how_to_answer_for_it(tmp_path: Path) -> None:
    found = draft(tmp_path, "")
    [water] = [one for one in still_open(found) if one.path == "load_test"]
    assert water.problem(found) == Problem(
        str(tmp_path / "job.yaml"),
        1,
        "load_test",
        "A final file still needs this: Water has not been run. Run it, or say under "
        '"not_seen" why it was not run.',
        'Record it, or say under "not_seen" (load test) why it was not possible.',
    )


def test_described_in_the_words_of_the_schema() -> None:
    assert described("load_test.water[0].to").endswith("when the water was turned off.")
