"""A published report held against its own evidence, file by file."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.website.evidence import BLANK, PRINTED_IN, RECORD, digest_of
from generator.website.shared import COPY_NAME, SHARED

PRINT_IT = ("record.html", "paper.html")
_CLAIM = re.compile(rb'class="address digest">([0-9a-f]{64})<')
GONE = f"{RECORD} is missing, so no other file could be checked."
NOT_ITSELF = (
    f"{RECORD} was changed: its digest is not the one that the pages print. What it "
    "says of other files may be wrong."
)
NOT_PRINTED = f"No page prints the digest of {RECORD}, so it may have been changed."
SPOILT = f"{RECORD} is spoilt, so no other file could be checked."
CHANGED = f"{{}} was changed: its digest is not the one in {RECORD}."
MISSING = f"{{}} is missing, and {RECORD} lists it."
NOT_LISTED = f"{{}} is not listed in {RECORD}."


@dataclass(frozen=True)
class _Listed:
    """What record.json lists: digests by path, and the folder of the theme's files."""

    files: Mapping[str, str]
    copy: str
    theme: Mapping[str, str]


def differences(site: Path, shared: Path) -> list[str]:
    """Hold every file of a published report against its record.json.

    Parameters
    ----------
    site : pathlib.Path
        The folder of the report, as it was published.
    shared : pathlib.Path
        The folder beside it that holds every copy of the theme's files.

    Returns
    -------
    list of str
        One sentence for each thing that is not as it was; none where all is.
    """
    content = _content(site / RECORD)
    if content is None:
        return [GONE]
    digest, told = _printed(site, digest_of(content))
    listed = _read(content)
    if listed is None:
        return [*told, SPOILT]
    found = {name: path for name, path in _files(site).items() if name != RECORD}
    told += _unlike(listed.files, found, digest)
    if listed.copy:
        place = f"{SHARED}/{listed.copy}/"
        theme = {f"{place}{name}": one for name, one in listed.theme.items()}
        copies = _files(shared / listed.copy)
        told += _unlike(theme, {f"{place}{name}": copies[name] for name in copies})
    return told


def _printed(site: Path, actual: str) -> tuple[str, list[str]]:
    """Give the digest that the pages print, and what is wrong with it."""
    pages = (_content(site / name) or b"" for name in PRINT_IT)
    claims = Counter(one.decode() for page in pages for one in _CLAIM.findall(page))
    if not claims:
        return actual, [NOT_PRINTED]
    if actual in claims:  # a page that prints another one is told as changed
        return actual, []
    return claims.most_common(1)[0][0], [NOT_ITSELF]


def _read(content: bytes) -> _Listed | None:
    """Read what record.json lists; None where it is none of ours."""
    try:
        found = json.loads(content)
    except (ValueError, RecursionError):
        return None
    match found:
        case {
            "files": dict(files),
            "theme": {"folder": str(folder), "files": dict(theme)},
        }:
            copy = folder.rpartition("/")[2]
            digests = [*files.values(), *theme.values()]
            sound = all(isinstance(one, str) for one in digests)
            sound = sound and bool(not folder or COPY_NAME.fullmatch(copy))
            return _Listed(files, copy, theme) if sound else None
    return None


def _files(folder: Path) -> dict[str, Path]:
    """List the files below a folder by path; a link counts as one."""
    found = (one for one in folder.rglob("*") if one.is_symlink() or not one.is_dir())
    return {path.relative_to(folder).as_posix(): path for path in sorted(found)}


def _unlike(
    listed: Mapping[str, str], found: Mapping[str, Path], printed: str = ""
) -> Iterator[str]:
    for name in sorted({*listed, *found}):
        if name not in found:
            yield MISSING.format(_shown(name))
        elif name not in listed:
            yield NOT_LISTED.format(_shown(name))
        elif _digest(found[name], printed) != listed[name]:
            yield CHANGED.format(_shown(name))


def _digest(path: Path, printed: str) -> str:
    """Digest a file as record.json does; empty where it cannot be right."""
    content = _content(path)
    if content is None:
        return ""
    if printed and path.suffix in PRINTED_IN:
        if BLANK.encode() in content:  # as it stands before anything is printed
            return ""
        content = content.replace(printed.encode(), BLANK.encode())
    return digest_of(content)


def _content(path: Path) -> bytes | None:
    try:
        return None if path.is_symlink() else path.read_bytes()
    except OSError:
        return None


def _shown(name: str) -> str:
    """Show a name without anything that a terminal would obey."""
    return "".join(one if one.isprintable() else "?" for one in name)
