"""A link that leads nowhere is found; one that leads somewhere is not."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.website.site_walk import missing, unlike


@pytest.mark.parametrize(
    ("address", "leads"),
    [
        ("b.html", True),
        ("b.html#spot", True),
        ("#here", True),
        (".", True),
        ("a%20picture.svg", True),
        ("https://county.example/", True),
        ("c.html", False),
        ("b.html#gone", False),
        ("#gone", False),
        ("../index.html", False),
        ("gone.svg", False),
    ],
)
def test_what_is_missing_is_found(tmp_path: Path, address: str, leads: bool) -> None:
    page = f'<p id="here"><a href="{address}">x</a></p>'
    (tmp_path / "index.html").write_text(page)
    (tmp_path / "b.html").write_text('<h2 id="spot">x</h2>')
    (tmp_path / "a picture.svg").write_text("<svg/>")
    expected = [] if leads else [f"index.html: {address}"]
    assert missing(tmp_path) == expected


def test_pages_of_the_same_make_are_taken_once(tmp_path: Path) -> None:
    pages = [tmp_path / f"{name}.html" for name in "abc"]
    pages[0].write_text("<main><p>one</p><p>two</p></main>")
    pages[1].write_text("<main><p>three</p></main>")
    pages[2].write_text('<main><p>four <b class="x">five</b></p></main>')
    assert list(unlike(pages)) == [pages[0], pages[2]]
    assert list(unlike(pages[:2], seen=[pages[2]])) == []
