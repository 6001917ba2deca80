"""Rules on distances: each pair against the local code, wells apart from the rest."""

from __future__ import annotations

from collections.abc import Iterator

from generator.codes.packs import Asked, Pack
from generator.findings.answers import distance_key
from generator.findings.criteria import SITING
from generator.findings.finding import Finding
from generator.record.model import Record
from generator.results.asked import CONFIRM, NO_FIGURE, Judged
from generator.results.guard_band import CLOSE, COVERAGE_FACTOR, MEETS, SHORT
from generator.results.next_distances import unmeasured
from generator.results.result import Results, standard
from generator.results.separation import DRINKING_WATER, TAPED, Pair
from generator.results.taped_against_plan import (
    DISAGREE,
    Comparison,
    comparisons_of,
    speaking,
)

UNSURE = (CLOSE, CONFIRM, NO_FIGURE)
LABORATORY = "a certified laboratory; the local authority"
LAB = "Have the well water tested for coliform bacteria and nitrate"


def distance_findings(
    record: Record, results: Results, pack: Pack | None
) -> Iterator[Finding]:
    """Judge every pair by the surer of its measures."""
    authority = record.inspection.property.authority or (
        pack.authority if pack and pack.authority else "the local authority"
    )
    pairs = results.parts["pairs"]
    beside = {one.counts.result: one for one in comparisons_of(pairs)}
    for pair in speaking(pairs):
        yield _judged(pair, authority, beside.get(pair.result))
        if pair.program is not None and pair.program.asked is not None:
            yield _for_the_loan(pair, pair.program, pair.program.asked)
    yield from _not_measured(record, pack)


def _not_measured(record: Record, pack: Pack | None) -> Iterator[Finding]:
    """Count what the code asks for and nobody measured among what was not seen."""
    missing = [
        f"{part} to {feature} ({asked.row.feet} ft)"
        for part, feature, asked in unmeasured(record.inspection, pack)
        if asked is not None
    ]
    if missing:
        yield Finding(
            key="distances-not-measured",
            part="lot",
            weight="unseen",
            title="Distances that the code asks for and nobody measured",
            saw=f"{_capital('; '.join(missing))}.",
            source="inspector",
        )


def _for_the_loan(pair: Pair, judged: Judged, asked: Asked) -> Finding:
    """Say what a loan program makes of a distance, beside the local code."""
    weight, words = _LOAN[judged.verdict]
    title = f"{_capital(pair.part_called)} to {pair.feature_called}: {words}"
    saw = f"{pair.typed}; {asked.whose} asks {asked.row.feet} ft."
    if judged.because:
        saw += f" {judged.because}"
    if asked.row.exceptions:
        saw += f" It adds: {asked.row.exceptions}."
    sound = weight == "sound"
    return Finding(
        key=f"{distance_key(pair)}-loan",
        part=pair.part,
        weight=weight,
        title=title,
        saw=saw,
        means="" if sound else "A lender may ask more than the local code.",
        todo="" if sound else "Ask the lender what it wants to see.",
        who="" if sound else "the client",
        by="" if sound else "before the sale closes",
        evidence=(pair.result,),
        source=asked.source,
    )


def _judged(pair: Pair, authority: str, beside: Comparison | None) -> Finding:
    weight, title, todo, who, by = _VERDICTS[pair.verdict]
    taped = beside.taped if beside else pair
    if pair.verdict == SHORT and pair.feature in DRINKING_WATER:
        weight, by = "repair", "before the sale closes"
        todo = f"{LAB}. Ask {authority} what distance holds for this lot."
        who = LABORATORY
    elif pair.verdict in UNSURE and pair.feature in DRINKING_WATER:
        todo, who = f"{LAB}. {todo}", f"a certified laboratory; {who}"
        by = "before the sale closes"
    return Finding(
        key=distance_key(pair),
        part=pair.part,
        weight=weight,
        title=title.format(
            part=_capital(pair.part_called), feature=pair.feature_called
        ),
        saw=_saw(pair, beside),
        means=SITING if pair.verdict in (SHORT, CLOSE, CONFIRM) else "",
        todo=todo,
        who=who,
        by=by,
        evidence=(pair.result, beside.result) if beside else (pair.result,),
        photos=(taped.photo,) if taped.photo else (),
        source="JCGM106",
    )


def _saw(pair: Pair, beside: Comparison | None) -> str:
    plan = "" if pair.how == TAPED else f" {pair.how}"
    said = [
        f"{pair.typed} from {pair.part_called} to {pair.feature_called}{plan}, give or "
        f"take {COVERAGE_FACTOR * standard(pair.measured_ft):.1f} ft."
    ]
    if pair.judged.asked:
        said.append(f"{pair.judged.asked.whose} asks {pair.judged.asked.row.feet} ft.")
    if pair.judged.because:
        said.append(pair.judged.because)
    if pair.row and pair.row.exceptions:
        said.append(f"The rule adds: {pair.row.exceptions}.")
    if pair.note:
        said.append(f"Measured {pair.note}.")
    if beside and beside.counts is beside.plan:
        said.append(f"On the lot it was {beside.taped.typed}, less sure, and agrees.")
    elif beside:
        agrees = "disagrees" if beside.verdict == DISAGREE else "agrees"
        said.append(f"The plan gives {beside.plan.typed} and {agrees}.")
    if beside and beside.verdict == DISAGREE and pair.over_plan:
        said.append(f"The taped distance counts: {pair.over_plan.rstrip('.')}.")
    return " ".join(said)


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


_LOAN = {
    MEETS: ("sound", "far enough for the loan program"),
    SHORT: ("watch", "nearer than the loan program asks"),
    CLOSE: ("watch", "too close to call for the loan program"),
    CONFIRM: ("watch", "confirm with the lender"),
}
_VERDICTS = {
    MEETS: ("sound", "{part} is far enough from the {feature}", "", "", ""),
    SHORT: (
        "watch",
        "{part} to {feature} does not meet the current siting distance",
        "Ask the local authority what distance holds for this lot.",
        "the client, with the local authority",
        "before any new work",
    ),
    CLOSE: (
        "watch",
        "{part} to {feature} is too close to call",
        "Have it measured more closely if a sale or a permit depends on it.",
        "a licensed surveyor",
        "before that sale or permit",
    ),
    CONFIRM: (
        "watch",
        "{part} to {feature}: confirm with the authority",
        "Ask the local authority for its figure.",
        "the client",
        "before the sale closes",
    ),
    NO_FIGURE: (
        "unseen",
        "{part} to {feature}: no local figure at hand",
        "Ask the local authority for its figure.",
        "the client",
        "before any new work",
    ),
}
