"""The theme stands in the published folder once, however many clients there are."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from generator.website.gone import REASONS, gone_page
from generator.website.links import folder_name
from generator.website.publish import Edition, publish
from generator.website.root_files import HEADERS, root_files
from generator.website.shared import led_to_shared

ASH, ELM, FIR = (folder_name(b"x" * 16, job, 1) for job in ("ash", "elm", "fir"))
LED = re.compile(r'"\.\./shared/([0-9a-f]{32})/([^"]+)"')
PAGE = (
    '<link href="assets/look.css"><script src="assets/a/b.js"></script>'
    '{"base": ".", "search": "assets/a/b.js"} assets/ is a word, "assets/" too'
)


def site(folder: Path, style: str) -> Path:
    (folder / "assets/a").mkdir(parents=True)
    (folder / "index.html").write_text(PAGE, encoding="utf-8")
    (folder / "assets/look.css").write_text(style, encoding="utf-8")
    (folder / "assets/a/b.js").write_text("0", encoding="utf-8")
    return folder


def copies(public: Path) -> list[str]:
    return sorted(path.name for path in (public / "shared").iterdir())


def test_two_clients_share_one_copy(tmp_path: Path) -> None:
    public = tmp_path / "public"
    sites = {name: site(tmp_path / name, "a {}") for name in (ASH, ELM)}
    publish(Edition(sites), public)
    (copy,) = copies(public)
    for name in sites:
        assert not (public / name / "assets").exists()
        text = (public / name / "index.html").read_text(encoding="utf-8")
        led = LED.findall(text)
        assert led == [(copy, "look.css"), (copy, "a/b.js"), (copy, "a/b.js")]
        assert all((public / "shared" / copy / path).is_file() for _, path in led)
        assert text.endswith('assets/ is a word, "assets/" too')
        assert (sites[name] / "assets").is_dir()  # the built site stays whole


def test_a_client_who_stays_keeps_the_files_of_its_pages(tmp_path: Path) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: site(tmp_path / "ash", "old {}")}), public)
    (old,) = copies(public)
    publish(Edition({ELM: site(tmp_path / "elm", "new {}")}), public)
    assert old in copies(public)
    assert len(copies(public)) == 2
    again = {name: site(tmp_path / f"{name}2", "new {}") for name in (ASH, ELM)}
    publish(Edition(again), public)
    assert len(copies(public)) == 1  # nobody's pages lead to the old ones
    assert old not in copies(public)


def test_a_page_stands_where_a_report_was(tmp_path: Path) -> None:
    public = tmp_path / "public"
    publish(Edition({ASH: site(tmp_path / "ash", "a {}")}), public)
    page = gone_page("replaced", "Elm & Sons <invented>", "555-0100")
    publish(Edition(gone={ASH: page}), public)
    assert [path.name for path in (public / ASH).iterdir()] == ["index.html"]
    text = (public / ASH / "index.html").read_text(encoding="utf-8")
    assert "replaced by a new link. Ask Elm &amp; Sons &lt;invented&gt;" in text
    assert "noindex" in text


def test_every_reason_has_its_words() -> None:
    pages = {gone_page(state, "Example Onlot", "555-0100") for state in REASONS}
    assert len(pages) == len(REASONS) == 3


def test_hosts_are_told_the_same_in_each_of_their_words() -> None:
    files = root_files()
    for name in ("_headers", ".htaccess", "staticwebapp.config.json", "vercel.json"):
        for header, value in HEADERS.items():
            assert header in files[name], name
            assert value in files[name], name


PARTS = (
    'href="',
    'src="',
    '"search": "',
    "./",
    "assets/",
    "assets",
    "x",
    '"',
    " ",
    "/",
)
# The same in one pattern, which takes longer.
PATTERN = re.compile(r'((?:href|src)="|"search": ")(?:\./)?assets/')


@given(st.lists(st.sampled_from(PARTS)).map("".join))
def test_only_what_loads_from_the_theme_is_led_elsewhere(page: str) -> None:
    assert led_to_shared(page, "0f") == PATTERN.sub(r"\g<1>../shared/0f/", page)
