"""A killed run leaves each client whole, and the next start makes it all or nothing."""

from __future__ import annotations

import json
import os
import random
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from generator.website.links import folder_name
from generator.website.publish import Edition, publish, recover

pytestmark = pytest.mark.skipif(os.name != "posix", reason="SIGKILL is POSIX")

PROJECT = Path(__file__).parents[2]
NAMES = [folder_name(b"x" * 16, job, 1) for job in ("ash", "elm", "fir", "oak", "yew")]
ASH, ELM, FIR, OAK, YEW = NAMES  # stays, changes, comes, leaves, its link ended
KILLS = 10
MEMORY = Path("/dev/shm")
JOURNAL = Path(".public.next/journal.json")
SEED = 14
ENDED = "<p>This link opens no report any longer.</p>"
EDITIONS = {
    "some": {"sites": [ELM, FIR], "gone": {YEW: ENDED}, "removed": [OAK]},
    "all": {"sites": [ASH, ELM, FIR], "gone": {YEW: ENDED}, "removed": [OAK]},
    "none": {"sites": [], "gone": {}, "removed": [OAK]},
}


class Folder:
    """What stands in a published folder, client by client."""

    def __init__(self, public: Path, state: Callable[[Path], dict[str, str]]) -> None:
        whole = state(public) if public.is_dir() else {}
        self.clients = {
            name: {
                path.removeprefix(f"{name}/"): held
                for path, held in whole.items()
                if path.startswith(f"{name}/")
            }
            for name in NAMES
        }
        self.root = {path: held for path, held in whole.items() if "/" not in path}
        self.whole = whole
        pages = {
            path: (public / path).read_text()
            for path in whole
            if path.endswith(".html")
        }
        self.leads = {
            path: text.partition('"')[2].partition('"')[0]
            for path, text in pages.items()
            if ".." in text
        }


@pytest.fixture
def top() -> Iterator[Path]:
    """A folder for thousands of small files, in memory where the system has one."""
    with tempfile.TemporaryDirectory(dir=MEMORY if MEMORY.is_dir() else None) as name:
        yield Path(name)


