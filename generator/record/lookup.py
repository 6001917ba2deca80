"""The field guide asked by name or by a word of the trade."""

from __future__ import annotations

import difflib
import re
import textwrap
from collections.abc import Collection, Iterable, Iterator

from generator.record.also_called import ALSO_CALLED
from generator.record.keys import Key, all_keys, below, kind_words
from generator.record.kinds import FOR_ALL, KIND, Kind
from generator.record.wordings import NEAR_ENOUGH

NARROW = 60  # columns; our choice, a telephone held upright shows about as many
MOST_NEAR = 3  # names offered for one that is not known; our choice
MOST_FOUND = 8  # keys shown for a word; our choice, they fill a telephone once
MANY = 3  # keys that list one value and are still told in full; our choice
LITTLE_WORDS = ("a", "an", "and", "at", "by", "in", "is", "it", "of", "or", "the", "to")

# How much it says that a word stands in a part of a key's entry; our choice.
WEIGHTS = {"name": 8, "title": 6, "values": 5, "description": 3, "line": 1, "path": 2}
ALSO = 6  # the trade calls a key or one of its values so; our choice
BEGINS = 0.5  # share for a word that only begins with the one typed
OF_A_GROUP = 2  # a section or group tells of all keys below it
LEAST_SHARE = 0.15  # of the best; what matches less is left out
SHORTEST_BEGINNING = 3  # letters


def listing() -> str:
    """List every section with its keys, one line a key; a star marks required ones."""
    return "\n".join(_line(key, key.path.count(".")) for key in all_keys())


def told(name: str) -> str:
    """Tell all that goes by a name; for any other word, the keys that speak of it.

    Parameters
    ----------
    name : str
        A section, a key, a path, a kind of amount, a value of a list, or words.

    Returns
    -------
    str
        One entry for each place where it stands; else the few keys that match best,
        one paragraph each; empty where nothing matches.

    Examples
    --------
    >>> told("tanks.sludge").splitlines()[0]
    'tanks[].sludge: Sludge'
    """
    wanted = _bare(name)
    kinds = [kind for kind in KIND.values() if wanted in _names(kind)]
    keys = [key for key in all_keys() if _bare(key.path) == wanted]
    keys = keys or [key for key in all_keys() if key.name.casefold() == wanted]
    held = [key for key in all_keys() if wanted in _values(key)]
    held = [key for key in held if key not in keys]
    parts = [*map(_kind, kinds), *map(_key, keys)]
    if len(held) > MANY:
        parts += [
            f"{wanted}, a value of:\n" + "\n".join(f"  {key.path}" for key in held)
        ]
    else:
        parts += map(_key, held)
    if parts and (more := [key for key in all_keys() if key.name == f"{wanted}s"]):
        parts += ["\n".join(("See as well:", *(_brief([key]) for key in more)))]
    meant = "" if parts else next(iter(_also(wanted)), "")
    return "\n\n".join(parts) or "\n".join(found(wanted)) or (meant and told(meant))


def found(words: str) -> list[str]:
    """List the keys that speak of some words, best first, one paragraph each.

    Examples
    --------
    >>> found("camera head")[0].splitlines()[0]
    'pipe_runs[].head: Camera head. Diameter of the camera head;'
    """
    typed = [word for word in _words(words) if word not in LITTLE_WORDS]
    typed = typed or _words(words)
    meant = _meant(words)
    marks = [(_marks(key, typed, meant), key) for key in all_keys()]
    most = max(sum(map(bool, each)) for each, _ in marks)
    ranks = [
        (sum(each) * (OF_A_GROUP if key.holds_keys else 1), key)
        for each, key in marks
        if sum(map(bool, each)) == most > 0
    ]
    ranks.sort(key=lambda rank: -rank[0])
    told_of = [key for rank, key in ranks if rank >= LEAST_SHARE * ranks[0][0]]
    return [_brief(alike, typed, meant) for alike in _alike(told_of)[:MOST_FOUND]]


def near(name: str) -> list[str]:
    """Name what is spelled most like a name that is not known, nearest first."""
    known = {word for key in all_keys() for word in (key.name, *key.listed)}
    known |= {word for kind in KIND.values() for word in _names(kind)}
    known |= {re.sub(r"\[\]", "", key.path) for key in all_keys()}
    words = sorted(map(str, known))
    return difflib.get_close_matches(_bare(name), words, MOST_NEAR, NEAR_ENOUGH)


def _bare(path: str) -> str:
    return re.sub(r"\[\d*\]", "", " ".join(path.split())).casefold()


def _words(text: str) -> list[str]:
    """Take a text apart into its words, each without the sign of many."""
    return [_one_of(word) for word in re.findall(r"[^\W_]+", text.casefold())]


def _one_of(word: str) -> str:
    if word.endswith(("xes", "ches", "shes")):
        return word[:-2]
    many = len(word) > SHORTEST_BEGINNING and word.endswith("s")
    return word[:-1] if many and not word.endswith("ss") else word


