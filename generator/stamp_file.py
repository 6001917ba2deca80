"""What was written down of a published site, in a file trusted only where it is whole.

The first line of the file is the digest of the rest, so that one flipped bit tells. It
names its job and the folder behind its link: one put in the place of another tells too.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from stat import S_ISREG

from generator.atomic import make_way, put
from generator.website.links import NAME
from generator.website.shared import COPY_NAME

FOLDER, ENDING = "stamps", ".json"  # in a build folder
LAYOUT = 2  # of what is written down; another one is not read
FIRST_LAYOUT = '{\n "made_from"'  # how a file of the first one begins: without a digest
MOST_BYTES = 65_536  # of a file; our choice, some thirty times what one takes
NEVER = "it was not built here before"
SPOILT = "what was written down of it is spoilt"
EARLIER = "what was written down of it is of another version of onlot"
MIXED_UP = "what was written down of it is of another job"


@dataclass(frozen=True)
class Stamp:
    """What one published site was made from, and what it looked like.

    Parameters
    ----------
    job : str
        The job.
    made_from : Mapping[str, str]
        Digest of each kind of input, by its name in plain words.
    name : str
        Folder name of the published site.
    shared : str
        Folder name of the theme files that its pages lead to.
    looks, holds : str
        Digest of the published files by a listing; and by content.
    theme : str
        Digest of the theme files by a listing; their name is that of their content.
    """

    job: str
    made_from: Mapping[str, str]
    name: str
    shared: str
    looks: str
    holds: str
    theme: str


@dataclass(frozen=True)
class Found:
    """What was written down of a job, or why there is nothing that can be trusted."""

    stamp: Stamp | None
    why: str = ""


def read_stamp(folder: Path, job: str) -> Found:
    """Read what was written down of a job.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder.
    job : str
        Name of the job.

    Returns
    -------
    Found
        It, or why there is none.
    """
    file = f"{folder}/{FOLDER}/{job}{ENDING}"  # asked of thousands of jobs
    try:
        about = os.lstat(file)
        if not S_ISREG(about.st_mode) or about.st_size > MOST_BYTES:
            return Found(None, SPOILT)  # a pipe would keep whoever opens it waiting
        with open(file, "rb", buffering=0) as opened:
            content = opened.read()
    except (FileNotFoundError, NotADirectoryError):
        return Found(None, NEVER)
    except OSError:
        return Found(None, SPOILT)
    return _read(content, job)


def keep_stamp(folder: Path, stamp: Stamp) -> None:
    """Write down what a job was made from, whole or not at all.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder. What is no file and stands in the place of this one goes.
    stamp : Stamp
        What is written down.

    Raises
    ------
    OSError
        Where the disk or its rights refuse it.
    """
    file = folder / FOLDER / f"{stamp.job}{ENDING}"
    make_way(file)
    put(file, written(asdict(stamp) | {"layout": LAYOUT}))


def written(told: object) -> bytes:
    """Write data with its digest on the first line."""
    text = json.dumps(told, indent=1).encode("ascii") + b"\n"
    return f"{_digest(text)}\n".encode("ascii") + text


def _read(content: bytes, job: str) -> Found:
    digest, _, text = content.partition(b"\n")
    if digest != _digest(text).encode("ascii"):
        first = content.startswith(FIRST_LAYOUT.encode("ascii"))
        return Found(None, EARLIER if first else SPOILT)
    try:
        told = dict(json.loads(text))
        if told.pop("layout") != LAYOUT:
            return Found(None, EARLIER)
        stamp = Stamp(**told)
    except (ValueError, TypeError, KeyError, RecursionError):
        return Found(None, SPOILT)
    if not _is_sound(stamp):
        return Found(None, SPOILT)
    return Found(stamp) if stamp.job == job else Found(None, MIXED_UP)


def _is_sound(stamp: Stamp) -> bool:
    """Tell whether every entry is of its kind, and leads out of no folder."""
    if not isinstance(stamp.made_from, dict):
        return False
    digests = (stamp.looks, stamp.holds, stamp.theme, *stamp.made_from.values())
    texts = (stamp.job, stamp.name, stamp.shared, *digests)
    return (
        all(isinstance(one, str) for one in texts)
        and NAME.fullmatch(stamp.name) is not None
        and COPY_NAME.fullmatch(stamp.shared) is not None
    )


def _digest(text: bytes) -> str:
    return hashlib.sha256(text).hexdigest()
