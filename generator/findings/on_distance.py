"""Rules on distances: each pair against the local code, wells apart from the rest."""

from __future__ import annotations

from collections.abc import Iterator

from generator.codes.packs import Pack
from generator.findings.answers import distance_key
from generator.findings.criteria import DRINKING_WATER, SITING
from generator.findings.finding import Finding
from generator.record.model import Record
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.result import Results, nominal, standard
from generator.results.separation import CONFIRM, Pair

LAB = "Have the well water tested for coliform bacteria and nitrate"


def distance_findings(
    record: Record, results: Results, pack: Pack | None
) -> Iterator[Finding]:
    """Judge every pair that was measured."""
    authority = record.inspection.property.authority or (
        pack.authority if pack and pack.authority else "the local authority"
    )
    for pair in results.parts["pairs"]:
        yield _judged(pair, authority)


def _judged(pair: Pair, authority: str) -> Finding:
    part, feature = pair.distance.from_, pair.distance.to
    well = feature in DRINKING_WATER
    asked = f" The code asks {pair.row.feet} ft." if pair.row else ""
    if pair.row and pair.row.exceptions:
        asked += f" The code adds: {pair.row.exceptions}."
    number = (
        f"{pair.distance.distance.typed} from {part} to {feature}, give or take "
        f"{2 * standard(pair.measured_ft):.1f} ft.{asked}"
    )
    note = f" Measured {pair.distance.note}." if pair.distance.note else ""
    weight, title, todo, who, by = _VERDICTS[pair.verdict]
    if pair.verdict == SHORT and well:
        weight, by = "repair", "before the sale closes"
        todo = f"{LAB}, and ask {authority} what distance holds for this lot."
        who = "a certified laboratory; the local authority"
    return Finding(
        key=distance_key(pair),
        part=part,
        weight=weight,
        title=title.format(
            part=part.capitalize(), feature=feature, feet=nominal(pair.measured_ft)
        ),
        saw=number + note,
        means=SITING if pair.verdict in (SHORT, CLOSE, CONFIRM) else "",
        todo=todo,
        who=who,
        by=by,
        evidence=(pair.result,),
        photos=(pair.distance.photo,) if pair.distance.photo else (),
        source="JCGM106",
    )


_VERDICTS = {
    MEETS: ("sound", "{part} is far enough from the {feature}", "", "", ""),
    SHORT: (
        "watch",
        "{part} to {feature} does not meet the current siting distance",
        "Ask the local authority what distance holds for this lot.",
        "the local authority",
        "before any new work",
    ),
    CLOSE: (
        "watch",
        "{part} to {feature} is too close to call",
        "Have it measured more closely if the sale or a permit depends on it.",
        "",
        "",
    ),
    CONFIRM: (
        "watch",
        "{part} to {feature}: confirm with the authority",
        "Ask the local authority for its figure.",
        "the local authority",
        "",
    ),
    "no local figure": (
        "unseen",
        "{part} to {feature}: no local figure at hand",
        "Ask the local authority for its figure.",
        "the local authority",
        "",
    ),
}
