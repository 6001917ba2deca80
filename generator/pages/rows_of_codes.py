"""What the page on distances says of codes: what is asked of each pair, and by whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from generator.codes.layers import Code, Layer
from generator.codes.packs import Asked, Pack
from generator.codes.rows import Cited, Separation, SeparationRow
from generator.findings.criteria import LIMITS
from generator.pages.wording import sentence
from generator.record.model import Record
from generator.results.asked import CONFIRM, Judged
from generator.results.guard_band import SHORT
from generator.results.next_distances import parts_of_lot, unmeasured
from generator.results.plan_gaps import WORST_FIRST
from generator.results.separation import Pair
from generator.results.taped_against_plan import Comparison, comparisons_of

SHORT_IN_WORDS = "does not meet the current siting distance"
TO_THE_LENDER = "confirm with the lender"
DAYS_A_YEAR = 365.25  # mean year of the Julian calendar


@dataclass(frozen=True)
class Beside:
    """One distance beside what is asked of it, in words.

    ``compared`` holds the same distance measured the other way, where it was.
    """

    pair: Pair
    asked: str
    verdict: str
    notes: tuple[str, ...]
    compared: Comparison | None = None

    @property
    def label(self) -> str:
        """From what to what, with the names that the plan has for them."""
        return self.compared.plan.label if self.compared else self.pair.label


@dataclass(frozen=True)
class Used:
    """One code whose distances were used: where it stands, and what to doubt."""

    jurisdiction: str
    firm: bool
    section: Separation
    read: bool
    doubt: str


def beside(pairs: list[Pair]) -> list[Beside]:
    """Put every distance beside what is asked of it: once, and the worst first."""
    compared = comparisons_of(pairs)
    by_counted = {one.counts.result: one for one in compared}
    others = {one.other.result for one in compared}
    told = [
        Beside(
            pair,
            _asked(pair.judged),
            _verdict(pair.judged),
            tuple(_notes(pair, by_counted.get(pair.result))),
            by_counted.get(pair.result),
        )
        for pair in pairs
        if pair.result not in others
    ]
    return sorted(told, key=lambda one: WORST_FIRST.index(one.pair.verdict))


def _asked(judged: Judged) -> str:
    if judged.asked is None:
        return "no figure for this pair"
    return f"{judged.asked.row.feet} ft, {judged.asked.whose}"


def _verdict(judged: Judged) -> str:
    return SHORT_IN_WORDS if judged.verdict == SHORT else judged.verdict


def _notes(pair: Pair, compared: Comparison | None) -> Iterator[str]:
    if compared is not None and compared.taped.over_plan:
        yield f"The taped distance counts: {compared.taped.over_plan.rstrip('.')}."
    if pair.judged.because:
        yield pair.judged.because
    if pair.row is not None and pair.row.exceptions:
        yield f"The rule adds: {pair.row.exceptions}."
    loan = pair.program
    if loan is not None and loan.asked is not None:
        verdict = TO_THE_LENDER if loan.verdict == CONFIRM else _verdict(loan)
        yield (
            f"{loan.asked.whose} asks {loan.asked.row.feet} ft: {verdict}."
            + (f" {loan.because}" if loan.because else "")
            + (
                f" It adds: {loan.row.exceptions}."
                if loan.row and loan.row.exceptions
                else ""
            )
        )


def not_measured(record: Record, code: Pack | None) -> list[str]:
    """List the distances that are asked for on this lot and that nobody measured."""
    return [
        f"{sentence(part)} to {feature}: {_asked_of(one)}"
        for part, feature, one in unmeasured(record.inspection, code)
    ]


def _asked_of(one: Asked | None) -> str:
    if one is None:
        return "no local figure"
    read = "" if one.row.read else ", remembered and not read in its source"
    return f"{one.row.feet} ft, {one.whose}{read}"


def also_asked(record: Record, code: Pack | None) -> list[str]:
    """List what else the code keeps the system away from, not recorded on this lot."""
    if not isinstance(code, Code):
        return []
    inspection = record.inspection
    known = {one.kind for one in inspection.features}
    known |= {one.to for one in inspection.distances}
    known |= {feature for _, feature, _ in unmeasured(inspection, code)}
    parts = parts_of_lot(inspection)
    feet: dict[str, int] = {}
    for layer in code.layers:
        for row in _rows(layer):
            if row.to not in known and row.from_ in (*parts, "system"):
                feet[row.to] = max(row.feet, feet.get(row.to, 0))
    return [f"{to} (up to {most} ft)" for to, most in sorted(feet.items())]


def _rows(layer: Layer) -> Iterator[SeparationRow]:
    for pack in (layer.own, layer.shipped):
        if pack is not None and pack.separation is not None:
            yield from pack.separation.rows


def used(record: Record, code: Pack | None) -> list[Used]:
    """List every code whose distances hold here, from the lot outward."""
    if not isinstance(code, Code):
        return []
    layers = [*code.layers, *([code.program] if code.program else [])]
    found = []
    for layer in layers:
        for pack, firm in ((layer.own, True), (layer.shipped, False)):
            if pack is not None and pack.separation is not None:
                section = pack.separation
                read = any(row.read for row in section.rows)
                doubt = (
                    _doubt(section, record.inspection.visit.date.iso) if read else ""
                )
                found.append(Used(pack.jurisdiction, firm, section, read, doubt))
    return found


def _doubt(section: Cited, visit: str) -> str:
    """Say that a copy is old at the visit, or that it bears no date."""
    if section.as_of is None:
        return (
            "The copy that was read bears no date: ask whether its figures still hold."
        )
    years = (_day(visit) - _day(section.as_of.iso)).days / DAYS_A_YEAR
    if years <= LIMITS["code_years"].value:
        return ""
    return (
        f"The copy that was read is {years:.0f} years older than the visit: ask "
        "whether its figures still hold."
    )


def _day(iso: str) -> date:
    return date.fromisoformat(iso)


def without_local(code: Pack | None) -> bool:
    """Say whether no local code was named; a loan program is none."""
    return not isinstance(code, Code) or not code.layers


def silent(code: Pack | None) -> list[str]:
    """Name the jurisdictions in use of which no distances are at hand."""
    if not isinstance(code, Code):
        return []
    return [
        layer.pack.jurisdiction
        for layer in code.layers
        if layer.section("separation") is None
    ]
