"""The versions that a report was made with beside those that are here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path
from platform import python_version
from typing import Any

from generator import __version__
from generator.stamps import LIBRARIES, of_onlot
from generator.trail.change_words import LONGEST_IN_BRIEF, cut, one_line
from generator.website.evidence import BLANK, PRINTED_IN, RECORD, digest_of, prove

NONE = "none"
CODE = "onlot code"
SHORT = 10  # signs of a digest; our choice
OF_ONLOT = "files_of_onlot"  # what the digest of its code holds as well


@dataclass(frozen=True)
class Unlike:
    """One program that is here in another version than the report was made with."""

    name: str
    made_with: str
    here: str

    def to_tell(self) -> str:
        """Say which version is needed to tell, in one sentence."""
        return f"{self._told()}: install that version to tell."

    def makes_no_difference(self) -> str:
        """Say that the files are the same with both."""
        return f"{self._told()}, and that makes no difference."

    def _told(self) -> str:
        if self.name == CODE:
            return (
                f"Made with code of onlot whose digest begins {self.made_with}, here "
                f"it begins {self.here}"
            )
        return f"Made with {self.name} {self.made_with}, here is {self.here}"


def unlike(made_of: Mapping[str, Any]) -> tuple[Unlike, ...]:
    """List every program that is here in another version.

    Parameters
    ----------
    made_of : mapping
        What record.json says that the report was made of; it may say anything.

    Returns
    -------
    tuple of Unlike
        None where all are the same, or where nothing is said of versions.
    """
    said, here = dict(_said(made_of)), _here()
    names = [*here, *(name for name in said if name not in here)] if said else []
    pairs = ((name, said.get(name, NONE), here.get(name, NONE)) for name in names)
    found = [
        Unlike(name, _short(name, old), _short(name, now))
        for name, old, now in pairs
        if old != now
    ]
    if any(one.name == "onlot" for one in found):  # another version is other code
        found = [one for one in found if one.name != CODE]
    return tuple(found)


def adopt(site: Path, ours: Mapping[str, Any], theirs: Mapping[str, Any]) -> None:
    """Let a site made again name the versions that the published one was made with.

    Parameters
    ----------
    site : pathlib.Path
        A site just built, which says of itself what it is made of.
    ours : mapping
        What it says.
    theirs : mapping
        What the published one says.
    """
    told = dict(ours)
    same_code = _code(ours) == _code(theirs)
    for key in ("onlot", "python", "libraries", *(() if same_code else (OF_ONLOT,))):
        if _is_plain(theirs.get(key)):
            told[key] = theirs[key]
    digest = digest_of((site / RECORD).read_bytes()).encode()
    for path in site.rglob("*"):
        if path.is_file() and path.suffix in PRINTED_IN:
            content = path.read_bytes()
            path.write_bytes(content.replace(digest, BLANK.encode()))
    prove(site, told)


def _code(made_of: Mapping[str, Any]) -> object:
    onlot = made_of.get("onlot")
    return onlot.get("code") if isinstance(onlot, dict) else None


def _said(made_of: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    onlot, libraries = made_of.get("onlot"), made_of.get("libraries")
    if isinstance(onlot, dict):
        yield "onlot", _plain(onlot.get("version"))
        yield CODE, str(onlot.get("code"))
    if "python" in made_of:
        yield "Python", _plain(made_of["python"])
    if isinstance(libraries, dict):
        for name, version in libraries.items():
            yield _plain(name), _plain(version)


def _here() -> dict[str, str]:
    return {
        "onlot": __version__,
        CODE: of_onlot(),
        "Python": python_version(),
        **{name: metadata.version(name) for name in LIBRARIES},
    }


def _is_plain(value: object) -> bool:
    """Say whether a value is a text or texts by name, as all that we write there."""
    texts = value.values() if isinstance(value, dict) else (value,)
    return all(isinstance(one, str) for one in texts)


def _plain(value: object) -> str:
    return cut(one_line(str(value)), LONGEST_IN_BRIEF)


def _short(name: str, said: str) -> str:
    return one_line(said)[:SHORT] if name == CODE and said != NONE else said
