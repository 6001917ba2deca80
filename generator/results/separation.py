"""Distances taped on the lot against what the local code asks for new systems."""

from __future__ import annotations

from dataclasses import dataclass

from generator.codes.packs import Pack, SeparationRow
from generator.record.model import Distance
from generator.results.guard_band import MEETS, hold
from generator.results.measured import DISTANCES_FT, from_half_width, measured
from generator.results.result import Number, Result

CONFIRM = "confirm with the authority"
NO_FIGURE = "no local figure"


@dataclass(frozen=True)
class Pair:
    """One measured distance beside the row of the code that speaks of it. [ft]"""

    distance: Distance
    measured_ft: Number
    row: SeparationRow | None
    verdict: str
    result: str


def judge(measured_ft: Number, row: SeparationRow | None) -> str:
    """Judge one distance by one row.

    Parameters
    ----------
    measured_ft : float
        The distance with its uncertainty. [ft]
    row : SeparationRow or None
        What the code asks.

    Returns
    -------
    str
        ``meets``, ``short``, ``too close to call``; ``confirm with the authority``
        for a figure that nobody read in its source, or where a condition of the row
        may ask more than was measured; ``no local figure`` without a row.

    Notes
    -----
    Guard band of 2 u. Source: [JCGM106], 8.3.2.

    Examples
    --------
    >>> judge(82.0, SeparationRow(from_="tank", to="private well", feet=50, seen="yes"))
    'meets'
    """
    if row is None:
        return NO_FIGURE
    if row.seen != "yes":
        return CONFIRM
    verdict = hold(measured_ft, row.feet, least=True)
    if verdict == MEETS and row.strictest is not None:
        strict = hold(measured_ft, row.strictest, least=True)
        return MEETS if strict == MEETS else CONFIRM
    return verdict


def pairs_of(distances: tuple[Distance, ...], pack: Pack | None) -> list[Pair]:
    """Put every taped distance beside its row."""
    found: list[Pair] = []
    for one in distances:
        row = pack.row(one.from_, one.to) if pack else None
        number = _measured(one)
        name = f"distance.{one.from_} to {one.to}".replace(" ", "_")
        repeats = sum(pair.result.partition("#")[0] == name for pair in found)
        name = f"{name}#{repeats + 1}" if repeats else name
        found.append(Pair(one, number, row, judge(number, row), name))
    return found


def _measured(one: Distance) -> Number:
    if one.give_or_take is not None:
        return from_half_width(one.distance.feet, one.give_or_take.feet)
    return measured(one.distance.feet, DISTANCES_FT[one.by])


def separation_results(pairs: list[Pair], pack: Pack | None) -> list[Result]:
    """List the result of every pair."""
    return [
        Result(
            pair.result,
            f"{pair.distance.from_.capitalize()} to {pair.distance.to}"
            + (f", {pair.row.feet} ft asked" if pair.row else ""),
            pair.measured_ft,
            "ft",
            "distance as measured",
            (),
            (pair.distance.path("distance"), pair.distance.path("by")),
            f"pack:{pack.name}:separation" if pack and pair.row else "JCGM106",
            (_assumption(pair.distance),),
            pair.verdict,
        )
        for pair in pairs
    ]


def _assumption(one: Distance) -> str:
    if one.give_or_take is not None:
        return f"the inspector judged it right within {one.give_or_take.typed}"
    return DISTANCES_FT[one.by].assumption()
