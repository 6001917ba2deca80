"""The compartments of a tank: what each holds, and the share of the first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.record.parts import Compartment, Tank
from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.measured import STATED_VOLUME, TANK_INSIDE_IN, measured
from generator.results.result import Number, Result, Symbol, nominal, standard
from generator.results.rounding import said
from generator.results.tank import Inside, inside_paths

ALONG = {"box", "lying cylinder", "lying oval", "lying ellipse"}  # cut by a length
ONE_LEVEL = (
    "water passes between the compartments below the scum, so all stand at one level "
    "(common practice, no source)"
)
FIRST_BANDS = (
    "for information: Washington asks for 1/2 to 2/3 of the capacity in the first of "
    "two compartments, Nevada (NAC 444.804) for at least 2/3 in the inlet compartment"
)


@dataclass(frozen=True)
class Part:
    """One compartment; ``share`` of its tank's inside, None where it is not known."""

    compartment: Compartment
    key: str
    by: str
    inside: Inside
    share: Number | None


def compartment_gal(tank_gal: Number, share: Number) -> Number:
    """Volume of one compartment.

    Parameters
    ----------
    tank_gal : float
        Volume of the whole tank up to its outlet. [gal]
    share : float
        Share of the compartment in the inside of the tank: its length over that of the
        tank, or its stated gallons over those of the tank. [-]

    Returns
    -------
    float
        Volume of the compartment up to the outlet. [gal]

    Notes
    -----
    Holds where the cross-section stays the same along the tank, or where the gallons of
    the compartment are stated; all compartments stand at one level.
    Common practice, no source.

    Examples
    --------
    >>> compartment_gal(1200.0, 64 / 96)
    800.0
    """
    return tank_gal * share


def first_share_percent(volumes_gal: Sequence[Number]) -> Number:
    """Share of the first compartment in the capacity of all of them.

    Parameters
    ----------
    volumes_gal : sequence of float
        Volume of each compartment up to the outlet, in the order of the water. [gal]

    Returns
    -------
    float
        Share; zero where nothing holds any water. [%]

    Notes
    -----
    Source: [WAC-0220] and [NAC-444-804], which count the first compartment by it.

    Examples
    --------
    >>> round(first_share_percent([800.0, 400.0]), 1)
    66.7
    """
    whole = sum(volumes_gal[1:], volumes_gal[0])
    if nominal(whole) == 0:
        return 0.0 * whole
    return 100 * volumes_gal[0] / whole


def parts_of(tank: Tank, inside: Inside) -> tuple[Part, ...]:
    """Take the compartments of a tank; one that was not measured takes the rest."""
    found = [_part(tank, inside, place) for place in range(len(tank.compartments))]
    open_ = [place for place, one in enumerate(found) if one.share is None]
    if len(open_) == 1 and len(found) > 1:
        rest = 1 - sum(one.share for one in found if one.share is not None)
        if nominal(rest) > 0:
            old = found[open_[0]]
            found[open_[0]] = Part(old.compartment, old.key, "rest", inside, rest)
    return tuple(found)


def _part(tank: Tank, inside: Inside, place: int) -> Part:
    one = tank.compartments[place]
    before = [other.name for other in tank.compartments[:place]]
    key = f"{one.name}_{place + 1}" if one.name in before else one.name
    if one.length is not None and tank.shape in ALONG and inside.length_in is not None:
        method = TANK_INSIDE_IN[tank.measured_by or "tape"]
        long = measured(one.length.inches, method)
        return Part(one, key, "length", inside, long / inside.length_in)
    whole = inside.volume_gal()
    if one.gallons is not None and nominal(whole) > 0:
        stated = measured(one.gallons.gallons, STATED_VOLUME)
        return Part(one, key, "gallons", inside, stated / whole)
    return Part(one, key, "", inside, None)


def compartment_results(tank: Tank, inside: Inside) -> list[Result]:
    """Work out the volume of each compartment and the share of the first."""
    parts = parts_of(tank, inside)
    assumed = (ONE_LEVEL, *sum_assumption(tank, parts))
    known = [one for one in parts if one.share is not None]
    found = [_volume(tank, parts, one, assumed) for one in known]
    if len(parts) < 2 or len(known) < len(parts):
        return found
    first = found[0].number
    whole: Number = sum(one.number for one in found)
    return [
        *found,
        Result(
            f"tank.{tank.name}.first_share",
            f"Share of the first compartment in the capacity of the {tank.name}",
            first_share_percent([one.number for one in found]),
            "%",
            "share = 100 × V1 / V" if nominal(whole) else "no volume at all",
            (
                Symbol(
                    "V1", first, "gal", f"volume of the {parts[0].compartment.name}"
                ),
                Symbol("V", whole, "gal", "volume of all compartments"),
            ),
            part_paths(tank, parts),
            "WAC-0220",
            (FIRST_BANDS, *assumed),
        ),
    ]


def _volume(
    tank: Tank, parts: Sequence[Part], one: Part, assumed: tuple[str, ...]
) -> Result:
    whole = one.inside.volume_gal()
    volume = compartment_gal(whole, one.share)
    formulas = {"length": "Vc = V × l / L", "gallons": "Vc = Vg", "rest": "Vc = V - Vo"}
    symbols = [Symbol("V", whole, "gal", f"volume of the {tank.name}")]
    extra = [TANK_INSIDE_IN[tank.measured_by or "tape"].assumption()]
    if one.by == "length":
        long = one.share * one.inside.length_in
        symbols.append(Symbol("l", long, "in", "length of the compartment"))
        symbols.append(Symbol("L", one.inside.length_in, "in", "inside length"))
    elif one.by == "gallons":
        symbols = [Symbol("Vg", volume, "gal", "stated volume of the compartment")]
        extra = [STATED_VOLUME.assumption()]
    else:
        symbols.append(Symbol("Vo", whole - volume, "gal", "volume of the others"))
        extra = ["not measured: taken to be what the others leave of the tank"]
    paths = part_paths(tank, parts if one.by == "rest" else [one])
    return Result(
        f"tank.{tank.name}.{one.key}.volume",
        f"Volume of the compartment {one.compartment.name} of the {tank.name}, up to "
        "the outlet",
        volume,
        "gal",
        formulas[one.by],
        tuple(symbols),
        paths,
        "practice",
        (*extra, *assumed),
    )


def sum_assumption(tank: Tank, parts: Sequence[Part]) -> tuple[str, ...]:
    """Say what was made of compartments that do not add up to their tank."""
    if len(parts) < 2 or any(one.by in ("", "rest") for one in parts):
        return ()
    inside = parts[0].inside
    rest: Number = 1 - sum(one.share for one in parts if one.share is not None)
    if all(one.by == "length" for one in parts):
        rest, unit, told = rest * inside.length_in, "in", "long"
    else:
        rest, unit, told = rest * inside.volume_gal(), "gal", "large"
    if abs(nominal(rest)) <= COVERAGE_FACTOR * standard(rest):
        return ()
    if nominal(rest) > 0:
        return (
            f"the compartments together are {said(rest, unit)} less {told} than the "
            f"{tank.name}; that is taken to be the walls between them",
        )
    return (
        f"the compartments together are {said(-rest, unit)} more {told} than the "
        f"{tank.name}, which cannot be: both are used as recorded",
    )


def part_paths(tank: Tank, parts: Sequence[Part]) -> tuple[str, ...]:
    """List the keys that the volumes of some compartments were taken from."""
    own = tuple(
        one.compartment.path(one.by) for one in parts if one.by in ("length", "gallons")
    )
    return (*own, *inside_paths(tank))
