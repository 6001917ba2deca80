"""Velocity of a flow in a round pipe, and what the pipe carries when full."""

from __future__ import annotations

from uncertainties import wrap

from generator.quantity import INCHES_PER_FOOT
from generator.results.pipe_flow import (
    full_flow_gpm,
    normal_depth_in,
    section,
    velocity_fps,
)
from generator.results.result import Number


def normal_velocity_fps(
    flow: float, bore_in: float, slope: float, roughness: float
) -> float:
    """Mean velocity of a flow that runs at its normal depth.

    Parameters
    ----------
    flow : float
        Flow. [gal/min]
    bore_in : float
        Inside diameter. [in]
    slope : float
        Fall for each foot of run; above zero. [ft/ft]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    float
        Mean velocity; that of the full pipe where it cannot carry the flow. [ft/s]

    Notes
    -----
    Source: [Chow1959], equation 5-6 at the depth of 6-4.

    Examples
    --------
    >>> round(normal_velocity_fps(4.0, 4.0, 1 / 48, 0.010), 2)
    1.73
    """
    depth = normal_depth_in(flow, bore_in, slope, roughness)
    wet = section(depth / INCHES_PER_FOOT, bore_in / INCHES_PER_FOOT)
    return velocity_fps(wet.radius_ft, slope, roughness)


def expected_velocity_fps(
    flow: Number, bore_in: Number, slope: Number, roughness: Number
) -> Number:
    """Mean velocity of the test flow, with its uncertainty.

    Parameters
    ----------
    flow : float
        Flow. [gal/min]
    bore_in : float
        Inside diameter. [in]
    slope : float
        Fall for each foot of run. [ft/ft]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    uncertainties.UFloat
        Mean velocity with its standard uncertainty. [ft/s]

    Notes
    -----
    Uncertainty to first order by numerical slopes. Source: [Chow1959], equation 5-6,
    and [GUM], 5.1.2.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> round(expected_velocity_fps(ufloat(4.0, 0.1), 4.0, 1 / 48, 0.010).n, 2)
    1.73
    """
    return wrap(normal_velocity_fps)(flow, bore_in, slope, roughness)


def capacity_gpm(bore_in: Number, slope: Number, roughness: Number) -> Number:
    """Flow of the pipe when it runs just full, with its uncertainty.

    Parameters
    ----------
    bore_in : float
        Inside diameter. [in]
    slope : float
        Fall for each foot of run. [ft/ft]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    uncertainties.UFloat
        Flow with its standard uncertainty. [gal/min]

    Notes
    -----
    Just under the crown the pipe carries some 8 % more than this.
    Source: [Chow1959], equation 5-6 and section 6-4, and [GUM], 5.1.2.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> round(capacity_gpm(4.0, 1 / 48, ufloat(0.010, 0.001)).s, 1)
    16.0
    """
    return wrap(full_flow_gpm)(bore_in, slope, roughness)
