"""The guard band: its edges, its order, and the risk that it leaves."""

from __future__ import annotations

import pytest
from hypothesis import given
from published import Entry, allowed, entry, values
from result_builders import PROPERTY, number
from scipy.stats import norm
from uncertainties import ufloat

from generator.results.guard_band import (
    CLOSE,
    COVERAGE_FACTOR,
    MEETS,
    SHORT,
    conformance_probability,
    hold,
)
from generator.results.result import standard

ORDER = [SHORT, CLOSE, MEETS]


@pytest.mark.parametrize("one", [entry("ilac-w-u")])
@pytest.mark.parametrize("place", [0, 1])
@pytest.mark.parametrize("least", [True, False])
def test_greatest_risk_of_a_false_acceptance(
    one: Entry, place: int, least: bool
) -> None:
    """Source: ILAC-G8:09/2019 as restated by a testing laboratory."""
    width = one["inputs"]["w_over_u"][place]
    expand = width == COVERAGE_FACTOR
    assert expand or width == 0
    edge = 100.0 + width if least else 100.0 - width
    assert hold(ufloat(edge, 1.0), 100.0, least=least, expand=expand) == MEETS
    beyond = edge - 0.001 if least else edge + 0.001
    assert hold(ufloat(beyond, 1.0), 100.0, least=least, expand=expand) != MEETS
    risk = norm.sf(abs(edge - 100.0))
    assert risk <= one["expected"]["max_pfa"][place]


@pytest.mark.parametrize(("one", "key"), values("rss-micrometer"))
def test_calibration_of_a_micrometer(one: Entry, key: str) -> None:
    """Source: page on calibrating a micrometer under ISO 17025."""
    error = one["inputs"]["abs_error"] + sum(ufloat(0, u) for u in one["inputs"]["u"])
    uncertainty = standard(error)
    verdict = hold(error, one["inputs"]["limit"], least=False)
    found = {
        "uc": uncertainty,
        "U": COVERAGE_FACTOR * uncertainty,
        "comply": verdict == MEETS,
    }
    assert found[key] == allowed(one, one["expected"][key])


@pytest.mark.parametrize(
    ("value", "least", "verdict"),
    [
        (100.5, True, MEETS),  # on the outer edge
        (100.4375, True, CLOSE),
        (100.0, True, CLOSE),
        (99.5, True, CLOSE),  # on the inner edge
        (99.4375, True, SHORT),
        (99.5, False, MEETS),
        (99.5625, False, CLOSE),
        (100.5, False, CLOSE),
        (100.5625, False, SHORT),
    ],
)
def test_edges(value: float, least: bool, verdict: str) -> None:
    """Source: JCGM 106, 8.3.2 and 8.3.3 (from memory, not seen); all numbers exact."""
    assert hold(ufloat(value, 0.25), 100.0, least=least) == verdict


@pytest.mark.parametrize("least", [True, False])
@pytest.mark.parametrize("exact", [100.0, ufloat(100.0, 0.0)])
def test_without_uncertainty_the_limit_itself_meets(exact: object, least: bool) -> None:
    assert hold(exact, 100.0, least=least) == MEETS
    worse = 99.999 if least else 100.001
    assert hold(worse, 100.0, least=least) == SHORT


def test_a_source_that_settles_for_the_reading() -> None:
    assert hold(ufloat(100.0, 5.0), 100.0, least=True, expand=False) == MEETS
    assert hold(ufloat(99.9, 5.0), 100.0, least=True, expand=False) == SHORT


@PROPERTY
@given(number(0, 200), number(0, 200), number(0, 20))
def test_verdicts_are_three_and_in_order(one: float, two: float, u: float) -> None:
    low, high = sorted((one, two))
    worse, better = (hold(ufloat(x, u), 100.0, least=True) for x in (low, high))
    assert ORDER.index(worse) <= ORDER.index(better)
    better, worse = (hold(ufloat(x, u), 100.0, least=False) for x in (low, high))
    assert ORDER.index(worse) <= ORDER.index(better)


@PROPERTY
@given(number(0, 200), number(0, 20), number(0, 20))
def test_more_uncertainty_only_makes_it_closer(x: float, u: float, more: float) -> None:
    tight = hold(ufloat(x, u), 100.0, least=True)
    loose = hold(ufloat(x, u + more), 100.0, least=True)
    assert loose in (tight, CLOSE)


@PROPERTY
@given(number(-100, 100), number(0, 20))
def test_least_and_most_mirror_each_other(room: float, u: float) -> None:
    assert hold(ufloat(room, u), 0.0, least=True) == hold(
        ufloat(-room, u), 0.0, least=False
    )


@pytest.mark.parametrize("one", [entry("jcgm106-two-sided")])
def test_probability_between_two_limits(one: Entry) -> None:
    """Source: JCGM 106:2012, clause 7 (from memory, not seen)."""
    given = one["inputs"]
    found = conformance_probability(
        ufloat(given["y"], given["u"]), given["T_L"], given["T_U"]
    )
    assert found == allowed(one, one["expected"]["pc"])


@PROPERTY
@given(number(-50, 50), number(0.01, 20), number(-50, 50), number(0, 50))
def test_probability_against_scipy(y: float, u: float, low: float, more: float) -> None:
    """Source: scipy, the normal distribution."""
    measured, curve = ufloat(y, u), norm(y, u)
    assert conformance_probability(measured, low=low) == pytest.approx(curve.sf(low))
    both = curve.cdf(low + more) - curve.cdf(low)
    found = conformance_probability(measured, low, low + more)
    assert found == pytest.approx(both, abs=1e-12)


@pytest.mark.parametrize(
    ("value", "probability"), [(99.9, 0.0), (100.0, 1.0), (300.0, 1.0)]
)
def test_probability_without_uncertainty(value: float, probability: float) -> None:
    assert conformance_probability(value, low=100.0) == probability
    assert conformance_probability(value) == 1.0
