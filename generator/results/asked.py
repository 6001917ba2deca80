"""One distance against every row that speaks of it: the stricter holds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.codes.packs import Asked
from generator.codes.rows import SeparationRow
from generator.codes.when import Answers, worlds
from generator.results.guard_band import CLOSE, MEETS, SHORT, hold
from generator.results.result import Number

CONFIRM = "confirm with the authority"
NO_FIGURE = "no local figure"
WORST_FIRST = (SHORT, CLOSE, MEETS)


@dataclass(frozen=True)
class Judged:
    """A verdict, the row that it rests on, and why it is that row or that verdict.

    ``may_ask`` is the figure of a row that may hold as well. [ft]
    """

    verdict: str
    asked: Asked | None = None
    because: str = ""
    may_ask: int | None = None

    @property
    def row(self) -> SeparationRow | None:
        """The row that the verdict rests on."""
        return self.asked.row if self.asked else None


def judge_all(measured_ft: Number, asked: Sequence[Asked]) -> Judged:
    """Judge one distance by every row that holds or may hold.

    Parameters
    ----------
    measured_ft : float
        The distance with its uncertainty. [ft]
    asked : sequence of Asked
        The rows, from the lot outward. [ft]

    Returns
    -------
    Judged
        The verdict of the strictest row that was read and holds. Where the job file
        leaves conditions open, a verdict stands only if it is the same however they
        come out; else it is ``confirm with the authority``. A row that was only
        remembered turns ``meets`` and ``too close to call`` into that, where it would
        judge worse; it never decides itself.

    Notes
    -----
    Guard band of 2 u. Source: [JCGM106], 8.3.2.

    Examples
    --------
    >>> judge_all(82.0, []).verdict
    'no local figure'
    """
    read = [one for one in asked if one.row.read]
    if not asked:
        return Judged(NO_FIGURE)
    if not read:
        return Judged(CONFIRM, _strictest(asked), NOT_READ)
    judged = _by_read(measured_ft, read)
    if judged.verdict in (CONFIRM, SHORT):
        return judged
    for one in asked:
        if not one.row.read and _worse(_alone(measured_ft, one), judged.verdict):
            return Judged(CONFIRM, judged.asked, _may_ask(one), _open_feet(one))
    return judged


NOT_READ = "The figure was remembered and not read in its source."


def _by_read(measured_ft: Number, read: Sequence[Asked]) -> Judged:
    sure = [one for one in read if one.holds]
    if not sure:
        return _by_open(measured_ft, read)
    judged = _by_sure(measured_ft, sure)
    for one in read:
        if not one.holds and _worse(_alone(measured_ft, one), judged.verdict):
            return Judged(CONFIRM, judged.asked, _may_ask(one), _open_feet(one))
    return judged


def _by_sure(measured_ft: Number, sure: Sequence[Asked]) -> Judged:
    first = _strictest(sure)
    others = [one for one in sure if one.pack.name != first.pack.name]
    because = ""
    if others:
        second = _strictest(others)
        than = "as much as" if second.row.feet == first.row.feet else "more than"
        because = (
            f"{first.whose} asks {first.row.feet} ft, {than} {second.whose} "
            f"({second.row.feet} ft); the stricter holds."
        )
    return Judged(hold(measured_ft, first.row.feet, least=True), first, because)


def _by_open(measured_ft: Number, rows: Sequence[Asked]) -> Judged:
    """Judge where no row is sure to hold: only what holds in any case is said."""
    first = _strictest(rows)
    cases = [_strictest(held) if held else None for held in _cases(rows)]
    asked = [one for one in cases if one is not None]
    verdicts = {_alone(measured_ft, one) for one in asked}
    if verdicts == {MEETS}:
        return Judged(MEETS, first)
    if len(verdicts) != 1 or len(asked) < len(cases):
        return Judged(CONFIRM, first, _may_ask(first), _open_feet(first))
    return Judged(verdicts.pop(), min(asked, key=_feet))


def _cases(rows: Sequence[Asked]) -> list[list[Asked]]:
    """List the rows that hold together, for each way the open questions come out."""
    conditions = [one.row.when for one in rows if one.row.when]
    words = [word for one in rows for word in one.unanswered]
    return [
        [one for one in rows if _holds(one, world)]
        for world in worlds(conditions, words)
    ]


def _holds(one: Asked, world: Answers) -> bool:
    return one.row.when is None or one.row.when.holds(world) is not False


def _may_ask(one: Asked) -> str:
    if not one.row.read:
        return (
            f"{one.whose} asks {one.row.feet} ft by a figure that was remembered and "
            "not read in its source."
        )
    return (
        f"{one.whose} may ask {one.row.feet} ft: it depends on "
        f"{' and '.join(one.unanswered)}, which was not recorded."
    )


def _open_feet(one: Asked) -> int | None:
    return one.row.feet if one.row.read else None


def _alone(measured_ft: Number, one: Asked) -> str:
    return hold(measured_ft, one.row.feet, least=True)


def _worse(one: str, other: str) -> bool:
    return WORST_FIRST.index(one) < WORST_FIRST.index(other)


def _strictest(rows: Sequence[Asked]) -> Asked:
    return max(rows, key=_feet)


def _feet(one: Asked) -> int:
    return one.row.feet
