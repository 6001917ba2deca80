"""Solids beside the limit of every criterion, as a figure wants them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from generator.codes.packs import Pack
from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.result import Result, Results, nominal, standard
from generator.results.solids import rows_of

COMPARTMENT = re.compile(r" in the compartment (?P<name>.+)$")


@dataclass(frozen=True)
class SolidsBar:
    """One measure beside one limit. [in] or [%]

    ``pump_over`` says on which side of the limit the source asks for pumping; ``reach``
    is the expanded uncertainty.
    """

    label: str
    unit: str
    value: float
    reach: float
    limit: float
    pump_over: bool
    says: str


def solids_bars(results: Results, tank: str, packs: Sequence[Pack]) -> list[SolidsBar]:
    """List every measure of a tank's solids beside its limit, by unit and source."""
    rows = {
        f"{pack.name}.{row.criterion.replace(' ', '_')}": row
        for pack, row in rows_of(packs)
    }
    found = []
    for one in results.under(f"solids.{tank}."):
        row = rows.get(".".join(one.name.split(".")[-2:]))
        if row is not None and one.verdict:
            found.append(_bar(one, row.value, row.pump_when == "over"))
    return sorted(found, key=lambda bar: bar.unit)


def _bar(one: Result, limit: float, pump_over: bool) -> SolidsBar:
    return SolidsBar(
        _label(one),
        one.unit,
        nominal(one.number),
        COVERAGE_FACTOR * standard(one.number),
        limit,
        pump_over,
        one.verdict,
    )


def _label(one: Result) -> str:
    """Name source and measure, and of several compartments which."""
    subject = one.label.partition(", pump when")[0]
    found = COMPARTMENT.search(subject)
    if found is None:
        return subject
    name = found["name"]
    which = f"compartment {name}" if name.isdigit() else f"{name} compartment"
    which = name if "compartment" in name else which
    return f"{subject[: found.start()]}, {which}"