def _meant(words: str) -> Collection[str]:
    """List what the trade's words stand for, but for values that many keys list."""
    return [
        one
        for one in _also(words)
        if sum(one in _values(key) for key in all_keys()) <= MANY
    ]


def _also(words: str) -> tuple[str, ...]:
    plain = re.sub(r"[\s_-]+", " ", words).strip().casefold()
    return ALSO_CALLED.get(plain, ())


def _marks(key: Key, typed: Iterable[str], meant: Collection[str]) -> list[float]:
    """Say how well each word fits a key."""
    also = key.name in meant or not _values(key).isdisjoint(meant)
    parts = _parts(key)
    return [
        ALSO * also + sum(WEIGHTS[at] * _fit(word, part) for at, part in parts.items())
        for word in typed
    ]


def _parts(key: Key) -> dict[str, list[str]]:
    """List the words of each part of a key's entry."""
    texts = {
        "name": key.name,
        "title": key.node["title"],
        "values": " ".join(map(str, key.listed)),
        "description": key.node["description"],
        "line": " ".join(key.one_line()),
        "path": key.path.removesuffix(key.name),
    }
    return {at: _words(text) for at, text in texts.items()}


def _fit(word: str, part: list[str]) -> float:
    if word in part:
        return 1
    begun = len(word) >= SHORTEST_BEGINNING and any(
        one.startswith(word) for one in part
    )
    return BEGINS * begun


def _alike(keys: Iterable[Key]) -> list[list[Key]]:
    """Put keys together that are explained in the same words."""
    groups: dict[str, list[Key]] = {}
    for key in keys:
        told_alike = f"{key.node['title']}. {key.node['description']}"
        groups.setdefault(told_alike, []).append(key)
    return list(groups.values())


def _brief(
    alike: list[Key], typed: Iterable[str] = (), meant: Collection[str] = ()
) -> str:
    first, paths = alike[0], ", ".join(key.path for key in alike)
    text = f"{paths}: {first.node['title']}. {first.node['description']}"
    words = [
        str(one)
        for one in first.listed
        if one in meant or any(_fit(word, _words(str(one))) for word in typed)
    ]
    if words:
        more = f" and {len(words) - MANY} more" if len(words) > MANY else ""
        text += f" Among its values: {', '.join(words[:MANY])}{more}."
    return textwrap.fill(text, NARROW, subsequent_indent="  ")


def _values(key: Key) -> set[str]:
    return {str(value).casefold() for value in key.listed}


def _names(kind: Kind) -> set[str]:
    return {kind.name, kind.title.casefold()}


def _line(key: Key, depth: int) -> str:
    head = f"{'  ' * depth}{key.name}{'*' * key.required}: "
    tail = f" ({key.short_kind})"
    title, room = str(key.node["title"]), NARROW - len(head) - len(tail)
    if len(title) > room:
        title = title[: max(room - 1, 0)].rstrip() + "…"
    return head + title + tail


def _key(key: Key) -> str:
    wanted = " (required)" if key.required else ""
    lines = [f"{key.path}: {key.node['title']}{wanted}"]
    lines += _wrapped(key.node["description"])
    if key.listed:
        lines += _wrapped(f"One of: {', '.join(map(str, key.listed))}.")
    elif key.format:
        kind = KIND[key.format]
        lines += _wrapped(f"{_sentence(kind_words(key))} Write it as {kind.examples}.")
    else:
        lines += _wrapped(_sentence(kind_words(key)))
    lines += ["  For example:", *(f"    {line}" for line in key.example())]
    if shown := key.one_line():
        ways = " or ".join(f'"{way}"' for way in key.patterns())
        lines += _wrapped(f"An entry on one line, {ways}:")
        lines += [f"    {key.name}:", *(f"    {line}" for line in shown)]
    if inner := below(key):
        lines += ["  Its keys:", *(_line(one, 2) for one in inner)]
    return "\n".join(lines)


def _kind(kind: Kind) -> str:
    lines = [f"{kind.title}: a kind of amount", *_wrapped(kind.how)]
    lines += _wrapped(f"Write it as {kind.examples}. Read as well:")
    lines += [f"    {one}" for one in kind.read]
    lines += ["  Refused:", *_refused(kind)]
    if kind.units:
        lines += ["  Units, each with every spelling that is read:"]
        lines += [line for one in kind.spellings() for line in _wrapped(one, 4)]
    lines += _wrapped(FOR_ALL)
    return "\n".join(lines)


def _refused(kind: Kind) -> Iterator[str]:
    for one in kind.refused:
        yield from _wrapped(f"{one}: {kind.why_refused(one)}", 4)


def _sentence(words: str) -> str:
    return words[0].upper() + words[1:] + "."


def _wrapped(text: str, indent: int = 2) -> list[str]:
    pad = " " * indent
    return textwrap.wrap(text, NARROW, initial_indent=pad, subsequent_indent=pad)
