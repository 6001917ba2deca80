"""What a site depends on beside its job, told from one machine to another."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from generator.stamps import programs
from generator.website.photo_cache import workshop


def ours() -> dict[str, str]:
    """Digest what this process builds with, by its name in plain words."""
    decoders = hashlib.sha256("\n".join(workshop()).encode("utf-8")).hexdigest()
    return {**programs(), "the system or what reads photographs": decoders}


def unlike(theirs: Mapping[str, str]) -> list[str]:
    """List what differs here from another machine.

    Parameters
    ----------
    theirs : mapping of str to str
        What ``ours`` gives there.

    Returns
    -------
    list of str
        The names of what differs, in plain words.
    """
    mine = ours()
    names = dict.fromkeys((*theirs, *mine))
    return [name for name in names if mine.get(name) != theirs.get(name)]
