"""Each published client is the old version or the new one, whole, at any moment."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from typing import Any

import pytest

from generator.problems import Refused
from generator.website import publish as room
from generator.website.exchange import exchange
from generator.website.links import folder_name
from generator.website.publish import Edition, publish

ASH, ELM, FIR = (folder_name(b"x" * 16, job, 1) for job in ("ash", "elm", "fir"))
ROOT_FILES = [
    ".htaccess",
    ".onlot-published",
    "404.html",
    "_headers",
    "index.html",
    "robots.txt",
    "staticwebapp.config.json",
    "vercel.json",
]


def test_first_publish_of_nothing(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "deep" / "public"
    publish(Edition(), public)
    assert sorted(folders.state(public)) == ROOT_FILES
    assert folders.around(public) == []
    assert "Disallow: /\n" in (public / "robots.txt").read_text()
    page = (public / "index.html").read_text()
    assert 'content="noindex, nofollow, noarchive"' in page
    assert "default-src 'none'" in page
    assert "href" not in page


def test_an_empty_folder_is_taken(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    public.mkdir()
    publish(Edition({ASH: folders.make_site(tmp_path / "ash", "ash")}), public)
    assert f"{ASH}/figures/plan.svg" in folders.state(public)


def test_clients_not_built_stay(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    kept = public / ASH / "index.html"
    inode = kept.stat().st_ino
    before = folders.state(public)
    publish(Edition({ELM: folders.make_site(tmp_path / "e", "elm")}), public)
    after = folders.state(public)
    assert before.items() <= after.items()
    assert set(after) - set(before) == {
        f"{ELM}/{name}" for name in ("index.html", "record.html", "figures/plan.svg")
    }
    assert kept.stat().st_ino == inode  # the same file, not a second one
    assert kept.stat().st_nlink == 1
    assert folders.around(public) == []


def test_a_folder_with_a_stray_alone_is_taken(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    public.mkdir()
    (public / "Thumbs.db").write_text("dropped")
    publish(Edition(), public)
    assert sorted(folders.state(public)) == ROOT_FILES


def test_a_site_is_replaced_whole(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    old, new = (
        folders.make_site(tmp_path / "old", "old"),
        folders.make_site(tmp_path / "new", "new"),
    )
    (old / "photos.html").write_text("a page that is gone later")
    publish(Edition({ASH: old}), public)
    publish(Edition({ASH: new}), public)
    assert folders.state(public / ASH) == folders.state(new)
    (new / "index.html").write_text("changed after it was published")
    assert folders.state(public / ASH) != folders.state(new)


def test_a_withdrawn_link_is_gone(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    publish(
        Edition(
            {name: folders.make_site(tmp_path / name, name) for name in (ASH, ELM)}
        ),
        public,
    )
    publish(Edition(removed={ASH}), public)
    assert sorted(entry.name for entry in public.iterdir()) == sorted(
        [ELM, *ROOT_FILES]
    )


@pytest.mark.parametrize("name", ["../x", "x", "", ASH.upper(), ASH + "a"])
def test_only_our_own_folder_names(folders: Any, tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="folder name"):
        publish(Edition({name: tmp_path}), tmp_path / "public")


@pytest.mark.parametrize("marked", [False, True])
@pytest.mark.parametrize("stranger", ["letter.txt", "photos/lid.jpg", ASH, "sub/"])
def test_a_folder_of_someone_else_is_left_alone(
    folders: Any, tmp_path: Path, stranger: str, marked: bool
) -> None:
    public = tmp_path / "Documents"
    if marked:
        publish(Edition(), public)
    path = public / stranger
    path.parent.mkdir(parents=True, exist_ok=True)
    path.mkdir() if stranger.endswith("/") else path.write_text("mine")
    before = folders.state(public)
    with pytest.raises(Refused) as refused:
        publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    [problem] = refused.value.problems
    assert problem.file == str(public)
    assert problem.message == (
        f'This folder holds "{stranger.split("/")[0]}", which onlot did not put there, '
        "so nothing in it was touched."
    )
    assert folders.state(public) == before
    assert folders.around(public) == []


def test_a_site_folder_without_the_marker_is_left_alone(
    folders: Any, tmp_path: Path
) -> None:
    public = folders.make_site(tmp_path / "public", "the site of someone else")
    with pytest.raises(Refused, match="which onlot did not put there"):
        publish(Edition(), public)


@pytest.mark.parametrize("name", [ASH, "shared", "letter", "404.html"])
def test_a_link_among_the_clients_is_refused(
    folders: Any, tmp_path: Path, name: str
) -> None:
    public = tmp_path / "public"
    publish(Edition(), public)
    (public / name).unlink(missing_ok=True)
    (public / name).symlink_to(folders.make_site(tmp_path / "mine", "mine"))
    with pytest.raises(Refused, match=f'This folder holds "{name}"'):
        publish(Edition({ELM: folders.make_site(tmp_path / "e", "elm")}), public)
    assert not (public / ELM).exists()


def test_links_to_elsewhere_are_refused(folders: Any, tmp_path: Path) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    before = folders.state(public)
    leak = folders.make_site(tmp_path / "e", "elm")
    (leak / "leak.html").symlink_to(tmp_path / "a" / "index.html")
    with pytest.raises(Refused, match="a link to somewhere else"):
        publish(Edition({ELM: leak}), public)
    assert folders.state(public) == before
    assert folders.around(public) == []


def test_a_file_in_the_way_is_told(folders: Any, tmp_path: Path) -> None:
    (tmp_path / "public").write_text("mine")
    with pytest.raises(Refused, match="This is a file, not a folder"):
        publish(Edition(), tmp_path / "public")


def test_a_folder_of_someone_else_beside_is_left_alone(
    folders: Any, tmp_path: Path
) -> None:
    beside = tmp_path / ".public.next"
    beside.mkdir()
    (beside / "mine").write_text("mine")
    with pytest.raises(Refused, match="onlot did not make it"):
        publish(Edition(), tmp_path / "public")
    assert (beside / "mine").read_text() == "mine"


def test_a_second_build_waits_outside(folders: Any, tmp_path: Path) -> None:
    pytest.importorskip("fcntl")
    public = tmp_path / "public"
    with room._locked(public), pytest.raises(Refused) as refused:
        publish(Edition(), public)
    [problem] = refused.value.problems
    assert problem.message == "Another build is at work on this folder."
    assert not public.exists()
    publish(Edition(), public)


def test_a_full_disk_changes_nothing(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    before = folders.state(public)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfile", full)
    with pytest.raises(Refused, match="No space left on device") as refused:
        publish(Edition({ELM: folders.make_site(tmp_path / "e", "elm")}), public)
    assert "What was published stays published." in str(refused.value)
    assert folders.state(public) == before
    assert folders.around(public) == []


@pytest.mark.skipif(sys.platform != "linux", reason="what every Linux offers")
def test_linux_has_the_one_step(folders: Any, tmp_path: Path) -> None:
    first, second = (
        folders.make_site(tmp_path / "a", "a"),
        folders.make_site(tmp_path / "b", "b"),
    )
    states = folders.state(first), folders.state(second)
    assert exchange(first, second)
    assert (folders.state(second), folders.state(first)) == states
    with pytest.raises(FileNotFoundError):
        exchange(first, tmp_path / "none")
