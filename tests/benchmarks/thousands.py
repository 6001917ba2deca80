"""Measure what a build costs from twenty clients to thousands, and print the table.

Run from the top of the project with ``python tests/benchmarks/thousands.py``; it takes
half an hour. All that is compared is measured in the same run, in turn; medians are
printed. The plain way is one ``mkdocs build`` process for each client on the same page
tree, and one fresh process that draws its figures.

The clients are invented: the demonstrations and the systems of ``tests/jobs/good``, in
equal shares, without photographs, each with an address and readings of its own. The
two thousand are copies of the small example job, committed to git.
"""

from __future__ import annotations

import os
import platform
import re
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from importlib import metadata
from itertools import cycle, islice
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
GOOD = ROOT / "tests" / "jobs" / "good"
CLIENTS, MANY, FEW, LONG = 200, 2000, 20, 500
RUNS = 3
SECRET = {"ONLOT_LINK_SECRET": "a secret for a benchmark"}
LIBRARIES = ("mkdocs", "mkdocs-material", "markdown", "matplotlib", "jinja2")
DRAW = """
import sys
import matplotlib.figure  # as the library comes, with all that we leave out
from pathlib import Path
from generator.pictures import draw
from generator.record.load import Workspace
from generator.worked import work_out
found = draw(work_out(Workspace(Path(sys.argv[1])), sys.argv[2]))
for name, (_, image) in found.items():
    Path(sys.argv[3], f"{name}.svg").write_bytes(image)
"""
BUILD_AND_WATCH = """
import sys
from contextlib import contextmanager
from pathlib import Path
from generator.pipeline import Order, build
from generator.record.load import Workspace
@contextmanager
def watch(count):
    seen = []
    def done(job):
        seen.append(job)
        if not len(seen) % 100:
            held = Path("/proc/self/status").read_text().split("VmRSS:")[1].split()[0]
            print(int(held) / 1024)
    yield done
place = Workspace(Path(sys.argv[1]))
order = Order(place.jobs(), place.root / "public", "2026-01-01", watch=watch)
build(place, order, str)
"""


@dataclass(frozen=True)
class Cost:
    """What one command took: CPU with its children, and by the clock. [s]"""

    cpu: float
    wall: float


def run(*words: str, cwd: Path = ROOT) -> tuple[Cost, str]:
    """Run this Python and measure it."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    start = time.perf_counter()
    ended = subprocess.run(
        [sys.executable, *words],
        cwd=cwd,
        env={**os.environ, **SECRET, "NO_MKDOCS_2_WARNING": "1"},
        check=True,
        text=True,
        capture_output=True,
    )
    wall = time.perf_counter() - start
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Cost(cpu, wall), ended.stdout


def build(firm: Path, *words: str) -> Cost:
    """Run ``onlot build`` once."""
    asked = ("--workspace", str(firm), "build", "-q", *words)
    return run("-m", "generator", *asked)[0]


def kinds() -> list[str]:
    """Give the text of one job of each kind, photographs taken out."""
    texts = [one.read_text("utf-8") for one in sorted(GOOD.glob("system-*.yaml"))]
    plain = [text for text in texts if "photo" not in text]
    demos = sorted((ROOT / "inspections").glob("demo-*.yaml"))
    return plain + [_without_photographs(one.read_text("utf-8")) for one in demos]


def _without_photographs(text: str) -> str:
    one = r"photo: [\w-]+\.jpg"
    named = re.sub(rf"(?m),\s*{one}|^ +{one}\n|{one},\s*", "", text)
    return re.sub(r"(?ms)^photos:\n(?:(?:[ #-].*)?\n)*?(?=^\S|\Z)", "", named)


def varied(text: str, number: int) -> str:
    """Give a job an address and readings of its own."""
    text = re.sub(r"(address: ['\"]?)\d+", rf"\g<1>{100 + number}", text, count=1)
    text = re.sub(r"(sludge: \d+) in", rf"\1.{number % 10} in", text)
    return re.sub(r"(distance: \d+) ft\b", rf"\1.{number % 3} ft", text)


def firm_of(folder: Path, texts: list[str], count: int) -> Path:
    """Write a firm of so many jobs, the kinds in turn."""
    place = folder / "inspections"
    place.mkdir(parents=True)
    (place / "firm.yaml").write_bytes((ROOT / "inspections/firm.yaml").read_bytes())
    for number, text in enumerate(islice(cycle(texts), count)):
        (place / f"job-{number:05}.yaml").write_text(varied(text, number), "utf-8")
    return folder


def committed(firm: Path) -> Path:
    """Commit a firm's folder."""
    (firm / ".gitignore").write_text("build/\npublic/\n")
    who = ("-c", "user.name=A (invented)", "-c", "user.email=a@example.org")
    for words in (("init", "-q"), ("add", "-A"), (*who, "commit", "-qm", "Begin")):
        subprocess.run(["git", *words], cwd=firm, check=True)
    return firm


def plain_way(firm: Path, jobs: list[str], out: Path) -> float:
    """Build page trees by plain means; give the CPU that all of them took. [s]"""
    spent = 0.0
    for job in jobs:
        tree = firm / "build" / "trees" / job
        drawn = out / job / "figures"
        drawn.mkdir(parents=True)
        site = str(out / job / "site")
        spent += run("-m", "mkdocs", "build", "-q", "-d", site, cwd=tree)[0].cpu
        spent += run("-c", DRAW, str(firm), job, str(drawn))[0].cpu
    return spent


