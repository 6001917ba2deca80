"""Tank volumes against printed examples, and against fluids, scipy and shapely."""

from __future__ import annotations

from math import pi

import pytest
from fluids import geometry
from hypothesis import assume, given
from published import Entry, allowed, entry, rows, starting, values
from result_builders import (
    PROPERTY,
    box,
    length,
    lying,
    number,
    stated,
    tanks_with_levels,
    top_in,
    upright,
)
from scipy.integrate import quad
from shapely import Point
from shapely import box as rectangle
from uncertainties import ufloat

from generator.record.parts import Tank
from generator.results.tank import GAL, Inside, inside_of, tank_results
from generator.results.tank_plans import box_gal_per_in, upright_gal_per_in
from generator.results.tank_sections import chord_in, segment_area_in2

FT3 = 1728 / GAL  # gallons in a cubic foot
DEPTHS = (0.0, 0.5, 7.0, 30.0, 46.0, 59.5, 60.0)


# Printed examples


@pytest.mark.parametrize(("one", "key"), values("vol-rect-a", "vol-rect-d"))
def test_box_in_inches(one: Entry, key: str) -> None:
    """Source: Onsite Installer."""
    given_in = one["inputs"]
    tank = box(given_in["liquid_depth_in"], given_in["length_in"], given_in["width_in"])
    found = {"volume_gal": tank.volume_gal(), "gal_per_in": tank.gal_per_in()}
    assert found[key] == allowed(one, one["expected"][key])


@pytest.mark.parametrize("one", [entry("vol-rect-e")])
def test_box_in_feet(one: Entry) -> None:
    """Source: Engineering Discoveries."""
    sides = [12 * one["inputs"][key] for key in ("depth_ft", "length_ft", "width_ft")]
    assert box(*sides).volume_gal() == allowed(one, one["expected"]["volume_gal"])


@pytest.mark.parametrize("one", [entry("vol-rect-f")])
def test_box_gallons_per_inch(one: Entry) -> None:
    """Source: Engineering Discoveries (the rule), Onsite Installer (the value)."""
    found = box_gal_per_in(one["inputs"]["length_in"], one["inputs"]["width_in"])
    assert found == allowed(one, one["expected"]["gal_per_in"])


@pytest.mark.parametrize(("one", "key"), values("vol-vcyl-a"))
def test_upright_cylinder(one: Entry, key: str) -> None:
    """Source: Onsite Installer."""
    feet = one["inputs"]
    tank = upright(12 * feet["liquid_depth_ft"], 12 * feet["diameter_ft"])
    found = {
        "volume_gal": tank.volume_gal(),
        "gal_per_in": upright_gal_per_in(12 * feet["diameter_ft"]),
    }
    assert found[key] == allowed(one, one["expected"][key])


@pytest.mark.parametrize("one", [entry("vol-vcyl-c")])
def test_upright_cylinder_in_cubic_feet(one: Entry) -> None:
    """Source: wastewater101.net."""
    tank = upright(12 * one["inputs"]["depth_ft"], 12 * one["inputs"]["diameter_ft"])
    assert tank.volume_gal() / FT3 == allowed(one, one["expected"]["volume_ft3"])


@pytest.mark.parametrize("one", [entry("vol-pipe-a")])
def test_full_pipe_is_a_full_lying_cylinder(one: Entry) -> None:
    """Source: wastewater101.net."""
    bore, run = one["inputs"]["diameter_in"], 12 * one["inputs"]["length_ft"]
    found = lying(bore, bore, run).volume_gal()
    assert found == allowed(one, one["expected"]["volume_gal"])


@pytest.mark.parametrize(
    ("one", "share", "expected"), rows("circ-area-table", "y_over_D", "A_over_Afull")
)
def test_segment_area(one: Entry, share: float, expected: float) -> None:
    """Source: US EPA table."""
    found = segment_area_in2(60.0, 60.0 * share) / (pi * 60.0**2 / 4)
    assert found == allowed(one, expected)


