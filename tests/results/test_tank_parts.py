"""Compartments, tanks in series, and the reach of the outlet device."""

from __future__ import annotations

import pytest
from hypothesis import given
from result_builders import PROPERTY, length, number

from generator.quantity import Volume
from generator.record.parts import Compartment, Tank
from generator.results.compartments import (
    FIRST_BANDS,
    ONE_LEVEL,
    compartment_results,
    first_share_percent,
)
from generator.results.result import Result
from generator.results.tank import inside_of
from generator.results.tank_device import device_results, device_share_percent
from generator.results.tank_series import series_results, total_gal

PER_IN = 54 * 48 / 231  # gallons in an inch of length of the box below


def gallons(number_gal: float) -> Volume:
    """A volume."""
    return Volume(number_gal, f"{number_gal:g} gal")


def make_tank(*parts: dict[str, object], **changes: object) -> Tank:
    """A box of 96 by 54 in with 48 in of liquid, and its compartments."""
    given_: dict[str, object] = {
        "name": "tank",
        "at": "tanks[0]",
        "shape": "box",
        "length": length(96),
        "width": length(54),
        "liquid_depth": length(48),
        **changes,
    }
    at = given_["at"]
    rooms = tuple(
        Compartment(**{"at": f"{at}.compartments[{place}]", "name": f"c{place}", **one})
        for place, one in enumerate(parts)
    )
    return Tank(**given_, compartments=rooms)  # type: ignore[arg-type]


def found_of(tank: Tank) -> dict[str, Result]:
    """Give the results by what follows the name of the tank."""
    found = compartment_results(tank, inside_of(tank))
    return {one.name.removeprefix("tank.tank."): one for one in found}


def test_compartments_by_length() -> None:
    """Source: the formula by hand; 64 in of 96 in."""
    found = found_of(make_tank({"length": length(64)}, {"length": length(32)}))
    assert found["c0.volume"].value == pytest.approx(64 * PER_IN)
    assert found["c1.volume"].value == pytest.approx(32 * PER_IN)
    assert found["first_share"].value == pytest.approx(200 / 3)
    assert found["first_share"].verdict == ""
    assert set(found["first_share"].assumptions) == {FIRST_BANDS, ONE_LEVEL}
    assert found["c0.volume"].inputs == (
        "tanks[0].compartments[0].length",
        "tanks[0].length",
        "tanks[0].width",
        "tanks[0].liquid_depth",
    )


def test_the_length_of_the_tank_drops_out_of_a_compartment() -> None:
    """Source: three sides of a box add their relative uncertainties as squares."""
    found = found_of(make_tank({"length": length(64)}, {"length": length(32)}))
    one = found["c0.volume"]
    relative = sum((0.5 / 3**0.5 / side) ** 2 for side in (64, 54, 48)) ** 0.5
    assert one.uncertainty / one.value == pytest.approx(relative)


@pytest.mark.parametrize(
    ("second", "said"),
    [
        (31.1, None),  # rest 0.9 in, expanded uncertainty 1.0 in
        (28.0, "4 in less long than the tank; that is taken to be the walls"),
        (36.0, "4 in more long than the tank, which cannot be"),
    ],
)
def test_lengths_that_do_not_add_up(second: float, said: str | None) -> None:
    found = found_of(make_tank({"length": length(64)}, {"length": length(second)}))
    text = " ".join(found["first_share"].assumptions)
    assert ("the compartments together" in text) is (said is not None)
    assert (said or "") in text
    assert found["first_share"].value == pytest.approx(6400 / (64 + second))


def test_gallons_that_do_not_add_up() -> None:
    tank = make_tank(
        {"gallons": gallons(500)},
        {"gallons": gallons(300)},
        shape="stated",
        gallons=gallons(1000),
        length=None,
        width=None,
    )
    found = found_of(tank)
    assert found["c0.volume"].value == pytest.approx(500)
    assert found["c0.volume"].working == "Vc = 500 = 500 gal"
    assert found["first_share"].value == pytest.approx(62.5)
    text = " ".join(found["first_share"].assumptions)
    assert "200 gal less large" in text


