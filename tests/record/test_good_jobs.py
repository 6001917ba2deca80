"""Each job without a mistake loads and gives its answers; figures are held by hand.

A gallon is 231 cubic inches, and a cubic foot 1728 of them (NIST Handbook 44, C).
"""

from __future__ import annotations

import shutil
from math import pi
from pathlib import Path

import pytest

from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.worked import Worked, work_out

GOOD = Path(__file__).parent.parent / "jobs" / "good"
DEMONSTRATIONS = Path(__file__).parent.parent.parent
FIRM = "name: Example Onlot (invented)\nphone: 555-0100\n"
PHOTOS = "# photos:"
GAL = 1 / 231  # [gal/in³]
CUBIC_FOOT = 1728 / 231  # [gal/ft³]
QUESTIONS, FEWEST_SYSTEMS, FEWEST_FINAL = 5, 12, 3
CLOSE = 1e-3  # of a value; the sums below are exact, the bucket checks rounded
SYSTEMS = {
    "system-gravity-trench": {
        "tank.tank.volume": 8 * 4.5 * 4 * CUBIC_FOOT,
        "inflow.volume": 30 * 5 / 75 * 60,  # 30 min of 5 gal in 75 s
        "load_test.rise": 0.5,
        "area.trenches.bottom": 3 * 60 * 3,
        "area.loading": 400 / 540,  # design flow of three bedrooms, 25 Pa. Code 73.17
    },
    "system-bed": {
        "inflow.volume": 31_552 - 31_402,  # the meter
        "area.bed.bottom": 40 * 15,
        "area.bed.stone_space": 600 * 1 * 0.35 * CUBIC_FOOT,  # all of it empty
    },
    "system-mound-with-pump": {
        "pump.dose": pi / 4 * 48**2 * (20 - 12) * GAL,
        "pump.net_dose": pi / 4 * 48**2 * (20 - 12) * GAL - 6,
        "pump.rate": pi / 4 * 48**2 * (24 - 18) * GAL / 3,
    },
    "system-chambers": {
        "area.chambers.bottom": 2 * 75 * 3,
        "load_test.rise": 0.5 + 0.25,  # from 1/4 in below to 1/2 in above
        "inflow.flow.1": (5 + 5 / 61 * 60 + 5) / 3,
    },
    "system-cesspool": {
        "cesspool.free_space": 58 - 30,
        "cesspool.free_volume": pi / 4 * 72**2 * 28 * GAL,
        "cesspool.run_in": 20 * 4,
        "cesspool.stored": pi / 4 * 72**2 * 3.5 * GAL,
    },
    "system-seepage-pit": {
        "cesspool.free_space": 60 - 24,
        "tank.tank.gallons_per_inch": pi / 4 * 60**2 * GAL,
        "load_test.peak": 31 - 30.375,  # read down from a mark 31 in over the invert
    },
    "system-holding-tank": {
        "holding.vault.volume": 8 * 5 * 5 * CUBIC_FOOT,
        "holding.vault.share_full": 100 * 45 / 60,
        "holding.vault.free": 8 * 5 * 1.25 * CUBIC_FOOT,
    },
    "system-two-tanks-in-series": {
        "tank.all.volume": (8 + 6) * 4.5 * 4 * CUBIC_FOOT,
        "load_test.further.1": 6 * 4.5 * 0.75 / 12 * CUBIC_FOOT,
        "load_test.reached": 150 - 6 * 4.5 * 0.75 / 12 * CUBIC_FOOT,
    },
    "system-aerobic-unit": {
        "tank.trash tank.volume": 5 * 4 * 4 * CUBIC_FOOT,
        "tank.all.volume": 5 * 4 * 4 * CUBIC_FOOT + 750,
        "area.trenches.bottom": 2 * 80 * 2,
    },
    "system-shared-well": {
        "inflow.other": 12,
        "tank.tank.volume": 7.5 * 4 * 4 * CUBIC_FOOT,
        "distance.absorption_area_to_private_well": 104,
    },
    "system-second-visit-after-repair": {
        "load_test.made_up": 102 * 60 * 0.25 * GAL,  # 1/4 in below, 8 ft 6 in by 5 ft
        "load_test.reached": 120 - 102 * 60 * 0.25 * GAL,
        "load_test.recovery": 43 - 30,
    },
    "no-load-test": {
        "tank.tank.volume": 8 * 4.5 * 4 * CUBIC_FOOT,
        "design.flow": 450,  # three bedrooms, Minn. R. 7080.1860, class I
        "distance.tank_to_private_well": 63,
    },
}
WATER = {  # the second answer: does the system take the water it is given
    "system-gravity-trench": "yes, with repairs",
    "system-bed": "yes",
    "system-cesspool": "not shown",
    "system-holding-tank": "not shown",
    "system-second-visit-after-repair": "yes",
    "no-load-test": "not shown",
}


def loaded(name: str, workspace: Path) -> Record:
    """Load one good job in a workspace of its own."""
    inspections = workspace / "inspections"
    (inspections / "job").mkdir(parents=True)
    (inspections / "firm.yaml").write_text(FIRM, encoding="utf-8")
    shutil.copy(GOOD / f"{name}.yaml", inspections / "job.yaml")
    first = (GOOD / f"{name}.yaml").read_text(encoding="utf-8-sig").split("\n")[0]
    if first.startswith(PHOTOS):
        for photo in first.removeprefix(PHOTOS).split(","):
            (inspections / "job" / photo.strip()).write_bytes(b"")
    return load(Workspace(workspace), "job")


