"""Time all results of one full job beside reading and checking its file.

Run from the top of the project with ``python tests/benchmarks/results_time.py``. All
modules are imported before the clock starts. It prints medians of interleaved runs and
their ratio; 50 ms on an idle machine is the most to accept for the results.
"""

from __future__ import annotations

import platform
import statistics
import time
from pathlib import Path

from generator.codes.layers import code_for
from generator.record.load import Workspace, load
from generator.results.compute import compute

TOP = Path(__file__).parents[2]
JOBS = ("demo-larch-hollow", "demo-cattail-lake")
RUNS = 25


def main() -> None:
    """Time both steps in turn and print the table."""
    print(f"Python {platform.python_version()}, {platform.machine()}, {RUNS} runs each")
    for job in JOBS:
        pairs = []
        for _ in range(RUNS + 1):
            start = time.perf_counter()
            record = load(Workspace(TOP), job)
            read = time.perf_counter()
            found = compute(record, code_for(record))
            pairs.append((read - start, time.perf_counter() - read))
        base, work = (
            statistics.median(column) for column in zip(*pairs[1:], strict=True)
        )
        print(f"{job}, {len(found.all)} results")
        print(f"  read and check   {base * 1000:6.1f} ms")
        print(f"  all results      {work * 1000:6.1f} ms")
        print(f"  ratio            {work / base:6.2f}")


if __name__ == "__main__":
    main()
