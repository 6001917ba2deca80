"""A build on a cluster: the same bytes, whatever becomes of its workers."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from threading import Timer

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.cluster import asking, maker
from generator.cluster.parcel import parcel_of
from generator.record.load import Workspace
from tests.cluster.firm import SMALL, WRONG, with_history
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
    """Two workers of two threads each, which come back when they are killed."""
    made = Local(tmp_path_factory.mktemp("cluster") / "empty")
    made.begin()
    made.worker("--nworkers", "2", "--nthreads", "2")
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
def firm(whole: tuple[Workspace, Result]) -> Workspace:
    """The same firm."""
    return whole[0]


@pytest.fixture
def one(tmp_path: Path) -> Workspace:
    """A firm with one job, which has a problem and so is quickly done."""
    place = Workspace(tmp_path / "firm")
    place.inspections.mkdir(parents=True)
    shutil.copy(ROOT / "inspections" / "firm.yaml", place.inspections)
    place.job_file(WRONG).write_text(SMALL.replace("11 in", "11"), encoding="utf-8")
    return place


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
    cluster: Local, firm: Workspace
) -> None:
    out = firm.root / "by-cluster"
    with asked(cluster) as client:
        before = begun(client)
        with killing(cluster, client, "fir") as killed:
            run = on(cluster, firm, "--all", "--out", str(out))
        times = begun(client) - before
    assert len(killed) == 1
    assert run.exit_code == 1
    assert "1 problem in 1 job" in run.output  # the one that it always has
    assert len(times) == len(firm.jobs())
    assert max(times.values()) == 2  # once more, and not from the beginning
    assert files(out) == files(firm.root / "by-1")


def test_a_worker_of_another_version_refuses_the_build(
    cluster: Local, firm: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = files(firm.root / "by-1")
    monkeypatch.setattr(
        maker, "ours", lambda: {"onlot": "another", "the libraries": "older"}
    )
    run = on(cluster, firm, "--all", "--out", str(firm.root / "by-1"))
    assert run.exit_code == 1
    first, *rest = run.output.splitlines()[-3:]
    assert first.startswith("--cluster: The worker tcp://127.0.0.1:")
    assert first.endswith(
        " has another version than this machine: onlot, the libraries, "
        "the system or what reads photographs."
    )
    assert rest == [f"  {asking.SAME}", UNCHANGED]
    assert files(firm.root / "by-1") == before


def test_an_interrupt_ends_it_soon(cluster: Local, firm: Workspace) -> None:
    command = [sys.executable, "-m", "generator", "--workspace", str(firm.root)]
    words = ("build", "--all", "-q", "--out", str(firm.root / "by-1"))
    before = files(firm.root / "by-1")
    work = subprocess.Popen(
        [*command, *words, "--cluster", cluster.address],
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
    assert files(firm.root / "by-1") == before
    while children_of(work.pid):  # one that was being ended is gone a moment later
        assert time.monotonic() - began < asking.CLOSE_S + 4
        time.sleep(0.05)


def test_no_worker_comes(
    lonely: Local, one: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(asking, "NO_WORKER_S", 1.0)
    monkeypatch.setattr(asking, "LOOK_S", 0.1)
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
    lonely.worker("--no-nanny", path=tmp_path / "old")
    run = on(lonely, one)
    lonely.end(lonely.started.pop())
    first, *rest = run.output.splitlines()
    assert first.startswith("--cluster: The worker tcp://127.0.0.1:")
    assert first.endswith(" has no onlot, or an old one.")
    assert rest == [f"  {asking.SAME}", UNCHANGED]


def test_a_worker_may_come_late(lonely: Local, one: Workspace) -> None:
    lonely.worker("--no-nanny")
    run = on(lonely, one)
    lonely.end(lonely.started.pop())
    first = f'inspections/{WRONG}.yaml:10: tanks[0].sludge: "11" has no unit.'
    assert run.output.splitlines()[0] == first


def test_the_scheduler_goes_away(lonely: Local, one: Workspace) -> None:
    timer = Timer(1.0, lambda: lonely.end(lonely.started.pop()))
    timer.start()
    run = on(lonely, one)
    timer.join()
    assert run.exit_code == 1
    assert run.output.splitlines() == [
        f"--cluster: {asking.GONE.format(lonely.address)}",
        f"  {asking.AGAIN}",
        UNCHANGED,
    ]


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


def test_tls_needs_certificates(one: Workspace) -> None:
    run = build(one, "--cluster", "tls://127.0.0.1:1")
    assert run.output.splitlines() == [
        f"--cluster: {asking.NO_TLS}",
        f"  {asking.GET_TLS}",
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
