"""Results that stand under one heading: figures of one thing, or readings in a row."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence
from itertools import takewhile
from typing import NamedTuple

from generator.results.result import Result

LEAST = 3  # readings that make a series; our choice
NUMBERED = re.compile(r"(?<=\.)\d+(?=\.|$)")  # a part of a name that only counts
TOKEN = re.compile(r"\d\S* (?:[ap]m|ft|in)\b,?|\S+")  # a number stays with its unit


class Series(NamedTuple):
    """What the labels of a series have in common, and the part of each that differs."""

    label: str
    parts: tuple[str, ...]


def grouped(found: Sequence[Result]) -> list[tuple[Result, ...]]:
    """Put the results of one subject together that stand under one heading.

    Parameters
    ----------
    found : sequence of Result
        The results of the subject, in the order of the site.

    Returns
    -------
    list of tuple of Result
        Numbers of one name from the same lines and assumptions, readings of one
        kind that are counted in their names, and every other result by itself.
    """
    series: dict[tuple[object, ...], list[Result]] = defaultdict(list)
    for one in found:
        series[_kind(one)].append(one)
    kinds = {kind for kind, all_ in series.items() if pattern(all_)}
    groups: dict[tuple[object, ...], list[Result]] = defaultdict(list)
    for one in found:
        kind = _kind(one)
        groups[kind if kind in kinds else _together(one)].append(one)
    return [tuple(group) for group in groups.values()]


def pattern(group: Sequence[Result]) -> Series | None:
    """Tell how the labels of readings in a row differ; None where it is no series."""
    if len(group) < LEAST or len({_kind(one) for one in group}) > 1:
        return None
    labels = [TOKEN.findall(one.label) for one in group]
    begin = _common(labels)
    end = _common([label[begin:][::-1] for label in labels])
    parts = [" ".join(label[begin : len(label) - end]) for label in labels]
    if not begin or not all(parts):
        return None
    comma = "," if all(part.endswith(",") for part in parts) else ""
    whole = [*labels[0][:begin], f"…{comma}", *labels[0][len(labels[0]) - end :]]
    return Series(" ".join(whole), tuple(part.rstrip(",") for part in parts))


def _common(labels: Sequence[Sequence[str]]) -> int:
    """Count the words that all labels begin with."""
    same = takewhile(lambda words: len(set(words)) == 1, zip(*labels, strict=False))
    return sum(1 for _ in same)


def _kind(one: Result) -> tuple[object, ...]:
    """Give what readings in a row have in common; a name that counts none is alone."""
    letters = tuple((symbol.name, symbol.meaning) for symbol in one.symbols)
    name = NUMBERED.sub("#", one.name)
    return (name, one.formula, letters, one.source, one.assumptions)


def _together(one: Result) -> tuple[object, ...]:
    """Give what numbers of one thing have in common."""
    head, _, tail = one.label.partition(": ")
    if not tail:
        return (one.name,)
    return (one.name.rpartition(".")[0], head, one.inputs, one.assumptions)
