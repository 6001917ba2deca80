"""Distances of the plan beside the code, and beside what was taped."""

from __future__ import annotations

from dataclasses import replace

import pytest
from plan_builders import area, feature, job, record, spot, tank, taped
from scipy.stats import norm
from uncertainties import ufloat

from generator.codes.packs import pack
from generator.record.model import Inspection
from generator.results.asked import NO_FIGURE, Judged
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.plan_pairs import plan_pairs_of
from generator.results.result import nominal, standard
from generator.results.separation import (
    ON_PLAN,
    TAPED,
    Pair,
    pairs_of,
    separation_results,
)
from generator.results.shapes import Located
from generator.results.taped_against_plan import (
    AGREE,
    DISAGREE,
    agree,
    comparison_results,
    comparisons_of,
    disagreements,
    speaking,
)

OREGON = pack("us-or")
WELL, LINE = "private well", "property line"
SPOTS: dict[str, Located] = {
    "T": spot(0, 0),
    "F": spot(0, 40),
    "W": spot(61, 40),
    "W2": spot(0, 160),
    "L1": spot(-12, -50),
    "L2": spot(-12, 200),
    "M1": spot(-3, -50),
    "M2": spot(-3, 200),
}


def lot(*distances: object, wells: tuple[str, ...] = ("W",)) -> Inspection:
    """A tank and a field between a well or two and two lines."""
    return job(
        tanks=(tank(on_plan=("T",)),),
        absorption_areas=(area(on_plan=("F",)),),
        features=(
            *(feature(WELL, name, name=f"well {name}") for name in wells),
            feature(LINE, "L1", "L2", name="west line"),
            feature(LINE, "M1", "M2", name="lane"),
            feature("driveway", "M1", "M2"),
        ),
        distances=distances,
    )


def all_pairs(inspection: Inspection) -> list[Pair]:
    """Taped pairs and those of the plan."""
    taped_pairs = pairs_of(inspection, OREGON)
    return taped_pairs + plan_pairs_of(inspection, SPOTS, OREGON)


def test_only_what_the_code_speaks_of_and_the_nearest_first() -> None:
    """Source: OAR 340-071-0220 Table 1; distances by Pythagoras."""
    found = {p.result: p for p in plan_pairs_of(lot(), SPOTS, OREGON)}
    assert {
        name: (round(nominal(p.measured_ft), 2), p.row and p.row.feet, p.verdict)
        for name, p in found.items()
    } == {
        "plan.tank_to_property_line": (3.0, 5, SHORT),
        "plan.absorption_area_to_property_line": (3.0, 10, SHORT),
        "plan.tank_to_property_line#2": (12.0, 5, MEETS),
        "plan.absorption_area_to_property_line#2": (12.0, 10, MEETS),
        "plan.absorption_area_to_private_well": (61.0, 100, SHORT),
        "plan.tank_to_private_well": (72.95, 50, MEETS),
    }
    nearest = found["plan.tank_to_property_line"]
    assert (nearest.feature_name, nearest.how) == ("lane", "on the plan")
    assert nearest.label == "Tank to property line (lane)"


def test_without_a_code_drinking_water_alone() -> None:
    found = plan_pairs_of(lot(), SPOTS, None)
    assert {pair.feature for pair in found} == {WELL}
    assert {pair.verdict for pair in found} == {NO_FIGURE}
    assert {one.source for one in separation_results(found)} == {"JCGM106"}


def test_results_of_the_plan_show_their_working() -> None:
    pairs = plan_pairs_of(lot(), SPOTS, OREGON)
    found = {one.name: one for one in separation_results(pairs)}
    well = found["plan.absorption_area_to_private_well"]
    assert well.working == "D = sqrt((0 − 61)² + (40 − 40)²) − 0 − 0 = 61 ft"
    assert well.inputs == ("absorption_areas[0].on_plan", "features[0].on_plan")
    assert well.label == (
        "Absorption area (field) to private well (well W), on the plan, 100 ft asked"
    )


def test_a_close_one_says_how_likely_it_meets() -> None:
    """Source: scipy, the normal distribution."""
    (pair,) = pairs_of(job(distances=(taped(100.1),)), OREGON)
    assert pair.verdict == CLOSE
    _, likely = separation_results([pair])
    assert likely.name == "distance.absorption_area_to_private_well.probability"
    wanted = 100 * norm(100.1, standard(pair.measured_ft)).sf(100)
    assert likely.value == pytest.approx(wanted)
    assert likely.unit == "%"


@pytest.mark.parametrize("measured_ft", [82.0, 130.0])
def test_a_clear_one_says_nothing_of_likelihood(measured_ft: float) -> None:
    pairs = pairs_of(job(distances=(taped(measured_ft),)), OREGON)
    assert len(separation_results(pairs)) == 1


