"""Area, loading and space of an absorption area: the formulas."""

from __future__ import annotations

from generator.quantity import GALLONS_PER_CUBIC_FOOT, INCHES_PER_FOOT
from generator.results.result import Number


def bottom_ft2(length_ft: Number, width_ft: Number, count: int) -> Number:
    """Bottom area of a bed, or of equal trenches.

    Parameters
    ----------
    length_ft, width_ft : float
        Length and width of the bed or of each trench. [ft]
    count : int
        Number of trenches; 1 for a bed. [-]

    Returns
    -------
    float
        Bottom area of all together. [ft²]

    Notes
    -----
    Straight sides, square ends; plain geometry. Common practice, no source.

    Examples
    --------
    >>> bottom_ft2(60.0, 3.0, 3)
    540.0
    """
    return length_ft * width_ft * count


def sidewall_ft2(
    length_ft: Number, width_ft: Number, count: int, wall_ft: float
) -> Number:
    """Side wall all round that a code counts with the bottom.

    Parameters
    ----------
    length_ft, width_ft : float
        Length and width of the bed or of each trench. [ft]
    count : int
        Number of trenches; 1 for a bed. [-]
    wall_ft : float
        Height of the wall that counts. [ft]

    Returns
    -------
    float
        Area of that wall of all together. [ft²]

    Notes
    -----
    Source: [TX-285-91], (1), which counts one foot of wall.

    Examples
    --------
    >>> sidewall_ft2(60.0, 3.0, 1, 1.0)
    126.0
    """
    return 2 * (length_ft + width_ft) * wall_ft * count


def loading_gpd_per_ft2(gpd: Number, area_ft2: Number) -> Number:
    """Water of a day for each square foot of bottom.

    Parameters
    ----------
    gpd : float
        Design flow. [gal/day]
    area_ft2 : float
        Bottom area; above zero. [ft²]

    Returns
    -------
    float
        Loading. [gal/(day ft²)]

    Notes
    -----
    Every square foot taken to get the same. Source: [BALANCE], over a day.

    Examples
    --------
    >>> loading_gpd_per_ft2(450.0, 900.0)
    0.5
    """
    return gpd / area_ft2


def required_ft2(gpd: Number, rate_gpd_per_ft2: float) -> Number:
    """Area that a design flow needs at a loading rate.

    Parameters
    ----------
    gpd : float
        Design flow. [gal/day]
    rate_gpd_per_ft2 : float
        Loading rate; above zero. [gal/(day ft²)]

    Returns
    -------
    float
        Area. [ft²]

    Notes
    -----
    Factors for side walls or for beds, which some worksheets add, are left out.
    Source: [BALANCE], over a day.

    Examples
    --------
    >>> required_ft2(450.0, 0.5)
    900.0
    """
    return gpd / rate_gpd_per_ft2


def stone_space_gal(
    area_ft2: Number, stone_depth_in: Number, void_percent: Number
) -> Number:
    """Water that the empty space between the stones can hold.

    Parameters
    ----------
    area_ft2 : float
        Bottom area. [ft²]
    stone_depth_in : float
        Bottom of the stone up to the invert of the pipe. [in]
    void_percent : float
        Share of the stone that is empty space. [%]

    Returns
    -------
    float
        Volume. [gal]

    Notes
    -----
    Nothing soaks away meanwhile. Source: [NIST-HB44], Appendix C (a cubic foot is 1728
    and a gallon 231 cubic inches).

    Examples
    --------
    >>> round(stone_space_gal(540.0, 12.0, 35.0))
    1414
    """
    stone_ft3 = area_ft2 * stone_depth_in / INCHES_PER_FOOT
    return stone_ft3 * void_percent / 100 * GALLONS_PER_CUBIC_FOOT


def share_filled_percent(test_gal: Number, space_gal: Number) -> Number:
    """Share of an empty bed that the test water could have filled.

    Parameters
    ----------
    test_gal : float
        Water that reached the absorption area. [gal]
    space_gal : float
        Empty space in the stone; above zero. [gal]

    Returns
    -------
    float
        Share; 100 or less means that an empty bed could have taken all of the test
        without any soaking away. [%]

    Notes
    -----
    Source: [BALANCE], for the stone.

    Examples
    --------
    >>> share_filled_percent(200.0, 1600.0)
    12.5
    """
    return 100 * test_gal / space_gal
