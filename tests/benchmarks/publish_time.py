"""Time publishing one changed client among 20 and among 2,000, and nothing among 2,000.

Run from the top of the project with ``python tests/benchmarks/publish_time.py``. Each
client has 30 small files. Runs take turns; medians are printed. 1.5 is the most to
accept for the ratio: a build costs what changes, and not what is kept.
"""

from __future__ import annotations

import os
import platform
import statistics
import tempfile
import time
from pathlib import Path

from generator.website.links import folder_name
from generator.website.publish import Edition, publish

FEW, MANY = 20, 2000
FILES = 30
RUNS = 5
WARMING = 3  # the disk still writes what was laid out; our choice
MOST = 1.5
SECRET = b"a secret for a benchmark"


def site(folder: Path, word: str) -> Path:
    """Lay out a built site of small files and a theme."""
    (folder / "assets").mkdir(parents=True)
    (folder / "assets/onlot.css").write_text("body {}\n" * 100)
    for number in range(FILES):
        page = f'<link href="assets/onlot.css">{word} {number}\n' * 40
        (folder / f"page-{number}.html").write_text(page)
    return folder


def archive(top: Path, clients: int) -> Path:
    """Publish so many clients."""
    names = [folder_name(SECRET, str(number), 1) for number in range(clients)]
    sites = {name: site(top / f"sites-{clients}" / name, name) for name in names}
    public = top / f"public-{clients}"
    publish(Edition(sites), public)
    return public


def seconds(edition: Edition, public: Path) -> float:
    """Time one publication, with nothing else waiting for the disk. [s]"""
    os.sync()
    start = time.perf_counter()
    publish(edition, public)
    return time.perf_counter() - start


def main() -> None:
    """Publish in turn and print the table."""
    client = folder_name(SECRET, "0", 1)
    with tempfile.TemporaryDirectory() as name:
        top = Path(name)
        few, many = archive(top, FEW), archive(top, MANY)
        rows = []
        for run in range(WARMING + RUNS):
            changed = Edition({client: site(top / f"new-{run}", f"run {run}")})
            rows.append(
                (
                    seconds(changed, few),
                    seconds(changed, many),
                    seconds(Edition(), many),
                )
            )
    one, other, nothing = map(statistics.median, zip(*rows[WARMING:], strict=True))
    print(f"Python {platform.python_version()}, {platform.machine()}, {RUNS} runs each")
    print(f"one changed client among {FEW:5,}   {one * 1000:8.1f} ms")
    print(f"one changed client among {MANY:5,}   {other * 1000:8.1f} ms")
    print(f"nothing new among        {MANY:5,}   {nothing * 1000:8.1f} ms")
    print(f"ratio {other / one:.2f}; at most {MOST}")


if __name__ == "__main__":
    main()
