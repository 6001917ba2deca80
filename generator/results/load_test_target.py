"""How much water a test was to see, and how much of a day's design flow it was."""

from __future__ import annotations

from generator.quantity import Target
from generator.results.result import Number


def wanted_gal(
    target: Target, mean_flow_gpm: Number, design_flow_gpd: Number | None
) -> Number | None:
    """Gallons that a test was to see.

    Parameters
    ----------
    target : Target
        Gallons, minutes, or a share of the design flow. [gal], [min] or [%]
    mean_flow_gpm : float
        Mean flow of the test water. [gal/min]
    design_flow_gpd : float or None
        Design flow of a day; None where no code gives one. [gal/day]

    Returns
    -------
    float or None
        The target; None for a share of a design flow that nobody knows. [gal]

    Notes
    -----
    Minutes count at the mean flow; a share is of one day's volume. Source: [EXAM-FILL],
    volume is flow times time.

    Examples
    --------
    >>> wanted_gal(Target(None, 30.0, None, "30 min"), 4.0, None)
    120.0
    >>> wanted_gal(Target(None, None, 30.0, "30 % of design flow"), 4.0, 400.0)
    120.0
    """
    if target.gallons is not None:
        return target.gallons
    if target.minutes is not None:
        return target.minutes * mean_flow_gpm
    if target.percent is None or design_flow_gpd is None:
        return None
    return design_flow_gpd * target.percent / 100


def share_percent(part_gal: Number, whole_gal: Number) -> Number:
    """Share of a volume in another.

    Parameters
    ----------
    part_gal, whole_gal : float
        The two volumes; the second above zero. [gal]

    Returns
    -------
    float
        The share. [%]

    Notes
    -----
    100 × part / whole; what both have in common stays correlated. Source: [BALANCE].

    Examples
    --------
    >>> share_percent(120.0, 400.0)
    30.0
    """
    return 100 * part_gal / whole_gal
