"""Ovals and ellipses, standing and lying, against shapely, scipy and fluids."""

from __future__ import annotations

from itertools import pairwise
from math import pi

import pytest
from fluids import TANK, geometry
from hypothesis import assume, given
from hypothesis import strategies as st
from published import Entry, allowed, rows
from result_builders import PROPERTY, length, lying, number, upright
from scipy.integrate import quad
from shapely import LineString, Point, Polygon
from shapely import box as rectangle
from shapely.affinity import scale
from uncertainties import ufloat

from generator.record.parts import Tank
from generator.results.result import nominal, standard
from generator.results.tank import FORMULAS, GAL, PLANS, SECTIONS, Inside, inside_of
from generator.results.tank import tank_results as results_of
from generator.results.tank_plans import ellipse_gal_per_in, oval_gal_per_in
from generator.results.tank_sections import (
    ellipse_area_in2,
    ellipse_width_in,
    oval_area_in2,
    oval_width_in,
    segment_area_in2,
)

SIDES = 512  # of a quarter circle
SIZES = [(60.0, 84.0), (84.0, 60.0), (60.0, 60.0)]  # across, high
SHARES = [0.0, 1e-12, 0.1, 5 / 14, 0.5, 9 / 14, 0.8, 1 - 1e-12, 1.0]
FINDERS = {
    "lying oval": (oval_area_in2, oval_width_in),
    "lying ellipse": (ellipse_area_in2, ellipse_width_in),
}


def flat(shape: str, depth: float, long: float, wide: float, high: float) -> Inside:
    """A tank of a shape that has width, length and height."""
    return Inside(shape, depth, long, wide, height_in=high)


def outline(shape: str, wide: float, high: float) -> Polygon:
    """Draw an oval or an ellipse with its lowest point at zero."""
    if shape.endswith("ellipse"):
        ring = Point(0, 0).buffer(1.0, quad_segs=SIDES)
        return scale(ring, wide / 2, high / 2).intersection(
            rectangle(-999, -999, 999, 999)
        )
    radius = min(wide, high) / 2
    dx, dy = (wide - 2 * radius) / 2, (high - 2 * radius) / 2
    middle = LineString([(-dx, -dy), (dx, dy)]) if dx or dy else Point(0, 0)
    return middle.buffer(radius, quad_segs=SIDES)


STANDING = st.builds(
    flat,
    st.sampled_from(["upright oval", "upright ellipse"]),
    number(20, 80),
    number(40, 150),
    number(30, 90),
    st.just(None),
)
LYING = st.builds(
    lambda shape, share, long, wide, high: flat(shape, share * high, long, wide, high),
    st.sampled_from(list(FINDERS)),
    number(0.2, 0.95),
    number(40, 150),
    number(30, 120),
    number(30, 90),
)


@st.composite
def with_levels(draw: st.DrawFn) -> tuple[Inside, float, float]:
    """Draw a tank and two levels in it, the lower first."""
    inside = draw(st.one_of(STANDING, LYING))
    top = nominal(inside.top_in()) if inside.lies else 30.0
    level = number(-inside.liquid_depth_in, top)
    low, high = sorted((draw(level), draw(level)))
    return inside, low, high


# Printed


@pytest.mark.parametrize(
    ("one", "share", "expected"), rows("circ-area-table", "y_over_D", "A_over_Afull")
)
def test_lying_tanks_as_a_share_of_full(
    one: Entry, share: float, expected: float
) -> None:
    """Source: US EPA table; an ellipse of any width fills like a circle."""
    for tank in (lying(40.0, 60.0), flat("lying ellipse", 40.0, 90.0, 75.0, 60.0)):
        found = tank.volume_gal(60.0 * share - 40.0) / tank.volume_gal(20.0)
        assert found == allowed(one, expected)


# Reference libraries


@pytest.mark.parametrize("shape", FINDERS)
@pytest.mark.parametrize(("wide", "high"), SIZES)
@pytest.mark.parametrize("share", SHARES)
def test_wetted_area_against_shapely(
    shape: str, wide: float, high: float, share: float
) -> None:
    """Source: shapely, a polygon of many sides cut at the surface."""
    depth = share * high
    ring = outline(shape, wide, high)
    water = ring.intersection(rectangle(-99, -99, 99, depth - high / 2))
    found = FINDERS[shape][0](wide, high, depth)
    assert found == pytest.approx(water.area, abs=0.05)


