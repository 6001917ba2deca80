"""Time ``onlot check`` over 100, 500 and 1,000 job files, and its peak of memory.

Run from the top of the project with ``python tests/benchmarks/check_many.py``. The jobs
are copies, half of them of the demonstration jobs with their photographs, half of the
good test jobs. The baseline reads the same files with PyYAML and holds them against the
schema, in a process of its own. At most 20 s for 1,000 files, and memory that does not
grow with their number.
"""

from __future__ import annotations

import itertools
import os
import platform
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COUNTS = (100, 500, 1000)
MOST_S = 20.0  # for the last of them
MOST_GROWTH_MIB = 10.0  # from the first to the last; our choice
KIB_PER_MIB = 1024
NAIVE = """
import json, pathlib, sys, yaml
from jsonschema import Draft202012Validator
top = pathlib.Path(sys.argv[1])
check = Draft202012Validator(json.loads(pathlib.Path(sys.argv[2]).read_text()))
for job in sorted((top / "inspections").glob("*.yaml")):
    try:
        data = yaml.safe_load(job.read_text(encoding="utf-8"))
    except yaml.YAMLError:  # the compiled parser follows what this one does not
        continue
    sum(1 for _ in check.iter_errors(data))
"""


@dataclass(frozen=True)
class Run:
    """One run of a command: how long, and how much memory at its peak. [s], [MiB]"""

    seconds: float
    peak_mib: float
    code: int


def workspace(top: Path, count: int) -> Path:
    """Lay out a workspace of so many jobs. [-]"""
    folder = top / str(count) / "inspections"
    folder.mkdir(parents=True)
    ours, good = ROOT / "inspections", ROOT / "tests" / "jobs" / "good"
    shutil.copy(ours / "firm.yaml", folder)
    shown, small = sorted(ours.glob("demo-*.yaml")), sorted(good.glob("*.yaml"))
    each_in_turn = zip(itertools.cycle(shown), itertools.cycle(small), strict=False)
    jobs = itertools.islice(itertools.chain.from_iterable(each_in_turn), count)
    for number, job in enumerate(jobs):
        name = f"{number:04}-{job.stem}"
        shutil.copy(job, folder / f"{name}.yaml")
        pictures = job.parent / job.stem
        if pictures.is_dir():
            shutil.copytree(pictures, folder / name, copy_function=_linked)
    return folder.parent


def _linked(picture: str, place: str) -> None:
    try:
        os.link(picture, place)
    except OSError:  # another disk
        shutil.copy(picture, place)


def run(command: list[str]) -> Run:
    """Run a command and measure it."""
    start = time.perf_counter()
    child = subprocess.Popen(
        command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT
    )
    _, status, used = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - start
    child.returncode = os.waitstatus_to_exitcode(status)
    return Run(seconds, used.ru_maxrss / KIB_PER_MIB, child.returncode)


def main() -> None:
    """Run every size and print the table; exit 1 beyond a limit."""
    print(f"Python {platform.python_version()}, {platform.machine()}, {os.cpu_count()}")
    ours: list[Run] = []
    with tempfile.TemporaryDirectory() as name:
        for count in COUNTS:
            firm = workspace(Path(name), count)
            schema = ROOT / "schemas" / "inspection.schema.json"
            check = run(
                [sys.executable, "-m", "generator", "--workspace", *_check(firm)]
            )
            naive = run([sys.executable, "-c", NAIVE, str(firm), str(schema)])
            assert check.code in (0, 1), "the check broke off"  # 1: problems found
            assert naive.code == 0, "the baseline broke off"
            ours.append(check)
            for label, one in (("onlot check", check), ("yaml, jsonschema", naive)):
                each, ratio = one.seconds / count * 1000, one.seconds / naive.seconds
                print(
                    f"{count:5} jobs  {label:17}{one.seconds:6.2f} s {each:6.1f} ms"
                    f" each{one.peak_mib:7.0f} MiB   ratio {ratio:5.2f}"
                )
    growth = ours[-1].peak_mib - ours[0].peak_mib
    print(f"memory grows by {growth:.1f} MiB from {COUNTS[0]} to {COUNTS[-1]} jobs")
    sys.exit(ours[-1].seconds > MOST_S or growth > MOST_GROWTH_MIB)


def _check(firm: Path) -> list[str]:
    return [str(firm), "check"]


if __name__ == "__main__":
    main()