@pytest.mark.parametrize("name", sorted(file.stem for file in GOOD.glob("*.yaml")))
def test_loads(name: str, tmp_path: Path) -> None:
    record = loaded(name, tmp_path)
    assert record.job == "job"
    assert record.firm.phone == "555-0100"
    assert record.inspection.client.name == "A. Example (invented)"
    assert record.line("visit.date") >= 2


@pytest.mark.parametrize("job", Workspace(DEMONSTRATIONS).jobs())
def test_the_demonstrations_load(job: str) -> None:
    assert load(Workspace(DEMONSTRATIONS), job).inspection.demonstration


def test_a_draft_of_required_keys_holds_nothing_else(tmp_path: Path) -> None:
    inspection = loaded("draft-required-keys-only", tmp_path).inspection
    assert inspection.state == "draft"
    assert inspection.tanks == ()
    assert inspection.load_test is None


def test_line_ends_and_marks_change_nothing(tmp_path: Path) -> None:
    assert b"\r\n" in (GOOD / "crlf-lines.yaml").read_bytes()
    assert (GOOD / "byte-order-mark.yaml").read_bytes().startswith(b"\xef\xbb\xbf")
    lines = loaded("crlf-lines", tmp_path / "a").lines
    assert lines["tanks[0].sludge"] == 18
    marked = loaded("byte-order-mark", tmp_path / "b").inspection
    assert marked.visit.date.iso == "2026-10-06"


def test_hard_spaces_and_mixed_line_ends_change_nothing(tmp_path: Path) -> None:
    plain = loaded("no-final-newline", tmp_path / "a").inspection.tanks[0]
    for name in ("hard-spaces-in-amounts", "mixed-line-ends"):
        assert b"\xc2\xa0" in (raw := (GOOD / f"{name}.yaml").read_bytes()) or (
            b"\r\n" in raw and raw.count(b"\n") > raw.count(b"\r\n")
        )
        tank = loaded(name, tmp_path / name).inspection.tanks[0]
        assert tank.width is not None
        assert plain.width is not None
        assert tank.width.inches == plain.width.inches


def test_a_level_below_the_outlet_is_negative(tmp_path: Path) -> None:
    test = loaded("tank-starts-below-its-outlet", tmp_path).inspection.load_test
    assert test is not None
    assert [reading.level.inches for reading in test.levels] == [-6, -1]


def test_typographic_quotes_read(tmp_path: Path) -> None:
    tank = loaded("smart-quotes", tmp_path).inspection.tanks[0]
    assert tank.width is not None
    assert tank.sludge is not None
    assert (tank.width.inches, tank.sludge.inches) == (54, 11.5)


def test_capitals_of_a_phone_are_taken_as_listed(tmp_path: Path) -> None:
    found = loaded("capitals-of-a-phone", tmp_path).inspection
    assert found.state == "draft"
    assert (found.tanks[0].shape, found.tanks[0].cover) == ("box", "sound")
    assert found.consent is not None
    assert (found.consent.run_water, found.consent.utilities) == ("yes", "no digging")
    assert (found.places[0].side, len(found.places[0].ties)) == ("left", 2)
    [run] = found.pipe_runs
    assert (run.material, run.log[0].see) == ("PVC", "sag")
    assert run.log[0].to is not None
    [distance] = found.distances
    assert (distance.from_, distance.to) == ("tank", "private well")
    assert distance.by == "tape"


def worked(name: str, workspace: Path) -> Worked:
    """Take one good job from its file to its answers."""
    loaded(name, workspace)
    return work_out(Workspace(workspace), "job")


@pytest.mark.parametrize("name", sorted(file.stem for file in GOOD.glob("*.yaml")))
def test_every_good_job_has_five_answers(name: str, tmp_path: Path) -> None:
    answers = worked(name, tmp_path).answers
    assert len(answers) == QUESTIONS
    assert all(one.sentence.endswith(".") for one in answers)


@pytest.mark.parametrize("name", sorted(SYSTEMS))
def test_figures_by_hand(name: str, tmp_path: Path) -> None:
    results = worked(name, tmp_path).results.all
    found = {key: results[key].value for key in SYSTEMS[name]}
    assert found == pytest.approx(SYSTEMS[name], rel=CLOSE)


@pytest.mark.parametrize("name", sorted(WATER))
def test_what_is_said_of_the_water(name: str, tmp_path: Path) -> None:
    assert worked(name, tmp_path).answers[1].word == WATER[name]


def test_enough_systems_and_final_files(tmp_path: Path) -> None:
    assert len(SYSTEMS) >= FEWEST_SYSTEMS
    states = [
        loaded(name, tmp_path / name).inspection.state for name in sorted(SYSTEMS)
    ]
    assert states.count("final") >= FEWEST_FINAL


def test_a_second_visit_keeps_what_was_said_before(tmp_path: Path) -> None:
    done = loaded("system-second-visit-after-repair", tmp_path).inspection
    assert [one.number for one in done.reports] == [1, 2]
    assert done.reports[0].date.iso < done.visit.date.iso <= done.reports[1].date.iso


def test_a_listed_word_that_looks_like_a_key_begins_a_line(tmp_path: Path) -> None:
    text = (GOOD / "draft-required-keys-only.yaml").read_text(encoding="utf-8")
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    (inspections / "firm.yaml").write_text(FIRM, encoding="utf-8")
    more = "records:\n  - other: a bill for 9 ft of pipe\n"
    (inspections / "job.yaml").write_text(f"{text.rstrip()}\n{more}", encoding="utf-8")
    [paper] = load(Workspace(tmp_path), "job").inspection.records
    assert (paper.kind, paper.says) == ("other", "a bill for 9 ft of pipe")
