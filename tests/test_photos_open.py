"""A photograph opens large over its page, in a real browser, and closes again."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main

JOB = "demo-larch-hollow"
PHONE = {"width": 390, "height": 844}
PATIENCE = 5000  # milliseconds; our choice
INK = "getComputedStyle(document.querySelector('dialog.large')).color"
GROUND = "getComputedStyle(document.querySelector('dialog.large')).backgroundColor"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("photos") / "firm"
    here = Path(__file__).resolve().parent.parent
    shutil.copytree(here / "inspections", root / "inspections")
    secret = {"ONLOT_LINK_SECRET": "a secret for tests only, never a client's"}
    command = ["--workspace", str(root), "build", JOB]
    result = CliRunner().invoke(main, command, env=secret)
    assert result.exit_code == 0, result.output
    [found] = (path.parent for path in (root / "public").glob("*/photos.html"))
    return found


@pytest.fixture
def visit(site: Path, browser: Any) -> Iterator[Callable[..., Any]]:
    """Opens a page of the site in a window of its own, which must see no error."""
    opened, errors = [], []

    def _visit(name: str = "photos", **settings: Any) -> Any:
        context = browser.new_context(**{"viewport": PHONE} | settings)
        opened.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: errors.append(str(error)))
        page.on("console", lambda said: errors.append(said.text))
        page.goto((site / f"{name}.html").resolve().as_uri())
        return page

    yield _visit
    for context in opened:
        context.close()
    assert errors == []


def until(page: Any, true: str) -> None:
    """Wait for an expression; the pages let nobody evaluate a text on them."""
    for _ in range(PATIENCE // 50):
        if page.evaluate(true):
            return
        page.wait_for_timeout(50)
    pytest.fail(f"This did not come true: {true}")


def shown(page: Any) -> str:
    """The file of the photograph that lies in the middle of the screen."""
    return page.evaluate(
        "document.elementFromPoint(innerWidth / 2, innerHeight / 2)"
        ".closest('figure').querySelector('img').src.split('/').pop()"
    )


def test_click_opens_arrows_move_and_escape_closes(visit: Callable[..., Any]) -> None:
    page = visit()
    address = page.url
    link = page.locator(".photos a").nth(1)
    link.click()
    dialog = page.get_by_role("dialog", name="Photographs")
    assert dialog.is_visible()
    assert shown(page) == "photo-02-large.jpg"
    second = "document.querySelectorAll('dialog.large img')[1]"
    until(page, f"{second}.naturalWidth === 1200")
    assert dialog.locator("p").first.text_content() == "2 of 5"
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    assert shown(page) == "photo-04-large.jpg"
    page.keyboard.press("ArrowLeft")
    assert shown(page) == "photo-03-large.jpg"
    assert "settled first feet of pipe" in dialog.inner_text()
    page.keyboard.press("Escape")
    until(page, "history.state === null")
    assert not dialog.is_visible()
    assert page.url == address
    assert link.evaluate("one => one === document.activeElement")


def test_enter_opens_and_back_closes(visit: Callable[..., Any]) -> None:
    page = visit("findings")
    link = page.locator(".photos a").first
    link.focus()
    page.keyboard.press("Enter")
    assert page.get_by_role("dialog").is_visible()
    assert page.evaluate("document.activeElement.ariaLabel") == "Close"
    page.go_back()
    assert not page.get_by_role("dialog").is_visible()
    assert page.url.endswith("findings.html")
    assert link.evaluate("one => one === document.activeElement")
    link.click()  # and a second time
    page.get_by_role("button", name="Close").click()
    assert not page.get_by_role("dialog").is_visible()


def test_buttons_stop_at_both_ends(visit: Callable[..., Any]) -> None:
    page = visit()
    page.locator(".photos a").first.click()
    page.get_by_role("button", name="Previous photograph").click(force=True)
    assert shown(page) == "photo-01-large.jpg"
    onward = page.get_by_role("button", name="Next photograph")
    for _ in range(7):
        onward.click(force=True)  # at the end it says that it is off
    assert shown(page) == "photo-05-large.jpg"
    assert onward.get_attribute("aria-disabled") == "true"


def test_a_swipe_shows_the_next(visit: Callable[..., Any]) -> None:
    page = visit(has_touch=True, is_mobile=True)
    page.locator(".photos a").first.tap()
    assert shown(page) == "photo-01-large.jpg"
    touched = page.context.new_cdp_session(page)
    for kind, xs in (("Start", [330]), ("Move", range(310, 60, -20)), ("End", [None])):
        for x in xs:
            points = [] if x is None else [{"x": x, "y": 400}]
            event = {"type": f"touch{kind}", "touchPoints": points}
            touched.send("Input.dispatchTouchEvent", event)
            page.wait_for_timeout(16)  # one frame
    until(page, "document.querySelector('.large-bar p').textContent === '2 of 5'")
    until(page, "document.querySelector('.large-row').scrollLeft === innerWidth")
    assert shown(page) == "photo-02-large.jpg"


def test_only_the_near_ones_are_fetched_large(visit: Callable[..., Any]) -> None:
    page = visit()
    asked: list[str] = []
    page.on("request", lambda one: asked.append(one.url.rpartition("/")[2]))
    page.locator(".photos a").first.click()
    page.wait_for_timeout(200)
    asked = sorted(name for name in asked if name.endswith("-large.jpg"))
    assert asked == ["photo-01-large.jpg", "photo-02-large.jpg"]


def test_without_script_the_link_shows_the_large_picture(
    visit: Callable[..., Any],
) -> None:
    page = visit(java_script_enabled=False)
    page.locator(".photos a").first.click()
    page.wait_for_url("**/photos/photo-01-large.jpg")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 390, 1280])
def test_it_fits_the_screen_in_both_schemes(
    visit: Callable[..., Any], scheme: str, width: int
) -> None:
    page = visit(viewport={"width": width, "height": 640}, color_scheme=scheme)
    page.locator(".photos a").first.click()
    figure = page.locator("dialog.large figure").first.bounding_box()
    assert (figure["x"], figure["width"]) == (0, width)
    assert figure["y"] + figure["height"] <= 640
    assert page.evaluate(INK) != page.evaluate(GROUND)
    for button in page.locator("dialog.large button").all():
        assert button.bounding_box()["width"] >= 44  # our choice: a thumb


@pytest.mark.parametrize("name", ["photos", "paper"])
def test_paper_shows_the_small_ones(visit: Callable[..., Any], name: str) -> None:
    page = visit(name)
    page.locator(".photos a").first.click()
    page.emulate_media(media="print")
    assert not page.locator("dialog.large").is_visible()
    sources = page.locator(".photos img").evaluate_all("all => all.map(i => i.src)")
    assert sources
    assert not any("large" in source for source in sources)
