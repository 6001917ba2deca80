"""Distances of the plan that the local code speaks of, nearest first."""

from __future__ import annotations

from collections.abc import Mapping
from operator import itemgetter

from generator.codes.packs import Pack
from generator.record.model import Inspection
from generator.results.conditions import Lot
from generator.results.plan_distance import Gap, gap_result
from generator.results.result import nominal
from generator.results.rounding import said
from generator.results.separation import (
    DRINKING_WATER,
    ON_PLAN,
    Pair,
    held,
    numbered,
    pair_name,
)
from generator.results.shapes import Located, Shape, feature_shapes, part_shapes


def plan_pairs_of(
    inspection: Inspection, spots: Mapping[str, Located], pack: Pack | None
) -> list[Pair]:
    """Put every distance of the plan beside its row, where the code has one.

    Several of a kind are each a pair of their own; the nearest keeps the bare name.
    """
    lot, features = Lot(inspection, pack), feature_shapes(inspection, spots)
    found: list[tuple[float, Pair]] = []
    for part in part_shapes(inspection, spots):
        for feature in features:
            if spoken_of(lot, part.kind, feature.kind):
                gap = gap_result(part, feature)
                found.append((nominal(gap.number), _pair(lot, part, feature, gap)))
    return numbered(pair for _, pair in sorted(found, key=itemgetter(0)))


def spoken_of(lot: Lot, part: str, feature: str) -> bool:
    """Say whether a code speaks of a pair; drinking water matters without one."""
    code = lot.code
    if code is None:
        return feature in DRINKING_WATER
    return bool(code.asked(part, feature) or code.asked_by_program(part, feature))


def _pair(lot: Lot, part: Shape, feature: Shape, gap: Gap) -> Pair:
    judged, program = held(lot, gap.number, part.kind, feature.kind, feature.name)
    return Pair(
        part=part.kind,
        part_name=part.name,
        feature=feature.kind,
        feature_name=feature.name,
        measured_ft=gap.number,
        result=pair_name("plan", part.kind, feature.kind),
        how=ON_PLAN,
        typed=said(gap.number, "ft"),
        paths=(*part.paths, *feature.paths),
        assumptions=gap.assumptions,
        formula=gap.formula,
        symbols=gap.symbols,
        judged=judged,
        program=program,
    )
