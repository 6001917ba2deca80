"""The shortest distance of two shapes, and how sure it is."""

from __future__ import annotations

from math import hypot, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from plan_builders import shape
from result_builders import PROPERTY, number
from uncertainties import correlated_values, covariance_matrix, ufloat

from generator.results.plan_distance import OVERLAP, edge_to_edge, gap_result
from generator.results.result import nominal, standard
from generator.results.shapes import Shape

DRAWS = 2000
COARSE = st.integers(-40, 40).map(float)  # so that corners, sides and crossings meet
PLACES = st.tuples(COARSE, COARSE) | st.tuples(number(-40, 40), number(-40, 40))
LINES = st.lists(PLACES, min_size=1, max_size=5).map(lambda found: shape(*found))
AREAS = st.lists(PLACES, min_size=3, max_size=6, unique=True).map(
    lambda found: shape(*found, closed=True)
)
SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


def drawn(one: Shape) -> shapely.Geometry:
    """The same shape for shapely alone."""
    places = [corner.xy for corner in one.vertices]
    if one.closed:
        return shapely.make_valid(shapely.Polygon(places))
    return shapely.LineString(places) if len(places) > 1 else shapely.Point(places[0])


@PROPERTY
@given(LINES | AREAS, LINES | AREAS)
def test_the_bare_distance_against_shapely(one: Shape, other: Shape) -> None:
    """Source: shapely, over points, lines and areas."""
    wanted = shapely.distance(drawn(one), drawn(other))
    for first, second in ((one, other), (other, one)):
        found = nominal(edge_to_edge(first, second))
        assert found == pytest.approx(wanted, abs=1e-6)


def test_reach_is_taken_off_both() -> None:
    """Source: shapely, the distance of two shapes that were widened."""
    one = shape((0.0, 0.0), (0.0, 50.0), reach_ft=1.5)
    other = shape((20.0, 10.0), reach_ft=ufloat(2.0, 0.1))
    widened = drawn(one).buffer(1.5, 256), drawn(other).buffer(2.0, 256)
    found = edge_to_edge(one, other)
    assert nominal(found) == pytest.approx(shapely.distance(*widened), abs=1e-3)
    assert standard(found) == pytest.approx(0.1)


def monte_carlo(one: Shape, other: Shape) -> float:
    """Spread of shapely's distance over drawn corners, with their correlation."""
    numbers = [n for s in (one, other) for v in s.vertices for n in (v.x_ft, v.y_ft)]
    generator = np.random.default_rng(7)
    spread = np.array(covariance_matrix(numbers))
    draws = generator.multivariate_normal(
        [nominal(n) for n in numbers], spread, DRAWS, method="eigh"
    )
    distances = []
    for draw in draws:
        places = draw.reshape(-1, 2)
        cut = len(one.vertices)
        pieces = [shape(*places[:cut], closed=one.closed)]
        pieces.append(shape(*places[cut:], closed=other.closed))
        distances.append(shapely.distance(*map(drawn, pieces)))
    return float(np.std(distances, ddof=1))


def sure(*places: tuple[float, float], u: float = 0.5, closed: bool = False) -> Shape:
    """A shape whose corners are independent."""
    return shape(*((ufloat(x, u), ufloat(y, u)) for x, y in places), closed=closed)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (sure((0, 0)), sure((60, 25))),
        (sure((10, 30)), sure((0, 0), (50, 5))),
        (sure((48, 30)), sure((0, 0), (50, 5))),
        (sure(*SQUARE, closed=True), sure((40, 14), (60, 3), (70, 40))),
    ],
)
def test_spread_against_draws(one: Shape, other: Shape) -> None:
    """Source: numpy and shapely, 2,000 seeded draws; 5 % is three of their spreads."""
    found = standard(edge_to_edge(one, other))
    assert found == pytest.approx(monte_carlo(one, other), rel=0.05)


