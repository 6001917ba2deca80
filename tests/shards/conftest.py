"""A firm whose jobs are built elsewhere: by a stand-in that writes two small files."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.pipeline import Order
from generator.problems import Problem, Refused
from generator.record.load import Workspace
from generator.shards.making import make_shard
from generator.shards.share import Share
from generator.workers import Bench, Outcome, Task

ROOT = Path(__file__).resolve().parents[2]
SECRET = "a secret for tests only, never a client's"
SMALL = (ROOT / "generator" / "start" / "files" / "example.yaml").read_text("utf-8")
JOBS = ("ash", "elm", "fir", "oak")
DAY = "2026-11-01"
BROKEN = Problem("inspections/oak.yaml", 3, "tanks[0].sludge", "This is broken.", "Go.")


def files(folder: Path) -> dict[str, bytes]:
    """Give every file of a folder with what it holds."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def write_small(place: Workspace, job: str, number: int) -> None:
    """Write a small job, each of another house."""
    text = SMALL.replace("1 Example Lane", f"{number} Example Lane")
    place.job_file(job).write_text(text, encoding="utf-8")


def small_sites(
    bench: Bench, tasks: Sequence[Task], done: Callable[[str], None]
) -> dict[str, Outcome]:
    """Write a small site for each job; one that says BROKEN has a problem."""
    found: dict[str, Outcome] = {}
    for one in tasks:
        text = bench.workspace.job_file(one.job).read_text("utf-8")
        site = bench.folder / "sites" / one.job
        (site / "assets").mkdir(parents=True, exist_ok=True)
        (site / "assets" / "look.css").write_text("p {}\n", "utf-8")
        (site / "index.html").write_text('<link href="assets/look.css">', "utf-8")
        (site / "record.txt").write_text(text, "utf-8")
        found[one.job] = Refused([BROKEN]) if "BROKEN" in text else site
        done(one.job)
    return found


@dataclass(frozen=True)
class Firm:
    """A firm's folder on one machine."""

    root: Path

    @property
    def place(self) -> Workspace:
        return Workspace(self.root)

    @property
    def public(self) -> Path:
        return self.root / "public"

    def copy(self, name: str) -> Firm:
        """Give another machine all of it."""
        shutil.copytree(self.root, self.root.with_name(name), symlinks=True)
        return Firm(self.root.with_name(name))

    def shard(self, number: int, count: int, name: str = "") -> Path:
        """Make a shard by the stand-in, beside the firm's folder."""
        share = Share(number, count)
        folder = self.root.parent / (name or share.folder)
        order = Order(self.place.jobs(), self.public, DAY, make=small_sites)
        make_shard(self.place, order, share, folder, lambda _: None)
        return folder

    def ask(self, *words: object, secret: str = SECRET) -> Result:
        """Ask as a person does."""
        asked = ["--workspace", str(self.root), *map(str, words)]
        return CliRunner().invoke(main, asked, env={"ONLOT_LINK_SECRET": secret})

    def merge(self, *words: object, secret: str = SECRET) -> Result:
        """Merge shards on the day on which they were made."""
        return self.ask("merge", "--on", DAY, *words, secret=secret)

    def edit(self, job: str, old: str, new: str) -> None:
        """Put one text of a job file in place of another."""
        text = self.place.job_file(job).read_text("utf-8")
        assert old in text
        self.place.job_file(job).write_text(text.replace(old, new), "utf-8")


@pytest.fixture(autouse=True)
def _no_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    """Wait for no disk: no test here cuts the power."""
    monkeypatch.setattr(os, "sync", lambda: None)
    monkeypatch.setattr(os, "fsync", lambda _: None)
    monkeypatch.setenv("ONLOT_LINK_SECRET", SECRET)


@pytest.fixture
def firm(tmp_path: Path) -> Firm:
    """Four small jobs."""
    made = Firm(tmp_path / "firm")
    made.place.inspections.mkdir(parents=True)
    shutil.copy(ROOT / "inspections" / "firm.yaml", made.place.inspections)
    for number, job in enumerate(JOBS, 1):
        write_small(made.place, job, number)
    return made
