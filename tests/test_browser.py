"""The built pages in a real browser, on a phone and on a desk, by day and by night."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.website.site_walk import missing, unlike

LOOKS = [(390, "light"), (390, "dark"), (1280, "dark"), (1280, "light")]
PHONE = {"width": 390, "height": 844}
# What scrolls sideways, the page itself or a part of it; what is inline never does.
WIDE = """[document.scrollingElement, ...document.querySelectorAll('.md-content *')]
  .filter(e => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1)
  .filter(e => getComputedStyle(e).display != 'inline')
  .map(e => `${e.tagName}.${e.className} ${e.scrollWidth} > ${e.clientWidth}`)"""
# Pictures that wait to be scrolled to are fetched at once, so that they count as well.
BROKEN = """Promise.all([...document.images].map(image => {
  image.loading = 'eager';
  return image.decode().then(() => null, () => image.src);
})).then(all => all.filter(Boolean))"""


class Visitor:
    """Opens pages in one window and keeps what is wrong with each."""

    def __init__(self, browser: Any) -> None:
        self.page = browser.new_page(viewport=PHONE, color_scheme="light")
        self.looks = LOOKS
        self.asked: list[str] = []
        self.wrong: list[str] = []
        self.page.on("request", lambda request: self._ask(request.url))
        self.page.on("console", lambda said: self._blame(said.text))
        self.page.on("pageerror", lambda error: self._blame(str(error)))

    def visit(self, file: Path) -> None:
        """Look at one page in each width and each scheme."""
        self.page.goto(file.resolve().as_uri())
        for picture in self.page.evaluate(BROKEN):
            self._blame(f"no picture {picture}")
        for width, scheme in self.looks:
            if self.page.viewport_size["width"] != width:
                self.page.set_viewport_size({**PHONE, "width": width})
            self.page.emulate_media(color_scheme=scheme)
            for part in self.page.evaluate(WIDE):
                self._blame(f"{width} px, {scheme}: {part}")
        self.looks = self.looks[::-1]  # the next page begins as this one ends

    def _ask(self, address: str) -> None:
        self.asked.append(address)
        if not address.startswith(("file:", "data:")):
            self._blame(f"asks for {address}")

    def _blame(self, what: str) -> None:
        self.wrong.append(f"{'/'.join(self.page.url.split('/')[-2:])}: {what}")


def test_no_link_picture_or_place_is_missing(
    demo_sites: list[Path], good_sites: list[Path]
) -> None:
    sites = [*demo_sites, *good_sites]
    assert [f"{site.name}/{one}" for site in sites for one in missing(site)] == []


def test_every_page_of_the_demonstrations(demo_sites: list[Path], browser: Any) -> None:
    visitor = Visitor(browser)
    files = [file for site in demo_sites for file in sorted(site.glob("*.html"))]
    for file in files:
        visitor.visit(file)
    visitor.page.close()
    assert len(visitor.asked) > len(files)
    assert visitor.wrong == []


def test_every_good_job(
    demo_sites: list[Path], good_sites: list[Path], browser: Any
) -> None:
    """The paper page holds all a job has to say; other pages by what is new in them."""
    seen = [file for site in demo_sites for file in sorted(site.glob("*.html"))]
    whole = [site / "paper.html" for site in good_sites]
    parts = [file for site in good_sites for file in sorted(site.glob("*.html"))]
    visitor = Visitor(browser)
    for file in [*whole, *unlike(parts, seen=[*seen, *whole])]:
        visitor.visit(file)
    visitor.page.close()
    assert len(visitor.asked) > len(whole)
    assert visitor.wrong == []


def test_short_answer_fits_one_phone_screen(
    demo_sites: list[Path], browser: Any
) -> None:
    for site in demo_sites:
        page = browser.new_page(viewport=PHONE)
        page.goto((site / "index.html").resolve().as_uri())
        last = page.locator(".answers > .answer").nth(4).bounding_box()
        page.close()
        assert last is not None
        assert last["y"] + last["height"] <= PHONE["height"]
