"""Jobs built on a Dask cluster: parcels go out, sites come back, and lie here.

A worker that is lost costs its jobs again: Dask sees to it. A job that lost its workers
is sent once more, alone, so that none is blamed for its neighbor.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Sequence

from generator.cluster.answers import take
from generator.cluster.asking import (
    EACH_THREAD,
    OTHER,
    SAME,
    Cluster,
    WorkerLost,
    checked,
    cluster,
    refused,
)
from generator.cluster.parcel import parcel_of
from generator.cluster.themes import Themes
from generator.cluster.versions import ours
from generator.cluster.work import Answer, work
from generator.faults import fault
from generator.problems import Problem, Refused
from generator.workers import Bench, Outcome, Task, settle
from generator.workers import built as built_here

DIED = "The workers that built this job were ended from outside, more than once."
MEMORY = "See to the free memory of the workers."
CANNOT = "The worker {} cannot work: {}."
SEE_TO_IT = "See to its disk, or take it out of the cluster."


def built(
    bench: Bench, tasks: Sequence[Task], done: Callable[[str], None], *, address: str
) -> dict[str, Outcome]:
    """Build jobs on a cluster; a ``generator.workers.Maker``.

    Parameters
    ----------
    bench : Bench
        The firm's folder, its history, and the folder that takes the sites.
    tasks : sequence of Task
        The jobs.
    done : callable
        Told the name of each job when it is done, in whatever order.
    address : str
        Where the scheduler of the cluster is.

    Returns
    -------
    dict of str to pathlib.Path or Refused
        The folder of each site, or what is wrong with its job, in the order of the
        tasks.

    Raises
    ------
    Refused
        Where the cluster cannot do it.
    """
    checked(address)
    if not tasks:
        return {}
    settle()
    with cluster(address) as found:
        desk = _Desk(bench, found, done)
        for one in desk.through(tasks):
            for lost in desk.through([one]):
                desk.tell(lost.job, _died(bench, lost))
        desk.themes.drop_unused()
    desk.outcomes |= built_here(bench, desk.stay, done)
    return {one.job: desk.outcomes[one.job] for one in tasks}


class _Desk:
    """Sends parcels, and takes what comes back."""

    def __init__(
        self, bench: Bench, cluster: Cluster, done: Callable[[str], None]
    ) -> None:
        self.bench = bench
        self.cluster = cluster
        self.done = done
        self.themes = Themes(bench.folder)
        self.outcomes: dict[str, Outcome] = {}
        self.stay: list[Task] = []  # better built here
        self.lost: list[str] = []

    def through(self, tasks: Sequence[Task]) -> list[Task]:
        """Build jobs; give back those whose workers were lost."""
        self.lost = []
        for task in tasks:
            # Until the theme is here, every answer brings it along.
            while self.cluster.full(EACH_THREAD if self.themes.known else 1):
                self._take()
            self._send(task)
        while self.cluster.busy:
            self._take()
        return [one for one in tasks if one.job in self.lost]

    def tell(self, job: str, outcome: Outcome) -> None:
        """Write down what came of a job."""
        self.outcomes[job] = outcome
        self.done(job)

    def _send(self, task: Task) -> None:
        try:
            parcel = parcel_of(self.bench, task, self.themes.known)
        except Refused as refusal:
            self.tell(task.job, refusal)
            return
        if parcel is None:
            self.stay.append(task)
        else:
            self.cluster.send(task.job, work, ours(), pickle.dumps(parcel))

    def _take(self) -> None:
        job, answer = self.cluster.next()
        if isinstance(answer, WorkerLost):
            self.lost.append(job)
        else:
            self.tell(job, self._outcome(job, answer))

    def _outcome(self, job: str, answer: Answer) -> Outcome:
        worker = answer["worker"]
        if "unlike" in answer:
            raise refused(OTHER.format(worker, ", ".join(answer["unlike"])), SAME)
        if "cannot" in answer:
            raise refused(CANNOT.format(worker, answer["cannot"]), SEE_TO_IT)
        if "failed" in answer:
            return fault(self.bench.workspace, self.bench.folder, job, answer["failed"])
        if "problems" in answer:
            return Refused(answer["problems"])
        return take(self.bench.folder, job, answer, self.themes)


def _died(bench: Bench, task: Task) -> Refused:
    file = bench.workspace.shown(bench.workspace.job_file(task.job))
    return Refused([Problem(file, 0, "", DIED, MEMORY)])
