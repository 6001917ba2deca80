"""Flow in round pipes against printed tables, and against fluids, scipy and shapely."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from fluids import geometry, open_flow
from hypothesis import given
from published import Entry, allowed, entry, rows, starting, values
from result_builders import PROPERTY, number
from scipy.optimize import brentq, minimize_scalar
from shapely import Point
from shapely import box as rectangle
from uncertainties import ufloat

from generator.quantity import GALLONS_PER_CUBIC_FOOT
from generator.results.pipe_flow import (
    FULLEST_FLOW_DEPTH,
    MANNING_US,
    expected_depth_in,
    flow_gpm,
    full_flow_gpm,
    normal_depth_in,
    section,
    velocity_fps,
)

CFS = 60 * GALLONS_PER_CUBIC_FOOT  # gal/min in a cubic foot a second
FOOT_M = 0.3048
SLOPE, SMOOTH = 1 / 48, 0.010
K_SI = 0.3048 ** (-1 / 3)  # what 1.486 rounds


def fluids_gpm(depth_in: float, bore_in: float, slope: float, n: float) -> float:
    """Flow by fluids alone, in metres, brought back to gallons a minute."""
    depth, bore = (x / 12 * FOOT_M for x in (depth_in, bore_in))
    area = geometry.A_partial_circle(D=bore, h=depth)
    perimeter = geometry.SA_partial_cylindrical_body(L=1.0, D=bore, h=depth)
    speed = open_flow.V_Manning(Rh=area / perimeter, S=slope, n=n)
    return area * speed / FOOT_M**3 * CFS


# Printed tables


@pytest.mark.parametrize(
    ("one", "share", "expected"), rows("circ-area-table", "y_over_D", "A_over_Afull")
)
def test_wetted_share(one: Entry, share: float, expected: float) -> None:
    """Source: US EPA table."""
    assert section(share, 1.0).area_ft2 / (pi / 4) == allowed(one, expected)


@pytest.mark.parametrize(
    ("one", "share", "expected"), rows("circ-radius-table", "y_over_D", "R_over_Rfull")
)
def test_hydraulic_radius(one: Entry, share: float, expected: float) -> None:
    """Source: US EPA table."""
    assert section(share, 1.0).radius_ft / 0.25 == allowed(one, expected)


@pytest.mark.parametrize(
    ("one", "key"),
    [case for case in values(*starting("circ-norm-")) if case.values[1][0] in "APR"],
)
def test_elements(one: Entry, key: str) -> None:
    """Source: Engineering Database."""
    found = section(one["inputs"]["y_over_D"], 1.0)
    by_letter = {"A": found.area_ft2, "P": found.perimeter_ft, "R": found.radius_ft}
    assert by_letter[key[0]] == allowed(one, one["expected"][key])


@pytest.mark.parametrize(("one", "key"), values("nspc-mult-0.75", "nspc-mult-full"))
def test_multiples_of_half_full(one: Entry, key: str) -> None:
    """Source: National Standard Plumbing Code 2009, Appendix K."""
    share = one["inputs"]["y_over_D"]
    flow, half = (flow_gpm(4 * y, 4.0, SLOPE, SMOOTH) for y in (share, 0.5))
    areas = section(share, 1.0).area_ft2 / section(0.5, 1.0).area_ft2
    found = {"Q_over_Qhalf": flow / half, "V_over_Vhalf": flow / half / areas}
    assert found[key] == allowed(one, one["expected"][key])


@pytest.mark.parametrize("one", [entry("nspc-n-scale")])
@pytest.mark.parametrize("depth", [0.5, 2.0, 4.0])
def test_flow_scales_with_roughness(one: Entry, depth: float) -> None:
    """Source: National Standard Plumbing Code 2009, Appendix K."""
    new, old = (
        flow_gpm(depth, 4.0, SLOPE, one["inputs"][key]) for key in ("n_new", "n_table")
    )
    assert new / old == allowed(one, one["expected"]["factor"])


@pytest.mark.parametrize(("one", "key"), values("manning-8in-full"))
def test_eight_inch_pipe_full(one: Entry, key: str) -> None:
    """Source: civiltoolbox.com."""
    bore, slope, n = (one["inputs"][name] for name in ("diameter_in", "slope", "n"))
    full = section(bore / 12, bore / 12)
    found = {
        "Q_cfs": full_flow_gpm(bore, slope, n) / CFS,
        "V_fps": velocity_fps(full.radius_ft, slope, n),
        "A_ft2": full.area_ft2,
        "R_ft": full.radius_ft,
    }
    assert found[key] == allowed(one, one["expected"][key])


@pytest.mark.parametrize(("one", "key"), values(*starting("normal-depth-")))
def test_normal_depth(one: Entry, key: str) -> None:
    """Source: computed with scipy, not seen in print."""
    given_ = one["inputs"]
    slope = given_["slope_in_per_ft"] / 12
    depth = normal_depth_in(given_["Q_gpm"], given_["D_in"], slope, given_["n"])
    wet = section(depth / 12, given_["D_in"] / 12)
    found = {
        "depth_in": depth,
        "y_over_D": depth / given_["D_in"],
        "V_fps": velocity_fps(wet.radius_ft, slope, given_["n"]),
    }
    assert found[key] == allowed(one, one["expected"][key])


# Reference libraries


@PROPERTY
@given(number(0.001, 1), number(1, 24))
def test_section_against_fluids(share: float, bore: float) -> None:
    """Source: fluids, part of a circle and of a cylinder's wall."""
    found = section(share * bore, bore)
    area = geometry.A_partial_circle(D=bore, h=share * bore)
    wall = geometry.SA_partial_cylindrical_body(L=1.0, D=bore, h=share * bore)
    assert found.area_ft2 == pytest.approx(area, rel=1e-6)
    assert found.perimeter_ft == pytest.approx(wall, rel=1e-6)


