"""Minutes that the hose still has to run, told while it runs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.record.draft import Draft
from generator.record.settle import time_of_day
from generator.results.inflow import minutes_for
from generator.results.inflow_measured import bucket_flow_gpm
from generator.results.load_test_target import wanted_gal
from generator.results.result import nominal
from generator.results.rounding import said
from generator.results.tank import Inside

LAST_GALLON = 1.0  # less than this is not worth turning the hose on again; our choice


@dataclass(frozen=True)
class Hose:
    """What a draft says of the water so far. [gal], [gal/min], [min]"""

    target_gal: float
    ran_gal: float
    first_fill_gal: float
    flow_gpm: float
    on_since_min: float | None
    typed: str

    @property
    def still_gal(self) -> float:
        """Water that is still to run. [gal]"""
        return max(0.0, self.target_gal + self.first_fill_gal - self.ran_gal)


def hose_sums(
    draft: Draft, inside: Inside | None, design_gpd: float | None
) -> Iterator[str]:
    """Say how long the hose has to run yet, and when to turn it off.

    Parameters
    ----------
    draft : Draft
        The job file, whose last stretch of water may still run.
    inside : Inside or None
        The tank whose level is read, where its measures are known.
    design_gpd : float or None
        Design flow of a day, for a target that is a share of it. [gal/day]
    """
    flow = _flow_gpm(draft)
    target = _target_gal(draft, flow, design_gpd)
    typed = draft.get("load_test.target")
    if target is None:
        return
    if flow is None:
        yield f"Hose: time a bucket, and the minutes for {typed} are told here."
        return
    hose = Hose(
        target,
        _ran_gal(draft, flow),
        _first_fill_gal(draft, inside),
        flow,
        _on_since(draft),
        str(typed),
    )
    if inside is None and _starts_below(draft):
        yield (
            "Hose: the tank stands below its outlet and first fills itself. Its "
            "measures are wanted to say with how much; that water comes on top."
        )
    yield from _told(hose)


def _starts_below(draft: Draft) -> bool:
    levels = draft.items("load_test.levels")
    level = draft.level(f"{levels[0]}.level") if levels else None
    return level is not None and level < 0


def _told(hose: Hose) -> Iterator[str]:
    at = f"at {said(hose.flow_gpm, 'gpm')}"
    if hose.first_fill_gal > 0:
        yield (
            f"Hose: the tank stands below its outlet and first takes "
            f"{hose.first_fill_gal:.0f} gal to fill itself, which test nothing; they "
            "are added here."
        )
    minutes = nominal(minutes_for(hose.still_gal, hose.flow_gpm))
    if hose.on_since_min is not None:
        off = time_of_day(hose.on_since_min + minutes)
        yield (
            f"Hose: {hose.still_gal:.0f} gal {at} take {minutes:.0f} min; on since "
            f"{time_of_day(hose.on_since_min)}, so turn it off at {off}."
        )
    elif hose.still_gal >= LAST_GALLON:
        ran = f"{hose.ran_gal:.0f} gal have run; " if hose.ran_gal else ""
        yield (
            f"Hose: {ran}{hose.still_gal:.0f} gal are still to run, {minutes:.0f} min "
            f"{at}."
        )


def _flow_gpm(draft: Draft) -> float | None:
    """Mean flow of the newest bucket checks. [gal/min]"""
    for stretch in reversed(draft.items("load_test.water")):
        fills = [draft.read(one, "bucket") for one in draft.items(f"{stretch}.bucket")]
        read = [fill for fill in fills if fill is not None]
        if read:
            flow = bucket_flow_gpm(
                [fill.gallons for fill in read], [fill.minutes for fill in read]
            )
            return nominal(flow)
    return None


def _target_gal(
    draft: Draft, flow_gpm: float | None, design_gpd: float | None
) -> float | None:
    target = draft.read("load_test.target", "target")
    if target is None:
        return None
    wanted = wanted_gal(target, flow_gpm or 0.0, design_gpd)  # no flow: told apart
    return None if wanted is None else nominal(wanted)


def _ran_gal(draft: Draft, flow_gpm: float) -> float:
    """Water of the stretches that have ended. [gal]"""
    ran = 0.0
    for stretch in draft.items("load_test.water"):
        start, stop = (draft.minutes(f"{stretch}.{key}") for key in ("from", "to"))
        meter = [
            draft.read(f"{stretch}.{key}", "volume")
            for key in ("meter_from", "meter_to")
        ]
        if meter[0] is not None and meter[1] is not None:
            ran += meter[1].gallons - meter[0].gallons
        elif start is not None and stop is not None:
            ran += (stop - start) * flow_gpm
    return ran


def _on_since(draft: Draft) -> float | None:
    water = draft.items("load_test.water")
    if not water or draft.get(f"{water[-1]}.to") is not None:
        return None
    return draft.minutes(f"{water[-1]}.from")


def _first_fill_gal(draft: Draft, inside: Inside | None) -> float:
    """Water that a tank below its outlet takes before any passes on. [gal]"""
    if inside is None or not _starts_below(draft):
        return 0.0
    level = draft.level(f"{draft.items('load_test.levels')[0]}.level") or 0.0
    return float(nominal(inside.between_gal(level, 0.0)))
