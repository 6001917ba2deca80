"""What the section of a holding tank shows, and of tanks that lie or are divided."""

from __future__ import annotations

from pathlib import Path

import pytest
from figure_builders import artist, has, inches, make_tank, words

from generator.figures import style, tank_section
from generator.pictures import draw as pictures_of
from generator.quantity import Volume
from generator.record.load import Workspace
from generator.record.parts import Compartment, Tank
from generator.worked import work_out

GOOD = Path(__file__).parent.parent / "jobs" / "good"
NO_OUTLET = dict.fromkeys(
    ("outlet_device", "outlet_device_depth", "outlet_device_state",
     "inlet_device_state", "inlet_above_outlet")
)  # fmt: skip
BARE = {"sludge": None, "scum": None}
LYING = {"shape": "lying cylinder", "diameter": 66.0, "width": None,
         "inside_height": None}  # fmt: skip
OVAL = {"shape": "lying oval", "width": 90.0, "inside_height": 60.0}
HALVES = (
    Compartment(name="first", length=inches(62.0), sludge=inches(9.0),
                scum=inches(2.0)),
    Compartment(name="second", length=inches(31.0), sludge=inches(3.0),
                scum=inches(0.0)),
)  # fmt: skip


def holding(**changes: object) -> Tank:
    known = {"kind": "holding tank", "liquid_depth": 60.0, "inside_height": 66.0,
             **NO_OUTLET, **BARE}  # fmt: skip
    return make_tank(**{**known, **changes})


def span(patch) -> tuple[float, float]:
    return patch.get_y(), patch.get_y() + patch.get_height()


def test_a_holding_tank_stands_at_the_level_of_the_day_and_has_no_outlet() -> None:
    figure = tank_section.draw(holding(liquid_now=45.0), None, 75.0)
    assert span(artist(figure, "liquid")) == (-60, -15)
    assert list(artist(figure, "liquid level").get_ydata()) == [-15, -15]
    assert list(artist(figure, "full").get_ydata()) == [0, 0]
    assert artist(figure, "full").get_linestyle() == "--"
    assert has(figure, "inlet pipe")
    assert not has(figure, "outlet pipe")
    assert not has(figure, "outlet fitting")
    for expected in ("liquid 45 in", "full 60 in", "75 % full", "inlet"):
        assert expected in words(figure)
    assert "outlet" not in words(figure)


def test_a_holding_tank_is_told_in_words() -> None:
    assert tank_section.describe(holding(liquid_now=45.0), None, 75.0) == (
        "Long section, to scale, of a box holding tank 96 in long, inlet at the left "
        "and no outlet: full when 60 in deep, liquid 45 in deep on the day, 75 % full, "
        "sludge not measured, scum not measured. The height of the inlet was not "
        "measured."
    )


def test_a_holding_tank_that_was_not_read_shows_no_liquid() -> None:
    figure = tank_section.draw(holding(scum=2.0))
    assert not has(figure, "liquid")
    assert not has(figure, "liquid level")
    assert not has(figure, "scum")
    assert "liquid not measured" in words(figure)
    assert "liquid of the day not measured" in tank_section.describe(holding())


def test_scum_floats_on_the_liquid_of_the_day() -> None:
    figure = tank_section.draw(
        holding(liquid_now=45.0, scum=4.0, sludge=6.0), None, 75.0
    )
    assert span(artist(figure, "scum")) == (-19, -15)
    assert span(artist(figure, "sludge")) == (-60, -54)


def test_an_inlet_that_was_not_measured_is_dashed() -> None:
    assert artist(tank_section.draw(holding()), "inlet pipe").get_linestyle() == ("--")
    figure = tank_section.draw(holding(inlet_above_outlet=2.0))
    assert artist(figure, "inlet pipe").get_linestyle() == "-"
    assert artist(figure, "inlet pipe").get_y() == 2
    assert "The inlet lies 2 in above the level when full." in tank_section.describe(
        holding(inlet_above_outlet=2.0)
    )


