"""Nominal places from ties against published values, scipy and shapely."""

from __future__ import annotations

import random
import subprocess
import sys
from math import hypot, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from place_builders import found, lot, point
from published import ENTRIES, Entry, allowed, entry, values
from result_builders import PROPERTY, number
from scipy.optimize import least_squares

from generator.results.least_squares import (
    Reach,
    crossing,
    descend,
    misfit,
    normal_matrix,
    starts,
)
from generator.results.plane import Known, along_axes
from generator.results.tie_shifts import crossing_deg, shifted, widest_shift
from generator.results.ties import Fix, tied_result
from generator.results.whereabouts import misfits


def reaches(*given: tuple[complex, float], u: float = 0.1) -> list[Reach]:
    """Ties from exact points."""
    return [
        Reach(f"places[0].ties[{place}]", f"P{place}", f"P{place}", Known(at), feet, u)
        for place, (at, feet) in enumerate(given)
    ]


def scattered(seed: int, count: int) -> tuple[complex, list[Reach]]:
    """Draw a place, and rounded ties to it from points spread around it."""
    draw = random.Random(seed)
    place = complex(draw.uniform(-60, 60), draw.uniform(-60, 60))
    ties = []
    for index in range(count):
        corner = complex(draw.uniform(-80, 80), draw.uniform(-80, 80))
        u = draw.uniform(0.05, 0.5)
        feet = max(1.0, abs(place - corner) + draw.gauss(0, u / 2))
        key = f"places[0].ties[{index}]"
        ties.append(Reach(key, f"P{index}", f"P{index}", Known(corner), feet, u))
    return place, ties


def by_scipy(ties: list[Reach], start: complex) -> tuple[complex, np.ndarray, float]:
    """Fit with scipy: the place, its covariance and the least sum."""

    def off(at: np.ndarray) -> list[float]:
        return [one.residual(complex(*at)) / one.u_ft for one in ties]

    fit = least_squares(off, [start.real, start.imag], xtol=1e-14, ftol=1e-14)
    covariance = np.linalg.inv(fit.jac.T @ fit.jac)
    return complex(*fit.x), covariance, 2 * fit.cost


@pytest.mark.parametrize("one", [entry("trilat-3-1")])
def test_three_ties_against_published(one: Entry) -> None:
    given = one["inputs"]["points_xy_dist"]
    fix = tied_result(reaches(*((complex(x, y), r) for x, y, r in given)), "p", None)
    assert isinstance(fix, Fix)
    assert fix.known.at.real == allowed(one, one["expected"]["x"])
    assert fix.known.at.imag == allowed(one, one["expected"]["y"])


@pytest.mark.parametrize("one", [entry("trilat-2")])
def test_two_ties_against_published(one: Entry) -> None:
    given = one["inputs"]
    along, out = crossing(given["base"], given["r1"], given["r2"])
    assert (along, out) == (
        allowed(one, one["expected"]["x"]),
        allowed(one, one["expected"]["y"]),
    )


ELLIPSES = ["two-tie-ellipse-30", "two-tie-ellipse-90", "two-tie-ellipse-120"]


@pytest.mark.parametrize(("one", "key"), values(*ELLIPSES))
def test_ellipse_of_two_ties_against_published(one: Entry, key: str) -> None:
    turn = np.exp(1j * np.radians(one["inputs"]["g_deg"]))
    pair = reaches((-100 + 0j, 100.0), (complex(-100 * turn), 100.0), u=1.0)
    ellipse = shifted(pair, 0j, "p").ellipse()
    got = {"major": ellipse.major_ft, "minor": ellipse.minor_ft, "drms": ellipse.rms_ft}
    assert got[key] == allowed(one, one["expected"][key])
    assert crossing_deg(pair, 0j) == pytest.approx(one["inputs"]["g_deg"])


@pytest.mark.parametrize("one", [entry("ellipse-mahun")])
def test_turned_ellipse_against_published(one: Entry) -> None:
    given = one["inputs"]
    north, east = along_axes(given["S_U_ft"], given["S_V_ft"], given["azimuth_U_deg"])
    assert north == allowed(one, one["expected"]["sN_ft"])
    assert east == allowed(one, one["expected"]["sE_ft"])


