"""Search within one report: what it finds and fetches, and whose words it knows."""

from __future__ import annotations

import gzip
import json
import re
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from generator.website.render import render
from generator.website.tree import Page, write_tree
from tests.website.site_walk import read

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 844}
INDEX = "search/search_index.json"
OPENED_KB = 60  # what opening search may weigh; our choice [KB of 1000 bytes]
PACKED = 9  # the level that gzip packs best with
OWN_WORDS = ("Larch Hollow", "Cattail Lake")  # of each demonstration, in its order
HOSTILE = (
    "needle &lt;img src=x onerror=alert(1)&gt; &lt;mark&gt; &amp;amp; [x](index.md)"
)


@pytest.fixture
def visit(browser: Any, serve: Callable[[Path], str]) -> Iterator[Callable[..., Any]]:
    """Opens a page of a served site in a new window, which notes what it asks for."""
    opened = []

    def _visit(
        site: Path, name: str = "index", until: str = "load", **settings: Any
    ) -> Any:
        context = browser.new_context(**{"viewport": PHONE} | settings)
        opened.append(context)
        page = context.new_page()
        page.asked, page.said = [], []
        page.on("request", lambda request: page.asked.append(request.url))
        page.on("console", lambda message: page.said.append(message.text))
        page.on("pageerror", lambda error: page.said.append(str(error)))
        page.home = serve(site)
        page.goto(f"{page.home}/{name}.html", wait_until=until)
        return page

    yield _visit
    for context in opened:
        context.close()


def opened(page: Any) -> Any:
    """The window of search, once it is ready for words."""
    page.get_by_role("button", name="Search").click()
    window = page.get_by_role("dialog", name="Search this report")
    window.get_by_text("Type a word, such as baffle or well.").wait_for()
    return window


def search(page: Any, words: str, told: str = "place") -> list[str]:
    """Type words into search, and tell where its results lead, best first."""
    window = opened(page)
    window.get_by_role("searchbox", name="Search this report").press_sequentially(words)
    window.get_by_role("status").get_by_text(told).wait_for()
    page.wait_for_timeout(200)  # the last letter has been looked for as well
    links = window.get_by_role("link").all()
    return [link.get_attribute("href").removeprefix(f"{page.home}/") for link in links]


def entries(site: Path) -> list[dict[str, str]]:
    """What the index of a site holds, a place each."""
    return json.loads((site / INDEX).read_text("utf-8"))["docs"]


def words_of(html: str) -> list[str]:
    """The words of a piece of HTML, without its markup."""
    return re.findall(r"\w+", unescape(re.sub(r"<[^>]*>", " ", html)))


def test_a_word_leads_to_its_place(demo_sites: list[Path], visit: Any) -> None:
    page = visit(demo_sites[1])
    places = search(page, "baffle")
    assert places[0] == "findings.html#tank-outlet-device"
    assert "index.html#to-do-first" in places
    assert not any(place.startswith("paper") for place in places)
    page.keyboard.press("Enter")
    page.wait_for_url("**/findings.html#tank-outlet-device")
    assert page.get_by_role("heading", name="The outlet baffle is damaged").is_visible()
    assert [url for url in page.asked if not url.startswith(page.home)] == []
    assert page.said == []


def test_findings_come_before_their_workings(
    demo_sites: list[Path], visit: Any
) -> None:
    page = visit(demo_sites[1])
    places = search(page, "the well")
    assert places[0] == "findings.html#absorption-area-to-private-well"
    pages = [place.partition(".")[0] for place in places]
    assert pages.index("working") > pages.index("findings")
    assert len(places) == len(set(places))


def test_a_folded_working_is_unfolded(demo_sites: list[Path], visit: Any) -> None:
    page = visit(demo_sites[1], "working")
    search(page, "first perforation east")
    link = page.locator(".search-found a").first
    name = link.locator("strong").inner_text()
    link.click()
    assert not page.get_by_role("dialog").is_visible()
    assert page.get_by_role("heading", name=name).is_visible()
    assert page.said == []


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("zzz", "Nothing in this report has that word."),
        ("on:1 ~ * + -", "place"),
        ('"outlet baffle', "place"),
        ("^", "Type a word"),
        ("the", "place"),
    ],
)
def test_whatever_is_typed(
    demo_sites: list[Path], visit: Any, words: str, told: str
) -> None:
    page = visit(demo_sites[1])
    search(page, words, told)
    assert page.said == []


def test_nothing_is_fetched_before_search_is_opened(
    demo_sites: list[Path], visit: Any
) -> None:
    site = demo_sites[1]
    page = visit(site, until="networkidle")
    before = set(page.asked)
    assert not any(INDEX in url or "worker" in url for url in before)
    opened(page)
    new = {url.removeprefix(f"{page.home}/") for url in set(page.asked) - before}
    weights = {name: weight(site / name) for name in sorted(new)}
    print("search opened: " + ", ".join(f"{n} {w:.1f} KB" for n, w in weights.items()))
    assert INDEX in weights
    assert len(weights) == 2
    assert sum(weights.values()) <= OPENED_KB
    page.keyboard.press("Escape")
    page.get_by_role("button", name="Search").click()
    assert page.asked.count(f"{page.home}/{INDEX}") == 1


