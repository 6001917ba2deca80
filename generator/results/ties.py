"""Where ties meet, and the plain word where they cannot."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from generator.results.guard_band import COVERAGE_FACTOR
from generator.results.least_squares import Reach, crossing, descend, misfit, starts
from generator.results.plane import LEFT, NOTHING_FT, SIDES, Known, Shifts, dot
from generator.results.rounding import written
from generator.results.tie_shifts import crossing_deg, shifted

WORST_TIE = 3.0  # standard uncertainties a tie may be off; our choice
ENOUGH_TO_SPARE = 4  # ties; without one of three, the rest always fit
APART_FT = 0.01  # our choice: places nearer than this are one place
MEASURE_AGAIN = "Measure both again, or check which corner each was taken from."
MEASURE_WORST = "Measure it again, or check which corner it was taken from."
ADD_SIDE = 'Add "side: left" or "side: right", as seen from {first} toward {second}.'
ON_LINE = (
    "the two ties do not quite meet; the place is taken on the line through {first} "
    "and {second}, where the gap of {gap} ft is shared out by how sure each tie is"
)


@dataclass(frozen=True)
class Trouble:
    """Why a place cannot be found: the key, what is wrong, how to mend it."""

    path: str
    message: str
    hint: str = ""


@dataclass(frozen=True)
class Leg:
    """A line from a known point toward another, and the way along it and out. [ft]"""

    start: Known
    toward: Known
    along_ft: float
    out_ft: float

    @property
    def ahead(self) -> complex:
        """The direction of the line, of length 1. [-]"""
        line = self.toward.at - self.start.at
        return line / abs(line)


@dataclass(frozen=True)
class Fix:
    """A place that was found, and what is to be said of it."""

    known: Known
    how: str
    assumptions: tuple[str, ...] = ()
    residual_ft: float | None = None
    crossing_deg: float | None = None
    leg: Leg | None = None


def tied_result(reaches: Sequence[Reach], at: str, side: str | None) -> Fix | Trouble:
    """Find a place from its ties; ``at`` is its path in the job file."""
    if any(one.feet <= 0 for one in reaches):
        return _on_a_point(reaches, at)
    if len(reaches) == 1:
        return Trouble(
            f"{at}.ties",
            "One tie alone does not find a place.",
            "Add a tie from a second point, and the side.",
        )
    if len(reaches) == 2:
        return _from_two(reaches[0], reaches[1], at, side)
    return _from_many(reaches, at, side)


def _named(reaches: Sequence[Reach]) -> str:
    names = [one.typed for one in reaches]
    return f"{', '.join(names[:-1])} and {names[-1]}" if names[1:] else names[0]


def _how(reaches: Sequence[Reach], side: str | None) -> str:
    told = f"{'ties' if reaches[1:] else 'tie'} {_named(reaches)}"
    if side is None or not reaches[1:]:
        return told
    line = f"the line from {reaches[0].name} toward {reaches[1].name}"
    return f"{told}, on the {side} of {line}"


def _on_a_point(reaches: Sequence[Reach], at: str) -> Fix | Trouble:
    tie = next(one for one in reaches if one.feet <= 0)
    place = tie.point.at
    shifts = Shifts(tie.point.shifts)
    shifts.take(f"{tie.key} x", tie.u_ft + 0j)
    shifts.take(f"{tie.key} y", LEFT * tie.u_ft)
    others = [one for one in reaches if one is not tie]
    if others:
        worst = max(others, key=lambda one: _off(one, place, tie.u_ft))
        most = WORST_TIE if others[1:] else COVERAGE_FACTOR
        if _off(worst, place, tie.u_ft) > most:
            if not others[1:]:
                return _cannot_meet(reaches[0], reaches[1], at)
            return _worst(worst, place, at, f"{tie.typed}")
    residual = max((abs(one.residual(place)) for one in others), default=0.0)
    return Fix(
        Known(place, shifts),
        f"at {tie.name} itself ({_how(reaches, None)})",
        residual_ft=residual if len(reaches) > 2 else None,
    )


def _off(one: Reach, place: complex, more_u_ft: float = 0.0) -> float:
    """Give how far a tie is off, in standard uncertainties; 0 for no distance. [-]"""
    off = abs(one.residual(place))
    if off <= NOTHING_FT:
        return 0.0
    spread = hypot(one.spread(place), more_u_ft)
    return off / spread if spread > 0 else float("inf")


def _worst(one: Reach, place: complex, at: str, by: str = "the best fit") -> Trouble:
    index = one.key.rpartition("[")[2].rstrip("]")
    off, reach = one.residual(place), abs(place - one.point.at)
    return Trouble(
        f"{at}.ties[{index}]",
        f"These ties do not fit together: {one.typed} fits worst, being "
        f"{written(abs(off), 2)} ft too {'long' if off < 0 else 'short'} "
        f"({by} puts the place {written(reach, 2)} ft from {one.name}).",
        MEASURE_WORST,
    )


def _worst_of_many(reaches: Sequence[Reach], best: complex, at: str) -> Trouble:
    """Name the tie without which the rest fit best; of three, the one farthest off."""
    if len(reaches) < ENOUGH_TO_SPARE:
        return _worst(max(reaches, key=lambda one: _off(one, best)), best, at)
    spared = []
    for one in reaches:
        rest = [other for other in reaches if other is not one]
        for place in _minima(rest)[:1]:
            spared.append((misfit(rest, place), one, place))
    _, one, place = min(spared, key=lambda found: found[0])
    return _worst(one, place, at, "the best fit of the others")


def _from_two(one: Reach, other: Reach, at: str, side: str | None) -> Fix | Trouble:
    pair = (one, other)
    base = abs(other.point.at - one.point.at)
    if base <= NOTHING_FT:
        return _same_place(pair, at)
    gap = max(base - one.feet - other.feet, abs(one.feet - other.feet) - base)
    u_gap = hypot(one.u_ft, other.u_ft, *one.point.stretch(other.point).values())
    if gap > COVERAGE_FACTOR * u_gap + NOTHING_FT:
        return _cannot_meet(one, other, at)
    if gap < -NOTHING_FT and side not in SIDES:
        return Trouble(
            f"{at}.ties",
            f"These two ties meet twice, on either side of the line from {one.name} "
            f"toward {other.name}.",
            ADD_SIDE.format(first=one.name, second=other.name),
        )
    share = _share(one, other)
    along, out = crossing(base, one.feet, other.feet, share)
    out *= SIDES.get(side or "", 1.0)
    place = one.point.carried(other.point, along, out).at
    on_line = gap > NOTHING_FT
    said = ON_LINE.format(first=one.name, second=other.name, gap=written(gap, 2))
    return Fix(
        shifted(pair, place, at),
        _how(pair, None if on_line else side),
        (said,) if on_line else (),
        crossing_deg=crossing_deg(pair, place),
        leg=Leg(one.point, other.point, along, out),
    )


def _cannot_meet(one: Reach, other: Reach, at: str) -> Trouble:
    base = abs(other.point.at - one.point.at)
    return Trouble(
        f"{at}.ties",
        f"These two ties cannot meet: {one.typed} and {other.typed}, and "
        f"{one.name} and {other.name} are {written(base, 1)} ft apart.",
        MEASURE_AGAIN,
    )


def _share(one: Reach, other: Reach) -> float:
    both = one.u_ft**2 + other.u_ft**2
    return one.u_ft**2 / both if both > 0 else 0.5


def _same_place(reaches: Sequence[Reach], at: str) -> Trouble:
    names = " and ".join(one.name for one in reaches)
    return Trouble(
        f"{at}.ties",
        f"{names} stand at the same place, so ties from them leave a whole circle.",
        "Add a tie from a point that stands elsewhere.",
    )


def _from_many(reaches: Sequence[Reach], at: str, side: str | None) -> Fix | Trouble:
    found = _minima(reaches)
    if not found:
        return _same_place(reaches, at)
    fitting = [
        place
        for place in found
        if all(_off(one, place) <= WORST_TIE for one in reaches)
    ]
    if not fitting:
        return _worst_of_many(reaches, found[0], at)
    place = fitting[0]
    if side in SIDES:
        sided = [one for one in fitting if _is_on(one, reaches, str(side))]
        if not sided:
            return _wrong_side(reaches, at, str(side))
        place = sided[0]
    elif len(fitting) > 1:
        return _open(reaches, at)
    return Fix(
        shifted(reaches, place, at),
        _how(reaches, side),
        residual_ft=max(abs(one.residual(place)) for one in reaches),
        crossing_deg=crossing_deg(reaches, place),
    )


def _minima(reaches: Sequence[Reach]) -> list[complex]:
    """List the places that fit best nearby, the best of all first. [ft]"""
    ends = [descend(reaches, start) for start in starts(reaches)]
    apart = COVERAGE_FACTOR * max((one.u_ft for one in reaches), default=0.0)
    found: list[complex] = []
    for place in sorted(ends, key=lambda end: misfit(reaches, end)):
        if all(abs(place - one) > max(apart, APART_FT) for one in found):
            found.append(place)
    return found


def _is_on(place: complex, reaches: Sequence[Reach], side: str) -> bool:
    base = reaches[1].point.at - reaches[0].point.at
    out = dot(place - reaches[0].point.at, LEFT * base) * SIDES[side]
    return out >= -max(one.u_ft for one in reaches) * abs(base)


def _wrong_side(reaches: Sequence[Reach], at: str, side: str) -> Trouble:
    one, other = reaches[:2]
    return Trouble(
        f"{at}.side",
        f"The ties do not put it on the {side} of the line from {one.name} toward "
        f"{other.name}.",
        "Check the side, and which corner each tie was taken from.",
    )


def _open(reaches: Sequence[Reach], at: str) -> Trouble:
    one, other = reaches[:2]
    return Trouble(
        f"{at}.ties",
        "These ties leave the side open: they fit nearly as well on the other side of "
        f"the points {', '.join(reach.name for reach in reaches)}.",
        ADD_SIDE.format(first=one.name, second=other.name),
    )