def test_sum_of_segments_against_published() -> None:
    """Three segments along one line; the printed sum was not seen."""
    one = ENTRIES["sum-mahun"]
    places = [point("A"), point("B", ("A", 10.0), give_or_take=0.0)]
    errors = one["inputs"]["errors_ft"]
    for before, name, error in zip("ACD", "CDE", errors, strict=True):
        half = error * sqrt(3)
        keys = {"from_": before, "toward": "B", "along": 1.0, "give_or_take": half}
        places.append(point(name, **keys))
    spot = found(lot(*places[2:], fixed=(places[0], places[1])))["E"]
    assert spot.x_ft.s == allowed(one, one["expected"]["s_ft"])


@pytest.mark.parametrize("seed", range(60))
def test_many_ties_against_scipy(seed: int) -> None:
    """Source: scipy.optimize.least_squares, and (J^T W J)^-1 at its place."""
    place, ties = scattered(seed, 3 + seed % 5)
    ends = [descend(ties, start) for start in starts(ties)]
    best = min(ends, key=lambda end: misfit(ties, end))
    expected, covariance, least = by_scipy(ties, place)
    assert misfit(ties, best) <= least + 1e-6
    if abs(best - expected) < 0.01:
        assert best == pytest.approx(expected, abs=1e-5)
        xx, xy, yy = shifted(ties, best, "p").covariance()
        assert [xx, xy, yy] == pytest.approx(
            [covariance[0, 0], covariance[0, 1], covariance[1, 1]], rel=1e-3, abs=1e-6
        )


def test_most_of_the_fits_reach_the_same_place_as_scipy() -> None:
    same = 0
    for seed in range(60):
        place, ties = scattered(seed, 3 + seed % 5)
        ends = [descend(ties, start) for start in starts(ties)]
        best = min(ends, key=lambda end: misfit(ties, end))
        same += abs(best - by_scipy(ties, place)[0]) < 0.01
    assert same >= 57


def test_normal_matrix_against_numpy() -> None:
    """Source: numpy, J^T W J of the directions."""
    place, ties = scattered(7, 5)
    rows = np.array([[one.toward(place).real, one.toward(place).imag] for one in ties])
    weights = np.diag([1 / one.u_ft**2 for one in ties])
    expected = rows.T @ weights @ rows
    assert normal_matrix(ties, place) == pytest.approx(
        (expected[0, 0], expected[0, 1], expected[1, 1])
    )


@PROPERTY
@given(number(1, 60), number(1, 60), number(1, 60))
def test_two_circles_against_shapely(base: float, one: float, two: float) -> None:
    """Source: shapely, where two many-sided circles cross."""
    assume(base < one + two - 0.5 and abs(one - two) < base - 0.5)
    rings = [
        shapely.Point(x, 0).buffer(r, quad_segs=4096).exterior
        for x, r in ((0, one), (base, two))
    ]
    along, out = crossing(base, one, two)
    spots = shapely.get_coordinates(shapely.intersection(*rings))
    assert min(hypot(x - along, y - out) for x, y in spots) < 0.01
    assert min(hypot(x - along, y + out) for x, y in spots) < 0.01


@PROPERTY
@given(number(0.1, 60), number(0, 90), number(0, 90))
def test_circles_that_miss_divide_the_gap(base: float, one: float, two: float) -> None:
    along, out = crossing(base, one, two)
    assert out >= 0
    gap = max(base - one - two, abs(one - two) - base, 0.0)
    if gap > 1e-9:
        assert out == 0
        assert abs(abs(along) - one) == pytest.approx(gap / 2, abs=1e-9)
        assert abs(abs(along - base) - two) == pytest.approx(gap / 2, abs=1e-9)


@pytest.mark.parametrize(
    ("first", "second", "base"), [(10.0, 10.0, 20.0), (8.0, 30.0, 38.0), (50, 20, 30)]
)
def test_ties_along_the_base_line_against_random_draws(
    first: float, second: float, base: float
) -> None:
    """Source: own draws; the stated spread covers them and is no idle bound."""
    u = 0.15
    pair = reaches((0j, first), (base + 0j, second), u=u)
    bound = widest_shift(pair, first + 0j, 1j)
    draw = random.Random(5)
    outs = [
        crossing(base, first + draw.gauss(0, u), second + draw.gauss(0, u))[1]
        for _ in range(2000)
    ]
    rms = sqrt(sum(out * out for out in outs) / len(outs))
    assert rms <= bound <= 2 * rms
    assert shifted(pair, first + 0j, "p").ellipse().major_ft == pytest.approx(bound)


