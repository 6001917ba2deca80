"""What the findings and the third answer say of taped and drawn distances."""

from __future__ import annotations

import pytest
from uncertainties import ufloat

from generator.codes.packs import pack
from generator.findings.answers import answers
from generator.findings.finding import Answer, Finding
from generator.findings.on_distance import distance_findings
from generator.record.load import Workspace, load
from generator.results.asked import judge_all
from generator.results.result import Results
from generator.results.separation import ON_PLAN, TAPED, Pair, pair_name

OREGON = pack("us-or")
WELL = "private well"


def pair(feet: float, how: str, feature: str = WELL, over_plan: str = "") -> Pair:
    """An absorption area so far from a feature, give or take 1 ft."""
    number = ufloat(feet, 0.5)
    prefix = "distance" if how == TAPED else "plan"
    return Pair(
        part="absorption area",
        feature=feature,
        measured_ft=number,
        judged=judge_all(number, OREGON.asked("absorption area", feature)),
        result=pair_name(prefix, "absorption area", feature),
        how=how,
        typed=f"{feet:g} ft",
        over_plan=over_plan,
    )


def told(workspace: Workspace, *pairs: Pair) -> tuple[list[Finding], Answer]:
    """Give the findings of some pairs, and the answer on drinking water."""
    record, results = load(workspace, "demo-larch-hollow"), Results()
    results.parts["pairs"] = list(pairs)
    found = list(distance_findings(record, results, OREGON))
    return found, answers(found, results)[2]


def test_a_short_well_on_the_plan_asks_for_the_laboratory(
    workspace: Workspace,
) -> None:
    """OAR 340-071-0220 Table 1: 100 ft."""
    (finding,), answer = told(workspace, pair(61.0, ON_PLAN))
    assert (finding.key, finding.weight) == (
        "absorption-area-to-private-well",
        "repair",
    )
    assert finding.saw.startswith(
        "61 ft from absorption area to private well on the plan, give or take 1.0 ft. "
        "Oregon asks 100 ft."
    )
    assert "coliform" in finding.todo
    assert answer.word == "no"
    assert answer.findings == (finding.key,)
    assert answer.sentence == (
        "Absorption area to private well: 61 ft on the plan where 100 ft are asked of "
        "new systems. Test the water."
    )


def test_a_taped_pair_speaks_and_the_plan_stands_beside_it(
    workspace: Workspace,
) -> None:
    (finding,), answer = told(workspace, pair(120.0, TAPED), pair(120.5, ON_PLAN))
    assert finding.weight == "sound"
    assert finding.saw.endswith("The plan gives 120.5 ft and agrees.")
    assert finding.evidence == (
        "distance.absorption_area_to_private_well",
        "compare.absorption_area_to_private_well",
    )
    assert answer.sentence == (
        "Absorption area to private well: 120 ft where 100 ft are asked."
    )


def test_why_the_tape_counts_is_said(workspace: Workspace) -> None:
    held = pair(120.0, TAPED, over_plan="the fix of the well is poor.")
    (finding,), answer = told(workspace, held, pair(61.0, ON_PLAN))
    assert finding.saw.endswith(
        "The plan gives 61 ft and disagrees. "
        "The taped distance counts: the fix of the well is poor."
    )
    assert answer.word == "yes"


@pytest.mark.parametrize(
    ("feet", "word"), [(120.0, "yes"), (100.5, "too close to call"), (61.0, "no")]
)
def test_the_third_answer_reads_the_plan(
    workspace: Workspace, feet: float, word: str
) -> None:
    """OAR 340-071-0220 Table 1: 100 ft; guard band of JCGM 106:2012, 8.3."""
    _, answer = told(workspace, pair(feet, ON_PLAN))
    assert answer.word == word


def test_a_property_line_needs_no_laboratory(workspace: Workspace) -> None:
    (finding,), answer = told(workspace, pair(4.0, ON_PLAN, "property line"))
    assert finding.weight == "watch"
    assert "coliform" not in finding.todo
    assert answer.word == "not measured"
