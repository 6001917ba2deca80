"""What an edition changes in the published folder as it stands, and nothing else.

The cost of a build follows from this list: a client who is not on it is neither read
nor written.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain
from pathlib import Path

from generator.website.root_files import root_files
from generator.website.shared import ASSETS, SHARED, copy_name, is_whole, leads_to

STRAYS = {".DS_Store", "Thumbs.db"}  # what file browsers drop; taken away
HOME = "index.html"


@dataclass(frozen=True)
class Edition:
    """What a build changes in the published folder.

    Parameters
    ----------
    sites : Mapping[str, Path]
        The built site of each folder name, from ``links.folder_name``: with theme files
        of its own, or with pages that lead to a shared copy beside it already.
    gone : Mapping[str, str]
        The page that stands in place of a site, by folder name.
    removed : Collection[str]
        Folder names that must not be there any longer.
    standing : Mapping[str, Collection[str]]
        The shared copies that the pages of a client lead to who stays as it is, by
        folder name, as far as they are known.
    """

    sites: Mapping[str, Path] = field(default_factory=dict)
    gone: Mapping[str, str] = field(default_factory=dict)
    removed: Collection[str] = ()
    standing: Mapping[str, Collection[str]] = field(default_factory=dict)

    def names(self) -> set[str]:
        """Every folder name that this edition speaks of."""
        return {*self.sites, *self.gone, *self.removed}


@dataclass(frozen=True)
class Changes:
    """What has to be put into the published folder, and what has to leave it.

    Parameters
    ----------
    copies : Mapping[str, Path]
        The theme files of each shared copy that is not there whole, by its name.
    files : Mapping[str, bytes]
        The content of our own files at the top that differ.
    sites : Mapping[str, Path]
        The built site of each client, by folder name.
    led : Mapping[str, str]
        The shared copy that the pages of each site are to be led to, by folder name.
    gone : Mapping[str, bytes]
        The page of each ended link that does not stand there yet, by folder name.
    away : Sequence[str]
        Paths that must not be there any longer, in the order in which they leave.
    """

    copies: Mapping[str, Path]
    files: Mapping[str, bytes]
    sites: Mapping[str, Path]
    led: Mapping[str, str]
    gone: Mapping[str, bytes]
    away: Sequence[str]

    def __bool__(self) -> bool:
        """Tell whether anything changes at all."""
        return any((self.copies, self.files, self.sites, self.gone, self.away))


def changes(edition: Edition, public: Path, present: Collection[str]) -> Changes:
    """Compare an edition with the published folder.

    Parameters
    ----------
    edition : Edition
        What is new. Clients whom it does not name stay as they are.
    public : pathlib.Path
        The published folder, which may not be there yet.
    present : Collection[str]
        Folder names of the clients now published.

    Returns
    -------
    Changes
        All that differs.
    """
    themes = {name: site / ASSETS for name, site in sorted(edition.sites.items())}
    led = {name: copy_name(own) for name, own in themes.items() if own.is_dir()}
    lying = {copy: themes[name] for name, copy in led.items()} | _led_before(edition)
    return Changes(
        {
            copy: theme
            for copy, theme in lying.items()
            if not is_whole(public / SHARED / copy)
        },
        _own_files(public),
        dict(sorted(edition.sites.items())),
        led,
        _ended(edition, public),
        _leaving(edition, public, present, set(lying)),
    )


def _led_before(edition: Edition) -> dict[str, Path]:
    """Find the shared copies that pages lead to already, where they lie now."""
    found: dict[str, Path] = {}
    for _, site in sorted(edition.sites.items()):
        if (site / ASSETS).is_dir() or not (site / HOME).is_file():
            continue
        if copy := leads_to((site / HOME).read_text(encoding="utf-8")):
            found[copy] = site.parent / SHARED / copy
    return found


def _own_files(public: Path) -> dict[str, bytes]:
    """Give our own files at the top that differ."""
    files = {name: text.encode("utf-8") for name, text in root_files().items()}
    return {
        name: content
        for name, content in files.items()
        if _content(public / name) != content
    }


def _ended(edition: Edition, public: Path) -> dict[str, bytes]:
    """Give the pages of ended links that do not stand there yet."""
    pages = {name: page.encode("utf-8") for name, page in sorted(edition.gone.items())}
    return {
        name: page
        for name, page in pages.items()
        if not _stands_alone(public / name, page)
    }


def _leaving(
    edition: Edition, public: Path, present: Collection[str], used: Collection[str]
) -> list[str]:
    """List the clients who leave, what file browsers dropped, and unused copies."""
    removed = set(edition.removed) & set(present) - {*edition.sites, *edition.gone}
    strays = [name for name in sorted(STRAYS) if (public / name).is_file()]
    return [*sorted(removed), *strays, *_unused(edition, public, present, used)]


def _unused(
    edition: Edition, public: Path, present: Collection[str], used: Collection[str]
) -> list[str]:
    """List the shared copies that no page leads to, once all pages are known."""
    known = edition.names() | edition.standing.keys()
    if not known >= set(present) or not (public / SHARED).is_dir():
        return []
    used = {*used, *chain.from_iterable(edition.standing.values())}
    if not used:
        return [SHARED]
    names = sorted(entry.name for entry in (public / SHARED).iterdir())
    return [f"{SHARED}/{name}" for name in names if name not in used]


def _stands_alone(folder: Path, page: bytes) -> bool:
    """Tell whether a folder holds this one page and nothing else."""
    if _content(folder / HOME) != page:
        return False
    return [entry.name for entry in folder.iterdir()] == [HOME]


def _content(file: Path) -> bytes | None:
    return file.read_bytes() if file.is_file() else None
