"""The command that seals a report: its file, its link, and what stops it."""

from __future__ import annotations

import base64
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main
from generator.cli_seal import WHO_READS
from generator.record.load import Workspace, load
from generator.website import links
from generator.website.sealed.lock import WrongKeyError, opened
from tests.plain_job import plain

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
SEALED = re.compile(r'id="sealed"[^>]*>([^<]*)<')


@pytest.fixture
def workspace(workspace: Workspace) -> Workspace:
    """The demonstration workspace, whose first job is quicker to build."""
    file = workspace.job_file(LARCH)
    file.write_text(plain(file.read_text(encoding="utf-8")), encoding="utf-8")
    return workspace


def ask(workspace: Workspace, *words: str) -> Result:
    return CliRunner().invoke(main, ["--workspace", str(workspace.root), *words])


def told(result: Result) -> tuple[Path, str]:
    """The file and the link that the command printed."""
    assert result.exit_code == 0, result.output
    first, link, last = result.output.splitlines()
    assert last == WHO_READS
    return Path(first.partition(": ")[2]), link


def key_of(link: str) -> bytes:
    text = link.partition("#")[2].upper()
    return base64.b32decode(text + "=" * (-len(text) % 8))


def sealed_in(file: Path) -> bytes:
    found = SEALED.search(file.read_text("utf-8"))
    assert found
    return base64.b64decode(found[1])


def test_the_command_writes_one_file_and_prints_its_link(workspace: Workspace) -> None:
    file, link = told(ask(workspace, "seal", LARCH))
    assert file.parent == workspace.root / "office" / "sealed"
    assert link.startswith(f"https://reports.fieldstone.example/{file.name}#")
    assert links.NAME.fullmatch(file.stem)
    text = opened(sealed_in(file), key_of(link))
    assert "The short answer" in text
    assert "<script" not in text
    assert not re.search(r'(?:src|href)="(?!data:|#|https?:|mailto:|tel:)', text)
    assert not (workspace.root / "public").exists()
    assert list(file.parent.iterdir()) == [file]
    print(f"{LARCH}: {file.stat().st_size:,} bytes sealed")


def test_the_file_says_nothing_of_the_client(workspace: Workspace) -> None:
    file, link = told(ask(workspace, "seal", LARCH))
    clear = SEALED.sub("", file.read_text("utf-8"))
    inspection = load(workspace, LARCH).inspection
    words = [LARCH, inspection.client.name, inspection.property.address]
    words += [inspection.property.place, inspection.visit.inspector, "Larch"]
    words += ["fieldstone.example", link.partition("#")[2], "tank", "septic", "2026"]
    assert [word for word in words if word.casefold() in clear.casefold()] == []
    assert "Ask Fieldstone Onlot Inspections (invented), 555-0142." in clear


def test_the_same_report_gives_the_same_file(
    workspace: Workspace, tmp_path: Path
) -> None:
    file, link = told(ask(workspace, "seal", LARCH))
    again = Workspace(tmp_path / "another firm's folder")
    shutil.copytree(workspace.inspections, again.inspections)
    other, same = told(ask(again, "seal", LARCH))
    assert (other.name, other.read_bytes(), same) == (
        file.name,
        file.read_bytes(),
        link,
    )


def test_a_renewed_link_has_another_file_and_key(workspace: Workspace) -> None:
    file, link = told(ask(workspace, "seal", LARCH))
    assert ask(workspace, "renew", LARCH).exit_code == 0
    other, new = told(ask(workspace, "seal", LARCH))
    assert other.name != file.name
    assert key_of(new) != key_of(link)
    with pytest.raises(WrongKeyError):
        opened(sealed_in(other), key_of(link))


def test_a_withdrawn_report_is_not_sealed(workspace: Workspace) -> None:
    assert ask(workspace, "withdraw", CATTAIL).exit_code == 0
    result = ask(workspace, "seal", CATTAIL)
    assert result.exit_code == 1
    assert "Nobody may read this report: it was withdrawn." in result.output
    assert not (workspace.root / "office").exists()


def test_without_a_secret_none_is_made(
    workspace: Workspace, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("ONLOT_LINK_SECRET")
    result = ask(workspace, "seal", CATTAIL)
    assert result.exit_code == 1
    assert "There is no link secret yet, which the key is made from." in result.output
    assert not (workspace.root / ".onlot").exists()


def test_it_goes_where_it_was_asked_for_but_never_into_public(
    workspace: Workspace, tmp_path: Path
) -> None:
    out = tmp_path / "a folder" / "my report.html"
    file, link = told(ask(workspace, "seal", CATTAIL, "--out", str(out)))
    assert file == out
    assert "/my%20report.html#" in link
    inside = workspace.root / "public" / "report.html"
    result = ask(workspace, "seal", CATTAIL, "--out", str(inside))
    assert result.exit_code == 1
    assert "never written into public/" in result.output
    result = ask(workspace, "seal", CATTAIL, "--out", str(out / "report.html"))
    assert result.exit_code == 1
    assert "cannot be written here" in result.output


def test_without_an_address_the_link_begins_with_the_file(workspace: Workspace) -> None:
    firm = workspace.inspections / "firm.yaml"
    lines = firm.read_text("utf-8").splitlines(keepends=True)
    firm.write_text("".join(x for x in lines if not x.startswith("reports_at:")))
    file, link = told(ask(workspace, "seal", CATTAIL))
    assert link.partition("#")[0] == file.name


def test_a_job_with_problems_is_not_sealed(
    with_job: Callable[..., Workspace],
) -> None:
    workspace = with_job(LARCH, lambda data: data["visit"].pop("date"))
    result = ask(workspace, "seal", LARCH)
    assert result.exit_code == 1
    assert "1 problem" in result.output
    assert not (workspace.root / "office").exists()
