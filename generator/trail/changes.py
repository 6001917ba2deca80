"""What differs between two versions of a job file, one sentence each."""

from __future__ import annotations

from collections import Counter, defaultdict, deque
from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Any, Final

from generator.record.check import schema
from generator.record.keys import SCHEMA
from generator.trail.change_words import (
    LONGEST_CONTENT,
    LONGEST_TEXT,
    Entry,
    called,
    cut,
    entry_of,
    is_full,
    is_text,
    start_of_difference,
    title,
    typed,
    whole_entry,
    within,
)

LONGEST_UNQUOTED = 2 * LONGEST_CONTENT  # an entry and what it holds; our choice
SPACES = "spaces or line breaks only"
OTHERWISE = "written in another way"
MOST_COMPARED = 300  # entries held against each other one by one; our choice
ALIKE = 0.6  # share of equal keys from which an entry is the same, renamed; our choice
ADDED, TAKEN_OUT = "added", "took out"
_ABSENT: Final = object()


@dataclass(frozen=True)
class Change:
    """One difference between two versions of a job file.

    ``path`` leads to it in the later version, or in the earlier one where it was taken
    out. ``before`` and ``after`` are as typed, on one line; ``before`` is empty where
    it was added, ``after`` where it was taken out, both where only the order changed.
    ``texts`` says which of the two are in the inspector's own words and stand in
    quotes in the sentence, ``whole`` that it is an entry or a group, not one value.
    """

    path: str
    what: str
    before: str
    after: str
    texts: tuple[bool, bool] = (False, False)
    whole: bool = False

    def __str__(self) -> str:
        """Say it in one sentence fragment."""
        if not self.before and not self.after:
            return f"{self.what} changed"
        start = 0
        if max(len(self.before), len(self.after)) > LONGEST_TEXT:
            start = start_of_difference(self.before, self.after)
        old = _shown(self.before, self.texts[0], start)
        new = _shown(self.after, self.texts[1], start)
        if old and new:
            return f"{self.what}: {old} → {new}"
        verb = ADDED if new else TAKEN_OUT
        lead = f"{verb} {self.what}:" if self.whole else f"{self.what}: {verb}"
        return f"{lead} {old or new}"


def changes(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Change, ...]:
    """Tell how one version of a job file became another.

    Parameters
    ----------
    before, after : mapping
        The data of both versions, entries on one line written out in full.

    Returns
    -------
    tuple of Change
        In the order of the sections in the schema, then of the later version; none
        where both hold the same.
    """
    order = {name: n for n, name in enumerate(schema(SCHEMA)["properties"])}
    names = sorted(_merged(before, after), key=lambda name: order.get(name, len(order)))
    told: list[Change] = []
    for name in names:
        old, new = before.get(name, _ABSENT), after.get(name, _ABSENT)
        told += _value(old, new, _Spot((str(name), str(name)), str(name)))
    return tuple(told)


@dataclass(frozen=True)
class _Spot:
    """A place: its path in both versions, without numbers, and what is around it."""

    paths: tuple[str, str]
    known: str
    around: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        return title(self.known)

    def key(self, key: Any, around: tuple[str, ...]) -> _Spot:
        paths = f"{self.paths[0]}.{key}", f"{self.paths[1]}.{key}"
        return _Spot(paths, f"{within(self.known)}.{key}", around)

    def what(self, name: str) -> str:
        """Say what it is and where, each thing once."""
        return ", ".join(dict.fromkeys((name, *self.around)))


def _value(before: Any, after: Any, spot: _Spot) -> Iterator[Change]:
    if before is not _ABSENT and after is not _ABSENT and before == after:
        return
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        around = (spot.title, *spot.around)
        for key in _merged(before, after):
            old, new = before.get(key, _ABSENT), after.get(key, _ABSENT)
            yield from _value(old, new, spot.key(key, around))
    elif _is_list(before) and _is_list(after) and (is_full(before) or is_full(after)):
        old, new = (one if isinstance(one, list) else [] for one in (before, after))
        yield from _list(old, new, spot)
    else:
        yield _changed(before, after, spot)


def _is_list(value: Any) -> bool:
    return isinstance(value, list) or value is None or value is _ABSENT


def _changed(before: Any, after: Any, spot: _Spot) -> Change:
    """Tell of one value that was added, taken out or changed."""
    old = "" if before is _ABSENT else typed(before, spot.known)
    new = "" if after is _ABSENT else typed(after, spot.known)
    what = spot.what(spot.title)
    texts = is_text(spot.known, before), is_text(spot.known, after)
    if old == new:  # the number 3 and the text "3", or a line break for a space
        apart = isinstance(before, str), isinstance(after, str)
        texts = texts if apart[0] == apart[1] else apart
        what += f" ({SPACES if all(apart) else OTHERWISE})"
    whole = isinstance(after if before is _ABSENT else before, Mapping)
    return Change(spot.paths[after is not _ABSENT], what, old, new, texts, whole)


def _list(before: list[Any], after: list[Any], spot: _Spot) -> Iterator[Change]:
    """Tell of a list, its entries held against each other by what identifies them."""
    entry = entry_of(spot.known)
    pairs = _paired(before, after, entry.keys)
    kept = sorted((j, i) for i, j in pairs if i is not None and j is not None)
    if [i for _, i in kept] != sorted(i for _, i in kept):
        order = " in ".join((f"order of {spot.title}", *spot.around))
        yield Change(spot.paths[1], order, "", "")
    names = _names(entry, before), _names(entry, after)
    for i, j in pairs:
        at = replace(spot, paths=(f"{spot.paths[0]}[{i}]", f"{spot.paths[1]}[{j}]"))
        if i is not None and j is not None:
            same = before[i], after[j]
            yield from _entry(same, (names[0][i], names[1][j]), at, entry)
            continue
        old = "" if i is None else whole_entry(before[i], spot.known)
        new = "" if j is None else whole_entry(after[j], spot.known)
        path = at.paths[j is not None]
        yield Change(path, spot.what(entry.noun), old, new, whole=True)


