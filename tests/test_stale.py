"""What a commit tells is not read again, and nothing that changed is missed."""

from __future__ import annotations

import os
import random
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import pytest

from generator import stale, survey
from generator.beside import Hand
from generator.pipeline import Order, build
from generator.problems import Problem, Refused
from generator.website import as_published
from generator.workers import FEWEST, Bench, Outcome, Task
from tests.trail.scripted import JOB, Repository, begun, entry

TODAY = "2026-11-01"
T = TypeVar("T")


@pytest.fixture
def read(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The jobs whose files were read to see whether they changed."""
    found: list[str] = []
    whole = stale.made_from

    def made_from(workspace, job, name, commit):  # type: ignore[no-untyped-def]  # only counts
        found.append(job)
        return whole(workspace, job, name, commit)

    monkeypatch.setattr(stale, "made_from", made_from)
    return found


def built(made: Repository, public: Path | None = None) -> list[str]:
    """Build all jobs; name those that were built again."""
    order = Order(made.workspace.jobs(), public or made.root / "public", TODAY)
    found = build(made.workspace, order, lambda _: None)
    assert found.problems == ()
    return list(found.changed)


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and "shared" not in path.parts
    }


def test_a_committed_job_is_not_read_twice(tmp_path: Path, read: list[str]) -> None:
    made = begun(tmp_path / "firm")
    made.commit("Begin")
    assert built(made) == [JOB]
    assert read == [JOB]
    os.utime(made.workspace.job_file(JOB), (1, 1))  # another time, the same content
    assert built(made) == []
    assert read == [JOB]
    made.edit(("ground: dry", "ground: moist"))
    assert built(made) == [JOB]
    made.commit("Look again")
    assert built(made) == [JOB]  # its commit stands on the record page
    assert read == [JOB] * 3
    assert built(made) == []
    assert read == [JOB] * 3


class Noted(Hand):
    """Notes what it is asked, and lets it be done here."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: list[str] = []

    begun = False  # type: ignore[assignment]  # as it is told

    def begin(self) -> None:
        self.begun = True  # type: ignore[misc]  # no process is begun

    def ask(self, work: Callable[..., T], *words: Any) -> Callable[[], T]:
        self.asked.append(work.__name__)
        return lambda: work(*words)


def test_a_second_process_is_asked_early_and_for_few_jobs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = begun(tmp_path / "firm")
    looked: list[Path | str] = []
    whole = stale.looks

    def looks(folder: Path | str) -> str:
        looked.append(folder)
        return whole(folder)

    monkeypatch.setattr(stale, "looks", looks)

    monkeypatch.setattr(survey, "MANY", 1)

    def asked(count: int) -> list[str]:
        del looked[:]
        for number in range(1, count):
            made.write(made.text(), f"more-{number}")
        hand, public = Noted(), made.root / "public"
        order = Order(
            made.workspace.jobs(), public, TODAY, make=nothing_made, hand=hand
        )
        assert len(build(made.workspace, order, lambda _: None).left) == count
        return hand.asked

    assert asked(1) == ["all_looks", "load_drawing"]
    assert asked(FEWEST - 1) == ["all_looks", "load_drawing"]
    assert asked(FEWEST) == ["all_looks"]
    for number in range(1, FEWEST):
        made.workspace.job_file(f"more-{number}").unlink()
    assert built(made) == [JOB]
    assert asked(0) == ["all_looks"]
    assert [Path(one).parent.name for one in looked] == ["shared"]  # no site is


def nothing_made(
    bench: Bench, tasks: Sequence[Task], done: Callable[[str], None]
) -> dict[str, Outcome]:
    refused = Refused([Problem("inspections/", 0, "", "Not made.", "")])
    return {one.job: refused for one in tasks}


def test_a_few_sites_are_looked_at_by_nobody_else(tmp_path: Path) -> None:
    made, hand = begun(tmp_path / "firm"), Noted()
    order = Order([JOB], made.root / "public", TODAY, hand=hand)
    build(made.workspace, order, lambda _: None)
    assert hand.asked == ["load_drawing"]
    hand.asked.clear()
    build(made.workspace, order, lambda _: None)
    assert hand.asked == ["all_looks"]  # it had begun


def test_a_site_that_cannot_be_listed_is_one_of_its_job_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = as_published.looks

    def looks(folder: Path | str) -> str:
        if folder == str(tmp_path / "ash"):
            raise PermissionError(13, "Permission denied")
        return whole(folder)

    for name in ("ash", "elm"):
        (tmp_path / name).mkdir()
    (tmp_path / "fir").symlink_to(tmp_path / "elm")
    (tmp_path / "oak").touch()
    monkeypatch.setattr(as_published, "looks", looks)
    names = [str(tmp_path / one) for one in ("ash", "elm", "fir", "oak", "yew")]
    assert as_published.all_looks(names) == {names[1]: whole(names[1])}


@pytest.mark.parametrize(
    "change",
    [
        lambda made: made.edit(("ground: dry", "ground: moist")),
        lambda made: (made.workspace.photo_folder(JOB) / "tank-open.jpg").write_bytes(
            (made.workspace.photo_folder(JOB) / "well-head.jpg").read_bytes()
        ),
        lambda made: (made.workspace.inspections / "firm.yaml").write_text(
            (made.workspace.inspections / "firm.yaml").read_text() + "# more\n"
        ),
        lambda made: (made.root / "mkdocs.yml").write_text(
            "theme: {palette: [{scheme: slate, primary: custom}]}\n"
        ),
    ],
    ids=["job file", "photograph", "firm file", "look"],
)
def test_whatever_changes_is_built_again(tmp_path: Path, change) -> None:  # type: ignore[no-untyped-def]  # a function on a repository
    made = begun(tmp_path / "firm")
    made.commit("Begin")
    built(made)
    change(made)
    assert built(made) == [JOB]
    made.commit("Change it")
    assert built(made) == [JOB]
    assert built(made) == []


def test_after_many_steps_it_equals_a_clean_build(tmp_path: Path) -> None:
    """Ten seeded steps of an office, some built; a clean build of a clone last."""
    chance = random.Random(9)
    made = begun(tmp_path / "firm")
    made.commit("Begin")
    text = made.text()
    count = 0
    for step in range(10):
        jobs = made.workspace.jobs()
        job = chance.choice(jobs)
        way = chance.random()
        now = made.text(job)
        if way < 0.15 and len(jobs) < 4:
            count += 1
            made.write(text, f"lot-{count + 20}")
            source = made.workspace.photo_folder(jobs[0])
            target = made.workspace.photo_folder(f"lot-{count + 20}")
            target.mkdir(exist_ok=True)
            for one in source.iterdir():
                (target / one.name).write_bytes(one.read_bytes())
        elif way < 0.25 and len(jobs) > 1:
            made.git("mv", f"inspections/{job}.yaml", f"inspections/{job}x.yaml")
            made.git("mv", f"inspections/{job}", f"inspections/{job}x")
        elif way < 0.4:
            number = now.count("{number: ") + 1
            final = now.replace("state: draft", "state: final")
            made.write(final + entry(number, f"look {number}", "2026-10-20"), job)
        elif way < 0.7:
            draft = now.replace("state: final", "state: draft")
            made.write(draft.replace("bedrooms: 3", f"bedrooms: {step % 5 + 1}"), job)
        else:
            firm = made.workspace.inspections / "firm.yaml"
            firm.write_text(firm.read_text() + f"# {step}\n")
        made.commit(str(step), "--allow-empty")
        if chance.random() < 0.3:
            built(made)
    built(made)
    made.git("clone", "-q", f"file://{made.root}", str(tmp_path / "clone"))
    clone = Repository(tmp_path / "clone")
    built(clone)
    stays = files(made.root / "public")
    clean = files(clone.root / "public")
    owned = {name.split("/")[0] for name in clean}
    assert {k: v for k, v in stays.items() if k.split("/")[0] in owned} == clean
