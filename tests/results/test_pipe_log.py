"""What the camera saw against the depth that the test flow explains."""

from __future__ import annotations

from dataclasses import replace
from math import isfinite

import pytest
from result_builders import feet, make_run, sight
from uncertainties import ufloat

from generator.quantity import Length, Number, Slope
from generator.record.pipes import LogEntry, PipeRun
from generator.results.measured import (
    CAMERA_WATER_IN,
    ROUGHNESS_N,
    SLOPE,
    measured,
)
from generator.results.pipe_flow import normal_depth_in
from generator.results.pipe_flow_results import SLOPE_ASSUMED
from generator.results.pipe_log import SLOPE_OF_PRACTICE, look, pipe_results
from generator.results.pipe_log_results import NEARER_COUNTS
from generator.results.result import Result
from generator.results.roughness import ROUGHNESS

FLOW = ufloat(4.0, 0.1)
EIGHTH = Slope(0.125 / 12, "1/8 in per ft")


def deeper(*depths: float, **changes: object) -> list[bool]:
    """Tell for sights 10 ft apart whether each is deeper than explained."""
    log = (sight(10.0 * i, water_in=x) for i, x in enumerate(depths, 1))
    return [one.deeper for one in look(make_run(*log, **changes), FLOW).sights]


def results_of(run: PipeRun, flow: object = FLOW) -> dict[str, Result]:
    """List the results of a run by name."""
    found = pipe_results(look(run, flow), flow, "load_test.water")
    assert len({one.name for one in found}) == len(found)
    return {one.name: one for one in found}


def of_material(at_ft: float, material: str, **changes: object) -> LogEntry:
    """A joint at which the material changes."""
    return replace(sight(at_ft, "joint"), material=material, **changes)


@pytest.mark.parametrize("material", ["PVC", "clay", "bituminized fiber", None])
@pytest.mark.parametrize("slope", [None, EIGHTH])
def test_expected_depth_is_the_normal_depth(
    material: str | None, slope: Slope | None
) -> None:
    """Source: the normal depth, which test_pipe_flow holds against scipy."""
    fall = slope.ft_per_ft if slope else SLOPE_OF_PRACTICE
    n = ROUGHNESS[material or "unknown"][0]
    run = make_run(sight(1.0), material=material, slope=slope)
    found = look(run, FLOW).expected_in
    assert found.n == pytest.approx(normal_depth_in(4.0, 4.0, fall, n))
    assumed = pipe_results(look(run, FLOW), FLOW, "water")[0].assumptions
    assert (SLOPE_ASSUMED in assumed) is (slope is None)


def test_uncertainty_of_the_expected_depth_by_small_steps() -> None:
    """Source: central differences of the normal depth, root of the sum of squares."""
    fall = measured(SLOPE_OF_PRACTICE, SLOPE)
    n = measured(0.010, ROUGHNESS_N)
    variance = 0.0
    for place, one in enumerate((FLOW, fall, n)):
        ends = []
        for side in (1, -1):
            given = [FLOW.n, fall.n, n.n]
            given[place] += side * 1e-4 * one.n
            ends.append(normal_depth_in(given[0], 4.0, given[1], given[2]))
        variance += ((ends[0] - ends[1]) / (2e-4 * one.n) * one.s) ** 2
    found = look(make_run(sight(1.0)), FLOW).expected_in
    assert found.s == pytest.approx(variance**0.5, rel=1e-3)


def test_no_depth_is_expected_without_water_or_flow() -> None:
    assert look(make_run(sight(1.0), water_on="no"), FLOW).expected_in is None
    assert look(make_run(sight(1.0)), None).expected_in is None


def test_the_guard_band_of_both_depths_counts() -> None:
    inside = look(make_run(sight(1.0)), FLOW)
    seen = measured(0.5, CAMERA_WATER_IN)
    edge = inside.expected_in.n + 2 * (inside.expected_in.s**2 + seen.s**2) ** 0.5
    assert deeper(edge - 1e-6, edge + 1e-6) == [False, True]
    assert deeper(0.0, inside.expected_in.n, 3.9) == [False, False, True]


