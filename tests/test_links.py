"""Links from the command to the published folder: renewed, withdrawn, at their end."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.website.links import folder_name
from tests.plain_job import plain

SECRET = "a secret for tests only, never a client's"
LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
BASE = "https://reports.fieldstone.example"


class Firm:
    """A copy of the demonstration, and commands run in it."""

    def __init__(self, root: Path) -> None:
        self.root, self.public = root, root / "public"

    def ask(self, *words: str, env: dict[str, str] | None = None) -> Result:
        """Run one command, on a day of its own unless it names one."""
        given = {"ONLOT_LINK_SECRET": SECRET, "SOURCE_DATE_EPOCH": "1793577600"}
        runner = CliRunner()
        asked = ["--workspace", str(self.root), *words]
        return runner.invoke(main, asked, env=given | (env or {}))

    def page(self, job: str, number: int) -> str:
        """Give the first page behind a link."""
        name = folder_name(SECRET.encode(), job, number)
        return (self.public / name / "index.html").read_text(encoding="utf-8")


@pytest.fixture
def firm(tmp_path: Path) -> Firm:
    """The demonstration with one job of two, to be quick."""
    here = Path(__file__).resolve().parent.parent / "inspections"
    kept = tmp_path / "inspections"
    kept.mkdir()
    shutil.copy(here / "firm.yaml", kept)
    text = (here / f"{LARCH}.yaml").read_text(encoding="utf-8")
    (kept / f"{LARCH}.yaml").write_text(plain(text), encoding="utf-8")
    shutil.copytree(here / LARCH, kept / LARCH)
    return Firm(tmp_path)


def test_a_renewed_link_turns_the_old_into_a_page_that_says_so(firm: Firm) -> None:
    assert firm.ask("build").exit_code == 0
    assert "The short answer" in firm.page(LARCH, 1)
    told = firm.ask("renew", LARCH, "--because", "sent astray", "--on", "2026-11-20")
    assert told.output == (
        f"{LARCH}: has a new link.\n"
        f"Build and publish to put it into effect; commit inspections/{LARCH}/"
        "links.yaml.\n"
    )
    assert firm.ask("build").exit_code == 0
    old = firm.page(LARCH, 1)
    assert "It was replaced by a new link. Ask Fieldstone" in old
    assert "Larch" not in old
    assert folder_name(SECRET.encode(), LARCH, 2) not in old
    assert "sent astray" not in old
    assert "The short answer" in firm.page(LARCH, 2)
    lines = firm.ask("links").output.splitlines()
    assert lines[0] == f"{LARCH} · link 1 · replaced · on 2026-11-20 · sent astray"
    assert lines[1].startswith(f"{LARCH} · link 2 · open · A. and J. Demonstration, ")
    name = folder_name(SECRET.encode(), LARCH, 2)
    assert lines[1].endswith(f"{BASE}/{name}/")
    paper = firm.public / name / "paper.html"
    assert f"{BASE}/{name}/" in paper.read_text(encoding="utf-8")


def test_a_withdrawn_report_is_gone_and_says_whom_to_ask(firm: Firm) -> None:
    assert firm.ask("build").exit_code == 0
    assert firm.ask("withdraw", LARCH).exit_code == 0
    built = firm.ask("build")
    assert built.exit_code == 0
    assert f"{LARCH}: nobody can read it" in built.output
    assert "The report was withdrawn. Ask Fieldstone" in firm.page(LARCH, 1)
    everything = [path for path in firm.public.rglob("*") if path.is_file()]
    assert not [path for path in everything if b"Larch" in path.read_bytes()]
    refused = firm.ask("handover", LARCH)
    assert refused.exit_code == 1
    assert "Nobody can read this report" in refused.output
    assert firm.ask("withdraw", LARCH).exit_code == 1


def test_a_build_after_the_last_day_takes_the_report_away(firm: Firm) -> None:
    assert firm.ask("until", LARCH, "Nov 30, 2026").exit_code == 0
    assert firm.ask("build", "--on", "2026-11-30").exit_code == 0
    assert "The short answer" in firm.page(LARCH, 1)
    assert firm.ask("build", "--on", "2026-12-01").exit_code == 0
    assert "Its last day has passed. Ask Fieldstone" in firm.page(LARCH, 1)
    assert firm.ask("until", LARCH, "never").exit_code == 0
    late = {"SOURCE_DATE_EPOCH": "1900000000"}
    assert firm.ask("build", env=late).exit_code == 0
    assert "The short answer" in firm.page(LARCH, 1)


def test_a_folder_of_no_job_is_told_and_goes_only_when_asked(firm: Firm) -> None:
    assert firm.ask("build").exit_code == 0
    stray = firm.public / folder_name(SECRET.encode(), "sold", 1)
    stray.mkdir()
    told = firm.ask("build").output
    assert f"public/{stray.name} belongs to no job." in told
    assert stray.is_dir()
    assert "was taken away" in firm.ask("build", "--remove-strays").output
    assert not stray.exists()


def test_a_link_file_with_a_mistake_changes_nothing(firm: Firm) -> None:
    assert firm.ask("build").exit_code == 0
    before = firm.page(LARCH, 1)
    file = firm.root / "inspections" / LARCH / "links.yaml"
    file.write_text("links:\n  - {number: 7}\n", encoding="utf-8")
    refused = firm.ask("build")
    assert refused.exit_code == 1
    assert f"inspections/{LARCH}/links.yaml:2: links[0].number:" in refused.output
    assert firm.page(LARCH, 1) == before


def test_the_words_that_go_with_a_link(firm: Firm) -> None:
    firm.ask("until", LARCH, "2027-01-31")
    text = firm.ask("handover", LARCH).output
    assert f"{BASE}/{folder_name(SECRET.encode(), LARCH, 1)}/" in text
    assert "Whoever has this link can read the report." in text
    assert "It opens the report until January 31, 2027." in text
    assert "no warranty" in text
    assert SECRET not in text


def test_no_link_is_shown_before_there_is_a_secret(firm: Firm) -> None:
    runner = CliRunner()
    asked = ["--workspace", str(firm.root), "links"]
    told = runner.invoke(main, asked, env={"ONLOT_LINK_SECRET": None})
    assert "the first build makes the secret" in told.output
    assert not (firm.root / ".onlot").exists()


@pytest.mark.parametrize("word", ["renew", "withdraw"])
def test_a_job_that_is_not_there(firm: Firm, word: str) -> None:
    refused = firm.ask(word, "larch")
    assert refused.exit_code == 1
    assert "There is no such file." in refused.output
    assert not (firm.root / "inspections/larch").exists()


def test_a_spoilt_links_file_is_told_plainly(firm: Firm) -> None:
    file = firm.root / "inspections" / LARCH / "links.yaml"
    file.write_text("links:\n  - {number: 2}\n", encoding="utf-8")
    refused = firm.ask("links")
    assert refused.exit_code == 1
    assert refused.exception is None or isinstance(refused.exception, SystemExit)
    assert "The link in place 1 has the number 2." in refused.output


def test_links_of_no_job_are_refused(firm: Firm) -> None:
    refused = firm.ask("links", "larch")
    assert refused.exit_code == 1
    assert "There is no such file." in refused.output


def test_no_message_without_an_address(firm: Firm) -> None:
    file = firm.root / "inspections/firm.yaml"
    lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in lines if not line.startswith("reports_at")]
    file.write_text("".join(kept), encoding="utf-8")
    refused = firm.ask("handover", LARCH)
    assert refused.exit_code == 1
    assert "does not say where the reports are" in refused.output


def test_a_last_day_builds_nothing_again(firm: Firm) -> None:
    assert firm.ask("build").exit_code == 0
    assert firm.ask("until", LARCH, "2027-01-31").exit_code == 0
    assert "nothing changed, so not built" in firm.ask("build", "--explain").output


@pytest.mark.parametrize("word", ["seal", "paper"])
def test_nothing_is_written_over_a_job_file(firm: Firm, word: str) -> None:
    file = firm.root / "inspections" / f"{LARCH}.yaml"
    before = file.read_bytes()
    refused = firm.ask(word, LARCH, "--out", str(file))
    assert refused.exit_code == 1
    assert "the firm's own files" in refused.output
    assert file.read_bytes() == before
