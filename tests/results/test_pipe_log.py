"""What the camera saw against the depth that the test flow explains."""

from __future__ import annotations

import pytest
from result_builders import feet, make_run, sight
from uncertainties import ufloat

from generator.quantity import Slope
from generator.results.measured import CAMERA_WATER_IN, SLOPE, measured
from generator.results.pipe_flow import ROUGHNESS, normal_depth_in
from generator.results.pipe_log import (
    ROUGHNESS_METHOD,
    SLOPE_ASSUMED,
    SLOPE_OF_PRACTICE,
    look,
    pipe_results,
)

FLOW = ufloat(4.0, 0.1)
EIGHTH = Slope(0.125 / 12, "1/8 in per ft")


def deeper(*depths: float, **changes: object) -> list[bool]:
    """Tell for sights 10 ft apart whether each is deeper than explained."""
    log = (sight(10.0 * i, water_in=x) for i, x in enumerate(depths, 1))
    return [one.deeper for one in look(make_run(*log, **changes), FLOW).sights]


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
    n = measured(0.010, ROUGHNESS_METHOD)
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


def test_water_that_clears_is_a_sag_and_water_that_lasts_stands() -> None:
    log = [sight(x, water_in=w) for x, w in ((5, 2.0), (10, 0.4), (15, 2.0), (20, 3.0))]
    inside = look(make_run(*log), FLOW)
    assert [one.entry.distance.feet for one in inside.sags] == [5]
    assert [one.entry.distance.feet for one in inside.standing] == [15, 20]


def test_a_logged_sag_never_stands() -> None:
    inside = look(make_run(sight(5, water_in=3.0), sight(9, "sag", 3.0)), FLOW)
    assert inside.standing == ()
    assert len(inside.sags) == 2


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
    names = [one.name for one in pipe_results(inside, FLOW, "water")]
    assert names == ["pipe.outlet pipe.expected"]


def test_the_first_perforation_of_log_and_record() -> None:
    log = (sight(20.0, "perforations"), sight(12.0, "perforations"))
    assert look(make_run(*log), FLOW).perforated_ft == 12.0
    assert look(make_run(*log, perforated_from=feet(8.0)), FLOW).perforated_ft == 8.0
    assert look(make_run(sight(1.0)), FLOW).perforated_ft is None


def test_results_say_what_explains_the_water() -> None:
    run = make_run(sight(5.0, water_in=0.4), sight(9.0, water_in=3.0))
    found = pipe_results(look(run, FLOW), FLOW, "load_test.water")
    assert [one.verdict for one in found if ".water." in one.name] == [
        "as the flow explains",
        "deeper than the flow explains",
    ]
    dry = pipe_results(look(make_run(*run.log, water_on="no"), FLOW), FLOW, "")
    assert [one.verdict for one in dry if ".water." in one.name] == ["standing"] * 2
