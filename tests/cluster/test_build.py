"""A build on a cluster: the same bytes, whatever becomes of its workers."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.cluster import asking, maker
from generator.cluster.parcel import parcel_of
from generator.record.load import Workspace
from tests.cluster.firm import SMALL_JOBS, WRONG, small, with_history
from tests.cluster.local import SECONDS, Local, asked, begun, killing
from tests.conftest import SECRET
from tests.test_workers import children_of, files, heed_interrupts
from tests.trail.scripted import JOB, ROOT

UNCHANGED = "1 problem; nothing published has changed."


@pytest.fixture(scope="module")
def _secret() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("ONLOT_LINK_SECRET", SECRET)
        yield


@pytest.fixture(scope="module")
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Local]:
    """Two workers, one of them with three threads; both come back when killed."""
    made = Local(tmp_path_factory.mktemp("cluster") / "empty")
    made.begin()
    made.worker("--nthreads", "1")
    made.worker("--nthreads", "3")
    yield made
    made.end()


@pytest.fixture(scope="module")
def lonely(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Local]:
    """A scheduler without workers."""
    made = Local(tmp_path_factory.mktemp("lonely") / "empty")
    made.begin()
    yield made
    made.end()


@pytest.fixture(scope="module")
def whole(
    cluster: Local, tmp_path_factory: pytest.TempPathFactory, _secret: None
) -> tuple[Workspace, Result]:
    """A firm with a history, built by one process of this machine."""
    firm = with_history(tmp_path_factory.mktemp("whole") / "firm").workspace
    return firm, build(firm, "--all", "--jobs", "1", "--out", str(firm.root / "by-1"))


@pytest.fixture
def few(tmp_path: Path) -> Workspace:
    """A few small jobs of one firm."""
    place = Workspace(tmp_path / "firm")
    small(place)
    shutil.copy(ROOT / "inspections" / "firm.yaml", place.inspections)
    return place


@pytest.fixture
def one(few: Workspace) -> Workspace:
    """The first of them."""
    for job in SMALL_JOBS[1:]:
        few.job_file(job).unlink()
    return few


def build(firm: Workspace, *words: str) -> Result:
    return CliRunner().invoke(main, ["--workspace", str(firm.root), "build", *words])


def on(cluster: Local, firm: Workspace, *words: str) -> Result:
    return build(firm, "--cluster", cluster.address, *words)


def problems(run: Result) -> list[str]:
    """Give what was told, without the pages and the bar."""
    lines = run.output.splitlines()
    return [line for line in lines if "/by-" not in line and "jobs built" not in line]


def test_the_same_bytes_and_the_same_sentences(
    cluster: Local, whole: tuple[Workspace, Result], monkeypatch: pytest.MonkeyPatch
) -> None:
    firm, here = whole
    most = []
    send = asking.Cluster.send

    def watched(one: asking.Cluster, *words: object) -> None:
        send(one, *words)  # type: ignore[arg-type]
        most.append(len(one._under_way))

    monkeypatch.setattr(asking.Cluster, "send", watched)
    monkeypatch.setattr(asking, "EACH_THREAD", 1)
    monkeypatch.setattr(maker, "EACH_THREAD", 1)
    shutil.rmtree(firm.root / "build")  # nothing of the first build helps the second
    there = on(cluster, firm, "--all", "--out", str(firm.root / "by-cluster"))
    assert here.exit_code == there.exit_code == 1
    assert any(f"inspections/{WRONG}.yaml" in line for line in problems(there))
    assert problems(here) == problems(there)
    assert max(most) <= 4
    sites = files(firm.root / "by-1")
    assert any(path.endswith("logo.jpg") for path in sites)
    assert sites == files(firm.root / "by-cluster")
    assert cluster.scratch == []


def test_what_is_kept_here_travels_along(
    cluster: Local, whole: tuple[Workspace, Result], monkeypatch: pytest.MonkeyPatch
) -> None:
    firm, _ = whole
    parcels, answers = [], []
    take = maker.take
    monkeypatch.setattr(
        maker,
        "parcel_of",
        lambda *given: parcels.append(one := parcel_of(*given)) or one,
    )
    monkeypatch.setattr(
        maker, "take", lambda *given: answers.append(given[2]) or take(*given)
    )
    out = firm.root / "by-cluster"
    before = files(out)
    assert on(cluster, firm, "--all", "ash", JOB, "--out", str(out)).exit_code == 0
    assert len(parcels) == len(answers) == 2
    sent = {name for parcel in parcels for name in parcel.photographs}
    kept = {path.name for path in (firm.root / "build" / "photos").iterdir()} - {"used"}
    assert sent == kept
    assert len(kept) == 3  # one of each job, and the logo
    assert all(not one["photographs"] and "assets" not in one for one in answers)
    assert files(out) == before


def test_a_worker_that_is_killed_costs_its_jobs_again(
    cluster: Local, few: Workspace
) -> None:
    out = few.root / "by-1"
    build(few, "--all", "--jobs", "1", "--out", str(out))
    with asked(cluster) as client:
        before = begun(client)
        with killing(cluster, client, "fir", most=1) as killed:
            run = on(cluster, few, "--all", "--out", str(few.root / "by-cluster"))
        times = begun(client) - before
    assert run.exit_code == 0, run.output
    assert len(killed) == 1
    assert len(times) == len(SMALL_JOBS)
    assert max(times.values()) == 2  # once more, and not from the beginning
    assert files(out) == files(few.root / "by-cluster")


def test_a_job_that_kills_its_workers_is_told_alone(
    cluster: Local, few: Workspace
) -> None:
    with asked(cluster) as client, killing(cluster, client, "fir", most=9) as killed:
        run = on(cluster, few)
    assert run.exit_code == 1
    assert problems(run)[-3:] == [
        f"inspections/fir.yaml: {maker.DIED}",
        f"  {maker.MEMORY}",
        "1 problem in 1 job; what was published of it before stays as it was.",
    ]
    pages = [
        line.split(":")[0] for line in run.output.splitlines() if "/public" in line
    ]
    assert pages == [job for job in SMALL_JOBS if job != "fir"]
    assert len(killed) == 4  # twice among the others, twice alone


def test_a_worker_of_another_version_refuses_the_build(
    cluster: Local, one: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert on(cluster, one).exit_code == 0
    before = files(one.root / "public")
    monkeypatch.setattr(
        maker, "ours", lambda: {"onlot": "another", "Python or the libraries": "older"}
    )
    run = on(cluster, one, "--all")
    assert run.exit_code == 1
    first, *rest = run.output.splitlines()
    assert first.startswith("--cluster: The worker tcp://127.0.0.1:")
    assert first.endswith(
        " has another version than this machine: onlot, Python or the libraries, "
        "the system or what reads photographs."
    )
    assert rest == [f"  {asking.SAME}", UNCHANGED]
    assert files(one.root / "public") == before


def test_an_interrupt_ends_it_soon(cluster: Local, few: Workspace) -> None:
    command = [sys.executable, "-m", "generator", "--workspace", str(few.root), "build"]
    work = subprocess.Popen(
        [*command, "--cluster", cluster.address],
        cwd=ROOT,
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
        preexec_fn=heed_interrupts,
    )
    deadline = time.monotonic() + SECONDS
    while not cluster.scratch and time.monotonic() < deadline:
        time.sleep(0.01)
    began = time.monotonic()
    work.send_signal(signal.SIGINT)
    printed, said = work.communicate(timeout=SECONDS)
    assert time.monotonic() - began < asking.CLOSE_S + 2
    assert work.returncode == 1
    assert printed + said == "\nAborted!\n"
    assert not (few.root / "public").exists()
    assert children_of(work.pid) == []


def test_no_worker_comes(
    lonely: Local, one: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(asking, "NO_WORKER_S", 1.0)
    run = on(lonely, one)
    assert run.output.splitlines() == [
        f"--cluster: The cluster at {lonely.address} had no worker for 1 seconds.",
        f"  {asking.START_WORKERS}",
        UNCHANGED,
    ]


def test_a_worker_without_onlot_is_named(
    lonely: Local, one: Workspace, tmp_path: Path
) -> None:
    (tmp_path / "old" / "generator").mkdir(parents=True)
    (tmp_path / "old" / "generator" / "__init__.py").touch()
    worker = lonely.worker(path=tmp_path / "old", nanny=False)
    run = on(lonely, one)
    worker.terminate()
    worker.wait(SECONDS)
    first, *rest = run.output.splitlines()
    assert first.startswith("--cluster: The worker tcp://127.0.0.1:")
    assert first.endswith(" has no onlot, or an old one.")
    assert rest == [f"  {asking.SAME}", UNCHANGED]


def test_a_worker_may_come_late(lonely: Local, one: Workspace) -> None:
    worker = lonely.worker(nanny=False)
    run = on(lonely, one)
    worker.terminate()
    worker.wait(SECONDS)
    assert run.exit_code == 0, run.output


def test_the_scheduler_goes_away(lonely: Local, one: Workspace) -> None:
    command = [sys.executable, "-m", "generator", "--workspace", str(one.root), "build"]
    work = subprocess.Popen(
        [*command, "--cluster", lonely.address],
        cwd=ROOT,
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )
    with asked(lonely) as client:
        deadline = time.monotonic() + SECONDS
        while time.monotonic() < deadline and not client.run_on_scheduler(
            lambda dask_scheduler: len(dask_scheduler.tasks)
        ):
            time.sleep(0.05)
    lonely.started[0].kill()
    told, _ = work.communicate(timeout=SECONDS)
    assert told.splitlines() == [
        f"--cluster: {asking.GONE.format(lonely.address)}",
        f"  {asking.AGAIN}",
        UNCHANGED,
    ]
    assert work.returncode == 1


def test_nobody_answers(one: Workspace, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(asking, "CONNECT_S", 0.5)
    run = build(one, "--cluster", "tcp://127.0.0.1:1")
    first, *rest = run.output.splitlines()
    told = "--cluster: No scheduler took us at tcp://127.0.0.1:1 within 0 seconds ("
    assert first.startswith(told)
    assert rest == [f"  {asking.SEE_ADDRESS}", UNCHANGED]


@pytest.mark.parametrize("address", ["127.0.0.1:8786", "http://a:1", "tcp://a", ""])
def test_an_address_of_another_form(one: Workspace, address: str) -> None:
    run = build(one, "--cluster", address)
    assert run.exit_code == 1
    assert run.output.splitlines() == [
        f"--cluster: {asking.WRONG_FORM.format(address)}",
        f"  {asking.AS_TOLD}",
        UNCHANGED,
    ]


def test_the_extra_is_not_installed(
    one: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    run = build(one, "--cluster", "tcp://127.0.0.1:1")
    assert run.output.splitlines() == [
        f"--cluster: {asking.NO_EXTRA}",
        f"  {asking.GET_EXTRA}",
        UNCHANGED,
    ]


def test_a_cluster_has_its_own_processes(one: Workspace) -> None:
    run = build(one, "--cluster", "tcp://127.0.0.1:1", "--jobs", "2")
    assert run.exit_code == 2
    assert run.output.splitlines()[-1] == (
        "Error: --jobs counts processes of this machine; a cluster has its own workers."
    )
