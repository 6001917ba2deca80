"""A second process, a copy of this one, that does what it is asked meanwhile.

It lists thousands of published folders while this one reads what was written down of
them; then it loads what draws, and draws, while this one loads what writes pages. Where
there can be no such process, or it dies, whoever asked does it: the result is the same.
"""

from __future__ import annotations

import os
import pickle
import signal
import sys
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from multiprocessing import get_all_start_methods, get_context, parent_process
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from threading import Thread, active_count
from types import TracebackType
from typing import TYPE_CHECKING, Any, Self, TypeVar

if TYPE_CHECKING:
    from generator.pictures import Drawn
    from generator.worked import Worked

UNSAFE = ("darwin", "win32")  # a copy may stop in a library of the one, or cannot be
Given = TypeVar("Given")


@dataclass(frozen=True)
class _Other:
    """The other process: one thing after another is sent to it, and what came of it."""

    line: Connection
    asking: ThreadPoolExecutor


class Hand:
    """A second process, once it is asked to begin; it ends with the block.

    Parameters
    ----------
    cores : int
        How many cores there are to share; with one, nothing is begun. [-]
    """

    def __init__(self, cores: int = 1) -> None:
        self._may = cores > 1 and sys.platform not in UNSAFE
        self._other: _Other | None = None
        self._end = ExitStack()

    def __enter__(self) -> Self:
        """Give itself; nothing is begun yet."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """End the process, whatever it is at."""
        self._end.close()

    @property
    def begun(self) -> bool:
        """Whether there is such a process, and so time to do something else."""
        return self._other is not None

    def begin(self) -> None:
        """Begin, where the system allows it; what is loaded here is loaded there."""
        if self.begun or not self._may or "fork" not in get_all_start_methods():
            return
        if active_count() > 1:  # what a thread holds would be held in the copy for good
            return
        with suppress(OSError, RuntimeError):  # no memory, process, thread or file left
            self._other = self._began()

    def _began(self) -> _Other:
        context = get_context("fork")
        end, line = ExitStack(), context.Pipe()
        with _uninterrupted(), end:
            process = context.Process(target=_serve, args=line, daemon=True)
            process.start()
            line[1].close()
            asking = end.enter_context(ThreadPoolExecutor(1))
            end.callback(process.join)
            end.callback(process.kill)
            asking.submit(int).result()  # its thread is there
            self._end = end.pop_all()
        return _Other(line[0], asking)

    def ask(self, work: Callable[..., Given], *words: Any) -> Callable[[], Given]:
        """Have something done, after all that was asked before.

        Parameters
        ----------
        work : callable
            A function at the top of its module, which changes nothing in this process.
        *words
            What it is given.

        Returns
        -------
        callable
            Gives what it gives, once it is there; it raises what that raises.
        """
        if self._other is None:
            return lambda: work(*words)
        packed = pickle.dumps((work, words))  # here: this thread goes on with the words
        answer = self._other.asking.submit(_asked, self._other.line, packed)

        def given() -> Given:
            came = answer.result()
            found: Given = came[0] if came else work(*words)
            return found

        return given


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """Keep an interrupt waiting, which a copy of this process must not take up."""
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def load_drawing() -> None:
    """Load all that draws."""
    import generator.pictures  # noqa: F401 - it is loaded, and used later


def drawn_here(worked: Worked) -> dict[str, Drawn]:
    """Draw the figures of a job in this process."""
    from generator.pictures import draw  # nothing is loaded where another one draws

    return draw(worked)


def _asked(line: Connection, packed: bytes) -> tuple[Any, ...]:
    """Send what is to be done and wait; nothing where nothing came of it."""
    try:
        line.send_bytes(packed)
        came: tuple[Any, ...] = line.recv()
    except (OSError, EOFError):  # it was ended from outside
        return ()
    return came


def _serve(theirs: Connection, line: Connection) -> None:
    """Do what comes, until whoever sends it ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    theirs.close()  # else this copy of it would keep the line open
    Thread(target=_end_with, args=(parent_process(),), daemon=True).start()
    with suppress(EOFError, OSError):  # whoever began it has ended
        while True:
            line.send(_done(*pickle.loads(line.recv_bytes())))


def _done(work: Callable[..., Any], words: tuple[Any, ...]) -> tuple[Any, ...]:
    try:
        return (work(*words),)
    except Exception:  # told in full by whoever asked, who does it once more
        return ()


def _end_with(whoever: BaseProcess) -> None:
    """End at once when whoever began this process has ended, and let its locks go."""
    whoever.join()
    os._exit(0)