def test_without_flow_any_sure_water_stands() -> None:
    edge = 2 * measured(0.0, CAMERA_WATER_IN).s
    found = deeper(0.0, edge - 1e-6, edge + 1e-6, water_on="no")
    assert found == [False, False, True]


def test_a_camera_under_water_is_deeper_whatever_was_read() -> None:
    run = make_run(sight(5.0, "camera under water", 0.0))
    assert look(run, FLOW).sights[0].deeper


@pytest.mark.parametrize(
    ("log", "unseen"),
    [
        ([sight(30.0)], 20.0),
        ([sight(50.0)], 0.0),
        ([sight(55.0)], 0.0),
        ([sight(30.0, "end")], 20.0),
    ],
)
def test_what_was_not_seen(log: list, unseen: float) -> None:
    inside = look(make_run(*log), FLOW)
    assert inside.unseen_ft == pytest.approx(unseen)


def test_length_not_known() -> None:
    inside = look(make_run(sight(30.0), length=None), FLOW)
    assert inside.unseen_ft is None
    assert not [name for name in results_of(inside.run) if "unseen" in name]


def test_the_share_not_seen_stands_beside_the_feet() -> None:
    found = results_of(make_run(sight(30.0)))
    assert found["pipe.outlet pipe.unseen_share"].value == pytest.approx(40.0)
    none = results_of(make_run(sight(0.0), length=feet(0.0)))
    assert "pipe.outlet pipe.unseen_share" not in none


def test_the_first_perforation_of_log_and_record() -> None:
    log = (sight(20.0, "perforations"), sight(12.0, "perforations"))
    assert look(make_run(*log), FLOW).perforated_ft == 12.0
    assert look(make_run(*log, perforated_from=feet(8.0)), FLOW).perforated_ft == 8.0
    assert look(make_run(sight(1.0)), FLOW).perforated_ft is None


@pytest.mark.parametrize(("told", "says"), [(8.0, True), (30.0, True), (12.0, False)])
def test_two_first_perforations_that_differ_are_told(told: float, says: bool) -> None:
    run = make_run(sight(12.0, "perforations"), perforated_from=feet(told))
    found = results_of(run)["pipe.outlet pipe.perforated_from"]
    assert found.value == min(told, 12.0)
    assert (NEARER_COUNTS in found.assumptions) is says


def test_results_say_what_explains_the_water() -> None:
    run = make_run(sight(5.0, water_in=0.4), sight(9.0, water_in=3.0))
    found = pipe_results(look(run, FLOW), FLOW, "load_test.water")
    assert [one.verdict for one in found if ".water." in one.name] == [
        "as the flow explains",
        "deeper than the flow explains",
    ]
    dry = pipe_results(look(make_run(*run.log, water_on="no"), FLOW), FLOW, "")
    assert [one.verdict for one in dry if ".water." in one.name] == ["standing"] * 2


def test_velocity_capacity_and_share_of_the_test_flow() -> None:
    """Source: 100 Q over Q of the full pipe, which test_pipe_capacity checks."""
    found = results_of(make_run(sight(1.0)))
    key = "pipe.outlet pipe"
    assert found[f"{key}.capacity"].value == pytest.approx(160.3, abs=0.05)
    assert found[f"{key}.capacity_share"].value == pytest.approx(400 / 160.3, rel=1e-3)
    assert found[f"{key}.velocity"].value == pytest.approx(1.732, rel=0.005)
    assert found[f"{key}.velocity"].uncertainty > 0
    still = results_of(make_run(sight(1.0), water_on="no"))
    assert f"{key}.capacity" in still
    assert not {f"{key}.velocity", f"{key}.capacity_share"} & set(still)


