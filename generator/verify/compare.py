"""Two folders of one report held against each other, byte by byte, told in words."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from itertools import islice, zip_longest
from pathlib import Path
from typing import Any

from generator.trail.change_words import (
    LONGEST_TEXT,
    NOTHING,
    cut,
    one_line,
    start_of_difference,
)
from generator.verify.copy import shown
from generator.verify.pages import first_difference
from generator.website.evidence import BLANK, PRINTED_IN, RECORD, digest_of
from generator.website.shared import SHARED

MOST_KEYS = 8  # of one file that are told, the rest are counted; our choice
LONGEST_COMPARED = 5_000_000  # bytes of a page held against another; our choice
PICTURES = {".jpg", ".jpeg", ".png", ".svg", ".ico"}
MISSING = "{} is missing, and the rebuild has it."
NOT_MADE = "{} is not in the rebuild."
BYTES = "{}: the bytes of this {} differ."
ONLY_PRINTED = (
    "{} differ in nothing but the digest of record.json, which they print: {} here, {} "
    "when rebuilt."
)
ONLY_PRINTED_ONE = ONLY_PRINTED.replace("differ", "differs").replace("they", "it")
OTHERWISE = "it says the same, written in another way"
_DIGEST = re.compile(r"[0-9a-f]{64}")
_ABSENT = object()


def unlike(here: Path, rebuilt: Path) -> list[str]:
    """Hold a published report against what was made again.

    Parameters
    ----------
    here, rebuilt : pathlib.Path
        The two folders of the report.

    Returns
    -------
    list of str
        One sentence for each difference; none where every byte is the same.
    """
    ours, theirs = _files(rebuilt), _files(here)
    told: list[str] = []
    printing: list[str] = []
    printed = _digest(theirs.get(RECORD)), _digest(ours.get(RECORD))
    for name in sorted({*ours, *theirs}):
        if name not in theirs:
            told.append(MISSING.format(shown(name)))
        elif name not in ours:
            told.append(NOT_MADE.format(shown(name)))
        else:
            whole = theirs[name].read_bytes(), ours[name].read_bytes()
            if whole[0] == whole[1]:
                continue
            left = _without_digest(whole, name, printed)
            if left[0] != left[1]:
                told += _words(name, left)
            else:
                printing.append(name)
    if printing:
        words = ONLY_PRINTED if len(printing) > 1 else ONLY_PRINTED_ONE
        told.append(words.format(_listed(printing), *printed))
    return told


def unlike_shared(here: Path, rebuilt: Path) -> list[str]:
    """Hold the theme's files that lie beside a report against those made again."""
    told = []
    for copy in sorted(rebuilt.iterdir()):
        for name, path in _files(copy).items():
            called, other = f"{SHARED}/{copy.name}/{name}", here / copy.name / name
            if not other.is_file():
                told.append(MISSING.format(called))
            elif other.read_bytes() != path.read_bytes():
                told.append(BYTES.format(called, "file"))
        for name in sorted(_files(here / copy.name).keys() - _files(copy).keys()):
            told.append(NOT_MADE.format(f"{SHARED}/{copy.name}/{shown(name)}"))
    return told


def count(folder: Path) -> int:
    """Count the files below a folder."""
    return len(_files(folder))


def _files(folder: Path) -> dict[str, Path]:
    found = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path for path in sorted(found)}


def _digest(path: Path | None) -> str:
    return digest_of(path.read_bytes()) if path else ""


def _without_digest(
    pair: tuple[bytes, bytes], name: str, printed: tuple[str, str]
) -> tuple[bytes, bytes]:
    """Leave out of two files the digest of record.json that each prints."""
    if not all(printed) or Path(name).suffix not in PRINTED_IN:
        return pair
    here, rebuilt = pair
    for digest in printed:  # a changed record.json leaves the old one on the pages
        here = here.replace(digest.encode(), BLANK.encode())
        rebuilt = rebuilt.replace(digest.encode(), BLANK.encode())
    return here, rebuilt


def _words(name: str, pair: tuple[bytes, bytes]) -> Iterator[str]:
    suffix = Path(name).suffix
    small = max(map(len, pair)) <= LONGEST_COMPARED
    if suffix in PICTURES:
        yield BYTES.format(shown(name), "picture")
    elif suffix == ".html" and small:
        here, rebuilt = (one.decode("utf-8", "replace") for one in pair)
        yield f"{shown(name)}, {first_difference(here, rebuilt)}."
    elif suffix == ".json" and small:
        yield from _keys(name, pair)
    else:
        yield BYTES.format(shown(name), "file")


def _keys(name: str, pair: tuple[bytes, bytes]) -> Iterator[str]:
    try:
        here, rebuilt = (json.loads(one) for one in pair)
    except (ValueError, RecursionError):
        yield f"{shown(name)}: it is spoilt, and the rebuild is not."
        return
    found = list(_values(here, rebuilt, ""))
    for words in islice(found, MOST_KEYS):
        yield f"{shown(name)}, {words}."
    if len(found) > MOST_KEYS:
        yield f"{shown(name)}: {len(found) - MOST_KEYS} more of its values differ."
    if not found:
        yield f"{shown(name)}: {OTHERWISE}."


def _values(here: Any, rebuilt: Any, path: str) -> Iterator[str]:
    """Tell of each key whose values differ; the rebuild bounds how deep this goes."""
    if here == rebuilt and type(here) is type(rebuilt):
        return
    if isinstance(here, dict) and isinstance(rebuilt, dict):
        for key in sorted({*here, *rebuilt}):
            place = f"{path} / {key}" if path else key
            yield from _values(here.get(key, _ABSENT), rebuilt.get(key, _ABSENT), place)
    elif isinstance(here, list) and isinstance(rebuilt, list):
        pairs = zip_longest(here, rebuilt, fillvalue=_ABSENT)
        for number, (one, other) in enumerate(pairs, 1):
            yield from _values(one, other, f"{path} / {number}")
    else:
        where = cut(one_line(path), LONGEST_TEXT) or "as a whole"
        yield f"{where}: {_both(_typed(here), _typed(rebuilt))}"


def _typed(value: object) -> str:
    if value is _ABSENT:
        return NOTHING
    if isinstance(value, Mapping | list):
        return f"({len(value)} entries)"
    return one_line(value) if isinstance(value, str) else repr(value)


def _both(here: str, rebuilt: str) -> str:
    if _DIGEST.fullmatch(here) and _DIGEST.fullmatch(rebuilt):
        return "another digest than when rebuilt"
    start = 0
    if max(len(here), len(rebuilt)) > LONGEST_TEXT:
        start = start_of_difference(here, rebuilt)
    here, rebuilt = (cut(one, LONGEST_TEXT, start) for one in (here, rebuilt))
    return f'"{here}" here, "{rebuilt}" when rebuilt'


def _listed(names: list[str]) -> str:
    *most, last = map(shown, names)
    return f"{', '.join(most)} and {last}" if most else last
