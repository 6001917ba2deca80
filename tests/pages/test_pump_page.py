"""The page of the pump: what was seen, what came out, and the way to its findings."""

from __future__ import annotations

import pytest

from generator.record.load import Workspace
from generator.worked import work_out
from tests.pages.composed import drawn_texts, texts

CATTAIL, LARCH = "demo-cattail-lake", "demo-larch-hollow"


@pytest.fixture
def page(workspace: Workspace) -> str:
    return drawn_texts(work_out(workspace, CATTAIL))["pump"]


def test_it_tells_what_was_seen_and_what_came_out(page: str) -> None:
    assert "| Pump turns on at | 20 in |" in page
    assert "| Heights count | above the floor |" in page
    assert "| Level while the pump ran | 52 in to 51 in in 20 min |" in page
    assert "](working.md#pump-rate)" in page
    assert "](working.md#pump-reserve-hours)" in page
    assert "figures/pump.svg" in page


def test_it_warns_of_gas_and_current(page: str) -> None:
    assert "never lean in" in page
    assert "never open the panel" in page


def test_it_leads_to_its_findings(page: str) -> None:
    assert "[The pump moves less water than the test brought]" in page
    assert "](findings.md#pump-chamber-alarm)" in page


def test_a_system_without_a_pump_has_no_such_page(workspace: Workspace) -> None:
    assert "pump" not in texts(work_out(workspace, LARCH))
