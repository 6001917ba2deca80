"""The register of the office: every job, what is missing, what falls due, its link."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import zxingcpp
from click.testing import CliRunner, Result
from PIL import Image

from generator.cli import main
from generator.office.pages import CSV_HEAD, as_csv, as_page, qr
from generator.office.register import Due, Row
from generator.record.load import Workspace
from generator.website.links import folder_name

SECRET = "a secret for tests only, never a client's"
LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
TODAY = "2026-11-25"


def ask(workspace: Workspace, *words: str) -> Result:
    asked = ["--workspace", str(workspace.root), *words]
    return CliRunner().invoke(main, asked, env={"ONLOT_LINK_SECRET": SECRET})


def table(workspace: Workspace, today: str = TODAY) -> dict[str, dict[str, str]]:
    """Write the register and read its table back."""
    made = ask(workspace, "office", "--on", today)
    assert made.exit_code == 0, made.output
    text = (workspace.root / "office/register.csv").read_bytes().decode("utf-8")
    return {row["job"]: row for row in csv.DictReader(io.StringIO(text, newline=""))}


def test_every_job_is_listed_with_its_worst_finding_and_link(
    workspace: Workspace,
) -> None:
    rows = table(workspace)
    assert (rows[LARCH]["state"], rows[LARCH]["worst finding"]) == ("final", "repair")
    assert (rows[CATTAIL]["worst finding"], rows[CATTAIL]["takes its water"]) == (
        "danger",
        "no",
    )
    name = folder_name(SECRET.encode(), LARCH, 1)
    assert rows[LARCH]["link"] == f"https://reports.fieldstone.example/{name}/"
    assert rows[LARCH]["to do first"].count(";") == 2
    office = workspace.root / "office"
    assert rows[LARCH]["link"] in (office / f"handover/{LARCH}.txt").read_text("utf-8")
    page = (office / "index.html").read_text(encoding="utf-8")
    assert f'<article id="{CATTAIL}" class="danger">' in page
    assert not (workspace.root / "public").exists()


def test_what_falls_due(workspace: Workspace) -> None:
    """The firm keeps for ten years from the report of October 7, 2026."""
    ask(workspace, "until", LARCH, "2027-01-31")
    due = table(workspace)[LARCH]["falls due"]
    assert due == (
        "2027-01-31 last day of the link; 2036-10-07 the firm's years of keeping end"
    )


def test_a_job_with_problems_is_listed_with_them(workspace: Workspace) -> None:
    workspace.job_file("broken").write_text("visit:\n", encoding="utf-8")
    rows = table(workspace)
    assert rows["broken"]["state"] == "problems"
    assert "inspections/broken.yaml:1:" in rows["broken"]["missing"]
    assert not (workspace.root / "office/handover/broken.txt").exists()


def test_a_withdrawn_report_has_no_message(workspace: Workspace) -> None:
    assert table(workspace)[LARCH]["link state"] == "open"
    ask(workspace, "withdraw", LARCH)
    row = table(workspace)[LARCH]
    assert (row["link state"], row["link"]) == ("withdrawn", "")
    assert not (workspace.root / f"office/handover/{LARCH}.txt").exists()


def test_the_register_makes_no_secret(workspace: Workspace) -> None:
    """Only a build makes one, and tells to keep it."""
    asked = ["--workspace", str(workspace.root), "office"]
    refused = CliRunner().invoke(main, asked, env={"ONLOT_LINK_SECRET": None})
    assert refused.exit_code == 1
    assert "There is no link secret yet, which links are made from." in refused.output
    assert not (workspace.root / ".onlot").exists()
    assert not (workspace.root / "office").exists()


def test_the_same_day_gives_the_same_bytes(workspace: Workspace) -> None:
    def state() -> dict[str, bytes]:
        table(workspace)
        folder = workspace.root / "office"
        return {
            path.relative_to(folder).as_posix(): path.read_bytes()
            for path in folder.rglob("*")
            if path.is_file()
        }

    assert state() == state()


@pytest.mark.parametrize("begin", ["=1+1", "+1", "-1", "@x", "\tx"])
def test_no_cell_acts_as_a_formula(begin: str) -> None:
    """Source: OWASP, CSV injection (from memory)."""
    row = Row("elm", "draft", address=begin, client='quoted "name", buyer')
    found = list(csv.reader(io.StringIO(as_csv([row]), newline="")))
    assert found[0] == list(CSV_HEAD)
    assert found[1][2] == f"'{begin}"
    assert found[1][3] == 'quoted "name", buyer'


def test_a_page_takes_no_markup_from_a_job() -> None:
    row = Row(
        "elm", "draft", address="<script>1</script>", due=(Due("2026-01-01", "x"),)
    )
    page = as_page([row], "Elm & Sons", TODAY)
    assert "<script" not in page
    assert "2026-01-01 (past)" in page
    assert "Elm &amp; Sons" in page
    assert as_page([replace(row, due=())], "Elm", TODAY).count("<h2>") == 1


def test_a_qr_picture_leads_to_the_link(browser: Any, tmp_path: Path) -> None:
    """Read back by a library that is not the one it was made with (ZXing)."""
    link = "https://reports.fieldstone.example/bcsl5wyoobghee4de3e6c6ctipxqahsm/"
    (tmp_path / "qr.svg").write_text(qr(link), encoding="utf-8")
    page = browser.new_page(viewport={"width": 400, "height": 400})
    page.goto((tmp_path / "qr.svg").as_uri())
    page.screenshot(path=tmp_path / "qr.png")
    with Image.open(tmp_path / "qr.png") as shown:
        (found,) = zxingcpp.read_barcodes(shown)
    assert found.text == link
