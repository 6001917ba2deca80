"""How near the solids stand to the outlet device, and their share of the whole."""

from __future__ import annotations

from generator.results.result import Number


def sludge_clearance_in(
    liquid_depth_in: Number, sludge_in: Number, device_depth_in: Number
) -> Number:
    """Clear liquid from the bottom of the outlet device down to the sludge.

    Parameters
    ----------
    liquid_depth_in : float
        Floor to outlet invert. [in]
    sludge_in : float
        Thickness of the sludge. [in]
    device_depth_in : float
        Outlet invert to the bottom of the outlet baffle or tee. [in]

    Returns
    -------
    float
        Clearance; negative where the sludge stands in the device. [in]

    Notes
    -----
    Source: [MN-7080-2450], subp. 3 (the distance that the criterion names).

    Examples
    --------
    >>> sludge_clearance_in(48.0, 11.0, 18.0)
    19.0
    """
    return liquid_depth_in - sludge_in - device_depth_in


def scum_clearance_in(scum_bottom_in: Number, device_depth_in: Number) -> Number:
    """Clear liquid from the bottom of the scum down to that of the outlet device.

    Parameters
    ----------
    scum_bottom_in : float
        Liquid surface to the bottom of the scum. [in]
    device_depth_in : float
        Outlet invert to the bottom of the outlet baffle or tee. [in]

    Returns
    -------
    float
        Clearance; negative where the scum hangs below the device. [in]

    Notes
    -----
    Source: [MN-7080-2450], subp. 3 (the distance that the criterion names).

    Examples
    --------
    >>> scum_clearance_in(2.0, 18.0)
    16.0
    """
    return device_depth_in - scum_bottom_in


def share_percent(part_in: Number, liquid_depth_in: Number) -> Number:
    """Share of the liquid depth that a layer takes up.

    Parameters
    ----------
    part_in : float
        Thickness of the layer or layers. [in]
    liquid_depth_in : float
        Floor to outlet invert. [in]

    Returns
    -------
    float
        Share. [%]

    Notes
    -----
    Source: [PA-71-73], (b)(2)(i), which counts by depth.

    Examples
    --------
    >>> round(share_percent(15.0, 66.0), 1)
    22.7
    """
    return 100 * part_in / liquid_depth_in
