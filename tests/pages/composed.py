"""The pages of a job that was worked out, by their names."""

from __future__ import annotations

import re
from collections.abc import Mapping

from generator.findings.answers import first_to_do
from generator.pages.compose import compose
from generator.pages.context import Job
from generator.pages.page import Page, Picture
from generator.pictures import draw
from generator.worked import Worked

MARK = re.compile(r"</?abbr[^>]*>")  # what explains a word of the trade


def composed(
    worked: Worked, pictures: Mapping[str, Picture] | None = None
) -> dict[str, Page]:
    """Compose every page, with no figures unless they are given."""
    photos = worked.record.inspection.photos
    job = Job(
        worked.record,
        worked.results,
        worked.findings,
        worked.answers,
        first_to_do(worked.findings),
        worked.pack,
        pictures or {},
        {photo.file: f"photo-{at:02}" for at, photo in enumerate(photos, 1)},
    )
    return {page.path.removesuffix(".md"): page for page in compose(job)}


def texts(worked: Worked) -> dict[str, str]:
    """Give the text of every page, without what explains its words."""
    return {name: plain(page) for name, page in composed(worked).items()}


def drawn_texts(worked: Worked) -> dict[str, str]:
    """Give the text of every page with its figures."""
    pictures = {name: picture for name, (picture, _) in draw(worked).items()}
    return {name: plain(page) for name, page in composed(worked, pictures).items()}


def plain(page: Page) -> str:
    """Give the text of a page without what explains its words."""
    return MARK.sub("", page.markdown)
