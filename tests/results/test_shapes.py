"""What the job file names becomes points, lines and areas."""

from __future__ import annotations

import pytest
from plan_builders import area, feature, job, spot, tank
from result_builders import feet, length, make_run, sight
from scipy.stats import uniform

from generator.record.parts import DistributionBox, PumpChamber
from generator.record.pipes import PipeRun
from generator.record.plan import Datum, Place
from generator.results.measured import DISTANCES_FT
from generator.results.shapes import feature_shapes, part_shapes

SPOTS = {
    name: spot(x, y)
    for name, (x, y) in {
        "A": (0, 0),
        "B": (30, 0),
        "C": (30, 20),
        "D": (0, 20),
        "D2": (0, 20),
    }.items()
}


def test_every_part_by_the_name_of_the_codes() -> None:
    sewer = make_run(sight(1.0), on_plan=("A", "B"))
    inspection = job(
        tanks=(tank(on_plan=("A",)), tank("tank 2", 1, on_plan=("B",))),
        distribution_box=DistributionBox(at="distribution_box", on_plan=("C",)),
        pump_chamber=PumpChamber(at="pump_chamber", shape="box", on_plan=("D",)),
        absorption_areas=(area(outline=("A", "B", "C", "D")),),
        pipe_runs=(_named(sewer, "Building sewer, front"), sewer),
    )
    assert [(one.kind, one.called) for one in part_shapes(inspection, SPOTS)] == [
        ("building sewer", "building sewer (Building sewer, front)"),
        ("tank", "tank"),
        ("tank", "tank (tank 2)"),
        ("distribution box", "distribution box"),
        ("pump chamber", "pump chamber"),
        ("absorption area", "absorption area (field)"),
    ]


def _named(run: PipeRun, name: str) -> PipeRun:
    return PipeRun(
        at=run.at, name=name, bore=run.bore, log=run.log, on_plan=run.on_plan
    )


def test_points_lines_and_areas() -> None:
    inspection = job(
        features=(
            feature("private well", "A"),
            feature("property line", "A", "B", "C"),
            feature("building", "A", "B", "C", "D", outline=True),
            feature("driveway", "A", "B", outline=True),
        )
    )
    found = feature_shapes(inspection, SPOTS)
    assert [len(one.vertices) for one in found] == [1, 3, 4, 2]
    assert [one.closed for one in found] == [False, False, True, False]
    assert [len(one.edges) for one in found] == [0, 2, 4, 1]
    assert found[0].paths == ("features[0].on_plan",)
    assert found[2].paths == ("features[0].outline",)


def test_the_border_counts_where_both_are_given() -> None:
    one = area(on_plan=("A",), outline=("B", "C", "D"))
    (found,) = part_shapes(job(absorption_areas=(one,)), SPOTS)
    assert [vertex.name for vertex in found.vertices] == ["B", "C", "D"]


def test_reach_is_measured_by_tape() -> None:
    """Source: scipy, a rectangle of the half-width of a tape."""
    one = tank(on_plan=("A",), reach=length(30.0))
    (found,) = part_shapes(job(tanks=(one,)), SPOTS)
    half = DISTANCES_FT["tape"].half_width(2.5)
    assert found.reach_ft.n == 2.5
    assert found.reach_ft.s == pytest.approx(uniform(0, 2 * half).std())
    assert found.paths == ("tanks[0].on_plan", "tanks[0].reach")


def test_the_house_is_foundation_and_building() -> None:
    points = (Place(at="datum.points[0]", name="A", along=feet(1.0)),)
    datum = Datum(at="datum", points=points, house=("A", "B", "C", "D"))
    found = feature_shapes(job(datum=datum), SPOTS)
    assert [(one.kind, one.name, one.closed) for one in found] == [
        ("foundation", "house", True),
        ("building", "house", True),
    ]
    assert found[0].paths == ("datum.house",)


def test_what_has_no_place_is_left_out() -> None:
    nowhere = tank(), tank("tank 2", 1, on_plan=("A", "X"))
    assert part_shapes(job(tanks=nowhere), SPOTS) == []
    datum = Datum(at="datum", points=())
    assert feature_shapes(job(datum=datum), SPOTS) == []


@pytest.mark.parametrize(
    ("names", "kept"),
    [
        (("A", "B", "C", "D", "A"), 4),  # closed by naming the first again
        (("A", "B", "C", "D", "D2"), 4),  # two names of one place
        (("A", "A", "A"), 1),
        (("D", "D2"), 1),
    ],
)
def test_a_place_named_twice_counts_once(names: tuple[str, ...], kept: int) -> None:
    (found,) = part_shapes(job(absorption_areas=(area(outline=names),)), SPOTS)
    assert len(found.vertices) == kept
    assert found.closed is (kept > 2)
