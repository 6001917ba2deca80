"""Figures drawn by a second process: the same bytes, and nothing lost where it dies."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from multiprocessing import active_children
from pathlib import Path
from types import SimpleNamespace

import pytest

from generator import beside
from generator.beside import Hand, drawn_here
from generator.record.load import Workspace
from generator.worked import Worked
from tests.test_workers import (
    children_of,
    files,
    heed_interrupts,
    small_jobs,
    start,
)
from tests.trail.scripted import ROOT

# A process of its own: one with threads, as a test is run in, begins no copy of itself.
BEGIN = """
import multiprocessing, os, signal, sys, time
from pathlib import Path
from generator.beside import Hand, drawn_here
from generator.record.load import Workspace
from generator.worked import work_out
worked = work_out(Workspace(Path(sys.argv[1])), "ash")
with Hand(2) as hand:
    hand.begin()
    print(multiprocessing.active_children()[0].pid, hand.begun, flush=True)
"""
SAME = """
    print("generator.pictures" in sys.modules, flush=True)
from generator.pictures import draw
print(found == draw(worked) != {})
"""
ASK = """
    found = hand.ask(drawn_here, worked)()
"""
KILL = """
    os.kill(multiprocessing.active_children()[0].pid, signal.SIGKILL)
"""
KILL_OURSELVES = """
    os.kill(os.getpid(), signal.SIGKILL)
"""
ASK_WRONGLY = """
    from types import SimpleNamespace
    try:
        hand.ask(drawn_here, SimpleNamespace(results=1))()
    except AttributeError as error:
        print(error)
"""
ASK_AND_KILL = """
    answer = hand.ask(drawn_here, worked)
    time.sleep(float(sys.argv[2]))
    os.kill(multiprocessing.active_children()[0].pid, signal.SIGKILL)
    found = answer()
