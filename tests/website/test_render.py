"""A rendered site stands alone, repeats byte for byte, and is strict."""

from __future__ import annotations

import json
import logging
import re
from pathlib import Path
from typing import Any

import jinja2
import pytest

from generator.website.policy import SealError, seal
from generator.website.render import RenderError, render
from generator.website.tree import Page, write_tree
from tests.website.conftest import PROJECT

HOSTILE = """</title><script>alert(1)</script> "&amp;" {{ 7*7 }} 'x' <b>"""


def contents(site: Path) -> dict[str, bytes]:
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in site.rglob("*")
        if path.is_file()
    }


def render_with(folder: Path, sample: dict[str, Any], **changes: Any) -> Path:
    site = folder / "site"
    render(write_tree(folder / "tree", **{**sample, **changes}), site)
    return site


def with_text(sample: dict[str, Any], markdown: str) -> list[Page]:
    """The sample's pages with more on the last."""
    *pages, last = sample["pages"]
    return [*pages, Page(last.path, last.title, f"{last.markdown}\n\n{markdown}\n")]


def test_same_bytes_from_two_folders(tmp_path: Path, sample: dict[str, Any]) -> None:
    first = contents(render_with(tmp_path / "one", sample))
    other = render_with(tmp_path / "other", sample, site_name="another client")
    second = contents(render_with(tmp_path / "a" / "deeper" / "place", sample))
    assert first == second
    assert set(contents(other)) == set(first)
    assert contents(other) != first