@pytest.mark.parametrize("shape", FINDERS)
@pytest.mark.parametrize(("wide", "high"), SIZES)
@pytest.mark.parametrize("share", [0.1, 5 / 14, 0.5, 9 / 14, 0.8])
def test_surface_width_against_shapely(
    shape: str, wide: float, high: float, share: float
) -> None:
    """Source: shapely, the length of a line through the polygon."""
    depth = share * high
    line = LineString([(-99, depth - high / 2), (99, depth - high / 2)])
    chord = line.intersection(outline(shape, wide, high)).length
    assert FINDERS[shape][1](wide, high, depth) == pytest.approx(chord, abs=0.01)


@pytest.mark.parametrize(("wide", "long"), SIZES)
def test_plans_against_shapely(wide: float, long: float) -> None:
    """Source: shapely, area of the plan; it does not matter which measure is longer."""
    oval, ellipse = (outline(shape, wide, long).area for shape in ("oval", "ellipse"))
    assert oval_gal_per_in(long, wide) * GAL == pytest.approx(oval, rel=1e-5)
    assert ellipse_gal_per_in(long, wide) * GAL == pytest.approx(ellipse, rel=1e-5)


@PROPERTY
@given(number(30, 120), number(0, 1), number(30, 120))
def test_a_round_oval_is_a_cylinder(across: float, share: float, long: float) -> None:
    """Source: fluids, horizontal cylinder with heads of no depth."""
    depth = share * across
    expected = geometry.V_horiz_conical(D=across, L=long, a=0.0, h=depth) / GAL
    for shape in FINDERS:
        tank = flat(shape, across / 2, long, across, across)
        found = tank.volume_gal(depth - across / 2)
        assert found == pytest.approx(expected, rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("depth", [5.0, 30.0, 46.0, 60.0])
def test_a_lying_cylinder_is_the_tank_of_fluids(depth: float) -> None:
    """Source: fluids.TANK, a horizontal tank with flat ends."""
    tank = TANK(D=60.0, L=102.0, horizontal=True)
    found = lying(depth, 60.0, 102.0)
    assert found.volume_gal() * GAL == pytest.approx(tank.V_from_h(depth), rel=1e-6)


def test_an_upright_oval_as_wide_as_long_is_an_upright_cylinder() -> None:
    expected = upright(66.0, 72.0)
    for shape in ("upright oval", "upright ellipse"):
        found = flat(shape, 66.0, 72.0, 72.0, None)
        assert found.volume_gal(3.0) == pytest.approx(expected.volume_gal(3.0))


@PROPERTY
@given(with_levels())
def test_volume_is_the_integral_of_the_surface(
    drawn: tuple[Inside, float, float],
) -> None:
    """Source: scipy, quadrature of the gallons in an inch."""
    inside, low, high = drawn
    breaks = []
    if inside.shape == "lying oval" and inside.height_in > inside.width_in:
        straight = (inside.width_in / 2, inside.height_in - inside.width_in / 2)
        breaks = [
            one - inside.liquid_depth_in
            for one in straight
            if low < one - inside.liquid_depth_in < high
        ]
    ends = [low, *breaks, high]
    expected = sum(
        quad(inside.gal_per_in, start, stop, limit=200)[0]
        for start, stop in pairwise(ends)
    )
    found = inside.between_gal(low, high)
    assert found == pytest.approx(expected, rel=1e-5, abs=1e-4)
    whole = inside.volume_gal(high) - inside.volume_gal(low)
    assert found == pytest.approx(whole, abs=1e-6)


@PROPERTY
@given(with_levels())
def test_gallons_in_an_inch_are_the_slope_of_the_volume(
    drawn: tuple[Inside, float, float],
) -> None:
    inside, level, _ = drawn
    step = 1e-4
    top = nominal(inside.top_in()) if inside.lies else 99.0
    assume(-inside.liquid_depth_in + 1 < level < top - 1)
    slope = inside.between_gal(level - step, level + step) / (2 * step)
    assert inside.gal_per_in(level) == pytest.approx(slope, rel=1e-4)


@PROPERTY
@given(with_levels())
def test_water_added_or_taken_out_comes_back(
    drawn: tuple[Inside, float, float],
) -> None:
    inside, low, high = drawn
    gallons = inside.between_gal(low, high)
    for start, water in ((low, gallons), (high, -gallons)):
        end = inside.level_after_in(start, water)
        assert inside.between_gal(start, end) == pytest.approx(water, abs=1e-6)


# Limits


@pytest.mark.parametrize(("wide", "high"), SIZES)
@pytest.mark.parametrize("shape", FINDERS)
def test_a_lying_tank_is_never_fuller_than_full(
    shape: str, wide: float, high: float
) -> None:
    tank = flat(shape, 46.0, 100.0, wide, high)
    short, long = sorted((wide, high))
    whole = {
        "lying oval": pi * short**2 / 4 + short * (long - short),
        "lying ellipse": pi * wide * high / 4,
    }[shape]
    full = whole * 100.0 / GAL
    top = high - 46.0
    assert tank.volume_gal(top) == pytest.approx(full)
    assert tank.volume_gal(top + 9.0) == tank.volume_gal(top)
    assert tank.between_gal(top, top + 9.0) == 0
    assert tank.gal_per_in(top + 1.0) == tank.gal_per_in(-47.0) == 0
    assert tank.volume_gal(-46.0) == tank.volume_gal(-50.0) == 0
    assert tank.level_after_in(0.0, 1e6) == top
    assert tank.level_after_in(0.0, -1e6) == -46.0
    assert tank.level_after_in(top, 5.0) == top
    assert tank.level_after_in(-46.0, 0.0) == -46.0
    assert tank.level_after_in(0.0, 0.0) == 0


def test_halfway_up_is_half_full() -> None:
    for shape in FINDERS:
        for wide, high in SIZES:
            tank = flat(shape, high / 2, 100.0, wide, high)
            whole = tank.volume_gal(high / 2)
            assert tank.volume_gal() == pytest.approx(whole / 2)


@pytest.mark.parametrize("shape", [*PLANS, *SECTIONS])
@pytest.mark.parametrize("level", [-46.0, -45.9999999999999, 0.0, 13.99999999999, 14.0])
def test_no_level_has_an_unknown_uncertainty(shape: str, level: float) -> None:
    """A slope that grows without end near the floor or the top must not spoil it."""
    depth, side = ufloat(46.0, 0.3), ufloat(60.0, 0.3)
    tank = Inside(shape, depth, side, side, side, ufloat(900.0, 20.0), side)
    for found in (
        tank.volume_gal(level),
        tank.gal_per_in(level),
        tank.between_gal(-1.0, level),
        tank.level_after_in(level, ufloat(0.0, 1.0)),
        tank.level_after_in(level, ufloat(40.0, 1.0)),
        tank.level_after_in(level, ufloat(4e4, 1.0)),
    ):
        assert abs(nominal(found)) < 1e6
        assert standard(found) == standard(found)  # a NaN is not itself


@pytest.mark.parametrize("shape", FINDERS)
def test_uncertainty_of_a_level_after_water(shape: str) -> None:
    """Source: derivative of the volume, 1 / (gallons in an inch) a gallon."""
    tank = flat(shape, 40.0, 100.0, 50.0, 60.0)
    found = tank.level_after_in(0.0, ufloat(60.0, 3.0))
    assert found.s == pytest.approx(3.0 / tank.gal_per_in(found.n), rel=1e-6)


def test_uncertainty_of_a_wetted_area_is_the_chord() -> None:
    """Source: derivative of the area, the width of the surface."""
    found = segment_area_in2(60.0, ufloat(20.0, 0.1))
    assert found.s == pytest.approx(0.1 * 2 * (20.0 * 40.0) ** 0.5)


@pytest.mark.parametrize("depth", [1e-300, 1e-18, 60.0 - 1e-14])
def test_a_film_of_water_has_a_known_uncertainty(depth: float) -> None:
    """An arccosine would have no slope here."""
    found = segment_area_in2(ufloat(60.0, 0.3), ufloat(depth, 0.1))
    assert 0 <= found.s < 60.0


@pytest.mark.parametrize("shape", FORMULAS)
def test_each_shape_shows_its_working(shape: str) -> None:
    """Each symbol of a formula has a number, so that no letter is left in it."""
    sides = {"length": length(100), "width": length(50), "diameter": length(60)}
    tank = Tank(
        name="tank",
        at="tanks[0]",
        shape=shape,
        liquid_depth=length(46),
        inside_height=length(60),
        **sides,
    )
    inside = inside_of(tank)
    if shape == "stated":
        inside = Inside(shape, ufloat(46.0, 0.3), gallons=ufloat(900.0, 20.0))
    for one in results_of(tank, inside):
        middle = one.working.split(" = ")[1]
        assert not any(letter.isalpha() for letter in middle)
        put_in = middle.replace("×", "*")
        assert eval(put_in) == pytest.approx(one.value, rel=0.006)
    paths = results_of(tank, inside)[0].inputs
    high = "tanks[0].inside_height" in paths
    assert high is (shape in FINDERS)
