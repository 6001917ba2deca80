"""Shards made on several machines give the same bytes as one build on one machine."""

from __future__ import annotations

import os
import re
import shlex
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest
import yaml
from PIL import Image

from generator.pipeline import Order, build
from generator.record.load import Workspace
from generator.website import journal
from generator.website.links import folder_name
from tests.shards.conftest import (
    DAY,
    ROOT,
    SECRET,
    Firm,
    files,
    small_sites,
    write_small,
)
from tests.trail.scripted import JOB, Repository, begun, entry

SMALL_JOBS = ("ash", "elm", "fir", "oak", "pine", "yew")
SLIP = 'inspections/fir.yaml:10: tanks[0].sludge: "11" has no unit.'
HINT = '  Write it as "48 in", "4 ft" or "18 ft 4 in".'
LEFT = "1 problem in 1 job; what was published of it before stays as it was."
STRAY = "a" * 32


@dataclass(frozen=True)
class Lot:
    """A firm, its shards made on three machines, and one build of it on a fourth."""

    top: Path
    firm: Firm
    shards: tuple[Path, ...]
    whole: Firm
    told: tuple[str, ...]

    def copy(self, where: Path) -> Firm:
        """Give the firm's folder to one more machine."""
        shutil.copytree(self.firm.root, where / "firm", symlinks=True)
        return Firm(where / "firm")

    def published(self) -> dict[str, bytes]:
        return files(self.whole.public)


@pytest.fixture(scope="module")
def lot(tmp_path_factory: pytest.TempPathFactory) -> Lot:
    """Seven jobs: one with a photograph, one with a problem, one given in git."""
    top = tmp_path_factory.mktemp("lot")
    firm = Firm(top / "firm")
    made = begun(firm.root)
    made.write(made.text() + entry(1, "first report", "2026-10-07"))
    for number, job in enumerate(SMALL_JOBS, 1):
        write_small(Workspace(firm.root), job, number)
    firm.edit("fir", "11 in", "11")
    photo = "\nphotos: [{file: lid.jpg, shows: the lid}]\n"
    file = made.workspace.job_file("elm")
    file.write_text(file.read_text("utf-8") + photo, encoding="utf-8")
    made.workspace.photo_folder("elm").mkdir()
    lid = made.workspace.photo_folder("elm") / "lid.jpg"
    Image.new("RGB", (60, 40), "#887766").save(lid)
    made.commit("Give the first report")
    shards, told = [], []
    for number in (1, 2, 3):
        folder = top / "shards" / f"{number}-of-3"
        machine = firm.copy(f"machine-{number}")
        run = machine.ask(
            "build", "--on", DAY, "--shard", f"{number}/3", "--out", folder
        )
        shards.append(folder)
        told.append(run.output)
        assert run.exit_code == (number == 3), run.output
        assert not machine.public.exists()
    whole = firm.copy("whole")
    assert whole.ask("build", "--on", DAY).exit_code == 1
    return Lot(top, firm, tuple(shards), whole, tuple(told))


def test_a_shard_tells_what_it_holds(lot: Lot) -> None:
    assert [text.splitlines()[-1] for text in lot.told[:2]] == [
        f"{lot.shards[0]}: share 1/3, 3 sites of 7 jobs.",
        f"{lot.shards[1]}: share 2/3, 2 sites of 7 jobs.",
    ]
    assert lot.told[2].splitlines() == [
        f"{lot.shards[2]}: share 3/3, 1 site of 7 jobs.",
        SLIP,
        HINT,
        "1 problem in 1 job; the shard tells of it and holds no site of it.",
    ]


def test_merged_they_are_one_build(lot: Lot, tmp_path: Path) -> None:
    firm = lot.copy(tmp_path)
    run = firm.merge(*lot.shards)
    assert run.exit_code == 1
    told = run.output.splitlines()
    assert told[-3:] == [SLIP, HINT, LEFT]
    pages = [line.partition(": ")[0] for line in told if "/public/" in line]
    assert pages == ["ash", "elm", JOB, "oak", "pine", "yew"]
    assert files(firm.public) == lot.published()
    assert not (firm.root / "build" / "photos").exists()
    again = firm.ask("build", "--on", DAY, "--explain").output.splitlines()
    same = [line for line in again if line.endswith(": nothing changed, so not built.")]
    assert len(same) == len(pages)
    assert "6 of 7 jobs had not changed." in again
    assert files(firm.public) == lot.published()
    once_more = firm.merge(*lot.shards).output.splitlines()
    assert "6 of 7 jobs had not changed." in once_more
    assert once_more[-3:] == told[-3:]


def spoilt(lot: Lot, firm: Firm) -> dict[str, bytes]:
    """Let an earlier version be published: other pages, a job fewer, a stray."""
    shutil.copytree(lot.whole.public, firm.public)
    for path in firm.public.glob("*/index.html"):
        path.write_text("an earlier version", encoding="utf-8")
    shutil.rmtree(firm.public / folder_name(SECRET.encode(), "yew", 1))
    theme = next((firm.public / "shared").iterdir())
    theme.rename(theme.with_name("0" * 32))
    (firm.public / STRAY).mkdir()
    (firm.public / STRAY / "index.html").write_text("a stray", encoding="utf-8")
    return files(firm.public)


def test_an_earlier_version_becomes_the_new_one(lot: Lot, tmp_path: Path) -> None:
    firm = lot.copy(tmp_path)
    spoilt(lot, firm)
    stray = f"public/{STRAY} belongs to no job. Take it away with --remove-strays."
    assert stray in firm.merge(*lot.shards).output
    assert (firm.public / STRAY).exists()
    run = firm.merge("--remove-strays", *lot.shards)
    assert f"public/{STRAY} belonged to no job and was taken away." in run.output
    assert files(firm.public) == lot.published()


