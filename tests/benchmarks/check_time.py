"""Time ``onlot check`` on the demonstration files beside the imports it must make.

Run from the top of the project with ``python tests/benchmarks/check_time.py``. It
prints medians of interleaved runs and their ratios; 3 is the most to accept for a job
without a plan, 5 for one whose taped distances are held against its plan.
"""

from __future__ import annotations

import platform
import statistics
import subprocess
import sys
import time

RUNS = 15
BASELINE = [sys.executable, "-c", "import yaml, jsonschema"]
CHECK = [sys.executable, "-m", "generator", "check", "demo-cattail-lake"]
PLANNED = [sys.executable, "-m", "generator", "check", "demo-larch-hollow"]
COMMANDS = {
    "import yaml, jsonschema": BASELINE,
    "onlot check, no plan": CHECK,
    "onlot check, tape and plan": PLANNED,
}


def seconds(command: list[str]) -> float:
    """Time one run of a command. [s]"""
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return time.perf_counter() - start


def main() -> None:
    """Time every command in turn and print the table."""
    for command in COMMANDS.values():
        seconds(command)  # warms the disk
    rows = [[seconds(one) for one in COMMANDS.values()] for _ in range(RUNS)]
    medians = [statistics.median(column) for column in zip(*rows, strict=True)]
    print(f"Python {platform.python_version()}, {platform.machine()}, {RUNS} runs each")
    for name, median in zip(COMMANDS, medians, strict=True):
        ratio = median / medians[0]
        print(f"{name:28}{median * 1000:6.0f} ms   ratio {ratio:5.2f}")


if __name__ == "__main__":
    main()
