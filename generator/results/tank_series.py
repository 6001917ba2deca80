"""Several tanks, one after the other: what they hold together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from generator.record.parts import Tank
from generator.results.result import Number, Result, Symbol
from generator.results.tank import Inside, inside_paths

ALL, ALL_WHERE_TAKEN = "all", "all_tanks"  # no tank can have the second name


def total_gal(volumes_gal: Sequence[Number]) -> Number:
    """Volume of several tanks together.

    Parameters
    ----------
    volumes_gal : sequence of float
        Volume of each tank up to its outlet. [gal]

    Returns
    -------
    float
        Their sum. [gal]

    Notes
    -----
    Holds where the water goes through each tank. Source: [BALANCE].

    Examples
    --------
    >>> total_gal([1000.0, 500.0])
    1500.0
    """
    return sum(volumes_gal[1:], volumes_gal[0])


def name_of_all(tanks: Sequence[Tank]) -> str:
    """Name the tanks as a whole, by a word that is no tank's own name."""
    return ALL_WHERE_TAKEN if any(one.name == ALL for one in tanks) else ALL


def series_results(
    tanks: Sequence[Tank], insides: Mapping[str, Inside]
) -> list[Result]:
    """Add the volumes of several tanks; a single tank has nothing to add."""
    if len(tanks) < 2:
        return []
    volumes = [insides[one.name].volume_gal() for one in tanks]
    letters = [f"V{place}" for place in range(1, len(tanks) + 1)]
    return [
        Result(
            f"tank.{name_of_all(tanks)}.volume",
            "Volume of all tanks together, each up to its outlet",
            total_gal(volumes),
            "gal",
            f"V = {' + '.join(letters)}",
            tuple(
                Symbol(letter, volume, "gal", f"volume of the {one.name}")
                for letter, volume, one in zip(letters, volumes, tanks, strict=True)
            ),
            tuple(path for one in tanks for path in inside_paths(one)),
            "BALANCE",
            ("the water goes through the tanks one after the other",),
        )
    ]
