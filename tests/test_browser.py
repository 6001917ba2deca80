"""The built pages in a real browser, on a phone and on a desk."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    root = tmp_path_factory.mktemp("browser") / "firm"
    here = Path(__file__).resolve().parent.parent
    shutil.copytree(here / "inspections", root / "inspections")
    secret = {"ONLOT_LINK_SECRET": "a secret for tests only, never a client's"}
    result = CliRunner().invoke(main, ["--workspace", str(root), "build"], env=secret)
    assert result.exit_code == 0, result.output
    return [path for path in (root / "public").iterdir() if path.is_dir()]


@pytest.mark.parametrize("width", [390, 1280])
def test_no_request_leaves_the_folder_and_nothing_is_cut(
    sites: list[Path], browser: Any, width: int
) -> None:
    for site in sites:
        page = browser.new_page(viewport={"width": width, "height": 844})
        asked: list[str] = []
        errors: list[str] = []
        page.on("request", lambda request, asked=asked: asked.append(request.url))
        page.on("pageerror", lambda error, errors=errors: errors.append(str(error)))
        for file in sorted(site.glob("*.html")):
            page.goto(file.resolve().as_uri())
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            broken = page.evaluate(
                "[...document.images].filter(i => i.loading != 'lazy' &&"
                " !i.naturalWidth).length"
            )
            assert broken == 0
        page.close()
        assert asked
        assert [url for url in asked if not url.startswith(("file:", "data:"))] == []
        assert errors == []


def test_short_answer_fits_one_phone_screen(sites: list[Path], browser: Any) -> None:
    for site in sites:
        page = browser.new_page(viewport={"width": 390, "height": 844})
        page.goto((site / "index.html").resolve().as_uri())
        last = page.locator(".answers > .answer").nth(4).bounding_box()
        page.close()
        assert last is not None
        assert last["y"] + last["height"] <= 844
