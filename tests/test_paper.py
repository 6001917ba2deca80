"""The paper page printed to PDF: where it goes, what stops it, how it looks."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from generator import paper
from generator.cli import main
from generator.record.load import Workspace

LARCH = "demo-larch-hollow"
BARE = "draft-required-keys-only"
GOOD = Path(__file__).parent / "jobs" / "good"
POINTS = {"letter": (612, 792), "a4": (595, 842)}  # 1/72 in; ISO 216 rounded
Change = Callable[..., Workspace]


def ask(workspace: Workspace, *words: str) -> Result:
    return CliRunner().invoke(main, ["--workspace", str(workspace.root), *words])


def sheet_of(pdf: Path) -> tuple[int, int]:
    found = re.search(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", pdf.read_bytes())
    assert found
    return round(float(found[1])), round(float(found[2]))


@pytest.fixture
def bare(workspace: Workspace) -> Workspace:
    """A workspace with the job that is quickest to build."""
    shutil.copy(GOOD / f"{BARE}.yaml", workspace.inspections)
    return workspace


@pytest.fixture
def no_browser(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(paper.shutil, "which", lambda name: None)


@pytest.fixture
def stand_in(monkeypatch: pytest.MonkeyPatch) -> Callable[[Any], list[list[str]]]:
    """Let a function stand in for the browser; give the commands it was asked for."""

    def use(ends: Any) -> list[list[str]]:
        asked: list[list[str]] = []

        def run(command: list[str], **_: object) -> Any:
            asked.append(command)
            return ends(command)

        monkeypatch.setattr(paper.shutil, "which", lambda name: "/bin/a-browser")
        monkeypatch.setattr(paper.subprocess, "run", run)
        return asked

    return use


def prints(command: list[str]) -> Any:
    [pdf] = [one for one in command if one.startswith("--print-to-pdf=")]
    Path(pdf.partition("=")[2]).write_bytes(b"%PDF-1.4 of a stand-in")
    return subprocess.CompletedProcess(command, 0)


@pytest.mark.usefixtures("no_browser")
def test_without_a_browser_the_package_is_named(workspace: Workspace) -> None:
    result = ask(workspace, "paper", LARCH)
    assert result.exit_code == 1
    assert "Printing needs the browser Chromium, and none was found" in result.output
    assert "apt install chromium" in result.output
    assert not (workspace.root / "office" / f"{LARCH}.pdf").exists()


def test_nothing_is_printed_into_the_published_folder(workspace: Workspace) -> None:
    out = workspace.root / "public" / "a.pdf"
    result = ask(workspace, "paper", LARCH, "--out", str(out))
    assert result.exit_code == 1
    assert "never written into public/" in result.output
    assert not out.parent.exists()


def test_the_pdf_goes_to_the_office_or_where_it_was_asked_for(
    bare: Workspace, stand_in: Any, tmp_path: Path
) -> None:
    asked = stand_in(prints)
    result = ask(bare, "paper", BARE)
    assert result.exit_code == 0, result.output
    assert f"office/{BARE}.pdf" in result.output
    assert (bare.root / "office" / f"{BARE}.pdf").is_file()
    named = tmp_path / "elsewhere" / "report.pdf"
    assert ask(bare, "paper", f"{BARE}.yaml", "--out", str(named)).exit_code == 0
    assert named.is_file()
    assert not (bare.root / "public").exists()
    assert len(asked) == 2
    assert asked[0][-1].startswith("file:")
    assert "--host-resolver-rules=MAP * ~NOTFOUND" in asked[0]


def test_the_sandbox_is_left_out_for_root_only(
    bare: Workspace, stand_in: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = stand_in(prints)
    for root in (True, False):
        monkeypatch.setattr(paper, "_is_root", lambda root=root: root)
        assert ask(bare, "paper", BARE).exit_code == 0
    assert ["--no-sandbox" in command for command in asked] == [True, False]


def test_a_browser_that_takes_too_long_is_told(bare: Workspace, stand_in: Any) -> None:
    def waits(command: list[str]) -> Any:
        raise subprocess.TimeoutExpired(command, paper.LONGEST)

    stand_in(waits)
    result = ask(bare, "paper", BARE)
    assert result.exit_code == 1
    assert "did not print the page within 120 seconds." in result.output


def test_a_browser_that_fails_leaves_the_earlier_pdf(
    bare: Workspace, stand_in: Any
) -> None:
    earlier = bare.root / "office" / f"{BARE}.pdf"
    earlier.parent.mkdir()
    earlier.write_bytes(b"%PDF-1.4 from before")
    for ends in (
        lambda command: subprocess.CompletedProcess(command, 1),
        lambda command: subprocess.CompletedProcess(command, 0),
    ):
        stand_in(ends)
        result = ask(bare, "paper", BARE)
        assert result.exit_code == 1
        assert "Chromium ended without a PDF." in result.output
    assert earlier.read_bytes() == b"%PDF-1.4 from before"


def test_a_place_that_cannot_be_written_is_told(
    bare: Workspace, stand_in: Any, tmp_path: Path
) -> None:
    stand_in(prints)
    (tmp_path / "file").write_text("in the way")
    out = tmp_path / "file" / "report.pdf"
    result = ask(bare, "paper", BARE, "--out", str(out))
    assert result.exit_code == 1
    assert "cannot be written here" in result.output


def test_a_job_with_problems_is_not_printed(with_job: Change, stand_in: Any) -> None:
    asked = stand_in(prints)
    workspace = with_job(LARCH, lambda data: data["visit"].pop("date"))
    result = ask(workspace, "paper", LARCH)
    assert result.exit_code == 1
    assert "1 problem" in result.output
    assert asked == []


@pytest.mark.usefixtures("browser")
@pytest.mark.parametrize("size", POINTS)
@pytest.mark.parametrize("job", [LARCH, BARE])
def test_chromium_prints_either_paper(bare: Workspace, job: str, size: str) -> None:
    flags = ["--a4"] if size == "a4" else []
    result = ask(bare, "paper", job, *flags)
    assert result.exit_code == 0, result.output
    pdf = bare.root / "office" / f"{job}.pdf"
    assert sheet_of(pdf) == POINTS[size]
    assert b"file:" not in pdf.read_bytes()  # no path of this machine


@pytest.mark.parametrize("width", [390, 1280])
def test_the_page_needs_no_sideways_scroll(
    demo_sites: list[Path], browser: Any, width: int
) -> None:
    [site] = [site for site in demo_sites if site.name == LARCH]
    page = browser.new_page(viewport={"width": width, "height": 844})
    page.goto((site / "paper.html").resolve().as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    lost = page.evaluate(
        "[...document.querySelectorAll('article a[href^=\"#\"]')]"
        ".filter(a => !document.getElementById(a.hash.slice(1))).length"
    )
    page.close()
    assert lost == 0


def test_a_tap_shows_what_a_word_means(demo_sites: list[Path], browser: Any) -> None:
    [site] = [site for site in demo_sites if site.name == LARCH]
    page = browser.new_page(viewport={"width": 390, "height": 844}, has_touch=True)
    page.goto((site / "findings.html").resolve().as_uri())
    page.locator(".finding p abbr").first.tap()
    page.locator("[role=tooltip]").wait_for(state="attached", timeout=5000)
    told = page.locator("[role=tooltip]").inner_text()
    page.close()
    assert told.endswith(".")
