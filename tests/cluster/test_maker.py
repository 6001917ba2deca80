"""What is done with the answers of a cluster, told by one that stands in for it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest

from generator.cluster import asking, maker
from generator.cluster.asking import WorkerLost
from generator.problems import Problem, Refused
from generator.record.load import Workspace
from generator.standing import Standing
from generator.trail.past import Past
from generator.workers import Bench, Task
from tests.cluster.firm import SMALL_JOBS, small
from tests.trail.scripted import ROOT

ADDRESS = "tcp://127.0.0.1:1"


class StandIn:
    """A cluster that refuses every job, and is killed by one of them so many times."""

    def __init__(self, deaths: dict[str, int]) -> None:
        self.deaths = deaths
        self.waiting: list[str] = []
        self.sent: list[list[str]] = []

    @property
    def busy(self) -> bool:
        return bool(self.waiting)

    def full(self, each_thread: int) -> bool:
        return len(self.waiting) >= 2 * each_thread

    def send(self, job: str, *_: object) -> None:
        self.waiting.append(job)
        self.sent.append(list(self.waiting))

    def next(self) -> tuple[str, Any]:
        job = self.waiting.pop(0)
        if self.deaths.get(job):
            self.deaths[job] -= 1
            return job, WorkerLost()
        problem = Problem(f"inspections/{job}.yaml", 1, "", "Wrong.")
        return job, {"worker": "w", "problems": (problem,)}


@pytest.fixture
def bench(workspace: Workspace) -> Bench:
    """A firm with small jobs."""
    small(workspace)
    return Bench(workspace, Past(None), workspace.root / "build")


def asked_of(cluster: StandIn, bench: Bench, patch: pytest.MonkeyPatch) -> list[str]:
    @contextmanager
    def given(address: str) -> Iterator[StandIn]:
        assert address == ADDRESS
        yield cluster

    patch.setattr(maker, "cluster", given)
    told: list[str] = []
    tasks = [Task(job, "a" * 32, Standing()) for job in SMALL_JOBS]
    found = maker.built(bench, tasks, told.append, address=ADDRESS)
    assert list(found) == sorted(told) == list(SMALL_JOBS)
    assert all(isinstance(one, Refused) for one in found.values())
    return [str(one) for one in found.values()]


def test_a_fault_of_onlot_on_a_worker_is_told_as_one_of_its_job(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Broken(StandIn):
        def next(self) -> tuple[str, Any]:
            told = "Traceback\n  somewhere\nKeyError: 'x'\n"
            return self.waiting.pop(0), {"worker": "w", "failed": told}

    found = asked_of(Broken({}), bench, monkeypatch)
    for job, told in zip(SMALL_JOBS, found, strict=True):
        assert told.startswith(
            f"inspections/{job}.yaml: onlot broke off at this job, which is a fault of "
            "onlot: KeyError: 'x'.\n"
        )
        kept = bench.folder / "faults" / f"{job}.txt"
        assert kept.read_text().startswith("Traceback\n  somewhere\n")


@pytest.mark.parametrize(("deaths", "dies"), [(1, False), (2, True)])
def test_a_job_that_lost_its_workers_is_sent_once_more_alone(
    bench: Bench, monkeypatch: pytest.MonkeyPatch, deaths: int, dies: bool
) -> None:
    cluster = StandIn({"ash": deaths})
    found = asked_of(cluster, bench, monkeypatch)
    assert cluster.sent == [["ash"], ["ash", "fir"], ["ash"]]
    died = f"inspections/ash.yaml: {maker.DIED}\n  {maker.MEMORY}"
    assert found[0] == (died if dies else "inspections/ash.yaml:1: Wrong.")
    assert found[1] == "inspections/fir.yaml:1: Wrong."


def test_a_worker_that_cannot_work_is_named(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    cluster = StandIn({})
    full = {"worker": "tcp://w:1", "cannot": "No space left on device"}
    monkeypatch.setattr(cluster, "next", lambda: ("ash", full))
    with pytest.raises(Refused) as refused:
        asked_of(cluster, bench, monkeypatch)
    assert str(refused.value) == (
        "--cluster: The worker tcp://w:1 cannot work: No space left on device.\n"
        f"  {maker.SEE_TO_IT}"
    )


def test_a_job_whose_files_are_links_is_built_here(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = bench.workspace.job_file("ash")
    file.unlink()
    file.symlink_to(ROOT / "inspections" / "demo-cattail-lake.yaml")
    cluster = StandIn({})
    found = asked_of(cluster, bench, monkeypatch)
    assert cluster.sent == [["fir"]]
    assert found[0].startswith(
        "inspections/ash.yaml: This link leads out of inspections/."
    )


class Answered:
    """A call of a cluster that has come to its end."""

    def __init__(self, error: Exception) -> None:
        self.error = error

    def result(self, timeout: float) -> object:
        raise self.error


class Client:
    """A client whose scheduler has some threads."""

    status = "running"

    class scheduler:  # noqa: N801  # as Dask calls it
        ncores = None

    def sync(self, asked: object, callback_timeout: float) -> dict[str, int]:
        return {"tcp://a:1": 3, "tcp://b:1": 1}


def test_a_job_that_killed_its_workers_is_known() -> None:
    from distributed import KilledWorker

    cluster = asking.Cluster(Client(), ADDRESS)
    killed = KilledWorker(("onlot", 1), None, 3)  # type: ignore[arg-type]
    assert isinstance(cluster._fetched(Answered(killed)), WorkerLost)


def test_few_calls_are_under_way_for_each_thread_and_fewer_heavy_ones(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    cluster = asking.Cluster(Client(), ADDRESS)
    small_one = asking._Sent("ash", None, 1)
    cluster._under_way = dict.fromkeys(range(63), small_one)
    assert not cluster.full()
    assert cluster.full(each_thread=1)
    cluster._under_way = dict.fromkeys(range(64), small_one)
    assert cluster.full()
    heavy = asking._Sent("ash", None, asking.MOST_BYTES)
    cluster._under_way = dict.fromkeys(range(3), heavy)
    assert not cluster.full()  # a thread would stand idle
    cluster._under_way = dict.fromkeys(range(4), heavy)
    assert cluster.full()
