"""Conditions of a row of a code, and what a job file answers to them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import product

from generator.record.node import Node

WORDS = {  # what a condition asks, said so that a person can look for it
    "lies": "whether it lies uphill or downhill",
    "flows": "whether it holds water all year",
    "piped": "whether it runs in a pipe",
    "lined": "whether its bed is lined",
    "watertight": "whether the part is watertight",
    "casing_ft": "how deep the well is cased",
    "slope_percent": "how steep the ground is",
    "flow_gpd": "the design flow of the house",
}
# What a question can be answered with. "beside" counts where a code speaks of it; one
# that speaks of uphill and downhill alone is taken to part all ground in two.
CHOICES = {
    "lies": ("uphill", "downhill"),
    "flows": ("all year", "seasonal"),
    "piped": ("yes", "no"),
    "lined": ("yes", "no"),
    "watertight": ("yes", "no"),
}
HALF_STEP = 0.5  # bounds are whole numbers; half a step lies between any two of them


@dataclass(frozen=True)
class Answers:
    """What a job file says of one part and one feature; None where it is silent.

    Lengths of casing in feet, slope in percent, design flow in gallons a day. Where
    the flow is not known, ``most_gpd`` is what it certainly does not exceed.
    """

    lies: str | None = None
    flows: str | None = None
    piped: str | None = None
    lined: str | None = None
    watertight: str | None = None
    casing_ft: float | None = None
    slope_percent: float | None = None
    flow_gpd: float | None = None
    most_gpd: float | None = None


SILENT = Answers()


@dataclass(frozen=True, kw_only=True)
class When(Node):
    """Conditions that must all hold. [ft], [%], [gal/day]"""

    lies: str | None = None
    flows: str | None = None
    piped: str | None = None
    lined: str | None = None
    watertight: str | None = None
    casing_from: int | None = None
    casing_below: int | None = None
    slope_at_most: int | None = None
    slope_over: int | None = None
    flow_from: int | None = None
    flow_below: int | None = None
    flow_at_most: int | None = None
    flow_over: int | None = None

    def holds(self, answers: Answers) -> bool | None:
        """Say whether all conditions hold; None where an answer is missing."""
        found = [held for _, held in self._each(answers)]
        if False in found:
            return False
        return None if None in found else True

    def unanswered(self, answers: Answers) -> list[str]:
        """List in words what has to be known before this row can be said to hold."""
        return list(
            dict.fromkeys(
                WORDS[name] for name, held in self._each(answers) if held is None
            )
        )

    def _each(self, answers: Answers) -> Iterator[tuple[str, bool | None]]:
        for name in ("lies", "flows", "piped", "lined", "watertight"):
            wanted, found = getattr(self, name), getattr(answers, name)
            if wanted is not None:
                yield name, None if found is None else found == wanted
        for key, name, _ in _BOUNDS:
            bound, number = getattr(self, key), getattr(answers, name)
            if bound is not None:
                yield name, _held(key, number, answers.most_gpd, bound)


def worlds(conditions: Iterable[When], unanswered: Iterable[str]) -> Iterator[Answers]:
    """List every way in which the open questions of some conditions can come out.

    ``unanswered`` holds questions in words, as ``When.unanswered`` gives them.
    """
    asked, wanted = list(conditions), set(unanswered)
    names = [name for name, words in WORDS.items() if words in wanted]
    for values in product(*(_values(name, asked) for name in names)):
        yield Answers(**dict(zip(names, values, strict=True)))  # type: ignore[arg-type]  # each under its own name


def _values(name: str, conditions: list[When]) -> list[str | float]:
    if name in CHOICES:
        named = [getattr(one, name) for one in conditions]
        return list(dict.fromkeys([*CHOICES[name], *filter(None, named)]))
    keys = [key for key, asked, _ in _BOUNDS if asked == name]
    bounds = {getattr(one, key) for one in conditions for key in keys} - {None}
    steps = (-HALF_STEP, 0.0, HALF_STEP)
    return sorted({bound + step for bound in bounds for step in steps})


def _held(
    key: str, number: float | None, most_gpd: float | None, bound: int
) -> bool | None:
    """Hold a number against one bound; a flow that is not known, by its most."""
    _, name, fits = next(row for row in _BOUNDS if row[0] == key)
    if number is not None:
        return fits(number, bound)
    if name != "flow_gpd" or most_gpd is None:
        return None
    if key in _UPPER:
        return True if fits(most_gpd, bound) else None
    return None if fits(most_gpd, bound) else False


def _at_least(number: float, bound: int) -> bool:
    return number >= bound


def _below(number: float, bound: int) -> bool:
    return number < bound


def _at_most(number: float, bound: int) -> bool:
    return number <= bound


def _over(number: float, bound: int) -> bool:
    return number > bound


_BOUNDS = (
    ("casing_from", "casing_ft", _at_least),
    ("casing_below", "casing_ft", _below),
    ("slope_at_most", "slope_percent", _at_most),
    ("slope_over", "slope_percent", _over),
    ("flow_from", "flow_gpd", _at_least),
    ("flow_below", "flow_gpd", _below),
    ("flow_at_most", "flow_gpd", _at_most),
    ("flow_over", "flow_gpd", _over),
)
_UPPER = ("flow_below", "flow_at_most")
