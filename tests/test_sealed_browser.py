"""A sealed report in a real browser: what opens it, what does not, how it looks."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main
from tests.website.conftest import serve  # noqa: F401  # a fixture
from tests.website.test_accessible import KINDS, breaches, script

JOBS = ("demo-larch-hollow", "demo-cattail-lake")
PHONE, DESK = {"width": 390, "height": 844}, {"width": 1280, "height": 844}
LOOKS = [
    {"viewport": size, "color_scheme": scheme}
    for size in (PHONE, DESK)
    for scheme in ("light", "dark")
]
PATIENCE = 10_000  # milliseconds; our choice
TRIES, NEAR_PX = 50, 100
SIZE = 1_500_000  # bytes; our choice: what a demonstration may weigh when sealed
OTHER_KEY = "a" * 52
ASK = "Questions? Ask Fieldstone Onlot Inspections (invented), 555-0142."


@pytest.fixture(scope="module")
def links(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[Path, str]]:
    """The sealed file and the key of each demonstration."""
    root = tmp_path_factory.mktemp("sealed") / "firm"
    here = Path(__file__).resolve().parent.parent
    shutil.copytree(here / "inspections", root / "inspections")
    secret = {"ONLOT_LINK_SECRET": "a secret for tests only, never a client's"}
    made = {}
    for job in JOBS:
        command = ["--workspace", str(root), "seal", job]
        result = CliRunner().invoke(main, command, env=secret)
        assert result.exit_code == 0, result.output
        name, key = re.findall(r"([a-z2-7]{32}\.html)#([a-z2-7]{52})", result.output)[0]
        made[job] = (root / "office" / "sealed" / name, key)
    return made


@pytest.fixture
def visit(
    browser: Any,
    serve: Callable[[Path], str],  # noqa: F811  # the fixture
) -> Iterator[Callable[..., Any]]:
    """Opens an address in a window that asks no other host and sees no error."""
    opened, wrong = [], []

    def _visit(file: Path, end: str = "", **settings: Any) -> Any:
        base = serve(file.parent)
        context = browser.new_context(**{"viewport": PHONE} | settings)
        context.add_init_script(script())
        opened.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda said: wrong.append(said.text))
        page.on("request", lambda one: wrong.extend(asked(one.url, base, file.name)))
        page.goto(f"{base}/{file.name}{end}")
        return page

    def asked(url: str, base: str, name: str) -> list[str]:
        own = url.partition("#")[0].partition("?")[0] == f"{base}/{name}"
        return [] if own or url.startswith("data:") else [url]

    yield _visit
    for context in opened:
        context.close()
    assert wrong == []


def report(page: Any) -> Any:
    """Wait for the opened report."""
    found = page.locator("article")
    found.wait_for(timeout=PATIENCE)
    return found


def said(page: Any, words: str) -> None:
    """Wait for a sentence, beside which stands whom to ask; no report is shown."""
    page.get_by_text(words).wait_for(timeout=PATIENCE)
    assert page.get_by_text(ASK).is_visible()
    assert page.locator("article").count() == 0
    assert page.title() == "Sealed report"


@pytest.mark.parametrize("job", JOBS)
def test_its_key_opens_it(links: Any, visit: Callable[..., Any], job: str) -> None:
    file, key = links[job]
    page = visit(file, f"#{key}")
    article = report(page)
    assert article.get_by_role("heading", name="The short answer").is_visible()
    assert article.locator(".answer").count() == 5
    pictures = page.evaluate(
        "Promise.all([...document.images].map((one) => one.decode()"
        ".then(() => [one.src.slice(5, 15), one.naturalWidth, one.alt.length > 0])))"
    )
    kinds = [kind for kind, _, _ in pictures]
    assert kinds.count("image/svg+") >= 4
    assert kinds.count("image/jpeg") >= 5
    assert all(width and told for _, width, told in pictures)
    assert page.title() == "Inspection report"
    assert page.url.endswith(f"#{key}")
    size = file.stat().st_size
    print(f"{job}: {size:,} bytes sealed")
    assert size < SIZE


def test_a_file_in_a_folder_opens_too(links: Any, browser: Any) -> None:
    file, key = links[JOBS[0]]
    page = browser.new_page()
    page.goto(f"{file.resolve().as_uri()}#{key}")
    report(page)
    page.close()


def test_a_key_in_capitals_or_with_a_full_stop_behind_it(
    links: Any, visit: Callable[..., Any]
) -> None:
    file, key = links[JOBS[0]]
    for written in (key.upper(), f"{key}.", f"{key})"):
        report(visit(file, f"#{written}"))


@pytest.mark.parametrize(
    ("end", "words"),
    [
        ("", "The key is missing."),
        ("#", "The key is missing."),
        (f"#{OTHER_KEY}", "The key in this link does not open this report."),
        ("#tank", "The key after the # sign of this link is not whole."),
        ("#<b>", "The key after the # sign of this link is not whole."),
    ],
)
def test_nothing_else_opens_it(
    links: Any, visit: Callable[..., Any], end: str, words: str
) -> None:
    said(visit(links[JOBS[0]][0], end), words)


def test_the_key_of_another_report_does_not_open_it(
    links: Any, visit: Callable[..., Any]
) -> None:
    page = visit(links[JOBS[0]][0], f"#{links[JOBS[1]][1]}")
    said(page, "The key in this link does not open this report.")


def test_a_key_typed_afterwards_opens_it(links: Any, visit: Callable[..., Any]) -> None:
    file, key = links[JOBS[0]]
    page = visit(file, f"#{key[:-1]}")
    said(page, "The key after the # sign of this link is not whole.")
    page.evaluate(f"location.hash = '{key}'")
    report(page)


@pytest.mark.parametrize("share", [0.3, 0.7, 0.999])
def test_a_cut_file_is_told(
    links: Any, visit: Callable[..., Any], tmp_path: Path, share: float
) -> None:
    file, key = links[JOBS[0]]
    whole = file.read_bytes()
    cut = tmp_path / "cut.html"
    cut.write_bytes(whole[: int(len(whole) * share)])
    said(visit(cut, f"#{key}"), "This file is damaged or not whole.")


def test_a_file_cut_before_its_text_or_in_its_script(
    links: Any, visit: Callable[..., Any], tmp_path: Path
) -> None:
    file, key = links[JOBS[0]]
    whole = file.read_text("utf-8")
    cut = tmp_path / "cut.html"
    cut.write_text(whole[: whole.index('<script type="application')])
    said(visit(cut, f"#{key}"), "This file is damaged or not whole.")
    cut.write_text(whole[: whole.index("function show")])
    said(visit(cut, f"#{key}"), "If these words stay, the file is not whole")


def test_one_changed_sign_is_told(
    links: Any, visit: Callable[..., Any], tmp_path: Path
) -> None:
    file, key = links[JOBS[0]]
    whole = file.read_text("utf-8")
    place = whole.index("\n", whole.index("data-digest")) + 1001
    changed = tmp_path / "changed.html"
    other = "B" if whole[place] == "A" else "A"
    changed.write_text(whole[:place] + other + whole[place + 1 :])
    said(visit(changed, f"#{key}"), "This file is damaged or not whole.")


def test_without_script_it_says_so(links: Any, visit: Callable[..., Any]) -> None:
    file, key = links[JOBS[0]]
    page = visit(file, f"#{key}", java_script_enabled=False)
    told = page.locator("noscript p")
    assert told.is_visible()
    assert "This browser runs no JavaScript" in told.text_content()
    assert page.get_by_text(ASK).is_visible()
    assert not page.locator("#told").is_visible()


@pytest.mark.parametrize(
    ("lacking", "words"),
    [
        ("Object.defineProperty(window, 'isSecureContext', {value: false})", "http,"),
        ("delete Crypto.prototype.subtle", "too old to open a sealed report"),
        ("delete window.DecompressionStream", "too old to open a sealed report"),
    ],
)
def test_a_browser_that_cannot_is_told(
    links: Any, visit: Callable[..., Any], browser: Any, lacking: str, words: str
) -> None:
    file, key = links[JOBS[0]]
    page = visit(file)
    page.context.add_init_script(lacking)
    page.goto(f"{page.url.partition('#')[0]}?again#{key}")
    said(page, words)


def test_a_link_on_the_page_keeps_the_key_and_the_way_back(
    links: Any, visit: Callable[..., Any]
) -> None:
    file, key = links[JOBS[0]]
    page = visit(file, f"#{key}")
    article = report(page)
    link = article.get_by_role("link", name="What we found").first
    link.scroll_into_view_if_needed()
    before = page.evaluate("scrollY")
    link.click()
    place = page.locator("#page-findings")
    assert -1 <= place.bounding_box()["y"] < PHONE["height"] / 2
    assert place.evaluate("one => one === document.activeElement")
    assert page.url.endswith(f"#{key}")
    page.go_back()
    assert page.url.endswith(f"#{key}")
    for _ in range(TRIES):  # the page's policy lets nobody wait by a function
        if abs(page.evaluate("scrollY") - before) < NEAR_PX:
            break
        page.wait_for_timeout(PATIENCE / TRIES)
    assert abs(page.evaluate("scrollY") - before) < NEAR_PX
    page.reload()
    report(page)


@pytest.mark.parametrize("settings", LOOKS)
def test_it_holds_to_the_rules_of_accessibility_and_fits(
    links: Any, visit: Callable[..., Any], settings: dict[str, Any]
) -> None:
    for file, key in links.values():
        page = visit(file, f"#{key}", **settings, reduced_motion="reduce")
        report(page)
        assert breaches(page, KINDS) == []
        width = page.evaluate("document.documentElement.scrollWidth")
        assert width <= settings["viewport"]["width"]
        dark = settings["color_scheme"] == "dark"
        ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
        assert ground == ("rgb(26, 28, 25)" if dark else "rgb(250, 247, 241)")


@pytest.mark.parametrize("settings", LOOKS)
def test_the_closed_page_holds_to_them_too(
    links: Any, visit: Callable[..., Any], settings: dict[str, Any]
) -> None:
    page = visit(links[JOBS[0]][0], **settings)
    said(page, "The key is missing.")
    assert breaches(page, KINDS) == []


def test_every_link_leads_to_a_place_or_another_host(
    links: Any, visit: Callable[..., Any]
) -> None:
    for file, key in links.values():
        page = visit(file, f"#{key}")
        report(page)
        places = set(
            page.evaluate("[...document.querySelectorAll('[id]')].map(a => a.id)")
        )
        led = page.evaluate("[...document.links].map(a => a.getAttribute('href'))")
        inward = {one[1:] for one in led if one.startswith("#")}
        assert inward
        assert inward <= places
        outward = [one for one in led if not one.startswith("#")]
        assert all(re.match("https?:|mailto:|tel:", one) for one in outward)


def test_it_prints_and_the_print_holds_no_key(
    links: Any, visit: Callable[..., Any]
) -> None:
    file, key = links[JOBS[0]]
    page = visit(file, f"#{key}", viewport=DESK, color_scheme="dark")
    report(page)
    pdf = page.pdf(prefer_css_page_size=True)
    assert pdf.startswith(b"%PDF-")
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) > 10
    assert pdf.count(b"/Subtype /Image") >= 5
    assert key.encode() not in pdf
    page.emulate_media(media="print")
    ink, ground = page.evaluate(
        "[getComputedStyle(document.querySelector('article')).color,"
        " getComputedStyle(document.body).backgroundColor]"
    )
    assert (ink, ground) == ("rgb(38, 35, 32)", "rgb(255, 255, 255)")