@pytest.mark.parametrize(
    ("one", "key"),
    [case for case in values(*starting("circ-norm-")) if case.values[1][0] in "AT"],
)
def test_segment_area_and_width(one: Entry, key: str) -> None:
    """Source: Engineering Database."""
    depth = one["inputs"]["y_over_D"]
    find = {"A_over_D2": segment_area_in2, "T_over_D": chord_in}[key]
    assert find(1.0, depth) == allowed(one, one["expected"][key])


@pytest.mark.parametrize(("one", "key"), values("drawdown-real"))
def test_drawdown_of_a_stated_tank(one: Entry, key: str) -> None:
    """Source: City of Orono."""
    tank = stated(one["inputs"]["liquid_depth_in"], one["inputs"]["tank_gal"])
    found = {
        "gal_per_in": tank.gal_per_in(),
        "dose_gal": tank.between_gal(-one["inputs"]["drawdown_in"], 0.0),
    }
    assert found[key] == allowed(one, one["expected"][key])


@pytest.mark.parametrize("one", [entry("dose-a")])
def test_gallons_between_two_floats(one: Entry) -> None:
    """Source: Onsite Installer; its readings count down from the top."""
    tank = stated(10.0, 10.0 * one["inputs"]["gal_per_in"])
    found = tank.between_gal(-one["inputs"]["off_in"], -one["inputs"]["on_in"])
    assert found == allowed(one, one["expected"]["dose_gal"])


@pytest.mark.parametrize(("one", "key"), values("pumptank-rect"))
def test_stack_in_a_pump_tank(one: Entry, key: str) -> None:
    """Source: Onsite Installer."""
    tank = stated(10.0, 10.0 * one["inputs"]["gal_per_in"])
    found = {
        "alarm_gal": tank.between_gal(0.0, one["inputs"]["alarm_in"]),
        "depth_in": tank.level_after_in(0.0, one["inputs"]["stack_gal"]),
    }
    assert found[key] == allowed(one, one["expected"][key])


# Reference libraries


@pytest.mark.parametrize("depth", DEPTHS)
def test_segment_area_against_shapely(depth: float) -> None:
    """Source: shapely, a circle of 4096 sides cut at the surface."""
    circle = Point(0, 0).buffer(30.0, quad_segs=1024)
    water = circle.intersection(rectangle(-40, -40, 40, depth - 30.0))
    assert segment_area_in2(60.0, depth) == pytest.approx(water.area, abs=0.01)


@pytest.mark.parametrize("depth", DEPTHS)
def test_chord_against_shapely(depth: float) -> None:
    """Source: shapely, the width of a cut through a circle of 4096 sides."""
    circle = Point(0, 0).buffer(30.0, quad_segs=1024)
    cut = circle.intersection(rectangle(-40, depth - 30.0, 40, depth - 30.0 + 1e-9))
    width = cut.bounds[2] - cut.bounds[0] if not cut.is_empty else 0.0
    assert chord_in(60.0, depth) == pytest.approx(width, abs=0.01)


@PROPERTY
@given(number(20, 120), number(0, 1), number(20, 300))
def test_lying_volume_against_fluids(diameter: float, share: float, run: float) -> None:
    """Source: fluids, horizontal cylinder with heads of no depth."""
    depth = share * diameter
    expected = geometry.V_horiz_conical(D=diameter, L=run, a=0.0, h=depth) / GAL
    found = lying(depth, diameter, run).volume_gal()
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-6)


@PROPERTY
@given(number(20, 120), number(0, 1), number(0, 1))
def test_lying_volume_against_scipy(diameter: float, one: float, two: float) -> None:
    """Source: scipy, the integral of the chord over the height."""
    low, high = sorted((one * diameter, two * diameter))
    area, _ = quad(lambda height: chord_in(diameter, height), low, high, limit=200)
    tank = lying(diameter / 2, diameter, 100.0)
    found = tank.between_gal(low - diameter / 2, high - diameter / 2)
    assert found == pytest.approx(area * 100.0 / GAL, rel=1e-6, abs=1e-4)


@PROPERTY
@given(number(20, 120), number(1, 100))
def test_upright_volume_against_fluids(diameter: float, depth: float) -> None:
    """Source: fluids, volume of a cylinder."""
    expected = geometry.V_cylinder(D=diameter, L=depth) / GAL
    assert upright(depth, diameter).volume_gal() == pytest.approx(expected)