@pytest.mark.parametrize(
    ("difference", "same"),
    [
        (ufloat(2.0, 1.0), True),
        (ufloat(-2.0, 1.0), True),
        (ufloat(2.001, 1.0), False),
        (0.0, True),
        (1e-13, True),
        (0.01, False),
    ],
)
def test_agreement_at_twice_the_uncertainty(difference: object, same: bool) -> None:
    assert agree(difference) is same


def test_taped_and_plan_agree() -> None:
    found = comparisons_of(all_pairs(lot(taped(61.4))))
    (result,) = comparison_results(found)
    assert result.name == "compare.absorption_area_to_private_well"
    assert (result.verdict, result.unit) == (AGREE, "ft")
    assert result.value == pytest.approx(0.4)
    tape = standard(pairs_of(job(distances=(taped(61.4),)), None)[0].measured_ft)
    assert result.uncertainty == pytest.approx((tape**2 + 2 * 0.2**2) ** 0.5)
    assert result.working == "difference = 61.4 − 61 = 0.4 ft"
    given = record(lot(taped(61.4)), ["distances[0].distance"])
    assert disagreements(given, all_pairs(given.inspection)) == []


@pytest.mark.parametrize(
    ("by", "counted"), [("tape", TAPED), ("wheel", ON_PLAN), ("paced", ON_PLAN)]
)
def test_the_surer_of_two_that_agree_counts(by: str, counted: str) -> None:
    pairs = all_pairs(lot(replace(taped(61.4), by=by)))
    (one,) = comparisons_of(pairs)
    assert one.counts.how == counted
    assert {one.counts.how, one.other.how} == {TAPED, ON_PLAN}
    surest = min(standard(one.taped.measured_ft), standard(one.plan.measured_ft))
    assert standard(one.counts.measured_ft) == surest
    assert one.counts in speaking(pairs)
    assert one.other not in speaking(pairs)


def test_taped_and_plan_disagree() -> None:
    given = record(lot(taped(82.0)), ["distances[0].distance"])
    (problem,) = disagreements(given, all_pairs(given.inspection))
    assert str(problem) == (
        "inspections/demo.yaml:10: distances[0].distance: Taped 82 ft from absorption "
        "area to private well, and the plan gives 61 ft: they differ by more than both "
        "can be off.\n"
        '  Check the tape, the ties and the points; or say under "over_plan" why the '
        "taped distance counts."
    )


def test_the_inspector_may_hold_to_the_tape() -> None:
    one = taped(82.0, over_plan="the phone fix of the well is poor")
    given = record(lot(one), ["distances[0].distance"])
    assert disagreements(given, all_pairs(given.inspection)) == []
    (result,) = comparison_results(comparisons_of(all_pairs(lot(one))))
    assert result.verdict == DISAGREE
    assert result.assumptions == (
        "the taped distance counts: the phone fix of the well is poor",
    )


def test_two_of_a_kind_are_compared_in_order() -> None:
    """Taped from far to near; the plan knows one well of the two, then both."""
    both = taped(120.3), taped(61.2, place=1)
    one_well = comparisons_of(all_pairs(lot(*both)))
    assert [(c.taped.typed, c.verdict) for c in one_well] == [("61.2 ft", AGREE)]
    two_wells = comparisons_of(all_pairs(lot(*both, wells=("W2", "W"))))
    assert [(c.taped.typed, c.verdict) for c in two_wells] == [
        ("61.2 ft", AGREE),
        ("120.3 ft", AGREE),
    ]
    assert [c.result for c in two_wells] == [
        "compare.absorption_area_to_private_well#2",
        "compare.absorption_area_to_private_well",
    ]


def test_nothing_to_compare() -> None:
    assert comparisons_of([]) == []
    assert comparisons_of(all_pairs(lot(taped(5.0, to="wetland")))) == []
    assert disagreements(record(job()), []) == []


def test_findings_speak_of_the_taped_the_nearest_and_the_short() -> None:
    spoken = [pair.result for pair in speaking(all_pairs(lot(taped(61.2))))]
    assert spoken == [
        "distance.absorption_area_to_private_well",
        "plan.tank_to_property_line",
        "plan.absorption_area_to_property_line",
        "plan.tank_to_private_well",
    ]


def test_a_short_one_beyond_the_nearest_speaks_too() -> None:
    pairs = all_pairs(lot(taped(61.2), wells=("W", "W2")))
    second = "plan.absorption_area_to_private_well#2"
    assert second not in [pair.result for pair in speaking(pairs)]
    shorter = [
        replace(p, judged=Judged(SHORT)) if p.result == second else p for p in pairs
    ]
    assert second in [pair.result for pair in speaking(shorter)]
