"""What a page weighs on its way to a phone, packed as servers pack it (RFC 1952)."""

from __future__ import annotations

import functools
import gzip
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import pytest

FIRST_KB, NEXT_KB = 150, 40  # our choice; photographs left out [KB of 1000 bytes]
# The bars of the solids whose limit was not read are filled with dots, 44 KB of them.
PHONE = {"width": 390, "height": 844}
PACKED = 9  # the level that gzip packs best with


# Waits for every picture, those as well that come only when they are scrolled to.
ALL_PICTURES = """Promise.all([...document.images].map(image => {
  image.loading = 'eager';
  return image.decode();
}))"""


class Scale:
    """Weighs what a browser asks for, each file once."""

    def __init__(self, site: Path, browser: Any, address: str) -> None:
        self.site, self.address = site, address
        self.page = browser.new_page(viewport=PHONE)
        self.asked: set[str] = set()
        self.page.on("request", lambda request: self.asked.add(request.url))

    def opened(self, name: str) -> dict[str, int]:
        """Weigh each file that a page needs before anyone scrolls. [bytes]"""
        return self._weigh(name, "networkidle")

    def to_its_end(self, name: str) -> dict[str, int]:
        """Weigh each file that a page needs, all its figures included. [bytes]"""
        return self._weigh(name, "load", ALL_PICTURES)

    def _weigh(self, name: str, until: str, then: str = "0") -> dict[str, int]:
        self.asked.clear()
        self.page.goto(f"{self.address}/{name}.html", wait_until=until)
        self.page.evaluate(then)
        names = {unquote(urlsplit(url).path).lstrip("/") for url in self.asked}
        return {
            name: packed(self.site / name)
            for name in sorted(names)
            if not name.startswith("photos/")
        }


@functools.cache
def packed(path: Path) -> int:
    """Weigh one file, which many pages need. [bytes]"""
    return len(gzip.compress(path.read_bytes(), PACKED))


def kb(weights: dict[str, int], at_hand: dict[str, int] | None = None) -> float:
    """Sum of the files that are not at hand already. [KB]"""
    new = weights.keys() - (at_hand or {}).keys()
    return sum(weights[name] for name in new) / 1000


@pytest.mark.parametrize("number", [0, 1])
def test_weight_of_every_page(
    demo_sites: list[Path], browser: Any, serve: Callable[[Path], str], number: int
) -> None:
    site = demo_sites[number]
    scale = Scale(site, browser, serve(site))
    first = scale.to_its_end("index")
    # Paper holds every page: its figures come as the reader gets to them. It is opened
    # first, since a figure that a page before it has shown would come at once.
    weights = {"paper": kb(scale.opened("paper"), first)}
    names = sorted(page.stem for page in site.glob("*.html"))
    whole = {name: kb(scale.to_its_end(name), first) for name in names}
    scale.page.close()
    weights = whole | weights
    told = [
        f"{site.name}: first page {kb(first):.1f} KB; paper {whole['paper']:.1f} KB"
    ]
    told += [f"{name}: {weights[name]:.1f} KB" for name in names if name != "index"]
    print("\n".join(told))
    assert kb(first) <= FIRST_KB
    heavy = {n: w for n, w in weights.items() if w > NEXT_KB}
    assert heavy == {}
