"""What a reader sees: on a phone, on a desk, in the dark, on paper."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

ASSETS = Path(__file__).parents[2] / "generator" / "website" / "theme" / "assets"
WEIGHTS = ("danger", "failed", "repair", "watch", "sound", "unseen")
PAGES = ("index", "findings", "load-test", "distances", "photos", "record")
PHONE = {"width": 390, "height": 844}
NARROW = {"width": 320, "height": 640}
DESK = {"width": 1280, "height": 800}
READABLE = 4.5  # WCAG 2.2, success criterion 1.4.3, level AA
PAIRS = [
    ("ink", "paper"),
    ("ink", "card"),
    ("ink", "warm"),
    ("soft", "paper"),
    ("soft", "card"),
    ("soft", "warm"),
    ("link", "paper"),
    ("link", "card"),
    ("link", "warm"),
    ("bar-ink", "bar"),
    ("bar-ink", "go"),
]


def luminance(color: str) -> float:
    """Relative luminance of an sRGB color (WCAG 2.2). [-]"""
    parts = [int(color[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
        for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colors (WCAG 2.2). [-]"""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def color_sets() -> dict[str, dict[str, str]]:
    """The colors of the light and of the dark scheme."""
    blocks = re.findall(
        r'data-md-color-scheme="(\w+)"\] \{(.*?)\}',
        (ASSETS / "frame.css").read_text("utf-8"),
        re.S,
    )
    return {
        name: dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", block))
        for name, block in blocks
    }


@pytest.mark.parametrize("scheme", ["default", "slate"])
@pytest.mark.parametrize(("text", "ground"), PAIRS)
def test_text_can_be_read(scheme: str, text: str, ground: str) -> None:
    colors = color_sets()[scheme]
    assert contrast(colors[text], colors[ground]) >= READABLE


def test_weights_differ_by_shape_and_carry_black_ink() -> None:
    style = (ASSETS / "weights.css").read_text("utf-8")
    shapes = set()
    for weight in WEIGHTS:
        block = re.search(rf"\.weight-{weight} \{{(.*?)\n\}}", style, re.S)
        assert block is not None
        color = re.search(r"--weight: (#[0-9a-f]{6});", block[1])
        shape = re.search(r"--shape: (.*?);", block[1], re.S)
        assert color is not None
        assert shape is not None
        assert contrast(color[1], "#000000") >= READABLE
        shapes.add(shape[1])
    assert len(shapes) == len(WEIGHTS)


@pytest.fixture(scope="module")
def served(sample_site: Path, serve: Callable[[Path], str]) -> str:
    """Address of the sample on a server of this machine."""
    return serve(sample_site)


@pytest.fixture
def visit(browser: Any) -> Iterator[Any]:
    """Opens a page of a site, in a new window of its own."""
    opened = []

    def _visit(address: str, wait_until: str = "load", **settings: Any) -> Any:
        context = browser.new_context(**settings)
        opened.append(context)
        page = context.new_page()
        page.asked, page.said = [], []
        page.on("request", lambda request: page.asked.append(request.url))
        page.on("console", lambda message: page.said.append(message.text))
        page.on("pageerror", lambda error: page.said.append(str(error)))
        page.goto(address, wait_until=wait_until)
        return page

    yield _visit
    for context in opened:
        context.close()


@pytest.mark.parametrize("name", PAGES)
def test_pages_ask_their_own_host_alone(visit: Any, served: str, name: str) -> None:
    page = visit(f"{served}/{name}.html", viewport=DESK, wait_until="networkidle")
    assert len(page.asked) > 5
    assert [url for url in page.asked if not url.startswith(served)] == []
    assert page.said == []  # also: the policy stops nothing of ours


def test_pages_open_from_a_folder(visit: Any, sample_site: Path) -> None:
    page = visit((sample_site / "load-test.html").as_uri(), viewport=PHONE)
    assert all(url.startswith(sample_site.as_uri()) for url in page.asked)
    assert page.said == []
    assert page.locator(".rows table[data-stacked]").count() == 1
    page.get_by_text("Next", exact=True).click()
    assert page.url.endswith("/distances.html")


def test_the_policy_stops_a_foreign_script(visit: Any, served: str) -> None:
    page = visit(f"{served}/index.html", viewport=DESK)
    page.evaluate(
        "document.body.append(Object.assign(document.createElement('script'),"
        "{textContent: 'document.title = 1'}))"
    )
    page.evaluate("fetch('http://127.0.0.2/').catch(() => 0)")
    assert page.title() == "The short answer · 7 Cattail Lake Drive"
    assert any("Content Security Policy" in line for line in page.said)


def test_five_answers_on_one_phone_screen(visit: Any, served: str) -> None:
    page = visit(f"{served}/index.html", viewport=PHONE)
    answers = page.locator(".answers > .answer")
    assert answers.count() == 5
    last = answers.nth(4).bounding_box()
    assert last["y"] + last["height"] <= PHONE["height"]


@pytest.mark.parametrize("name", PAGES)
def test_no_sideways_scrolling(visit: Any, served: str, name: str) -> None:
    page = visit(f"{served}/{name}.html", viewport=PHONE)
    for size in (NARROW, PHONE, DESK):
        page.set_viewport_size(size)
        wide = page.evaluate(
            "[document.scrollingElement, ...document.querySelectorAll('.md-content *')]"
            ".filter(e => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1)"
            ".filter(e => getComputedStyle(e).display != 'inline')"
            ".map(e => e.tagName + '.' + e.className)"
        )
        assert wide == []


def test_every_page_is_two_touches_away(visit: Any, served: str) -> None:
    page = visit(f"{served}/index.html", viewport=PHONE)
    page.locator("header label[for=__drawer]").click()
    page.locator("nav.md-nav--primary a:visible", has_text="Photographs").click()
    assert page.url.endswith("/photos.html")


def test_dark_follows_the_system_and_can_be_changed(visit: Any, served: str) -> None:
    ground = "getComputedStyle(document.body).backgroundColor"
    page = visit(f"{served}/load-test.html", viewport=DESK, color_scheme="dark")
    assert page.evaluate(ground) == "rgb(26, 28, 25)"
    plate = "getComputedStyle(document.querySelector('.figure img')).backgroundColor"
    assert page.evaluate(plate) == "rgb(255, 255, 255)"
    page.locator("header label[title='Switch to light colors']").click()
    assert page.evaluate(ground) == "rgb(250, 247, 241)"


def test_paper_has_no_navigation_and_light_colors(visit: Any, served: str) -> None:
    page = visit(f"{served}/findings.html", viewport=DESK, color_scheme="dark")
    page.emulate_media(media="print")
    for part in (".md-header", ".md-sidebar--primary", ".md-footer"):
        assert not page.locator(part).is_visible()
    assert page.evaluate("getComputedStyle(document.querySelector('h1')).color") == (
        "rgb(38, 35, 32)"
    )
    cut = "getComputedStyle(document.querySelector('.finding')).breakInside"
    assert page.evaluate(cut) == "avoid"
