"""The page on where the water goes: box, absorption areas and the two-day test."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.record.load import Workspace
from generator.worked import work_out
from tests.pages.composed import drawn_texts

GOOD = Path(__file__).parent.parent / "jobs" / "good"
WITH_AREA = (
    "system-bed", "system-gravity-trench", "system-mound-with-pump",
    "two-day-test-alone", "everything-new",
)  # fmt: skip
LINK = re.compile(r"\]\((\w+)\.md#([\w-]+)\)")
Pages = Callable[[str], dict[str, str]]


@pytest.fixture
def pages(workspace: Workspace) -> Pages:
    """Compose the pages of a good job, or of one whose text was changed."""

    def compose(job: str, *changes: tuple[str, str]) -> dict[str, str]:
        text = (GOOD / f"{job}.yaml").read_text("utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        workspace.job_file(job).write_text(text, "utf-8")
        return drawn_texts(work_out(workspace, job))

    return compose


def rows(page: str) -> dict[str, list[str]]:
    """Give the cells behind the first of every row."""
    lines = [line for line in page.splitlines() if line.startswith("|")]
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]
    return {first: rest for first, *rest in cells}


def test_the_page_follows_the_load_test(pages: Pages) -> None:
    names = list(pages("system-gravity-trench"))
    assert names[names.index("load-test") + 1] == "area"


def test_the_page_is_left_out_where_nothing_of_it_was_recorded(pages: Pages) -> None:
    assert "area" not in pages("system-holding-tank")


@pytest.mark.parametrize("job", WITH_AREA)
def test_every_number_leads_to_a_place_that_is_there(pages: Pages, job: str) -> None:
    made = pages(job)
    found = LINK.findall(made["area"])
    assert found
    for page, spot in found:
        assert re.search(rf'(\{{: #|id="){re.escape(spot)}\b', made[page]), spot


def test_outlets_stand_with_depth_and_place(pages: Pages) -> None:
    page = pages("system-gravity-trench")["area"]
    found = rows(page)
    assert found["north trench"] == ["10 1/4 in", "highest", "–"]
    assert found["middle trench"] == ["10 1/2 in", "between", "–"]
    assert found["south trench"] == ["10 5/8 in", "lowest: takes the flow first", "–"]
    assert found["Level line down to the floor"] == ["15 in"]
    assert found["Structure"] == ["worn"]
    assert "figures/box.svg" in page
    spread = found["Difference between the outlets of the box, at most 0 in asked"]
    assert spread[0].endswith("(working.md#box-spread)")
    assert spread[1] == "does not meet"


def test_flow_that_was_seen_is_told(pages: Pages) -> None:
    assert rows(pages("everything-new")["area"])["north trench"][2] == "yes"


def test_outlets_at_one_depth_have_no_lowest_and_no_figure(pages: Pages) -> None:
    level = [("10 1/2 in", "10 1/4 in"), ("10 5/8 in", "10 1/4 in")]
    page = pages("system-gravity-trench", *level)["area"]
    assert rows(page)["south trench"] == ["10 1/4 in", "as deep as the others", "–"]
    assert "figures/box.svg" not in page
    assert "takes the flow first" not in page


def test_an_area_stands_as_typed_and_worked_out(pages: Pages) -> None:
    found = rows(pages("everything-new")["area"])
    assert found["Percolation"] == ["20 min/in"]
    assert found["Length of each"] == ["60 ft"]
    assert found["Loading rate of the design"] == ["0.6 gpd/ft2"]
    assert found["Who gives that rate"] == ["the permit (invented)"]
    assert "#area-trenches-bottom" in found["Bottom area of the trenches"][0]
    asked = next(row for name, row in found.items() if name.startswith("Area asked"))
    assert asked[1] == "too close to call"
    assert rows(pages("system-bed")["area"])["Length"] == ["40 ft"]


def test_what_a_test_does_not_show_of_the_soil_is_said_once(pages: Pages) -> None:
    page = pages("system-bed")["area"]
    assert page.count("The test does not show that the soil still drains.") == 1
    assert "(working.md#area-test-share)" in page
    mound = pages("system-mound-with-pump", ("stone_depth: 9 in,\n", "\n"))["area"]
    assert "Stone and soil under the lawn were not opened." in mound


def test_two_areas_keep_their_own_numbers(pages: Pages) -> None:
    again = (
        "surface: dry}\nload_test",
        "surface: dry}\n  - {name: lower bed, kind: bed, length: 20 ft, width: 10 ft}\n"
        "load_test",
    )
    page = pages("system-bed", again)["area"]
    first, second = page.split("## The absorption area: ")[1:]
    assert "#area-bed-bottom" in first
    assert "#area-lower-bed-bottom" in second
    assert "#area-bed-bottom" not in second


def test_the_two_days_are_told(pages: Pages) -> None:
    page = pages("everything-new")["area"]
    found = rows(page)
    assert found["Day 2"] == [
        "October 7, 2026, 2:30 pm: 410 gal added, level from 1 in to 6 in"
    ]
    assert found["Sewage kept out meanwhile"] == ["yes"]
    share = found["Water absorbed, as a share of the design volume of a day"]
    assert share[1] == "satisfactory"
    alone = pages("two-day-test-alone")["area"]
    assert "## The distribution box" not in alone
    assert "The water of day 2 falls short by no more than it can be off." in alone


def test_words_of_the_file_stay_words(pages: Pages) -> None:
    hostile = ("- north trench: 10", '- "n <b>|</b> {{ 7*7 }}": 10')
    page = pages("system-gravity-trench", hostile)["area"]
    assert "<b>" not in page
    assert "{{" not in page
