"""After any edits, a build of what changed publishes what a clean build publishes.

``ONLOT_EDITS`` says how many edits are made, ``ONLOT_SEED`` by which chance.
"""

from __future__ import annotations

import os
import re
import shutil
from collections import Counter
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest

from generator.doors import doors
from generator.record.load import Workspace
from tests.forked import Onlot
from tests.random_edits import BROKEN, Office

EDITS = int(os.environ.get("ONLOT_EDITS", "12"))
SEED = int(os.environ.get("ONLOT_SEED", "2026"))
BUILD_AFTER = 1, 1, 2, 4  # edits: now and then each of several uncommitted ones
COMPARE_EVERY = 3  # builds
DAY = "2026-10-20"
SECRET = "a secret for tests only, never a client's"
PROBLEM = re.compile(r"^inspections/(lot-\d)\.yaml", re.MULTILINE)
BUILT = re.compile(r"^(lot-\d): (?!nothing changed|clients see|nobody|/)", re.MULTILINE)
LED = re.compile(rb'"\.\./(shared/[0-9a-f]{32}/)')
MADE_BY_USE = ("build", "public", "office", ".onlot", ".*.lock")
Files = dict[str, bytes]


@pytest.fixture
def office(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Office:
    monkeypatch.setenv("ONLOT_LINK_SECRET", SECRET)
    return Office(tmp_path, SEED)


@pytest.fixture
def builds(office: Office) -> Iterator[Builds]:
    onlot = Onlot(office.onlot)
    yield Builds(office, onlot)
    onlot.end()


class Builds:
    """The builds of an office: of what changed, and clean ones beside them."""

    def __init__(self, office: Office, onlot: Onlot) -> None:
        self.office, self.onlot = office, onlot
        self.root = office.firm.root
        self.now: Files = {}
        self.count: Counter[str] = Counter()

    def build(self) -> set[str]:
        """Build what changed, and name the jobs that were left with problems."""
        before = self.now
        told = self.told(self.root)
        self.now, left = files(self.root / "public"), set(PROBLEM.findall(told))
        for site in self.sites(left):
            assert inside(self.now, site) == inside(before, site), told
        return left

    def compare(self, left: set[str]) -> None:
        """Build all of it clean in another place, and compare; then nothing is left."""
        clean = self.root.with_name("clean")
        ignored = shutil.ignore_patterns(*MADE_BY_USE)
        shutil.copytree(self.root, clean, ignore=ignored)
        told = self.told(clean)
        made = files(clean / "public")
        shutil.rmtree(clean)
        assert set(PROBLEM.findall(told)) == left, told
        kept = {path for site in self.sites(left) for path in inside(self.now, site)}
        lead = LED.findall(b"".join(self.now[path] for path in kept))
        copies = tuple(one.decode() for one in lead)
        kept |= {one for one in self.now if one not in made and one.startswith(copies)}
        assert self.now.keys() - kept == made.keys()
        assert [one for one in made if made[one] != self.now[one]] == []
        assert set(BUILT.findall(self.told(self.root))) <= left
        assert files(self.root / "public") == self.now
        self.count["compared"] += 1

    def told(self, root: Path) -> str:
        """Give what a build says."""
        how = ("--explain", "--remove-strays", "--jobs", "1", "--on", DAY)
        code, told = self.onlot.run("--workspace", str(root), "build", *how)
        assert code == ("stays as it was" in told), told
        self.count["builds"] += 1
        return told

    def sites(self, jobs: set[str]) -> list[str]:
        """Give the folders behind the links of jobs that somebody may read."""
        reports = doors(Workspace(self.root), SECRET.encode(), DAY).reports
        return [f"{reports[job]}/" for job in jobs if job in reports]


def files(folder: Path) -> Files:
    """Give the content of every published file."""
    paths = sorted(folder.rglob("*"))
    assert all(
        one.is_dir() or (one.is_file() and not one.is_symlink()) for one in paths
    )
    return {
        one.relative_to(folder).as_posix(): one.read_bytes()
        for one in paths
        if one.is_file()
    }


def inside(found: Files, site: str) -> Files:
    return {path: content for path, content in found.items() if path.startswith(site)}


def mend_all(office: Office) -> None:
    for job in office.jobs():
        office.firm.write(office.firm.text(job).replace(BROKEN, ""), job)
        office.change(job, "^state: .*$", "state: draft")
    office.commit()


@pytest.mark.skipif(not hasattr(os, "fork"), reason="each command is a fork")
def test_what_is_published_equals_a_clean_build(office: Office, builds: Builds) -> None:
    done: list[str] = []
    for number in count(1):
        done += [office.edit() for _ in range(office.chance.choice(BUILD_AFTER))]
        left = builds.build()
        if number % COMPARE_EVERY == 0:
            builds.compare(left)
        if len(done) >= EDITS:
            break
    mend_all(office)
    for job in builds.build():  # its reports were altered, which no draft mends
        office.delete(job)
    office.commit()
    assert builds.build() == set()
    builds.compare(set())
    print(*Counter(done).items(), *builds.count.items(), sep="\n")
