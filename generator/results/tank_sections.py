"""Wetted area and surface width across the tanks that lie: circle, oval, ellipse.

Depths count from the lowest point. A section that is empty or full has no surface.
"""

from __future__ import annotations

from math import pi

from uncertainties import umath

from generator.results.result import Number, nominal


def segment_area_in2(diameter_in: Number, depth_in: Number) -> Number:
    """Area of the wetted segment of a circle filled to a depth.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]
    depth_in : float
        Depth above the lowest point, from 0 to the diameter. [in]

    Returns
    -------
    float
        Wetted area. [in²]

    Notes
    -----
    A = (D²/8)(θ − sin θ) with θ = 2 arccos(1 − 2d/D), the angle taken here from both
    legs of its triangle, since the arccosine loses its slope when nearly empty or full.
    Source: [Chow1959], Table 2-1.

    Examples
    --------
    >>> round(segment_area_in2(2.0, 1.0), 4)
    1.5708
    """
    if nominal(depth_in) <= 0:
        return 0.0 * depth_in
    if nominal(depth_in) >= nominal(diameter_in):
        return pi * diameter_in**2 / 4
    half_chord = umath.sqrt(depth_in * (diameter_in - depth_in))
    angle = 2 * umath.atan2(half_chord, diameter_in / 2 - depth_in)
    return diameter_in**2 / 8 * (angle - umath.sin(angle))


def chord_in(diameter_in: Number, depth_in: Number) -> Number:
    """Width of the liquid surface in a circle filled to a depth.

    Parameters
    ----------
    diameter_in : float
        Inside diameter. [in]
    depth_in : float
        Depth above the lowest point. [in]

    Returns
    -------
    float
        Width of the surface; zero when empty or full. [in]

    Notes
    -----
    T = 2 √(d (D − d)). Source: [Chow1959], Table 2-1.

    Examples
    --------
    >>> chord_in(2.0, 1.0)
    2.0
    """
    if not 0 < nominal(depth_in) < nominal(diameter_in):
        return 0.0 * depth_in
    return 2 * umath.sqrt(depth_in * (diameter_in - depth_in))


def oval_area_in2(width_in: Number, height_in: Number, depth_in: Number) -> Number:
    """Wetted area of a lying oval filled to a depth.

    Parameters
    ----------
    width_in, height_in : float
        Inside measures across and up. [in]
    depth_in : float
        Depth above the lowest point, from 0 to the height. [in]

    Returns
    -------
    float
        Wetted area. [in²]

    Notes
    -----
    A rectangle and two half circles: at top and bottom where it is higher than wide, at
    both sides where it is wider than high. Source: [Chow1959], Table 2-1 for the
    segments of the circle; the rectangle is plain geometry.

    Examples
    --------
    A half circle of 2 in and 1 in of straight side above it:

    >>> round(oval_area_in2(2.0, 4.0, 2.0) - 2.0 * 1.0, 4)
    1.5708
    """
    if nominal(width_in) > nominal(height_in):
        depth = _within(depth_in, height_in)
        flat = (width_in - height_in) * depth
        return segment_area_in2(height_in, depth_in) + flat
    straight = height_in - width_in
    above_arc = depth_in - width_in / 2
    if nominal(above_arc) <= 0:
        return segment_area_in2(width_in, depth_in)
    upright = _within(above_arc, straight)
    if nominal(above_arc) < nominal(straight):
        return pi * width_in**2 / 8 + width_in * upright
    return segment_area_in2(width_in, depth_in - straight) + width_in * straight


def oval_width_in(width_in: Number, height_in: Number, depth_in: Number) -> Number:
    """Width of the liquid surface in a lying oval filled to a depth.

    Parameters
    ----------
    width_in, height_in : float
        Inside measures across and up. [in]
    depth_in : float
        Depth above the lowest point. [in]

    Returns
    -------
    float
        Width of the surface; zero when empty or full. [in]

    Notes
    -----
    Source: [Chow1959], Table 2-1 for the half circles; the rest is plain geometry.

    Examples
    --------
    >>> oval_width_in(4.0, 2.0, 1.0), oval_width_in(2.0, 4.0, 3.0)
    (4.0, 2.0)
    """
    if not 0 < nominal(depth_in) < nominal(height_in):
        return 0.0 * depth_in
    if nominal(width_in) > nominal(height_in):
        return chord_in(height_in, depth_in) + (width_in - height_in)
    radius, straight = width_in / 2, height_in - width_in
    if nominal(depth_in) < nominal(radius):
        return chord_in(width_in, depth_in)
    if nominal(depth_in) <= nominal(radius + straight):
        return width_in + 0.0 * depth_in
    return chord_in(width_in, depth_in - straight)


def ellipse_area_in2(width_in: Number, height_in: Number, depth_in: Number) -> Number:
    """Wetted area of a lying ellipse filled to a depth.

    Parameters
    ----------
    width_in, height_in : float
        Inside measures across and up. [in]
    depth_in : float
        Depth above the lowest point, from 0 to the height. [in]

    Returns
    -------
    float
        Wetted area. [in²]

    Notes
    -----
    A circle of the same height, stretched sideways. Source: [Chow1959], Table 2-1 for
    the segment of the circle; the stretching is plain geometry.

    Examples
    --------
    >>> round(ellipse_area_in2(4.0, 2.0, 1.0), 4)
    3.1416
    """
    return segment_area_in2(height_in, depth_in) * width_in / height_in


def ellipse_width_in(width_in: Number, height_in: Number, depth_in: Number) -> Number:
    """Width of the liquid surface in a lying ellipse filled to a depth.

    Parameters
    ----------
    width_in, height_in : float
        Inside measures across and up. [in]
    depth_in : float
        Depth above the lowest point. [in]

    Returns
    -------
    float
        Width of the surface; zero when empty or full. [in]

    Notes
    -----
    Source: [Chow1959], Table 2-1 for the chord of the circle; the stretching is plain
    geometry.

    Examples
    --------
    >>> ellipse_width_in(4.0, 2.0, 1.0)
    4.0
    """
    return chord_in(height_in, depth_in) * width_in / height_in


def _within(depth_in: Number, most_in: Number) -> Number:
    if nominal(depth_in) <= 0:
        return 0.0 * depth_in
    return depth_in if nominal(depth_in) < nominal(most_in) else most_in
