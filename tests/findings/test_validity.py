"""Why a load test shows less than it seems to, and what a two-day test answers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from generator.record.load import Workspace
from generator.worked import Worked, work_out

LARCH = "demo-larch-hollow"
Change = Callable[..., Workspace]


def takes_water(worked: Worked) -> str:
    return worked.answers[1].word


def load_test(worked: Worked) -> str:
    return next(one.saw for one in worked.findings if one.key == "load-test")


def early(data: dict[str, Any]) -> None:
    data["load_test"].update(stop_reason="out of time", target="400 gal")


def low(data: dict[str, Any]) -> None:
    data["load_test"]["levels"][0]["level"] = "8 in below"


def chamber(data: dict[str, Any]) -> None:
    data["pump_chamber"] = {"shape": "box", "length": "5 ft", "width": "4 ft"}


DOUBTS: list[tuple[Callable[[dict[str, Any]], None], str]] = [
    (lambda data: data["household"].update(vacant_for="60 days"), "empty"),
    (lambda data: data["household"].update(pumped_before="3 days"), "pumped"),
    (lambda data: data["visit"].update(ground="frozen"), "frozen"),
    (early, "400 gal"),
    (low, "tested nothing"),
    (chamber, "pump chamber"),
]


@pytest.mark.parametrize(("change", "word"), DOUBTS)
def test_a_doubt_makes_the_answer_not_shown(
    with_job: Change, change: Callable[[dict[str, Any]], None], word: str
) -> None:
    worked = work_out(with_job(LARCH, change), LARCH)
    assert takes_water(worked) == "not shown"
    assert word in load_test(worked)


@pytest.mark.parametrize(("added", "word"), [("450 gal", "yes"), ("200 gal", "no")])
def test_a_two_day_test_speaks_by_itself(
    with_job: Change, added: str, word: str
) -> None:
    """Source: Penn State Extension, Hydraulic Load Test, 2017 (the pass rule)."""

    def edit(data: dict[str, Any]) -> None:
        data.pop("load_test")
        day = {"at": "9:30 am", "level": "6 in"}
        data["two_day_test"] = {
            "design_volume": "400 gal",
            "first_day": {"date": "2026-10-06", "added": "400 gal", **day},
            "second_day": {"date": "2026-10-07", "added": added, **day},
            "rain": "no",
            "sewage_kept_out": "yes",
        }

    worked = work_out(with_job(LARCH, edit), LARCH)
    assert takes_water(worked).startswith(word)
