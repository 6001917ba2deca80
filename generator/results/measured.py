"""A reading becomes a number that knows how sure it is.

A half-width ``a`` with nothing known inside it is taken as a rectangle, so that its
standard uncertainty is ``a / sqrt(3)`` (source key GUM, 4.3.7).
"""

from __future__ import annotations

from math import sqrt

from uncertainties import ufloat

from generator.results.methods import (
    BOX_IN,
    BUCKET,
    CAMERA_WATER_IN,
    COMPASS_DEG,
    DISTANCES_FT,
    DRAIN_BACK,
    FLOAT_IN,
    GROUND_SLOPE,
    INVERT_AT_WALL_IN,
    LEVEL_IN,
    MEANWHILE,
    METER_SHARE,
    OPENING_IN,
    OTHER_WATER,
    PITCH,
    PROBED_IN,
    RIGHT_ANGLE_DEG,
    ROUGHNESS_N,
    SAID,
    SINCE_PUMPED_YEARS,
    SLOPE,
    SOLIDS_IN,
    STATED_VOLUME,
    STONE_IN,
    TANK_INSIDE_IN,
    TOP_ABOVE_INVERT_IN,
    USUAL_VOID_PERCENT,
    VOID_PERCENT,
    WATCH_MIN,
    WATER_ADDED,
    Method,
)
from generator.results.result import Number

__all__ = [
    "BOX_IN",
    "BUCKET",
    "CAMERA_WATER_IN",
    "COMPASS_DEG",
    "DISTANCES_FT",
    "DRAIN_BACK",
    "FLOAT_IN",
    "GROUND_SLOPE",
    "INVERT_AT_WALL_IN",
    "LEVEL_IN",
    "MEANWHILE",
    "METER_SHARE",
    "OPENING_IN",
    "OTHER_WATER",
    "PITCH",
    "PROBED_IN",
    "RIGHT_ANGLE_DEG",
    "ROUGHNESS_N",
    "SAID",
    "SINCE_PUMPED_YEARS",
    "SLOPE",
    "SOLIDS_IN",
    "STATED_VOLUME",
    "STONE_IN",
    "TANK_INSIDE_IN",
    "TOP_ABOVE_INVERT_IN",
    "USUAL_VOID_PERCENT",
    "VOID_PERCENT",
    "WATCH_MIN",
    "WATER_ADDED",
    "Method",
    "from_half_width",
    "measured",
    "stepped",
]


def from_half_width(value: float, half_width: float) -> Number:
    """Make a number from a reading and the most it may be off either way.

    Parameters
    ----------
    value : float
        The reading. [any]
    half_width : float
        Half the width of the rectangle. [same]

    Returns
    -------
    uncertainties.UFloat
        The reading with its standard uncertainty, plain where there is none. [same]

    Notes
    -----
    Source: [GUM], 4.3.7.

    Examples
    --------
    >>> round(from_half_width(10.0, 0.5).std_dev, 4)
    0.2887
    """
    return ufloat(value, half_width / sqrt(3)) if half_width else value


def measured(value: float, method: Method) -> Number:
    """Make a number from a reading by a method of the tables above.

    Parameters
    ----------
    value : float
        The reading, in the unit of the table. [unit]
    method : Method
        How it was taken.

    Returns
    -------
    uncertainties.UFloat
        The reading with its standard uncertainty. [unit]

    Notes
    -----
    Source: [GUM], 4.3.7.

    Examples
    --------
    >>> round(measured(82.0, DISTANCES_FT["tape"]).std_dev, 3)
    0.239
    """
    return from_half_width(value, method.half_width(value))


def stepped(value: float, step: float) -> Number:
    """Make a number from an instrument that shows steps.

    Parameters
    ----------
    value : float
        The reading. [any]
    step : float
        Smallest step shown. [same]

    Returns
    -------
    uncertainties.UFloat
        The reading; its standard uncertainty is 0.29 of the step. [same]

    Notes
    -----
    Source: [GUM], F.2.2.1.

    Examples
    --------
    >>> round(stepped(48211.0, 1.0).std_dev, 2)
    0.29
    """
    return from_half_width(value, step / 2)
