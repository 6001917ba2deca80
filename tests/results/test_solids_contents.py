"""Solids by compartment, working volume, time of stay and build-up."""

from __future__ import annotations

from dataclasses import replace

import pytest
from fluids import geometry
from hypothesis import given
from result_builders import PROPERTY, length, number
from test_pump_out_years import household, pumped
from test_tank_parts import PER_IN, make_tank
from uncertainties import ufloat

from generator.codes.packs import pack, with_pump_out
from generator.record.model import Household
from generator.record.parts import Tank
from generator.results.build_up import (
    build_up_gal_per_year,
    build_up_results,
    capacity_row,
    years_until,
)
from generator.results.design_flow import UNREAD, DailyFlow
from generator.results.detention import detention_results
from generator.results.pump_out_years import BASIS
from generator.results.result import Result, Results
from generator.results.solids_contents import (
    LAST,
    OWN_UNUSED,
    all_criteria_results,
    contents_of,
    contents_results,
    working_volume_gal,
)
from generator.results.solids_of_tanks import solids_of_tanks_results
from generator.results.tank import GAL, inside_of

LAYERS = {"sludge": length(12), "scum": length(3)}
FLOW = DailyFlow(180.0, "flow of the household", "household.people", "WAC-0230")


def two(
    first: dict[str, object] | None = None,
    second: dict[str, object] | None = None,
    **changes: object,
) -> Tank:
    """A box of two compartments, 64 and 32 in long, with their layers."""
    return make_tank(
        {"length": length(64), **(LAYERS if first is None else first)},
        {
            "length": length(32),
            **({"sludge": length(6), "scum": length(0)} if second is None else second),
        },
        outlet_device_depth=length(18),
        **changes,
    )


def held(tank: Tank, *codes: str) -> dict[str, Result]:
    """Hold a tank against some packs."""
    packs = [pack(code) for code in codes]
    found = all_criteria_results(tank, inside_of(tank), packs)
    return {one.name.removeprefix("solids.tank."): one for one in found}


# Criteria by compartment


def test_clearances_are_held_at_the_last_compartment() -> None:
    """Source: the differences by hand; Minn. R. 7080.2450 for the criteria."""
    found = held(two(), "us-mn")
    assert set(found) == {
        "c0.volume",
        "c1.volume",
        "c1.us-mn.sludge_clearance",
        "c1.us-mn.scum_clearance",
        "us-mn.solids_capacity",
    }
    clearance = found["c1.us-mn.sludge_clearance"]
    assert clearance.value == pytest.approx(48 - 6 - 18)
    assert clearance.label.startswith("Minnesota: sludge clearance in the compartment")
    assert LAST in clearance.assumptions
    assert clearance.inputs == (
        "tanks[0].liquid_depth",
        "tanks[0].compartments[1].sludge",
        "tanks[0].outlet_device_depth",
    )


def test_capacity_is_held_for_all_compartments_together() -> None:
    """Source: by hand, (64 x 15 + 32 x 6) / (96 x 48) of a box."""
    found = held(two(), "us-mn")["us-mn.solids_capacity"]
    assert found.value == pytest.approx(100 * (64 * 15 + 32 * 6) / (96 * 48))
    assert found.value == pytest.approx(25.0)
    assert found.verdict == "not yet"  # just what the limit allows
    over = held(two({"sludge": length(13), "scum": length(3)}), "us-mn")
    assert over["us-mn.solids_capacity"].verdict == "pump"


def test_shares_of_the_depth_are_held_at_each_compartment() -> None:
    """Source: by hand, 12, 3 and 6 in of 48 in; 25 Pa. Code 71.73 for the criteria."""
    found = held(two(), "us-pa")
    values = {name: one.value for name, one in found.items() if ".us-pa." in name}
    assert values == {
        "c0.us-pa.sludge_share": pytest.approx(100 * 12 / 48),
        "c0.us-pa.scum_share": pytest.approx(100 * 3 / 48),
        "c1.us-pa.sludge_share": pytest.approx(100 * 6 / 48),
        "c1.us-pa.scum_share": pytest.approx(0.0),
    }


