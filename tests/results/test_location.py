"""Places with their uncertainty and what they share, against draws and limit cases."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from math import radians, sqrt

import numpy as np
import pytest
from place_builders import found, lot, pipe, point
from uncertainties import covariance_matrix, umath

from generator.quantity import Tie
from generator.record.model import Record
from generator.record.plan import Place
from generator.results.location import (
    POOR_ANGLE,
    Spot,
    locate,
    location_results,
)
from generator.results.methods import COMPASS_DEG, DISTANCES_FT, RIGHT_ANGLE_DEG
from generator.results.result import Result, nominal

DRAWS = 2000
FIXED = (point("A"), point("B", ("A", 32.0)))


def xy(spot: Spot) -> tuple[float, float]:
    """The coordinates without their uncertainty."""
    return nominal(spot.x_ft), nominal(spot.y_ft)


def results_of(record: Record) -> dict[str, Result]:
    """Every result of the places by name."""
    spots, problems = locate(record)
    assert problems == []
    return {one.name: one for one in location_results(spots, record)}


def drawn(record: Record, draw: random.Random) -> Record:
    """A record whose ties are drawn anew, each within its rectangle."""

    def again(one: Tie, place: Place) -> Tie:
        half = DISTANCES_FT[place.by or "tape"].half_width(one.feet)
        return replace(one, inches=one.inches + 12 * draw.uniform(-half, half))

    def moved(places: tuple[Place, ...]) -> tuple[Place, ...]:
        return tuple(
            replace(place, ties=tuple(again(one, place) for one in place.ties))
            for place in places
        )

    inspection = record.inspection
    assert inspection.datum is not None
    datum = replace(inspection.datum, points=moved(inspection.datum.points))
    places = moved(inspection.places)
    return replace(record, inspection=replace(inspection, datum=datum, places=places))


def test_the_first_point_is_the_origin_and_the_second_gives_the_base_line() -> None:
    spots = found(lot())
    assert xy(spots["A"]) == (0.0, 0.0)
    assert xy(spots["B"]) == (32.0, 0.0)
    expected = DISTANCES_FT["tape"].half_width(32.0) / sqrt(3)
    assert spots["B"].x_ft.s == pytest.approx(expected)
    assert spots["B"].covariance == pytest.approx((expected**2, 0.0, 0.0))


@pytest.mark.parametrize(("side", "y"), [("left", 24.0), ("right", -24.0)])
def test_two_ties(side: str, y: float) -> None:
    """Two ties of 30 ft from a base of 36 ft make a triangle of 18, 24 and 30."""
    fixed = (point("A"), point("B", ("A", 36.0)))
    record = lot(point("L1", ("A", 30.0), ("B", 30.0), side=side), fixed=fixed)
    spot = found(record)["L1"]
    assert xy(spot) == pytest.approx((18.0, y))
    assert spot.residual_ft is None
    assert spot.crossing_deg == pytest.approx(math.degrees(2 * math.asin(0.6)))
    assert side in spot.how


def test_ties_square_to_each_other_from_exact_points() -> None:
    """Two square ties give each its own direction: a circle of u."""
    fixed = (point("A"), point("B", ("A", 50.0), give_or_take=0.0))
    place = point("L1", ("A", 30.0), ("B", 40.0), side="left", give_or_take=0.3)
    spot = found(lot(place, fixed=fixed))["L1"]
    assert spot.crossing_deg == pytest.approx(90)
    assert spot.ellipse.major_ft == pytest.approx(0.3 / sqrt(3))
    assert spot.ellipse.minor_ft == pytest.approx(0.3 / sqrt(3))
    assert spot.ellipse.rms_ft == pytest.approx(0.3 * sqrt(2 / 3))


def test_no_uncertainty_at_all() -> None:
    fixed = (point("A"), point("B", ("A", 50.0), give_or_take=0.0))
    place = point("L1", ("A", 30.0), ("B", 40.0), side="left", give_or_take=0.0)
    record = lot(place, fixed=fixed)
    spot = found(record)["L1"]
    assert spot.covariance == (0.0, 0.0, 0.0)
    assert results_of(record)["place.L1.give_or_take"].value == 0.0


@pytest.mark.parametrize("ties", [(18.0, 14.0), (50.0, 18.0), (18.0, 50.0)])
@pytest.mark.parametrize("half", [0.0, 0.3])
def test_circles_that_touch(ties: tuple[float, float], half: float) -> None:
    place = point("L1", ("A", ties[0]), ("B", ties[1]), give_or_take=half)
    record = lot(place)
    spot = found(record)["L1"]
    assert abs(xy(spot)[0]) == pytest.approx(ties[0])
    assert xy(spot)[1] == pytest.approx(0.0, abs=1e-6)
    assert spot.poor
    across = sqrt(spot.covariance[2])
    assert 0.2 < across < 30
    assert results_of(record)["place.L1.give_or_take"].verdict == POOR_ANGLE


@pytest.mark.parametrize(
    ("angle", "poor"), [(29.0, True), (31.0, False), (149.0, False), (151.0, True)]
)
def test_a_poor_angle_is_told(angle: float, poor: bool) -> None:
    reach = 16 / math.sin(radians(angle / 2))
    record = lot(point("L1", ("A", reach), ("B", reach), side="left"))
    assert found(record)["L1"].crossing_deg == pytest.approx(angle)
    verdict = results_of(record)["place.L1.give_or_take"].verdict
    assert verdict == (POOR_ANGLE if poor else "")


@pytest.mark.parametrize("ties", [(("B", 0.0), ("A", 32.0)), (("B", 0.0),)])
def test_a_tie_of_no_length_is_the_point_itself(
    ties: tuple[tuple[str, float], ...],
) -> None:
    spots = found(lot(point("L1", *ties)))
    assert xy(spots["L1"]) == xy(spots["B"])
    u = DISTANCES_FT["tape"].half_width(0.0) / sqrt(3)
    between = spots["L1"].x_ft - spots["B"].x_ft
    assert between.s == pytest.approx(u)
    assert spots["L1"].y_ft.s == pytest.approx(u)


@pytest.mark.parametrize(
    ("corners", "where"), [("AB", (18, 24)), ("ABC", (18, 14)), ("ABC", (40, 25))]
)
def test_spread_against_random_draws(corners: str, where: tuple[float, float]) -> None:
    """Source: own draws of every reading from its rectangle, each placed anew."""
    corner = point("C", ("A", 24.0), ("B", 40.0), side="left")
    fixed = (*FIXED, corner)
    exact = found(lot(fixed=fixed))
    ties = [(name, math.dist(where, xy(exact[name]))) for name in corners]
    side = "left" if corners == "AB" else None
    record = lot(point("L1", *ties, side=side), fixed=fixed)
    stated = found(record)["L1"]
    assert xy(stated) == pytest.approx(where)
    draw = random.Random(11)
    count = DRAWS if side else DRAWS // 2
    spots = [locate(drawn(record, draw))[0].get("L1") for _ in range(count)]
    again = [xy(spot) for spot in spots if spot]
    assert len(again) >= 0.95 * count
    covariance = np.cov(np.array(again).T)
    xx, mixed, yy = stated.covariance
    assert [xx, yy] == pytest.approx([covariance[0, 0], covariance[1, 1]], rel=0.2)
    assert mixed == pytest.approx(covariance[0, 1], abs=0.15 * sqrt(xx * yy))


def test_what_two_places_share_cancels() -> None:
    """Beside one point at the same height, only the two readings stay."""
    fixed = (point("A"), point("B", ("A", 32.0), give_or_take=4.0))
    places = (
        point("L1", from_="B", toward="A", along=5.0, give_or_take=0.3),
        point("L2", from_="B", toward="A", along=9.0, give_or_take=0.3),
    )
    spots = found(lot(*places, fixed=fixed))
    assert spots["L1"].x_ft.s > 2
    between = spots["L1"].x_ft - spots["L2"].x_ft
    assert between.s == pytest.approx(0.3 * sqrt(2 / 3))


def test_places_tied_to_the_same_points_are_correlated() -> None:
    fixed = (point("A"), point("B", ("A", 32.0), by="paced"))
    places = [
        point(name, ("A", reach), ("B", reach), side="left", give_or_take=0.1)
        for name, reach in (("L1", 30.0), ("L2", 34.0))
    ]
    spots = found(lot(*places, fixed=fixed))
    one, two = spots["L1"], spots["L2"]
    shared = covariance_matrix([one.x_ft, two.x_ft])[0][1]
    assert shared > 0.9 * one.x_ft.s * two.x_ft.s
    between = umath.hypot(one.x_ft - two.x_ft, one.y_ft - two.y_ft)
    assert between.s < 0.5 * one.y_ft.s


@pytest.mark.parametrize(("side", "y"), [("left", 6.0), ("right", -6.0)])
def test_an_offset(side: str, y: float) -> None:
    place = point("L1", from_="A", toward="B", along=12, out=6, side=side)
    spot = found(lot(place))["L1"]
    assert xy(spot) == pytest.approx((12.0, y))
    square = radians(RIGHT_ANGLE_DEG.fixed) / sqrt(3)
    along, out = (DISTANCES_FT["tape"].half_width(r) / sqrt(3) for r in (12, 6))
    assert spot.x_ft.s == pytest.approx(math.hypot(along, 6 * square))
    assert spot.y_ft.s == pytest.approx(out)
    assert RIGHT_ANGLE_DEG.assumption() in spot.assumptions


def test_an_offset_without_a_way_out_lies_on_the_line() -> None:
    assert xy(found(lot(point("L1", from_="B", toward="A", along=40)))["L1"]) == (-8, 0)


def test_north_up() -> None:
    """A base line that runs east (90 deg) stays; one that runs south points down."""
    place = point("L1", from_="A", toward="B", along=12, out=6, side="left")
    east = found(lot(place, bearing=90.0))
    assert xy(east["L1"]) == pytest.approx((12.0, 6.0))
    south = found(lot(place, bearing=180.0))
    assert xy(south["B"]) == pytest.approx((0.0, -32.0), abs=1e-9)
    assert xy(south["L1"]) == pytest.approx((6.0, -12.0))


@pytest.mark.parametrize("base", [0.0, 47.0, 178.0, 360.0])
@pytest.mark.parametrize("bearing", [0.0, 90.0, 140.0, 300.0])
def test_a_bearing_is_clockwise_from_north(base: float, bearing: float) -> None:
    place = point("L1", from_="A", bearing=bearing, distance=30)
    spot = found(lot(place, bearing=base))["L1"]
    turn = radians(bearing)
    assert xy(spot) == pytest.approx((30 * math.sin(turn), 30 * math.cos(turn)))
    compass = radians(COMPASS_DEG.fixed) * sqrt(2 / 3)
    assert spot.ellipse.major_ft == pytest.approx(30 * compass)
    tape = DISTANCES_FT["tape"].half_width(30) / sqrt(3)
    assert spot.ellipse.minor_ft == pytest.approx(tape)


@pytest.mark.parametrize(
    ("reach", "where"),
    [(0, (0, 0)), (10, (10, 0)), (32, (32, 0)), (40, (32, 8)), (60, (32, 28))],
)
def test_along_a_pipe(reach: float, where: tuple[float, float]) -> None:
    run = pipe("outlet pipe", "A", "B", "L1")
    bend = point("L1", from_="B", toward="A", along=0, out=20, side="right")
    cover = point("L2", run="outlet pipe", at_run=reach)
    spot = found(lot(cover, bend, runs=(run,)))["L2"]
    assert xy(spot) == pytest.approx(where, abs=1e-9)
    assert any("drawn on" in said for said in spot.assumptions) is (reach > 52)


def test_length_along_a_pipe_does_not_count_its_corner_twice() -> None:
    """How far B is from A moves the bend, not the length of pipe to a place beyond."""
    fixed = (point("A"), point("B", ("A", 32.0), give_or_take=3.0))
    places = (
        point("C", from_="A", toward="B", along=60.0, give_or_take=0.0),
        point("L1", run="outlet pipe", at_run=50.0, give_or_take=0.0),
    )
    run = pipe("outlet pipe", "A", "B", "C")
    spot = found(lot(*places, fixed=fixed, runs=(run,)))["L1"]
    assert nominal(spot.x_ft) == pytest.approx(50.0)
    assert spot.covariance[0] == pytest.approx(0.0, abs=1e-12)


def test_any_order() -> None:
    places = (
        point("L2", from_="L1", toward="A", along=5),
        point("L1", ("A", 30), ("B", 30), side="left"),
    )
    one, other = found(lot(*places)), found(lot(*reversed(places)))
    assert list(one) == ["A", "B", "L2", "L1"]
    assert {name: xy(spot) for name, spot in one.items()} == {
        name: xy(spot) for name, spot in other.items()
    }


def test_results_name_what_they_come_from() -> None:
    ties = (("A", 30.0), ("B", 30.0))
    record = lot(point("L1", *ties, side="left", what="inlet cover of the tank"))
    results = results_of(record)
    assert list(results) == ["place.L1.x", "place.L1.y", "place.L1.give_or_take"]
    along = results["place.L1.x"]
    assert along.label == (
        "L1, inlet cover of the tank: along the line from A toward B"
    )
    assert along.inputs == ("places[0].ties", "places[0].side")
    assert along.working.endswith("= 16 ft")
    north = results_of(replace_bearing(record))
    assert north["place.L1.x"].label.endswith("east of A")


def replace_bearing(record: Record) -> Record:
    """The same record with the base line running east."""
    (place,) = record.inspection.places
    return lot(place, bearing=90.0)


def test_three_ties_give_a_residual() -> None:
    corner = point("C", ("A", 24.0), ("B", 40.0), side="left")
    place = point("L1", ("A", 20.1), ("B", 20.0), ("C", 20.0))
    results = results_of(lot(place, fixed=(*FIXED, corner)))
    assert 0 < results["place.L1.residual"].value < 0.1
