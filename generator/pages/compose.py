"""Compose the Markdown pages of one job; a page with nothing to say is left out."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from generator.pages import citing, glossary, wording
from generator.pages.blocks import has_blocks, prose_blocks
from generator.pages.context import Job, context_of
from generator.pages.page import Page
from generator.pages.paper import PAPER, chapters
from generator.pages.rows_of_area import has_somewhere

WORDS = "words"
TEMPLATES = Path(__file__).parent / "templates"
TITLES = {
    "index": "The short answer",
    "findings": "What we found",
    "plan": "Where everything is",
    "tank": "The tank",
    "pump": "The pump",
    "load-test": "The load test",
    "area": "Where the water goes",
    "pipes": "Inside the pipes",
    "distances": "Distances and local code",
    "photos": "Photographs",
    "care": "Care and cautions",
    "working": "How the numbers were worked out",
    "record": "The record",
    WORDS: "Words explained",
    PAPER: "On paper",
}


def compose(job: Job) -> list[Page]:
    """Compose every page that has something to say, in the order of the site.

    Parameters
    ----------
    job : Job
        The record with its results, findings, answers and figures.

    Returns
    -------
    list of Page
        Markdown pages; the first is ``index.md``.
    """
    context = context_of(job)
    made = [
        _page(name, context)
        for name in TITLES
        if name not in (WORDS, PAPER) and _has_something_to_say(name, job)
    ]
    words = glossary.words_on("".join(page.markdown for page in made))
    told = context | {"chapters": chapters(made), "words": words}
    marked = [replace(one, markdown=glossary.explained(one.markdown)) for one in made]
    # Paper cannot show what is behind a word; both list the words with their meanings.
    last = (WORDS, PAPER) if words else (PAPER,)
    return [*marked, *(_page(name, told) for name in last)]


def compile_ahead() -> None:
    """Compile the templates of all pages, before there is anything to write."""
    environment = _environment()
    for name in environment.list_templates():
        environment.get_template(name)


def _page(name: str, context: dict[str, Any]) -> Page:
    template = _environment().get_template(f"{name}.md.jinja")
    # Paper holds every other page: search would find everything twice.
    return Page(f"{name}.md", TITLES[name], template.render(context), name != PAPER)


def _has_something_to_say(name: str, job: Job) -> bool:
    inspection = job.record.inspection
    return {
        "plan": inspection.datum is not None,
        "tank": bool(inspection.tanks or inspection.cesspool),
        "pump": inspection.pump_chamber is not None,
        "load-test": job.results.parts["load_test"] is not None,
        "area": has_somewhere(inspection),
        "pipes": bool(inspection.pipe_runs),
        "distances": bool(job.results.parts["pairs"]),
        "photos": bool(inspection.photos),
        "working": bool(job.results.all),
    }.get(name, True)


@lru_cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        finalize=wording.plain,
        autoescape=True,  # marks the output of macros as written
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters.update(
        plain=wording.plain,
        prose=wording.prose,
        prose_blocks=prose_blocks,
        has_blocks=has_blocks,
        ended=wording.ended,
        day=wording.day,
        anchor=wording.anchor,
        sentence=wording.sentence,
        result=wording.result,
        about=wording.about,
        number=wording.number,
        address=citing.address,
    )
    return environment
