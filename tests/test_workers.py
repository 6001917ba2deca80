"""Jobs built side by side: the same bytes, and one that fails stops no other."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
import time
from collections.abc import Iterable
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from click.testing import CliRunner

import generator.pictures
import generator.site
from generator import progress, workers
from generator.cli import main
from generator.record.load import Workspace
from generator.standing import Standing
from generator.trail.past import Past
from generator.workers import DIED, Bench, Outcome, Task, built
from tests.trail.scripted import ROOT

SMALL = (ROOT / "generator" / "start" / "files" / "example.yaml").read_text("utf-8")
JOBS = ("ash", "elm", "fir", "oak", "yew")


@pytest.fixture
def firm(tmp_path: Path) -> Workspace:
    """Five small jobs of one firm."""
    return small_jobs(tmp_path / "firm", JOBS)


def small_jobs(root: Path, jobs: Iterable[str]) -> Workspace:
    """Write small jobs, each at an address of its own."""
    place = Workspace(root)
    place.inspections.mkdir(parents=True)
    firm = (ROOT / "inspections" / "firm.yaml").read_bytes()
    (place.inspections / "firm.yaml").write_bytes(firm)
    for number, job in enumerate(jobs, 1):
        text = SMALL.replace("1 Example Lane", f"{number} Example Lane")
        place.job_file(job).write_text(text, encoding="utf-8")
    return place


@pytest.fixture
def two(firm: Workspace) -> Workspace:
    """The first two of them, which are built without another process."""
    for job in JOBS[2:]:
        firm.job_file(job).unlink()
    return firm


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def tasks() -> list[Task]:
    return [Task(job, "a" * 32, Standing()) for job in JOBS]


def heed_interrupts() -> None:
    """Let an interrupt through, which a test run in the background ignores."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


def start(firm: Workspace, *words: str, **how: object) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "generator", "--workspace", str(firm.root)]
    return subprocess.Popen(
        [*command, "build", *words],
        cwd=ROOT,
        text=True,
        start_new_session=True,
        preexec_fn=heed_interrupts,
        **how,
    )  # type: ignore[call-overload]  # a test passes what Popen takes


def test_the_same_bytes_by_one_process_and_by_three(firm: Workspace) -> None:
    for processes in ("1", "3"):
        run = CliRunner().invoke(
            main,
            ["--workspace", str(firm.root), "build", "--all", "--jobs", processes,
             "--out", str(firm.root / f"by-{processes}")],
        )  # fmt: skip
        assert run.exit_code == 0, run.output
        pages = [line.split(":")[0] for line in run.output.splitlines()]
        assert pages[-len(JOBS) :] == list(JOBS)
    assert files(firm.root / "by-1") == files(firm.root / "by-3")


def test_problems_come_back_from_the_process_that_found_them(firm: Workspace) -> None:
    firm.job_file("fir").write_text(SMALL.replace("11 in", "11"), encoding="utf-8")
    firm.job_file("yew").write_text("visit:\n", encoding="utf-8")
    run = CliRunner().invoke(
        main, ["--workspace", str(firm.root), "build", "--jobs", "2"]
    )
    assert run.exit_code == 1
    told = run.output.splitlines()
    assert 'inspections/fir.yaml:10: tanks[0].sludge: "11" has no unit.' in told
    assert told[-1].endswith(
        " problems in 2 jobs; what was published of them before stays as it was."
    )
    assert [line.split(":")[0] for line in told if "/public/" in line] == [
        job for job in JOBS if job not in ("fir", "yew")
    ]


def killed_at(job: str, times: Path, most: int) -> object:
    """Give a stand-in for the work of a process, which kills its own at one job."""
    script = times.with_name("sitecustomize.py")
    script.write_text(
        "import os\n"
        "import generator.workers as workers\n"
        "def build(bench, task):\n"
        f"    with open({str(times)!r}, 'a+') as file:\n"
        "        file.seek(0)\n"
        f"        dies = task.job == {job!r} and len(file.read()) < {most}\n"
        "        if dies:\n"
        "            file.write('x')\n"
        "    if dies:\n"
        "        os._exit(9)\n"
        "    return bench.folder / task.job\n"
        "workers._build = build\n",
        encoding="utf-8",
    )
    return script


@pytest.mark.parametrize(("deaths", "dies"), [(1, False), (9, True)])
def test_a_process_that_dies_costs_its_jobs_again(
    firm: Workspace,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    deaths: int,
    dies: bool,
) -> None:
    killed_at("fir", tmp_path / "times", deaths)
    paths = (str(tmp_path), str(ROOT), os.environ.get("PYTHONPATH", ""))
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join(paths))
    bench = Bench(firm, Past(None), firm.root / "build")
    told: list[str] = []
    found: dict[str, Outcome] = built(bench, tasks(), told.append, processes=2)
    assert list(found) == list(JOBS)
    assert sorted(told) == sorted(JOBS)
    wrong = {job: one for job, one in found.items() if not isinstance(one, Path)}
    assert list(wrong) == (["fir"] if dies else [])
    for one in wrong.values():
        assert str(one).startswith(f"inspections/fir.yaml: {DIED}")