def test_templates_are_compiled_once_for_all_trees(
    tmp_path: Path, sample: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    render_with(tmp_path / "one", sample)
    compiled: list[str] = []
    compile_one = jinja2.Environment.compile

    def counted(self: jinja2.Environment, source: str, *more: Any) -> Any:
        compiled.append(source)
        return compile_one(self, source, *more)

    monkeypatch.setattr(jinja2.Environment, "compile", counted)
    render_with(tmp_path / "a" / "deeper" / "place", sample)
    assert compiled == []


def test_nothing_of_one_client_in_another(
    tmp_path: Path, sample: dict[str, Any]
) -> None:
    render_with(tmp_path / "one", sample, site_name="Zanzibar Court")
    other = render_with(tmp_path / "other", sample)
    assert not any(b"Zanzibar" in content for content in contents(other).values())


def test_only_what_a_client_needs(sample_site: Path) -> None:
    names = set(contents(sample_site))
    assert {
        "index.html",
        "findings.html",
        "figures/plan.svg",
        "photos/toe.jpg",
    } <= names
    unwanted = ("sitemap", "404", ".map", "lunr", "favicon.png", ".py", "partials")
    assert [name for name in names if any(word in name for word in unwanted)] == []
    assert {name for name in names if "search" in name and "worker" not in name} == {
        "search/search_index.json",
    }
    assert len([name for name in names if "worker" in name]) == 1
    assert len(names) <= 28


def test_pages_hold_no_blank_lines_and_no_indents(sample_site: Path) -> None:
    for page in sample_site.glob("*.html"):
        assert not re.search(r"\n\s", page.read_text("utf-8").rstrip("\n"))


def test_blanks_that_are_seen_stay(tmp_path: Path, sample: dict[str, Any]) -> None:
    pages = with_text(sample, "<pre>\none\n\n    two\n</pre>")
    site = render_with(tmp_path, sample, pages=pages)
    last = (site / pages[-1].path.replace(".md", ".html")).read_text("utf-8")
    assert "one\n\n    two\n" in last


def test_the_search_index_holds_words_and_no_tags(sample_site: Path) -> None:
    index = (sample_site / "search/search_index.json").read_text("utf-8")
    texts = [one["text"] for one in json.loads(index)["docs"]]
    assert any(texts)
    assert not [text for text in texts if "<" in text or "  " in text]


def test_our_sheets_and_scripts_are_two_files(sample_site: Path) -> None:
    """What they hold is that of their parts, in the order that the settings name."""
    sources = PROJECT / "generator/website/theme/assets"
    style = (sample_site / "assets/report.css").read_text("utf-8")
    at = [style.index(one.read_text("utf-8")) for one in sorted(sources.glob("*.css"))]
    assert len(at) == len(set(at)) == 8
    script = (sample_site / "assets/report.js").read_text("utf-8")
    assert all(one.read_text("utf-8") in script for one in sources.glob("*.js"))
    for page in sample_site.glob("*.html"):
        text = page.read_text("utf-8")
        ours = re.findall(r'(?:href|src)="assets/([\w-]+\.(?:css|js))"', text)
        assert ours == ["report.css", "report.js"]


def test_every_page_asks_not_to_be_found(sample_site: Path) -> None:
    for page in sample_site.glob("*.html"):
        text = page.read_text("utf-8")
        assert '<meta name="robots" content="noindex, nofollow, noarchive">' in text
        assert '<meta name="referrer" content="no-referrer">' in text
        assert text.count("Content-Security-Policy") == 1
        assert text.index("Content-Security-Policy") < text.index("<script")
        assert "mkdocs" not in text.lower()


def test_policy_names_the_scripts_on_the_page(sample_site: Path) -> None:
    text = (sample_site / "index.html").read_text("utf-8")
    policy = re.search(r'Security-Policy" content="([^"]*)"', text)
    assert policy is not None
    assert policy[1].startswith("default-src 'none'; script-src 'self' file: 'sha256-")
    scripts = policy[1].split("; ")[1]
    assert "unsafe" not in scripts
    assert scripts.count("sha256-") == len(
        set(re.findall(r"<script>(.+?)</script>", text, re.S))
    )


def test_policy_lets_search_ask_its_own_host_alone(sample_site: Path) -> None:
    text = (sample_site / "index.html").read_text("utf-8")
    assert "; connect-src 'self'; worker-src 'self'; base-uri 'none'; " in text


def test_text_stays_text(tmp_path: Path, sample: dict[str, Any]) -> None:
    *pages, last = sample["pages"]
    pages.append(Page(last.path, HOSTILE, last.markdown))
    site = render_with(tmp_path, sample, site_name=HOSTILE, pages=pages)
    for page in site.glob("*.html"):
        text = page.read_text("utf-8")
        assert "alert(1)</script>" not in text
        assert "<b>" not in text
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in text
        assert "{{ 7*7 }}" in text
        assert "&amp;lt;" not in text  # made safe once, not twice


def test_first_line_is_never_settings(tmp_path: Path, sample: dict[str, Any]) -> None:
    for number, start in enumerate(("template: 404.html", "---\ntemplate: x\n---")):
        text = f"{start}\n\n# Note"
        pages = [
            *sample["pages"],
            Page("note.md", "Note", text),
            Page("aside.md", "Aside", text, searched=False),
        ]
        site = render_with(tmp_path / str(number), sample, pages=pages)
        for name in ("note.html", "aside.html"):
            assert "template: " in (site / name).read_text("utf-8")
        index = (site / "search" / "search_index.json").read_text("utf-8")
        assert "note.html" in index
        assert "aside.html" not in index


@pytest.mark.parametrize(
    "markdown",
    [
        "[gone](gone.md)",
        "[gone](findings.md#finding-99)",
        "![gone](photos/gone.jpg)",
        "[absolute](/etc/passwd)",
    ],
)
def test_broken_link_is_an_error(
    tmp_path: Path, sample: dict[str, Any], markdown: str
) -> None:
    with pytest.raises(
        RenderError, match=r"mkdocs\.yml: Doc file 'record\.md' contains"
    ):
        render_with(tmp_path, sample, pages=with_text(sample, markdown))


@pytest.mark.parametrize(
    ("markup", "complaint"),
    [
        ('<img src="https://far.example/x.png">', "leads to another host"),
        ('<img src="//far.example/x.png">', "leads to another host"),
        ('<script src="http://far.example/x.js"></script>', "leads to another host"),
        ('<link rel="stylesheet" href="//far.example/x.css">', "leads to another host"),
        ('<a href="javascript:alert(1)">x</a>', "leads to another host"),
        (
            '<p style="background: url(//far.example/x)">x</p>',
            "runs or loads something",
        ),
        ('<p onclick="x()">x</p>', "runs or loads something"),
        ('<iframe src="record.html"></iframe>', "has no place on a page"),
        ('<meta http-equiv="refresh" content="0">', "has no place on a page"),
        ('<img src="figures/gone.svg">', "leads to a file that is not there"),
        ('<a href="../index.html#x">x</a>', None),
        ('<a href="https://county.example/">x</a>', None),
        ('<a href="mailto:office@fieldstone.example">x</a>', None),
        ('<img src="data:image/png;base64,AAAA">', None),
    ],
)
def test_pages_load_nothing_of_others(
    tmp_path: Path, markup: str, complaint: str | None
) -> None:
    page = tmp_path / "index.html"
    page.write_text(f'<!doctype html>\n<meta charset="utf-8">\n{markup}\n')
    if complaint is None:
        seal(tmp_path)
        assert "Content-Security-Policy" in page.read_text()
    else:
        with pytest.raises(SealError, match=complaint):
            seal(tmp_path)
        assert "Content-Security-Policy" not in page.read_text()


@pytest.mark.parametrize(
    "rule", ["@import '//far.example/x'", "url(https://x.example)"]
)
def test_style_sheets_load_nothing_of_others(tmp_path: Path, rule: str) -> None:
    (tmp_path / "x.css").write_text(f"p {{ background: {rule} }}")
    with pytest.raises(SealError, match=r"x\.css: loads from another host"):
        seal(tmp_path)


def test_not_a_word_on_the_terminal(
    tmp_path: Path, sample: dict[str, Any], capfd: pytest.CaptureFixture[str]
) -> None:
    render_with(tmp_path / "good", sample)
    with pytest.raises(RenderError):
        render_with(tmp_path / "bad", sample, pages=with_text(sample, "[x](gone.md)"))
    assert capfd.readouterr() == ("", "")
    assert logging.getLogger("mkdocs").propagate
    assert logging.getLogger("mkdocs").handlers == []
