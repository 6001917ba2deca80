"""The only file that runs git: what is asked, and what it answers.

Git is asked by its plumbing, which no setting of a person changes, with no replaced
objects, no hooks, no network and no lock left behind.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.problems import Problem, Refused

# Set by git for its own hooks; they would lead our questions to another repository.
NOT_OURS = (
    "GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_COMMON_DIR",
    "GIT_OBJECT_DIRECTORY", "GIT_ALTERNATE_OBJECT_DIRECTORIES", "GIT_NAMESPACE",
    "GIT_GRAFT_FILE", "GIT_SHALLOW_FILE", "GIT_EXTERNAL_DIFF", "GIT_DIFF_OPTS",
)  # fmt: skip
FIXED = {
    "LC_ALL": "C",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_NO_LAZY_FETCH": "1",
}
SETTINGS = ("-c", "core.fsmonitor=false", "-c", "core.quotepath=off")
FOLDER = ".git"
SHORT = 10  # signs of the name of a commit; our choice, git's own is 7 or more
AT_ONCE = 1000  # files read at once, some 10 MB of job files; our choice
NO_GIT = "git is not installed here, and this folder has a history in git."
OWNER = "dubious ownership"  # how git says that the folder is another user's
NOT_OWNED = (
    "The folder belongs to another user. If you trust it, tell git so: "
    "git config --global --add safe.directory FOLDER"
)
BROKEN = 'See with "git fsck" what is wrong, or clone the repository anew.'
LFS_BEGINS = b"version https://git-lfs.github.com/spec/v1"  # Git LFS specification


@dataclass(frozen=True)
class Repository:
    """A repository that a firm's folder lies in.

    Parameters
    ----------
    root : pathlib.Path
        The firm's folder.
    prefix : str
        Where that folder lies below the top of the repository; empty, or ends in ``/``.
    head : str
        The commit that is checked out; empty before the first one.
    whole : bool
        False where this copy holds only the last part of the history.
    """

    root: Path
    prefix: str
    head: str
    whole: bool

    def ask(self, *words: str, given: bytes = b"") -> bytes:
        """Run git and give what it prints.

        Raises
        ------
        Refused
            With what git said, where it fails.
        """
        return _answer(self.root, words, given)

    def files(self, held: Iterable[tuple[str, str]]) -> Iterator[bytes]:
        """Read files by path and object name; large ones from where LFS keeps them.

        Raises
        ------
        Refused
            Where one is not here.
        """
        wanted = list(held)
        contents = self.blobs(blob for _, blob in wanted)
        for (path, blob), content in zip(wanted, contents, strict=True):
            if not content.startswith(LFS_BEGINS):
                yield content
                continue
            where = f"--path={self.prefix}{path}"
            smudged = self.ask("cat-file", "--filters", where, blob)
            if smudged.startswith(LFS_BEGINS):
                message = f"The picture {path} is not on this machine."
                raise _refused(message, "Fetch it with: git lfs pull")
            yield smudged

    def blobs(self, names: Iterable[str]) -> Iterator[bytes]:
        """Read files by their object names, in that order; one process for many.

        Raises
        ------
        Refused
            Where git does not have one of them.
        """
        wanted = list(names)
        for begin in range(0, len(wanted), AT_ONCE):
            yield from self._blobs(wanted[begin : begin + AT_ONCE])

    def _blobs(self, wanted: list[str]) -> Iterator[bytes]:
        given = "\n".join(wanted).encode() + b"\n"
        answer = self.ask("cat-file", "--batch", "--buffer", given=given)
        at = 0
        for name in wanted:
            end = answer.index(b"\n", at)
            parts = answer[at:end].split()
            if len(parts) != len(("name", "kind", "size")):
                raise _refused(f"git does not have the object {name}.")
            at = end + 1 + int(parts[-1]) + 1
            yield answer[end + 1 : at - 1]


def short(commit: str) -> str:
    """Shorten the name of a commit for a person.

    Examples
    --------
    >>> short("dd8e14a6f0260782b6215c9a27a7d3fd87d8911e")
    'dd8e14a6f0'
    """
    return commit[:SHORT]


def repository(root: Path) -> Repository | None:
    """Find the repository that a folder lies in.

    Parameters
    ----------
    root : pathlib.Path
        The firm's folder.

    Returns
    -------
    Repository or None
        None where the folder is in no repository.

    Raises
    ------
    Refused
        Where there is a repository and git is not installed, or refuses it.
    """
    if not any((one / FOLDER).exists() for one in (root, *root.parents)):
        return None
    asked = ("rev-parse", "--is-shallow-repository", "--show-prefix")
    shallow, prefix = _answer(root, asked).decode("utf-8").split("\n")[:2]
    head = _run(root, ("rev-parse", "--verify", "--quiet", "HEAD^{commit}"))
    return Repository(root, prefix, head.stdout.decode().strip(), shallow == "false")


def _answer(root: Path, words: Iterable[str], given: bytes = b"") -> bytes:
    done = _run(root, words, given)
    if done.returncode:
        said = done.stderr.decode("utf-8", "replace").strip() or "nothing"
        hint = NOT_OWNED if OWNER in said else BROKEN
        raise _refused(f"git says: {said.splitlines()[0]}", hint)
    return done.stdout


def _run(
    root: Path, words: Iterable[str], given: bytes = b""
) -> subprocess.CompletedProcess[bytes]:
    try:
        return subprocess.run(
            ["git", *SETTINGS, *words],
            cwd=root,
            env=_surroundings(),
            input=given,
            capture_output=True,
            check=False,
        )
    except FileNotFoundError:
        raise _refused(NO_GIT, "Install git, which the history is read with.") from None


def _surroundings() -> dict[str, str]:
    kept = {key: value for key, value in os.environ.items() if key not in NOT_OURS}
    return kept | FIXED


def _refused(message: str, hint: str = "") -> Refused:
    return Refused([Problem("history", 0, "", message, hint)])