"""


@pytest.fixture
def firm(tmp_path: Path) -> Workspace:
    """Two small jobs of one firm."""
    return small_jobs(tmp_path / "firm", ("ash", "elm"))


def run(firm: Workspace, script: str, *words: str) -> list[str]:
    command = [sys.executable, "-c", BEGIN + script, str(firm.root), *words]
    ended = subprocess.run(
        command, cwd=ROOT, text=True, capture_output=True, timeout=60
    )
    assert ended.stderr == ""
    assert ended.returncode == 0
    first, *said = ended.stdout.splitlines()
    child, begun = first.split()
    assert begun == "True"
    assert is_gone(int(child))
    return said


def is_gone(process: int) -> bool:
    try:
        state = Path(f"/proc/{process}/stat").read_text().rsplit(") ", 1)[1]
    except FileNotFoundError:
        return True
    return state.startswith("Z")  # nobody asked how it ended


def test_the_figures_are_those_drawn_here(firm: Workspace) -> None:
    assert run(firm, ASK + SAME) == ["False", "True"]


def test_one_that_was_killed_before_costs_time_alone(firm: Workspace) -> None:
    assert run(firm, KILL + ASK + SAME) == ["True", "True"]


@pytest.mark.parametrize("after", ["0", "0.1", "0.5"])
def test_one_that_is_killed_at_work_costs_time_alone(
    firm: Workspace, after: str
) -> None:
    assert run(firm, ASK_AND_KILL + SAME, after)[-1] == "True"


def test_one_that_was_not_asked_ends_as_well(firm: Workspace) -> None:
    assert run(firm, "") == []


@pytest.mark.parametrize("at_work", ["", "    hand.ask(time.sleep, 60)\n"])
def test_it_does_not_outlive_whoever_began_it(firm: Workspace, at_work: str) -> None:
    killed = BEGIN + at_work + "    time.sleep(0.3)\n" + KILL_OURSELVES
    ended = subprocess.run(
        [sys.executable, "-c", killed, str(firm.root)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=30,  # it holds the end of our pipes as well
    )
    assert (ended.returncode, ended.stderr) == (-signal.SIGKILL, "")
    child = int(ended.stdout.split()[0])
    until(lambda: is_gone(child))


def until(true: Callable[[], bool]) -> None:
    begun = time.monotonic()
    while not true():
        assert time.monotonic() - begun < 30
        time.sleep(0.05)


def test_what_cannot_be_drawn_is_told_by_whoever_asked(firm: Workspace) -> None:
    with Hand(1) as hand, pytest.raises(AttributeError, match="no attribute 'parts'"):
        hand.ask(drawn_here, wrong())()
    said = run(firm, ASK_WRONGLY + ASK + SAME)
    assert said == ["'int' object has no attribute 'parts'", "True", "True"]


def wrong() -> Worked:
    return SimpleNamespace(results=1)  # type: ignore[return-value]  # what is no job


def refuse(*_: object) -> None:
    pytest.fail("a process was begun")


@pytest.mark.parametrize(
    ("cores", "system", "threads"), [(1, "linux", 1), (2, "darwin", 1), (2, "linux", 2)]
)
def test_it_does_not_begin_where_that_is_no_help_or_not_safe(
    monkeypatch: pytest.MonkeyPatch, cores: int, system: str, threads: int
) -> None:
    monkeypatch.setattr(sys, "platform", system)
    monkeypatch.setattr(beside, "active_count", lambda: threads)
    monkeypatch.setattr(beside, "get_context", refuse)
    with Hand(cores) as hand:
        hand.begin()
        assert not hand.begun


def test_a_system_that_refuses_a_process_costs_time_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def full() -> int:
        raise OSError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(beside, "active_count", lambda: 1)
    for place, name in ((os, "fork"), (os, "pipe"), (socket, "socketpair")):
        with monkeypatch.context() as changed, Hand(2) as hand:
            changed.setattr(place, name, full)
            hand.begin()
            assert not hand.begun
    assert active_children() == []


def test_a_system_that_refuses_a_thread_costs_time_alone(firm: Workspace) -> None:
    script = (
        "from multiprocessing import active_children\n"
        "from threading import Thread\n"
        "from generator.beside import Hand\n"
        "def refused(self):\n"
        '    raise RuntimeError("can\'t start new thread")\n'
        "Thread.start = refused\n"
        "with Hand(2) as hand:\n"
        "    hand.begin()\n"
        "    print(hand.begun, active_children(), hand.ask(int, '3')())\n"
    )
    said = subprocess.check_output([sys.executable, "-c", script], cwd=ROOT, text=True)
    assert said == "False [] 3\n"


def test_an_interrupt_as_it_begins_is_not_lost() -> None:
    script = (
        "import os, signal\n"
        "from multiprocessing import active_children\n"
        "from generator.beside import Hand\n"
        "fork = os.fork\n"
        "def interrupted():\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    child = fork()\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    return child\n"
        "os.fork = interrupted\n"
        "try:\n"
        "    with Hand(2) as hand:\n"
        "        hand.begin()\n"
        "        print('lost')\n"
        "except KeyboardInterrupt:\n"
        "    print('heard', active_children())\n"
    )
    ended = subprocess.run(
        [sys.executable, "-c", script],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=heed_interrupts,
    )
    assert (ended.stdout, ended.stderr) == ("heard []\n", "")


def test_a_build_by_two_is_the_same_as_by_one(firm: Workspace) -> None:
    for count in ("1", "2"):
        made = start(
            firm, "-q", "--all", "--jobs", count, "--out", str(firm.root / count)
        )
        assert made.wait() == 0
        assert children_of(made.pid) == []
    assert files(firm.root / "1") == files(firm.root / "2")
    assert len(files(firm.root / "2")) > 20


def test_a_build_of_one_job_draws_beside(firm: Workspace) -> None:
    script = (
        "import sys\n"
        "from generator.cli import main\n"
        "main(sys.argv[1:], standalone_mode=False)\n"
        "print('generator.site' in sys.modules, 'matplotlib' in sys.modules)\n"
    )
    words = ("--workspace", str(firm.root), "build", "-q", "--jobs", "2", "ash")
    said = subprocess.check_output([sys.executable, "-c", script, *words], cwd=ROOT)
    assert said.decode().split() == ["True", "False"]


def test_an_interrupt_ends_both(firm: Workspace) -> None:
    assert start(firm, "-q").wait() == 0
    before = files(firm.root / "public")
    work = start(firm, "--all", "--jobs", "2", stderr=subprocess.PIPE)
    until(lambda: len(children_of(work.pid)) > 1)  # itself is one of them
    time.sleep(0.2)
    os.killpg(work.pid, signal.SIGINT)
    _, said = work.communicate(timeout=30)
    # Python ends by the signal itself where that came in the middle of some loading.
    assert work.returncode in (1, -signal.SIGINT)
    assert "Traceback" not in said
    assert files(firm.root / "public") == before
    assert children_of(work.pid) == []
