"""A measured number against a limit, with room for its uncertainty."""

from __future__ import annotations

from math import inf
from statistics import NormalDist

from generator.results.result import Number, nominal, standard

COVERAGE_FACTOR = 2.0  # k of the expanded uncertainty; [JCGM106], 7.4 and 8.3
MEETS, SHORT, CLOSE = "meets", "short", "too close to call"


def hold(number: Number, limit: float, *, least: bool, expand: bool = True) -> str:
    """Decide by guarded acceptance and guarded rejection.

    Parameters
    ----------
    number : float
        What was measured, with its uncertainty. [any]
    limit : float
        The limit. [same]
    least : bool
        True where the number must be at least the limit, False where at most.
    expand : bool
        False to leave the guard band out, for a source that settles for the reading.

    Returns
    -------
    str
        ``meets``, ``short`` or ``too close to call``.

    Notes
    -----
    The guard band is the expanded uncertainty U = 2 u. A number on the edge of the band
    meets; one that misses the limit by no more than U is too close to call.
    Source: [JCGM106], 8.3.2 and 8.3.3.

    Examples
    --------
    >>> hold(82.0, 100.0, least=True), hold(100.0, 100.0, least=True)
    ('short', 'meets')
    """
    band = COVERAGE_FACTOR * standard(number) if expand else 0.0
    room = nominal(number) - limit if least else limit - nominal(number)
    if room >= band:
        return MEETS
    return SHORT if room < -band else CLOSE


def conformance_probability(
    number: Number, low: float | None = None, high: float | None = None
) -> float:
    """Probability that the true value lies within limits.

    Parameters
    ----------
    number : float
        What was measured, with its uncertainty. [any]
    low, high : float or None
        The limits; None where there is none on that side. [same]

    Returns
    -------
    float
        Probability from 0 to 1; 0 or 1 for a number without uncertainty. [-]

    Notes
    -----
    The true value is taken as normal about the number, nothing else being known of it.
    Source: [JCGM106], clause 7.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> round(conformance_probability(ufloat(100.0, 0.25), low=100.0), 3)
    0.5
    """
    value, spread = nominal(number), standard(number)
    bottom = -inf if low is None else low
    top = inf if high is None else high
    if spread == 0:
        return float(bottom <= value <= top)
    return max(0.0, _below((top - value) / spread) - _below((bottom - value) / spread))


def _below(deviate: float) -> float:
    return NormalDist().cdf(deviate)
