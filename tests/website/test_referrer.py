"""Whoever follows a link out of a report tells the other host nothing of the report."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from generator.record.load import Workspace
from generator.site import build_site
from generator.worked import work_out

JOB = "demo-larch-hollow"
OUT = re.compile("^https://")
PAGES = ("distances", "working", "record")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = Path(__file__).resolve().parents[2]
    worked = work_out(Workspace(root), JOB)
    return build_site(Workspace(root), worked, tmp_path_factory.mktemp("out"))


@pytest.mark.parametrize("name", PAGES)
def test_a_link_out_carries_no_referrer(
    site: Path, browser: Any, serve: Callable[[Path], str], name: str
) -> None:
    page = browser.new_page()
    asked: list[Any] = []

    def answer(route: Any) -> None:
        asked.append(route.request)
        route.fulfill(body="<title>elsewhere</title>", content_type="text/html")

    page.route(OUT, answer)
    page.goto(f"{serve(site)}/{name}.html")
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    link = page.locator("a[href^='https://']").first
    link.evaluate("link => link.removeAttribute('target')")
    link.click()
    page.wait_for_url(OUT)
    assert asked
    assert [one for one in asked if "referer" in one.all_headers()] == []
    assert page.evaluate("document.referrer") == ""
