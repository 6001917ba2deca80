"""The only file that asks Dask: calls go to a cluster, what they gave comes back.

Its scheduler needs no onlot: a call travels pickled, and only a worker opens it.
"""

from __future__ import annotations

import logging
import pickle
import pkgutil
import re
import time
import warnings
from collections.abc import Callable, Iterator
from concurrent.futures import CancelledError
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from queue import Empty, SimpleQueue
from secrets import token_hex
from typing import Any

from generator.problems import Problem, Refused

ADDRESS = re.compile(r"(?:tcp|tls)://[^\s/]+:[0-9]+")
TLS = "tls://"
CONNECT_S = 10.0  # our choice: for one scheduler in the same network
NO_WORKER_S = 180.0  # our choice: an adaptive cluster starts machines meanwhile
ANSWER_S = 30.0  # of the scheduler to a question; our choice
FETCH_S = 180.0  # of one answer; our choice
LOOK_S = 1.0  # between looks at the workers; our choice
CLOSE_S = 3.0  # our choice: who interrupts a build does not want to wait
# Our choice: an adaptive cluster sees that there is more work than it has workers.
EACH_THREAD = 16
MOST_BYTES = 256 * 1024 * 1024  # under way at once; our choice
NOISY = {"distributed", "tornado", "asyncio", "bokeh"}

OPTION = "--cluster"
WRONG_FORM = (
    'The address of a cluster reads tcp://HOST:PORT or tls://HOST:PORT, not "{}".'
)
AS_TOLD = "Write it as the scheduler told it when it was started."
NO_EXTRA = "What speaks to a cluster is not installed here."
GET_EXTRA = "Install it: pip install 'onlot[cluster]'"
NOBODY = "No scheduler took us at {} within {:.0f} seconds ({})."
SEE_ADDRESS = "See to the address and to the network."
NO_TLS = "Dask's own settings name no certificate that can be read, as tls:// needs."
GET_TLS = "Name ca-file, and cert and key of the client, under distributed.comm.tls."
NO_WORKER = "The cluster at {} had no worker for {:.0f} seconds."
START_WORKERS = "Start workers, or build here: leave --cluster out."
GONE = "The scheduler at {} went away, or let go of the work, before all was built."
AGAIN = "See to the cluster, and build again: what is finished by then stays."
OTHER = "The worker {} has another version than this machine: {}."
LACKS = "The worker {} has no onlot, or an old one."
SAME = "Install the same wheel, Python and libraries there, and start it again."


class WorkerLost:
    """A call that took its worker down more than once."""


@dataclass(frozen=True)
class _Sent:
    """A call under way."""

    job: str
    future: Any  # Dask's own kind
    size: int


