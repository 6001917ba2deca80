"""The whole of a page, the theme's parts as well, holds to the rules of axe-core."""

from __future__ import annotations

import importlib.util
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.website.site_walk import unlike

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 844}
LIGHT_ON_A_PHONE = {"viewport": PHONE, "color_scheme": "light"}
DARK_ON_A_DESK = {"viewport": DESK, "color_scheme": "dark"}
OTHERS = [
    {"viewport": DESK, "color_scheme": "light"},
    {"viewport": PHONE, "color_scheme": "dark"},
]
# Most of the time would go into the contrast of text, so each kind of text is measured
# once in a page: the same elements around it, with the same classes, colors and sizes.
SAMPLE = """(() => {
  const kinds = new Map([['', 0]]), kindOf = new WeakMap(), seen = new Set();
  for (const one of document.querySelectorAll('*')) {
    const look = getComputedStyle(one);
    const kind = [kindOf.get(one.parentElement), one.tagName, one.getAttribute('class'),
      ...['color', 'backgroundColor', 'backgroundImage', 'opacity', 'fontSize',
        'fontWeight', 'textShadow', 'position'].map(name => look[name])].join();
    if (!kinds.has(kind)) kinds.set(kind, kinds.size);
    kindOf.set(one, kinds.get(kind));
    const text = [...one.childNodes].some(n => n.nodeType === 3 && n.data.trim());
    const shown = [kinds.get(kind), text, one.checkVisibility()].join();
    one.toggleAttribute('data-one-of-its-kind', !seen.has(shown));
    seen.add(shown);
  }
})()"""
# The colored edge of a card and the shape of a word are drawn beside the text, never
# under it: told so, axe-core measures the contrast of the text instead of passing.
# Options are replaced as a whole; the figures are those of WCAG 2.2, 1.4.3, level AA.
RUN = f"""{SAMPLE} || axe.configure({{
  rules: [{{id: 'color-contrast', selector: '[data-one-of-its-kind]'}}],
  checks: [{{id: 'color-contrast', options: {{
    ignoreUnicode: true, ignoreLength: false, ignorePseudo: true,
    boldValue: 700, boldTextPt: 14, largeTextPt: 18,
    contrastRatio: {{normal: {{expected: 4.5}}, large: {{expected: 3}}}},
    pseudoSizeThreshold: 0.25, shadowOutlineEmMax: 0.2, textStrokeEmMin: 0.03,
  }}}}],
}}) || axe.run(document, {{
  preload: false,
  resultTypes: ['violations', 'incomplete'],
  rules: {{'target-size': {{enabled: true}}}},
}})"""
# The bar holds two titles one over the other, of which it shows one; its two colors are
# held against each other by test_look.
NOT_MEASURED = ".md-header__topic"
KINDS = ("violations", "incomplete")


def script() -> str:
    """The text of axe-core, which a test package carries."""
    found = importlib.util.find_spec("axe_playwright_python")
    if found is None or found.origin is None:
        pytest.skip("no axe-core here: it comes with the extra `test`")
    return (Path(found.origin).parent / "axe.min.js").read_text("utf-8")


def told(page: Any, kind: str, found: list[dict[str, Any]]) -> Iterator[str]:
    """Say each breach in one line, with the part of the page it was found in."""
    for rule in found:
        for node in rule["nodes"]:
            where = node["target"][-1]
            if kind == "incomplete" and page.locator(where).first.evaluate(
                "(part, name) => part.closest(name) !== null", NOT_MEASURED
            ):
                continue
            yield f"{page.url.rpartition('/')[2]}: {kind} {rule['id']} at {where}"


def breaches(page: Any, kinds: tuple[str, ...] = KINDS) -> list[str]:
    """Every breach of a rule, of any impact, and what could not be decided."""
    found = page.evaluate(RUN)
    return [line for kind in kinds for line in told(page, kind, found[kind])]


