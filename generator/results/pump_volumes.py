"""What a pump moves: its dose, its rate, and the doses of a day."""

from __future__ import annotations

from generator.quantity import MINUTES_PER_DAY, MINUTES_PER_HOUR
from generator.results.result import Number


def net_dose_gal(gross_gal: Number, drain_back_gal: Number) -> Number:
    """Gallons of a dose that stay out of the chamber.

    Parameters
    ----------
    gross_gal : float
        Gallons that the pump moves between its floats. [gal]
    drain_back_gal : float
        Gallons that run back from the pipe after each dose. [gal]

    Returns
    -------
    float
        Net dose; zero or less means that the record contradicts itself. [gal]

    Notes
    -----
    Water that comes in while the pump runs is left out. Source: [BALANCE], for the
    water in the pipe.

    Examples
    --------
    >>> net_dose_gal(75.0, 6.0)
    69.0
    """
    return gross_gal - drain_back_gal


def pump_rate_gpm(drawn_gal: Number, minutes: Number, inflow_gpm: Number) -> Number:
    """Rate of a pump from a drawdown.

    Parameters
    ----------
    drawn_gal : float
        Gallons by which the chamber emptied; negative where it rose. [gal]
    minutes : float
        How long the pump ran; above zero. [min]
    inflow_gpm : float
        Water that came in meanwhile. [gal/min]

    Returns
    -------
    float
        Mean rate of the pump over the time. [gal/min]

    Notes
    -----
    q = (V + Qi t) / t; drain-back after the pump stops must not be in the readings.
    Source: [BALANCE], for the chamber.

    Examples
    --------
    >>> pump_rate_gpm(150.0, 6.0, 4.0)
    29.0
    """
    return drawn_gal / minutes + inflow_gpm


def doses_per_day(gpd: Number, net_gal: Number) -> Number:
    """Doses that a day's water makes.

    Parameters
    ----------
    gpd : float
        Water of a day. [gal/day]
    net_gal : float
        Net dose; above zero. [gal]

    Returns
    -------
    float
        Doses in a day. [1/day]

    Notes
    -----
    Source: [BALANCE], for the chamber over a day.

    Examples
    --------
    >>> doses_per_day(450.0, 75.0)
    6.0
    """
    return gpd / net_gal


def reserve_hours(reserve_gal: Number, gpd: Number) -> Number:
    """Hours until a chamber fills from its alarm to its inlet with the pump still.

    Parameters
    ----------
    reserve_gal : float
        Gallons between the alarm and the inlet invert. [gal]
    gpd : float
        Water of a day; above zero. [gal/day]

    Returns
    -------
    float
        Hours at the mean flow of the day. [h]

    Notes
    -----
    Morning and evening bring more than the mean. Source: [BALANCE], for the chamber.

    Examples
    --------
    >>> reserve_hours(225.0, 450.0)
    12.0
    """
    return reserve_gal / (gpd / (MINUTES_PER_DAY / MINUTES_PER_HOUR))