def test_ties_that_are_shared_are_counted_once() -> None:
    """Source: numpy and shapely again; corners that move together do not part."""
    shared = np.full((6, 6), 0.0)
    for axis in (0, 1):
        shared[axis::2, axis::2] = 0.9
    numbers = correlated_values(
        [0, 0, 30, 2, 12, 40], shared + np.diag(np.full(6, 0.04))
    )
    (a, b, c, d, e, f) = numbers
    one, other = shape((a, b), (c, d)), shape((e, f))
    found = standard(edge_to_edge(one, other))
    assert found == pytest.approx(monte_carlo(one, other), rel=0.05)
    apart = sure((0, 0), (30, 2), u=sqrt(0.94)), sure((12, 40), u=sqrt(0.94))
    assert found < standard(edge_to_edge(*apart)) / 3


def test_a_shape_moved_as_a_whole_moves_with_its_neighbour() -> None:
    x, y = ufloat(0, 3), ufloat(0, 3)
    one, other = shape((x, y)), shape((x + 30, y + 40))
    assert nominal(edge_to_edge(one, other)) == pytest.approx(50.0)
    assert standard(edge_to_edge(one, other)) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (sure((0, 0)), sure((0, 0))),  # the same place
        (sure((5, 0)), sure((0, 0), (10, 0))),  # on the line
        (sure((5, 4)), sure(*SQUARE, closed=True)),  # inside the area
        (sure((2, 2), (8, 2), (5, 8), closed=True), sure(*SQUARE, closed=True)),
        (sure((0, 0), (10, 10)), sure((0, 10), (10, 0))),  # crossing
        (sure((0, 0), (10, 0)), sure((4, 0), (20, 0))),  # along each other
        (sure((10, 10), (20, 20)), sure(*SQUARE, closed=True)),  # corner to corner
    ],
)
def test_touching_and_overlapping_are_nought(one: Shape, other: Shape) -> None:
    for first, second in ((one, other), (other, one)):
        gap = gap_result(first, second)
        assert nominal(gap.number) == 0
        assert 0 < standard(gap.number) <= hypot(1, 1)
        assert OVERLAP in gap.assumptions


def test_a_reach_larger_than_the_gap_is_nought() -> None:
    one, other = sure((0, 0)), sure((3, 0), u=0.0)
    wide = Shape("tank", "", one.vertices, reach_ft=ufloat(5.0, 0.1))
    gap = gap_result(wide, other)
    assert nominal(gap.number) == 0
    assert standard(gap.number) == pytest.approx(hypot(0.5, 0.1))
    assert gap.assumptions[0] == OVERLAP


@pytest.mark.parametrize("closed", [False, True])
def test_a_line_or_area_of_no_size_is_a_point(closed: bool) -> None:
    flat = shape((0.0, 0.0), (0.0, 0.0), (0.0, 0.0), closed=closed)
    assert edge_to_edge(flat, shape((3.0, 4.0))) == pytest.approx(5.0)
    thin = shape((0.0, 0.0), (10.0, 0.0), (20.0, 0.0), closed=closed)
    assert edge_to_edge(thin, shape((15.0, 4.0))) == pytest.approx(4.0)


@pytest.mark.parametrize("far", [1e-6, 1e3, 1e7])
def test_small_and_huge_plans(far: float) -> None:
    one = shape((0.0, 0.0), (0.0, far), (far, far), closed=True)
    assert edge_to_edge(one, shape((-far, far / 2))) == pytest.approx(far)


def test_without_uncertainty_there_is_none() -> None:
    assert standard(edge_to_edge(shape((0.0, 0.0)), shape((3.0, 4.0)))) == 0


def test_the_working_names_the_corners() -> None:
    gap = gap_result(shape((5.0, 4.0)), shape((0.0, 0.0), (10.0, 0.0)))
    names = ["x", "y", "x1", "y1", "x2", "y2", "r1", "r2"]
    assert [one.name for one in gap.symbols] == names
    x, y, x1, y1, x2, y2, r1, r2 = (one.number for one in gap.symbols)
    across = abs((x2 - x1) * (y - y1) - (x - x1) * (y2 - y1))
    assert across / hypot(x2 - x1, y2 - y1) - r1 - r2 == nominal(gap.number) == 4.0
