"""The page of findings: what each shows, and where its numbers lead."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from generator.findings.finding import Finding
from generator.pages.wording import anchor
from generator.record.load import Workspace
from generator.worked import Worked, work_out
from tests.pages.composed import drawn_texts

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
DEMOS = (LARCH, CATTAIL)


def sections(worked: Worked) -> Iterator[tuple[Finding, str]]:
    """Each finding with what the page says of it, in the order of the page."""
    page = drawn_texts(worked)["findings"]
    shown = re.findall(r"<section (.*?)</section>", page, re.S)
    yield from zip(worked.findings, shown, strict=True)


@pytest.mark.parametrize("job", DEMOS)
def test_every_finding_shows_all_that_it_has(workspace: Workspace, job: str) -> None:
    worked = work_out(workspace, job)
    for finding, shown in sections(worked):
        assert f"{{: #{anchor(finding.key)} }}" in shown
        assert f"**{finding.weight}**{{: .weight .weight-{finding.weight} }}" in shown
        assert ("**What it means.**" in shown) == bool(finding.means)
        assert ("**What to do.**" in shown) == bool(finding.todo)
        assert ("*Who:*" in shown) == bool(finding.who)
        assert ("*By:*" in shown) == bool(finding.by)
        assert shown.count("<figure") == len(finding.photos)
        for name in finding.evidence:
            assert f"](working.md#{anchor(name)})" in shown


@pytest.mark.parametrize("job", DEMOS)
def test_what_is_to_be_done_is_done_by_someone_by_a_time(
    workspace: Workspace, job: str
) -> None:
    for finding in work_out(workspace, job).findings:
        if finding.todo:
            assert finding.who, finding.key
            assert finding.by, finding.key


def test_what_is_sound_or_unseen_is_brief(workspace: Workspace) -> None:
    for finding, shown in sections(work_out(workspace, CATTAIL)):
        brief = finding.weight in ("sound", "unseen") and not finding.photos
        assert shown.startswith(
            f'class="finding weight-{finding.weight}{" brief" * brief}"'
        )
        assert ("**What we saw.**" in shown) <= (not brief)


def test_a_number_in_the_words_leads_to_its_own_working(workspace: Workspace) -> None:
    shown = {one.key: text for one, text in sections(work_out(workspace, CATTAIL))}
    test = shown["load-test"]
    assert "[101 gal](working.md#inflow-volume) were run in" in test
    assert "[37 gal](working.md#load-test-passed-total) passed the outlet" in test
    assert " the 150 gal that were wanted" in test
    silent = shown["pump-chamber-alarm"]
    assert "[10 h](working.md#pump-reserve-hours) of the design flow" in silent


def test_a_number_that_only_looks_the_same_leads_nowhere(workspace: Workspace) -> None:
    """The tape says 82 ft, give or take 0.5 ft; tape and plan differ by 0.5 ft too."""
    shown = {one.key: text for one, text in sections(work_out(workspace, LARCH))}
    well = shown["absorption-area-to-private-well"]
    assert "[82 ft](working.md#distance-absorption-area-to-private-well) from" in well
    assert "give or take 0.5 ft." in well
    assert well.count("](working.md#compare-") == 1
    assert "The plan gives 9.5 ft and agrees." in shown["tank-to-foundation"]
