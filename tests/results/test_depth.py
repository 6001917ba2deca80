"""How deep a part should lie by the pitch of its pipe."""

from __future__ import annotations

from math import isfinite

import numpy as np
import pytest
from hypothesis import given
from published import Entry, allowed, entry, rows
from result_builders import PROPERTY, feet, length, number

from generator.quantity import Slope
from generator.record import amounts
from generator.record.parts import Depth
from generator.results.depth import (
    AGREES,
    CANNOT_BE,
    DEEPER,
    LEVEL_GROUND,
    PITCH_ASSUMED,
    SHALLOWER,
    SHALLOWER_TOP,
    TOP_ASSUMED,
    agreement,
    depth_below_in,
    depth_results,
    invert_depth_in,
)
from generator.results.result import Result

HALF = Slope(0.5 / 12, "1/2 in per ft")


def tank(to: str = "tank", **changes: object) -> Depth:
    """A tank 18 ft out, its sewer 22 in down at the wall."""
    given_: dict[str, object] = {
        "invert_at_wall": length(22.0),
        "run": feet(18.0),
        **changes,
    }
    return Depth(at="depths[0]", to=to, **given_)  # type: ignore[arg-type]


def one(**changes: object) -> Result:
    """The depth expected of a part that nobody probed."""
    [found] = depth_results([tank(**changes)])
    return found


def probed(inches: float, **changes: object) -> Result:
    """The difference of a part that was probed."""
    return depth_results([tank(probed=length(inches), **changes)])[1]


@pytest.mark.parametrize("case", [entry("invert-depth")])
def test_depth_is_cover_level_less_invert_level(case: Entry) -> None:
    """Source: questions and answers on drainage."""
    levels = case["inputs"]["cover"], case["inputs"]["invert"]
    assert depth_below_in(*levels) == allowed(case, case["expected"]["depth"])


@pytest.mark.parametrize(
    ("case", "pitch", "percent"), rows("slope-convert", "in_per_ft", "percent")
)
def test_pitch_in_percent(case: Entry, pitch: float, percent: float) -> None:
    """Source: general page on drain slopes; the depth falls as the percent says."""
    typed = f"{pitch} in per ft"
    assert amounts.slope(typed).ft_per_ft * 100 == allowed(case, percent)
    found = one(invert_at_wall=length(0.0), run=feet(100), pitch=amounts.slope(typed))
    assert found.value / 12 == allowed(case, percent)


@pytest.mark.parametrize(
    ("case", "pitch", "ratio"), rows("slope-convert", "in_per_ft", "ratio")
)
def test_pitch_as_a_ratio(case: Entry, pitch: float, ratio: float) -> None:
    """Source: general page on drain slopes."""
    assert invert_depth_in(0.0, ratio, pitch, 0.0) == allowed(case, 12.0)


def test_the_pipe_falls_a_quarter_inch_per_foot() -> None:
    """Common practice, no source."""
    found = one()
    assert found.value == pytest.approx(22.0 + 18 / 4)
    assert {PITCH_ASSUMED, TOP_ASSUMED, LEVEL_GROUND} <= set(found.assumptions)
    assert found.inputs == ("depths[0].invert_at_wall", "depths[0].run")
    assert found.working == "t = 22 + 0.25 × 18 - 0 × 18 - 0 = 26.5 in"


def test_ground_and_top_count() -> None:
    assert one(ground_falls=HALF).value == pytest.approx(26.5 - 9)
    assert one(ground_rises=HALF).value == pytest.approx(26.5 + 9)
    assert one(ground_rises=HALF, ground_falls=HALF).value == pytest.approx(26.5)
    found = one(top_above_invert=length(14.0), pitch=HALF)
    assert found.value == pytest.approx(22 + 9 - 14)
    assert found.inputs[-2:] == ("depths[0].pitch", "depths[0].top_above_invert")
    assert not {PITCH_ASSUMED, TOP_ASSUMED} & set(found.assumptions)


@PROPERTY
@given(number(0, 100), number(0, 500), number(0, 1), number(-1, 1))
def test_depth_against_points_on_two_lines(
    wall: float, run: float, pitch: float, ground: float
) -> None:
    """Source: numpy, both lines interpolated between the house and twice the way."""
    ends = [0.0, 2 * run + 1]
    surface = np.interp(run, ends, [0.0, -ground * ends[1]])
    pipe = np.interp(run, ends, [-wall, -wall - pitch * ends[1]])
    found = invert_depth_in(wall, run, pitch, ground)
    assert found == pytest.approx(surface - pipe, abs=1e-6)


def test_uncertainty_by_the_root_of_the_sum_of_squares() -> None:
    """Source: GUM 5.1.2 by hand: wall, pitch and run, each a rectangle."""
    parts = (0.5, 0.25 * 0.25 * 18, 0.25 * (0.25 + 0.002 * 18))
    expected = (sum(x**2 for x in parts) / 3) ** 0.5
    assert one().uncertainty == pytest.approx(expected)


def test_what_the_probe_hit_is_judged_within_two_uncertainties() -> None:
    edge = 2 * probed(26.5).uncertainty
    for inches, verdict in (
        (26.5, AGREES),
        (26.5 + edge - 1e-6, AGREES),
        (26.5 + edge + 1e-6, DEEPER),
        (26.5 - edge - 1e-6, SHALLOWER_TOP),
        (0.0, SHALLOWER_TOP),
    ):
        assert probed(inches).verdict == verdict
    assert probed(0.0, top_above_invert=length(14.0)).verdict == SHALLOWER
    assert probed(30.0).value == pytest.approx(3.5)


def test_without_uncertainty_only_the_same_depth_agrees() -> None:
    assert agreement(0.0) == AGREES
    assert agreement(1e-9) == DEEPER
    assert agreement(-1e-9) == SHALLOWER


def test_a_depth_above_the_ground_cannot_be() -> None:
    steep = Slope(1.0, "12 in per ft")
    found = depth_results([tank(ground_falls=steep, probed=length(3.0))])
    assert found[0].value < 0
    assert found[0].verdict == CANNOT_BE
    assert found[1].verdict == DEEPER
    assert one(top_above_invert=length(26.6)).verdict.startswith("at the surface")
    assert one().verdict == ""


def test_parts_of_one_name_are_told_apart() -> None:
    names = [one.name for one in depth_results([tank(), tank(), tank("Tank")])]
    assert names == [
        "depth.tank.expected",
        "depth.tank 2.expected",
        "depth.Tank 3.expected",
    ]
    clash = depth_results(
        [tank("tank 2"), tank(), tank(), tank("box é"), tank("box ü")]
    )
    assert len({one.name for one in clash}) == 5
    assert depth_results([]) == []


@pytest.mark.parametrize("size", [0.0, 1e-9, 1e9])
def test_no_figures_break_it(size: float) -> None:
    slope = Slope(size, "slope")
    found = depth_results(
        [
            tank(
                invert_at_wall=length(size),
                run=length(size),
                pitch=slope,
                ground_falls=slope,
                ground_rises=slope,
                top_above_invert=length(size),
                probed=length(size),
            )
        ]
    )
    for each in found:
        assert isfinite(each.value)
        assert isfinite(each.uncertainty)
