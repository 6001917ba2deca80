"""What the section of a tank shows of its levels, its devices and its thin layers."""

from __future__ import annotations

from pathlib import Path

import pytest
from figure_builders import artist, has, make_tank, make_test, words

from generator.figures import tank_section
from generator.figures.tank_levels import Levels, levels_of, lines_of
from generator.pictures import draw as pictures_of
from generator.quantity import Length
from generator.record.load import Workspace
from generator.worked import work_out

GOOD = Path(__file__).parent.parent / "jobs" / "good"
ALL_THREE = Levels((-6.0, 0.5, -1.0))


def height(figure, name: str) -> float:
    low, high = artist(figure, name).get_ydata()
    assert low == high
    return float(low)


def top(patch) -> float:
    return patch.get_y() + patch.get_height()


def test_start_highest_and_last_level_are_drawn_each_in_its_own_line() -> None:
    figure = tank_section.draw(make_tank(), ALL_THREE)
    drawn = {name: height(figure, f"{name} level") for name in
             ("start", "highest", "last")}  # fmt: skip
    assert drawn == {"start": -6, "highest": 0.5, "last": -1}
    styles = {str(artist(figure, f"{name} level")._dash_pattern) for name in drawn}
    assert len(styles) == 3
    assert {
        "start: 6 in below the outlet",
        "highest in the test: 0.5 in above the outlet",
        "last: 1 in below the outlet",
    } <= set(words(figure))


@pytest.mark.parametrize(
    ("read_in", "told"),
    [
        ((-6.0, -1.0), ["start: 6 in below the outlet",
                        "highest and last: 1 in below the outlet"]),
        ((0.0, 0.5, 0.0), ["start and last: at the outlet",
                           "highest in the test: 0.5 in above the outlet"]),
        ((0.5, 0.5, 0.0), ["start and highest: 0.5 in above the outlet",
                           "last: at the outlet"]),
        ((0.0, 0.125), ["all through the test: at the outlet"]),
        ((-2.0,), ["start: 2 in below the outlet"]),
    ],
)  # fmt: skip
def test_levels_within_a_reading_step_are_told_as_one(read_in, told) -> None:
    assert [line.words for line in lines_of(Levels(read_in))] == told


def test_the_step_that_was_read_decides_what_is_one_level() -> None:
    assert len(lines_of(Levels((0.0, 0.4), step_in=0.5))) == 1
    assert len(lines_of(Levels((0.0, 0.4), step_in=0.25))) == 2


def test_readings_before_the_last_one_without_water_do_not_count() -> None:
    test = make_test([(-20, 3.0), (-1, -2.0), (10, 0.5)], [(0, 10)])
    assert levels_of(test, Length(0.25, "1/4 in")) == Levels((-2.0, 0.5), 0.25)


@pytest.mark.parametrize("start", [-6.0, 1.5])
def test_the_liquid_is_filled_as_it_was_found_at_the_start(start: float) -> None:
    tank, levels = make_tank(), Levels((start, 2.0))
    figure = tank_section.draw(tank, levels)
    assert top(artist(figure, "liquid")) == start
    assert top(artist(figure, "scum")) == start
    assert artist(figure, "scum").get_height() == 2
    assert "to the outlet 48 in" in words(figure)
    told = tank_section.describe(tank, levels)
    assert "liquid 48 in deep to the outlet" in told
    assert "clearances are counted with it at the outlet." in told


def test_a_tank_that_was_not_tested_stands_at_its_outlet() -> None:
    figure = tank_section.draw(make_tank())
    assert top(artist(figure, "liquid")) == 0
    assert "liquid 48 in" in words(figure)
    assert not has(figure, "start level")


def test_the_levels_are_told_in_words() -> None:
    assert (
        "In the load test the level began 6 in below the outlet, stood highest 0.5 in "
        "above the outlet and was last read 1 in below the outlet."
    ) in tank_section.describe(make_tank(), ALL_THREE)
    still = tank_section.describe(make_tank(), Levels((0.0, 0.0)))
    assert still.endswith("All through the load test the level stood at the outlet.")
    once = tank_section.describe(make_tank(), Levels((-2.0,)))
    assert "At the start of the load test the level stood 2 in below" in once


@pytest.mark.parametrize("state", ["damaged", "worn"])
@pytest.mark.parametrize("kind", ["baffle", "tee"])
def test_a_spoiled_outlet_device_is_drawn_broken_and_named(kind, state) -> None:
    tank = make_tank(outlet_device=kind, outlet_device_state=state)
    figure = tank_section.draw(tank)
    edge = artist(figure, "outlet fitting" if kind == "baffle" else "tee wall")
    sound = tank_section.draw(make_tank(outlet_device=kind))
    name = edge.get_label()
    assert edge._dash_pattern != artist(sound, name)._dash_pattern
    assert f"{kind} 18 in, {state}" in words(figure)
    assert f"The outlet {kind}, {state}, reaches 18 in below the outlet;" in (
        tank_section.describe(tank)
    )