def test_readings_of_the_whole_tank_are_used_where_a_compartment_has_none() -> None:
    whole = {"sludge": length(11), "scum": length(2)}
    found = held(two(second={}, **whole), "us-mn")
    assert found["us-mn.sludge_clearance"].value == pytest.approx(19.0)
    assert not any(name.startswith("c1.") for name in found)
    together = held(two(**whole), "us-mn")["us-mn.solids_capacity"]
    assert together.value == pytest.approx(25.0)
    assert OWN_UNUSED in together.assumptions


def test_compartments_of_unknown_size_have_no_capacity() -> None:
    tank = make_tank(dict(LAYERS), dict(LAYERS), outlet_device_depth=length(18))
    found = held(tank, "us-mn")
    assert set(found) == {"c1.us-mn.sludge_clearance", "c1.us-mn.scum_clearance"}


# Volumes


def test_working_volume_of_a_box() -> None:
    """Source: by hand, 48 - 12 - 3 in of liquid."""
    tank = make_tank(**LAYERS)
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    (found,) = contents_results(tank, contents)
    assert found.name == "solids.tank.working_volume"
    assert found.value == pytest.approx(96 * 54 * 33 / GAL)
    assert found.working.startswith("Vw = 1077 - 269.3 - 67.32 = ")


def test_working_volume_of_a_lying_cylinder() -> None:
    """Source: fluids, volumes of a horizontal cylinder."""
    tank = make_tank(
        shape="lying cylinder",
        diameter=length(60),
        length=length(102),
        width=None,
        liquid_depth=length(46),
        **LAYERS,
    )
    low, high = (
        geometry.V_horiz_conical(D=60.0, L=102.0, a=0.0, h=depth) / GAL
        for depth in (12.0, 43.0)
    )
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    found = contents_results(tank, contents)[0]
    assert found.value == pytest.approx(high - low)


def test_working_volume_of_two_compartments() -> None:
    contents = contents_of(two(), inside_of(two()))
    assert contents is not None
    found = contents_results(two(), contents)[0]
    assert found.value == pytest.approx(PER_IN * (64 * 33 + 32 * 42) / 48)


@PROPERTY
@given(number(1, 2000), number(0, 2000), number(0, 2000))
def test_volumes_are_never_below_zero(full: float, sludge: float, scum: float) -> None:
    left = working_volume_gal(full, sludge, scum)
    assert left == pytest.approx(max(full - sludge - scum, 0.0))


def test_a_tank_full_of_solids_has_no_clear_liquid() -> None:
    tank = make_tank(sludge=length(48), scum=length(10))
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    assert contents_results(tank, contents)[0].value == 0
    assert detention_results(tank, contents, FLOW)[0].value == 0


@pytest.mark.parametrize("missing", ["sludge", "scum"])
def test_without_both_layers_there_are_no_contents(missing: str) -> None:
    tank = make_tank(**{**LAYERS, missing: None})
    assert contents_of(tank, inside_of(tank)) is None


# Time of stay


def test_time_of_stay() -> None:
    """Source: by hand, volume over flow; 45 gal a person of WAC 246-272A-0230."""
    tank = make_tank(**LAYERS)
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    (found,) = detention_results(tank, contents, FLOW)
    assert found.value == pytest.approx(96 * 54 * 33 / GAL / 180)
    assert (found.unit, found.source) == ("days", "WAC-0230")
    assert found.assumptions[0] == "daily flow: flow of the household"
    assert BASIS in found.assumptions
    assert UNREAD not in found.assumptions
    assert found.inputs[0] == "household.people"


def test_a_flow_that_nobody_read_says_so() -> None:
    tank = make_tank(**LAYERS)
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    flow = replace(FLOW, seen=False)
    assert UNREAD in detention_results(tank, contents, flow)[0].assumptions


@pytest.mark.parametrize("flow", [None, replace(FLOW, gpd=0.0)])
def test_without_a_flow_there_is_no_time_of_stay(flow: DailyFlow | None) -> None:
    tank = make_tank(**LAYERS)
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    assert detention_results(tank, contents, flow) == []


