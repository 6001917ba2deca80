"""Distances that the code asks for, and how well each has to be measured."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from generator.codes.packs import Asked, Pack
from generator.codes.rows import SeparationRow
from generator.record.model import Inspection, Record
from generator.record.parts import HOLDING_TANK
from generator.record.todo import Cost, Item
from generator.results.conditions import Lot
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.measured import DISTANCES_FT, measured
from generator.results.result import nominal
from generator.results.rounding import expanded_of, said
from generator.results.separation import DRINKING_WATER, Pair, pairs_of

WELLS = ("private well", "shared well")  # a house with one has a well to keep away from
BY_HAND = ("tape", "wheel", "paced")  # the ways that a yard offers, surest first
SAID = {"tape": "by tape", "wheel": "by wheel", "paced": "paced"}
AREA = "absorption area"
ABOUT = ("distance", "well")


def expanded_ft(by: str, distance_ft: float) -> float:
    """Expanded uncertainty of one way of measuring.

    Parameters
    ----------
    by : str
        A way of measuring of the job file.
    distance_ft : float
        The distance. [ft]

    Returns
    -------
    float
        Half of the span in which the true distance lies. [ft]

    Notes
    -----
    Twice the half-width over the root of three. Sources: [GUM], 4.3.7; [JCGM106], 7.4.

    Examples
    --------
    >>> round(expanded_ft("tape", 100.0), 2)
    0.52
    """
    return expanded_of(measured(distance_ft, DISTANCES_FT[by]))


def distance_items(record: Record, pack: Pack | None) -> Iterator[Item]:
    """Name distances to measure, and those measured too roughly to decide."""
    pairs = pairs_of(record.inspection, pack)
    decided = {pair.kinds for pair in pairs if pair.verdict in (MEETS, SHORT)}
    for pair in pairs:
        close = pair.verdict == CLOSE and pair.kinds not in decided
        if close and pair.row is not None:
            yield _too_rough(pair, pair.row)
    for part, feature, one in unmeasured(record.inspection, pack):
        asked = ""
        if one:
            verb = "asks" if one.row.read else "is remembered to ask"
            asked = f" (the code {verb} {one.row.feet} ft)"
        words = f"How far the {part} is from the {feature}{asked}."
        yield Item(Cost.DISTANCE, "distances", words, False, ABOUT)


def distance_sums(record: Record, pack: Pack | None) -> Iterator[str]:
    """Say what each distance not yet measured is asked to be, and how well to tape."""
    for part, feature, one in unmeasured(record.inspection, pack):
        if one is None:
            continue
        feet = one.row.feet
        close = ", ".join(f"{SAID[by]} {_band(by, feet)}" for by in BY_HAND)
        read = "" if one.row.read else " (a figure not read in its source)"
        yield (
            f"Distance: {part} to {feature}: {feet} ft asked{read}. Too close to call "
            f"{close}."
        )


def unmeasured(
    inspection: Inspection, pack: Pack | None
) -> list[tuple[str, str, Asked | None]]:
    """List the pairs of part and feature on this lot that nobody has measured.

    With each stands the strictest row that holds or may hold for it.
    """
    lot, placed = Lot(inspection, pack), _placed(inspection)
    done = {(one.from_, one.to) for one in inspection.distances}
    found = []
    for part, feature in product(parts_of_lot(inspection), _features(inspection)):
        asked = pack.asked(part, feature, lot.answers(part, feature)) if pack else ()
        if (part, feature) in done or {part, feature} <= placed:
            continue
        if asked or feature in DRINKING_WATER:
            strictest = max(asked, key=lambda one: one.row.feet, default=None)
            found.append((part, feature, strictest))
    return found


def _too_rough(pair: Pair, row: SeparationRow) -> Item:
    gap = abs(nominal(pair.measured_ft) - row.feet)
    found = said(pair.measured_ft, "ft")
    reach = expanded_of(pair.measured_ft)
    words = (
        f"The {pair.part} to the {pair.feature} measures {found}, give or take "
        f"{reach:.1f} ft, which is too close to call against {row.feet} ft: "
    )
    surer = [by for by in BY_HAND if expanded_ft(by, row.feet) <= gap]
    if surer:
        words += f"measure it again, by {surer[0]}."
    else:
        words += "no tape decides it; tell the client that a survey would."
    return Item(Cost.DISTANCE, pair.paths[0], words)


def _band(by: str, asked_ft: int) -> str:
    reach = expanded_ft(by, asked_ft)
    return f"from {asked_ft - reach:.1f} to {asked_ft + reach:.1f} ft"


def parts_of_lot(inspection: Inspection) -> list[str]:
    """List the kinds of parts that stand on this lot, in the words of the codes."""
    found = ["tank"] * bool(inspection.tanks)
    found += ["distribution box"] * (inspection.distribution_box is not None)
    found += ["pump chamber"] * (inspection.pump_chamber is not None)
    drained = any(one.kind != HOLDING_TANK for one in inspection.tanks)
    found += [AREA] * bool(drained or inspection.absorption_areas)
    return found + ([inspection.cesspool.kind] if inspection.cesspool else [])


def _features(inspection: Inspection) -> list[str]:
    found = [one.kind for one in inspection.features]
    found += [one.to for one in inspection.distances]
    if inspection.property.water_supply in WELLS:
        found.append("private well")
    return list(dict.fromkeys(found))


def _placed(inspection: Inspection) -> set[str]:
    """Name the kinds of parts and features that stand on the plan."""
    kinds = {
        "tank": inspection.tanks,
        "distribution box": (inspection.distribution_box,),
        "pump chamber": (inspection.pump_chamber,),
        "cesspool": (inspection.cesspool,),
        "seepage pit": (inspection.cesspool,),
        AREA: inspection.absorption_areas,
    }
    found = {
        kind
        for kind, all_ in kinds.items()
        if any(one and (one.on_plan or one.outline) for one in all_)
    }
    return found | {
        one.kind for one in inspection.features if one.on_plan or one.outline
    }