@pytest.mark.parametrize(
    "changes", [{"outlet_device_state": "missing"}, {"outlet_device": "none"}]
)
def test_a_missing_outlet_device_is_not_drawn_and_is_missed(changes) -> None:
    tank = make_tank(**changes)
    figure = tank_section.draw(tank)
    assert not has(figure, "outlet fitting")
    assert "no outlet device" in words(figure)
    told = tank_section.describe(tank)
    assert "The outlet baffle is missing;" in told or "There is no outlet" in told


def test_a_spoiled_device_of_no_known_kind_is_drawn_all_the_same() -> None:
    tank = make_tank(outlet_device=None, outlet_device_state="damaged")
    assert "baffle or tee 18 in, damaged" in words(tank_section.draw(tank))


@pytest.mark.parametrize(
    ("state", "drawn", "note"),
    [("damaged", True, "inlet device damaged"), ("worn", True, "inlet device worn"),
     ("missing", False, "no inlet device")],
)  # fmt: skip
def test_the_state_of_the_inlet_device_is_written(state, drawn, note) -> None:
    tank = make_tank(inlet_device_state=state)
    figure = tank_section.draw(tank)
    assert has(figure, "inlet fitting") == drawn
    assert note in words(figure)
    assert f"The inlet device is {state}." in tank_section.describe(tank)


def test_the_old_high_mark_is_a_tick_on_the_inside_of_the_wall() -> None:
    tank = make_tank(high_mark=9.0)
    figure = tank_section.draw(tank, ALL_THREE)
    assert height(figure, "high mark") == 9
    assert artist(figure, "high mark").get_xdata()[0] == 0
    assert "old high mark 9 in, above the inlet" in words(figure)
    assert "An old high mark stands 9 in above the outlet, above the inlet." in (
        tank_section.describe(tank)
    )


def test_an_old_high_mark_below_the_inlet_says_nothing_of_it() -> None:
    tank = make_tank(high_mark=2.0)
    assert "old high mark 2 in" in words(tank_section.draw(tank))
    assert "above the inlet" not in tank_section.describe(tank)


@pytest.mark.parametrize(("start", "in_leg"), [(-6.0, False), (1.5, True)])
def test_a_tee_reaches_the_outlet_and_holds_water_to_the_level(start, in_leg) -> None:
    figure = tank_section.draw(make_tank(outlet_device="tee"), Levels((start, 2.0)))
    tee, leg = artist(figure, "outlet fitting"), artist(figure, "outlet leg")
    assert leg.get_x() == pytest.approx(tee.get_x() + tee.get_width())
    assert leg.get_x() + leg.get_width() == pytest.approx(96)
    assert leg.get_y() == artist(figure, "outlet pipe").get_y()
    water = artist(figure, "water in outlet fitting")
    assert (water.get_y(), top(water)) == (-18, start)
    assert water.get_zorder() > artist(figure, "scum").get_zorder()
    assert has(figure, "water in outlet leg") == in_leg


def test_a_thin_layer_has_a_bracket_and_none_where_nothing_is() -> None:
    figure = tank_section.draw(make_tank())
    ends = artist(figure, "bracket").get_ydata()
    assert (min(ends), max(ends)) == (-2, 0)
    thin = tank_section.draw(make_tank(scum=0.5))
    assert len(set(artist(thin, "bracket").get_xdata())) == 1
    assert min(artist(thin, "bracket").get_ydata()) < -0.5
    bare = tank_section.draw(make_tank(scum=0.0))
    assert not has(bare, "bracket")
    assert not has(bare, "scum")
    assert "scum 0 in" in words(bare)


@pytest.mark.parametrize(
    ("job", "told"),
    [
        ("tank-starts-below-its-outlet", "the level began 6 in below the outlet"),
        ("everything-new", "the level began 1 in below the outlet"),
        ("demo-cattail-lake", "the level began 1.5 in above the outlet"),
    ],
)
def test_the_jobs_show_the_level_that_was_found(
    job, told, workspace: Workspace
) -> None:
    if (GOOD / f"{job}.yaml").exists():
        workspace.job_file(job).write_bytes((GOOD / f"{job}.yaml").read_bytes())
    picture, _ = pictures_of(work_out(workspace, job))["tank-1"]
    assert told in picture.alternative
