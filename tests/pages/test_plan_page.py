"""The page on where everything is, and the ways to it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.pages.rows_of_plan import NOT_SAID, place_rows
from generator.record.load import Workspace
from generator.results.location import POOR_ANGLE
from generator.worked import Worked, work_out
from tests.pages.composed import drawn_texts as pages

TOP = Path(__file__).resolve().parents[2]
LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
Change = Callable[..., Workspace]


@pytest.fixture(scope="module")
def larch() -> Worked:
    """The job that has a plan."""
    return work_out(Workspace(TOP), LARCH)


@pytest.fixture(scope="module")
def whole(larch: Worked) -> dict[str, str]:
    """Its pages, as they are."""
    return pages(larch)


def row(page: str, start: str) -> str:
    """Find the row of a table that begins with some words."""
    return next(line for line in page.splitlines() if line.startswith(f"| {start} "))


def test_the_plan_follows_the_findings(
    whole: dict[str, str], workspace: Workspace
) -> None:
    assert list(whole)[:4] == ["index", "findings", "plan", "tank"]
    assert "# Where everything is" in whole["plan"]
    assert "figures/plan.svg" in whole["plan"]
    assert "plan" not in pages(work_out(workspace, CATTAIL))


def test_each_place_tells_its_ties_and_how_sure_it_is(whole: dict[str, str]) -> None:
    page = whole["plan"]
    found = row(page, "**L1**")
    assert "inlet cover of the tank" in found
    assert "ties A 17 ft and B 53 ft 4 in, on the left of the line" in found
    assert "[± 0.7 ft](working.md#place-l1-give-or-take)" in found
    assert "134 ft 9 in along the line from A toward B" in row(page, "**N1**")
    assert "start of the plan" in row(page, "**A**")
    assert "±" not in row(page, "**A**")
    assert NOT_SAID in page


def test_how_it_was_measured_is_told_where_it_was_said(with_job: Change) -> None:
    def edit(data: dict) -> None:
        well = next(one for one in data["places"] if one["name"] == "W")
        well.update(by="wheel", give_or_take="2 ft")

    page = pages(work_out(with_job(LARCH, edit), LARCH))["plan"]
    assert "; wheel; right within 2 ft" in row(page, "**W**")


def test_a_poor_angle_is_told(with_job: Change) -> None:
    def edit(data: dict) -> None:
        data["places"].append(
            {"name": "Z", "ties": ["A 40 ft", "B 25 ft"], "side": "left"}
        )

    worked = work_out(with_job(LARCH, edit), LARCH)
    last = place_rows(worked.record, worked.results)[-1]
    assert last.name == "Z"
    assert last.good_to.endswith(POOR_ANGLE)


def test_depths_and_pairs_stand_on_the_page(whole: dict[str, str]) -> None:
    page = whole["plan"]
    assert "| tank | [10.4" in page
    assert "| 11 in | agrees |" in page
    short = row(page, "Absorption area (trench) to private well (well)")
    assert "does not meet the current siting distance" in short
    assert "#distance-absorption-area-to-private-well" in short  # the tape is surer
    house = row(page, "Absorption area (trench) to foundation (house)")
    assert "#plan-absorption-area-to-foundation" in house  # it was only paced
    assert "**meets**" in house


def test_a_distance_measured_twice_is_told_once(whole: dict[str, str]) -> None:
    page = whole["distances"]
    assert page.count("**Absorption area (trench) to foundation (house)**") == 1
    assert "**Absorption area to foundation**" not in page
    paced = row(page, "Paced")
    assert "11.0\u00a0±\u00a02.9" in paced
    assert "which agrees" in paced
    assert "#compare-absorption-area-to-foundation" in paced
    first = page.index('<div class="distance"')
    assert page.index("does not meet the current siting distance**") < page.index(
        "| Verdict | **meets** |"
    )
    assert first < page.index("to private well")


def test_north_is_told_or_missed(whole: dict[str, str], with_job: Change) -> None:
    assert "95 deg, taken as it stands" in whole["plan"]
    worked = work_out(with_job(LARCH, lambda data: data["datum"].pop("bearing")), LARCH)
    assert "does not show where north is" in pages(worked)["plan"]


def test_a_finding_leads_to_the_plan_where_its_part_stands_on_it(
    larch: Worked, whole: dict[str, str], workspace: Workspace
) -> None:
    kickers = [
        line
        for line in whole["findings"].splitlines()
        if "{: .weight" in line and line.startswith("**")
    ]
    assert len(kickers) == len(larch.findings)
    for line in kickers:
        part = line.partition("} ")[2].partition(" · ")[0]
        leads = "Where: [on the plan](plan.md)" in line
        assert leads is (part not in ("papers", "load test", "lot")), line
    assert "plan.md" not in pages(work_out(workspace, CATTAIL))["findings"]


def test_words_of_the_file_stay_words(with_job: Change) -> None:
    def edit(data: dict) -> None:
        data["places"][0]["what"] = "cover | <b>of</b> {{ 7*7 }}"

    page = pages(work_out(with_job(LARCH, edit), LARCH))["plan"]
    assert "<b>of" not in page
    assert "{{" not in page
    assert "49" not in row(page, "**L1**")


def test_a_far_well_brings_a_nearer_plan(
    whole: dict[str, str], with_job: Change
) -> None:
    def edit(data: dict) -> None:
        data["places"].append(
            {"name": "V", "from": "A", "bearing": "10 deg", "distance": "900 ft"}
        )
        data["features"].append(
            {"name": "far well", "kind": "private well", "on_plan": ["V"]}
        )

    assert "plan-near" not in whole["plan"]
    assert (
        "figures/plan-near.svg" in pages(work_out(with_job(LARCH, edit), LARCH))["plan"]
    )