@pytest.fixture
def window(browser: Any) -> Iterator[Callable[..., Any]]:
    """Opens a window in which axe-core stands ready on every page."""
    opened: list[Any] = []

    def _window(settings: dict[str, Any]) -> Any:
        context = browser.new_context(**settings, reduced_motion="reduce")
        context.add_init_script(script())
        opened.append(context)
        return context.new_page()

    yield _window
    for context in opened:
        context.close()


def look_at(page: Any, files: list[Path]) -> list[str]:
    """Open pages one after the other."""
    wrong: list[str] = []
    for file in files:
        page.goto(file.resolve().as_uri())
        wrong += breaches(page)
    return wrong


def pages(sites: list[Path]) -> list[Path]:
    return [file for site in sites for file in sorted(site.glob("*.html"))]


def test_every_page_of_the_demonstrations(demo_sites: list[Path], window: Any) -> None:
    assert look_at(window(LIGHT_ON_A_PHONE), pages(demo_sites)) == []


def test_in_the_dark_on_a_desk(
    demo_sites: list[Path], good_sites: list[Path], window: Any
) -> None:
    """Pages made up of the same parts once only; paper is made up of the others."""
    every = pages([*demo_sites, *good_sites])
    files = list(unlike(file for file in every if file.stem != "paper"))
    assert look_at(window(DARK_ON_A_DESK), files) == []


@pytest.mark.parametrize("settings", OTHERS)
def test_first_page_in_the_other_looks(
    demo_sites: list[Path], window: Any, settings: dict[str, Any]
) -> None:
    assert look_at(window(settings), [demo_sites[0] / "index.html"]) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_opened_list_of_pages(
    demo_sites: list[Path], window: Any, scheme: str
) -> None:
    page = window({"viewport": PHONE, "color_scheme": scheme})
    page.goto((demo_sites[0] / "index.html").resolve().as_uri())
    page.locator("header label[for=__drawer]").click()
    last = page.locator("nav.md-nav--primary a:visible").last
    last.wait_for()
    last.click(trial=True)  # once it stands still
    # A name that is cut short with dots counts as undecided.
    assert breaches(page, kinds=("violations",)) == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_an_opened_photograph(demo_sites: list[Path], window: Any, scheme: str) -> None:
    page = window({"viewport": PHONE, "color_scheme": scheme})
    page.goto((demo_sites[0] / "photos.html").resolve().as_uri())
    page.locator(".photos a").first.click()
    page.locator("dialog[open]").wait_for()
    assert breaches(page, kinds=("violations",)) == []


@pytest.mark.parametrize("viewport", [PHONE, DESK])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_search_closed_and_opened(
    demo_sites: list[Path],
    window: Any,
    serve: Callable[[Path], str],
    scheme: str,
    viewport: dict[str, int],
) -> None:
    page = window({"viewport": viewport, "color_scheme": scheme})
    page.goto(f"{serve(demo_sites[0])}/index.html")
    page.get_by_role("button", name="Search").wait_for()
    assert breaches(page) == []
    page.get_by_role("button", name="Search").click()
    page.get_by_role("searchbox").press_sequentially("tank")
    page.locator(".search-found a").first.wait_for()
    assert breaches(page, kinds=("violations",)) == []
    page.get_by_role("button", name="Close").click()
    assert breaches(page) == []


@pytest.mark.parametrize(
    ("spoil", "rule"),
    [
        ("document.querySelector('h1').style.color = '#ddd'", "color-contrast"),
        (
            "document.querySelector('.word').style.color = '#999'",
            "color-contrast",
        ),
        (
            "[...document.querySelectorAll('article p')].at(-1).style.color = '#999'",
            "color-contrast",
        ),
        ("document.querySelector('.md-content').append(new Image())", "image-alt"),
    ],
)
def test_a_breach_is_told(
    demo_sites: list[Path], window: Any, spoil: str, rule: str
) -> None:
    page = window(LIGHT_ON_A_PHONE)
    page.goto((demo_sites[0] / "index.html").resolve().as_uri())
    page.evaluate(f"{{ {spoil} }}")
    assert any(f"violations {rule} at" in line for line in breaches(page))
