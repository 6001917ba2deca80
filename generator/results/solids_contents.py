"""What a tank holds at its outlet level: clear liquid, sludge and scum, by volume."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.codes.packs import Pack
from generator.record.parts import Compartment, Tank
from generator.results.compartments import (
    ONE_LEVEL,
    Part,
    part_paths,
    parts_of,
    sum_assumption,
)
from generator.results.measured import SOLIDS_IN
from generator.results.result import Number, Result, Symbol, nominal
from generator.results.solids import (
    ALL_HANGS,
    INPUTS,
    LAYERS,
    Solids,
    capacity,
    criteria_results,
    held_result,
    rows_of,
    solids_results,
    take,
)
from generator.results.tank import Inside, inside_paths

CAPACITY = "solids capacity"
BY_DEPTH = {"solids share", "sludge share", "scum share"}
BY_CLEARANCE = {"sludge clearance", "scum clearance"}
LAST = "held at the last compartment, where the outlet device is"
TOGETHER = "sludge and scum of all compartments together, against their volume together"
OWN_UNUSED = (
    "sludge and scum were also recorded for the tank as a whole; those readings are "
    "not used here"
)


@dataclass(frozen=True)
class Contents:
    """Volumes in a tank up to its outlet, and where they were taken from. [gal]"""

    liquid_gal: Number
    sludge_gal: Number
    scum_gal: Number
    paths: tuple[str, ...]
    assumptions: tuple[str, ...]

    def symbols(self) -> tuple[Symbol, ...]:
        """Give the symbols of the three volumes."""
        return (
            Symbol("V", self.liquid_gal, "gal", "volume up to the outlet"),
            Symbol("Vs", self.sludge_gal, "gal", "volume of the sludge"),
            Symbol("Vc", self.scum_gal, "gal", "volume of the scum"),
        )


def working_volume_gal(
    liquid_gal: Number, sludge_gal: Number, scum_gal: Number
) -> Number:
    """Volume that is left for clear liquid.

    Parameters
    ----------
    liquid_gal : float
        Volume up to the outlet. [gal]
    sludge_gal, scum_gal : float
        Volume of the sludge, and of the scum below the outlet. [gal]

    Returns
    -------
    float
        Volume between sludge and scum; not below zero. [gal]

    Notes
    -----
    Holds with the liquid at the outlet invert. Source: [BALANCE].

    Examples
    --------
    >>> working_volume_gal(1000.0, 200.0, 50.0), working_volume_gal(100.0, 90.0, 20.0)
    (750.0, 0.0)
    """
    left = liquid_gal - sludge_gal - scum_gal
    return left if nominal(left) > 0 else left - left


def contents_of(tank: Tank, inside: Inside) -> Contents | None:
    """Take the contents of a tank from its compartments, or else from its readings."""
    parts = parts_of(tank, inside)
    found = _all_measured(tank, parts)
    if found:
        hangs = any(one.compartment.scum_bottom is None for one in parts)
        return Contents(
            sum(one.liquid_gal() for one in found),
            sum(one.sludge_gal() for one in found),
            sum(one.scum_gal() for one in found),
            (
                *(path for one in parts for path in _layers(one.compartment)),
                *part_paths(tank, parts),
            ),
            (
                SOLIDS_IN.assumption(),
                TOGETHER,
                ONE_LEVEL,
                *sum_assumption(tank, parts),
                *((ALL_HANGS,) if hangs else ()),
                *((OWN_UNUSED,) if tank.sludge or tank.scum else ()),
            ),
        )
    whole = take(tank, inside)
    if whole is None:
        return None
    return Contents(
        whole.liquid_gal(),
        whole.sludge_gal(),
        whole.scum_gal(),
        (*_layers(tank), *inside_paths(tank)),
        (
            SOLIDS_IN.assumption(),
            *((ALL_HANGS,) if tank.scum_bottom is None else ()),
        ),
    )


def contents_results(tank: Tank, contents: Contents) -> list[Result]:
    """Work out the working volume of a tank."""
    working = working_volume_gal(
        contents.liquid_gal, contents.sludge_gal, contents.scum_gal
    )
    return [
        Result(
            f"solids.{tank.name}.working_volume",
            f"Clear liquid in the {tank.name}, between sludge and scum",
            working,
            "gal",
            "Vw = V - Vs - Vc" if nominal(working) > 0 else "no clear liquid is left",
            contents.symbols(),
            contents.paths,
            "BALANCE",
            contents.assumptions,
        )
    ]


def all_criteria_results(
    tank: Tank, inside: Inside, packs: Sequence[Pack]
) -> list[Result]:
    """Hold a tank, compartment by compartment where it was so measured.

    Shares of the depth are held at each compartment and clearances at the last;
    capacity is held for all compartments together. A tank whose compartments were not
    all measured is held by the readings of the tank as a whole, where it has them.
    """
    parts = parts_of(tank, inside)
    found = [
        result
        for place, part in enumerate(parts, 1)
        for result in _of_part(tank, part, packs, last=place == len(parts))
    ]
    if _all_measured(tank, parts):
        return [*found, *_capacity_together(tank, inside, packs)]
    whole = take(tank, inside)
    return found + (solids_results(tank, whole, packs) if whole else [])


def _all_measured(tank: Tank, parts: Sequence[Part]) -> list[Solids]:
    found = [take(tank, one.inside, one.compartment, one.share) for one in parts]
    known = [one for one in found if one is not None and one.share is not None]
    return known if len(known) == len(parts) else []


def _of_part(
    tank: Tank, part: Part, packs: Sequence[Pack], *, last: bool
) -> list[Result]:
    one = part.compartment
    solids = take(tank, part.inside, one, part.share)
    if solids is None:
        return []
    key, where = f"solids.{tank.name}.{part.key}", f"compartment {one.name}"
    criteria = BY_DEPTH | (BY_CLEARANCE if last else set())
    note = (LAST,) if last else ()
    found = criteria_results(tank, one, solids, packs, criteria, key, where, note)
    if part.share is None:
        return found
    sludge, scum = solids.sludge_gal(), solids.scum_gal()
    volume = Result(
        f"{key}.volume",
        f"Sludge and scum in the {where} of the {tank.name}",
        sludge + scum,
        "gal",
        "Vsc = Vs + Vc",
        (
            Symbol("Vs", sludge, "gal", "volume of the sludge"),
            Symbol("Vc", scum, "gal", "volume of the scum"),
        ),
        (*_layers(one), *part_paths(tank, [part])),
        "BALANCE",
        (
            SOLIDS_IN.assumption(),
            ONE_LEVEL,
            *((ALL_HANGS,) if one.scum_bottom is None else ()),
        ),
    )
    return [volume, *found]


def _capacity_together(
    tank: Tank, inside: Inside, packs: Sequence[Pack]
) -> list[Result]:
    contents = contents_of(tank, inside)
    if contents is None:
        return []
    worked = capacity(contents.sludge_gal, contents.scum_gal, contents.liquid_gal)
    if worked is None:
        return []
    key, paths, assumed = f"solids.{tank.name}", contents.paths, contents.assumptions
    return [
        held_result(key, worked, paths, assumed, pack, row)
        for pack, row in rows_of(packs)
        if row.criterion == CAPACITY
    ]


def _layers(readings: Tank | Compartment) -> tuple[str, ...]:
    return tuple(
        readings.path(key)
        for key in INPUTS[CAPACITY]
        if key in LAYERS and getattr(readings, key) is not None
    )
