"""Sludge and scum against each published criterion."""

from __future__ import annotations

import pytest
from fluids import geometry
from published import Entry, allowed, entry
from result_builders import length, lying
from uncertainties import ufloat

from generator.codes.packs import pack, with_pump_out
from generator.record.parts import Tank
from generator.results.guard_band import SHORT, hold
from generator.results.result import Result
from generator.results.solids import solids_results, take
from generator.results.solids_measures import (
    scum_clearance_in,
    share_percent,
    sludge_clearance_in,
)
from generator.results.tank import GAL, inside_of

ADVICE = "guide-epa-homeowner"


def make_tank(**changes: object) -> Tank:
    """A box of 48 in liquid with 11 in sludge, 2 in scum and a device 18 in deep."""
    given_: dict[str, object] = {
        "shape": "box",
        "length": length(96),
        "width": length(54),
        "sludge": length(11),
        "scum": length(2),
        "outlet_device_depth": length(18),
        "liquid_depth": length(48),
        **changes,
    }
    return Tank(name="tank", at="tanks[0]", **given_)  # type: ignore[arg-type]


def judged(tank: Tank, code: str) -> dict[str, Result]:
    """Give the results of one pack by criterion."""
    taken = take(tank, inside_of(tank))
    assert taken is not None
    found = solids_results(tank, taken, [pack(code)])
    return {one.name.rpartition(".")[2]: one for one in found}


@pytest.mark.parametrize("one", [entry("pump-criteria-25b")])
def test_share_of_the_depth(one: Entry) -> None:
    """Source: Onsite Installer."""
    found = share_percent(one["inputs"]["total_in"], one["inputs"]["liquid_depth_in"])
    assert found == allowed(one, one["expected"]["percent"])
    quarter = next(
        row for row in pack("us-mn").pump_out.rows if row.criterion == "solids capacity"
    )
    assert hold(found, quarter.value, least=False) != SHORT  # printed: not yet


@pytest.mark.parametrize("one", [entry("pump-criteria-epa")])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_clearances_of_the_advice_to_homeowners(one: Entry, place: int) -> None:
    """Source: EPA advice carried by an association (the EPA page itself not seen)."""
    limits = {row.criterion: row.value for row in pack(ADVICE).pump_out.rows}
    scum = one["inputs"]["scum_clear_in"][place]
    sludge = one["inputs"]["sludge_clear_in"][place]
    verdicts = [
        hold(
            scum_clearance_in(18.0 - scum, 18.0),
            limits["scum clearance"],
            least=True,
            expand=False,
        ),
        hold(
            sludge_clearance_in(48.0, 30.0 - sludge, 18.0),
            limits["sludge clearance"],
            least=True,
            expand=False,
        ),
    ]
    assert (SHORT in verdicts) is one["expected"]["pump"][place]


@pytest.mark.parametrize("code", ["us-mn", "us-pa", "us-az-pima", ADVICE])
def test_each_criterion_is_held_by_itself(code: str) -> None:
    rows = pack(code).pump_out.rows
    found = judged(make_tank(), code)
    assert set(found) == {row.criterion.replace(" ", "_") for row in rows}
    assert {one.source for one in found.values()} == {f"pack:{code}:pump_out"}


@pytest.mark.parametrize(
    ("changes", "criterion", "value", "verdict"),
    [
        ({}, "sludge_clearance", 19.0, "not yet"),
        ({"sludge": length(18)}, "sludge_clearance", 12.0, "not yet"),
        ({"sludge": length(18.25)}, "sludge_clearance", 11.75, "pump"),
        ({"scum": length(15)}, "scum_clearance", 3.0, "not yet"),
        ({"scum": length(15.25)}, "scum_clearance", 2.75, "pump"),
        ({"scum_bottom": length(16)}, "scum_clearance", 2.0, "pump"),
        ({"sludge": length(10), "scum": length(2)}, "solids_capacity", 25.0, "not yet"),
        ({"sludge": length(10.25)}, "solids_capacity", 25.52, "pump"),
    ],
)
def test_minnesota(
    changes: dict[str, object], criterion: str, value: float, verdict: str
) -> None:
    """Source: Minn. R. 7080.2450; what just meets the limit need not be pumped."""
    found = judged(make_tank(**changes), "us-mn")[criterion]
    assert found.value == pytest.approx(value, abs=0.005)
    assert found.verdict == verdict


def test_a_criterion_that_nobody_read_is_for_the_authority() -> None:
    verdicts = {one.verdict for one in judged(make_tank(), ADVICE).values()}
    assert verdicts == {"confirm with the source"}


def test_without_the_device_no_clearance_is_judged() -> None:
    found = judged(make_tank(outlet_device_depth=None), "us-mn")
    assert set(found) == {"solids_capacity"}


@pytest.mark.parametrize("missing", ["sludge", "scum"])
def test_nothing_is_judged_without_both_layers(missing: str) -> None:
    tank = make_tank(**{missing: None})
    assert take(tank, inside_of(tank)) is None


def test_capacity_in_a_lying_cylinder_is_a_share_of_volume() -> None:
    """Source: fluids, volumes of a horizontal cylinder."""
    tank = make_tank(
        shape="lying cylinder",
        diameter=length(60),
        length=length(102),
        width=None,
        liquid_depth=length(46),
        sludge=length(24),
        scum=length(13),
    )
    below = [
        geometry.V_horiz_conical(D=60.0, L=102.0, a=0.0, h=depth) / GAL
        for depth in (24.0, 33.0, 46.0)
    ]
    expected = 100 * (below[0] + below[2] - below[1]) / below[2]
    found = judged(tank, "us-mn")["solids_capacity"]
    assert found.value == pytest.approx(expected)
    assert found.symbols[2].number.n == pytest.approx(lying().volume_gal())


def test_uncertainty_of_a_clearance() -> None:
    """Source: root of the sum of squares of three readings."""
    found = sludge_clearance_in(ufloat(48, 0.3), ufloat(11, 0.6), ufloat(18, 0.2))
    assert found.s == pytest.approx(0.7)


def test_every_pack_with_criteria_is_used() -> None:
    tank = make_tank()
    packs = with_pump_out()
    found = solids_results(tank, take(tank, inside_of(tank)), packs)
    assert len(found) == sum(len(one.pump_out.rows) for one in packs)
