"""What travels to a worker: what the job is made from, and nothing else."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

from generator.cluster.parcel import Parcel, parcel_of
from generator.cluster.work import made
from generator.record.load import Workspace
from generator.standing import standing
from generator.trail.past import past_of
from generator.workers import Bench, Task
from tests.cluster.firm import WRONG, firm, with_history
from tests.conftest import SECRET
from tests.trail.scripted import JOB

NAME = "b" * 32
SHARED = {
    "inspections/firm.yaml",
    "inspections/mark.png",
    "inspections/codes/us-or.yaml",
    "mkdocs.yml",
}
LINKS = 'links: [{to: "A. Client (invented)", given: 2026-10-06}]\n'


def prepared(place: Workspace, job: str) -> Parcel | None:
    past = past_of(place)
    bench = Bench(place, past, place.root / "build")
    return parcel_of(bench, Task(job, NAME, standing(place, past, job)), ("0" * 32,))


def hide_something(place: Workspace) -> None:
    """Put beside the jobs what must not travel."""
    (place.root / ".onlot").mkdir()
    (place.root / ".onlot" / "link-secret").write_text(SECRET, encoding="utf-8")
    for job in ("ash", JOB):
        (place.photo_folder(job) / "links.yaml").write_text(LINKS, encoding="utf-8")
    (place.photo_folder("ash") / "film.mp4").write_bytes(b"x")
    (place.inspections / "codes" / "notes.txt").write_text("x", encoding="utf-8")


def test_files_as_they_stand(tmp_path: Path) -> None:
    place = firm(tmp_path / "firm").workspace
    hide_something(place)
    parcel = prepared(place, "ash")
    assert parcel is not None
    own = {"inspections/ash.yaml", "inspections/ash/tank.jpg"}
    assert set(parcel.files) == SHARED | own
    for path, content in parcel.files.items():
        assert content == (place.root / path).read_bytes()
    assert (parcel.commit, parcel.origin.report) == ("", 0)


def test_a_report_given_earlier(tmp_path: Path) -> None:
    made_firm = with_history(tmp_path / "firm")
    hide_something(made_firm.workspace)
    made_firm.commit("Give the links to git")
    parcel = prepared(made_firm.workspace, JOB)
    assert parcel is not None
    own = {f"inspections/{JOB}.yaml", f"inspections/{JOB}/tank.jpg"}
    assert set(parcel.files) == SHARED | own
    assert b"state: final" in parcel.files[f"inspections/{JOB}.yaml"]
    assert parcel.origin.report == 2
    assert parcel.origin.commit == parcel.commit
    assert [one.number for one in parcel.origin.between] == [2]


def test_no_secret_and_nothing_of_another_job(tmp_path: Path) -> None:
    made_firm = with_history(tmp_path / "firm")
    hide_something(made_firm.workspace)
    for job in ("ash", JOB):
        packed = pickle.dumps(prepared(made_firm.workspace, job))
        assert SECRET.encode() not in packed
        assert b"links:" not in packed
        others = {"ash", "fir", WRONG, JOB} - {job}
        theirs = [f"inspections/{one}{end}" for one in others for end in "./"]
        assert not any(path.encode() in packed for path in theirs)
        assert str(tmp_path).encode() not in packed


@pytest.mark.parametrize(
    "path",
    ["ash.yaml", "ash/tank.jpg", "firm.yaml", "mark.png", "codes/us-or.yaml", "ash"],
)
def test_a_job_whose_files_are_links_stays_here(tmp_path: Path, path: str) -> None:
    place = firm(tmp_path / "firm").workspace
    file = place.inspections / path
    elsewhere = file.rename(tmp_path / "elsewhere")
    file.symlink_to(elsewhere)
    assert prepared(place, "ash") is None


def test_a_job_that_is_too_large_stays_here(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = firm(tmp_path / "firm").workspace
    monkeypatch.setattr("generator.cluster.parcel.MOST_BYTES", 1_000)
    assert prepared(place, "ash") is None


def test_nothing_of_a_job_stays_with_the_worker(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = firm(tmp_path / "firm").workspace
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    parcel = prepared(place, WRONG)
    assert parcel is not None
    told = made(parcel, str(scratch))["problems"]
    assert [one.file for one in told] == [f"inspections/{WRONG}.yaml"]
    assert list(scratch.iterdir()) == []

    def break_off(*_: object) -> None:
        assert len(list(scratch.iterdir())) == 1
        raise RuntimeError("broken")

    monkeypatch.setattr("generator.cluster.work.worked_at", break_off)
    with pytest.raises(RuntimeError, match="broken"):
        made(parcel, str(scratch))
    assert list(scratch.iterdir()) == []
