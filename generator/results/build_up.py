"""How fast sludge and scum built up since the last pump-out, as measured."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.codes.packs import Pack
from generator.codes.rows import PumpRow
from generator.record.model import Household
from generator.record.parts import Tank
from generator.results.measured import SINCE_PUMPED_YEARS
from generator.results.pump_out_years import PUMPED_WHOLE, since_pumped
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.solids import rows_of
from generator.results.solids_contents import CAPACITY, Contents

EVENLY = (
    "solids are taken to build up evenly, and to go on as they did (common practice, "
    "no source)"
)


def build_up_gal_per_year(solids_gal: Number, since_years: Number) -> Number:
    """Sludge and scum that built up in a year.

    Parameters
    ----------
    solids_gal : float
        Volume of sludge and scum together. [gal]
    since_years : float
        Years since the tank was emptied; above zero. [year]

    Returns
    -------
    float
        Mean rate. [gal/year]

    Notes
    -----
    Holds where the last pump-out emptied the tank. Common practice, no source.

    Examples
    --------
    >>> build_up_gal_per_year(150.0, 3.0)
    50.0
    """
    return solids_gal / since_years


def years_until(
    solids_gal: Number, limit_gal: Number, rate_gal_per_year: Number
) -> Number:
    """Years until sludge and scum reach a volume, at a steady rate.

    Parameters
    ----------
    solids_gal, limit_gal : float
        Volume of sludge and scum now, and the volume in question. [gal]
    rate_gal_per_year : float
        Rate at which they build up; above zero. [gal/year]

    Returns
    -------
    float
        Years; zero where they are there already. [year]

    Notes
    -----
    A straight line; sludge packs as it ages, so that it tells too short a time rather
    than too long. Common practice, no source.

    Examples
    --------
    >>> years_until(150.0, 250.0, 50.0), years_until(260.0, 250.0, 50.0)
    (2.0, 0.0)
    """
    left = (limit_gal - solids_gal) / rate_gal_per_year
    return left if nominal(left) > 0 else left - left


def build_up_results(
    tank: Tank,
    contents: Contents,
    household: Household | None,
    packs: Sequence[Pack],
    local: Pack | None,
) -> list[Result]:
    """Work out the rate, and when it reaches the local or strictest share read."""
    since = since_pumped(household)
    if household is None or since is None or nominal(since) <= 0:
        return []
    solids = contents.sludge_gal + contents.scum_gal
    rate = Result(
        f"solids.{tank.name}.build_up",
        f"Sludge and scum that built up in the {tank.name} in a year",
        build_up_gal_per_year(solids, since),
        "gal/year",
        "rate = (Vs + Vc) / since",
        (
            *contents.symbols()[1:],
            Symbol("since", since, "years", "years since the last pump-out"),
        ),
        (household.path("pumped_before"), *contents.paths),
        "practice",
        (
            SINCE_PUMPED_YEARS.assumption(),
            PUMPED_WHOLE,
            EVENLY,
            *contents.assumptions,
        ),
    )
    chosen = capacity_row(packs, local)
    if chosen is None or rate.value <= 0:
        return [rate]
    return [rate, _reached(tank, contents, rate, *chosen)]


def capacity_row(
    packs: Sequence[Pack], local: Pack | None
) -> tuple[Pack, PumpRow] | None:
    """Choose the local share of the capacity, or else the strictest that was read."""
    rows = [(pack, row) for pack, row in rows_of(packs) if row.criterion == CAPACITY]
    own = [one for one in rows if local is not None and one[0].name == local.name]
    read = [
        one for one in own or rows if one[0].pump_out and one[0].pump_out.seen == "yes"
    ]
    return min(read, key=lambda one: one[1].value, default=None)


def _reached(
    tank: Tank, contents: Contents, rate: Result, pack: Pack, row: PumpRow
) -> Result:
    limit = contents.liquid_gal * (row.value / 100)
    solids = contents.sludge_gal + contents.scum_gal
    years = years_until(solids, limit, rate.number)
    return replace(
        rate,
        name=f"solids.{tank.name}.build_up_years",
        label=f"Years until sludge and scum reach {row.limit} of the {tank.name} "
        f"({pack.jurisdiction}), at this rate",
        number=years,
        unit="years",
        formula="years = (Vl - Vs - Vc) / rate"
        if nominal(years) > 0
        else "no time: they are there already",
        symbols=(
            Symbol("Vl", limit, "gal", f"{row.limit} of the volume up to the outlet"),
            *contents.symbols()[1:],
            Symbol("rate", rate.number, "gal/year", "build-up in a year"),
        ),
        source=pack.source("pump_out"),
    )
