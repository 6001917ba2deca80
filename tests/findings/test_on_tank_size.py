"""The tanks against the least tank of the code: small, large enough, or not read."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from generator.findings.finding import Finding
from generator.record.load import Workspace
from generator.worked import work_out

CATTAIL = "demo-cattail-lake"  # 1,027 gal, four bedrooms
READ, REMEMBERED = "us-id", "us-mn"  # of the least tank; see each pack
Change = Callable[[str, Callable[[dict[str, Any]], object]], Workspace]


def size(with_job: Change, code: str, length: str = "8 ft 6 in") -> list[Finding]:
    def changed(data: dict[str, Any]) -> None:
        data["property"]["code"] = code
        data["tanks"][0]["length"] = length

    findings = work_out(with_job(CATTAIL, changed), CATTAIL).findings
    return [one for one in findings if one.key == "tank-size"]


def test_a_small_tank_is_watched_and_has_not_failed(with_job: Change) -> None:
    (found,) = size(with_job, READ, "5 ft")
    assert found.weight == "watch"
    assert found.title == "The tank is smaller than the code asks of a new one"
    assert "has not failed by that" in found.means
    assert found.evidence == ("design.tank_share",)
    assert "not read" not in found.saw


def test_a_tank_that_is_large_enough_asks_for_nothing(with_job: Change) -> None:
    (found,) = size(with_job, READ, "20 ft")
    assert (found.weight, found.todo, found.by) == ("sound", "", "")


def test_a_figure_that_nobody_read_asks_to_confirm(with_job: Change) -> None:
    (found,) = size(with_job, REMEMBERED)
    assert found.weight == "watch"
    assert "may be smaller" in found.title
    assert "1,500 gal" in found.saw
    assert found.saw.endswith("by a figure that we did not read.")
    assert size(with_job, REMEMBERED, "20 ft") == []  # and it praises no tank


@pytest.mark.parametrize("key", ["code", "bedrooms"])
def test_without_a_figure_nothing_is_said(with_job: Change, key: str) -> None:
    workspace = with_job(CATTAIL, lambda data: data["property"].pop(key))
    found = [one.key for one in work_out(workspace, CATTAIL).findings]
    assert "tank-size" not in found
