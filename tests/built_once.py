"""Sites built once for a whole run, by as many processes as run its tests."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from generator.record.load import Workspace
from generator.site import build_site
from generator.website.evidence import RECORD
from generator.worked import work_out

LONGEST_S, LOOK_AGAIN_S = 300.0, 0.05  # our choice, to wait for another process


def built_once(
    factory: pytest.TempPathFactory, name: str, lay_out: Callable[[Workspace], object]
) -> list[Path]:
    """Give the built sites of a workspace; each job is built by whoever comes first.

    Every process of a run gets the same folder, so a test reads it and never writes.
    """
    place = _laid_out(factory, name, lay_out)
    ended = {job: place.root / "ended" / job for job in place.jobs()}
    for job, sign in ended.items():
        if _is_first(place.root / "begun" / job):
            try:
                build_site(place, work_out(place, job), place.root / "build")
            finally:  # others do not wait for what will never come
                sign.mkdir(parents=True)
    until = time.monotonic() + LONGEST_S
    while not all(sign.exists() for sign in ended.values()):
        assert time.monotonic() < until, f"another process did not finish {name}"
        time.sleep(LOOK_AGAIN_S)
    sites = [place.root / "build" / "sites" / job for job in ended]
    assert [site for site in sites if not (site / RECORD).exists()] == []
    return sites


def _laid_out(
    factory: pytest.TempPathFactory, name: str, lay_out: Callable[[Workspace], object]
) -> Workspace:
    """Lay the workspace out beside its place, then move it there, once."""
    run = factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        run = run.parent
    own = Workspace(factory.mktemp(name))
    lay_out(own)
    with suppress(OSError):  # another process was first
        own.root.rename(run / f"shared-{name}")
    return Workspace(run / f"shared-{name}")


def _is_first(sign: Path) -> bool:
    """Tell whether no process has taken this on before; take it on."""
    sign.parent.mkdir(exist_ok=True)
    with suppress(FileExistsError):
        sign.mkdir()
        return True
    return False
