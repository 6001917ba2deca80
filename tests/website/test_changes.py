"""A build costs what it changes, and not what it keeps."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from generator.website.links import folder_name
from generator.website.publish import Edition, clients, publish

ASH, ELM, FIR = (folder_name(b"x" * 16, job, 1) for job in ("ash", "elm", "fir"))
FEW, MANY = 4, 40
watchers: list[list[str]] = []


def watch(event: str, _: object) -> None:
    """Write down every event of the file system where a test asked for it."""
    if event == "open" or event.startswith(("os.", "ctypes.", "shutil.")):
        for seen in watchers:
            seen.append(event)


sys.addaudithook(watch)


@contextmanager
def events() -> Iterator[list[str]]:
    """List the events of the file system (PEP 578) as they come."""
    watchers.append([])
    yield watchers[-1]
    watchers.pop()


def test_the_cost_is_that_of_the_change(folders: Any, tmp_path: Path) -> None:
    counts = []
    for number in (FEW, MANY):
        names = [folder_name(b"x" * 16, str(job), 1) for job in range(number)]
        top = tmp_path / str(number)
        sites = {name: folders.make_site(top / name, name) for name in names}
        publish(Edition(sites), top / "public")
        new = folders.make_site(top / "new", "new")
        with events() as seen:
            publish(Edition({names[0]: new}), top / "public")
        counts.append(len(seen))
        with events() as seen:
            assert clients(top / "public") == set(names)
        assert seen == ["os.scandir"]  # one listing tells all
    assert counts[0] == counts[1]


def looks(top: Path) -> dict[Path, tuple[int, int]]:
    """Tell every file and folder from a later one in its place."""
    stats = {path: path.stat() for path in (top, *top.rglob("*"))}
    return {path: (stat.st_ino, stat.st_mtime_ns) for path, stat in stats.items()}


def test_nothing_new_touches_nothing(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    ended = Edition({ASH: folders.make_site(tmp_path / "a", "ash")}, {ELM: "<p>Ended."})
    publish(ended, public)
    before = looks(tmp_path)
    with events() as seen:
        publish(Edition(gone=ended.gone, removed={FIR}), public)
    assert looks(tmp_path) == before
    assert {"os.rename", "os.remove", "os.rmdir"}.isdisjoint(seen)


def test_what_differs_at_the_top_is_put_right(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    right = folders.state(public)
    inode = (public / "index.html").stat().st_ino
    (public / "robots.txt").write_text("Allow: /\n")
    (public / "_headers").unlink()
    (public / ".DS_Store").write_text("names of folders")
    publish(Edition(), public)
    assert folders.state(public) == right
    assert (public / "index.html").stat().st_ino == inode
    assert folders.around(public) == []


def copies(public: Path) -> set[str]:
    return {one.name for one in (public / "shared").iterdir()}


def test_a_copy_goes_once_it_is_known_that_no_page_leads_to_it(
    folders: Any, tmp_path: Path
) -> None:
    public = tmp_path / "public"
    old, new = (folders.make_site(tmp_path / name, "a page") for name in ("o", "n"))
    for site in (old, new):
        (site / "assets").mkdir()
        (site / "assets" / "look.css").write_text(site.name, encoding="utf-8")
    publish(Edition({ASH: old, ELM: old}), public)
    [first] = copies(public)
    publish(Edition({ASH: new}), public)
    assert len(copies(public)) == 2  # nobody knows what the other one leads to
    [second] = copies(public) - {first}
    publish(Edition({ASH: new}, standing={ELM: {first}}), public)
    assert copies(public) == {first, second}
    publish(Edition({ELM: new}, standing={ASH: {second}}), public)
    assert copies(public) == {second}
