"""Distances against what the local code asks for new systems."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from generator.codes.packs import Pack
from generator.codes.rows import SeparationRow
from generator.record.model import Distance, Inspection
from generator.results.asked import NO_FIGURE, Judged, judge_all
from generator.results.conditions import Lot
from generator.results.guard_band import CLOSE, conformance_probability
from generator.results.measured import DISTANCES_FT, from_half_width, measured
from generator.results.result import Number, Result, Symbol
from generator.results.shapes import called

DRINKING_WATER = (
    "private well",
    "public well",
    "large public well",
    "spring",
    "drinking-water spring",
    "public spring",
    "cistern",
)
UNJUDGED = Judged(NO_FIGURE)
TAPED, ON_PLAN = "taped", "on the plan"
WAYS = {
    "tape": "by tape",
    "wheel": "by measuring wheel",
    "paced": "paced",
    "plan": "from a drawing",
    "as-built": "from the as-built",
    "phone": "by telephone",
}


@dataclass(frozen=True, kw_only=True)
class Pair:
    """One distance beside the row of the code that speaks of it. [ft]

    ``how`` is ``taped`` or ``on the plan``; ``typed`` is the measure in words;
    ``paths`` lead into the job file; ``over_plan`` says why a taped distance counts
    although the plan disagrees; ``by`` is the way of measuring on the lot.
    """

    part: str
    feature: str
    part_name: str = ""
    feature_name: str = ""
    measured_ft: Number
    result: str
    how: str
    typed: str
    note: str = ""
    photo: str = ""
    paths: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    formula: str = "distance as measured"
    symbols: tuple[Symbol, ...] = ()
    over_plan: str = ""
    by: str = ""
    judged: Judged = UNJUDGED
    program: Judged | None = None

    @property
    def row(self) -> SeparationRow | None:
        """The row of the code that the verdict rests on."""
        return self.judged.row

    @property
    def verdict(self) -> str:
        """What the local code makes of the distance."""
        return self.judged.verdict

    @property
    def kinds(self) -> tuple[str, str]:
        """Part and feature in the words of the code."""
        return self.part, self.feature

    @property
    def measured_by(self) -> str:
        """How it was measured, in words: by tape, paced, on the plan, and so on."""
        return WAYS.get(self.by, self.how)

    @property
    def part_called(self) -> str:
        """The part, with its name where that says more."""
        return called(self.part, self.part_name)

    @property
    def feature_called(self) -> str:
        """The feature, with its name where that says more."""
        return called(self.feature, self.feature_name)

    @property
    def label(self) -> str:
        """From what to what."""
        said = f"{self.part_called} to {self.feature_called}"
        return f"{said[:1].upper()}{said[1:]}"


def pairs_of(inspection: Inspection, pack: Pack | None) -> list[Pair]:
    """Put every taped distance beside what is asked of it."""
    lot = Lot(inspection, pack)
    return numbered([_taped(one, lot) for one in inspection.distances])


def held(
    lot: Lot, measured_ft: Number, part: str, feature: str, name: str = ""
) -> tuple[Judged, Judged | None]:
    """Judge a distance by the local code, and by the loan program where one asks."""
    if lot.code is None:
        return Judged(NO_FIGURE), None
    answers = lot.answers(part, feature, name)
    judged = judge_all(measured_ft, lot.code.asked(part, feature, answers))
    asked = lot.code.asked_by_program(part, feature, answers)
    return judged, judge_all(measured_ft, asked) if asked else None


def numbered(pairs: Iterable[Pair]) -> list[Pair]:
    """Tell pairs of the same kinds apart by a number, from the second on."""
    counts: dict[str, int] = {}
    found: list[Pair] = []
    for pair in pairs:
        count = counts[pair.result] = counts.get(pair.result, 0) + 1
        name = f"{pair.result}#{count}" if count > 1 else pair.result
        found.append(replace(pair, result=name))
    return found


def pair_name(prefix: str, part: str, feature: str) -> str:
    """Name the result of a pair."""
    return f"{prefix}.{part} to {feature}".replace(" ", "_")


def _taped(one: Distance, lot: Lot) -> Pair:
    keys = ["distance", "by"] + ["give_or_take"] * (one.give_or_take is not None)
    if one.give_or_take is None:
        number = measured(one.distance.feet, DISTANCES_FT[one.by])
        taken = DISTANCES_FT[one.by].assumption()
    else:
        number = from_half_width(one.distance.feet, one.give_or_take.feet)
        taken = f"the inspector judged it right within {one.give_or_take.typed}"
    judged, program = held(lot, number, one.from_, one.to)
    return Pair(
        part=one.from_,
        feature=one.to,
        measured_ft=number,
        result=pair_name("distance", one.from_, one.to),
        how=TAPED,
        typed=one.distance.typed,
        note=one.note or "",
        photo=one.photo or "",
        paths=tuple(map(one.path, keys)),
        assumptions=(taken,),
        over_plan=one.over_plan or "",
        by=one.by,
        judged=judged,
        program=program,
    )


def separation_results(pairs: list[Pair]) -> list[Result]:
    """List the result of every pair, and how likely a close one meets its figure."""
    return [one for pair in pairs for one in _results(pair)]


def _results(pair: Pair) -> list[Result]:
    source = pair.judged.asked.source if pair.judged.asked else "JCGM106"
    found = Result(
        pair.result,
        pair.label
        + (", on the plan" if pair.how == ON_PLAN else "")
        + (f", {pair.row.feet} ft asked" if pair.row else ""),
        pair.measured_ft,
        "ft",
        pair.formula,
        pair.symbols,
        pair.paths,
        source,
        pair.assumptions,
        pair.verdict,
    )
    if pair.verdict != CLOSE or pair.row is None:
        return [found]
    return [found, _probability_result(pair, pair.row.feet)]


def _probability_result(pair: Pair, asked_ft: int) -> Result:
    meets = 100 * conformance_probability(pair.measured_ft, low=asked_ft)
    return Result(
        f"{pair.result}.probability",
        f"{pair.label}: how likely the true distance is {asked_ft} ft or more",
        meets,
        "%",
        "area of the normal curve about the distance, from the figure of the code up",
        (
            Symbol("D", pair.measured_ft, "ft", "distance as measured"),
            Symbol("L", float(asked_ft), "ft", "figure of the code"),
        ),
        pair.paths,
        "JCGM106",
        ("the true distance lies about the measured one as a normal curve",),
    )
