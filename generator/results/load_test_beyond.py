"""Tanks and chambers beyond the tested tank, and the water that stayed in them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from generator.record.model import Inspection
from generator.record.water import Further, LoadTest
from generator.results.result import Number

PUMP_CHAMBER = "pump chamber"
Between = Callable[[Number, Number], "Number | None"]


@dataclass(frozen=True)
class Beyond:
    """One part beyond: its record, its two levels, and what stayed. [in], [gal]

    ``gallons`` is None where nothing gives the volume between its levels.
    """

    recorded: Further
    before_in: Number
    after_in: Number
    gallons: Number | None


def parts_beyond(inspection: Inspection) -> tuple[str, ...]:
    """Name the tanks after the tested one, and the pump chamber."""
    test = inspection.load_test
    names = [tank.name for tank in inspection.tanks]
    tested = test.tank if test and test.tank in names else None
    after = names[names.index(tested) + 1 if tested else 1 :]
    return (*after, *((PUMP_CHAMBER,) if inspection.pump_chamber else ()))


def look_beyond(
    test: LoadTest,
    levels: Callable[[float], Number],
    volumes: Mapping[str, Between],
) -> tuple[Beyond, ...]:
    """Take the recorded levels of the parts beyond, with what stayed in each."""
    found = []
    for one in test.further:
        before, after = levels(one.before.inches), levels(one.after.inches)
        between = volumes.get(one.part)
        gallons = between(before, after) if between else None
        found.append(Beyond(one, before, after, gallons))
    return tuple(found)


def reached_gal(passed_gal: Number, stayed_gal: Sequence[Number]) -> Number:
    """Water that reached the absorption area.

    Parameters
    ----------
    passed_gal : float
        What passed the outlet of the tested tank by the last reading. [gal]
    stayed_gal : sequence of float
        What filled or rose in each part beyond; negative where one fell. [gal]

    Returns
    -------
    float
        What went on to the absorption area. [gal]

    Notes
    -----
    Conservation of volume. Water takes its time on the way: what still ran in the
    pipes counts as there. Source: [BALANCE].

    Examples
    --------
    >>> reached_gal(120.0, [30.0, -5.0])
    95.0
    """
    reached = passed_gal
    for gallons in stayed_gal:
        reached = reached - gallons
    return reached
