"""Before the journal nothing has changed; from then on every step will be done."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from typing import Any

import pytest

from generator.problems import Refused
from generator.website import journal
from generator.website import publish as room
from generator.website import stage as beside
from generator.website.exchange import exchange
from generator.website.links import folder_name
from generator.website.publish import Edition, publish, recover
from generator.website.root_files import root_files

ASH, ELM = (folder_name(b"x" * 16, job, 1) for job in ("ash", "elm"))
ROOT_FILES = sorted(root_files())


def test_a_disk_that_takes_no_journal_changes_nothing(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    before = folders.state(public)

    def full(path: Path) -> None:
        assert path.parent.name == ".public.next"
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(journal, "sync", full)
    with pytest.raises(Refused, match="What was published stays published"):
        publish(Edition({ASH: folders.make_site(tmp_path / "b", "new")}), public)
    assert folders.state(public) == before
    assert folders.around(public) == []


def test_a_step_that_fails_is_done_at_the_next_start(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    public = tmp_path / "public"
    old, new = (
        Edition(
            {n: folders.make_site(tmp_path / w / n, f"{w} {n}") for n in (ASH, ELM)}
        )
        for w in ("old", "new")
    )
    publish(old, public)
    before = {name: folders.state(public / name) for name in (ASH, ELM)}
    done: list[Path] = []

    def once(first: Path, second: Path) -> bool:
        done.append(second)
        if len(done) > 1:
            raise OSError(5, "Input/output error")
        return exchange(first, second)

    monkeypatch.setattr(journal, "exchange", once)
    with pytest.raises(Refused) as refused:
        publish(new, public)
    [problem] = refused.value.problems
    assert problem.message == (
        "The new version is ready, but not all of it could be put here yet: "
        "Input/output error. Each client's pages are whole, old or new."
    )
    assert problem.hint == (
        "See to the rights of the folder, then build again: what is left is done first."
    )
    first, second = (path.name for path in done)
    assert folders.state(public / first) == folders.state(new.sites[first])
    assert folders.state(public / second) == before[second]
    with pytest.raises(Refused, match="not all of it could be put here yet"):
        publish(Edition(), public)
    monkeypatch.undo()
    recover(public)
    assert folders.state(public / second) == folders.state(new.sites[second])
    assert folders.around(public) == []


def broken_off(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> tuple[Path, Path]:
    """A published folder, with the journal of a run that did none of its steps."""
    public = tmp_path / "public"
    publish(Edition(), public)
    with monkeypatch.context() as patch:
        patch.setattr(journal, "follow", lambda *_: sys.exit(1))
        with pytest.raises(SystemExit):
            publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    return public, tmp_path / ".public.next/journal.json"


@pytest.mark.parametrize(
    "text", ["", "[]", "{}", '{"put": {"../x": "0"}, "away": []}', '{"put": {}}']
)
def test_a_damaged_journal_is_told(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, text: str
) -> None:
    public, file = broken_off(folders, tmp_path, monkeypatch)
    file.write_text(text)
    with pytest.raises(Refused) as refused:
        publish(Edition(), public)
    [problem] = refused.value.problems
    assert problem.file == str(file)
    assert problem.message == "This list of what is still to be published was damaged."
    assert problem.hint == (
        "Remove the folder .public.next and build all again with --all."
    )
    assert sorted(folders.state(public)) == ROOT_FILES


def test_a_folder_taken_away_meanwhile_begins_anew(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    public, _ = broken_off(folders, tmp_path, monkeypatch)
    shutil.rmtree(public)
    publish(Edition(), public)
    assert sorted(folders.state(public)) == ROOT_FILES
    assert folders.around(public) == []


def test_without_the_one_step(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(journal, "exchange", lambda first, second: False)
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    new = folders.make_site(tmp_path / "n", "new")
    both = {ASH: new, ELM: folders.make_site(tmp_path / "e", "elm")}
    publish(Edition(both), public)
    assert {name: folders.state(public / name) for name in both} == {
        name: folders.state(site) for name, site in both.items()
    }
    assert folders.around(public) == []


def test_a_second_rename_that_fails_puts_the_old_one_back(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    before = folders.state(public)
    monkeypatch.setattr(journal, "exchange", lambda first, second: False)
    replace = Path.replace

    def failing(source: Path, target: Path) -> Path:
        if "new" in source.parts and source.name == ASH:
            raise OSError(5, "Input/output error")
        return replace(source, target)

    monkeypatch.setattr(Path, "replace", failing)
    with pytest.raises(Refused, match="not all of it could be put here yet"):
        publish(Edition({ASH: folders.make_site(tmp_path / "n", "new")}), public)
    assert folders.state(public) == before


def test_the_disk_has_each_part_before_the_next_begins(
    folders: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    public, stage = tmp_path / "public", tmp_path / ".public.next"
    publish(Edition({ASH: folders.make_site(tmp_path / "a", "ash")}), public)
    order: list[tuple[str, Path, bool]] = []

    def note(module: object, name: str) -> None:
        real = getattr(module, name)

        def noted(path: Path, *more: Path) -> object:
            order.append((name, path, (stage / "journal.json").exists()))
            return real(path, *more)

        monkeypatch.setattr(module, name, noted)

    for module, name in (
        (room, "settle"),
        (journal, "sync"),
        (journal, "exchange"),
        (beside, "sync"),
        (shutil, "rmtree"),
    ):
        note(module, name)
    publish(Edition({ASH: folders.make_site(tmp_path / "n", "new")}), public)
    assert [one for one in order if one[1].is_relative_to(tmp_path)] == [
        ("settle", stage, False),
        ("sync", stage / "journal.json.next", False),
        ("sync", stage, True),
        ("exchange", stage / "new" / ASH, True),
        ("sync", public, True),
        ("sync", public / "shared", True),
        ("sync", stage / "new", True),
        ("sync", stage / "old", True),
        ("sync", stage, False),
        ("rmtree", stage / "new", False),
        ("rmtree", stage / "old", False),
    ]
