"""Time ``onlot check`` on one demonstration file beside the imports it cannot avoid.

Run from the top of the project with ``python tests/benchmarks/check_time.py``. It
prints medians of interleaved runs and their ratio; 3 is the most to accept.
"""

from __future__ import annotations

import platform
import statistics
import subprocess
import sys
import time

RUNS = 15
BASELINE = [sys.executable, "-c", "import yaml, jsonschema"]
CHECK = [sys.executable, "-m", "generator", "check", "demo-larch-hollow"]


def seconds(command: list[str]) -> float:
    """Time one run of a command. [s]"""
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return time.perf_counter() - start


def main() -> None:
    """Time both commands in turn and print the table."""
    for command in (BASELINE, CHECK):
        seconds(command)  # warms the disk
    pairs = [(seconds(BASELINE), seconds(CHECK)) for _ in range(RUNS)]
    base, check = (statistics.median(column) for column in zip(*pairs, strict=True))
    print(f"Python {platform.python_version()}, {platform.machine()}, {RUNS} runs each")
    print(f"import yaml, jsonschema   {base * 1000:6.0f} ms")
    print(f"onlot check, one file     {check * 1000:6.0f} ms")
    print(f"ratio                     {check / base:6.2f}")


if __name__ == "__main__":
    main()