@PROPERTY
@given(number(0.5, 60), number(0.5, 60), number(0, 1))
def test_an_ellipse_is_always_finite(one: float, two: float, u: float) -> None:
    """However flat the ties, no place is surer or less sure than its circles allow."""
    pair = reaches((0j, one), (30 + 0j, two), u=u)
    along, out = crossing(30.0, one, two)
    ellipse = shifted(pair, complex(along, out), "p").ellipse()
    widest = max(u, 2 * max(abs(complex(along, out)), abs(complex(along - 30, out))))
    assert 0 <= ellipse.minor_ft <= ellipse.major_ft <= widest + 1e-9


def test_circles_that_miss_are_told() -> None:
    fixed = (point("A"), point("B", ("A", 40.0)))
    (told,) = misfits(lot(point("L1", ("A", 10), ("B", 12), side="left"), fixed=fixed))
    assert told.file == "inspections/demo.yaml"
    assert told.field == "places[0].ties"
    assert told.line > 0
    assert told.message == (
        "These two ties cannot meet: A 10 ft and B 12 ft, and A and B are 40 ft apart."
    )
    assert told.hint == (
        "Measure both again, or check which corner each was taken from."
    )


@pytest.mark.parametrize(("gap", "fits"), [(0.45, True), (0.55, False)])
def test_a_gap_within_its_uncertainty_is_let_pass(gap: float, fits: bool) -> None:
    """Three distances of u = h / sqrt(3) give the gap U = 2 sqrt(3) u = 2 h."""
    half = 0.25
    fixed = (point("A"), point("B", ("A", 40.0), give_or_take=half))
    place = point("L1", ("A", 20 - gap), ("B", 20.0), side="left", give_or_take=half)
    record = lot(place, fixed=fixed)
    assert (misfits(record) == []) is fits
    if fits:
        spot = found(record)["L1"]
        assert spot.x_ft.n == pytest.approx(20 - gap / 2)
        assert any("do not quite meet" in said for said in spot.assumptions)


def test_the_worst_of_three_ties_is_named() -> None:
    corner = point("C", ("A", 24.0), ("B", 40.0), side="left")
    fixed = (point("A"), point("B", ("A", 32.0)), corner)
    right = (("A", 20.0), ("B", 20.0), ("C", 20.0))
    assert misfits(lot(point("L1", *right), fixed=fixed)) == []
    wrong = (("A", 20.0), ("B", 20.0), ("C", 20.0), ("D", 25.0))
    more = (*fixed, point("D", from_="C", toward="A", along=0.0, out=32.0, side="left"))
    (told,) = misfits(lot(point("L1", *wrong), fixed=more))
    assert told.field == "places[0].ties[3]"
    assert "D 25 ft fits worst" in told.message
    assert "being 5 ft too long" in told.message
    assert told.message.endswith("puts the place 20 ft from D).")


def test_three_points_on_one_line_leave_the_side_open() -> None:
    fixed = (
        point("A"),
        point("B", ("A", 32.0)),
        point("C", from_="A", toward="B", along=60.0),
    )
    ties = (("A", 25.0), ("B", sqrt(17**2 + 20**2)), ("C", sqrt(45**2 + 20**2)))
    (told,) = misfits(lot(point("L1", *ties), fixed=fixed))
    assert "leave the side open" in told.message
    for side, out in (("left", 20.0), ("right", -20.0)):
        spot = found(lot(point("L1", *ties, side=side), fixed=fixed))["L1"]
        assert (spot.x_ft.n, spot.y_ft.n) == pytest.approx((15.0, out), abs=0.01)


def test_the_quick_check_loads_nothing_heavy() -> None:
    program = (
        "import sys\nimport generator.results.whereabouts\n"
        "print(*{name.partition('.')[0] for name in sys.modules})"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    ).stdout.split()
    heavy = {"numpy", "uncertainties", "scipy", "shapely", "matplotlib"}
    assert not heavy & set(loaded)
