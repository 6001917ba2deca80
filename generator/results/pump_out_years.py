"""Years between pumpings by the printed table, and years left since the last one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.quantity import DAYS_PER_YEAR
from generator.record.model import Household
from generator.record.parts import Tank
from generator.results.measured import SINCE_PUMPED_YEARS, measured
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.tank import Inside, inside_paths
from generator.results.tank_series import name_of_all, total_gal

TABLE_GAL, TABLE_PEOPLE = (500, 2500), (1, 10)  # ends of the printed table, PUMP-TABLE
SHARE_GAL, RATE_GAL = 50, 76.9  # a person: gallons kept free, gallons a year; ours
OVERDUE = "overdue"
BASIS = (
    "the page of the table prints its basis: at least 24 h of retention, and half of "
    "the retained solids digested"
)
RULE_OF_THUMB = (
    "a rule of thumb from the start of an empty tank, for people who live there all "
    "year; what was measured counts for more"
)
BEYOND = (
    f"beyond the printed table, which runs from {TABLE_GAL[0]} to {TABLE_GAL[1]:,} gal "
    f"and from {TABLE_PEOPLE[0]} to {TABLE_PEOPLE[1]} people: the same rule is a guess "
    "there"
)
NO_DISPOSER = (
    "the table is for a house without a food-waste disposer (from memory, not seen on "
    "its page)"
)
DISPOSER = (
    "this house has a food-waste disposer: solids build up faster than the table says, "
    "and no figure with a source is at hand for how much faster"
)
TOGETHER = "the table is used once, for the volume of all tanks together"
PUMPED_WHOLE = "the last pump-out is taken to have emptied the whole of every tank"


def years_to_pump(tank_gal: Number, people: int) -> Number:
    """Years between pumpings for a tank and a household.

    Parameters
    ----------
    tank_gal : float
        Liquid volume. [gal]
    people : int
        People who live in the house all year; above zero. [-]

    Returns
    -------
    float
        Years; not below zero. [year]

    Notes
    -----
    (V − 50 N) / (76.9 N): a reconstruction that gives back the printed table, whose
    rows run from 500 to 2,500 gal and 1 to 10 people; beyond them it is a guess.
    Source: [PUMP-TABLE], rounding of the table 0.1 year.

    Examples
    --------
    >>> round(years_to_pump(1000.0, 4), 1)
    2.6
    """
    years = (tank_gal - SHARE_GAL * people) / (RATE_GAL * people)
    return years if nominal(years) > 0 else years - years


def years_left(table_years: Number, since_years: Number) -> Number:
    """Years left until the next pump-out by the table.

    Parameters
    ----------
    table_years : float
        Years between pumpings. [year]
    since_years : float
        Years since the last pump-out. [year]

    Returns
    -------
    float
        Years left; not below zero. [year]

    Notes
    -----
    Holds where the last pump-out emptied the tank. Common practice, no source.

    Examples
    --------
    >>> years_left(2.6, 1.6), years_left(2.6, 3.0)
    (1.0, 0.0)
    """
    left = table_years - since_years
    return left if nominal(left) > 0 else left - left


def since_pumped(household: Household | None) -> Number | None:
    """Take the years since the last pump-out, where the record has them. [year]"""
    if household is None or household.pumped_before is None:
        return None
    years = household.pumped_before.days / DAYS_PER_YEAR
    return measured(years, SINCE_PUMPED_YEARS)


def years_results(
    tanks: Sequence[Tank], insides: Mapping[str, Inside], household: Household | None
) -> list[Result]:
    """Work out years between pumpings and years left, once for all tanks together."""
    if not tanks or household is None or not household.people:
        return []
    volume = total_gal([insides[one.name].volume_gal() for one in tanks])
    name = tanks[0].name if len(tanks) == 1 else name_of_all(tanks)
    said = f"the {name}" if len(tanks) == 1 else "all tanks"
    paths = (
        household.path("people"),
        *(path for one in tanks for path in inside_paths(one)),
    )
    assumed = _assumed(nominal(volume), household, len(tanks))
    years = years_to_pump(volume, household.people)
    table = Result(
        f"solids.{name}.years",
        f"Years between pumpings of {said} with this household",
        years,
        "years",
        "years = (V - 50 × N) / (76.9 × N)"
        if nominal(years) > 0
        else "no time: the volume is not above 50 gal for each person",
        (
            Symbol("V", volume, "gal", "tank volume"),
            Symbol("N", household.people, "-", "people"),
        ),
        paths,
        "PUMP-TABLE",
        assumed,
    )
    since = since_pumped(household)
    if since is None:
        return [table]
    return [table, _left(name, said, table, since, household)]


def _left(
    name: str, said: str, table: Result, since: Number, household: Household
) -> Result:
    left = years_left(table.number, since)
    over = nominal(left) <= 0
    return Result(
        f"solids.{name}.years_left",
        f"Years left until the next pump-out of {said}, by the table",
        left,
        "years",
        "no time: as much has passed as the table allows"
        if over
        else "left = years - since",
        (
            Symbol("years", table.number, "years", "years between pumpings"),
            Symbol("since", since, "years", "years since the last pump-out"),
        ),
        (household.path("pumped_before"), *table.inputs),
        "PUMP-TABLE",
        (SINCE_PUMPED_YEARS.assumption(), PUMPED_WHOLE, *table.assumptions),
        OVERDUE if over else "",
    )


def _assumed(gallons: float, household: Household, tanks: int) -> tuple[str, ...]:
    (least, most), (fewest, many) = TABLE_GAL, TABLE_PEOPLE
    people = household.people or 0
    outside = not (least <= gallons <= most and fewest <= people <= many)
    return (
        RULE_OF_THUMB,
        BASIS,
        *((TOGETHER,) if tanks > 1 else ()),
        *((BEYOND,) if outside else ()),
        DISPOSER if household.disposal_unit == "yes" else NO_DISPOSER,
    )
