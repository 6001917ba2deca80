"""The drawing library works the same, loaded with its manual or without."""

from __future__ import annotations

import hashlib
import subprocess
import sys

import pytest
from matplotlib import artist
from matplotlib.patches import Rectangle

from generator.figures import quick_load
from tests.trail.scripted import ROOT

DRAW = """
import hashlib
from pathlib import Path
from generator.pictures import draw
from generator.record.load import Workspace
from generator.worked import work_out
from matplotlib.patches import Rectangle
drawn = draw(work_out(Workspace(Path("tests/jobs/..").resolve().parent), "{job}"))
print(len(drawn), hashlib.sha256(repr(drawn).encode()).hexdigest())
print("Supported properties" in (Rectangle.set.__doc__ or ""))
"""
JOB = "demo-larch-hollow"


def drawn(before: str = "") -> list[str]:
    command = [sys.executable, "-c", before + DRAW.format(job=JOB)]
    return subprocess.check_output(command, cwd=ROOT, text=True).split()


def test_figures_are_the_same_with_the_manual_and_without() -> None:
    count, digest, manual = drawn()
    assert manual == "False"
    assert drawn("import matplotlib.figure\n") == [count, digest, "True"]
    assert len(digest) == hashlib.sha256().digest_size * 2
    assert int(count) == 5


def test_what_is_left_out_is_what_the_library_still_writes() -> None:
    """Where this fails the library has changed, and loading it takes longer again."""
    assert isinstance(vars(artist.Artist)[quick_load.MANUAL], classmethod)
    inspected = artist.ArtistInspector(Rectangle).get_setters()
    assert {"angle", "facecolor"} <= set(inspected)


@pytest.mark.parametrize("first", ["matplotlib.figure", "generator.figures"])
def test_afterwards_it_writes_its_manual_as_ever(first: str) -> None:
    script = (
        f"import {first}\n"
        "from inspect import signature\n"
        "from matplotlib import artist\n"
        "class Later(artist.Artist):\n"
        "    'A kind of artist that comes later.'\n"
        "print('alpha' in signature(Later.set).parameters)\n"
        "print('alpha' in artist.kwdoc(Later))\n"
        "print(Later().set(alpha=0.5) == [None])\n"
    )
    said = subprocess.check_output([sys.executable, "-c", script], cwd=ROOT, text=True)
    assert said.split() == ["True"] * 3
