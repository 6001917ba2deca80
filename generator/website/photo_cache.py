"""Prepared photographs kept by what they were made from, so that none is made twice.

The name of an entry is the SHA-256 of all that its bytes depend on. What an entry holds
is trusted only where its own digest and its name fit; else it is made anew.
"""

from __future__ import annotations

import hashlib
import platform
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from itertools import accumulate, pairwise
from pathlib import Path
from stat import S_ISREG

import pillow_heif
from PIL import __version__ as pillow_version
from PIL import features

from generator.atomic import put
from generator.website import photos
from generator.website.photo_uses import FOLDER, KEY, keep_uses, mark_spoilt, uses

LAYOUT = "1"  # of an entry; another one has other names
MOST_BYTES = 64 * 1024 * 1024  # of an entry; our choice, far above two such JPEGs
DECODERS = ("jpg", "libjpeg_turbo", "zlib", "webp", "avif", "littlecms2")


@dataclass(frozen=True)
class _Wanted:
    """What is to be made of a file, in words that tell it from all else."""

    words: str
    parts: int
    make: Callable[[], tuple[bytes, ...]]


class PhotoCache:
    """Prepares photographs, and keeps what it prepared in a build folder.

    Parameters
    ----------
    folder : pathlib.Path or None
        The build folder; without one nothing is kept. One that cannot be written costs
        time alone.
    """

    def __init__(self, folder: Path | None) -> None:
        self.folder = folder
        self.used: set[str] = set()

    def two_sizes(self, path: Path) -> photos.Sizes:
        """Give both JPEGs of a photograph, the same as ``photos.two_sizes`` makes.

        Parameters
        ----------
        path : Path
            A JPEG, PNG, WebP or HEIC file.

        Returns
        -------
        photos.Sizes
            Both as they are made without a cache.

        Raises
        ------
        PhotoError
            If the file is no usable photograph; that is never kept.
        """

        def make() -> tuple[bytes, ...]:
            sizes = photos.two_sizes(path)
            return sizes.small, sizes.large

        words = f"two {photos.ON_PAGE_PX} {photos.LONGEST_PX} {photos.QUALITY}"
        small, large = self._parts(path, _Wanted(words, 2, make))
        return photos.Sizes(small, large)

    def prepare(self, path: Path, *, longest_px: int) -> bytes:
        """Give one JPEG of a photograph, the same as ``photos.prepare`` makes.

        Parameters
        ----------
        path : Path
            A JPEG, PNG, WebP or HEIC file.
        longest_px : int
            Longest side of the result; a smaller picture keeps its size. [px]

        Returns
        -------
        bytes
            The JPEG as it is made without a cache.

        Raises
        ------
        PhotoError
            If the file is no usable photograph; that is never kept.
        """

        def make() -> tuple[bytes, ...]:
            return (photos.prepare(path, longest_px=longest_px),)

        words = f"one {longest_px} {photos.QUALITY}"
        return self._parts(path, _Wanted(words, 1, make))[0]

    def used_by(self, job: str) -> None:
        """Write down that a job uses all that was asked for; see ``drop_unused``."""
        if self.folder is not None:
            keep_uses(self.folder, job, self.used)

    def _parts(self, path: Path, wanted: _Wanted) -> tuple[bytes, ...]:
        content = None if self.folder is None else _digest_of(path)
        if self.folder is None or content is None:
            return wanted.make()
        key = _key(content, wanted.words)
        entry = self.folder / FOLDER / key
        found = _content(entry)
        parts = _parts_of(key, found or b"")
        if len(parts) != wanted.parts:
            if found is not None:  # as it was read: another process may write it now
                mark_spoilt(self.folder, key)
            parts = wanted.make()
            if _digest_of(path) != content:  # it was exchanged meanwhile
                return parts
            with suppress(OSError):
                put(entry, _entry(key, parts), shared=True)
        self.used.add(key)
        return parts


def kept_entries(folder: Path, job: str) -> dict[str, bytes]:
    """Read what is kept of the photographs that a job used when it was last built.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder.
    job : str
        Name of the job.

    Returns
    -------
    dict of str to bytes
        Sound entries by name.
    """
    names = uses(folder, job)
    found = {name: _content(folder / FOLDER / name) or b"" for name in names}
    return {name: content for name, content in found.items() if _sound(name, content)}


def keep_entries(folder: Path, entries: Mapping[str, bytes]) -> None:
    """Keep entries that were made in another folder.

    Parameters
    ----------
    folder : pathlib.Path
        The build folder; one that cannot be written costs time alone.
    entries : mapping of str to bytes
        Entries by name; one that is not sound is left out.
    """
    for name, content in entries.items():
        if KEY.fullmatch(name) and _sound(name, content):
            with suppress(OSError):
                put(folder / FOLDER / name, content, shared=True)


def _digest_of(path: Path) -> str | None:
    """Digest a file piece by piece, however large; None where it cannot be read."""
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return None


def _key(content: str, words: str) -> str:
    """Name an entry after all that its bytes depend on."""
    told = "\n".join((LAYOUT, content, words, *workshop()))
    return hashlib.sha256(told.encode("utf-8")).hexdigest()


@cache
def workshop() -> tuple[str, ...]:
    """Tell what prepares photographs: our code, the libraries, the machine's kind."""
    code = Path(photos.__file__).read_bytes()
    return (
        hashlib.sha256(code).hexdigest(),
        f"pillow {pillow_version}",
        f"pillow-heif {pillow_heif.__version__}",
        f"libheif {sorted(pillow_heif.libheif_info().items(), key=str)}",
        *(f"{one} {features.version(one)}" for one in DECODERS),
        f"{platform.system()} {platform.machine()}",
    )


def _entry(key: str, parts: tuple[bytes, ...]) -> bytes:
    """Write an entry: its digest, its name, the length of each part, the parts."""
    lengths = " ".join(str(len(part)) for part in parts)
    rest = f"{key}\n{lengths}\n".encode("ascii") + b"".join(parts)
    return hashlib.sha256(rest).hexdigest().encode("ascii") + b"\n" + rest


def _content(entry: Path) -> bytes | None:
    """Read an entry; nothing of what cannot be one, None where nothing is there."""
    try:
        about = entry.lstat()
        if not S_ISREG(about.st_mode) or about.st_size > MOST_BYTES:
            return b""
        return entry.read_bytes()
    except (FileNotFoundError, NotADirectoryError):
        return None
    except OSError:
        return b""


def _parts_of(name: str, content: bytes) -> tuple[bytes, ...]:
    """Take an entry apart; no part unless they would be written as it stands."""
    try:
        _, _, lengths, joined = content.split(b"\n", 3)
        ends = list(accumulate(map(int, lengths.split()), initial=0))
    except ValueError:
        return ()
    parts = tuple(joined[start:end] for start, end in pairwise(ends))
    return parts if _entry(name, parts) == content else ()


def _sound(name: str, content: bytes) -> bool:
    return len(content) <= MOST_BYTES and bool(_parts_of(name, content))
