"""A run that is killed leaves the old version or the new one, whole."""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from generator.website.links import folder_name
from generator.website.publish import Edition, publish, recover

pytestmark = pytest.mark.skipif(os.name != "posix", reason="SIGKILL is POSIX")

PROJECT = Path(__file__).parents[2]
ASH, ELM, FIR = (folder_name(b"x" * 16, job, 1) for job in ("ash", "elm", "fir"))
KILLS = 10

# Publishes, and kills itself at a chosen event of the interpreter (PEP 578).
CHILD = """
import os, signal, sys
from pathlib import Path
from generator.website import publish as room
root, chosen, one_step = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3] == "one"
if not one_step:
    room.exchange = lambda first, second: False
seen = []
def watch(event, arguments):
    if event.startswith(("os.", "ctypes.", "shutil.")) or event == "open":
        seen.append(event)
        if len(seen) == chosen:
            os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(watch)
sites = {name: root / "new" / name for name in sys.argv[4:]}
room.publish(room.Edition(sites), root / "public")
print(" ".join(seen))
"""


def run_child(root: Path, chosen: int, steps: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", CHILD, str(root), str(chosen), steps, ELM, FIR],
        cwd=PROJECT,
        capture_output=True,
        text=True,
        check=False,
    )


def killing_moments(events: list[str]) -> list[int]:
    """Ten moments at random, and every one around the change of places."""
    turning = {
        number + near
        for number, event in enumerate(events, start=1)
        if event.startswith("ctypes.") or event == "os.rename"
        for near in (0, 1)
    }
    chosen = random.Random(2026).sample(range(1, len(events) + 1), KILLS)
    return sorted({*chosen, *turning} & set(range(1, len(events) + 1)))


@pytest.mark.parametrize("steps", ["one", "two"])
def test_killed_at_any_moment(folders: Any, tmp_path: Path, steps: str) -> None:
    start = tmp_path / "start"
    publish(
        Edition(
            {name: folders.make_site(start / "old" / name, name) for name in (ASH, ELM)}
        ),
        start / "public",
    )
    for name in (ELM, FIR):
        folders.make_site(start / "new" / name, f"new {name}")
    old = folders.state(start / "public")
    whole = tmp_path / "whole"
    shutil.copytree(start, whole)
    events = run_child(whole, 0, steps).stdout.split()
    new = folders.state(whole / "public")
    assert old != new
    outcomes = set()
    for moment in killing_moments(events):
        root = tmp_path / f"{moment}"
        shutil.copytree(start, root)
        public = root / "public"
        assert run_child(root, moment, steps).returncode == -signal.SIGKILL
        if steps == "two" and not public.exists():  # between the two renames
            recover(public)
            outcomes.add("recovered")
        assert folders.state(public) in (old, new)
        outcomes.add("old" if folders.state(public) == old else "new")
        publish(Edition({name: root / "new" / name for name in (ELM, FIR)}), public)
        assert folders.state(public) == new
        assert folders.around(public) == []
    assert outcomes == {"old", "new"} | ({"recovered"} if steps == "two" else set())


def test_killed_by_the_clock(folders: Any, tmp_path: Path) -> None:
    publish(
        Edition({ASH: folders.make_site(tmp_path / "old", "ash")}), tmp_path / "public"
    )
    for name in (ELM, FIR):
        folders.make_site(tmp_path / "new" / name, f"new {name}")
    old = folders.state(tmp_path / "public")
    chance = random.Random(14)
    for _ in range(KILLS):
        child = subprocess.Popen(
            [sys.executable, "-c", CHILD, str(tmp_path), "0", "one", ELM, FIR],
            cwd=PROJECT,
            stdout=subprocess.DEVNULL,
        )
        try:
            child.wait(timeout=0.05 + 0.15 * chance.random())
        except subprocess.TimeoutExpired:
            child.kill()
            child.wait()
        now = folders.state(tmp_path / "public")
        assert now == old or len(now) == len(old) + 6
        publish(Edition(removed={ELM, FIR}), tmp_path / "public")
        assert folders.state(tmp_path / "public") == old
