"""Velocity and capacity of a pipe against fluids and scipy."""

from __future__ import annotations

import pytest
from fluids import geometry, open_flow
from hypothesis import given
from published import Entry, allowed, values
from result_builders import PROPERTY, number
from scipy.optimize import brentq
from uncertainties import ufloat

from generator.quantity import GALLONS_PER_CUBIC_FOOT
from generator.results.pipe_capacity import (
    capacity_gpm,
    expected_velocity_fps,
    normal_velocity_fps,
)
from generator.results.pipe_flow import full_flow_gpm, normal_depth_in

M3S = 0.3048**3 / 60 / GALLONS_PER_CUBIC_FOOT  # in one gallon a minute
INCH_M = 0.0254
SLOPE = 1 / 48


def speed_and_flow(
    depth: float, bore: float, slope: float, n: float
) -> tuple[float, float]:
    """Speed and flow by fluids alone. [m], [m/s], [m³/s]"""
    area = geometry.A_partial_circle(D=bore, h=depth)
    wall = geometry.SA_partial_cylindrical_body(L=1.0, D=bore, h=depth)
    speed = open_flow.V_Manning(Rh=area / wall, S=slope, n=n)
    return speed, speed * area


@PROPERTY
@given(number(0.02, 0.9), number(2, 12), number(0.002, 0.1), number(0.008, 0.02))
def test_velocity_against_fluids_and_brentq(
    share: float, bore: float, slope: float, n: float
) -> None:
    """Source: fluids' Manning, its depth found by scipy; 2e-4 for 1.486."""
    flow = share * full_flow_gpm(bore, slope, n)
    wide = bore * INCH_M
    depth = brentq(
        lambda y: speed_and_flow(y, wide, slope, n)[1] - flow * M3S,
        1e-5 * wide,
        0.938 * wide,
    )
    expected = speed_and_flow(depth, wide, slope, n)[0] / 0.3048
    assert normal_velocity_fps(flow, bore, slope, n) == pytest.approx(
        expected, rel=3e-4
    )


@PROPERTY
@given(number(1, 24), number(0.0005, 0.1), number(0.008, 0.02))
def test_capacity_against_fluids(bore: float, slope: float, n: float) -> None:
    """Source: fluids' Manning of the full pipe; 2e-4 for 1.486."""
    expected = speed_and_flow(bore * INCH_M, bore * INCH_M, slope, n)[1] / M3S
    assert capacity_gpm(bore, slope, n) == pytest.approx(expected, rel=2e-4)


@pytest.mark.parametrize(("one", "key"), values("manning-8in-full"))
def test_eight_inch_pipe_full(one: Entry, key: str) -> None:
    """Source: civiltoolbox.com."""
    bore, slope, n = (one["inputs"][name] for name in ("diameter_in", "slope", "n"))
    if key == "Q_cfs":
        full = capacity_gpm(bore, slope, n) / 60 / GALLONS_PER_CUBIC_FOOT
        assert full == allowed(one, one["expected"][key])
    if key == "V_fps":
        speed = normal_velocity_fps(1e9, bore, slope, n)
        assert speed == allowed(one, one["expected"][key])


def test_uncertainty_of_the_capacity_by_its_powers() -> None:
    """Source: the formula itself: Q goes with the root of S and with 1/n."""
    slope, n = ufloat(SLOPE, 0.1 * SLOPE), ufloat(0.010, 0.0008)
    found = capacity_gpm(4.0, slope, n)
    assert found.s / found.n == pytest.approx((0.05**2 + 0.08**2) ** 0.5, rel=1e-4)


def test_uncertainty_of_the_velocity_by_small_steps() -> None:
    """Source: central difference of the velocity."""
    ends = [normal_velocity_fps(x, 4.0, SLOPE, 0.010) for x in (4.001, 3.999)]
    found = expected_velocity_fps(ufloat(4.0, 0.1), 4.0, SLOPE, 0.010)
    assert found.s == pytest.approx((ends[0] - ends[1]) / 0.002 * 0.1, rel=1e-3)


def test_limits() -> None:
    assert normal_velocity_fps(0.0, 4.0, SLOPE, 0.010) == pytest.approx(0.0, abs=1e-9)
    full = full_flow_gpm(4.0, SLOPE, 0.010)
    half = normal_velocity_fps(full / 2, 4.0, SLOPE, 0.010)
    assert half == pytest.approx(normal_velocity_fps(1e9, 4.0, SLOPE, 0.010), rel=1e-3)
    assert capacity_gpm(4.0, 0.0, 0.010) == 0


@pytest.mark.parametrize("bore", [1e-3, 1e4])
@pytest.mark.parametrize("slope", [1e-9, 1.0])
def test_tiny_and_huge_pipes_give_numbers(bore: float, slope: float) -> None:
    pipe = (bore, ufloat(slope, slope / 7), ufloat(0.01, 0.001))
    assert 0 < capacity_gpm(*pipe).n < float("inf")
    assert 0 <= normal_depth_in(4.0, bore, slope, 0.01) <= bore
    assert expected_velocity_fps(4.0, *pipe).s < float("inf")
