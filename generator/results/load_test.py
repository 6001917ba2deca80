"""The load test as a water balance at every reading: what went in, stayed, went on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from generator.record.water import LoadTest
from generator.results.design_flow import DailyFlow
from generator.results.inflow import (
    Running,
    household_running,
    mean_flow_gpm,
    volume_by_gal,
)
from generator.results.load_test_beyond import (
    Between,
    Beyond,
    look_beyond,
    reached_gal,
)
from generator.results.load_test_recovery import Balance, Recovery, recovery
from generator.results.load_test_target import wanted_gal
from generator.results.measured import LEVEL_IN, from_half_width, measured
from generator.results.result import Number, nominal
from generator.results.tank import Inside


@dataclass(frozen=True)
class Test:
    """The whole test: the water, the balance of every reading, the recovery.

    ``running`` is the hose, ``household`` what came beside it; ``unread`` names parts
    beyond the tested tank whose levels nobody recorded.
    """

    running: tuple[Running, ...]
    rows: tuple[Balance, ...]
    first_min: float
    start_in: Number
    stop_minute: float
    recovery: Recovery
    household: tuple[Running, ...] = ()
    target_gal: Number | None = None
    beyond: tuple[Beyond, ...] = ()
    unread: tuple[str, ...] = ()

    @property
    def inflows(self) -> tuple[Running, ...]:
        """All the water that ran in."""
        return self.running + self.household

    @property
    def total_gal(self) -> Number:
        """All the water that ran in, after the last reading included. [gal]"""
        return volume_by_gal(self.inflows, max(one.stop_min for one in self.inflows))

    @property
    def peak(self) -> Balance:
        """The reading with the highest level."""
        return max(self.rows, key=lambda row: nominal(row.level_in))

    @property
    def last(self) -> Balance:
        """The last reading."""
        return self.rows[-1]

    @property
    def at_stop(self) -> Balance:
        """The last reading that was taken no later than the water stopped."""
        return [row for row in self.rows if row.minute <= self.stop_minute][-1]

    @property
    def reached_gal(self) -> Number | None:
        """What reached the absorption area; None where nobody can know. [gal]"""
        stayed = [one.gallons for one in self.beyond]
        if self.unread or any(gallons is None for gallons in stayed):
            return None
        return reached_gal(self.last.passed_gal, stayed)


def balance(
    inside: Inside, *, start_in: Number, level_in: Number, run_in_gal: Number
) -> tuple[Number, Number, Number]:
    """Split the water run in into what filled up, what stands above and what went on.

    Parameters
    ----------
    inside : Inside
        The tank.
    start_in, level_in : float
        Level before the water and level now, against the outlet invert. [in]
    run_in_gal : float
        Water run in until now. [gal]

    Returns
    -------
    tuple of float, shape (3,)
        Deficit made up below the invert, change of storage above it, and what passed
        the outlet. [gal]

    Notes
    -----
    Conservation of volume: in = made up + stored + passed on. A tank that stands below
    its outlet first fills itself. Source: [GUM] for the propagation; the balance
    follows from the definition of the volumes.

    Examples
    --------
    >>> from generator.results.tank import Inside
    >>> box = Inside("box", 48.0, 96.0, 54.0)
    >>> [round(x, 1) for x in
    ...  balance(box, start_in=-2.0, level_in=0.5, run_in_gal=100.0)]
    [44.9, 11.2, 43.9]
    """
    start, now = nominal(start_in), nominal(level_in)
    low_start, low_now = (x if nominal(x) < 0 else 0.0 for x in (start_in, level_in))
    top_start, top_now = (x if nominal(x) >= 0 else 0.0 for x in (start_in, level_in))
    made_up = inside.between_gal(low_start, low_now) if min(start, now) < 0 else 0.0
    stored = inside.between_gal(top_start, top_now) if max(start, now) >= 0 else 0.0
    return made_up, stored, run_in_gal - made_up - stored


def work_out(
    test: LoadTest,
    inside: Inside,
    runs: Sequence[Running],
    *,
    volumes: Mapping[str, Between] | None = None,
    beyond: Sequence[str] = (),
    design: DailyFlow | None = None,
) -> Test:
    """Work out the balance of every reading of a recorded test.

    ``volumes`` gives, by the name of a part beyond, its gallons between two levels, and
    ``beyond`` names every part beyond the tested tank; ``design`` is the design flow.
    """
    first = runs[0].start_min

    def level_in(inches: float) -> Number:
        step = test.levels_read_to
        if step is None:
            return measured(inches, LEVEL_IN)
        return from_half_width(inches, step.inches)

    readings = [(one.time.minutes, level_in(one.level.inches)) for one in test.levels]
    since, start = [one for one in readings if one[0] <= first][-1]
    household = household_running(test.other_water, since)
    rows = [
        _row(inside, start, minute - first, level, [*runs, *household], minute)
        for minute, level in readings
    ]
    stop = runs[-1].stop_min - first
    read = {one.part for one in test.further}
    wanted = test.target and wanted_gal(
        test.target, mean_flow_gpm(runs), design.gpd if design else None
    )
    return Test(
        tuple(runs),
        tuple(rows),
        first,
        start,
        stop,
        recovery(rows, stop),
        household,
        wanted,
        look_beyond(test, level_in, volumes or {}),
        tuple(name for name in beyond if name not in read),
    )


def _row(
    inside: Inside,
    start_in: Number,
    minute: float,
    level_in: Number,
    inflows: Sequence[Running],
    clock_min: float,
) -> Balance:
    run_in = volume_by_gal(inflows, clock_min)
    made_up, stored, passed = balance(
        inside, start_in=start_in, level_in=level_in, run_in_gal=run_in
    )
    blocked = inside.level_after_in(start_in, run_in)
    return Balance(minute, level_in, run_in, made_up, stored, passed, blocked)
