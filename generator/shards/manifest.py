"""What a shard says of itself: its share, what its sites were made from, their digests.

The file is JSON in one way of writing only, and ends up with a digest of all the rest,
so that whatever was changed in it is noticed.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from generator.problems import Problem
from generator.shards.share import Share, share_of
from generator.website.links import NAME
from generator.website.shared import COPY_NAME

FILE = "manifest.json"
LAYOUT = 1  # of the manifest and of the folder; one more with every change of them
ABOUT = "One share of a build of onlot. The shares are merged by: onlot merge SHARD..."
DIGEST = "digest"
NOT_READ = "This is not the manifest of a shard, or it is spoilt."
OTHER_LAYOUT = "This shard is laid out in another way ({found}) than is read here (1)."
NOT_AS_MADE = "The digest of this manifest does not fit what it says."


class Unreadable(Exception):  # noqa: N818  # it is an answer, not an error
    """A manifest that counts for nothing, with the sentence that says why."""


@dataclass(frozen=True)
class Part:
    """What a shard says of one job of its share.

    Parameters
    ----------
    name : str
        Folder name behind its private link.
    made_from : Mapping[str, str]
        Digests of what it was made from, by ``survey.Survey.inputs``.
    site : str
        Digest of its site; empty where the job has problems.
    problems : tuple of Problem
        What is wrong with it.
    """

    name: str
    made_from: Mapping[str, str]
    site: str
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True)
class Manifest:
    """What a shard says of itself.

    Parameters
    ----------
    share : Share
        Which share of how many.
    jobs : tuple of str
        All jobs of the whole that somebody may read, in order.
    programs : Mapping[str, str]
        Digests of onlot and of the libraries that made it.
    themes : tuple of str
        The shared copies of theme files that it holds.
    parts : Mapping[str, Part]
        Every job of the share.
    """

    share: Share
    jobs: tuple[str, ...]
    programs: Mapping[str, str]
    themes: tuple[str, ...]
    parts: Mapping[str, Part]


def written(manifest: Manifest) -> bytes:
    """Write a manifest, with the digest of all that it says."""
    told = asdict(manifest) | {
        "about": ABOUT,
        "layout": LAYOUT,
        "share": str(manifest.share),
    }
    return _sealed(told)


def is_ours(content: bytes) -> bool:
    """Tell whether a file was once the manifest of a shard, of whatever layout."""
    return ABOUT.encode("ascii") in content


def manifest_of(content: bytes) -> Manifest:
    """Read a manifest that anybody may have changed.

    Parameters
    ----------
    content : bytes
        What its file holds.

    Returns
    -------
    Manifest
        What it says; its parts are those of its share.

    Raises
    ------
    Unreadable
        With the sentence that says what is wrong with it.
    """
    try:
        told = json.loads(content)
        layout = told["layout"]
        if layout != LAYOUT:
            raise Unreadable(OTHER_LAYOUT.format(found=json.dumps(layout)[:20]))
        if _sealed({key: told[key] for key in told if key != DIGEST}) != content:
            raise Unreadable(NOT_AS_MADE)
        return _sound(told)
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise Unreadable(NOT_READ) from None


def _sealed(told: Mapping[str, Any]) -> bytes:
    digest = hashlib.sha256(_text(told)).hexdigest()
    return _text({**told, DIGEST: digest})


def _text(told: Mapping[str, Any]) -> bytes:
    text = json.dumps(told, indent=1, sort_keys=True, allow_nan=False)
    return f"{text}\n".encode("ascii")


def _sound(told: Mapping[str, Any]) -> Manifest:
    """Take what it says; a ValueError or its like where that makes no sense."""
    share = share_of(told["share"])
    jobs = tuple(map(_word, told["jobs"]))
    parts = {job: _part(part) for job, part in told["parts"].items()}
    themes = tuple(map(_word, told["themes"]))
    if share is None or list(parts) != share.of(jobs):
        raise ValueError("the parts are not those of the share")
    if not all(map(COPY_NAME.fullmatch, themes)):
        raise ValueError("a theme that is not named by its digest")
    return Manifest(share, jobs, _words(told["programs"]), themes, parts)


def _part(told: Mapping[str, Any]) -> Part:
    problems = tuple(map(_problem, told["problems"]))
    name, site = _word(told["name"]), _word(told["site"])
    if not NAME.fullmatch(name) or bool(site) is bool(problems):
        raise ValueError("a part without its name, or with neither site nor problem")
    return Part(name, _words(told["made_from"]), site, problems)


def _problem(told: Mapping[str, Any]) -> Problem:
    line, later = told["line"], told["later"]
    if not isinstance(line, int) or not isinstance(later, bool):
        raise TypeError("a problem without its line")
    file, field, message, hint = (
        _shown(_word(told[key])) for key in ("file", "field", "message", "hint")
    )
    return Problem(file, line, field, message, hint, later)


def _words(told: Mapping[str, Any]) -> dict[str, str]:
    return {key: _word(value) for key, value in told.items()}


def _word(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError("not a text")
    return value


def _shown(text: str) -> str:
    """Leave out what a terminal would obey."""
    return "".join(sign if sign.isprintable() or sign == "\n" else "?" for sign in text)
