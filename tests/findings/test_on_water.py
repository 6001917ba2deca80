"""What is said of the two tests with water, and what the second answer makes of it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from water_builders import CLIMBS, days, judged, load, said

from generator.quantity import Clock, Duration, Level, Target, Volume
from generator.record.model import Household
from generator.record.water import Further, LoadTest, OtherWater, TwoDayTest

# The load test


def test_sound_and_failed() -> None:
    found, answer = judged(load())
    assert (found["load-test"].weight, answer.word) == ("sound", "yes")
    found, answer = judged(load(CLIMBS))
    assert (found["load-test"].weight, answer.word) == ("failed", "no")


@pytest.mark.parametrize(
    "reason", ["level too high", "backing up", "water on the ground"]
)
def test_a_stop_that_failure_forced_is_a_no(reason: str) -> None:
    """Common practice, no source: once failure is plain, the test is stopped."""
    assert said(load(stop_reason=reason, limits=None))[0] == "no"
    assert said(load(stop_reason=reason))[0] == "no"


@pytest.mark.parametrize(
    ("reason", "minutes", "target", "outcome", "words"),
    [
        ("out of time", 24.0, 120.0, "not shown", "for want of time, before the"),
        ("other", 24.0, 120.0, "not shown", "turned off early, before the target"),
        ("out of time", 30.0, None, "not shown", "turned off early, for want of time"),
        ("out of time", 30.0, 120.0, "yes", "back at the outlet"),
        ("target reached", 24.0, 120.0, "yes", "96 gal passed the outlet"),
        ("target reached", 20.0, 120.0, "not shown", "Of 120 gal wanted, 80 gal"),
    ],
)
def test_stopped_early(
    reason: str, minutes: float, target: float | None, outcome: str, words: str
) -> None:
    levels = [(-3.0, 0.0), (minutes, 0.5), (minutes + 15, 0.0)]
    found = said(load(levels, minutes, target, stop_reason=reason))
    assert found[0] == outcome
    assert words in found[1]


@pytest.mark.parametrize("target", [120.0, None])
def test_water_that_only_filled_the_tank(target: float | None) -> None:
    never = said(load([(-3.0, -6.0), (30.0, -1.0), (45.0, -1.0)], target=target))
    assert never[0] == "not shown"
    assert "never came up to the outlet" in never[1]
    mostly = said(load([(-3.0, -4.0), (30.0, 0.5), (45.0, 0.0)], target=target))
    assert mostly[0] == "not shown"
    assert "first took 90 gal to fill itself" in mostly[1]


@pytest.mark.parametrize(
    ("target", "words"),
    [
        (Target(None, 40.0, None, "40 min"), "of the 160 gal (40 min) that were"),
        (Target(None, None, 30.0, "30 % of design flow"), "no figure for the design"),
    ],
)
def test_targets_of_other_kinds(target: Target, words: str) -> None:
    assert words in said(replace(load(), target=target))[1]


def chamber(after: float) -> tuple[Further, ...]:
    """The pump chamber, which began 6 in below its inlet; 10 gal in an inch."""
    before = Level(-6.0, "6 in below")
    return (Further(part="pump chamber", before=before, after=Level(after, "")),)


@pytest.mark.parametrize(
    ("after", "outcome", "words"),
    [
        (-6.0, "yes", "back at the outlet"),
        (2.0, "not shown", "40 gal reached the absorption area: "),
    ],
)
def test_water_that_stayed_in_the_pump_chamber(
    after: float, outcome: str, words: str
) -> None:
    found = said(
        load(further=chamber(after)),
        beyond=("pump chamber",),
        volumes={"pump chamber": lambda low, high: 10.0 * (high - low)},
    )
    assert found[0] == outcome
    assert words in found[1]


@pytest.mark.parametrize(
    "test", [load(), load(further=chamber(0.0))], ids=["no levels", "no volume"]
)
def test_a_part_beyond_that_nobody_measured(test: LoadTest) -> None:
    found = said(test, beyond=("pump chamber",))
    assert found[0] == "not shown"
    assert "What stayed in the pump chamber was not measured" in found[1]


def test_household_water_is_told() -> None:
    use = OtherWater(
        from_=Clock(5.0, "5"), to=Clock(20.0, "20"), gallons=Volume(15.0, "15 gal")
    )
    words = said(load(other_water=(use,)))[1]
    assert "15 gal of it came from the household meanwhile." in words


@pytest.mark.parametrize(
    ("visit", "yes", "no"),
    [
        ({"ground": "saturated"}, "says all the more", "may take more when dry"),
        ({"rain": "heavy"}, "says all the more", "may take more when dry"),
        ({"rain": "light"}, "changes little", "changes little"),
    ],
)
def test_wet_weather_speaks_both_ways(visit: dict[str, str], yes: str, no: str) -> None:
    """Common practice, no source: a full soil takes least."""
    good, bad = said(load(), **visit), said(load(CLIMBS), **visit)
    assert (good[0], bad[0]) == ("yes", "no")
    assert yes in good[1]
    assert no in bad[1]


def test_frozen_ground() -> None:
    good, bad = (said(one, ground="frozen") for one in (load(), load(CLIMBS)))
    assert (good[0], bad[0]) == ("not shown", "no")
    assert "part of the cause" in bad[1]


@pytest.mark.parametrize(
    ("household", "words"),
    [
        (Household(vacant_for=Duration(30240, "3 weeks")), "stood empty for 3 weeks"),
        (Household(pumped_before=Duration(1440, "1 day")), "pumped 1 day before"),
    ],
)
def test_what_the_household_hides(household: Household, words: str) -> None:
    good, bad = (said(one, household=household) for one in (load(), load(CLIMBS)))
    assert (good[0], bad[0]) == ("not shown", "no")
    assert words in good[1]


@pytest.mark.parametrize(
    ("levels", "outcome"),
    [
        ([(0.0, 0.0)], "not shown"),
        ([(-5.0, 0.5), (30.0, 0.25), (45.0, 0.0)], "yes"),
        ([(-5.0, 0.0), (30.0, 0.0), (45.0, 0.0)], "yes"),
    ],
)
def test_one_level_and_levels_that_fall(
    levels: list[tuple[float, float]], outcome: str
) -> None:
    assert said(load(levels))[0] == outcome


# The two-day test


@pytest.mark.parametrize(
    ("test", "weight", "water", "words"),
    [
        (days(), "sound", "yes", "design volume of a day is 400 gal"),
        (days(350.0), "failed", "no", "350 gal on day 2"),
        (days(395.0), "unseen", "not shown", "by no more than it can be off"),
        (days(395.0, 5.0), "unseen", "not shown", "More might have gone in."),
        (days(450.0, 7.0), "unseen", "not shown", "is not known well enough"),
        (days(hours=30.0), "unseen", "not shown", "longer to drain"),
        (days(hours=20.0), "sound", "yes", "20 h lay between the two days"),
        (days(350.0, hours=20.0), "unseen", "not shown", "less time to drain"),
        (days(350.0, hours=30.0), "failed", "no", "30 h lay between"),
        (days(rain="yes"), "sound", "yes", "took even more than was measured"),
        (days(350.0, rain="yes"), "unseen", "not shown", "It rained"),
        (days(350.0, sewage_kept_out="no"), "unseen", "not shown", "Sewage ran in"),
        (days(hours=26.0), "sound", "yes", "where day 1 had ended."),
    ],
)
def test_two_days(test: TwoDayTest, weight: str, water: str, words: str) -> None:
    """Source: the published rule; the 2 h either way of its 24 h are our choice."""
    found = judged(two_days=test)[0]
    assert list(found) == ["two-day-test"]
    one = found["two-day-test"]
    assert (one.weight, one.takes_water) == (weight, water)
    assert words in one.saw


def test_an_area_that_rested_shows_nothing_in_two_days() -> None:
    household = Household(vacant_for=Duration(30240, "3 weeks"))
    found, answer = judged(two_days=days(), household=household)
    assert answer.word == "not shown"
    assert "had stood empty for 3 weeks" in found["two-day-test"].saw
    assert judged(two_days=days(350.0), household=household)[1].word == "no"


# Both


@pytest.mark.parametrize(
    ("one", "two", "word"),
    [
        (load(), days(), "yes"),
        (load(limits=None), days(), "yes"),
        (load(), days(395.0), "yes"),
        (load(limits=None), days(395.0), "not shown"),
        (load(CLIMBS), days(), "no"),
        (load(), days(350.0), "no"),
        (load(limits=None), days(350.0), "no"),
        (load(limits=None), None, "not shown"),
        (None, None, "not shown"),
    ],
)
def test_the_second_answer_weighs_both(
    one: LoadTest | None, two: TwoDayTest | None, word: str
) -> None:
    assert judged(one, two)[1].word == word
