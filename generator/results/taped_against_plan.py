"""Taped distances against the plan: do the two agree, and which of them speaks."""

from __future__ import annotations

from dataclasses import dataclass

from generator.problems import Problem
from generator.record.model import Record
from generator.results.guard_band import CLOSE, COVERAGE_FACTOR, SHORT
from generator.results.result import Number, Result, Symbol, nominal, standard
from generator.results.rounding import said
from generator.results.separation import ON_PLAN, TAPED, Pair

AGREE, DISAGREE = "agree", "disagree"
SAME_FT = 1e-6  # a difference that is only the computer's rounding; our choice


@dataclass(frozen=True)
class Comparison:
    """One taped distance beside the same distance of the plan. [ft]

    Where the two agree, the surer one counts, the taped one at a draw. Where they
    disagree, the taped one counts, for the reason that the job file gives.
    """

    taped: Pair
    plan: Pair
    difference_ft: Number
    verdict: str

    @property
    def result(self) -> str:
        """Name of its result."""
        return self.taped.result.replace("distance.", "compare.", 1)

    @property
    def counts(self) -> Pair:
        """The measure that findings and answers speak of."""
        surer = standard(self.plan.measured_ft) < standard(self.taped.measured_ft)
        return self.plan if surer and self.verdict == AGREE else self.taped

    @property
    def other(self) -> Pair:
        """The measure that stands beside it."""
        return self.plan if self.counts is self.taped else self.taped


def agree(difference_ft: Number) -> bool:
    """Tell whether two measures of one distance agree.

    Parameters
    ----------
    difference_ft : float
        One less the other, with its uncertainty. [ft]

    Returns
    -------
    bool
        True where the difference is no more than its expanded uncertainty (k = 2).

    Notes
    -----
    A difference of 2 u or less is what the two uncertainties explain.
    Source: [GUM], 6.2 (expanded uncertainty); its use as a test of agreement is common
    practice, no source.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> agree(ufloat(2.0, 1.0)), agree(ufloat(2.1, 1.0)), agree(0.0)
    (True, False, True)
    """
    allowed_ft = COVERAGE_FACTOR * standard(difference_ft)
    return abs(nominal(difference_ft)) <= max(SAME_FT, allowed_ft)


def comparisons_of(pairs: list[Pair]) -> list[Comparison]:
    """Put taped distances beside those of the plan, pair of kinds by pair of kinds.

    A taped distance names only kinds, so the shortest is held against the nearest of
    the plan, the second shortest against the next, and so on; what is left over on
    either side is not compared.
    """
    found = []
    for kinds in dict.fromkeys(pair.kinds for pair in pairs):
        ours = [pair for pair in pairs if pair.kinds == kinds]
        taped = sorted((p for p in ours if p.how == TAPED), key=_feet)
        plan = sorted((p for p in ours if p.how == ON_PLAN), key=_feet)
        found += [_compare(one, two) for one, two in zip(taped, plan, strict=False)]
    return found


def comparison_results(comparisons: list[Comparison]) -> list[Result]:
    """List the result of every comparison."""
    return [
        Result(
            one.result,
            f"{one.plan.label}: taped against the plan",
            one.difference_ft,
            "ft",
            "difference = T − P",
            (
                Symbol("T", one.taped.measured_ft, "ft", "taped"),
                Symbol("P", one.plan.measured_ft, "ft", "on the plan"),
            ),
            (*one.taped.paths, *one.plan.paths),
            "GUM",
            (f"the taped distance counts: {one.taped.over_plan}",)
            if one.taped.over_plan
            else (),
            one.verdict,
        )
        for one in comparisons
    ]


def disagreements(record: Record, pairs: list[Pair]) -> list[Problem]:
    """Tell every taped distance that the plan contradicts without a word on why.

    Pairs that the local code does not speak of are not on the plan's list, and so
    are not compared.
    """
    return [
        _problem(record, one)
        for one in comparisons_of(pairs)
        if one.verdict == DISAGREE and not one.taped.over_plan
    ]


def speaking(pairs: list[Pair]) -> list[Pair]:
    """Choose the pairs that findings and answers speak of.

    Every taped distance, or that of the plan in its place where it is surer; of the
    rest of the plan, the nearest of each pair of kinds unless it was taped, and any
    other that is short or too close to call. So many as were taped of a kind, nearest
    first, count as covered.
    """
    compared = comparisons_of(pairs)
    covered = {one.plan.result for one in compared}
    counts = {one.taped.result: one.counts for one in compared}
    seen = {pair.kinds for pair in pairs if pair.how == TAPED}
    found = [counts.get(pair.result, pair) for pair in pairs if pair.how == TAPED]
    for pair in sorted((p for p in pairs if p.how == ON_PLAN), key=_feet):
        if pair.result in covered:
            continue
        if pair.kinds not in seen or pair.verdict in (SHORT, CLOSE):
            found.append(pair)
        seen.add(pair.kinds)
    return found


def _feet(pair: Pair) -> float:
    return nominal(pair.measured_ft)


def _compare(taped: Pair, plan: Pair) -> Comparison:
    difference = taped.measured_ft - plan.measured_ft
    return Comparison(taped, plan, difference, AGREE if agree(difference) else DISAGREE)


def _problem(record: Record, one: Comparison) -> Problem:
    path = one.taped.paths[0]
    return Problem(
        f"inspections/{record.job}.yaml",
        record.line(path),
        path,
        f"Taped {one.taped.typed} from {one.taped.part} to {one.taped.feature}, and "
        f"the plan gives {said(one.plan.measured_ft, 'ft')}: they differ by more than "
        "both can be off.",
        'Check the tape, the ties and the points; or say under "over_plan" why the '
        "taped distance counts.",
    )