def median(costs: list[Cost], what: Callable[[Cost], float]) -> float:
    """Give the median of one part of costs."""
    return statistics.median(what(one) for one in costs)


def full(top: Path) -> Iterator[str]:
    """Full builds by one process and by two, and the plain way, in turn.

    Half of the plain way is measured before a full build and half after it, so that a
    machine that is slower for some minutes is slower for both.
    """
    texts, one, two, plain = kinds(), [], [], []
    trees = firm_of(top / "trees", texts, len(texts))
    build(trees)
    jobs = [f"job-{at:05}" for at in range(len(texts))]
    for number in range(RUNS):
        out = top / f"plain-{number}"
        before = plain_way(trees, jobs[::2], out)
        one.append(build(firm_of(top / f"one-{number}", texts, CLIENTS), "--jobs", "1"))
        after = plain_way(trees, jobs[1::2], out)
        plain.append((before + after) / len(jobs))
        two.append(build(firm_of(top / f"two-{number}", texts, CLIENTS), "--jobs", "2"))
    costs = [cost.cpu / CLIENTS for cost in one]
    ratios = [theirs / own for theirs, own in zip(plain, costs, strict=True)]
    ours, theirs, times = map(statistics.median, (costs, plain, ratios))
    yield f"| CPU per client, full build of {CLIENTS} | {ours:.2f} s | |"
    yield f"| CPU per client, the plain way | {theirs:.2f} s | |"
    yield f"| plain way to ours | {times:.1f} times | at least 5 |"
    alone, pair = median(one, lambda o: o.wall), median(two, lambda o: o.wall)
    yield f"| full build of {CLIENTS}, one process | {alone:.0f} s | |"
    yield f"| full build of {CLIENTS}, two processes | {pair:.0f} s | |"
    yield f"| one process to two | {alone / pair:.2f} times | at least 1.7 |"
    yield from weights(top / "one-0" / "public", len(texts))


def weights(public: Path, count: int) -> Iterator[str]:
    """Weigh the published folders of the clients."""
    held = [
        sum(one.stat().st_size for one in client.rglob("*") if one.is_file())
        for client in public.iterdir()
        if client.is_dir() and len(client.name) == 32
    ]
    mean, most = statistics.mean(held) / 1000, max(held) / 1000
    yield f"| published for a client, mean of {count} | {mean:.0f} KB | at most 400 |"
    yield f"| published for a client, the fullest | {most:.0f} KB | |"


def change(top: Path) -> Iterator[str]:
    """One job changed, and none, among few and among many; warm."""
    small = [(ROOT / "generator/start/files/example.yaml").read_text("utf-8")]
    few = committed(firm_of(top / "few", small, FEW))
    many = committed(firm_of(top / "many", small, MANY))
    yield f"| full build of {MANY:,} small clients | {build(many).wall:.0f} s | |"
    build(few)
    changed: dict[Path, list[Cost]] = {few: [], many: []}
    nothing: dict[Path, list[Cost]] = {few: [], many: []}
    named = []
    for number in range(RUNS + 2):
        for firm in (few, many):
            job = firm / "inspections" / "job-00007.yaml"
            job.write_text(varied(small[0], 1000 + number), "utf-8")
            changed[firm].append(build(firm))
            nothing[firm].append(build(firm))
        job.write_text(varied(small[0], 2000 + number), "utf-8")
        named.append(build(many, job.stem))
    one, other = (median(changed[firm], lambda o: o.wall) for firm in (few, many))
    yield f"| one changed among {FEW} | {one:.2f} s | |"
    yield f"| one changed among {MANY:,} | {other:.2f} s | at most 2 |"
    yield f"| {MANY:,} to {FEW} | {other / one:.2f} times | at most 1.5 |"
    idle, still = (median(nothing[firm], lambda o: o.wall) for firm in (many, few))
    yield f"| nothing changed among {FEW} | {still:.2f} s | |"
    yield f"| nothing changed among {MANY:,} | {idle:.2f} s | at most 1 |"
    alone = median(named, lambda o: o.wall)
    yield f"| one changed among {MANY:,}, named | {alone:.2f} s | |"


def memory(top: Path) -> Iterator[str]:
    """One process over many clients."""
    firm = firm_of(top / "long", kinds(), LONG)
    held = [float(line) for line in run("-c", BUILD_AND_WATCH, str(firm))[1].split()]
    most = max(held)
    yield f"| memory of a worker over {LONG} clients | {most:.0f} MiB | at most 300 |"
    told = ", ".join(f"{one:.0f}" for one in held)
    yield f"| the same after each hundred | {told} MiB | not growing |"


PARTS = {"full": full, "change": change, "memory": memory}


def main() -> None:
    """Measure what is named, or everything, and print the table."""
    versions = ", ".join(f"{one} {metadata.version(one)}" for one in LIBRARIES)
    print(f"{date.today().isoformat()}, {os.cpu_count()} cores, {platform.machine()},")
    print(f"Python {platform.python_version()}, {versions}; medians of {RUNS}.\n")
    print("| what | measured | to reach |\n|---|---|---|", flush=True)
    for name in sys.argv[1:] or PARTS:
        with tempfile.TemporaryDirectory() as folder:
            for row in PARTS[name](Path(folder)):
                print(row, flush=True)


if __name__ == "__main__":
    main()
