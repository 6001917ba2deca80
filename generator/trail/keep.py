"""What was read of the log, kept in a file that is trusted only where it is whole."""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import astuple
from pathlib import Path
from typing import Any

from generator.atomic import make_way, put
from generator.trail.revision import Index, Revision

LAYOUT = 1  # of what is kept; another one is read anew


def read_kept(file: Path) -> Index:
    """Read what was kept; an empty index, which says so, where it is spoilt."""
    if not os.path.lexists(file):
        return Index()
    try:
        if not file.is_file():  # a pipe would keep whoever opens it waiting
            return Index(spoilt=True)
        digest, _, text = file.read_text("utf-8").partition("\n")
        if digest != _digest(text):
            return Index(spoilt=True)
        found = json.loads(text)
        if found.pop("layout") != LAYOUT:
            return Index()
        revisions = {
            path: [_told(one) for one in listed]
            for path, listed in found.pop("revisions").items()
        }
        touched = {job: (at, name) for job, (at, name) in found.pop("touched").items()}
        return Index(revisions=revisions, touched=touched, **found)
    except (OSError, ValueError, TypeError, KeyError):
        return Index(spoilt=True)


def _told(one: list[Any]) -> Revision:
    commit, at, when, path, how, before, blob, was = one
    return Revision(commit, at, when, path, how, tuple(before), blob, tuple(was))


def keep(file: Path, index: Index) -> None:
    """Write what was read of the log, with its digest on the first line."""
    told = {
        "layout": LAYOUT,
        "head": index.head,
        "count": index.count,
        "revisions": {
            path: [astuple(one) for one in listed]
            for path, listed in sorted(index.revisions.items())
        },
        "touched": index.touched,
        "reports": index.reports,
    }
    text = json.dumps(told)
    make_way(file)
    put(file, f"{_digest(text)}\n{text}".encode())


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()