# Build-up


def built_up(
    house: Household | None, local: str | None = None, tank: Tank | None = None
) -> dict[str, Result]:
    """Give the build-up of a tank of one or more layers."""
    tank = tank or make_tank(sludge=length(7), scum=length(2))
    contents = contents_of(tank, inside_of(tank))
    assert contents is not None
    code = pack(local) if local else None
    found = build_up_results(tank, contents, house, with_pump_out(), code)
    return {one.name.removeprefix("solids.tank."): one for one in found}


def test_build_up_and_when_it_reaches_a_quarter() -> None:
    """Source: by hand, 9 in of 48 in after 3 years, a quarter is 12 in."""
    found = built_up(household(pumped_before=pumped(3.0)), "us-mn")
    assert found["build_up"].value == pytest.approx(96 * 54 * 9 / GAL / 3)
    assert found["build_up"].unit == "gal/year"
    assert found["build_up_years"].value == pytest.approx(1.0)
    assert "Minnesota" in found["build_up_years"].label
    assert found["build_up_years"].source == "pack:us-mn:pump_out"


def test_the_time_since_pumping_counts_in_the_uncertainty() -> None:
    """Source: relative uncertainty of a quotient; a rectangle of a month and 10 %."""
    found = build_up_gal_per_year(150.0, ufloat(3.0, (1 / 12 + 0.3) / 3**0.5))
    assert found.s / found.n == pytest.approx((1 / 12 + 0.3) / 3**0.5 / 3.0)
    worked = built_up(household(pumped_before=pumped(3.0)))["build_up"]
    assert worked.uncertainty / worked.value > found.s / found.n


def test_solids_past_the_limit_leave_no_time() -> None:
    tank = make_tank(sludge=length(20), scum=length(2))
    found = built_up(household(pumped_before=pumped(3.0)), "us-mn", tank)
    assert found["build_up_years"].value == 0
    assert found["build_up_years"].working == ""


@pytest.mark.parametrize(
    "house", [None, household(), household(pumped_before=pumped(0.0))]
)
def test_without_a_time_there_is_no_rate(house: Household | None) -> None:
    assert built_up(house) == {}


def test_a_clean_tank_builds_up_nothing() -> None:
    clean = make_tank(sludge=length(0), scum=length(0))
    found = built_up(household(pumped_before=pumped(3.0)), tank=clean)
    assert set(found) == {"build_up"}
    assert found["build_up"].value == 0


def test_the_strictest_share_that_was_read_stands_in_for_a_local_one() -> None:
    chosen = capacity_row(with_pump_out(), None)
    assert chosen is not None
    read = [one for one in with_pump_out() if one.pump_out.seen == "yes"]
    values = [
        row.value
        for one in read
        for row in one.pump_out.rows
        if row.criterion == "solids capacity"
    ]
    assert chosen[1].value == min(values)
    assert capacity_row([], None) is None


@PROPERTY
@given(number(0, 500), number(0, 500), number(0.1, 200))
def test_years_until_a_limit(now: float, limit: float, rate: float) -> None:
    left = years_until(now, limit, rate)
    assert left >= 0
    if limit > now:
        assert now + left * rate == pytest.approx(limit)


# All together


@pytest.mark.parametrize("count", [1, 2])
def test_all_results_of_all_tanks_have_their_own_names(count: int) -> None:
    tanks = [two(), make_tank(name="second", at="tanks[1]", **LAYERS)][:count]
    insides = {one.name: inside_of(one) for one in tanks}
    house = household(pumped_before=pumped(2.0))
    results = Results()
    results.add(
        solids_of_tanks_results(
            tanks, insides, house, with_pump_out(), local=pack("us-mn"), flow=FLOW
        )
    )
    years = [name for name in results.all if name.endswith(".years")]
    assert years == ["solids.tank.years" if count == 1 else "solids.all.years"]
    for one in results.all.values():
        assert one.inputs
        assert one.unit
        assert one.value == one.value


def test_no_tanks_no_results() -> None:
    assert solids_of_tanks_results([], {}, household(), with_pump_out()) == []
