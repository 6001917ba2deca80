"""The way to the builder of an invented firm, and one such firm for each test."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from firm_builder import Firm


@pytest.fixture
def firm(tmp_path: Path) -> Firm:
    """An invented firm."""
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    (inspections / "firm.yaml").write_text(
        "name: Example Onlot (invented)\nphone: 555-0100\n", encoding="utf-8"
    )
    return Firm(tmp_path)