@pytest.mark.parametrize("broken", ["compose", "draw"])
def test_a_fault_of_onlot_at_one_job_leaves_the_others_alone(
    two: Workspace, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    asked = ["--workspace", str(two.root), "build", "--jobs", "1"]
    assert CliRunner().invoke(main, asked).exit_code == 0
    before = files(two.root / "public")
    for job in ("ash", "elm"):
        text = two.job_file(job).read_text("utf-8")
        two.job_file(job).write_text(text.replace("Example Lane", "New Road"), "utf-8")
    place = generator.site if broken == "compose" else generator.pictures
    whole = getattr(place, broken)

    def breaks(told: Any) -> object:
        if "2 New Road" in str(getattr(told, "record", told)):
            raise KeyError("no such word")
        return whole(told)

    monkeypatch.setattr(place, broken, breaks)
    run = CliRunner().invoke(main, asked)
    assert run.exit_code == 1
    assert run.stderr.splitlines()[-3:] == [
        "inspections/elm.yaml: onlot broke off at this job, which is a fault of onlot: "
        "KeyError: 'no such word'.",
        "  Give build/faults/elm.txt and the job file to whoever keeps onlot; no other "
        "job waits for it.",
        "1 problem in 1 job; what was published of it before stays as it was.",
    ]
    told = (two.root / "build/faults/elm.txt").read_text("utf-8")
    assert told.startswith("Traceback (most recent call last):")
    assert 'raise KeyError("no such word")' in told
    after = files(two.root / "public")
    changed = {name.split("/")[0] for name in after if after[name] != before.get(name)}
    assert changed == {run.stdout.split("public/")[1].split("/")[0]}


def test_a_full_disk_is_no_fault_of_one_job(
    two: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(generator.site.tree, "write_tree", full)
    asked = ["--workspace", str(two.root), "build", "--jobs", "1"]
    told = CliRunner().invoke(main, asked).output
    assert "could not be put here: No space left on device." in told
    assert "broke off" not in told


def test_few_jobs_begin_no_process(
    firm: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        pytest.fail("a process was begun")

    monkeypatch.setattr(workers, "_side_by_side", refuse)
    bench = Bench(firm, Past(None), firm.root / "build")
    few = tasks()[: workers.FEWEST - 1]
    assert all(
        isinstance(one, Path) for one in built(bench, few, str, processes=8).values()
    )


def children_of(group: int) -> list[str]:
    found = subprocess.run(
        ["ps", "-o", "pid=,stat=", "-g", str(group)],
        capture_output=True,
        text=True,
        check=False,
    )
    return [line for line in found.stdout.splitlines() if " Z" not in line]


def test_an_interrupt_ends_it_and_leaves_what_is_published(firm: Workspace) -> None:
    assert start(firm, "-q").wait() == 0
    before = files(firm.root / "public")
    work = start(firm, "--all", "--jobs", "2", stderr=subprocess.PIPE)
    time.sleep(1.5)
    os.killpg(work.pid, signal.SIGINT)
    _, said = work.communicate(timeout=30)
    assert work.returncode == 1
    assert "Traceback" not in said
    assert files(firm.root / "public") == before
    assert children_of(work.pid) == []


def test_quiet_prints_problems_alone(two: Workspace) -> None:
    asked = ["--workspace", str(two.root), "build", "-q"]
    assert CliRunner().invoke(main, asked).output == ""
    two.job_file("elm").write_text("visit:\n", encoding="utf-8")
    told = CliRunner().invoke(main, asked).output
    assert told.startswith("inspections/elm.yaml:")


def test_of_many_unchanged_jobs_only_the_built_are_named(
    two: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("generator.cli_build.MOST_PAGES", 1)
    asked = ["--workspace", str(two.root), "build"]
    CliRunner().invoke(main, asked)
    two.job_file("ash").write_text(SMALL.replace("11 in", "12 in"), "utf-8")
    told = CliRunner().invoke(main, asked).output.splitlines()
    assert told[0] == "1 of 2 jobs had not changed."
    assert [line.split(":")[0] for line in told[1:]] == ["ash"]
    named = CliRunner().invoke(main, [*asked, "elm"]).output.splitlines()
    assert [line.split(":")[0] for line in named[1:]] == ["elm"]


def test_a_terminal_shows_a_bar(two: Workspace) -> None:
    ours, theirs = pty.openpty()
    seen: list[bytes] = []

    def read() -> None:
        try:
            while part := os.read(ours, 4096):
                seen.append(part)
        except OSError:  # the other end was closed
            pass

    work = start(two, "--all", stdout=theirs, stderr=theirs)
    os.close(theirs)
    reader = Thread(target=read)
    reader.start()
    assert work.wait(timeout=60) == 0
    reader.join()
    text = b"".join(seen).decode()
    assert "Building" in text
    assert "2/2" in text
    assert "jobs/s" in text


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """A clock that a test turns by hand."""
    now = [0.0]
    monkeypatch.setattr(progress.time, "monotonic", lambda: now[0])
    return now


def test_a_log_gets_few_lines(
    clock: list[float], capsys: pytest.CaptureFixture[str]
) -> None:
    with progress.lines(2_000) as done:
        for number in range(2_000):
            clock[0] += 0.01
            done(str(number))
    told = capsys.readouterr().err.splitlines()
    assert len(told) == 2_000 // progress.EACH - 1
    assert told[0] == "100 of 2,000 jobs built"


def test_slow_jobs_are_told_by_time(
    clock: list[float], capsys: pytest.CaptureFixture[str]
) -> None:
    with progress.lines(30) as done:
        for number in range(30):
            clock[0] += 4
            done(str(number))
    assert capsys.readouterr().err.splitlines()[:2] == [
        "3 of 30 jobs built",
        "6 of 30 jobs built",
    ]