def weight(path: Path) -> float:
    """Weight of a file on its way. [KB]"""
    return len(gzip.compress(path.read_bytes(), PACKED)) / 1000


def test_by_keyboard_alone(demo_sites: list[Path], visit: Any) -> None:
    page = visit(demo_sites[1], viewport=DESK)
    opener = page.get_by_role("button", name="Search")
    opener.focus()
    page.keyboard.press("Enter")
    window = page.get_by_role("dialog", name="Search this report")
    page.keyboard.type("baffle")
    window.get_by_role("status").get_by_text("places").wait_for()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('.search-found a') !== null")
    page.keyboard.press("n")  # turns the page where no window lies over it
    page.keyboard.press("Escape")
    assert not window.is_visible()
    assert page.url.endswith("/index.html")
    assert opener.evaluate("one => one === document.activeElement")
    assert page.said == []


@pytest.mark.parametrize("viewport", [{"width": 320, "height": 640}, PHONE, DESK])
def test_it_fits_the_screen(
    demo_sites: list[Path], visit: Any, viewport: dict[str, int]
) -> None:
    page = visit(demo_sites[1], viewport=viewport)
    search(page, "tank")
    wide = page.evaluate(
        "[document.scrollingElement,"
        " ...document.querySelectorAll('.search, .search *')]"
        ".filter(e => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1)"
        ".filter(e => getComputedStyle(e).display != 'inline').map(e => e.className)"
    )
    assert wide == []
    box = page.get_by_role("dialog").bounding_box()
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= viewport["width"]
    assert box["y"] + box["height"] <= viewport["height"]


def test_what_cannot_work_is_not_shown(
    demo_sites: list[Path], visit: Any, browser: Any
) -> None:
    page = visit(demo_sites[1], java_script_enabled=False)
    assert not page.locator(".search-open, label[for=__search]").first.is_visible()
    said: list[str] = []
    page = browser.new_page(viewport=PHONE)
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto((demo_sites[1] / "index.html").resolve().as_uri())
    for part in page.locator(".search-open, label[for=__search], .search").all():
        assert not part.is_visible()
    page.close()
    assert said == []


def test_without_its_index_it_says_so_and_tries_again(
    demo_sites: list[Path], visit: Any
) -> None:
    page = visit(demo_sites[1])
    page.route(f"**/{INDEX}", lambda route: route.fulfill(status=404))
    page.get_by_role("button", name="Search").click()
    page.get_by_text("Search does not work just now.").wait_for()
    page.keyboard.press("Escape")
    page.unroute(f"**/{INDEX}")
    assert search(page, "baffle") != []


def test_it_is_no_part_of_paper(demo_sites: list[Path], visit: Any) -> None:
    page = visit(demo_sites[1])
    opened(page)
    page.emulate_media(media="print")
    assert not page.locator("dialog.search").is_visible()


def test_the_index_holds_every_page_but_paper(demo_sites: list[Path]) -> None:
    for site in demo_sites:
        places = [entry["location"] for entry in entries(site)]
        assert len(places) == len(set(places))
        names = {place.partition("#")[0] for place in places}
        assert names == {page.name for page in site.glob("*.html")} - {"paper.html"}


def test_the_index_knows_no_word_that_its_page_has_not(
    demo_sites: list[Path],
) -> None:
    for site in demo_sites:
        held: dict[str, set[str]] = {}
        places: dict[str, set[str]] = {}
        for entry in entries(site):
            name, _, anchor = entry["location"].partition("#")
            if name not in held:
                held[name] = set(words_of((site / name).read_text("utf-8")))
                places[name] = read(site / name).places
            assert not anchor or anchor in places[name]
            html = f"{entry['title']} {entry['text']}"
            assert set(words_of(html)) <= held[name]


def test_the_index_of_one_client_has_nothing_of_another(
    demo_sites: list[Path],
) -> None:
    texts = [(site / INDEX).read_text("utf-8") for site in reversed(demo_sites)]
    for number, text in enumerate(texts):
        assert OWN_WORDS[number] in text
        assert OWN_WORDS[1 - number] not in text


def test_found_text_stays_text(
    tmp_path: Path, sample: dict[str, Any], visit: Any
) -> None:
    pages = [*sample["pages"], Page("note.md", "Note", f"# Note\n\n{HOSTILE}")]
    site = tmp_path / "site"
    render(write_tree(tmp_path / "tree", **{**sample, "pages": pages}), site)
    page = visit(site)
    assert search(page, "needle") == ["note.html"]
    found = page.locator(".search-found")
    assert "needle <img src=x onerror=alert(1)> <mark> &amp; x" in found.inner_text()
    assert found.locator("img").count() == 0
    assert found.locator("mark").count() == 1
    assert page.said == []
