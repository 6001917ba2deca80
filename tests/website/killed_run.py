"""Kills one run after each of its steps: ``python killed_run.py ROOT WHAT STEPS``.

Copies ``ROOT/start`` to ``ROOT/runs/1``, ``2`` and so on. In the copy numbered n, a
process does WHAT (publish or recover) and kills itself before its n-th event of the
file system (PEP 578), which is after the one before. Ends with the copy that was not
killed.
"""

from __future__ import annotations

import json
import os
import shutil
import signal
import sys
from pathlib import Path

from generator.website import journal
from generator.website.publish import Edition, publish, recover

KINDS = ("os.", "ctypes.", "shutil.")


def kill_before(number: int) -> None:
    """Have this process killed at an event of the file system; 0 for at none."""
    seen = 0

    def watch(event: str, _: object) -> None:
        nonlocal seen
        if event == "open" or event.startswith(KINDS):
            seen += 1
            if seen == number:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)


def edition(root: Path) -> Edition:
    """Read the edition that lies beside the copies, with its sites."""
    told = json.loads((root / "edition.json").read_text())
    sites = {name: root / "new" / name for name in told["sites"]}
    return Edition(sites, told["gone"], told["removed"])


def run(top: Path, public: Path, what: str, steps: str) -> None:
    """Do what was asked, without waiting for the disk: a kill loses no write."""
    os.sync = lambda: None
    os.fsync = lambda _: None
    if steps == "two":
        journal.exchange = lambda first, second: False  # type: ignore[attr-defined]
    if what == "publish":
        publish(edition(top), public)
    else:
        recover(public)


def killed(top: Path, number: int, what: str, steps: str) -> bool:
    """Run in a process of its own; tell whether it was killed."""
    child = os.fork()
    if not child:
        kill_before(number)
        run(top, top / "runs" / str(number) / "public", what, steps)
        os._exit(0)
    _, status = os.waitpid(child, 0)
    assert status in (0, signal.SIGKILL), status
    return status == signal.SIGKILL


def main() -> None:
    """Kill one run after another, each one event later."""
    top, what, steps = Path(sys.argv[1]), sys.argv[2], sys.argv[3]
    number, going = 0, True
    while going:
        number += 1
        shutil.copytree(
            top / "start", top / "runs" / str(number), copy_function=shutil.copyfile
        )
        going = killed(top, number, what, steps)


if __name__ == "__main__":
    main()
