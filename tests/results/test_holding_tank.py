"""A holding tank: what still fits, how full it is, and for how many days."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from record_builders import make_record
from result_builders import PROPERTY, length, number
from scipy.integrate import quad

from generator.codes.packs import pack
from generator.quantity import Volume
from generator.record.parts import HOLDING_TANK, Tank
from generator.results import compute
from generator.results.result import Result, Results

BOX = {"shape": "box", "length": length(96), "width": length(77)}  # 32 gal in an inch


def make_tank(**changes: object) -> Tank:
    """A box that is full at 50 in, which are 1600 gal."""
    given_: dict[str, object] = {
        "name": "holding",
        "kind": HOLDING_TANK,
        **BOX,
        "liquid_depth": length(50),
        "liquid_now": length(40),
        **changes,
    }
    return Tank(at="tanks[0]", **given_)  # type: ignore[arg-type]


def computed(*tanks: Tank, people: int | None = 4) -> Results:
    """Every result of a house with three bedrooms, 400 gal a day."""
    record = make_record(bedrooms=3, people=people, tanks=tanks)
    return compute.compute(record, pack("us-pa"))


def named(tank: Tank, people: int | None = 4) -> dict[str, Result]:
    """The results of one holding tank by the end of their names."""
    found = computed(tank, people=people).under(f"holding.{tank.name}.")
    return {one.name.rpartition(".")[2]: one for one in found}


def test_by_hand() -> None:
    found = named(make_tank())
    assert found["volume"].value == pytest.approx(1600)
    assert found["free"].value == pytest.approx(320)
    assert found["share_full"].value == pytest.approx(80)
    assert found["days_at_design_flow"].value == pytest.approx(0.8)
    assert found["days_at_flow_of_the_household"].value == pytest.approx(320 / 180)
    assert "days_at_flow_of_the_household" not in named(make_tank(), people=None)


def test_the_share_does_not_know_the_plan() -> None:
    """Length and width cancel out: depths of 40 and 50 in alone are unsure."""
    share = named(make_tank())["share_full"]
    by_hand = 80 * math.hypot(0.125 / 40, 0.5 / 50) / math.sqrt(3)
    assert share.uncertainty == pytest.approx(by_hand)


@given(number(1, 60))
@PROPERTY
def test_a_lying_cylinder_against_an_integral(now: float) -> None:
    tank = make_tank(
        shape="lying cylinder",
        diameter=length(60),
        length=length(170),
        width=None,
        liquid_depth=length(60),
        liquid_now=length(now),
    )
    by_hand, _ = quad(lambda y: 2 * math.sqrt(y * (60 - y)) * 170 / 231, now, 60)
    assert named(tank)["free"].value == pytest.approx(by_hand, abs=0.1)


@pytest.mark.parametrize("now", [50.0, 55.0])
def test_no_room_in_a_full_tank(now: float) -> None:
    found = named(make_tank(liquid_now=length(now)))
    assert found["free"].value == 0
    assert found["days_at_design_flow"].value == 0
    assert found["share_full"].value == pytest.approx(2 * now)


def test_an_empty_tank() -> None:
    found = named(make_tank(liquid_now=length(0)))
    assert (found["share_full"].value, found["free"].value) == (0, 1600)


def test_stated_gallons() -> None:
    volume = Volume(2000.0, "2000 gal")
    tank = make_tank(shape="stated", gallons=volume, length=None, width=None)
    assert named(tank)["free"].value == pytest.approx(400)


def test_without_its_level_only_its_volume_is_known() -> None:
    assert set(named(make_tank(liquid_now=None))) == {"volume"}


def test_what_belongs_to_an_outlet_is_left_out() -> None:
    holding = make_tank(sludge=length(3), scum=length(1), outlet_device_depth=length(9))
    results = computed(holding)
    assert results.under("solids.") == []
    assert results.under("tank.") == []


def test_it_counts_for_nothing_among_septic_tanks() -> None:
    septic = make_tank(name="tank", kind=None, liquid_now=None)
    alone, both = computed(septic), computed(septic, make_tank())
    for name in ("design.tank_share", "solids.tank.years", "tank.tank.volume"):
        assert alone.all[name].value == both.all[name].value
    assert both.get("tank.all.volume") is None


def test_a_load_test_has_no_outlet_to_read_against() -> None:
    record = make_record(tanks=(make_tank(),))
    assert compute.tested_tank(record) is None