@pytest.fixture
def no_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lets nothing wait for the disk: a kill loses no write."""
    monkeypatch.setattr(os, "sync", lambda: None)
    monkeypatch.setattr(os, "fsync", lambda _: None)


def themed(folders: Any, folder: Path, word: str, style: str) -> Path:
    """A built site with a theme."""
    site: Path = folders.make_site(folder, word)
    (site / "assets").mkdir()
    (site / "assets/look.css").write_text(style)
    for page in site.glob("*.html"):
        page.write_text('<link href="assets/look.css">' + page.read_text())
    return site


def lay_out(folders: Any, top: Path, told: dict[str, Any]) -> Edition:
    """Publish the old version; put the new one beside it."""
    old = {
        name: themed(folders, top / "old" / name, f"old {name}", "old {}")
        for name in (ASH, ELM, OAK, YEW)
    }
    public = top / "start/public"
    publish(Edition(old), public)
    (public / "robots.txt").write_text("as an earlier version of onlot wrote it")
    (public / ".DS_Store").write_text("what a file browser dropped")
    return lay_out_new(folders, top, told)


def lay_out_new(folders: Any, top: Path, told: dict[str, Any]) -> Edition:
    """Put the new version beside the published folder."""
    sites = {
        name: themed(folders, top / "new" / name, f"new {name}", "new {}")
        for name in told["sites"]
    }
    (top / "edition.json").write_text(json.dumps(told))
    return Edition(sites, told["gone"], told["removed"])


def kill_each(root: Path, what: str, steps: str) -> list[Path]:
    """Give the folders of runs killed after each step; the last was not killed."""
    subprocess.run(
        [sys.executable, "-m", "tests.website.killed_run", str(root), what, steps],
        cwd=PROJECT,
        check=True,
    )
    return sorted((root / "runs").iterdir(), key=lambda path: int(path.name))


def check_whole(now: Folder, old: Folder, new: Folder, steps: str) -> None:
    """Hold every client, every file at the top, and every way to the theme."""
    for name in NAMES:
        allowed = [old.clients[name], new.clients[name]]
        assert now.clients[name] in ([*allowed, {}] if steps == "two" else allowed)
    for path in {*now.root, *old.root, *new.root}:
        assert now.root.get(path) in (old.root.get(path), new.root.get(path))
    for page, way in now.leads.items():
        assert os.path.normpath(f"{page}/../{way}") in now.whole


@pytest.mark.parametrize("steps", ["one", "two"])
@pytest.mark.parametrize("which", EDITIONS)
def test_killed_after_each_step(
    folders: Any, top: Path, which: str, steps: str, no_waiting: None
) -> None:
    edition = lay_out(folders, top, EDITIONS[which])
    runs = kill_each(top, "publish", steps)
    old, new = (
        Folder(root / "public", folders.state) for root in (top / "start", runs[-1])
    )
    assert len(runs) > KILLS
    assert folders.around(runs[-1] / "public") == []
    assert {name for name in NAMES if new.clients[name]} == {
        *(ASH, ELM, YEW),
        *edition.sites,
    }
    seen = set()
    for number, root in enumerate(runs[:-1]):
        public = root / "public"
        now = Folder(public, folders.state)
        check_whole(now, old, new, steps)
        complete = (root / JOURNAL).exists() or now.whole == new.whole
        if not complete:
            assert now.whole == old.whole
        seen.add("between" if now.whole not in (old.whole, new.whole) else complete)
        if number % 2:
            recover(public)
        else:
            publish(edition, public)
            complete = True
        assert Folder(public, folders.state).whole == (new if complete else old).whole
        assert folders.around(public) == []
    assert seen == {"between", True, False}


@pytest.mark.parametrize("steps", ["one", "two"])
def test_killed_again_while_recovering(
    folders: Any, top: Path, steps: str, no_waiting: None
) -> None:
    lay_out(folders, top, EDITIONS["all"])
    runs = kill_each(top, "publish", steps)
    old, new = (
        Folder(root / "public", folders.state) for root in (top / "start", runs[-1])
    )
    complete = [root for root in runs if (root / JOURNAL).exists()]
    for root in (complete[0], complete[len(complete) // 2]):
        again = top / f"again-{root.name}"
        again.mkdir()
        root.rename(again / "start")
        for killed in kill_each(again, "recover", steps):
            public = killed / "public"
            check_whole(Folder(public, folders.state), old, new, steps)
            recover(public)
            assert Folder(public, folders.state).whole == new.whole
            assert folders.around(public) == []


def test_the_first_version_comes_whole(
    folders: Any, top: Path, no_waiting: None
) -> None:
    (top / "start").mkdir()
    lay_out_new(folders, top, {"sites": [ELM, FIR], "gone": {}, "removed": []})
    runs = kill_each(top, "publish", "one")
    new = folders.state(runs[-1] / "public")
    outcomes = {json.dumps(folders.state(root / "public")) for root in runs}
    assert outcomes == {json.dumps({}), json.dumps(new)}
    for root in runs:
        recover(root / "public")
        assert folders.around(root / "public") == []


def test_killed_by_the_clock(folders: Any, tmp_path: Path) -> None:
    publish(
        Edition({ASH: folders.make_site(tmp_path / "old", "ash")}), tmp_path / "public"
    )
    sites = {
        name: folders.make_site(tmp_path / "new" / name, f"new {name}")
        for name in (ELM, FIR)
    }
    old = folders.state(tmp_path / "public")
    child = (
        "import sys; from pathlib import Path\n"
        "from generator.website.publish import Edition, publish\n"
        "sites = {Path(name).name: Path(name) for name in sys.argv[2:]}\n"
        "publish(Edition(sites), Path(sys.argv[1]))"
    )
    words = [str(tmp_path / "public"), *map(str, sites.values())]
    chance = random.Random(SEED)
    for _ in range(KILLS):
        running = subprocess.Popen([sys.executable, "-c", child, *words], cwd=PROJECT)
        try:
            running.wait(timeout=0.05 + 0.15 * chance.random())
        except subprocess.TimeoutExpired:
            running.kill()
            running.wait()
        recover(tmp_path / "public")
        now = folders.state(tmp_path / "public")
        assert now == old or len(now) == len(old) + 6
        publish(Edition(removed={ELM, FIR}), tmp_path / "public")
        assert folders.state(tmp_path / "public") == old
