"""What was kept beside the build and is spoilt, told once for all jobs."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from generator.problems import counted
from generator.trail.past import Past
from generator.website.photo_uses import spoilt

HISTORY = "What was kept of the history was spoilt and was read again."
PHOTOS = "{photos} {were} spoilt and prepared again."


def spoilt_notes(past: Past, folder: Path) -> Iterator[str]:
    """Say what was kept and spoilt.

    Parameters
    ----------
    past : Past
        The firm's history, as it was read.
    folder : pathlib.Path
        The build folder; what its photographs tell of themselves is told once.

    Yields
    ------
    str
        One sentence for the history, one for all photographs.
    """
    if past.index.spoilt:
        yield HISTORY
    if count := spoilt(folder):
        were = "was" if count == 1 else "were"
        yield PHOTOS.format(photos=counted(count, "kept photograph"), were=were)
