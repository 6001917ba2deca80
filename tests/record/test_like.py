"""A job begun like another holds its lot and system, and nothing of its client."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from generator.record.begin import begun_like, unguessable
from generator.record.check import key_paths, schema
from generator.record.like import KEPT, kept
from generator.record.load import Workspace, look
from generator.record.one_line import written_out
from generator.record.read import read

TOP = Path(__file__).parent.parent.parent
JOBS = sorted(
    [*(TOP / "tests/jobs/good").glob("*.yaml"), *(TOP / "inspections").glob("d*.yaml")]
)
FIRM = "name: Example Onlot (invented)\nphone: 555-0100\n"
OF_THE_DAY = {
    "state", "visit", "client", "consent", "records", "household", "load_test",
    "two_day_test", "walkover", "distances", "photos", "findings", "overrides",
    "not_seen", "reports",
}  # fmt: skip
READ_THAT_DAY = {
    "photo", "sludge", "scum", "scum_bottom", "liquid_now", "high_mark", "cover",
    "covers_back", "structure", "log", "head", "water_on", "standing", "surface",
    "pump", "alarm", "aerator", "liquid_down", "probed", "drawdown", "outlets",
}  # fmt: skip


def long_form(job: Path) -> dict[str, Any]:
    """Read a job file with its one-line entries written out."""
    return written_out(read(job), schema("inspection")).data


def test_every_kept_key_is_in_the_schema() -> None:
    known = {path.replace("[]", "") for path in key_paths("inspection")}
    for group, keys in KEPT.items():
        assert {f"{group}.{key}".strip(".") for key in keys} <= known


def test_nothing_of_the_day_is_kept() -> None:
    every = set(schema("inspection")["properties"])
    assert every - set(KEPT[""]) == OF_THE_DAY
    assert not READ_THAT_DAY & {key for keys in KEPT.values() for key in keys}


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_what_is_kept_reads_back(job: Path, tmp_path: Path) -> None:
    wanted = kept(long_form(job))
    (tmp_path / "new.yaml").write_text(begun_like("new", job.stem, wanted), "utf-8")
    found = long_form(tmp_path / "new.yaml")
    assert {key: found[key] for key in wanted} == wanted
    assert set(found) - set(wanted) == {"state", "visit", "client"}
    assert set(found["visit"].values()) | set(found["client"].values()) == {None}


@pytest.mark.parametrize("job", JOBS, ids=lambda job: job.stem)
def test_the_new_file_misses_only_what_nobody_can_guess(
    job: Path, tmp_path: Path
) -> None:
    text = begun_like("new", job.stem, kept(long_form(job)))
    (tmp_path / "inspections").mkdir()
    (tmp_path / "inspections/firm.yaml").write_text(FIRM, encoding="utf-8")
    (tmp_path / "inspections/new.yaml").write_text(text, encoding="utf-8")
    opened = look(Workspace(tmp_path), "new")
    assert {one.field for one in opened.problems} <= set(unguessable())
    for line in ("  date:", "  inspector:", "  name:"):
        text = text.replace(f"\n{line}\n", f"\n{line} Oct 6, 2026\n", 1)
    (tmp_path / "inspections/new.yaml").write_text(text, encoding="utf-8")
    opened = look(Workspace(tmp_path), "new")
    assert opened.problems == ()
    assert opened.record is not None


def test_it_says_what_it_was_begun_from() -> None:
    text = begun_like("new", "demo-larch-hollow", {})
    assert "## Begun from demo-larch-hollow: the lot and the system" in text


def test_no_word_of_the_client_is_carried_over() -> None:
    job = TOP / "inspections/demo-larch-hollow.yaml"
    data = long_form(job)
    text = begun_like("new", job.stem, kept(data))
    for words in (*data["client"].values(), data["visit"]["inspector"]):
        assert words == "buyer" or words not in text
    live = "".join(line for line in text.splitlines() if "#" not in line)
    assert ".jpg" not in live
    assert "# sludge:  # like 8 in" in text
    assert "11 in" not in text.replace("B 102 ft 11 in", "")


def test_what_is_kept_of_the_plan_stays_short_and_the_log_is_asked_anew() -> None:
    job = TOP / "inspections/demo-larch-hollow.yaml"
    text = begun_like("new", job.stem, kept(long_form(job)))
    assert "\ndepths:\n  - {to: tank, invert_at_wall: 20 in, run: 9 ft 6 in, " in text
    assert "\n    # log:\n    #   -  # like 38 ft: perforations" in text


def test_compartments_take_the_place_of_sludge_in_the_tank() -> None:
    tank = {"name": "tank", "shape": "box", "compartments": [{"name": "first"}]}
    text = begun_like("new", "old", {"tanks": [tank]})
    assert "# sludge" not in text
    assert "# cover:  # sound" in text


def test_broken_values_do_not_stop_it(tmp_path: Path) -> None:
    broken = {"property": "a lane", "tanks": [None, "tank", {"name": {"a": 1}}, []]}
    assert kept(broken) == {"property": "a lane", "tanks": ["tank"]}
    (tmp_path / "new.yaml").write_text(begun_like("a", "b", kept(broken)), "utf-8")
    assert read(tmp_path / "new.yaml").data["tanks"] == ["tank"]


def test_demonstrations_stay_marked_as_such() -> None:
    shown = kept(long_form(TOP / "inspections/demo-cattail-lake.yaml"))
    assert "invented" in shown["demonstration"]
