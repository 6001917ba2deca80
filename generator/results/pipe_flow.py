"""Steady flow in a part-full round pipe: its depth by Manning."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, sin, sqrt

from uncertainties import wrap

from generator.quantity import (
    GALLONS_PER_CUBIC_FOOT,
    INCHES_PER_FOOT,
    SECONDS_PER_MINUTE,
)
from generator.results.result import Number
from generator.results.solve import rising_root

MANNING_US = 1.486  # ft^(1/3)/s; cube root of 3.2808 ft/m, [Chow1959], 5-6
FULLEST_FLOW_DEPTH = 0.938  # y/D of the greatest flow, [Chow1959], 6-4


@dataclass(frozen=True)
class Section:
    """Flow area, wetted perimeter and hydraulic radius. [ft²], [ft], [ft]"""

    area_ft2: float
    perimeter_ft: float
    radius_ft: float


def section(depth_ft: float, bore_ft: float) -> Section:
    """Geometry of the water in a round pipe.

    Parameters
    ----------
    depth_ft : float
        Depth of water, from 0 to the bore. [ft]
    bore_ft : float
        Inside diameter. [ft]

    Returns
    -------
    Section
        Flow area, wetted perimeter and hydraulic radius. [ft²], [ft], [ft]

    Notes
    -----
    With θ = 2 arccos(1 − 2y/D): A = (θ − sin θ) D²/8, P = θ D/2, R = A/P.
    Source: [Chow1959], Table 2-1.

    Examples
    --------
    >>> round(section(0.5, 1.0).area_ft2, 4)
    0.3927
    """
    share = min(1.0, max(0.0, depth_ft / bore_ft))
    angle = 2 * acos(1 - 2 * share)
    area = (angle - sin(angle)) * bore_ft**2 / 8
    perimeter = angle * bore_ft / 2
    return Section(area, perimeter, area / perimeter if perimeter else 0.0)


def velocity_fps(radius_ft: float, slope: float, roughness: float) -> float:
    """Mean velocity of steady, uniform flow.

    Parameters
    ----------
    radius_ft : float
        Hydraulic radius. [ft]
    slope : float
        Fall for each foot of run. [ft/ft]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    float
        Mean velocity. [ft/s]

    Notes
    -----
    Holds for fully rough, turbulent flow; thin sheets of water in smooth pipe run a
    little deeper. Source: [Chow1959], equation 5-6 in US units.

    Examples
    --------
    >>> round(velocity_fps(1.0, 0.01, 0.01486), 3)
    10.0
    """
    return float(MANNING_US / roughness * radius_ft ** (2 / 3) * sqrt(slope))


def flow_gpm(depth_in: float, bore_in: float, slope: float, roughness: float) -> float:
    """Flow that a depth of water carries.

    Parameters
    ----------
    depth_in : float
        Depth of water. [in]
    bore_in : float
        Inside diameter. [in]
    slope : float
        Fall for each foot of run. [ft/ft]
    roughness : float
        Manning's n. [s/m^(1/3)]

    Returns
    -------
    float
        Flow. [gal/min]

    Notes
    -----
    Area times velocity. Source: [Chow1959], equation 5-6.

    Examples
    --------
    >>> round(flow_gpm(8.0, 8.0, 0.005, 0.013))
    384
    """
    found = section(depth_in / INCHES_PER_FOOT, bore_in / INCHES_PER_FOOT)
    cubic_feet = found.area_ft2 * velocity_fps(found.radius_ft, slope, roughness)
    return cubic_feet * GALLONS_PER_CUBIC_FOOT * SECONDS_PER_MINUTE


def full_flow_gpm(bore_in: float, slope: float, roughness: float) -> float:
    """Flow of a pipe that runs just full.

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
    float
        Flow. [gal/min]

    Notes
    -----
    Source: [Chow1959], equation 5-6 with y = D.

    Examples
    --------
    >>> round(full_flow_gpm(4.0, 1 / 48, 0.010), 1)
    160.3
    """
    return flow_gpm(bore_in, bore_in, slope, roughness)


def normal_depth_in(
    flow: float, bore_in: float, slope: float, roughness: float
) -> float:
    """Depth at which a flow runs in a round pipe.

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
        Depth; the bore where the pipe cannot carry the flow. [in]

    Notes
    -----
    The lower of the two depths that carry one flow near the crown.
    Source: [Chow1959], 6-4.

    Examples
    --------
    >>> round(normal_depth_in(4.0, 4.0, 1 / 48, 0.010), 3)
    0.436
    """
    fullest = FULLEST_FLOW_DEPTH * bore_in
    if flow >= flow_gpm(fullest, bore_in, slope, roughness):
        return bore_in
    return rising_root(
        lambda depth: flow_gpm(depth, bore_in, slope, roughness) - flow, 0.0, fullest
    )


def expected_depth_in(
    flow: Number, bore_in: Number, slope: Number, roughness: Number
) -> Number:
    """Depth that the camera should see at the test flow, with its uncertainty.

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
        Depth with its standard uncertainty. [in]

    Notes
    -----
    Uncertainty to first order by numerical slopes. Source: [Chow1959], 6-4, and
    [GUM], 5.1.2.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> round(expected_depth_in(ufloat(4.0, 0.1), 4.0, 1 / 48, 0.010).n, 3)
    0.436
    """
    return wrap(normal_depth_in)(flow, bore_in, slope, roughness)
