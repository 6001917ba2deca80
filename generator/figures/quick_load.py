"""The drawing library, loaded without the manual that it writes for each of its parts.

For each kind of artist it lists all that can be set, as the signature and the text of a
method that nobody here reads; that took more than half of loading it. The method works
the same without. Where the library does it otherwise one day, it only loads slower.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from matplotlib import artist

MANUAL = "_update_set_signature_and_docstring"  # matplotlib 3.5 to 3.11


def load() -> None:
    """Load what figures are made of, unless it is loaded."""
    if "matplotlib.figure" not in sys.modules:
        with _without_manual():
            import matplotlib.figure  # noqa: F401 - with all that it is made of


def _nothing(artist: object) -> str:
    return ""


@contextmanager
def _without_manual() -> Iterator[None]:
    whole, told = vars(artist.Artist).get(MANUAL), artist.kwdoc
    if whole is not None:
        setattr(artist.Artist, MANUAL, classmethod(lambda _: None))
        artist.kwdoc = _nothing
    try:
        yield
    finally:
        artist.kwdoc = told
        if whole is not None:
            setattr(artist.Artist, MANUAL, whole)
