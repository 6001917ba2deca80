"""The recorded slope of a drain against the least one of its size."""

from __future__ import annotations

from dataclasses import replace

import pytest
from published import Entry, allowed, rows
from result_builders import length, make_run, sight

from generator.quantity import Slope
from generator.results.drain_slope import (
    FOR_INFORMATION,
    least_slope_in_per_ft,
    least_slope_results,
)
from generator.results.result import Result


def held(in_per_ft: float, bore: float = 4.0) -> Result:
    """Hold a recorded slope against the least one."""
    slope = Slope(in_per_ft / 12, f"{in_per_ft} in per ft")
    run = replace(make_run(sight(1.0), slope=slope), bore=length(bore))
    [found] = least_slope_results(run)
    return found


@pytest.mark.parametrize(
    ("one", "size", "least"), rows("slope-ipc", "size_in", "slope_in_per_ft")
)
def test_least_slope(one: Entry, size: float, least: float) -> None:
    """Source: Chicago Plumbing Code, Table 18-29-704.1."""
    assert least_slope_in_per_ft(size) == allowed(one, least)


@pytest.mark.parametrize(("size", "smaller"), [(2.75, 2.5), (7.0, 6.0), (12.0, 8.0)])
def test_sizes_between_take_the_smaller_one(size: float, smaller: float) -> None:
    assert least_slope_in_per_ft(size) == least_slope_in_per_ft(smaller)
    assert any("the smaller" in one for one in held(1.0, size).assumptions) is (
        size < 8.0
    )


@pytest.mark.parametrize(
    ("slope", "word"),
    [
        (0.25, "meets"),
        (0.125, "too close to call"),
        (0.11, "too close to call"),
        (0.05, "short"),
        (0.0, "short"),
    ],
)
def test_the_verdict_leaves_room_for_a_quarter_of_the_slope(
    slope: float, word: str
) -> None:
    assert held(slope).verdict == word
    assert FOR_INFORMATION in held(slope).assumptions


def test_a_slope_that_nobody_recorded_is_not_judged() -> None:
    assert least_slope_results(make_run(sight(1.0))) == []
