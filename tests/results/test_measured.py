"""Standard uncertainties of readings against the spread of a rectangle."""

from __future__ import annotations

import pytest
from hypothesis import given
from published import Entry, allowed, entry
from result_builders import PROPERTY, number
from scipy.stats import uniform
from uncertainties import ufloat

from generator.results import measured as tables
from generator.results.measured import Method, from_half_width, measured, stepped
from generator.results.result import nominal, standard

METHODS = {
    name: method
    for table in (tables.DISTANCES_FT, tables.TANK_INSIDE_IN)
    for name, method in table.items()
} | {name: one for name, one in vars(tables).items() if isinstance(one, Method)}


@pytest.mark.parametrize("half_width", [0.0, 0.125, 0.5, 2.0, 16.0])
def test_rectangle_against_scipy(half_width: float) -> None:
    """Source: scipy, standard deviation of a uniform distribution."""
    expected = uniform(-half_width, 2 * half_width).std() if half_width else 0.0
    found = from_half_width(10.0, half_width)
    assert nominal(found) == 10.0
    assert standard(found) == pytest.approx(expected)


@pytest.mark.parametrize("step", [0.1, 1.0, 10.0])
def test_step_against_scipy(step: float) -> None:
    """Source: scipy; the 0.29 of the step in GUM F.2.2.1 is computed, not seen."""
    found = stepped(48211.0, step)
    assert found.s == pytest.approx(uniform(0, step).std())
    assert round(found.s / step, 2) == 0.29


@pytest.mark.parametrize("name", METHODS)
def test_each_method_against_scipy(name: str) -> None:
    """Source: scipy, a rectangle of the table's half-width at the reading."""
    method = METHODS[name]
    half = method.fixed + method.share * 82.0
    assert half > 0
    assert measured(82.0, method).s == pytest.approx(uniform(-half, 2 * half).std())


@pytest.mark.parametrize("name", METHODS)
def test_each_method_says_where_it_is_from(name: str) -> None:
    said = METHODS[name].assumption()
    assert tables.SAID[METHODS[name].source] in said
    assert "taken to be right within" in said


@PROPERTY
@given(number(-1e4, 1e4), number(0, 10), number(0, 0.5))
def test_a_half_width_is_never_negative(
    reading: float, fixed: float, share: float
) -> None:
    method = Method(fixed, share, "choice", "any")
    assert method.half_width(reading) == method.half_width(-reading) >= fixed


def test_two_readings_share_nothing() -> None:
    """Source: two independent rectangles, root of the sum of squares."""
    one, two = (measured(10.0, tables.LEVEL_IN) for _ in range(2))
    assert (one - two).s == pytest.approx(one.s * 2**0.5)
    assert (one - one).s == 0


@pytest.mark.parametrize("one", [entry("gum-h1")])
def test_end_gauge_of_the_gum(one: Entry) -> None:
    """Source: GUM H.1 (result from memory): the propagation that all numbers ride on.

    l = ls + d - ls (dalpha theta + alpha dtheta); theta is -0.1 give or take 0.41 from
    its own spread of 0.2 and a swing of 0.5 whose standard deviation is 0.35.
    """
    given_ = one["inputs"]
    standard_gauge = ufloat(given_["ls_nm"], given_["u_ls_nm"])
    difference = sum(ufloat(0.0, u) for u in given_["u_d_nm"]) + given_["d_nm"]
    theta = ufloat(given_["theta_bar"], (0.2**2 + 0.5**2 / 2) ** 0.5)
    dtheta = from_half_width(0.0, given_["dtheta_halfwidth"])
    dalpha = from_half_width(0.0, given_["dalpha_halfwidth"])
    alpha = from_half_width(given_["alpha"], 2e-6)
    found = standard_gauge + difference
    found -= standard_gauge * (dalpha * theta + alpha * dtheta)
    assert found.n == allowed(one, one["expected"]["l_nm"])
    assert found.s == allowed(one, one["expected"]["uc_nm"])
