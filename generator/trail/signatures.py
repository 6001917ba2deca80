"""Who made a commit, when, and whether git can say that its signature is theirs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.trail.git import Repository

# The letters of git log's %G? (git-log, PRETTY FORMATS), in plain words.
SIGNATURES = {
    "G": "verified",
    "U": "unknown key: nobody here vouches for it",
    "X": "verified, expired since",
    "Y": "verified, with a key that has expired since",
    "R": "made with a key that was revoked",
    "B": "bad: the commit is not what was signed",
    "E": "unknown key",
    "N": "none",
}
SIGNED = b"\ngpgsig"  # how a commit carries a signature (git, signature format)
UNKNOWN = SIGNATURES["E"]
FORMAT = "--format=%H%x00%an%x00%ai%x00%G?"


@dataclass(frozen=True)
class Maker:
    """Who made a commit and when, as it says itself; and what git says of that."""

    author: str
    when: str
    signature: str


def makers(repository: Repository, commits: Iterable[str]) -> dict[str, Maker]:
    """Tell who made commits.

    Parameters
    ----------
    repository : Repository
        The firm's repository.
    commits : iterable of str
        Names of commits.

    Returns
    -------
    dict of str to Maker
        By commit. A signature that git has no means to check here, such as one by SSH
        where no list of signers is set, is of an unknown key.
    """
    names = list(dict.fromkeys(commits))
    if not names:
        return {}
    given = "\n".join(names).encode() + b"\n"
    words = ("log", "--no-walk=unsorted", "--no-show-signature", "-z", FORMAT)
    fields = repository.ask(*words, "--stdin", given=given).decode("utf-8", "replace")
    rows = fields.rstrip("\0").split("\0")
    raw = dict(zip(names, repository.blobs(names), strict=True))
    found = {}
    for name, author, when, letter in zip(*[iter(rows)] * 4, strict=True):
        signed = SIGNED in raw[name].partition(b"\n\n")[0]
        said = SIGNATURES.get(letter, UNKNOWN)
        found[name] = Maker(
            _printable(author),
            when,
            UNKNOWN if signed and letter == "N" else said,
        )
    return found


def _printable(text: str) -> str:
    return "".join(sign if sign.isprintable() else "?" for sign in text)
