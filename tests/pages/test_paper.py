"""The whole report on one page: every chapter once, and every link leads on it."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.pages.compose import TITLES, WORDS
from generator.pages.page import Page
from generator.pages.paper import PAPER, chapters
from generator.record.load import Workspace
from generator.worked import work_out
from tests.pages.composed import composed

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
GOOD = Path(__file__).parent.parent / "jobs" / "good"
Change = Callable[..., Workspace]


def spots(text: str) -> list[str]:
    return re.findall(r"\{: #([\w-]+)", text)


def led_to(text: str) -> list[str]:
    return re.findall(r'(?:\]\(|href=")#([\w-]+)', text)


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_paper_stands_last_and_holds_every_other_page_once(
    workspace: Workspace, job: str
) -> None:
    made = composed(work_out(workspace, job))
    assert list(made)[-1] == PAPER
    assert list(TITLES)[-1] == PAPER
    text = made[PAPER].markdown
    for name, page in made.items():
        if name not in (WORDS, PAPER):
            assert text.count(f"{{: #page-{name} }}") == 1
            assert f"1. [{page.title}](#page-{name})" in text
    assert text.count("\n# ") == 1
    assert text.count("This report is a demonstration.") == 1


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_every_link_leads_to_a_place_on_the_page(
    workspace: Workspace, job: str
) -> None:
    text = composed(work_out(workspace, job))[PAPER].markdown
    places = spots(text)
    assert len(places) == len(set(places))
    assert len(led_to(text)) > 50
    assert set(led_to(text)) <= set(places)
    assert not re.search(r"\]\([\w-]+\.md|href=\"[\w-]+\.html", text)


def test_the_last_report_is_named(workspace: Workspace) -> None:
    text = composed(work_out(workspace, LARCH))[PAPER].markdown
    assert "| Report | Number 1, October 7, 2026, first report |" in text
    assert "See the link you were given" in text


def test_a_draft_says_so_once_and_has_no_number(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data.pop("reports"))
    text = composed(work_out(workspace, LARCH))[PAPER].markdown
    assert text.count("**Draft.**") == 1
    assert "| Report | Not given a number yet |" in text


def test_a_job_with_required_keys_only_has_paper_too(workspace: Workspace) -> None:
    job = "draft-required-keys-only"
    shutil.copy(GOOD / f"{job}.yaml", workspace.job_file(job))
    made = composed(work_out(workspace, job))
    assert list(made) == ["index", "findings", "care", "record", WORDS, PAPER]
    assert "The short answer" in made[PAPER].markdown


def test_a_page_becomes_a_chapter() -> None:
    page = Page(
        "tank.md",
        "The tank",
        "<div>a banner</div>\n\n# The tank\n\n## Scum {: #scum }\n\n"
        "[a](working.md#b), [c](#scum), [d](care.md), [e](https://care.md/f.html)\n"
        '<a href="findings.html#g">h</a> <a href="figures/tank-1.svg">i</a>\n',
    )
    [chapter] = chapters([page])
    assert chapter.name == "tank"
    assert chapter.text == (
        "## The tank {: #page-tank }\n\n### Scum {: #tank-scum }\n\n"
        "[a](#working-b), [c](#tank-scum), [d](#page-care), [e](https://care.md/f.html)"
        '\n<a href="#findings-g">h</a> <a href="figures/tank-1.svg">i</a>\n'
    )
