"""The field guide asked by name: a section, a key, a kind of amount or a value."""

from __future__ import annotations

import difflib
import re
import textwrap
from collections.abc import Iterator

from generator.record.keys import Key, all_keys, below, kind_words
from generator.record.kinds import FOR_ALL, KIND, Kind
from generator.record.wordings import NEAR_ENOUGH

NARROW = 60  # columns; our choice, a telephone held upright shows about as many
MOST_NEAR = 3  # names offered for one that is not known; our choice


def listing() -> str:
    """List every section with its keys, one line a key; a star marks required ones."""
    return "\n".join(_line(key, key.path.count(".")) for key in all_keys())


def told(name: str) -> str:
    """Tell all that goes by a name.

    Parameters
    ----------
    name : str
        A section, a key, a path, a kind of amount, or a value of a list, as typed.

    Returns
    -------
    str
        One entry for each place where it stands; empty where nothing has this name.

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
    parts = [*map(_kind, kinds), *map(_key, keys)]
    parts += [_key(key) for key in held if key not in keys]
    return "\n\n".join(parts)


def near(name: str) -> list[str]:
    """Name what is spelled most like a name that is not known, nearest first."""
    known = {word for key in all_keys() for word in (key.name, *key.listed)}
    known |= {word for kind in KIND.values() for word in _names(kind)}
    known |= {re.sub(r"\[\]", "", key.path) for key in all_keys()}
    words = sorted(map(str, known))
    return difflib.get_close_matches(_bare(name), words, MOST_NEAR, NEAR_ENOUGH)


def _bare(path: str) -> str:
    return re.sub(r"\[\d*\]", "", " ".join(path.split())).casefold()


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
