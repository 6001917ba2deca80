"""How deep the outlet device reaches, as a share of the liquid depth."""

from __future__ import annotations

from generator.record.parts import Tank
from generator.results.measured import SOLIDS_IN, TANK_INSIDE_IN, measured
from generator.results.result import Number, Result, Symbol
from generator.results.tank import Inside

BANDS_PERCENT = {"lying cylinder": (25, 35)}  # WAC-0220; every other shape:
BAND_PERCENT = (30, 40)  # WAC-0220
OHIO = "Ohio asked for 18 in below the liquid (OAC 3701-29-07 of 2007, since replaced)"


def device_share_percent(device_depth_in: Number, liquid_depth_in: Number) -> Number:
    """Share of the liquid depth that the outlet device reaches down.

    Parameters
    ----------
    device_depth_in : float
        Outlet invert to the bottom of the outlet baffle or tee. [in]
    liquid_depth_in : float
        Floor to outlet invert; above zero. [in]

    Returns
    -------
    float
        Share. [%]

    Notes
    -----
    Source: [WAC-0220], which counts the reach of the outlet device by this share.

    Examples
    --------
    >>> device_share_percent(18.0, 48.0)
    37.5
    """
    return 100 * device_depth_in / liquid_depth_in


def device_results(tank: Tank, inside: Inside) -> list[Result]:
    """Give the share for information, beside the published band; nothing is judged."""
    if tank.outlet_device_depth is None:
        return []
    device = measured(tank.outlet_device_depth.inches, SOLIDS_IN)
    low, high = BANDS_PERCENT.get(tank.shape, BAND_PERCENT)
    method = TANK_INSIDE_IN[tank.measured_by or "tape"]
    return [
        Result(
            f"tank.{tank.name}.device_share",
            f"Outlet device of the {tank.name}, share of the liquid depth",
            device_share_percent(device, inside.liquid_depth_in),
            "%",
            "share = 100 × b / d",
            (
                Symbol("b", device, "in", "outlet device depth"),
                Symbol("d", inside.liquid_depth_in, "in", "liquid depth"),
            ),
            (tank.path("outlet_device_depth"), tank.path("liquid_depth")),
            "WAC-0220",
            (
                f"for information: Washington asks for {low} to {high} % in a tank of "
                "this shape; " + OHIO,
                "outlet device: read like sludge and scum; " + SOLIDS_IN.assumption(),
                method.assumption(),
            ),
        )
    ]
