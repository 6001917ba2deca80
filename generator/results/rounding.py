"""The one rule of rounding: no finer than the uncertainty allows."""

from __future__ import annotations

from math import floor, log10

from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.result import Number, nominal, standard

TWO_DIGITS_BELOW = 3  # a leading 1 or 2 keeps two digits; our reading of [GUM], 7.2.6
NOISE = 1e-9  # an uncertainty below it comes from the arithmetic; our choice
MOST_DECIMALS = 2  # of a number with no uncertainty below 10; our choice


def decimals(number: Number) -> int:
    """Choose the decimals at which a number is written.

    Parameters
    ----------
    number : float
        The number, with its standard uncertainty where it has one. [any]

    Returns
    -------
    int
        Decimals; never below zero. [-]

    Notes
    -----
    The expanded uncertainty (k = 2) keeps two significant digits where the first is 1
    or 2, else one. Source: [GUM], 7.2.6 (at most two significant digits).

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> decimals(ufloat(82.0, 0.24)), decimals(ufloat(5.375, 0.072)), decimals(31.0)
    (1, 2, 1)
    """
    expanded = expanded_of(number)
    if expanded <= 0:
        size = abs(nominal(number))
        return MOST_DECIMALS if size < 10 else 1 if size < 100 else 0
    exponent = floor(log10(expanded))
    digits = 2 if expanded / 10**exponent < TWO_DIGITS_BELOW else 1
    return max(0, digits - 1 - exponent)


def expanded_of(number: Number) -> float:
    """Expanded uncertainty of a number, the noise of the arithmetic left out.

    Parameters
    ----------
    number : float
        The number, with its standard uncertainty where it has one. [any]

    Returns
    -------
    float
        Twice the standard uncertainty, or zero. [same]

    Notes
    -----
    k = 2. Source: [JCGM106], 7.4.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> expanded_of(ufloat(82.0, 0.25)), expanded_of(ufloat(0.0, 1e-16))
    (0.5, 0.0)
    """
    expanded = COVERAGE_FACTOR * standard(number)
    return expanded if expanded > NOISE else 0.0


def written(value: float, places: int) -> str:
    """Write a value at a number of decimals, without empty ones, with a true minus.

    Examples
    --------
    >>> written(4.0, 2), written(0.4375, 2), written(-11.2, 0), written(-0.001, 2)
    ('4', '0.44', '−11', '0')
    """
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text.replace("-", "−")


def said(number: Number, unit: str) -> str:
    """Say a number with its unit, no finer than its uncertainty allows.

    Examples
    --------
    >>> said(4.0, "in"), said(0.4375, "in"), said(124.004, "gal")
    ('4 in', '0.44 in', '124 gal')
    """
    return f"{written(nominal(number), decimals(number))} {unit}".strip()