def _names(entry: Entry, found: list[Any]) -> list[str]:
    """Call every entry of a list, two that go by one name by their numbers too."""
    names = [called(entry, one, n) for n, one in enumerate(found, 1)]
    count = Counter(names)
    each = enumerate(names, 1)
    return [f"{name} (no. {n})" if count[name] > 1 else name for n, name in each]


def _entry(
    same: tuple[Any, Any], names: tuple[str, str], spot: _Spot, entry: Entry
) -> Iterator[Change]:
    """Tell what differs within one entry; a new name as told of the one it had."""
    before, after = same
    if not isinstance(before, Mapping) or not isinstance(after, Mapping):
        yield from _value(before, after, spot)
        return
    for key in _merged(before, after):
        old, new = before.get(key, _ABSENT), after.get(key, _ABSENT)
        name = names[1]
        if key in entry.keys and old != new:
            name = entry.noun if entry.keys == (key,) and key in before else names[0]
        child = spot.key(key, (name, *spot.around))
        if child.title == entry.noun:  # "distance, tank to private well"
            child = spot.key(key, (name.removeprefix(f"{entry.noun} "), *spot.around))
        yield from _value(old, new, child)


def _merged(before: Mapping[Any, Any], after: Mapping[Any, Any]) -> list[Any]:
    """List what either holds: as in the later one, the rest where it stood before."""
    gone: dict[Any, list[Any]] = defaultdict(list)
    last: Any = _ABSENT
    for one in before:
        if one in after:
            last = one
        else:
            gone[last].append(one)
    found = list(gone[_ABSENT])
    for one in after:
        found += [one, *gone[one]]
    return found


def _paired(
    before: list[Any], after: list[Any], keys: tuple[str, ...]
) -> list[tuple[int | None, int | None]]:
    """Pair the entries of two lists; None stands where an entry has no other."""
    pairs = _Pairs(before, after)
    if max(len(before), len(after)) <= MOST_COMPARED:
        pairs.in_order()
    pairs.by(_frozen)
    if keys:
        pairs.by(lambda one: _identity(one, keys))
    pairs.renamed(keys)
    back = {i: j for j, i in pairs.found.items()}
    later = {(pairs.found.get(j), j): None for j in range(len(after))}
    return _merged({(i, back.get(i)): None for i in range(len(before))}, later)


class _Pairs:
    """Which entry of the earlier list each entry of the later one is."""

    def __init__(self, before: list[Any], after: list[Any]) -> None:
        self.before, self.after = before, after
        self.found: dict[int, int] = {}

    def left(self) -> tuple[list[int], list[int]]:
        """List the entries of both that have no other yet."""
        old = set(range(len(self.before))) - set(self.found.values())
        return sorted(old), sorted(set(range(len(self.after))) - self.found.keys())

    def in_order(self) -> None:
        """Pair equal entries that stand in one order."""
        old, new = (list(map(_frozen, one)) for one in (self.before, self.after))
        for block in SequenceMatcher(None, old, new, False).get_matching_blocks():
            self.found |= {block.b + n: block.a + n for n in range(block.size)}

    def by(self, token: Callable[[Any], Hashable | None]) -> None:
        """Pair entries of one token, in order; None is no token."""
        old, new = self.left()
        waiting: dict[Hashable, deque[int]] = defaultdict(deque)
        for i in old:
            waiting[token(self.before[i])].append(i)
        for j in new:
            one = token(self.after[j])
            if one is not None and waiting[one]:
                self.found[j] = waiting[one].popleft()

    def renamed(self, keys: Sequence[str]) -> None:
        """Pair entries that hold nearly the same, where that keeps the order."""
        old, new = (left[:MOST_COMPARED] for left in self.left())
        for j in new:
            likeness = ((self._alike(i, j, keys), -i) for i in old)
            best, i = max(likeness, default=(0.0, 0))
            if best >= ALIKE and self._in_order(-i, j):
                self.found[j] = -i
                old.remove(-i)

    def _alike(self, i: int, j: int, keys: Sequence[str]) -> float:
        """Say what share of two groups is equal, their names aside."""
        old, new = self.before[i], self.after[j]
        if not isinstance(old, Mapping) or not isinstance(new, Mapping):
            return 0.0
        names = (old.keys() | new.keys()) - set(keys)
        if not names or (len(names) == 1 and i != j):  # one value may be so by chance
            return 0.0
        equal = [old.get(one, _ABSENT) == new.get(one, _ABSENT) for one in names]
        return float(sum(equal) / len(names))

    def _in_order(self, i: int, j: int) -> bool:
        return all((i < one) == (j < other) for other, one in self.found.items())


def _identity(one: Any, keys: Sequence[str]) -> Hashable | None:
    if not isinstance(one, Mapping) or any(one.get(key) is None for key in keys):
        return None
    return tuple(_frozen(one[key]) for key in keys)


def _frozen(value: Any) -> Hashable:
    """Make a value that can be looked up, the same for equal data."""
    if isinstance(value, Mapping):
        return frozenset((str(key), _frozen(one)) for key, one in value.items())
    if isinstance(value, list):
        return tuple(map(_frozen, value))
    return value if isinstance(value, str | int | None) else repr(value)


def _shown(text: str, quoted: bool, start: int) -> str:
    """Show a text within a sentence, in quotes where it is the inspector's own."""
    said = cut(text, LONGEST_TEXT if quoted or start else LONGEST_UNQUOTED, start)
    return f'"{said}"' if quoted else said
