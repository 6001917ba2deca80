"""Deeper water along a pipe, told apart by what ends it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from result_builders import PROPERTY, feet, length, make_run, sight
from uncertainties import ufloat

from generator.record.pipes import LogEntry
from generator.results.pipe_inside import Inside, Water
from generator.results.pipe_log import look, pipe_results
from generator.results.pipe_log_results import NEVER_CLEAR

FLOW = ufloat(4.0, 0.1)  # about 0.44 in deep in the pipe of the tests
Told = tuple[str, float, float | None]


def inside(*log: LogEntry, **changes: object) -> Inside:
    """Look at a log with the test water running."""
    return look(make_run(*log, **changes), FLOW)


def told(*log: LogEntry, **changes: object) -> list[Told]:
    """Tell kind, start and end of each stretch."""
    found = inside(*log, **changes).waters
    return [(one.kind, one.start_ft, one.end_ft) for one in found]


def sag(at_ft: float, to_ft: float | None, water_in: float | None = None) -> LogEntry:
    """A sight that the log calls a sag."""
    to = None if to_ft is None else feet(to_ft)
    return replace(sight(at_ft, "sag", water_in), to=to)


def test_water_that_clears_is_a_sag_and_water_that_lasts_stands() -> None:
    log = [sight(x, water_in=w) for x, w in ((5, 2.0), (10, 0.4), (15, 2.0), (20, 3.0))]
    assert told(*log) == [("sag", 5.0, 10.0), ("standing", 15.0, None)]
    water: Water = inside(*log).standing[0]
    assert water.deepest_in.n == 3.0
    assert water.length_ft == pytest.approx(5.0)


def test_a_logged_sag_never_stands() -> None:
    assert told(sight(5, water_in=3.0), sag(9, None, 3.0)) == [("sag", 5.0, None)]
    assert told(sag(2, 6, 2.0), sight(10, "joint", 2.0)) == [
        ("sag", 2.0, 6.0),
        ("standing", 10.0, None),
    ]


def test_a_logged_sag_of_no_depth_counts() -> None:
    assert told(sag(2, 6)) == [("sag", 2.0, 6.0)]
    assert inside(sag(2, 6)).sags[0].deepest_in is None


@pytest.mark.parametrize("see", ["blockage", "offset joint"])
def test_water_up_to_something_in_the_way_is_held_back(see: str) -> None:
    deep = sight(15, water_in=2.0)
    assert told(deep, sight(20, see)) == [("held back", 15.0, 20.0)]
    assert told(deep, sight(20, see, 3.0)) == [("held back", 15.0, 20.0)]
    assert told(deep, sight(20, see), sight(22, "clear")) == [("held back", 15, 20)]
    held = inside(deep, sight(20, see)).held_back[0]
    assert held.behind is not None
    assert held.behind.see == see


def test_what_lies_within_or_past_the_water_does_not_hold_it() -> None:
    within = [sight(15, water_in=2.0), sight(20, "offset joint", 2.0)]
    assert told(*within, sight(25, water_in=2.0)) == [("standing", 15.0, None)]
    past = [sight(15, water_in=2.0), sight(20, water_in=0.4), sight(25, "blockage")]
    assert told(*past) == [("sag", 15.0, 20.0)]
    shallow = [sight(15, water_in=2.0), sight(20, "offset joint", 0.4)]
    assert told(*shallow) == [("sag", 15.0, 20.0)]


@pytest.mark.parametrize("turn", [1, -1])
def test_two_entries_at_one_place_in_either_order(turn: int) -> None:
    log = [sight(20, "camera under water"), sight(20, "blockage")][::turn]
    assert told(*log) == [("held back", 20.0, 20.0)]


def test_a_camera_under_water_counts_without_a_depth() -> None:
    found = inside(sight(5.0, "camera under water"))
    assert [(one.kind, one.deepest_in) for one in found.waters] == [("standing", None)]
    assert found.sights == ()


def test_a_head_that_the_flow_covers_is_explained() -> None:
    log = sight(5.0, "camera under water")
    assert told(log, head=length(0.3)) == [("flow", 5.0, None)]
    assert told(log, head=length(1.25)) == [("standing", 5.0, None)]
    assert told(log, head=length(0.3), water_on="no") == [("standing", 5.0, None)]


def test_a_clear_sight_ends_the_water_and_a_silent_one_does_not() -> None:
    deep = sight(5.0, water_in=2.0)
    assert told(deep, sight(9.0, "clear")) == [("sag", 5.0, 9.0)]
    assert told(deep, sight(9.0, "joint")) == [("standing", 5.0, None)]


def test_results_name_the_length_of_each_stretch() -> None:
    log = (sag(2, 6, 2.0), sight(10, water_in=0.4), sight(15, water_in=2.0))
    found = {one.name: one for one in pipe_results(inside(*log), FLOW, "water")}
    one = found["pipe.outlet pipe.sag.1"]
    assert (one.value, one.unit) == (pytest.approx(4.0), "ft")
    assert one.working == "l = 6 - 2 = 4 ft"
    assert one.inputs == ("pipe_runs[0].log[0].at", "pipe_runs[0].log[0].to")
    assert found["pipe.outlet pipe.standing_from"].value == 15.0
    held = inside(sight(15, water_in=2.0), sight(20, "blockage"))
    lengths = {one.name: one for one in pipe_results(held, FLOW, "water")}
    assert lengths["pipe.outlet pipe.held_back.1"].value == 5.0


def test_a_sag_of_no_known_end_says_so() -> None:
    found = pipe_results(inside(sag(9, None, 3.0), sight(12, "end")), FLOW, "water")
    [one] = [one for one in found if ".sag." in one.name]
    assert one.value == pytest.approx(3.0)
    assert NEVER_CLEAR in one.assumptions


SEEN = st.sampled_from(
    ["clear", "joint", "offset joint", "blockage", "camera under water", "sag", "end"]
)
ENTRY = st.tuples(
    st.integers(0, 40), SEEN, st.one_of(st.none(), st.sampled_from([0.0, 0.4, 2.0]))
)


@PROPERTY
@given(st.lists(ENTRY, min_size=1, max_size=12), st.booleans())
def test_every_deep_sight_is_in_one_stretch(
    drawn: list[tuple[int, str, float | None]], running: bool
) -> None:
    log = [sight(float(at), see, deep) for at, see, deep in sorted(drawn, key=str)]
    log.sort(key=lambda one: one.distance.feet)
    found = inside(*log, water_on="yes" if running else "no")
    gathered = [id(one) for water in found.waters for one in water.sights]
    assert len(set(gathered)) == len(gathered)
    assert {id(one) for one in found.views if one.deeper} <= set(gathered)
    assert len(found.standing) <= 1
    for water in found.waters:
        assert water.length_ft >= 0
        assert water.end_ft is None or water.end_ft >= water.start_ft
        assert (water.kind == "held back") is (water.behind is not None)
    names = [one.name for one in pipe_results(found, FLOW, "water")]
    assert len(set(names)) == len(names)
