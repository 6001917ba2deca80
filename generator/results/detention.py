"""How long water stays in the clear part of a tank."""

from __future__ import annotations

from generator.record.parts import Tank
from generator.results.design_flow import UNREAD, DailyFlow
from generator.results.pump_out_years import BASIS
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.solids_contents import Contents, working_volume_gal


def detention_days(working_gal: Number, flow_gpd: Number) -> Number:
    """Time that water stays in the clear part of a tank.

    Parameters
    ----------
    working_gal : float
        Volume between sludge and scum. [gal]
    flow_gpd : float
        Daily flow; above zero. [gal/day]

    Returns
    -------
    float
        Mean time of stay. [day]

    Notes
    -----
    Volume over flow, for a steady flow with no short cut through the tank; the time of
    a single drop may be much shorter. Source: [EXAM-FILL].

    Examples
    --------
    >>> detention_days(900.0, 180.0)
    5.0
    """
    return working_gal / flow_gpd


def detention_results(
    tank: Tank, contents: Contents, flow: DailyFlow | None
) -> list[Result]:
    """Work out the time of stay in a tank; with no flow there is nothing to say."""
    if flow is None or nominal(flow.gpd) <= 0:
        return []
    working = working_volume_gal(
        contents.liquid_gal, contents.sludge_gal, contents.scum_gal
    )
    return [
        Result(
            f"solids.{tank.name}.detention",
            f"Time that water stays in the {tank.name}, as full as it was",
            detention_days(working, flow.gpd),
            "days",
            "t = Vw / Q",
            (
                Symbol("Vw", working, "gal", "clear liquid between sludge and scum"),
                Symbol("Q", flow.gpd, "gal/day", "daily flow"),
            ),
            (flow.path, *contents.paths),
            flow.source,
            (
                f"daily flow: {flow.words}",
                *(() if flow.seen else (UNREAD,)),
                BASIS,
                *contents.assumptions,
            ),
        )
    ]
