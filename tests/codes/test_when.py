"""Conditions of a row: they hold, they do not, or nobody answered."""

from __future__ import annotations

from dataclasses import fields

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.codes.when import CHOICES, SILENT, WORDS, Answers, When, worlds

PROPERTY = settings(deadline=None, derandomize=True, max_examples=200)
FLOW, CASING, SLOPE = "flow_gpd", "casing_ft", "slope_percent"
NUMBERS = [
    # key, answer, bound, an answer that holds, one that does not
    ("casing_from", CASING, 50, 50.0, 49.9),
    ("casing_below", CASING, 50, 49.9, 50.0),
    ("slope_at_most", SLOPE, 3, 3.0, 3.1),
    ("slope_over", SLOPE, 3, 3.1, 3.0),
    ("flow_from", FLOW, 2000, 2000.0, 1999.0),
    ("flow_below", FLOW, 2000, 1999.0, 2000.0),
    ("flow_at_most", FLOW, 750, 750.0, 751.0),
    ("flow_over", FLOW, 750, 751.0, 750.0),
]
WHOLE_ANSWERS = st.builds(
    Answers,
    **{key: st.sampled_from(values) for key, values in CHOICES.items()},
    **{key: st.floats(0, 100) for key in (CASING, SLOPE, FLOW)},
)
CONDITIONS = st.builds(
    When,
    **{key: st.none() | st.sampled_from(values) for key, values in CHOICES.items()},
    **{key: st.none() | st.integers(0, 100) for key, *_ in NUMBERS},
)
ANSWERS = st.builds(
    Answers,
    **{key: st.none() | st.sampled_from(values) for key, values in CHOICES.items()},
    **{key: st.none() | st.floats(0, 100) for key in (CASING, SLOPE, FLOW)},
)


@pytest.mark.parametrize("key", CHOICES)
def test_a_word_holds_or_not_or_was_not_answered(key: str) -> None:
    wanted, other = CHOICES[key]
    condition = When(**{key: wanted})
    assert condition.holds(Answers(**{key: wanted})) is True
    assert condition.holds(Answers(**{key: other})) is False
    assert condition.holds(SILENT) is None
    assert condition.unanswered(SILENT) == [WORDS[key]]
    assert condition.unanswered(Answers(**{key: other})) == []


def test_beside_is_neither_uphill_nor_downhill() -> None:
    beside = Answers(lies="beside")
    assert When(lies="beside").holds(beside) is True
    assert When(lies="uphill").holds(beside) is False
    assert When(lies="downhill").holds(beside) is False


@pytest.mark.parametrize(("key", "name", "bound", "held", "missed"), NUMBERS)
def test_a_bound_holds_or_not_or_was_not_answered(
    key: str, name: str, bound: int, held: float, missed: float
) -> None:
    condition = When(**{key: bound})
    assert condition.holds(Answers(**{name: held})) is True
    assert condition.holds(Answers(**{name: missed})) is False
    assert condition.holds(SILENT) is None
    assert condition.unanswered(SILENT) == [WORDS[name]]


def test_every_key_is_tested_here() -> None:
    keys = {one.name for one in fields(When)} - {"at"}
    assert keys == {*CHOICES, *(key for key, *_ in NUMBERS)}


@pytest.mark.parametrize(
    ("key", "bound", "small", "large"),
    [
        ("flow_from", 2000, False, None),
        ("flow_over", 2000, False, None),
        ("flow_below", 2000, True, None),
        ("flow_at_most", 2000, True, None),
    ],
)
def test_what_a_flow_cannot_exceed_says_that_it_is_small_and_never_that_it_is_large(
    key: str, bound: int, small: bool, large: None
) -> None:
    condition = When(**{key: bound})
    assert condition.holds(Answers(most_gpd=600.0)) is small
    assert condition.holds(Answers(most_gpd=2400.0)) is large
    assert condition.unanswered(Answers(most_gpd=2400.0)) == [WORDS[FLOW]]
    assert condition.holds(Answers(flow_gpd=2400.0, most_gpd=600.0)) is not small


def test_a_known_no_outweighs_a_missing_answer() -> None:
    condition = When(lies="downhill", slope_over=3)
    assert condition.holds(Answers(lies="uphill")) is False
    assert condition.holds(Answers(slope_percent=2.0)) is False
    assert condition.holds(Answers(lies="downhill")) is None
    assert condition.unanswered(Answers(lies="downhill")) == [WORDS[SLOPE]]
    assert condition.holds(Answers(lies="downhill", slope_percent=4.0)) is True


def test_a_question_is_asked_once() -> None:
    assert When(flow_over=750, flow_at_most=1440).unanswered(SILENT) == [WORDS[FLOW]]


@PROPERTY
@given(CONDITIONS, ANSWERS)
def test_all_that_is_asked_must_hold(condition: When, answers: Answers) -> None:
    """Each key by itself and all together say the same."""
    keys = [one.name for one in fields(When) if one.name != "at"]
    given_ = {key: getattr(condition, key) for key in keys}
    alone = [
        When(**{key: value}).holds(answers)
        for key, value in given_.items()
        if value is not None
    ]
    expected = False if False in alone else None if None in alone else True
    assert condition.holds(answers) is expected


@PROPERTY
@given(CONDITIONS, ANSWERS)
def test_something_is_unanswered_where_nothing_is_known(
    condition: When, answers: Answers
) -> None:
    if condition.holds(answers) is None:
        assert condition.unanswered(answers)
    if not condition.unanswered(answers):
        assert condition.holds(answers) is not None


@PROPERTY
@given(CONDITIONS, ANSWERS, ANSWERS)
def test_more_answers_never_take_back_what_was_sure(
    condition: When, first: Answers, more: Answers
) -> None:
    known = {key: value for key, value in vars(first).items() if value is not None}
    both = Answers(**{**vars(more), **known})
    if condition.holds(first) is not None:
        assert condition.holds(both) == condition.holds(first)


@settings(PROPERTY, max_examples=100)  # each tries every world there is
@given(CONDITIONS, CONDITIONS, WHOLE_ANSWERS)
def test_whatever_the_answers_are_one_of_the_worlds_is_like_them(
    one: When, two: When, answers: Answers
) -> None:
    words = {*one.unanswered(SILENT), *two.unanswered(SILENT)}
    found = {(one.holds(w), two.holds(w)) for w in worlds([one, two], words)}
    assert (one.holds(answers), two.holds(answers)) in found


def test_the_worlds_of_a_code_that_speaks_of_both_sides() -> None:
    up, down = When(lies="uphill"), When(lies="downhill")
    found = [world.lies for world in worlds([up, down], [WORDS["lies"]])]
    assert found == ["uphill", "downhill"]
    beside = worlds([up, When(lies="beside")], [WORDS["lies"]])
    assert [world.lies for world in beside] == ["uphill", "downhill", "beside"]


def test_the_worlds_of_a_bound_lie_below_on_and_above_it() -> None:
    found = worlds([When(casing_below=50)], [WORDS[CASING]])
    assert [world.casing_ft for world in found] == [49.5, 50.0, 50.5]


def test_without_an_open_question_there_is_one_world() -> None:
    assert list(worlds([When(lies="uphill")], [])) == [SILENT]