def test_a_merge_killed_in_the_middle_is_finished_by_the_next_start(
    lot: Lot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    firm = lot.copy(tmp_path)
    before = spoilt(lot, firm)

    def killed(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(journal, "write", killed)
        firm.merge("--remove-strays", *lot.shards)
    assert files(firm.public) == before
    with monkeypatch.context() as patch:
        patch.setattr(journal, "follow", killed)
        firm.merge("--remove-strays", *lot.shards)
    assert files(firm.public) == before
    assert firm.ask("build", "--on", DAY, "fir").exit_code == 1  # it builds nothing
    after = files(firm.public)
    assert {one: after.get(one) for one in lot.published()} == lot.published()
    assert not any(one.startswith(STRAY) for one in after)


def test_a_job_with_a_problem_keeps_what_is_published_of_it(
    lot: Lot, tmp_path: Path
) -> None:
    firm = lot.copy(tmp_path)
    shutil.copytree(lot.whole.public, firm.public)
    earlier = firm.public / folder_name(SECRET.encode(), "fir", 1)
    shutil.copytree(firm.public / folder_name(SECRET.encode(), "oak", 1), earlier)
    before = files(earlier)
    assert firm.merge("-q", *lot.shards).output.splitlines()[-1] == LEFT
    assert files(earlier) == before


def refused(lot: Lot, firm: Firm) -> list[str]:
    run = firm.merge("-q", *lot.shards)
    assert run.exit_code == 1
    assert not firm.public.exists()
    return run.output.splitlines()


def test_shards_of_another_commit_are_refused(lot: Lot, tmp_path: Path) -> None:
    firm = lot.copy(tmp_path)
    made = Repository(firm.root, days=1)
    firm.edit("pine", "11 in", "12 in")
    changed = (
        "inspections/pine.yaml: Its shard was made from something else than what lies "
        "here: its place in the history, the job file."
    )
    assert refused(lot, firm)[0] == changed
    made.commit("Measure again")
    assert refused(lot, firm)[0] == changed


def test_what_was_altered_here_after_it_was_given_is_refused(
    lot: Lot, tmp_path: Path
) -> None:
    firm = lot.copy(tmp_path)
    firm.edit(JOB, "sludge: 11 in", "sludge: 14 in")
    assert refused(lot, firm) == [
        f"inspections/{JOB}.yaml: Its shard was made from something else than what "
        "lies here: what was altered after it was given.",
        "  Make the shards again from what lies here.",
        "1 problem; nothing published has changed.",
    ]


def test_more_shards_than_jobs(firm: Firm) -> None:
    shards = [firm.shard(number, 6) for number in range(1, 7)]
    assert sorted(files(shards[5])) == ["manifest.json"]
    run = firm.merge(*shards)
    assert run.exit_code == 0, run.output
    other = firm.copy("other")
    shutil.rmtree(other.public)
    order = Order(
        other.place.jobs(), other.public, DAY, make=small_sites, everything=True
    )
    build(other.place, order, lambda _: None)
    assert files(firm.public) == files(other.public)


def test_links_that_ended_are_published_with_the_merge(firm: Firm) -> None:
    assert firm.ask("withdraw", "elm").exit_code == 0
    run = firm.merge(firm.shard(1, 2), firm.shard(2, 2))
    assert run.output.splitlines()[0] == (
        "elm: nobody can read it, since its last link is withdrawn; not built."
    )
    page = firm.public / folder_name(SECRET.encode(), "elm", 1) / "index.html"
    assert "withdrawn" in page.read_text("utf-8")


def test_a_firm_without_a_job(firm: Firm) -> None:
    for job in firm.place.jobs():
        firm.place.job_file(job).unlink()
    assert firm.merge(firm.shard(1, 1)).exit_code == 0
    assert (firm.public / "robots.txt").is_file()


def test_the_pipeline_in_the_words_for_developers_runs(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    found = re.search(r"```yaml\n(# A matrix.*?)```", text, re.DOTALL)
    assert found
    jobs = yaml.safe_load(found[1])["jobs"]
    numbers = jobs["shard"]["strategy"]["matrix"]["number"]
    count = jobs["shard"]["env"]["COUNT"]
    assert numbers == [*range(1, count + 1)]
    monkeypatch.setattr("generator.workers.built", built_by_the_stand_in)
    monkeypatch.chdir(firm.root)
    for number in numbers:
        monkeypatch.setenv("NUMBER", str(number))
        monkeypatch.setenv("COUNT", str(count))
        ask_all(firm, jobs["shard"]["steps"])
    (firm.root / "build" / "shards").rename(firm.root / "shards")
    ask_all(firm, jobs["publish"]["steps"])
    assert len(list(firm.public.glob("*/record.txt"))) == len(firm.place.jobs())


def built_by_the_stand_in(bench, tasks, done, *, processes, hand):  # type: ignore[no-untyped-def]  # as the stand-in
    return small_sites(bench, tasks, done)


def ask_all(firm: Firm, steps: list[dict[str, str]]) -> None:
    """Ask for everything that the steps of a pipeline ask of onlot."""
    for step in steps:
        first, *words = shlex.split(os.path.expandvars(step.get("run", "none")))
        if first == "onlot":
            known = [
                sorted(firm.root.glob(one)) if "*" in one else [one] for one in words
            ]
            run = firm.ask(*(word for group in known for word in group))
            assert run.exit_code == 0, run.output
