"""A Dask cluster of processes on this machine, which run from an empty folder."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from threading import Event, Thread

from distributed import Client

from tests.trail.scripted import ROOT

SECONDS = 20.0  # for anything to come up


@dataclass
class Local:
    """A scheduler with its workers."""

    folder: Path
    started: list[subprocess.Popen[bytes]] = field(default_factory=list)
    address: str = ""

    def begin(self) -> None:
        """Start the scheduler."""
        self.folder.mkdir(parents=True)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        self.address = f"tcp://127.0.0.1:{port}"
        self.run("dask_scheduler", "--host", "127.0.0.1", "--port", str(port))

    def worker(self, *words: str, path: Path = ROOT) -> None:
        """Start a worker."""
        kept = ["--local-directory", str(self.folder)]
        if path == ROOT:
            kept += ["--preload", "generator.cluster.work"]  # so that it begins soon
        self.run("dask_worker", self.address, *kept, *words, path=path)

    def run(self, program: str, *words: str, path: Path = ROOT) -> None:
        """Start a program of Dask that finds onlot at a path alone."""
        command = [sys.executable, "-m", f"distributed.cli.{program}", *words]
        surroundings = os.environ | {
            "PYTHONPATH": str(path),
            "DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": "1",
            # Dask goes on knocking at a worker that was killed for so long.
            "DASK_DISTRIBUTED__COMM__TIMEOUTS__CONNECT": "2s",
        }
        with (self.folder / "log").open("ab") as log:
            started = subprocess.Popen(
                [*command, "--no-dashboard"],
                cwd=self.folder,
                env=surroundings,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
        self.started.append(started)

    @property
    def scratch(self) -> list[Path]:
        """The folders in which workers build."""
        return list(self.folder.glob("dask-scratch-space*/*/onlot-*"))

    def end(self, *started: subprocess.Popen[bytes]) -> None:
        """End what was started, or some of it."""
        for one in started or self.started:
            with suppress(ProcessLookupError):
                os.killpg(one.pid, signal.SIGKILL)  # with the workers of a nanny
            one.wait()


@contextmanager
def asked(cluster: Local) -> Iterator[Client]:
    """Ask a cluster as its keeper would."""
    client = Client(cluster.address, set_as_default=False, timeout=SECONDS)
    try:
        yield client
    finally:
        client.close()


def begun(client: Client) -> Counter[object]:
    """Count how often each call was begun, of all that were ever sent."""
    log = client.run_on_scheduler(
        lambda dask_scheduler: [
            (entry[0], entry[2]) for entry in dask_scheduler.transition_log
        ]
    )
    return Counter(key for key, state in log if state == "processing")


@contextmanager
def killing(cluster: Local, client: Client, job: str) -> Iterator[list[int]]:
    """Kill the worker that builds a job, once; give its process."""
    killed: list[int] = []
    ended = Event()

    def watch() -> None:
        while not ended.is_set() and not killed:
            for place in cluster.scratch:
                if (place / "firm" / "inspections" / f"{job}.yaml").exists():
                    kill(place)
            time.sleep(0.005)

    def kill(place: Path) -> None:
        homes = client.run(
            lambda dask_worker: (dask_worker.local_directory, os.getpid()),
            on_error="ignore",
        )
        for home, process in homes.values():
            if home == str(place.parent):
                os.kill(process, signal.SIGKILL)
                killed.append(process)

    thread = Thread(target=watch)
    thread.start()
    try:
        yield killed
    finally:
        ended.set()
        thread.join()
