"""What a job file answers to the conditions of a code."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plan_builders import job, tank
from result_builders import PROPERTY, feet

from generator.codes.packs import Pack, names, pack
from generator.codes.when import CHOICES, SILENT, Answers
from generator.record.amounts import slope
from generator.record.model import Inspection
from generator.record.plan import Feature
from generator.results.conditions import LEAST_BEDROOMS_COUNTED, TIGHT, Lot

WELL = "private well"
SPRING = "spring"


def feature(name: str = "one", kind: str = SPRING, **given: object) -> Feature:
    """A feature of the lot."""
    return Feature(name=name, kind=kind, **given)  # type: ignore[arg-type]


def answers(
    *features: Feature, part: str = "tank", kind: str = SPRING, name: str = ""
) -> Answers:
    """What a job with these features answers."""
    return Lot(job(features=features), None).answers(part, kind, name)


def at_home(**given: object) -> Inspection:
    """A job with something said of the property."""
    found = job()
    return replace(found, property=replace(found.property, **given))


def house(bedrooms: int | None, code: Pack | None) -> Answers:
    """What a house of so many bedrooms answers."""
    lot = Lot(at_home(bedrooms=bedrooms), code)
    return lot.answers("absorption area", WELL)


def test_a_silent_job_answers_nothing() -> None:
    assert answers() == SILENT


@pytest.mark.parametrize("key", [key for key in CHOICES if key != "watertight"])
def test_one_feature_answers(key: str) -> None:
    for value in CHOICES[key]:
        assert getattr(answers(feature(**{key: value})), key) == value


def test_features_of_another_kind_do_not_answer() -> None:
    assert answers(feature(kind="drain", lies="uphill")) == SILENT


@pytest.mark.parametrize(
    ("first", "second", "told"),
    [
        ("uphill", "uphill", "uphill"),
        ("uphill", "downhill", None),
        ("uphill", None, None),
        (None, None, None),
    ],
)
def test_several_features_answer_where_they_are_alike(
    first: str | None, second: str | None, told: str | None
) -> None:
    two = (feature("one", lies=first), feature("two", lies=second))
    assert answers(*two).lies == told


def test_a_named_feature_answers_for_itself() -> None:
    two = (feature("one", lies="uphill"), feature("two", lies="downhill"))
    assert answers(*two, name="one").lies == "uphill"
    assert answers(*two, name="two").lies == "downhill"
    assert answers(*two, name="three").lies is None


@pytest.mark.parametrize(
    ("casings", "told"),
    [((60.0,), 60.0), ((60.0, 40.0), 40.0), ((60.0, None), None), ((None,), None)],
)
def test_the_casing_by_the_least(
    casings: tuple[float | None, ...], told: float | None
) -> None:
    wells = [
        feature(str(at), WELL, casing=None if one is None else feet(one))
        for at, one in enumerate(casings)
    ]
    assert answers(*wells, kind=WELL).casing_ft == told


@pytest.mark.parametrize(
    ("structures", "told"),
    [
        (("sound",), "yes"),
        (("worn",), "yes"),
        (("cracked",), "no"),
        (("leaking",), "no"),
        (("not seen",), None),
        ((None,), None),
        ((), None),
        (("sound", "worn"), "yes"),
        (("leaking", "cracked"), "no"),
        (("sound", "leaking"), None),
        (("sound", None), None),
        (("leaking", None), None),
    ],
)
def test_watertight_where_all_tanks_are_alike(
    structures: tuple[str | None, ...], told: str | None
) -> None:
    """A distance from a tank does not say which; one that leaks may be the other."""
    tanks = tuple(tank(str(at), at, structure=one) for at, one in enumerate(structures))
    lot = Lot(job(tanks=tanks), None)
    assert lot.answers("tank", WELL).watertight == told
    assert lot.answers("cesspool", WELL).watertight is None


def test_states_of_a_tank_that_speak_of_water_are_known() -> None:
    assert set(TIGHT.values()) == {"yes", "no"}
    assert "not seen" not in TIGHT


@pytest.mark.parametrize("typed", ["3 %", "3 in per 100 in"])
def test_slope_in_percent(typed: str) -> None:
    found = Lot(at_home(ground_slope=slope(typed)), None).answers("tank", SPRING)
    assert found.slope_percent == 3.0


@PROPERTY
@given(st.integers(0, 60))
def test_a_whole_percent_stays_whole(percent: int) -> None:
    """A bound of 7 % holds for ground that was typed as 7 %."""
    found = Lot(at_home(ground_slope=slope(f"{percent} %")), None)
    assert found.answers("tank", SPRING).slope_percent == percent


@pytest.mark.parametrize(
    ("code", "bedrooms", "gpd"),
    [
        ("us-pa", 3, 400.0),  # 25 Pa. Code 73.17(a)
        ("us-wa", 3, 360.0),  # WAC 246-272A-0230(2)(d)
        ("us-nj", 4, 650.0),  # N.J.A.C. 7:9A-7.4(b)
        ("us-mn", 1, None),  # the table begins with two bedrooms
        ("us-ma", 3, None),  # from memory, not seen
        ("us-nh", 3, None),  # no sewage flows at hand
        ("us-pa", None, None),
        ("us-pa", 0, None),
    ],
)
def test_design_flow_by_the_code_where_it_was_read(
    code: str, bedrooms: int | None, gpd: float | None
) -> None:
    assert house(bedrooms, pack(code)).flow_gpd == gpd


@pytest.mark.parametrize(
    ("bedrooms", "most"), [(None, None), (0, None), (1, 400.0), (2, 400.0), (4, 800.0)]
)
def test_the_most_of_a_house_without_a_code(
    bedrooms: int | None, most: float | None
) -> None:
    found = house(bedrooms, None)
    assert (found.flow_gpd, found.most_gpd) == (None, most)


@pytest.mark.parametrize("name", names())
def test_no_code_at_hand_gives_a_house_more_than_the_most(name: str) -> None:
    assert LEAST_BEDROOMS_COUNTED == 2
    for bedrooms in range(1, 31):
        asked = pack(name).gpd(bedrooms)
        if asked is not None:
            assert asked <= house(bedrooms, None).most_gpd
