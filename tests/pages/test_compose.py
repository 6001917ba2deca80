"""The composed pages: what stands where, and what is left out."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from generator.pages.citing import cite
from generator.record.load import Workspace
from generator.sources import SOURCES
from generator.worked import work_out
from tests.pages.composed import texts as pages

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
Change = Callable[..., Workspace]


def test_a_page_with_nothing_to_say_is_left_out(with_job: Change) -> None:
    def bare(data: dict) -> None:
        for key in ("load_test", "pipe_runs", "distances", "photos", "findings"):
            data.pop(key)
        for key in ("datum", "places", "features", "absorption_areas", "depths"):
            data.pop(key)
        for key in ("photo", "on_plan"):
            data["tanks"][0].pop(key)

    workspace = with_job(LARCH, bare)
    for photo in workspace.photo_folder(LARCH).iterdir():
        photo.unlink()
    made = pages(work_out(workspace, LARCH))
    assert list(made) == [
        "index",
        "findings",
        "tank",
        "care",
        "working",
        "record",
        "words",
        "paper",
    ]


def test_draft_and_demonstration_stand_on_every_page(with_job: Change) -> None:
    worked = work_out(with_job(LARCH, lambda data: data.update(state="draft")), LARCH)
    for text in pages(worked).values():
        assert "**Draft.**" in text
        assert "This report is a demonstration." in text


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_cautions_and_deferral_stand_in_the_report(
    workspace: Workspace, job: str
) -> None:
    made = pages(work_out(workspace, job))
    for words in ("Never enter", "811", "current", "certified laboratory"):
        assert words in made["care"]
    assert "Never enter" in made["tank"]
    for page in ("index", "care", "record"):
        assert "no warranty and no permit" in made[page]
        assert "local authority" in made[page]


def test_override_is_shown_with_its_reason(with_job: Change) -> None:
    def override(data: dict) -> None:
        data["overrides"] = [
            {
                "finding": "tank-outlet-device",
                "weight": "watch",
                "because": "A tee was fitted while we stood there.",
            }
        ]

    made = pages(work_out(with_job(LARCH, override), LARCH))
    for page in ("findings", "record"):
        assert "A tee was fitted while we stood there." in made[page]
        assert "repair" in made[page]


def test_words_of_the_job_file_are_never_templates_or_markup(with_job: Change) -> None:
    nasty = "{{ 77*77 }} {% raise %} <script>alert(1)</script> {: onclick=x } | a"

    def edit(data: dict) -> None:
        data["client"]["name"] = nasty
        data["property"]["address"] = nasty
        data["findings"][0]["saw"] = nasty

    made = "".join(pages(work_out(with_job(LARCH, edit), LARCH)).values())
    assert "5929" not in made
    assert "<script" not in made
    assert "{: onclick" not in made


def test_limits_named_by_nobody_are_the_inspectors(with_job: Change) -> None:
    workspace = with_job(
        LARCH, lambda data: data["load_test"]["limits"].pop("named_by")
    )
    made = pages(work_out(workspace, LARCH))
    assert "method chosen by the inspector" in made["load-test"]


def test_every_source_can_be_cited() -> None:
    for key, source in SOURCES.items():
        assert ("cited from memory" in cite(key)) is not source.seen