@PROPERTY
@given(tanks_with_levels(1))
def test_gallons_per_inch_is_the_slope_of_the_volume(drawn) -> None:
    inside, (level,) = drawn
    step = 1e-4
    assume(-inside.liquid_depth_in + 1 < level < top_in(inside) - 1)
    slope = inside.between_gal(level - step, level + step) / (2 * step)
    assert inside.gal_per_in(level) == pytest.approx(slope, rel=1e-5)


# Properties


@PROPERTY
@given(tanks_with_levels(3))
def test_volume_between_levels_adds_up(drawn) -> None:
    inside, (low, middle, high) = drawn
    parts = inside.between_gal(low, middle) + inside.between_gal(middle, high)
    assert parts == pytest.approx(inside.between_gal(low, high), abs=1e-8)
    whole = inside.volume_gal(high) - inside.volume_gal(low)
    assert whole == pytest.approx(inside.between_gal(low, high), abs=1e-8)


@PROPERTY
@given(tanks_with_levels(2))
def test_volume_rises_with_the_level(drawn) -> None:
    inside, levels = drawn
    low, high = sorted(levels)
    assert inside.volume_gal(low) <= inside.volume_gal(high) + 1e-9
    assert inside.between_gal(low, high) >= -1e-9


@PROPERTY
@given(tanks_with_levels(2))
def test_level_after_adding_undoes_the_volume_between(drawn) -> None:
    inside, levels = drawn
    start, end = sorted(levels)
    gallons = inside.between_gal(start, end)
    found = inside.level_after_in(start, gallons)
    assert inside.between_gal(start, found) == pytest.approx(gallons, abs=1e-6)
    assert found == pytest.approx(end, abs=1e-3)


# Limits


@pytest.mark.parametrize("inside", [box(), upright(), lying(), stated()])
def test_an_empty_tank_holds_nothing(inside: Inside) -> None:
    assert inside.volume_gal(-inside.liquid_depth_in) == pytest.approx(0.0, abs=1e-9)
    assert inside.level_after_in(-3.0, 0.0) == pytest.approx(-3.0)
    assert inside.between_gal(0.0, 0.0) == 0


def test_a_lying_cylinder_is_never_fuller_than_full() -> None:
    tank = lying()
    full = pi * 60.0**2 / 4 * 102.0 / GAL
    assert tank.volume_gal(14.0) == tank.volume_gal(20.0) == pytest.approx(full)
    assert tank.level_after_in(0.0, 5000.0) == pytest.approx(14.0)
    assert tank.gal_per_in(14.0) == tank.gal_per_in(-46.0) == 0
    assert chord_in(60.0, 0.0) == chord_in(60.0, 60.0) == 0


def test_uncertainty_of_a_level_after_water() -> None:
    """Source: derivative of the volume, 1 / (gallons in an inch) a gallon."""
    tank = lying()
    found = tank.level_after_in(0.0, ufloat(60.0, 3.0))
    assert found.s == pytest.approx(3.0 / tank.gal_per_in(found.n), rel=1e-6)


def test_each_measure_keeps_its_own_uncertainty() -> None:
    """Source: a box's relative uncertainties add as squares; rectangle of 1/2 in."""
    sides = {"length": length(96), "width": length(54), "liquid_depth": length(48)}
    inside = inside_of(Tank(name="tank", shape="box", at="tanks[0]", **sides))
    relative = sum((0.5 / 3**0.5 / side) ** 2 for side in (96, 54, 48)) ** 0.5
    volume = inside.volume_gal()
    assert volume.s / volume.n == pytest.approx(relative)


def test_a_tank_has_two_results_with_their_paths() -> None:
    tank = Tank(
        name="tank",
        shape="lying cylinder",
        at="tanks[0]",
        diameter=length(60),
        length=length(102),
        liquid_depth=length(46),
    )
    volume, surface = tank_results(tank, inside_of(tank))
    assert volume.value == pytest.approx(lying().volume_gal())
    assert surface.value == pytest.approx(lying().gal_per_in())
    assert volume.inputs == (
        "tanks[0].length",
        "tanks[0].diameter",
        "tanks[0].liquid_depth",
    )
