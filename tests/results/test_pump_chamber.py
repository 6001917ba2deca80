"""Pump chamber: dose, net dose, rate, doses of a day and reserve."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from published import Entry, allowed, entry, values
from record_builders import make_record
from result_builders import PROPERTY, length, number
from scipy.integrate import quad

from generator.codes.packs import pack
from generator.quantity import Duration, Flow, Volume
from generator.record.parts import Drawdown, PumpChamber
from generator.results.measured import FLOAT_IN, LEVEL_IN
from generator.results.pump_chamber import pump_results
from generator.results.pump_inside import NEEDS, Chamber
from generator.results.pump_volumes import net_dose_gal, pump_rate_gpm
from generator.results.result import Result, nominal

BOX = {"shape": "box", "length": length(77), "width": length(30)}  # 10 gal in an inch
MEASURES = {
    "length": length(80),
    "width": length(60),
    "diameter": length(60),
    "inside_height": length(60),
    "gallons": Volume(600.0, "600 gal"),
    "liquid_depth": length(48),
}


def make_chamber(**changes: object) -> PumpChamber:
    """A box of 10 gal in an inch with its floats in order."""
    given_: dict[str, object] = {
        **BOX,
        "pump_off": length(12),
        "pump_on": length(20),
        "alarm_on": length(24),
        "inlet": length(42),
        **changes,
    }
    return PumpChamber(at="pump_chamber", **given_)  # type: ignore[arg-type]


def down(
    from_in: float, to_in: float, minutes: float, gpm: float | None = None
) -> Drawdown:
    """A drawdown."""
    return Drawdown(
        at="pump_chamber.drawdown",
        from_=length(from_in),
        to=length(to_in),
        time=Duration(minutes, f"{minutes:g} min"),
        inflow=None if gpm is None else Flow(gpm, f"{gpm:g} gpm"),
    )


def named(
    chamber: PumpChamber | None, code: str | None = "us-pa", **home: int
) -> dict[str, Result]:
    """Give the results of a chamber by name, of a house of three bedrooms."""
    record = make_record(pump_chamber=chamber, **{"bedrooms": 3, **home})
    return {one.name: one for one in pump_results(record, pack(code) if code else None)}


def per_inch(gallons: float, **changes: object) -> PumpChamber:
    """A chamber known by its gallons in an inch alone."""
    stated = Volume(100 * gallons, f"{100 * gallons:g} gal")
    changes = {"gallons": stated, "liquid_depth": length(100), **changes}
    return make_chamber(shape="stated", length=None, width=None, **changes)


@pytest.mark.parametrize("one", [entry("dose-a")])
def test_dose_between_floats_read_from_the_top(one: Entry) -> None:
    """Source: Onsite Installer; its readings count down from the top."""
    put = one["inputs"]
    chamber = per_inch(
        put["gal_per_in"],
        read_from="top",
        pump_off=length(put["off_in"]),
        pump_on=length(put["on_in"]),
        alarm_on=None,
        inlet=None,
    )
    assert named(chamber)["pump.dose"].value == allowed(
        one, one["expected"]["dose_gal"]
    )


@pytest.mark.parametrize("one", [entry("pumptank-rect")])
def test_gallons_above_a_float(one: Entry) -> None:
    """Source: Onsite Installer, gallons that so many inches take up."""
    put = one["inputs"]
    inlet = length(24 + put["alarm_in"])
    reserve = named(per_inch(put["gal_per_in"], inlet=inlet))["pump.reserve"]
    assert reserve.value == allowed(one, one["expected"]["alarm_gal"])


@pytest.mark.parametrize("one", [entry("drawdown-real")])
def test_rate_from_a_drawdown_in_a_record(one: Entry) -> None:
    """Source: City of Orono, Minn., letter of 1992; the time here is ours."""
    put = one["inputs"]
    chamber = make_chamber(
        shape="stated",
        gallons=Volume(put["tank_gal"], "1000 gal"),
        liquid_depth=length(put["liquid_depth_in"]),
        drawdown=down(30, 30 - put["drawdown_in"], 5.0),
    )
    rate = named(chamber)["pump.rate"].value
    assert 5 * rate == allowed(one, one["expected"]["dose_gal"])


@pytest.mark.parametrize(("one", "key"), values("drawdown-method"))
def test_readings_of_the_procedure(one: Entry, key: str) -> None:
    """Source: Marion County, Ore.: levels to 1/8 in, six minutes."""
    minutes = one["expected"]["run_time_min"]
    rate = named(make_chamber(drawdown=down(24, 18, minutes)))["pump.rate"]
    time = next(one for one in rate.symbols if one.name == "t")
    found = {
        "level_resolution_in": LEVEL_IN.fixed,
        "run_time_min": nominal(time.number),
    }
    assert found[key] == allowed(one, one["expected"][key])


def test_what_a_chamber_gives() -> None:
    """By hand: 10 gal/in; 8 in, less 6 gal; 6 in in 6 min and 4 gpm; 400 gal a day."""
    back = Volume(6.0, "6 gal")
    found = named(make_chamber(drain_back=back, drawdown=down(24, 18, 6.0, 4.0)))
    assert {name: round(one.value, 3) for name, one in found.items()} == {
        "pump.dose": 80.0,
        "pump.net_dose": 74.0,
        "pump.doses_per_day": 5.405,
        "pump.reserve": 180.0,
        "pump.reserve_hours": 10.8,
        "pump.rate": 14.0,
    }
    assert found["pump.rate"].working == "q = 60 / 6 + 4 = 14 gpm"
    assert "pump_chamber.drawdown.inflow" in found["pump.rate"].inputs
    assert found["pump.doses_per_day"].inputs[0] == "property.bedrooms"


def test_household_flow_where_no_code_gives_one() -> None:
    """By hand: 2 people, 90 gal a day (WAC 246-272A-0230); 180 gal last 48 hours."""
    found = named(make_chamber(), None, people=2)
    assert found["pump.reserve_hours"].value == pytest.approx(48.0)
    assert found["pump.reserve_hours"].source == "WAC-0230"
    bare = named(make_chamber(), None)
    assert set(bare) == {"pump.dose", "pump.net_dose", "pump.reserve"}


@pytest.mark.parametrize("shape", NEEDS)
def test_every_shape_and_both_lines_agree(shape: str) -> None:
    """A height above the floor and a depth below the top are the same place."""
    given_ = {key: MEASURES[key] for key in (*NEEDS[shape], "inside_height")}
    base = {"length": None, "width": None, **given_, "shape": shape}
    tops = {
        key: length(60 - inches)
        for key, inches in (
            ("pump_off", 12),
            ("pump_on", 20),
            ("alarm_on", 24),
            ("inlet", 42),
        )
    }
    floor = named(make_chamber(**base))
    top = named(make_chamber(**{**base, **tops, "read_from": "top"}))
    assert set(floor) == set(top)
    for name, one in floor.items():
        assert one.value == pytest.approx(top[name].value), name


def test_curved_wall_against_scipy() -> None:
    """Source: scipy, the integral of the width of a circle."""
    chamber = make_chamber(
        shape="lying cylinder", width=None, length=length(80), diameter=length(60)
    )
    chord = quad(lambda y: 2 * math.sqrt(y * (60 - y)), 12, 20)[0]
    assert named(chamber)["pump.dose"].value == pytest.approx(chord * 80 / 231)


@PROPERTY
@given(number(1, 200), number(0.1, 60), number(0, 20))
def test_rate_balances(drawn: float, minutes: float, inflow: float) -> None:
    """What the pump moved is what was drawn down and what came in."""
    rate = pump_rate_gpm(drawn, minutes, inflow)
    assert rate * minutes == pytest.approx(drawn + inflow * minutes)
    assert net_dose_gal(drawn, inflow) <= drawn


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"pump_off": length(21)}, "pump on is not above pump off"),
        ({"pump_off": length(20)}, "pump on is not above pump off"),
        ({"alarm_on": length(19)}, "alarm on is not above pump on"),
        ({"inlet": length(23)}, "inlet is not above alarm on"),
        ({"pump_on": None, "alarm_on": length(5)}, "alarm on is not above pump off"),
    ],
)
def test_floats_in_an_impossible_order(changes: dict[str, object], words: str) -> None:
    chamber = make_chamber(**changes)
    assert Chamber.of(chamber).wrong() == (words,)
    assert named(chamber) == {}


@pytest.mark.parametrize(
    ("changes", "left"),
    [
        ({"length": None}, set()),
        ({"width": length(0)}, set()),
        ({"pump_off": None}, {"pump.reserve", "pump.reserve_hours"}),
        ({"inlet": None}, {"pump.dose", "pump.net_dose", "pump.doses_per_day"}),
        (
            {"inlet": None, "drain_back": Volume(80.0, "80 gal")},
            {"pump.dose", "pump.net_dose"},
        ),
        (
            {"inlet": None, "drain_back": Volume(900.0, "900 gal")},
            {"pump.dose", "pump.net_dose"},
        ),
    ],
)
def test_limits(changes: dict[str, object], left: set[str]) -> None:
    assert set(named(make_chamber(**changes))) == left
    assert named(None) == {}


def test_limits_of_the_drawdown() -> None:
    still = named(make_chamber(drawdown=down(20, 20, 6.0)))["pump.rate"]
    assert still.value == 0.0
    rose = make_chamber(drawdown=down(20, 21, 6.0, 4.0))
    assert named(rose)["pump.rate"].value == pytest.approx(4 - 10 / 6)
    assert "pump.rate" not in named(make_chamber(drawdown=down(18, 24, 6.0)))
    assert "pump.rate" not in named(make_chamber(drawdown=down(24, 18, 0.0)))


def test_no_reserve_at_all_is_no_hours() -> None:
    found = named(make_chamber(inlet=length(24)))
    assert found["pump.reserve"].value == found["pump.reserve_hours"].value == 0.0


def test_curved_wall_read_from_a_top_that_nobody_measured() -> None:
    lying = {"shape": "lying oval", "inside_height": None, "read_from": "top"}
    assert named(make_chamber(**lying)) == {}


def test_uncertainty_of_a_dose() -> None:
    """Source: GUM, 4.3.7 (from memory, not seen): two rectangles of 1/2 in."""
    big = {"length": length(77000), "width": length(30)}  # its inside hardly counts
    dose = named(make_chamber(**big))["pump.dose"]
    reading = 10000 * math.sqrt(2) * FLOAT_IN.fixed / math.sqrt(3)
    inside = 80000 * 0.5 / math.sqrt(3) / 30
    assert dose.uncertainty == pytest.approx(math.hypot(reading, inside), rel=1e-4)