def test_one_that_was_not_measured_takes_the_rest() -> None:
    found = found_of(make_tank({"length": length(64)}, {}))
    rest = found["c1.volume"]
    assert rest.value == pytest.approx(32 * PER_IN)
    assert any("not measured" in one for one in rest.assumptions)
    assert "tanks[0].compartments[0].length" in rest.inputs


def test_a_lying_tank_is_cut_by_its_length() -> None:
    tank = make_tank(
        {"length": length(51)},
        {"length": length(51)},
        shape="lying cylinder",
        diameter=length(60),
        length=length(102),
        width=None,
        liquid_depth=length(46),
    )
    volume = inside_of(tank).volume_gal().n
    assert found_of(tank)["c0.volume"].value == pytest.approx(volume / 2)


@pytest.mark.parametrize(
    "parts",
    [
        (),
        ({},),
        ({}, {}),
        ({"length": length(64)}, {}, {}),
        ({"length": length(96)}, {}),
        ({"length": length(0)}, {"length": length(0)}),
        ({"gallons": gallons(0)}, {"gallons": gallons(0)}),
        (
            {"name": "same", "length": length(48)},
            {"name": "same", "length": length(48)},
        ),
    ],
)
def test_little_or_odd_data_is_no_mistake(parts: tuple[dict[str, object], ...]) -> None:
    found = compartment_results(make_tank(*parts), inside_of(make_tank(*parts)))
    assert len({one.name for one in found}) == len(found)
    for one in found:
        assert one.value >= 0
        assert one.uncertainty >= 0


def test_nothing_at_all_is_no_share() -> None:
    assert first_share_percent([0.0, 0.0]) == 0


@PROPERTY
@given(number(1, 60), number(1, 30))
def test_shares_make_up_a_whole(one: float, two: float) -> None:
    """However the tank is cut, the parts hold what their lengths hold."""
    first = found_of(make_tank({"length": length(one)}, {"length": length(two)}))
    turned = found_of(make_tank({"length": length(two)}, {"length": length(one)}))
    shares = first["first_share"].value + turned["first_share"].value
    assert shares == pytest.approx(100)


# Tanks in series


def test_tanks_in_series_add_their_volumes() -> None:
    tanks = [make_tank(), make_tank(name="second", at="tanks[1]", length=length(48))]
    (found,) = series_results(tanks, {one.name: inside_of(one) for one in tanks})
    assert found.name == "tank.all.volume"
    assert found.value == pytest.approx(144 * PER_IN)
    assert found.working == "V = 1077 + 538.6 = 1616 gal"
    assert {path.partition(".")[0] for path in found.inputs} == {"tanks[0]", "tanks[1]"}


def test_a_single_tank_adds_nothing() -> None:
    tank = make_tank()
    assert series_results([tank], {"tank": inside_of(tank)}) == []
    assert total_gal([5.0]) == 5.0


def test_a_tank_that_is_called_all_keeps_its_name() -> None:
    tanks = [make_tank(name="all"), make_tank(name="second", at="tanks[1]")]
    (found,) = series_results(tanks, {one.name: inside_of(one) for one in tanks})
    assert found.name == "tank.all_tanks.volume"


# Outlet device


@pytest.mark.parametrize(
    ("shape", "band"), [("box", "30 to 40 %"), ("lying cylinder", "25 to 35 %")]
)
def test_the_device_is_shown_beside_its_band(shape: str, band: str) -> None:
    """Source: WAC 246-272C-0220 (the bands); 18 in of 48 in by hand."""
    tank = make_tank(shape=shape, diameter=length(60), outlet_device_depth=length(18))
    (found,) = device_results(tank, inside_of(tank))
    assert found.name == "tank.tank.device_share"
    assert found.value == pytest.approx(37.5)
    assert band in found.assumptions[0]
    assert found.verdict == ""
    assert found.inputs == ("tanks[0].outlet_device_depth", "tanks[0].liquid_depth")


def test_without_a_device_depth_there_is_no_share() -> None:
    tank = make_tank()
    assert device_results(tank, inside_of(tank)) == []
    assert device_share_percent(0.0, 48.0) == 0
