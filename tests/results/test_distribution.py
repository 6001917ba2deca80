"""Depths in the distribution box against the figures of the code."""

from __future__ import annotations

from math import sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from published import Entry, allowed, entry, values
from record_builders import make_record
from result_builders import PROPERTY, length, number
from uncertainties import ufloat

from generator.codes.packs import Pack, pack
from generator.codes.rows import BoxRule
from generator.record.parts import DistributionBox, Outlet
from generator.results.asked import CONFIRM
from generator.results.distribution import (
    distribution_results,
    level_verdict,
    lowest,
    spread_in,
)
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.result import Result


def make_box(*downs: float, **changes: object) -> DistributionBox:
    """A box with its outlets at some depths."""
    outlets = tuple(
        Outlet(
            at=f"distribution_box.outlets[{place}]",
            to=f"trench {place + 1}",
            down=length(down),
        )
        for place, down in enumerate(downs)
    )
    return DistributionBox(at="distribution_box", outlets=outlets, **changes)  # type: ignore[arg-type]


def named(box: DistributionBox | None, found: Pack | None) -> dict[str, Result]:
    """Give the results of a box by name."""
    record = make_record(distribution_box=box)
    return {one.name: one for one in distribution_results(record, found)}


def ruled(one: Entry) -> Pack:
    """Make a code of one published rule."""
    rule = BoxRule(citation="c", edition="e", seen="yes", **one["expected"])
    return Pack(name="a-code", jurisdiction="x", distribution_box=rule)


@pytest.mark.parametrize(("one", "key"), values("dbox-pa"))
def test_figures_of_pennsylvania(one: Entry, key: str) -> None:
    """Source: 25 Pa. Code 73.42(e)."""
    rule = pack("us-pa").distribution_box
    assert getattr(rule, key) == allowed(one, one["expected"][key])


@pytest.mark.parametrize("one", [entry("dbox-pa"), entry("dbox-mn")])
def test_a_box_on_either_side_of_the_rule(one: Entry) -> None:
    """Sources: 25 Pa. Code 73.42(e); City of Ramsey, Minn., 8.30."""
    good = make_box(10, 10, inlet_down=length(8.5), floor_down=length(14.5))
    bad = make_box(10, 10.5, inlet_down=length(9.5), floor_down=length(14))
    names = ("box.spread", "box.inlet_fall", "box.floor")
    assert [named(good, ruled(one))[name].verdict for name in names] == [MEETS] * 3
    assert [named(bad, ruled(one))[name].verdict for name in names] == [SHORT] * 3


def test_what_a_box_gives() -> None:
    """By hand: 10.25 - 10 = 0.25; 10 - 9 = 1; 15 - 10.25 = 4.75."""
    box = make_box(10.25, 10, inlet_down=length(9), floor_down=length(15))
    found = named(box, None)
    assert {name: one.value for name, one in found.items()} == {
        "box.spread": 0.25,
        "box.first": 10.25,
        "box.inlet_fall": 1.0,
        "box.floor": 4.75,
    }
    assert found["box.first"].label.endswith("trench 1")
    assert {one.verdict for one in found.values()} == {""}


@pytest.mark.parametrize(
    ("difference", "u", "verdict"),
    [(0.0, 0.1, MEETS), (0.2, 0.1, CLOSE), (0.21, 0.1, SHORT), (0.01, 1e-9, SHORT)],
)
def test_edges_of_level(difference: float, u: float, verdict: str) -> None:
    """Source: JCGM 106, 8.3.3 (from memory, not seen)."""
    assert level_verdict(ufloat(difference, u), 0.0) == verdict


def test_uncertainty_by_the_step() -> None:
    """Source: GUM, F.2.2.1 (from memory, not seen): step over the root of 12, twice."""
    found = named(make_box(10, 11, read_to=length(0.25)), None)["box.spread"]
    assert found.uncertainty == pytest.approx(sqrt(2) * 0.25 / sqrt(12))
    assert "distribution_box.read_to" in found.inputs


def test_limits() -> None:
    assert named(None, None) == {}
    assert named(make_box(), pack("us-pa")) == {}
    assert named(make_box(10), pack("us-pa")) == {}
    assert "box.first" not in named(make_box(10, 10), None)
    assert "box.floor" not in named(make_box(10, 11, floor_down=length(10.5)), None)
    below = named(make_box(10, inlet_down=length(11)), pack("us-pa"))
    assert (below["box.inlet_fall"].value, below["box.inlet_fall"].verdict) == (
        -1.0,
        SHORT,
    )
    zero = named(make_box(0, 0, read_to=length(0), floor_down=length(0)), None)
    assert zero["box.spread"].number == zero["box.floor"].number == 0.0


def test_equal_lowest_outlets_are_all_named() -> None:
    box = make_box(10, 11, 11)
    assert [one.to for one in lowest(box.outlets)] == ["trench 2", "trench 3"]
    assert named(box, None)["box.first"].label.endswith("trench 2 and trench 3")


def test_an_unread_rule_never_decides() -> None:
    rule = BoxRule(
        citation="c",
        edition="e",
        seen="no",
        outlet_difference_in=0,
        inlet_above_outlet_in=1,
    )
    unread = Pack(name="a-code", jurisdiction="x", distribution_box=rule)
    box = make_box(10, 12, inlet_down=length(11), floor_down=length(20))
    found = named(box, unread)
    assert found["box.spread"].verdict == found["box.inlet_fall"].verdict == CONFIRM
    assert found["box.floor"].verdict == ""


@PROPERTY
@given(st.lists(number(0, 40), min_size=1, max_size=12))
def test_spread_against_numpy(downs: list[float]) -> None:
    """Source: numpy, peak to peak."""
    assert spread_in(downs) == pytest.approx(float(np.ptp(downs)))