def test_materials_by_their_lengths() -> None:
    run = make_run(
        sight(0.0), of_material(22.0, "clay"), sight(36.0), material="cast iron"
    )
    found = results_of(run)
    lengths = [
        (one.label.split(" seen")[0], one.value)
        for name, one in found.items()
        if ".material." in name
    ]
    assert lengths == [("Length of cast iron", 22.0), ("Length of clay", 14.0)]


def test_each_sight_has_the_depth_of_its_own_material() -> None:
    run = make_run(sight(5.0), of_material(20.0, "clay"), sight(30.0, water_in=0.5))
    inside = look(run, FLOW)
    smooth, rough = (one.expected_in.n for one in inside.reaches)
    assert smooth == pytest.approx(normal_depth_in(4.0, 4.0, SLOPE_OF_PRACTICE, 0.010))
    assert rough == pytest.approx(normal_depth_in(4.0, 4.0, SLOPE_OF_PRACTICE, 0.013))
    assert inside.sights[0].reach is inside.reaches[1]
    found = results_of(run)
    assert found["pipe.outlet pipe.expected"].value == smooth
    assert found["pipe.outlet pipe.expected.2"].value == rough


def test_a_roughness_of_the_job_holds_for_every_material() -> None:
    own = Number(0.012, "0.012")
    run = make_run(sight(5.0), of_material(20.0, "clay"), roughness=own)
    found = results_of(run)
    assert "pipe.outlet pipe.expected.2" not in found
    one = found["pipe.outlet pipe.expected"]
    assert "pipe_runs[0].roughness" in one.inputs
    assert "pipe_runs[0].roughness_from" not in one.inputs
    assert any("the inspector, who names no source" in said for said in one.assumptions)


def test_the_last_material_named_at_one_place_counts() -> None:
    run = make_run(of_material(10.0, "clay"), of_material(10.0, "HDPE"), sight(20.0))
    assert [one.material for one in look(run, FLOW).reaches] == ["PVC", "HDPE"]


def test_a_pipe_that_cannot_carry_the_flow_is_not_judged() -> None:
    run = make_run(sight(5.0, water_in=3.9), sight(8.0, "camera under water"))
    inside = look(run, 400.0)
    assert inside.overloaded
    assert inside.expected_in is None
    assert [one.kind for one in inside.waters] == ["flow"]
    found = results_of(run, 400.0)
    assert found["pipe.outlet pipe.water.1"].verdict == (
        "this pipe cannot carry the test flow"
    )
    assert found["pipe.outlet pipe.capacity_share"].value > 100


def test_water_backed_up_by_rougher_pipe_beyond_is_not_judged() -> None:
    flow = 150.0  # PVC carries it, clay does not
    run = make_run(sight(5.0, water_in=3.9), of_material(20.0, "clay"))
    inside = look(run, flow)
    assert [one.overloaded for one in inside.reaches] == [False, True]
    assert not inside.sights[0].deeper
    verdict = results_of(run, flow)["pipe.outlet pipe.water.1"].verdict
    assert verdict == "this pipe cannot carry the test flow"


@pytest.mark.parametrize("flow", [0.0, ufloat(0.0, 0.1), 1e-6, 1e9])
@pytest.mark.parametrize("bore", [1e-3, 4.0, 1e4])
@pytest.mark.parametrize("slope", [0.0, -0.02, 1e-9, 10.0])
@pytest.mark.parametrize("log", [(sight(0.0),), (sight(3.0, "end"),) * 2])
def test_no_figures_break_it(
    flow: object, bore: float, slope: float, log: tuple[LogEntry, ...]
) -> None:
    run = replace(
        make_run(*log, slope=Slope(slope, "slope")), bore=Length(bore, "bore")
    )
    for one in results_of(run, flow).values():
        assert isfinite(one.value)
        assert isfinite(one.uncertainty)
        assert one.working is not None
