"""How long the history of one job takes in a large repository, beside git's own log.

The repository is made by the script: 5,000 jobs, 20,000 commits, one commit for each
revision, all in one folder. Run from the top of the project:

    python tests/benchmarks/history_time.py [JOBS COMMITS]
"""

from __future__ import annotations

import random
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
JOBS, COMMITS = 5_000, 20_000
OPEN_AT_ONCE = 10  # jobs worked on in the same days; our choice
ROUNDS = 3
DEMONSTRATION = re.compile(r"^demonstration:.*\n(?:[ ]+.*\n)*", re.MULTILINE)
REPORTS = re.compile(r"^reports:\n(?:[ ]+.*\n)*", re.MULTILINE)
PHOTOS = re.compile(
    r"^photos:\n(?:[ ]+.*\n)*|, photo: \S+\.jpg\b|^ +photo: \S+\.jpg,? *\n?",
    re.MULTILINE,
)
ENTRY = "  - {{number: {number}, date: 2026-10-{day:02}, reason: look {number}}}\n"


def revisions(jobs: int, commits: int) -> Iterator[tuple[int, int]]:
    """Give the job and the number of its revision, commit by commit."""
    chance = random.Random(1)
    begun, at_work = 0, []
    for _ in range(commits):
        while len(at_work) < OPEN_AT_ONCE and begun < jobs:
            at_work.append([begun, 0])
            begun += 1
        one = chance.choice(at_work)
        yield one[0], one[1]
        one[1] += 1
        if one[1] * jobs >= commits:
            at_work.remove(one)


def text_of(base: str, job: int, revision: int) -> str:
    """Write a job file as its revision has it: a draft, then reports."""
    text = base.replace("sludge: 11 in", f"sludge: {11 + revision} in") + f"# {job}\n"
    if revision < 2:
        return text.replace("state: final", "state: draft")
    entries = (ENTRY.format(number=one, day=one + 6) for one in range(1, revision))
    return f"{text}reports:\n{''.join(entries)}"


def fill(folder: Path, jobs: int, commits: int) -> None:
    """Make the repository by git's own import."""
    subprocess.run(["git", "init", "-q", "-b", "main", str(folder)], check=True)
    work = subprocess.Popen(
        ["git", "-C", str(folder), "fast-import", "--quiet"], stdin=subprocess.PIPE
    )
    assert work.stdin is not None
    firm = (ROOT / "inspections" / "firm.yaml").read_text("utf-8")
    base = (ROOT / "inspections" / "demo-larch-hollow.yaml").read_text("utf-8")
    for pattern in (DEMONSTRATION, REPORTS, PHOTOS):
        base = pattern.sub("", base)
    for at, (job, revision) in enumerate(revisions(jobs, commits)):
        files = {f"inspections/job-{job:05}.yaml": text_of(base, job, revision)}
        if at == 0:
            files["inspections/firm.yaml"] = firm
        work.stdin.write(
            b"commit refs/heads/main\n"
            b"committer A. Firm (invented) <a@firm.example> %d +0000\n"
            b"data 1\nx\n" % (1_700_000_000 + 600 * at)
        )
        for path, text in files.items():
            data = text.encode()
            head = f"M 100644 inline {path}\ndata {len(data)}\n".encode()
            work.stdin.write(head + data + b"\n")
    work.stdin.close()
    assert work.wait() == 0
    subprocess.run(["git", "-C", str(folder), "gc", "-q"], check=True)
    subprocess.run(["git", "-C", str(folder), "reset", "-q", "--hard"], check=True)


def timed(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Give the median of some rounds. [s]"""
    spans = []
    for _ in range(rounds):
        begin = time.perf_counter()
        work()
        spans.append(time.perf_counter() - begin)
    return statistics.median(spans)


def run(*words: str) -> Callable[[], object]:
    """Run a program, quietly, in a process of its own."""
    return lambda: subprocess.run(words, check=True, capture_output=True, cwd=ROOT)


def main(jobs: int = JOBS, commits: int = COMMITS) -> None:
    """Make the repository and print the table."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "firm"
        fill(folder, jobs, commits)
        job = f"job-{jobs // 2:05}"
        path = f"inspections/{job}.yaml"
        onlot = (sys.executable, "-m", "generator", "--workspace", str(folder))
        git = timed(run("git", "-C", str(folder), "log", "--follow", "--", path))
        first = timed(run(*onlot, "history", job), rounds=1)
        again = timed(run(*onlot, "history", job))
        check = timed(run(*onlot, "check", job))
        record = timed(lambda: _all_given(folder, jobs), rounds=1)
        known = timed(lambda: _all_given(folder, jobs))
        rows = {
            "git log --follow of one job": git,
            "onlot history of it, the first time in a clone": first,
            "onlot history of it": again,
            "onlot check of it": check,
            f"the report given last of all {jobs:,} jobs, one pass": record,
            "the same, once it was read": known,
        }
        print(f"{jobs:,} jobs, {commits:,} commits; medians of {ROUNDS}")
        for what, seconds in rows.items():
            print(f"{what:55} {seconds:6.2f} s  {seconds / git:5.2f} of git log")


def _all_given(folder: Path, jobs: int) -> None:
    """Find what was given last of every job, as a build of all does."""
    from generator.record.load import Workspace
    from generator.standing import standing
    from generator.trail.past import past_of

    firm = Workspace(folder)
    past = past_of(firm, folder / "anew")
    past.read_ahead(firm.jobs())
    found = [standing(firm, past, job).number for job in firm.jobs()]
    assert len(found) == jobs
    assert min(found) > 0


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
