"""What was kept beside the build and is spoilt is said once."""

from __future__ import annotations

from pathlib import Path

from generator.spoilt import spoilt_notes
from generator.trail.past import Past
from generator.trail.revision import Index
from tests.small_firm import Firm

ONE = "1 kept photograph was spoilt and prepared again."


def test_a_spoilt_photograph_is_said_once(tmp_path: Path) -> None:
    firm = Firm(tmp_path / "firm")
    firm.ask("build")
    before = firm.state()
    [entry] = (one for one in (firm.root / "build/photos").iterdir() if one.is_file())
    entry.write_bytes(b"")
    firm.job_file("ash").write_text(
        firm.job_file("ash").read_text("utf-8") + "# more\n", encoding="utf-8"
    )
    assert ONE in firm.ask("build").stderr.splitlines()
    assert firm.state() != before
    assert firm.state() == firm.clean(tmp_path / "fresh")
    assert ONE not in firm.ask("build", "--all").stderr


def test_a_spoilt_history_is_said(tmp_path: Path) -> None:
    assert list(spoilt_notes(Past(None), tmp_path)) == []
    assert list(spoilt_notes(Past(None, Index(spoilt=True)), tmp_path)) == [
        "What was kept of the history was spoilt and was read again."
    ]
