"""The halving of an interval against scipy."""

from __future__ import annotations

from math import exp

import pytest
from hypothesis import given
from result_builders import PROPERTY, number
from scipy.optimize import brentq

from generator.results.solve import rising_root


@PROPERTY
@given(number(-5, 5))
def test_root_against_brentq(target: float) -> None:
    """Source: scipy, brentq."""

    def rising(x: float) -> float:
        return x**3 + x + exp(x) - target

    expected = brentq(rising, -10, 10, xtol=1e-13)
    assert rising_root(rising, -10, 10) == pytest.approx(expected, abs=1e-10)


def test_a_root_outside_gives_the_nearer_end() -> None:
    assert rising_root(lambda x: x + 1, 0.0, 2.0) == pytest.approx(0.0, abs=1e-12)
    assert rising_root(lambda x: x - 3, 0.0, 2.0) == pytest.approx(2.0)
    assert rising_root(lambda x: x, 0.0, 2.0) == pytest.approx(0.0, abs=1e-12)
    assert rising_root(lambda x: x, 1.5, 1.5) == 1.5
