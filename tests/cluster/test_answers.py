"""What came back is written below its own folder, or refused."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from generator.cluster.answers import LEADS_OUT, NOT_OURS, take
from generator.cluster.themes import Themes
from generator.problems import Refused
from generator.website.shared import copy_name
from tests.test_workers import files

ASSETS = {"onlot.css": b"a {}", "javascripts/menu.js": b"x"}


@pytest.fixture
def theme(tmp_path: Path) -> str:
    """The name of the theme's files."""
    for path, content in ASSETS.items():
        file = tmp_path / "theirs" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content)
    return copy_name(tmp_path / "theirs")


def answer(theme: str, **more: object) -> dict[str, Any]:
    """Give an answer as a worker gives it."""
    page = {"index.html": b"<html>", "photos/tank.jpg": b"jpg"}
    none: dict[str, object] = {"photographs": {}, "used": []}
    given = {"worker": "tcp://w:1", "files": page, "theme": theme, "assets": ASSETS}
    return {**given, **none, **more}


def test_a_site_is_written_with_the_theme(tmp_path: Path, theme: str) -> None:
    build = tmp_path / "build"
    themes = Themes(build)
    old = build / "sites" / "ash" / "old.html"
    old.parent.mkdir(parents=True)
    old.touch()
    site = take(build, "ash", answer(theme), themes)
    assert files(site) == {
        "index.html": b"<html>",
        "photos/tank.jpg": b"jpg",
        "assets/onlot.css": b"a {}",
        "assets/javascripts/menu.js": b"x",
    }
    known = Themes(build)
    assert known.known == {theme}
    without = answer(theme)
    del without["assets"]
    assert files(take(build, "elm", without, known)) == files(site)


def test_a_spoilt_theme_is_asked_for_again(tmp_path: Path, theme: str) -> None:
    themes = Themes(tmp_path / "build")
    take(tmp_path / "build", "ash", answer(theme), themes)
    (tmp_path / "build" / "theme" / theme / "onlot.css").write_bytes(b"b {}")
    assert Themes(tmp_path / "build").known == set()


def test_a_theme_that_no_site_uses_any_longer_goes(tmp_path: Path, theme: str) -> None:
    build = tmp_path / "build"
    themes = Themes(build)
    take(build, "ash", answer(theme), themes)
    themes.drop_unused()
    (build / "theme" / theme / "onlot.css").write_bytes(b"b {}")
    name = copy_name(build / "theme" / theme)
    (build / "theme" / theme).rename(build / "theme" / name)
    later = Themes(build)
    later.drop_unused()  # of a build that built nothing
    assert Themes(build).known == {name}
    take(build, "ash", answer(theme), later)
    later.drop_unused()
    assert Themes(build).known == {theme}


HOSTILE = [
    {"files": {path: b"x"}}
    for path in (
        "../out", "a/../../out", "/out", "", ".", "a//b", "a/", "..\\out", "C:out",
        "a\0b", "assets/onlot.css", "Assets/more.js", 7,
    )
] + [
    {"files": {"index.html": "text"}},
    {"files": [("index.html", b"x")]},
    {"assets": {"../out": b"x"}},
    {"assets": {"onlot.css": b"another"}},
    {"assets": None},
    {"theme": "../../out"},
]  # fmt: skip


@pytest.mark.parametrize("part", HOSTILE, ids=repr)
def test_what_leads_out_is_refused(
    tmp_path: Path, theme: str, part: dict[str, object]
) -> None:
    build = tmp_path / "build"
    before = set(tmp_path.rglob("*"))
    with pytest.raises(Refused) as refused:
        take(build, "ash", answer(theme) | part, Themes(build))
    message = LEADS_OUT.format(worker="tcp://w:1", job="ash")
    assert str(refused.value) == f"--cluster: {message}\n  {NOT_OURS}"
    written = set(tmp_path.rglob("*")) - before
    assert all(one.is_relative_to(build) for one in written)
    assert not (build / "sites").exists()


def test_a_prepared_photograph_must_be_sound(tmp_path: Path, theme: str) -> None:
    build = tmp_path / "build"
    bad = {"a" * 64: b"no entry", "../../out": b"x"}
    more = {"photographs": bad, "used": ["a" * 64, "../out"]}
    take(build, "ash", answer(theme, **more), Themes(build))
    assert [one.name for one in (build / "photos").iterdir()] == ["used"]
    listed = (build / "photos" / "used" / "ash.txt").read_text(encoding="ascii")
    assert listed == "a" * 64 + "\n"
