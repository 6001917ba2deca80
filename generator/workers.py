"""Many jobs built side by side, each in a process that does one after another.

What a worker gets is small and what it gives back is smaller: the site lies on the
disk. A job that fails stops no other. A worker that dies costs its jobs again: first
together, then each by itself, so that the one which kills its worker is known.
"""

from __future__ import annotations

import atexit
import gc
import os
import signal
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from multiprocessing import active_children, get_context
from pathlib import Path
from typing import TypeVar

from generator.beside import Hand, drawn_here, load_drawing
from generator.faults import fault
from generator.problems import Problem, Refused
from generator.record.load import Workspace
from generator.standing import Standing
from generator.trail.past import Past

FEWEST = 4  # jobs worth processes that take a second to begin; our choice
SEARCH_FROM = 5000  # new objects before the next search, seven times the usual; ours
DIED = "The process that built this job was ended from outside, more than once."
MEMORY = "See to the free memory, or build with fewer processes: --jobs 1."


@dataclass(frozen=True)
class Bench:
    """Where jobs are built: the firm's folder, its history, the folder of sites."""

    workspace: Workspace
    past: Past
    folder: Path


@dataclass(frozen=True)
class Task:
    """One job to build: its folder name behind the link, and what clients see of it."""

    job: str
    name: str
    standing: Standing


Outcome = Path | Refused
Made = TypeVar("Made")
Maker = Callable[[Bench, Sequence[Task], Callable[[str], None]], dict[str, Outcome]]


def cores() -> int:
    """Count the cores that this process may use. [-]"""
    known = getattr(os, "sched_getaffinity", None)
    return len(known(0)) if known else os.cpu_count() or 1


def built(
    bench: Bench,
    tasks: Sequence[Task],
    done: Callable[[str], None],
    *,
    processes: int = 1,
    hand: Hand | None = None,
) -> dict[str, Outcome]:
    """Build jobs on this machine; a ``Maker``.

    Parameters
    ----------
    bench : Bench
        Where they are built.
    tasks : sequence of Task
        The jobs.
    done : callable
        Told the name of each job when it is done, in whatever order.
    processes : int
        How many processes may work side by side. [-]
    hand : Hand, optional
        Who draws beside this process, where the jobs are few.

    Returns
    -------
    dict of str to pathlib.Path or Refused
        The folder of each site, or what is wrong with its job, in the order of the
        tasks whatever process was done first.
    """
    processes = min(processes, len(tasks) if len(tasks) >= FEWEST else 1)
    if processes <= 1:
        found = _in_turn(bench, tasks, done, hand)
    else:
        found = _side_by_side(bench, tasks, processes, done)
    return {one.job: found[one.job] for one in tasks}


def _in_turn(
    bench: Bench, tasks: Sequence[Task], done: Callable[[str], None], hand: Hand | None
) -> dict[str, Outcome]:
    if hand is None or len(tasks) >= FEWEST:
        return {one.job: _told(_build(bench, one), one.job, done) for one in tasks}
    hand.begin()
    begun = [(one.job, _begun(bench, one, hand)) for one in tasks]
    return {job: _told(finish(), job, done) for job, finish in begun}


def _told(outcome: Outcome, job: str, done: Callable[[str], None]) -> Outcome:
    done(job)
    return outcome


def _side_by_side(
    bench: Bench, tasks: Sequence[Task], processes: int, done: Callable[[str], None]
) -> dict[str, Outcome]:
    settle()  # this process has thousands of outcomes to take
    found: dict[str, Outcome] = {}
    for count in (processes, processes, 1):
        left = [one for one in tasks if one.job not in found]
        groups = [left] if count > 1 else [[one] for one in left]
        for group in groups:
            for job, outcome in _pooled(bench, group, min(count, len(group) or 1)):
                found[job] = _told(outcome, job, done)
    for one in tasks:
        if one.job not in found:
            file = bench.workspace.shown(bench.workspace.job_file(one.job))
            refused = Refused([Problem(file, 0, "", DIED, MEMORY)])
            found[one.job] = _told(refused, one.job, done)
    return found


def _pooled(
    bench: Bench, tasks: Sequence[Task], processes: int
) -> Iterable[tuple[str, Outcome]]:
    """Build jobs in a pool; those that it did not finish when it broke are left."""
    if not tasks:
        return
    # A new interpreter for each: no thread or lock of this one is copied into it.
    pool = ProcessPoolExecutor(
        processes, get_context("spawn"), initializer=_begin, initargs=(bench,)
    )
    try:
        futures = [pool.submit(_work, one) for one in tasks]
        for future in as_completed(futures):
            try:
                yield future.result()
            except BrokenProcessPool:
                continue
    except BaseException:
        pool.shutdown(wait=False, cancel_futures=True)
        for child in active_children():
            child.terminate()
        raise
    pool.shutdown()


_bench: Bench  # of this process, once it works for another


def _begin(bench: Bench) -> None:
    """Take up the bench; whoever started this process tells it when to end."""
    global _bench  # a process pool has no other place for it
    _bench = bench
    gc.disable()  # until it settles
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _work(task: Task) -> tuple[str, Outcome]:
    return task.job, _build(_bench, task)


@contextmanager
def unsearched() -> Iterator[None]:
    """Search for nothing that is no longer used, before ``settle`` says that it pays.

    Next to nothing of what is loaded goes out of use again, and few jobs leave little.
    When the process ends, all of it is let go at once and not searched once more.
    """
    atexit.unregister(gc.freeze)  # once is enough
    atexit.register(gc.freeze)
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def settle() -> None:
    """Keep what is loaded for good out of each search for what is no longer used.

    Figures leave many cycles; looking through all loaded modules each time took a
    tenth of a build.
    """
    gc.set_threshold(SEARCH_FROM)
    if not gc.get_freeze_count():
        if gc.isenabled():
            gc.collect()
        gc.freeze()
    gc.enable()


def load_writing() -> None:
    """Load all that works a job out and writes its pages."""
    import generator.seen
    import generator.site  # noqa: F401 - it is loaded, and used later


def _build(bench: Bench, task: Task) -> Outcome:
    load_writing()
    load_drawing()
    settle()
    return _begun(bench, task, None)()


def _begun(bench: Bench, task: Task, hand: Hand | None) -> Callable[[], Outcome]:
    """Work a job out and have its figures drawn; give what writes its site."""
    from generator.seen import seen  # keeps a build of nothing quick

    asked = (bench.workspace, bench.past, task.job, task.standing, bench.folder)
    look = _kept(bench, task, lambda: seen(*asked))
    if isinstance(look, Refused):
        return lambda: look
    worked, place, origin = look.worked, look.workspace, look.origin
    drawn = hand.ask(drawn_here, worked) if hand else partial(drawn_here, worked)

    def finished() -> Path:
        from generator.site import build_site, compile_ahead  # as above

        if hand and hand.begun:
            compile_ahead()  # the figures are not there yet
        return build_site(place, worked, bench.folder, task.name, origin, draw=drawn)

    return lambda: _kept(bench, task, finished)


def _kept(bench: Bench, task: Task, work: Callable[[], Made]) -> Made | Refused:
    """Do a part of one job; keep what goes wrong with it from the others."""
    try:
        return work()
    except Refused as refused:
        return refused
    except (OSError, MemoryError):  # which all jobs would meet
        raise
    except Exception:
        told = traceback.format_exc()
        return fault(bench.workspace, bench.folder, task.job, told)
