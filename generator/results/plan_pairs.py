"""Distances of the plan that the local code speaks of, nearest first."""

from __future__ import annotations

from collections.abc import Mapping
from operator import itemgetter

from generator.codes.packs import Pack, SeparationRow
from generator.record.model import Inspection
from generator.results.plan_distance import Gap, gap_result
from generator.results.result import nominal
from generator.results.rounding import said
from generator.results.separation import (
    DRINKING_WATER,
    ON_PLAN,
    Pair,
    judge,
    numbered,
    pair_name,
)
from generator.results.shapes import Located, Shape, feature_shapes, part_shapes

# Without a local code only distances to these are listed.


def plan_pairs_of(
    inspection: Inspection, spots: Mapping[str, Located], pack: Pack | None
) -> list[Pair]:
    """Put every distance of the plan beside its row, where the code has one.

    Several of a kind are each a pair of their own; the nearest keeps the bare name.
    """
    features = feature_shapes(inspection, spots)
    found: list[tuple[float, Pair]] = []
    for part in part_shapes(inspection, spots):
        for feature in features:
            row = pack.row(part.kind, feature.kind) if pack else None
            if row or (pack is None and feature.kind in DRINKING_WATER):
                gap = gap_result(part, feature)
                found.append((nominal(gap.number), _pair(part, feature, gap, row)))
    return numbered(pair for _, pair in sorted(found, key=itemgetter(0)))


def _pair(part: Shape, feature: Shape, gap: Gap, row: SeparationRow | None) -> Pair:
    return Pair(
        part=part.kind,
        part_name=part.name,
        feature=feature.kind,
        feature_name=feature.name,
        measured_ft=gap.number,
        row=row,
        verdict=judge(gap.number, row),
        result=pair_name("plan", part.kind, feature.kind),
        how=ON_PLAN,
        typed=said(gap.number, "ft"),
        paths=(*part.paths, *feature.paths),
        assumptions=gap.assumptions,
        formula=gap.formula,
        symbols=gap.symbols,
    )
