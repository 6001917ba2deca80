"""What keeps a place from being found is told once, at its key."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from place_builders import lot, pipe, point

from generator.record.plan import Place
from generator.results.location import locate, location_results
from generator.results.result import nominal
from generator.results.whereabouts import misfits


@pytest.mark.parametrize(
    ("places", "field", "words"),
    [
        (
            [point("L1", ("Z", 9), ("B", 9))],
            "places[0].ties[0]",
            'No point is called "Z',
        ),
        ([point("L1", ("L1", 9), ("B", 9))], "places[0].ties[0]", "from itself"),
        ([point("L1", ("A", 9), ("A", 9))], "places[0].ties[1]", "stands twice"),
        ([point("L1", ("A", 9))], "places[0].ties", "One tie alone"),
        ([point("L1", ("A", 20), ("B", 20))], "places[0].ties", "meet twice"),
        ([point("L1")], "places[0]", "Nothing says where L1 is"),
        ([point("L1", from_="A")], "places[0]", 'no "toward"'),
        ([point("L1", along=3)], "places[0]", 'no "from"'),
        ([point("L1", bearing=3.0)], "places[0]", 'no "from"'),
        ([point("L1", run="drain")], "places[0].run", "No pipe run"),
        ([point("L1", at_run=4)], "places[0]", 'no "run"'),
        (
            [point("L1", from_="A", toward="B", along=3, out=3)],
            "places[0].out",
            "side of the line",
        ),
        ([point("L1", ("A", 0), ("B", 9))], "places[0].ties", "cannot meet"),
    ],
)
def test_what_cannot_be_found_is_told(
    places: list[Place], field: str, words: str
) -> None:
    record = lot(*places)
    spots, problems = locate(record)
    assert problems == misfits(record)
    assert [one.field for one in problems] == [field]
    assert words in problems[0].message
    assert set(spots) == {"A", "B"}


def test_a_bearing_needs_the_bearing_of_the_base_line() -> None:
    (told,) = misfits(lot(point("L1", from_="A", bearing=9.0, distance=30)))
    assert told.field == "places[0].bearing"


def test_the_second_point_is_measured_from_the_first() -> None:
    fixed = (point("A"), point("B", ("C", 32.0)), point("C", ("A", 9.0)))
    told = misfits(lot(fixed=fixed))
    assert "datum.points[1].ties[0]" in {one.field for one in told}


def test_the_first_point_has_no_measure() -> None:
    fixed = (point("A", ("B", 32.0)), point("B", from_="C", toward="C", along=1.0))
    assert misfits(lot(fixed=fixed))


def test_two_points_of_one_name() -> None:
    told = misfits(lot(point("B", ("A", 30.0), ("B", 20.0), side="left")))
    assert [one.field for one in told] == ["places[0].name"]


def test_a_long_chain_and_many_ties_are_no_trouble() -> None:
    chain = [
        point(f"P{one}", from_="A" if one == 0 else f"P{one - 1}", toward="B", along=1)
        for one in range(20, -1, -1)
    ]
    assert misfits(lot(*chain)) == []


def test_a_circle_is_told_and_what_hangs_on_it_is_not_told_again() -> None:
    places = (
        point("L1", ("A", 9), ("L2", 9), side="left"),
        point("L2", ("A", 9), ("L1", 9), side="left"),
        point("L3", from_="L1", toward="A", along=5),
    )
    told = misfits(lot(*places))
    assert [one.field for one in told] == ["places[0]", "places[1]"]
    assert "goes round in a circle" in told[0].message


def test_a_pipe_of_one_point_holds_no_place() -> None:
    place = point("L1", run="drain", at_run=4)
    (told,) = misfits(lot(place, runs=(pipe("drain", "A"),)))
    assert told.field == "places[0].run"


def test_no_datum_is_no_crash() -> None:
    record = lot(point("L1", ("A", 9), ("B", 9), side="left"))
    bare = replace(record, inspection=replace(record.inspection, datum=None))
    assert [one.message for one in misfits(bare)] == [
        'No point is called "A".',
        'No point is called "B".',
    ]


@pytest.mark.parametrize("reach", [0.0, 1e-6, 1.0, 1e6])
@pytest.mark.parametrize("base", [0.0, 1e-6, 32.0, 1e6])
def test_odd_sizes_give_a_place_or_a_problem(base: float, reach: float) -> None:
    fixed = (point("A"), point("B", ("A", base)))
    places = (
        point("L1", ("A", reach), ("B", reach), side="left"),
        point("L2", from_="A", toward="B", along=reach, out=reach, side="right"),
        point("L3", run="drain", at_run=reach),
        point("L4", ("A", reach), ("B", reach), ("L2", reach)),
    )
    record = lot(*places, fixed=fixed, runs=(pipe("drain", "A", "B"),))
    spots, problems = locate(record)
    for spot in spots.values():
        assert all(
            math.isfinite(one)
            for one in (nominal(spot.x_ft), nominal(spot.y_ft), *spot.covariance)
        )
    assert len(problems) <= len(places)
    for one in location_results(spots, record):
        assert math.isfinite(one.value)
