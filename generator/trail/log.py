"""Every revision of every job file, from one pass over the log.

A commit is compared with each of its parents. A revision of a file is a commit that
differs from all of them; a merge that only takes over what one side has is none.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from generator.trail.git import Repository

FEWEST = 500  # commits worth a second process; our choice
# Renames within one commit; git's own default is to compare so many at most.
DIFF = (
    "diff-tree", "--stdin", "--always", "-r", "-M50%", "-l1000", "--root", "--raw",
    "-z", "--no-abbrev",
)  # fmt: skip
ADDED, CHANGED, DELETED = "added", "changed", "deleted"
RENAMED, MOVED = "renamed", "moved"  # at its new name, and at its old one
_WORDS = {"A": ADDED, "M": CHANGED, "R": RENAMED, "D": DELETED, "T": CHANGED}


@dataclass(frozen=True)
class Commit:
    """One commit of the log, with its parents; the first is that of its own branch."""

    name: str
    parents: tuple[str, ...]
    seconds: int  # since 1970, when it was committed


@dataclass(frozen=True)
class Step:
    """How one file differs between a parent and its child.

    ``before`` is its name in the parent; ``blobs`` are the contents by their object
    names, in the parent and in the child.
    """

    path: str
    before: str
    how: str
    blobs: tuple[str, str]


@dataclass(frozen=True)
class Entry:
    """One commit with what it changed, against each parent in turn."""

    commit: Commit
    against: tuple[Mapping[str, Step], ...]

    def revised(self) -> dict[str, tuple[Step, ...]]:
        """Give the files that differ from every parent."""
        first, *others = self.against
        return {
            path: (step, *(one[path] for one in others))
            for path, step in first.items()
            if all(path in one for one in others)
        }


def commits(repository: Repository, after: str = "") -> list[Commit]:
    """List the commits of the history, each before its parents.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    after : str, optional
        A commit whose own history is left out.

    Returns
    -------
    list of Commit
        Newest first.
    """
    if not repository.head:
        return []
    words = ["rev-list", "--topo-order", "--parents", "--timestamp", repository.head]
    lines = repository.ask(*words, *([f"^{after}"] if after else [])).decode()
    split = (line.split() for line in lines.splitlines())
    return [Commit(name, tuple(of), int(when)) for when, name, *of in split]


def entries(
    repository: Repository, listed: Sequence[Commit], paths: Sequence[str]
) -> Iterator[Entry]:
    """Tell what each commit changed, on every core.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    listed : sequence of Commit
        The commits.
    paths : sequence of str
        Folders and files below the firm's folder; others are not looked at.

    Yields
    ------
    Entry
        In the order of the commits.
    """
    cores = min(os.cpu_count() or 1, 1 + len(listed) // FEWEST)
    size = -(-len(listed) // cores) or 1
    parts = [listed[at : at + size] for at in range(0, len(listed), size)]
    with ThreadPoolExecutor(max(1, len(parts))) as pool:
        answers = pool.map(lambda part: _compared(repository, part, paths), parts)
        for part, answer in zip(parts, answers, strict=True):
            yield from _told(part, answer, repository.prefix)


def _compared(
    repository: Repository, listed: Iterable[Commit], paths: Sequence[str]
) -> bytes:
    asked = (
        f"{commit.name} {parent}".rstrip()
        for commit in listed
        for parent in commit.parents or ("",)
    )
    where = (f":(top,literal){repository.prefix}{path}" for path in paths)
    given = "\n".join(asked).encode("ascii") + b"\n"
    return repository.ask(*DIFF, "--", *where, given=given)


def _told(listed: Sequence[Commit], answer: bytes, prefix: str) -> Iterator[Entry]:
    """Read the answer: a commit for each pair that was asked for, then its files."""
    fields = iter(answer.decode("utf-8", "surrogateescape").split("\0"))
    field = next(fields, "")
    for commit in listed:
        against = []
        for _ in commit.parents or ("",):
            steps: dict[str, Step] = {}
            field = next(fields, "")  # the commit itself was read before
            while field.startswith(":"):
                _, _, old, new, status = field.split(" ")
                before = path = next(fields)
                if status[0] in "RC":
                    path = next(fields)
                below = path.removeprefix(prefix)
                how = _WORDS.get(status[0], CHANGED)
                steps[below] = Step(below, before.removeprefix(prefix), how, (old, new))
                field = next(fields, "")
            against.append(steps)
        yield Entry(commit, tuple(against))
