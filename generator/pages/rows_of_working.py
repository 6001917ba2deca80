"""How the numbers were worked out: each assumption and each source said once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, groupby
from operator import itemgetter
from typing import Any, NamedTuple

from generator.pages.rows import SUBJECTS
from generator.pages.series import Series, grouped, pattern
from generator.pages.wording import number, sentence
from generator.record.model import Record
from generator.results.result import Result, Results, Symbol

MANY = 3  # entries that a letter of the formulas is explained once for; our choice
ONES = ("", "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix")


class Figure(NamedTuple):
    """One number of an entry: the result, and what it is called there.

    ``put_in`` and ``lines`` are its own in a series, and stay empty elsewhere.
    """

    label: str
    result: Result
    put_in: tuple[str, ...] = ()
    lines: tuple[int, ...] = ()


class How(NamedTuple):
    """Formulas that the same numbers were put into, in words, with their source."""

    formulas: tuple[str, ...]
    put_in: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class Entry:
    """Numbers that came from the same lines and assumptions, under one heading.

    ``signs`` stand for what is taken for several entries of the subject; ``alone``
    is taken for this one only; ``lines`` are those of the job file.
    """

    label: str
    figures: tuple[Figure, ...]
    ways: tuple[How, ...]
    lines: tuple[int, ...]
    signs: tuple[str, ...] = ()
    alone: tuple[str, ...] = ()


@dataclass(frozen=True)
class Subject:
    """One subject with its entries, and what is said once at its head.

    ``throughout`` is taken for every entry, ``some`` where its sign stands;
    ``letters`` are those of many formulas, with their meanings.
    """

    key: str
    title: str
    throughout: tuple[str, ...]
    some: dict[str, str]
    letters: dict[str, str]
    entries: tuple[Entry, ...]

    @property
    def count(self) -> int:
        """How many numbers the subject has."""
        return sum(len(one.figures) for one in self.entries)


def told(record: Record, results: Results) -> dict[str, Any]:
    """Gather what the page tells, by the names that its template uses."""
    return {
        "subjects": subjects(record, results),
        "source_numbers": numbered(results),
    }


def subjects(record: Record, results: Results) -> list[Subject]:
    """Gather every result under its subject, in the order of the site."""
    found = ((key, title, results.under(f"{key}.")) for key, title in SUBJECTS.items())
    return [_subject(key, title, all_, record) for key, title, all_ in found if all_]


def numbered(results: Results) -> dict[str, int]:
    """Number the sources of the results as they come, from 1."""
    keys = (
        one.source for key in SUBJECTS for one in results.under(f"{key}.") if one.source
    )
    return {key: at for at, key in enumerate(dict.fromkeys(keys), 1)}


def _subject(key: str, title: str, found: Sequence[Result], record: Record) -> Subject:
    groups = grouped(found)
    taken = Counter(text for group in groups for text in group[0].assumptions)
    several = [text for text, count in taken.items() if count > 1]
    throughout = tuple(text for text in several if taken[text] == len(groups))
    rest = [text for text in several if text not in throughout]
    signs = dict(zip(rest, _signs(), strict=False))
    head = _Head(throughout, signs, _letters(groups))
    entries = tuple(_entry(group, record, head) for group in groups)
    some = {sign: text for text, sign in signs.items()}
    return Subject(key, title, throughout, some, head.letters, entries)


class _Head(NamedTuple):
    """What stands at the head of a subject, as its entries look it up."""

    throughout: Sequence[str]
    signs: dict[str, str]
    letters: dict[str, str]


def _entry(group: tuple[Result, ...], record: Record, head: _Head) -> Entry:
    taken, series = group[0].assumptions, pattern(group)
    label, figures, ways = (
        _row(series, group, record, head) if series else _of_one_thing(group, head)
    )
    return Entry(
        label,
        figures,
        ways,
        () if series else _lines(group[0], record),
        tuple(sign for text, sign in head.signs.items() if text in taken),
        tuple(t for t in taken if t not in head.throughout and t not in head.signs),
    )


_Told = tuple[str, tuple[Figure, ...], tuple[How, ...]]


def _of_one_thing(group: tuple[Result, ...], head: _Head) -> _Told:
    whole = group[0].label
    told = [sentence(one.label.partition(": ")[2]) for one in group]
    label = whole if len(group) == 1 else whole.partition(": ")[0]
    return label, tuple(map(Figure, told, group)), tuple(_ways(group, head.letters))


def _row(
    series: Series, group: tuple[Result, ...], record: Record, head: _Head
) -> _Told:
    first = group[0]
    how = How((first.formula,), _meanings(first, head), first.source)
    return series.label, tuple(_items(series, group, record)), (how,)


def _items(series: Series, group: Sequence[Result], record: Record) -> Iterator[Figure]:
    for label, one in zip(series.parts, group, strict=True):
        put_in = tuple(_value(symbol) for symbol in one.symbols)
        yield Figure(label, one, put_in, _lines(one, record))


def _meanings(found: Result, head: _Head) -> tuple[str, ...]:
    return tuple(
        f"{one.name} = {one.meaning}"
        for one in found.symbols
        if one.name not in head.letters
    )


def _lines(found: Result, record: Record) -> tuple[int, ...]:
    return tuple(sorted({record.line(path) for path in found.inputs}))


def _ways(group: Sequence[Result], letters: Mapping[str, str]) -> Iterator[How]:
    told = [(_put_in(one, letters), one.source, one.formula) for one in group]
    for (put_in, source), found in groupby(told, itemgetter(0, 1)):
        formulas = dict.fromkeys(formula for *_, formula in found)
        yield How(tuple(formulas), put_in, source)


def _put_in(found: Result, letters: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(
        _value(one) + ("" if one.name in letters else f" ({one.meaning})")
        for one in found.symbols
    )


def _value(symbol: Symbol) -> str:
    return f"{symbol.name} = {number(symbol.number, symbol.unit)}"


def _letters(groups: Sequence[tuple[Result, ...]]) -> dict[str, str]:
    """Give the letters of many entries that mean one thing in all of the subject."""
    met: Counter[tuple[str, str]] = Counter()
    for group in groups:
        every = ((s.name, s.meaning) for one in group for s in one.symbols)
        met.update(list(dict.fromkeys(every)))  # each once, in order
    meanings = Counter(name for name, _ in met)
    return {
        name: meaning
        for (name, meaning), entries in met.items()
        if entries >= MANY and meanings[name] == 1
    }


def _signs() -> Iterator[str]:
    """Give i, ii, iii and so on: neither the letters of formulas nor other numbers."""
    for at in count(1):
        tens, ones = divmod(at, len(ONES))
        yield "x" * tens + ONES[ones]