def test_compartments_stand_apart_with_their_own_layers() -> None:
    tank = make_tank(compartments=HALVES, **BARE)
    figure = tank_section.draw(tank)
    divider = artist(figure, "divider")
    assert (divider.get_x(), divider.get_width()) == (62, 3)
    assert span(artist(figure, "sludge")) == (-48, -39)
    assert artist(figure, "sludge").get_width() == 62
    for expected in ("first", "second", "sludge 9 in", "sludge 3 in", "scum 2 in"):
        assert expected in words(figure)
    assert (
        "liquid 48 in deep; in compartment 1 (first) 9 in of sludge, 2 in of scum; in "
        "compartment 2 (second) 3 in of sludge, 0 in of scum."
    ) in tank_section.describe(tank)


def test_compartments_share_the_length_as_their_gallons_do() -> None:
    parts = tuple(
        Compartment(name=name, gallons=Volume(gallons, ""))
        for name, gallons in (("first", 800.0), ("second", 400.0))
    )
    figure = tank_section.draw(make_tank(compartments=parts, **BARE))
    assert artist(figure, "divider").get_x() == pytest.approx(62)
    assert "compartments not measured" not in words(figure)


def test_compartments_that_were_not_measured_say_so() -> None:
    parts = (Compartment(name="x" * 40), Compartment(name="second"))
    tank = make_tank(compartments=parts, **BARE)
    figure = tank_section.draw(tank)
    assert artist(figure, "divider").get_linestyle() == "--"
    assert {"1", "second", "compartments not measured"} <= set(words(figure))
    assert "the compartments were not measured" in tank_section.describe(tank)


@pytest.mark.parametrize(
    ("shape", "width", "half"),
    [("lying oval", 90.0, 15 + (30**2 - 20**2) ** 0.5),
     ("lying ellipse", 90.0, 45 * (1 - (20 / 30) ** 2) ** 0.5)],
)  # fmt: skip
def test_ovals_and_ellipses_that_lie_have_an_end_view(shape, width, half) -> None:
    tank = make_tank(**{**OVAL, "shape": shape, "width": width}, liquid_depth=50.0)
    figure = tank_section.draw(tank)
    assert len(figure.axes) == 2
    left, right = artist(figure, "liquid level", 1).get_xdata()
    assert (right - left) / 2 == pytest.approx(half)
    assert "90 in wide\n60 in high" in words(figure)
    assert "an end view, 90 in wide and 60 in high." in tank_section.describe(tank)


@pytest.mark.parametrize("shape", ["upright oval", "upright ellipse", "box"])
def test_tanks_that_stand_have_no_end_view(shape) -> None:
    figure = tank_section.draw(make_tank(shape=shape))
    assert len(figure.axes) == 1


@pytest.mark.parametrize(
    "tank",
    [
        *(holding(liquid_now=now) for now in (0.0, 6.0, 30.0, 58.0, 60.0, 64.0)),
        holding(),
        holding(liquid_now=45.0, sludge=11.0, scum=2.0),
        holding(liquid_now=58.0, inside_height=None),
        holding(liquid_now=30.0, length=240.0),
        holding(liquid_now=30.0, **LYING),
        holding(liquid_now=45.0, compartments=HALVES),
        make_tank(compartments=HALVES, **BARE),
        make_tank(compartments=HALVES * 2, **BARE),
        make_tank(**{**LYING, "compartments": HALVES, **BARE}),
        make_tank(**OVAL),
        make_tank(**{**OVAL, "width": 50.0, "inside_height": 70.0}),
    ],
)
def test_they_are_legible(tank, legible) -> None:
    figure = tank_section.draw(tank, None, 50.0 if tank.liquid_now else None)
    legible(figure)
    assert len(style.svg(figure, title="t", description="d")) <= 70_000


def test_the_holding_tank_of_a_job_is_drawn_with_its_share(
    workspace: Workspace,
) -> None:
    job = "system-holding-tank"
    workspace.job_file(job).write_bytes((GOOD / f"{job}.yaml").read_bytes())
    picture, image = pictures_of(work_out(workspace, job))["tank-1"]
    assert "liquid 45 in deep on the day, 75 % (give or take " in picture.alternative
    assert "and no outlet" in picture.alternative
    assert image.startswith(b"<svg")
