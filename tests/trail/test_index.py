"""The log is read once: what was kept of it is trusted only where it is whole."""

from __future__ import annotations

import json
import os
import random
from pathlib import Path

import pytest

from generator.trail import index as reading
from generator.trail import log
from generator.trail.git import repository
from generator.trail.index import KEPT, index_of
from generator.trail.revision import Index
from tests.trail.scripted import RENAMED, Repository


@pytest.fixture(autouse=True)
def _keep_always(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "KEEP_FROM", 1)
    monkeypatch.setattr(log, "FEWEST", 3)  # a second process with the fourth commit


def read(made: Repository, folder: Path) -> Index:
    found = repository(made.root)
    assert found is not None
    return index_of(found, folder)


def passes(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Count the commits that each reading of the log compares."""
    counts: list[int] = []
    whole = log.entries

    def counted(found, listed, paths):  # type: ignore[no-untyped-def]  # only counts
        counts.append(len(listed))
        return whole(found, listed, paths)

    monkeypatch.setattr(reading, "entries", counted)
    return counts


def test_the_revisions_are_those_that_git_lists(
    told: Repository, tmp_path: Path
) -> None:
    """Held against ``git log --follow``, merges aside."""
    found = read(told, tmp_path).of(f"inspections/{RENAMED}.yaml")
    follow = told.git(
        "log", "--follow", "--topo-order", "-M50%", "--format=%H", "--", found[0].path
    )
    merges = told.git("rev-list", "--merges", "HEAD").split()
    listed = [one.commit for one in found]
    assert [one for one in listed if one not in merges] == [
        one for one in follow.split() if one not in merges
    ]
    assert [one.commit for one in found if one.merge] == merges


def test_each_commit_is_compared_once(
    mine: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    counts = passes(monkeypatch)
    first = read(mine, tmp_path)
    assert read(mine, tmp_path) == first
    mine.edit(("ground: moist", "ground: wet"), job=RENAMED)
    mine.commit("Go on")
    longer = read(mine, tmp_path)
    assert counts == [first.count, 1]
    assert longer == read(mine, tmp_path / "anew")


def test_what_was_kept_grows_as_if_read_anew(
    tmp_path: Path, mine: Repository, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Forty random steps, branches and renames among them; seeded."""
    chance = random.Random(8)
    for step in range(40):
        job = f"job-{chance.randrange(4)}"
        path = mine.workspace.job_file(job)
        way = chance.random()
        if way < 0.15 and path.exists():
            path.rename(mine.workspace.job_file(f"job-{step + 10}"))
        elif way < 0.25 and path.exists():
            path.unlink()
        else:
            kept = path.read_text() if path.exists() else "a: 1\n" * 30
            path.write_text(f"{kept}# {step}\n")
        mine.commit(str(step))
        if way > 0.8:
            mine.git("switch", "--quiet", "--create", f"side-{step}", "HEAD~1")
            mine.workspace.job_file(f"side-{step}").write_text(f"s: {step}\n" * 9)
            mine.commit("On the side")
            mine.git("switch", "--quiet", "main")
            mine.git("merge", "--quiet", "--no-edit", f"side-{step}")
        if way > 0.5:
            grown = read(mine, tmp_path / "kept")
    grown = read(mine, tmp_path / "kept")
    anew = read(mine, tmp_path / "anew")
    assert grown.revisions.keys() == anew.revisions.keys()
    for path in anew.revisions:
        names = [[one.commit for one in index.of(path)] for index in (grown, anew)]
        assert sorted(names[0]) == sorted(names[1])
    touched = [
        {job: name for job, (_, name) in index.touched.items()}
        for index in (grown, anew)
    ]
    assert touched[0] == touched[1]


@pytest.mark.parametrize(
    "spoil",
    [
        lambda text: text.replace("added", "changed", 1),  # another word
        lambda text: text[:-40],  # cut off
        lambda text: "",
        lambda text: "x" + text,
        lambda text: text.partition("\n")[2],  # without its digest
        lambda text: text.replace("\n", "\n ", 1),
        lambda text: "\x00" * 100,
    ],
    ids=range(7),
)
def test_what_was_spoilt_is_read_anew(
    told: Repository, tmp_path: Path, spoil, monkeypatch: pytest.MonkeyPatch
) -> None:  # type: ignore[no-untyped-def]  # a function on text
    first = read(told, tmp_path)
    kept = tmp_path / KEPT
    kept.write_text(spoil(kept.read_text()))
    counts = passes(monkeypatch)
    assert read(told, tmp_path) == first
    assert counts == [first.count]


def test_a_pipe_in_its_place_is_taken_away(told: Repository, tmp_path: Path) -> None:
    first = read(told, tmp_path)
    (tmp_path / KEPT).unlink()
    os.mkfifo(tmp_path / KEPT)
    again = read(told, tmp_path)
    assert (again, again.spoilt, first.spoilt) == (first, True, False)
    assert (tmp_path / KEPT).is_file()
    assert not read(told, tmp_path).spoilt


def test_a_short_history_is_told_as_spoilt_once(
    told: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "KEEP_FROM", 500)
    (tmp_path / KEPT).write_text("spoilt")
    assert [read(told, tmp_path).spoilt for _ in range(2)] == [True, False]


def test_a_short_history_of_many_versions_is_kept(
    told: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    index = read(told, tmp_path / "one")
    monkeypatch.setattr(reading, "KEEP_FROM", index.count + 2)
    index.reports["0f"] = 0
    reading.keep_index(tmp_path, index)
    assert not (tmp_path / KEPT).exists()
    index.reports["f0"] = 1
    reading.keep_index(tmp_path, index)
    assert read(told, tmp_path) == index


def test_a_folder_that_git_names_whole_belongs_to_its_job() -> None:
    """Git names a folder alone where it holds a repository of its own."""
    assert reading.group_of("inspections/lot-7/") == "lot-7"


def test_what_another_repository_left_is_not_used(
    told: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = Repository(tmp_path / "other")
    other.workspace.inspections.mkdir(parents=True)
    other.git("init", "--quiet", "--initial-branch=main")
    other.write("a: 1\n")
    other.commit("Another firm")
    read(other, tmp_path)
    assert read(told, tmp_path) == read(told, tmp_path / "anew")


def test_a_history_that_was_changed_is_read_anew(
    mine: Repository, tmp_path: Path
) -> None:
    read(mine, tmp_path)
    mine.git("reset", "--quiet", "--hard", "HEAD~1")
    assert read(mine, tmp_path) == read(mine, tmp_path / "anew")


def test_a_kept_layout_of_another_time_is_read_anew(
    told: Repository, tmp_path: Path
) -> None:
    from generator.trail.keep import _digest

    first = read(told, tmp_path)
    kept = tmp_path / KEPT
    data = json.loads(kept.read_text().partition("\n")[2]) | {"layout": 0, "count": 0}
    text = json.dumps(data)
    kept.write_text(f"{_digest(text)}\n{text}")
    assert read(told, tmp_path) == first


def test_names_in_any_script_are_kept(mine: Repository, tmp_path: Path) -> None:
    name = "Grünweg-7"
    mine.workspace.job_file(name).write_text("a: 1\n")
    mine.commit("Another alphabet")
    for _ in range(2):
        assert len(read(mine, tmp_path).of(f"inspections/{name}.yaml")) == 1


def test_a_folder_below_the_top_of_a_repository(
    told: Repository, tmp_path: Path
) -> None:
    top = Repository(tmp_path / "top")
    (top.root / "firm").mkdir(parents=True)
    top.git("init", "--quiet", "--initial-branch=main")
    firm = Repository(top.root / "firm")
    firm.workspace.inspections.mkdir()
    firm.write("a: 1\n")
    (top.root / "inspections").mkdir()
    (top.root / "inspections" / "lot-7.yaml").write_text("not ours\n")
    firm.commit("Below")
    found = read(firm, tmp_path)
    assert [one.how for one in found.of("inspections/lot-7.yaml")] == ["added"]
    assert list(found.touched) == ["lot-7"]
