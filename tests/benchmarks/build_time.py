"""Time a build of both demonstration sites from nothing, beside one bare site build.

Run from the top of the project with ``python tests/benchmarks/build_time.py``. The
baseline is ``mkdocs build`` in a process of its own on one of the page trees.
"""

from __future__ import annotations

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

RUNS = 5
ROOT = Path(__file__).resolve().parents[2]


def seconds(command: list[str], folder: Path) -> float:
    """Time one run of a command in a folder. [s]"""
    start = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True, cwd=folder)
    return time.perf_counter() - start


def main() -> None:
    """Build in a fresh workspace each time and print the medians."""
    ours, bare = [], []
    for _ in range(RUNS):
        with tempfile.TemporaryDirectory() as name:
            firm = Path(name) / "firm"
            shutil.copytree(ROOT / "inspections", firm / "inspections")
            build = ["-m", "generator", "--workspace", str(firm), "build"]
            ours.append(seconds([sys.executable, *build], ROOT))
            tree = firm / "build" / "trees" / "demo-larch-hollow"
            mkdocs = ["-m", "mkdocs", "build", "-q", "-d", f"{name}/bare"]
            bare.append(seconds([sys.executable, *mkdocs], tree))
    both, one = statistics.median(ours), statistics.median(bare)
    print(f"onlot build, two sites from nothing   {both:5.2f} s")
    print(f"mkdocs build, one of the page trees   {one:5.2f} s")
    print(f"ratio                                 {both / one:5.2f}")


if __name__ == "__main__":
    main()
