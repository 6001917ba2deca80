"""Every report lists a digest of each of its files, and prints that of the list."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

import pytest
from mkdocs.commands.build import build as plain_build
from mkdocs.config import load_config

from generator.website.evidence import BLANK, RECORD, digest_of, prove
from generator.website.evidence_check import differences
from generator.website.shared import copy_name, led_to_shared
from tests.website.published import (
    CATTAIL,
    LARCH,
    PRINTED,
    Published,
    files_of,
    publish,
)

ONLY_IN = {LARCH: "cattail", CATTAIL: "larch"}  # a word of the other client


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> Published:
    return publish(tmp_path_factory.mktemp("firm"))


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_the_pages_print_the_digest_of_the_record(
    published: Published, job: str
) -> None:
    site = published.sites[job]
    digest = hashlib.sha256((site / RECORD).read_bytes()).hexdigest()
    assert PRINTED.findall((site / "record.html").read_text("utf-8")) == [digest]
    assert PRINTED.findall((site / "paper.html").read_text("utf-8")) == [digest] * 2
    assert digest in (site / "search/search_index.json").read_text("utf-8")
    assert '<a href="record.json">' in (site / "record.html").read_text("utf-8")
    assert '"record.json"' not in (site / "paper.html").read_text("utf-8")
    assert not [one for one in site.rglob("*.html") if BLANK in one.read_text("utf-8")]


def test_the_record_lists_every_file_and_nothing_else(published: Published) -> None:
    listed = json.loads((published.sites[LARCH] / RECORD).read_bytes())
    of_theme = [f"shared/{copy_of(listed)}/{name}" for name in listed["theme"]["files"]]
    found = set(files_of(published)) - {RECORD}
    assert sorted([*listed["files"], *of_theme]) == sorted(found)
    assert listed["theme"]["folder"] == f"../shared/{copy_of(listed)}"
    assert listed["made_of"]["job"] == LARCH


def copy_of(listed: dict) -> str:
    return str(listed["theme"]["folder"]).rpartition("/")[2]


def test_its_own_words_tell_how_to_work_a_digest_out(published: Published) -> None:
    """A reader who has the file alone comes to the digests that stand in it."""
    site = published.sites[LARCH]
    content = (site / RECORD).read_bytes()
    own = hashlib.sha256(content).hexdigest().encode()
    listed = json.loads(content)
    assert "first put 64 zeros wherever the digest" in " ".join(listed["how_to_check"])
    for name, digest in listed["files"].items():
        held = (site / name).read_bytes()
        if name.endswith((".html", ".json")):
            held = held.replace(own, b"0" * 64)
        assert hashlib.sha256(held).hexdigest() == digest


def test_nothing_of_another_client_and_nothing_of_a_machine(
    published: Published,
) -> None:
    for job, site in published.sites.items():
        text = (site / RECORD).read_text("ascii").lower()
        assert ONLY_IN[job] not in text
        for told in (str(published.root), site.name, "a secret", "://"):
            assert told not in text


def test_another_place_gives_the_same_evidence(
    published: Published, tmp_path: Path
) -> None:
    other = publish(tmp_path / "deeper" / "down")
    for job, site in published.sites.items():
        assert (other.sites[job] / RECORD).read_bytes() == (site / RECORD).read_bytes()


def test_the_page_tree_is_still_one_for_plain_mkdocs(
    published: Published, tmp_path: Path
) -> None:
    tree = published.root / "build" / "trees" / LARCH
    out = str(tmp_path / "out")
    plain_build(load_config(str(tree / "mkdocs.yml"), site_dir=out, strict=True))
    page = (tmp_path / "out" / "record.html").read_text("utf-8")
    assert 'href="record.json"' in page
    assert PRINTED.findall(page) == [BLANK]
    told = json.loads((tmp_path / "out" / RECORD).read_bytes())
    assert told["made_of"]["job"] == LARCH


PAGE = f'<link href="assets/look.css"> {BLANK} <a href="#">assets/</a>'


def small_site(folder: Path) -> Path:
    (folder / "assets").mkdir(parents=True)
    (folder / "deep").mkdir()
    (folder / "index.html").write_text(PAGE, encoding="utf-8")
    (folder / "deep/page.html").write_text(PAGE, encoding="utf-8")
    (folder / "plan.svg").write_text(BLANK, encoding="utf-8")
    (folder / "assets/look.css").write_text(BLANK, encoding="utf-8")
    return folder


def test_printing_and_leading_may_change_places(tmp_path: Path) -> None:
    site = small_site(tmp_path / "site")
    copy = copy_name(site / "assets")
    digest = prove(site, {})
    printed = (site / "index.html").read_text("utf-8")
    assert printed == PAGE.replace(BLANK, digest)
    led_first = led_to_shared(PAGE, copy).replace(BLANK, digest)
    assert led_to_shared(printed, copy) == led_first
    listed = json.loads((site / RECORD).read_bytes())
    led = hashlib.sha256(led_to_shared(PAGE, copy).encode()).hexdigest()
    assert listed["files"]["index.html"] == led
    assert copy == copy_of(listed)


def test_only_texts_print_the_digest(tmp_path: Path) -> None:
    site = small_site(tmp_path / "site")
    digest = prove(site, {"why": "a test"})
    assert digest in (site / "deep/page.html").read_text("utf-8")
    assert (site / "plan.svg").read_text("utf-8") == BLANK
    assert (site / "assets/look.css").read_text("utf-8") == BLANK
    told = (site / RECORD).read_bytes()
    assert digest == digest_of(told)
    assert told.endswith(b"}\n")
    assert list(json.loads(told)) == ["files", "how_to_check", "made_of", "theme"]


def test_a_site_without_theme_files_has_its_evidence_too(tmp_path: Path) -> None:
    site = small_site(tmp_path / "site")
    shutil.rmtree(site / "assets")
    text = f'<code class="address digest">{BLANK}</code>'
    (site / "record.html").write_text(text, encoding="utf-8")
    prove(site, {})
    assert differences(site, tmp_path / "shared") == []