class Cluster:
    """A cluster that is asked for many calls, a bounded number of them at once."""

    def __init__(self, client: Any, address: str) -> None:
        self._client = client
        self._address = address
        self._token = f"onlot-{token_hex(8)}"  # two builds never share a name
        self._number = 0
        self._under_way: dict[Any, _Sent] = {}
        self._done: SimpleQueue[Any] = SimpleQueue()
        self._threads = 0
        self._looked = self._worked = time.monotonic()
        self._look()

    @property
    def busy(self) -> bool:
        """Whether anything is under way."""
        return bool(self._under_way)

    def full(self, each_thread: int = EACH_THREAD) -> bool:
        """Whether enough is under way: calls for each thread, or bytes."""
        count, threads = len(self._under_way), max(self._threads, 1)
        size = sum(one.size for one in self._under_way.values())
        heavy = size >= MOST_BYTES and count >= threads
        return heavy or count >= threads * each_thread

    def send(self, job: str, work: Callable[..., object], *given: Any) -> None:
        """Send a call that stands for a job.

        Parameters
        ----------
        job : str
            Name of the job.
        work : callable
            What the worker does; a function of a module that it can import.
        given : object
            What it is given.
        """
        packed = pickle.dumps(_Call(work, given))
        self._number += 1
        key = (self._token, self._number)
        future = self._client.submit(pickle.loads, packed, key=key, pure=False)
        self._under_way[future.key] = _Sent(job, future, len(packed))
        future.add_done_callback(self._done.put)

    def next(self) -> tuple[str, Any]:
        """Wait for what is done next.

        Returns
        -------
        tuple of str and object
            Name of the job, and what its call gave; ``WorkerLost`` where it took its
            workers down.

        Raises
        ------
        Refused
            Where the cluster does not do its work any longer.
        """
        while True:
            if time.monotonic() - self._looked >= LOOK_S:
                self._look()
            with suppress(Empty):
                future = self._done.get(timeout=LOOK_S)
                return self._under_way.pop(future.key).job, self._fetched(future)

    def _fetched(self, future: Any) -> Any:
        from distributed import KilledWorker  # the extra

        try:
            return future.result(timeout=FETCH_S)
        except KilledWorker:
            return WorkerLost()
        except (CancelledError, OSError):  # a time limit is an OSError too
            raise refused(GONE.format(self._address), AGAIN) from None
        except (ImportError, AttributeError):  # it could not open the call
            raise refused(LACKS.format(self._lacking()), SAME) from None

    def _look(self) -> None:
        """See whether there is a scheduler, and how many threads its workers have."""
        self._looked = time.monotonic()
        if self._client.status != "running":
            raise refused(GONE.format(self._address), AGAIN)
        try:
            asked = self._client.scheduler.ncores
            found = self._client.sync(asked, callback_timeout=ANSWER_S)
        except (CancelledError, OSError, AttributeError):
            raise refused(GONE.format(self._address), AGAIN) from None
        self._threads = sum(found.values())
        if self._threads:
            self._worked = self._looked
        elif self._looked - self._worked >= NO_WORKER_S:
            message = NO_WORKER.format(self._address, NO_WORKER_S)
            raise refused(message, START_WORKERS)

    def _lacking(self) -> str:
        """Name the workers that cannot open a call."""
        from generator.cluster.work import NAME  # as a worker would

        asked = self._client.run(pkgutil.resolve_name, NAME, on_error="return")
        lacking = [worker for worker, one in asked.items() if one != NAME]
        return ", ".join(sorted(lacking))


class _Call:
    """A call that is made where it is unpickled."""

    def __init__(self, work: Callable[..., object], given: tuple[Any, ...]) -> None:
        self.parts = (work, given)

    def __reduce__(self) -> tuple[Callable[..., object], tuple[Any, ...]]:
        return self.parts


def checked(address: str) -> None:
    """Refuse an address of another form.

    Raises
    ------
    Refused
        With the form that it must have.
    """
    if not ADDRESS.fullmatch(address):
        raise refused(WRONG_FORM.format(address), AS_TOLD)


@contextmanager
def cluster(address: str) -> Iterator[Cluster]:
    """Ask a cluster, until all is done or something is wrong.

    Parameters
    ----------
    address : str
        Where its scheduler is.

    Yields
    ------
    Cluster
        The cluster. What is under way at the end is let go of.

    Raises
    ------
    Refused
        Where it cannot be asked.
    """
    try:
        import distributed  # the extra: nothing else loads it
    except ImportError:
        raise refused(NO_EXTRA, GET_EXTRA) from None
    _silence()
    if address.startswith(TLS) and not _has_certificates():
        raise refused(NO_TLS, GET_TLS)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of sizes and versions, which we look at
        try:
            client = distributed.Client(
                address, timeout=CONNECT_S, set_as_default=False
            )
        except Exception as error:  # each library below has kinds of its own
            told = str(error).strip().splitlines() or [type(error).__name__]
            message = NOBODY.format(address, CONNECT_S, told[0].rstrip("."))
            raise refused(message, SEE_ADDRESS) from None
        try:
            yield Cluster(client, address)
        finally:
            with suppress(Exception):  # it may be gone by now
                client.close(timeout=CLOSE_S)


def refused(message: str, hint: str) -> Refused:
    """Make a refusal of the whole build."""
    return Refused([Problem(OPTION, 0, "", message, hint)])


def _has_certificates() -> bool:
    """Tell whether Dask's own settings name what TLS needs, and it can be read."""
    from distributed.security import Security  # the extra

    try:
        return bool(Security().get_connection_args("client").get("ssl_context"))
    except OSError:  # no such file, or no certificate in it
        return False


def _silence() -> None:
    """Keep the log of the libraries from the terminal; what matters is told by us."""
    for name in list(logging.root.manager.loggerDict):
        if name.split(".")[0] in NOISY:
            logging.getLogger(name).disabled = True
