"""Gallons in an inch of the tanks that stand: flat floor and upright walls."""

from __future__ import annotations

from math import pi

from generator.quantity import CUBIC_INCHES_PER_GALLON as GAL
from generator.results.result import Number, nominal


def box_gal_per_in(length_in: Number, width_in: Number) -> Number:
    """Gallons for each inch of liquid level in a box with upright walls.

    Parameters
    ----------
    length_in, width_in : float
        Inside measures. [in]

    Returns
    -------
    float
        Plan area over 231 cubic inches. [gal/in]

    Notes
    -----
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³).

    Examples
    --------
    >>> round(box_gal_per_in(84, 48), 3)
    17.455
    """
    return length_in * width_in / GAL


def upright_gal_per_in(diameter_in: Number) -> Number:
    """Gallons for each inch of liquid level in an upright cylinder.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]

    Returns
    -------
    float
        Plan area over 231 cubic inches. [gal/in]

    Notes
    -----
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³).

    Examples
    --------
    >>> round(upright_gal_per_in(72), 3)
    17.626
    """
    return pi * diameter_in**2 / 4 / GAL


def oval_gal_per_in(length_in: Number, width_in: Number) -> Number:
    """Gallons for each inch of liquid level in an upright oval.

    Parameters
    ----------
    length_in, width_in : float
        Inside measures, half circles included; the longer is the long way. [in]

    Returns
    -------
    float
        Plan area over 231 cubic inches. [gal/in]

    Notes
    -----
    The plan is a rectangle with a half circle at each end of its long way.
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³); the area is plain geometry.

    Examples
    --------
    A rectangle of 40 by 60 in and a circle of 60 in:

    >>> round(oval_gal_per_in(100, 60), 3) == round((40 * 60 + 2827.433) / 231, 3)
    True
    """
    short, long = sorted((length_in, width_in), key=nominal)
    return ((long - short) * short + pi * short**2 / 4) / GAL


def ellipse_gal_per_in(length_in: Number, width_in: Number) -> Number:
    """Gallons for each inch of liquid level in an upright ellipse.

    Parameters
    ----------
    length_in, width_in : float
        Inside measures the long and the short way. [in]

    Returns
    -------
    float
        Plan area over 231 cubic inches. [gal/in]

    Notes
    -----
    Source: [NIST-HB44], Appendix C (1 gal is 231 in³); the area is plain geometry.

    Examples
    --------
    >>> ellipse_gal_per_in(72, 72) == upright_gal_per_in(72)
    True
    """
    return pi * length_in * width_in / 4 / GAL
