"""What is gathered for the site plan, against shapely and the results behind it."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from place_builders import found, lot, pipe, point
from plan_builders import area, feature, job, shape, spot, tank
from result_builders import feet

from generator.record.plan import Datum
from generator.results.plan_distance import edge_to_edge
from generator.results.plan_gaps import nearest_ends
from generator.results.plan_pairs import plan_pairs_of
from generator.results.result import nominal
from generator.results.shapes import Shape
from generator.results.site_plan import SitePlan, site_plan_result

SPAN = st.floats(-200, 200).map(lambda number: round(number, 2))
XY = st.tuples(SPAN, SPAN)
REACH = st.floats(0, 20).map(lambda number: round(number, 1))


def drawn(record) -> SitePlan:
    """Gather the plan of a record, without any code."""
    spots = found(record)
    pairs = plan_pairs_of(record.inspection, spots, None)
    plan = site_plan_result(record.inspection, spots, pairs)
    assert plan
    return plan


@given(st.lists(XY, min_size=1, max_size=4), st.lists(XY, min_size=1, max_size=4),
       REACH, REACH)  # fmt: skip
def test_ends_lie_as_far_apart_as_the_two_are(
    one: list, other: list, near: float, far: float
) -> None:
    first, second = shape(*one, reach_ft=near), shape(*other, reach_ft=far)
    start, end = nearest_ends(first, second)
    apart = abs(complex(*start) - complex(*end))
    assert apart == pytest.approx(nominal(edge_to_edge(first, second)), abs=1e-6)
    if apart > 1e-6:
        bare = [
            shapely.MultiPoint([v.xy for v in one_.vertices]).geoms[0]
            if len(one_.vertices) == 1
            else shapely.LineString([v.xy for v in one_.vertices])
            for one_ in (first, second)
        ]
        assert shapely.distance(shapely.Point(start), bare[0]) == pytest.approx(
            near, abs=1e-6
        )
        assert shapely.distance(shapely.Point(end), bare[1]) == pytest.approx(
            far, abs=1e-6
        )


def test_one_inside_the_other_has_one_end() -> None:
    square = shape((0, 0), (10, 0), (10, 10), (0, 10), closed=True)
    start, end = nearest_ends(shape((4.0, 5.0)), square)
    assert start == end


def test_nothing_is_drawn_without_a_datum() -> None:
    assert site_plan_result(job(), {}, []) is None


def test_a_part_reaches_beyond_its_points_on_every_side() -> None:
    spots = {"L1": spot(0, 0), "L2": spot(6, 0)}
    inspection = job(
        datum=Datum(points=(point("A"),)),
        tanks=(tank(on_plan=("L1", "L2"), reach=feet(2.5)),),
        absorption_areas=(area(on_plan=("L1",)),),
    )
    plan = site_plan_result(inspection, _spots(spots), [])
    assert plan
    capsule = shapely.Polygon(plan.things[0].borders[0])
    exact = shapely.LineString([(0, 0), (6, 0)]).buffer(2.5, quad_segs=200)
    assert capsule.area == pytest.approx(exact.area, rel=0.02)
    assert capsule.bounds == pytest.approx(exact.bounds, abs=0.01)
    assert plan.things[1].borders == ()
    assert plan.things[1].line == ((0, 0),)


def _spots(spots):
    record = lot(*(point(name, from_="A", toward="B", along=nominal(one.x_ft))
                   for name, one in spots.items()))  # fmt: skip
    return found(record)


def test_rings_are_twice_the_standard_ellipse() -> None:
    record = lot(point("L1", ("A", 18.0), ("B", 22.0), side="left"))
    spots = found(record)
    plan = drawn(record)
    one = next(point_ for point_ in plan.points if point_.name == "L1")
    assert one.ring
    assert one.ring.long_ft == pytest.approx(2 * spots["L1"].ellipse.major_ft)
    assert one.ring.short_ft == pytest.approx(2 * spots["L1"].ellipse.minor_ft)
    assert one.at == (nominal(spots["L1"].x_ft), nominal(spots["L1"].y_ft))
    assert [point_.name for point_ in plan.points if point_.fixed] == ["A", "B"]


def test_ties_and_offsets_are_lines_with_their_lengths() -> None:
    record = lot(
        point("L1", ("A", 18.0), ("B", 22.0), side="left"),
        point("D1", from_="A", toward="B", along=12, out=5, side="right"),
    )
    lines = {(one.words, one.start): one for one in drawn(record).ties}
    assert [words for words, _ in lines] == ["32 ft", "18 ft", "22 ft", "12 ft", "5 ft"]
    out = next(one for one in lines.values() if one.words == "5 ft")
    assert out.start == pytest.approx((12, 0))
    assert out.end == pytest.approx((12, -5))


def test_places_along_a_pipe_have_no_tie() -> None:
    record = lot(
        point("P1", run="outlet pipe", at_run=8), runs=(pipe("outlet pipe", "A", "B"),)
    )
    plan = drawn(record)
    assert [one.words for one in plan.ties] == ["32 ft"]
    assert plan.pipes[0].line == ((0, 0), (32, 0))
    assert plan.north_up is False


def test_a_bearing_turns_the_plan_north_up() -> None:
    plan = drawn(lot(bearing=180.0))
    assert plan.north_up
    assert plan.points[1].at == pytest.approx((0, -32), abs=1e-9)


def test_of_distances_without_a_code_those_to_drinking_water_are_drawn() -> None:
    inspection = job(
        datum=Datum(at="datum", points=(point("A"), point("B", ("A", 32.0)))),
        places=(
            point("W", ("A", 40.0), ("B", 40.0), side="left"),
            point("V", ("A", 60.0), ("B", 60.0), side="left"),
        ),
        tanks=(tank(on_plan=("A",), reach=feet(2)),),
        features=(
            feature("private well", "W", name="near well"),
            feature("private well", "V", name="far well"),
            feature("tree", "B"),
        ),
    )
    record = lot()
    object.__setattr__(record, "inspection", inspection)
    plan = drawn(record)
    assert [(one.part, one.feature) for one in plan.gaps] == [("tank", "near well")]
    assert plan.gaps[0].words.startswith("38")


def test_a_border_that_crosses_itself_is_still_drawn() -> None:
    bow = shape((0, 0), (4, 4), (4, 0), (0, 4), closed=True)
    assert isinstance(bow, Shape)
    start, end = nearest_ends(bow, shape((10.0, 0.0)))
    assert (start, end) == ((4, 0), (10, 0))
