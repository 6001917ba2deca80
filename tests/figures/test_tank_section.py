"""What the section of a tank shows."""

from __future__ import annotations

import pytest
from figure_builders import artist, has, make_tank, words

from generator.figures import style, tank_section
from generator.figures.tank_levels import Levels

LYING = {"shape": "lying cylinder", "diameter": 60.0, "length": 102.0, "width": None,
         "inside_height": None, "liquid_depth": 46.0}  # fmt: skip
UPRIGHT = {"shape": "upright cylinder", "diameter": 60.0, "length": None, "width": None}
STATED = {"shape": "stated", "length": None, "width": None, "inside_height": None}


def span(patch) -> tuple[float, float]:
    return patch.get_y(), patch.get_y() + patch.get_height()


def test_layers_stand_at_their_heights_against_the_outlet() -> None:
    figure = tank_section.draw(make_tank(), Levels((0.0, 0.5)))
    assert span(artist(figure, "liquid")) == (-48, 0)
    assert span(artist(figure, "sludge")) == (-48, -37)
    assert span(artist(figure, "scum")) == (-2, 0)
    assert artist(figure, "sludge").get_hatch() != artist(figure, "scum").get_hatch()
    assert artist(figure, "sludge").get_width() == 96
    assert list(artist(figure, "highest level").get_ydata()) == [0.5, 0.5]
    assert figure.axes[0].get_aspect() == 1


def test_fittings_and_pipes_stand_where_they_were_measured() -> None:
    figure = tank_section.draw(make_tank())
    assert artist(figure, "outlet fitting").get_y() == -18
    assert artist(figure, "inlet pipe").get_y() == 3
    assert artist(figure, "outlet pipe").get_y() == 0
    assert artist(figure, "inlet pipe").get_x() < 0
    assert artist(figure, "outlet pipe").get_x() == 96
    for expected in ("liquid 48 in", "sludge 11 in", "scum 2 in", "baffle 18 in",
                     "inlet\n+3 in", "outlet"):  # fmt: skip
        assert expected in words(figure)


def test_scum_that_was_felt_from_below_rises_over_the_level() -> None:
    figure = tank_section.draw(make_tank(scum=8.0, scum_bottom=5.0))
    assert span(artist(figure, "scum")) == (-5, 3)


def test_what_was_not_measured_is_not_drawn() -> None:
    tank = make_tank(sludge=None, scum=None, outlet_device=None,
                     outlet_device_depth=None, inlet_above_outlet=None,
                     inside_height=None)  # fmt: skip
    figure = tank_section.draw(tank)
    for name in ("sludge", "scum", "outlet fitting", "highest level"):
        assert not has(figure, name)
    assert artist(figure, "inlet pipe").get_y() == 0
    assert artist(figure, "inlet pipe").get_linestyle() == "--"
    assert "inlet" in words(figure)
    assert "top not measured; inlet, height not measured" in words(figure)
    assert tank_section.describe(tank) == (
        "Long section, to scale, of a box tank 96 in long, inlet at the left: liquid "
        "48 in deep, sludge not measured, scum not measured. No outlet baffle or tee "
        "is drawn; the height of the inlet over the outlet was not measured."
    )


def test_a_lying_cylinder_has_an_end_view_at_the_same_level() -> None:
    figure = tank_section.draw(make_tank(**LYING))
    assert len(figure.axes) == 2
    assert list(artist(figure, "liquid level", 1).get_ydata()) == [0, 0]
    left, right = artist(figure, "liquid level", 1).get_xdata()
    assert right - left == pytest.approx(2 * (46 * (60 - 46)) ** 0.5)
    assert artist(figure, "top").get_y() == 60 - 46


def test_a_tank_of_unknown_plan_says_so() -> None:
    figure = tank_section.draw(make_tank(**STATED))
    assert "plan not measured; top not measured" in words(figure)
    assert "of unknown plan" in tank_section.describe(make_tank(**STATED))


def test_description_tells_the_numbers() -> None:
    assert tank_section.describe(make_tank(), Levels((0.0, 0.5))) == (
        "Long section, to scale, of a box tank 96 in long, inlet at the left: liquid "
        "48 in deep, 11 in of sludge, 2 in of scum. The outlet baffle reaches 18 in "
        "below the outlet; the inlet lies 3 in above the outlet. In the load test "
        "the level began at the outlet, stood highest 0.5 in above the outlet and was "
        "last read 0.5 in above the outlet."
    )


@pytest.mark.parametrize("levels", [None, Levels((1.5, 5.375, 4.625))])
@pytest.mark.parametrize(
    "changes",
    [
        {},
        LYING,
        {**LYING, "sludge": 24.0, "scum": 13.0, "outlet_device": "tee",
         "outlet_device_depth": 15.0},
        {**LYING, "diameter": 48.0, "liquid_depth": 47.0},
        UPRIGHT,
        {**UPRIGHT, "diameter": 36.0, "liquid_depth": 72.0, "inside_height": 90.0},
        STATED,
        {"sludge": 40.0, "scum": 8.0},
        {"sludge": 0.5, "scum": 0.5},
        {"sludge": None},
        {"length": 240.0},
        {"length": 48.0},
        {"outlet_device": "tee", "outlet_device_depth": None},
        {"outlet_device": "tee", "outlet_device_state": "missing"},
        {"outlet_device": "none"},
        {"outlet_device_state": "damaged", "inlet_device_state": "worn"},
        {"outlet_device": "tee", "outlet_device_state": "worn",
         "outlet_device_depth": None, "inlet_device_state": "missing",
         "inlet_above_outlet": None, **STATED},
        {"high_mark": 9.0},
        {"high_mark": 14.0, "inside_height": None},
        {"sludge": 0.0, "scum": 0.0},
        {"outlet_device_depth": 3.0},
        {"inlet_above_outlet": 0.0},
    ],
)  # fmt: skip
def test_odd_tanks_stay_legible(changes, levels, legible) -> None:
    tank = make_tank(**changes)
    figure = tank_section.draw(tank, levels)
    legible(figure)
    assert tank_section.describe(tank, levels).endswith(".")
    assert len(style.svg(figure, title="t", description="d")) <= 70_000
