"""What the two demonstration jobs must say, and what changes when one thing changes."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.findings.finding import WEIGHTS
from generator.problems import Refused
from generator.record.load import Workspace
from generator.worked import Worked, work_out

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
Change = Callable[..., Workspace]


def off_the_plan(data: dict) -> None:
    """Take out what stands on the plan, so that only the tape speaks."""
    for key in ("datum", "places", "features", "absorption_areas"):
        data.pop(key)
    for node in (data["tanks"][0], data["pipe_runs"][0]):
        node.pop("on_plan")


def words(worked: Worked) -> list[str]:
    return [answer.word for answer in worked.answers]


def weights(worked: Worked) -> dict[str, str]:
    return {finding.key: finding.weight for finding in worked.findings}


def test_gravity_system_takes_its_water_and_its_well_is_too_close(
    workspace: Workspace,
) -> None:
    worked = work_out(workspace, LARCH)
    assert words(worked)[:3] == ["none seen", "yes, with repairs", "no"]
    assert weights(worked)["absorption-area-to-private-well"] == "repair"
    assert "failed" not in weights(worked).values()


def test_mound_does_not_take_its_water(workspace: Workspace) -> None:
    worked = work_out(workspace, CATTAIL)
    assert words(worked)[:3] == ["yes", "no", "too close to call"]
    assert weights(worked)["tank-cover"] == "danger"
    assert weights(worked)["load-test"] == "failed"
    assert weights(worked)["tank-solids"] == "repair"
    sludge = [
        one.verdict
        for one in worked.results.all.values()
        if "sludge" in one.name and one.verdict != "confirm with the source"
    ]
    assert sludge == ["pump"] * 3


def test_a_condition_that_may_ask_more_is_for_the_authority(
    workspace: Workspace,
) -> None:
    """Minn. R. 4725.4450: 50 ft, and 100 ft of a sensitive well; 96 ft was taped."""
    worked = work_out(workspace, CATTAIL)
    verdict = worked.results.all["distance.absorption_area_to_private_well"].verdict
    assert verdict == "confirm with the authority"
    said = worked.answers[2].sentence
    assert "96 ft where 50 ft are asked, or 100 ft of some: ask" in said
    [finding] = [
        one for one in worked.findings if one.key == "absorption-area-to-private-well"
    ]
    assert "how deep the well is cased, which was not recorded" in finding.saw


def test_findings_stand_worst_first(workspace: Workspace) -> None:
    for job in (LARCH, CATTAIL):
        order = [WEIGHTS.index(f.weight) for f in work_out(workspace, job).findings]
        assert order == sorted(order)


def test_every_piece_of_evidence_is_a_result(workspace: Workspace) -> None:
    for job in (LARCH, CATTAIL):
        worked = work_out(workspace, job)
        for finding in worked.findings:
            for name in finding.evidence:
                assert name in worked.results.all


def test_low_tank_tested_nothing(with_job: Change) -> None:
    def low(data: dict) -> None:
        data["load_test"]["levels"] = [
            {"at": "10:02 am", "level": "5 in below"},
            {"at": "10:36 am", "level": "1/4 in above"},
            {"at": "10:47 am", "level": "at invert"},
        ]

    worked = work_out(with_job(LARCH, low), LARCH)
    assert words(worked)[1] == "not shown"
    [finding] = [f for f in worked.findings if f.key == "load-test"]
    assert "first took 112 gal to fill itself" in finding.saw


def test_long_empty_house_shows_nothing(with_job: Change) -> None:
    workspace = with_job(
        LARCH, lambda data: data["household"].update(vacant_for="3 weeks")
    )
    worked = work_out(workspace, LARCH)
    assert words(worked)[1] == "not shown"
    assert "stood empty for 3 weeks" in worked.answers[1].sentence


def test_stopped_early_shows_nothing(with_job: Change) -> None:
    def early(data: dict) -> None:
        data["load_test"]["water"][0]["to"] = "10:16 am"
        data["load_test"]["levels"] = [
            {"at": "10:02 am", "level": "at invert"},
            {"at": "10:16 am", "level": "1/2 in above"},
            {"at": "10:22 am", "level": "at invert"},
        ]
        data["load_test"]["stop_reason"] = "out of time"

    assert words(work_out(with_job(LARCH, early), LARCH))[1] == "not shown"


def test_without_limits_nothing_is_judged(with_job: Change) -> None:
    worked = work_out(with_job(LARCH, lambda d: d["load_test"].pop("limits")), LARCH)
    assert words(worked)[1] == "not shown"


def test_water_standing_in_perforated_pipe_is_a_no(with_job: Change) -> None:
    """The tank did not rise, and yet the absorption area is full.

    Common practice, no source: the camera under water there decides.
    """

    def drowned(data: dict) -> None:
        for entry in data["pipe_runs"][0]["log"]:
            if float(entry["at"].split()[0]) >= 38:
                entry["water"] = "3 in"

    worked = work_out(with_job(LARCH, drowned), LARCH)
    assert words(worked)[1] == "no"
    assert weights(worked)["outlet-pipe-standing-water"] == "failed"
    assert weights(worked)["load-test"] == "sound"


def test_settled_first_feet_are_watched_and_no_failure(workspace: Workspace) -> None:
    """Common practice, no source: the first 6 ft or so have usually settled."""
    worked = work_out(workspace, LARCH)
    assert weights(worked)["outlet-pipe-sag-1.5"] == "watch"


def test_override_wins_and_is_shown(with_job: Change) -> None:
    def override(data: dict) -> None:
        data["overrides"] = [
            {
                "finding": "tank-outlet-device",
                "weight": "watch",
                "because": "A tee was fitted while we stood there.",
            }
        ]

    worked = work_out(with_job(LARCH, override), LARCH)
    [finding] = [f for f in worked.findings if f.key == "tank-outlet-device"]
    assert (finding.weight, finding.was) == ("watch", "repair")
    assert finding.because == "A tee was fitted while we stood there."


def test_override_of_nothing_is_a_problem(with_job: Change) -> None:
    def override(data: dict) -> None:
        data["overrides"] = [
            {"finding": "tank-lid", "weight": "watch", "because": "Mended."}
        ]

    with pytest.raises(Refused) as refused:
        work_out(with_job(LARCH, override), LARCH)
    [problem] = refused.value.problems
    assert problem.field == "overrides[0].finding"
    assert problem.message == 'No finding is called "tank-lid".'


@pytest.mark.parametrize(
    ("cover", "weight"),
    [
        ("broken", "danger"),
        ("loose", "danger"),
        ("not child-proof", "danger"),
        ("buried", "watch"),
        ("sound", "sound"),
    ],
)
def test_cover(with_job: Change, cover: str, weight: str) -> None:
    """Minn. R. 7080.1500 subp. 4: an unsecured, damaged or weak cover is a threat."""
    workspace = with_job(LARCH, lambda data: data["tanks"][0].update(cover=cover))
    assert weights(work_out(workspace, LARCH))["tank-cover"] == weight


@pytest.mark.parametrize(
    ("distance", "word"),
    [
        ("101 ft", "yes"),
        ("100 ft", "too close to call"),
        ("99 ft 10 in", "too close to call"),
        ("98 ft", "no"),
    ],
)
def test_well_distance_against_100_ft(
    with_job: Change, distance: str, word: str
) -> None:
    """OAR 340-071-0220 Table 1: 100 ft; guard band of JCGM 106:2012, 8.3."""

    def moved(data: dict) -> None:
        off_the_plan(data)
        data["distances"][0].update(distance=distance)

    assert words(work_out(with_job(LARCH, moved), LARCH))[2] == word


def test_tape_and_plan_that_disagree_are_a_problem(with_job: Change) -> None:
    def moved(data: dict) -> None:
        data["distances"][0].update(distance="101 ft")

    with pytest.raises(Refused) as refused:
        work_out(with_job(LARCH, moved), LARCH)
    [problem] = refused.value.problems
    assert problem.field == "distances[0].distance"
    assert "they differ by more than both can be off" in problem.message


def test_plan_alone_answers_for_the_well(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data.pop("distances"))
    worked = work_out(workspace, LARCH)
    assert words(worked)[2] == "no"
    assert weights(worked)["absorption-area-to-private-well"] == "repair"


def test_ties_that_cannot_meet_are_a_problem(with_job: Change) -> None:
    def missed(data: dict) -> None:
        data["places"][0]["ties"] = ["A 17 ft", "B 23 ft"]

    with pytest.raises(Refused) as refused:
        work_out(with_job(LARCH, missed), LARCH)
    assert refused.value.problems[0].field.startswith("places[0].ties")
    assert "cannot meet" in refused.value.problems[0].message


@pytest.mark.parametrize(
    ("key", "word"), [("cover", "not shown"), ("structure", "none seen")]
)
def test_silence_is_never_taken_for_sound(
    with_job: Change, key: str, word: str
) -> None:
    worked = work_out(with_job(LARCH, lambda data: data["tanks"][0].pop(key)), LARCH)
    assert words(worked)[0] == word
    assert weights(worked)[f"tank-{key}-not-noted"] == "unseen"


def test_no_distance_is_not_measured(with_job: Change) -> None:
    def untaped(data: dict) -> None:
        off_the_plan(data)
        data.pop("distances")

    assert words(work_out(with_job(LARCH, untaped), LARCH))[2] == "not measured"


def test_unknown_code_is_a_problem(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data["property"].update(code="us-ore"))
    with pytest.raises(Refused) as refused:
        work_out(workspace, LARCH)
    [problem] = refused.value.problems
    assert problem.message == 'No code pack is called "us-ore".'
    assert problem.hint.startswith('Did you mean "us-or"?')


def test_no_level_after_the_water_shows_nothing(with_job: Change) -> None:
    def silent(data: dict) -> None:
        data["load_test"]["levels"] = [{"at": "10:02 am", "level": "at invert"}]

    worked = work_out(with_job(LARCH, silent), LARCH)
    assert words(worked)[1] == "not shown"
    assert worked.answers[1].sentence == (
        "125 gal were run in, and no level was read after the water stopped."
    )


def test_less_than_the_target_is_said(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data["load_test"].update(target="150 gal"))
    [test] = [f for f in work_out(workspace, LARCH).findings if f.key == "load-test"]
    assert "125 gal passed the outlet of the 150 gal that were wanted." in test.saw


def test_nobody_is_told_to_run_more_water_into_a_full_field(with_job: Change) -> None:
    def drowned(data: dict) -> None:
        data.pop("load_test")
        for entry in data["pipe_runs"][0]["log"]:
            if float(entry["at"].split()[0]) >= 38:
                entry["water"] = "3 in"

    worked = work_out(with_job(LARCH, drowned), LARCH)
    assert words(worked)[1] == "no"
    [test] = [f for f in worked.findings if f.key == "load-test"]
    assert test.todo == ""


def test_pipe_that_cannot_carry_the_flow_judges_nothing(with_job: Change) -> None:
    def narrow(data: dict) -> None:
        run = data["pipe_runs"][0]
        run.update(bore="1 in", slope="0.1 %", head="1/2 in")
        for entry in run["log"]:
            entry["water"] = "1/4 in"

    worked = work_out(with_job(LARCH, narrow), LARCH)
    assert worked.results.get("pipe.outlet pipe.expected") is None
    assert "outlet-pipe-clear" not in weights(worked)
    verdict = worked.results.all["pipe.outlet pipe.water.1"].verdict
    assert verdict == "this pipe cannot carry the test flow"


def test_two_sources_that_say_pump_make_it_due_now(with_job: Change) -> None:
    def full(data: dict) -> None:
        data["tanks"][0].update(sludge="22 in", scum="6 in")

    worked = work_out(with_job(LARCH, full), LARCH)
    assert weights(worked)["tank-solids"] == "repair"