@pytest.mark.parametrize("share", [0.05, 0.25, 0.5, 0.75, 0.938, 1.0])
def test_section_against_shapely(share: float) -> None:
    """Source: shapely, a circle of 4096 sides cut at the surface."""
    circle = Point(0, 0).buffer(0.5, quad_segs=1024)
    below = rectangle(-1, -1, 1, share - 0.5)
    found = section(share, 1.0)
    assert found.area_ft2 == pytest.approx(circle.intersection(below).area, rel=1e-4)
    wall = circle.exterior.intersection(below).length
    assert found.perimeter_ft == pytest.approx(wall, rel=1e-4)


@PROPERTY
@given(number(0.01, 1), number(2, 12), number(0.002, 0.1), number(0.008, 0.02))
def test_flow_against_fluids(share: float, bore: float, slope: float, n: float) -> None:
    """Source: fluids, Manning in metres; 1.486 rounds the factor between."""
    found = flow_gpm(share * bore, bore, slope, n) * K_SI / MANNING_US
    assert found == pytest.approx(fluids_gpm(share * bore, bore, slope, n), rel=1e-6)


@pytest.mark.parametrize("flow", [0.5, 2.0, 4.0, 10.0, 60.0, 150.0])
@pytest.mark.parametrize("n", [0.009, 0.013])
def test_normal_depth_against_scipy_and_fluids(flow: float, n: float) -> None:
    """Source: scipy brentq over fluids' Manning; 2e-4 for 1.486."""
    most = FULLEST_FLOW_DEPTH * 4.0
    if fluids_gpm(most, 4.0, SLOPE, n) < flow:
        assert normal_depth_in(flow, 4.0, SLOPE, n) == 4.0
        return
    expected = brentq(lambda y: fluids_gpm(y, 4.0, SLOPE, n) - flow, 1e-6, most)
    found = normal_depth_in(flow, 4.0, SLOPE, n)
    assert found == pytest.approx(expected, rel=2e-4)


def test_fullest_flow_against_scipy() -> None:
    """Source: scipy, the depth of the greatest flow; Chow 6-4 (from memory)."""
    best = minimize_scalar(
        lambda y: -flow_gpm(y, 1.0, SLOPE, SMOOTH), bounds=(0.8, 1.0), method="bounded"
    )
    assert best.x == pytest.approx(FULLEST_FLOW_DEPTH, abs=0.0005)
    assert -best.fun / full_flow_gpm(1.0, SLOPE, SMOOTH) == pytest.approx(
        1.076, abs=5e-4
    )


def test_manning_factor() -> None:
    """Source: the cube root of the feet in a metre."""
    assert round(K_SI, 3) == MANNING_US


def test_uncertainty_of_the_depth_against_simulation() -> None:
    """Source: numpy, 2,000 draws of flow, slope and roughness."""
    draws = np.random.default_rng(5)
    means, spreads = (4.0, SLOPE, SMOOTH), (0.1, 0.001, 0.0004)
    depths = [
        normal_depth_in(flow, 4.0, slope, n)
        for flow, slope, n in draws.normal(means, spreads, (2000, 3))
    ]
    flow, slope, n = (ufloat(*pair) for pair in zip(means, spreads, strict=True))
    found = expected_depth_in(flow, 4.0, slope, n)
    assert found.n == pytest.approx(np.mean(depths), rel=0.005)
    assert found.s == pytest.approx(np.std(depths), rel=0.05)


# Properties and limits


@PROPERTY
@given(number(0.001, 0.999), number(2, 12), number(0.002, 0.1), number(0.008, 0.02))
def test_normal_depth_carries_its_flow(
    share: float, bore: float, slope: float, n: float
) -> None:
    flow = share * flow_gpm(FULLEST_FLOW_DEPTH * bore, bore, slope, n)
    depth = normal_depth_in(flow, bore, slope, n)
    assert 0 < depth < bore
    assert flow_gpm(depth, bore, slope, n) == pytest.approx(flow, rel=1e-6)


@PROPERTY
@given(number(0, 1), number(0, 1))
def test_deeper_water_wets_more(one: float, two: float) -> None:
    low, high = (section(x, 1.0) for x in sorted((one, two)))
    assert low.area_ft2 <= high.area_ft2 + 1e-12
    assert low.perimeter_ft <= high.perimeter_ft


def test_no_flow_has_no_depth() -> None:
    assert normal_depth_in(0.0, 4.0, SLOPE, SMOOTH) == pytest.approx(0.0, abs=1e-9)
    assert flow_gpm(0.0, 4.0, SLOPE, SMOOTH) == 0
    assert section(0.0, 1.0).radius_ft == 0


def test_more_than_the_pipe_carries_fills_the_bore() -> None:
    assert normal_depth_in(1000.0, 4.0, SLOPE, SMOOTH) == 4.0
    full = full_flow_gpm(4.0, SLOPE, SMOOTH)
    assert normal_depth_in(full, 4.0, SLOPE, SMOOTH) < FULLEST_FLOW_DEPTH * 4.0
    assert section(2.0, 1.0) == section(1.0, 1.0)
    assert velocity_fps(0.25, 0.0, SMOOTH) == 0
