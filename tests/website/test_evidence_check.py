"""Whatever is changed in a published report is named, in a plain sentence."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from generator.website.evidence import RECORD
from generator.website.evidence_check import (
    GONE,
    NOT_ITSELF,
    NOT_PRINTED,
    SPOILT,
    differences,
)
from tests.website.published import (
    CATTAIL,
    LARCH,
    PRINTED,
    Published,
    files_of,
    publish,
)


@pytest.fixture(scope="module")
def published(tmp_path_factory: pytest.TempPathFactory) -> Published:
    return publish(tmp_path_factory.mktemp("firm"))


@contextmanager
def holding(path: Path, content: bytes | None) -> Iterator[None]:
    """Let a file hold something else for a while; None takes it away."""
    before = path.read_bytes() if path.exists() else None
    put(path, content)
    yield
    put(path, before)


def put(path: Path, content: bytes | None) -> None:
    if content is None:
        path.unlink()
    else:
        path.write_bytes(content)


def flipped(content: bytes, at: int) -> bytes:
    changed = bytearray(content)
    changed[at] ^= 1
    return bytes(changed)


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_a_report_as_it_was_published_differs_in_nothing(
    published: Published, job: str
) -> None:
    assert published.differences(job) == []


def test_every_changed_byte_is_named(published: Published) -> None:
    files = files_of(published)
    assert {"index.html", "search/search_index.json", "figures/plan.svg"} <= set(files)
    for name, path in files.items():
        content = path.read_bytes()
        for at in (0, len(content) // 2, -1):
            with holding(path, flipped(content, at)):
                told = published.differences()
            if name == RECORD:
                assert told[0] == NOT_ITSELF
            else:
                named = f"{name} was changed: its digest is not the one in record.json."
                assert told == [named]
    assert published.differences() == []


def test_every_missing_file_is_named(published: Published) -> None:
    for name, path in files_of(published).items():
        with holding(path, None):
            told = published.differences()
        missing = f"{name} is missing, and record.json lists it."
        assert told == [GONE if name == RECORD else missing]


@pytest.mark.parametrize("name", ["more.html", "photos/more.jpg", ".hidden"])
def test_a_file_that_was_added_is_named(published: Published, name: str) -> None:
    with holding(published.sites[LARCH] / name, b"more"):
        assert published.differences() == [f"{name} is not listed in record.json."]


def test_a_name_that_a_terminal_would_obey_is_shown_harmless(
    published: Published,
) -> None:
    with holding(published.sites[LARCH] / "a\x1b[2Jb", b""):
        assert published.differences() == ["a?[2Jb is not listed in record.json."]


def test_a_link_in_place_of_a_file_is_named(published: Published) -> None:
    page = published.sites[LARCH] / "care.html"
    beside = published.root / "care.html"
    page.rename(beside)
    page.symlink_to(beside)
    told = published.differences()
    beside.replace(page)
    assert told == ["care.html was changed: its digest is not the one in record.json."]


@pytest.mark.parametrize("printed", ["0" * 64, "ab" * 32])
def test_another_printed_digest_is_a_changed_page(
    published: Published, printed: str
) -> None:
    page = published.sites[LARCH] / "record.html"
    other = PRINTED.sub(
        f'<code class="address digest">{printed}</code>', page.read_text("utf-8")
    )
    with holding(page, other.encode()):
        assert published.differences() == [
            "record.html was changed: its digest is not the one in record.json."
        ]


def test_a_changed_record_and_a_changed_page_are_both_named(
    published: Published,
) -> None:
    site = published.sites[LARCH]
    content = (site / RECORD).read_bytes().replace(b'"report": 0', b'"report": 7')
    page = flipped((site / "care.html").read_bytes(), 100)
    with holding(site / RECORD, content), holding(site / "care.html", page):
        assert published.differences() == [
            NOT_ITSELF,
            "care.html was changed: its digest is not the one in record.json.",
        ]


@pytest.mark.parametrize(
    "content",
    [
        b"", b"{", b"[]", b"\xff\xfe", b"[" * 100_000, b'{"files": {}}', b"1" * 9_999,
        b'{"files": {"a": 1}, "theme": {"folder": "", "files": {}}}',
        b'{"files": {}, "theme": {"folder": "../../..", "files": {}}}',
    ],
)  # fmt: skip
def test_a_spoilt_record_is_told_plainly(published: Published, content: bytes) -> None:
    with holding(published.sites[LARCH] / RECORD, content):
        assert published.differences() == [NOT_ITSELF, SPOILT]


def test_a_record_that_no_page_prints_proves_nothing(published: Published) -> None:
    site = published.sites[LARCH]
    pages = [site / "record.html", site / "paper.html"]
    with holding(pages[0], None), holding(pages[1], None):
        assert published.differences()[0] == NOT_PRINTED


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert differences(tmp_path / "none", tmp_path / "shared") == [GONE]
