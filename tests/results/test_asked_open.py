"""Rows whose conditions a job file does not answer: only what is sure is said."""

from __future__ import annotations

from dataclasses import replace

import pytest
from code_builders import FIELD, WELL, WITH_ROWS, code, ft, judged, row
from plan_builders import job, taped

from generator.codes.packs import Asked, Pack, pack
from generator.codes.when import Answers, When, worlds
from generator.results.asked import CONFIRM, NO_FIGURE, judge_all
from generator.results.guard_band import MEETS, SHORT
from generator.results.separation import pairs_of

UPHILL, DOWNHILL = When(lies="uphill"), When(lies="downhill")
A_HOUSE = Answers(most_gpd=600.0)
SPRING = code("state", row(50, when=UPHILL), row(100, when=DOWNHILL))


@pytest.mark.parametrize(
    ("feet", "verdict", "asked"),
    [(45.0, SHORT, 50), (75.0, CONFIRM, 100), (110.0, MEETS, 100)],
)
def test_open_conditions_ask_unless_every_way_says_the_same(
    feet: float, verdict: str, asked: int
) -> None:
    found = judged(feet, SPRING)
    assert (found.verdict, found.row.feet) == (verdict, asked)
    if verdict == CONFIRM:
        assert found.because == (
            "State may ask 100 ft: it depends on whether it lies uphill or downhill, "
            "which was not recorded."
        )


@pytest.mark.parametrize(
    ("lies", "verdict"), [("uphill", MEETS), ("downhill", SHORT), ("beside", NO_FIGURE)]
)
def test_an_answer_decides(lies: str, verdict: str) -> None:
    assert judged(75.0, SPRING, answers=Answers(lies=lies)).verdict == verdict


@pytest.mark.parametrize(("feet", "verdict"), [(20.0, CONFIRM), (60.0, MEETS)])
def test_a_row_that_may_not_hold_at_all_is_never_short(
    feet: float, verdict: str
) -> None:
    """Downhill 50 ft are asked, uphill nothing is."""
    found = judged(feet, code("state", row(50, when=DOWNHILL)))
    assert (found.verdict, found.row.feet) == (verdict, 50)


@pytest.mark.parametrize(
    ("feet", "verdict"), [(45.0, SHORT), (75.0, CONFIRM), (110.0, MEETS)]
)
def test_a_stricter_row_that_may_hold_asks(feet: float, verdict: str) -> None:
    """Minn. R. 4725.4450: 50 ft, and 100 ft where the casing is less than 50 ft."""
    found = judge_all(ft(feet), pack("us-mn").asked(FIELD, WELL, A_HOUSE))
    assert found.verdict == verdict


def test_two_codes_that_open_the_same_question_are_joined() -> None:
    """Uphill 75 ft and downhill 100 ft are asked, the stricter of the two codes."""
    town = code("town", row(75, when=UPHILL), row(90, when=DOWNHILL))
    assert judged(60.0, town, SPRING).verdict == SHORT
    assert judged(80.0, town, SPRING).verdict == CONFIRM


def test_conditions_that_contradict_each_other_ask() -> None:
    never = When(flow_from=2000, flow_below=1000)
    for feet in (10.0, 600.0):
        assert judged(feet, code("state", row(50, when=never))).verdict == CONFIRM


@pytest.mark.parametrize("name", WITH_ROWS)
@pytest.mark.parametrize("feet", [3.0, 15.0, 30.0, 80.0, 120.0, 600.0])
def test_what_is_said_of_an_open_row_is_true_in_every_case(
    name: str, feet: float
) -> None:
    """Each case is judged as if the job file had answered it."""
    found = pack(name)
    for part, feature in sorted({(r.from_, r.to) for r in found.separation.rows}):
        asked = found.asked(part, feature)
        verdict = judge_all(ft(feet), asked).verdict
        cases = {_answered(found, part, feature, feet, a) for a in _answers(asked)}
        if verdict == MEETS:
            assert cases <= {MEETS, NO_FIGURE}
        elif verdict != CONFIRM:
            assert cases == {verdict}
        elif any(one.row.read for one in asked):
            assert len(cases - {CONFIRM}) > 1 or CONFIRM in cases


def _answers(asked: tuple[Asked, ...]) -> list[Answers]:
    words = [word for one in asked for word in one.unanswered]
    return list(worlds([one.row.when for one in asked if one.row.when], words))


def _answered(
    found: Pack, part: str, feature: str, feet: float, answers: Answers
) -> str:
    return judge_all(ft(feet), found.asked(part, feature, answers)).verdict


# ------------------------------------------------------------ what real codes ask


@pytest.mark.parametrize(
    ("bedrooms", "feet", "verdict"),
    [
        (3, 80.0, MEETS),  # 600 gal/day at the most: 75 ft
        (3, 70.0, SHORT),
        (4, 80.0, CONFIRM),  # 800 at the most: 75 or 100 ft
        (4, 110.0, MEETS),
        (4, 70.0, SHORT),
        (None, 110.0, CONFIRM),  # up to 150 ft
        (None, 160.0, MEETS),
    ],
)
def test_new_hampshire_by_the_most_that_a_house_can_use(
    bedrooms: int | None, feet: float, verdict: str
) -> None:
    """Env-Wq 1008.06: 75 ft to 750 gal/day, then 100, 125 and 150 ft."""
    found = job(distances=(taped(feet),))
    house = replace(found, property=replace(found.property, bedrooms=bedrooms))
    (pair,) = pairs_of(house, pack("us-nh"))
    assert pair.verdict == verdict


@pytest.mark.parametrize(
    ("name", "part", "asked"),
    [
        ("us-ny", "seepage pit", 150),  # 10 NYCRR Appendix 5-B Table 1
        ("us-ny", "cesspool", 200),
        ("us-ny", "tank", 50),
        ("us-nj", "seepage pit", 150),  # N.J.A.C. 7:9A-4.3
        ("us-fl", "tank", 75),  # Fla. Admin. Code R. 62-6.005, for every part
        ("us-fl", "seepage pit", 75),
    ],
)
def test_what_is_surely_asked_to_a_private_well(
    name: str, part: str, asked: int
) -> None:
    sure = [one.row.feet for one in pack(name).asked(part, WELL) if one.holds]
    assert max(sure) == asked


def test_a_tank_that_leaks_must_lie_farther() -> None:
    """10 NYCRR Appendix 5-B Table 1: 50 ft, 100 ft where it is not watertight."""
    new_york = pack("us-ny")
    for watertight, verdict in (("yes", MEETS), ("no", SHORT), (None, CONFIRM)):
        asked = new_york.asked("tank", WELL, Answers(watertight=watertight))
        assert judge_all(ft(75.0), asked).verdict == verdict
