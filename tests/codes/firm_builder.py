"""An invented firm with one job at a time, and packs of its own."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.codes.layers import Code, code_for
from generator.problems import Problem, Refused
from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.results.separation import Pair, pairs_of

JOB = """\
visit: {{date: 2026-10-06, inspector: N. Example (invented)}}
client: {{name: A. Example (invented)}}
property:
  address: 1 Example Lane
  place: Example Township (invented)
{named}
distances:
{distances}
"""
FIELD_TO_WELL = "absorption area to private well"
OWN_OREGON = """\
name: us-or
jurisdiction: Oregon
separation:
  citation: "Letter of the county (invented)"
  edition: "letter of 2026 (invented)"
  as_of: 2026-03-02
  measured_from: "the edge of the stone"
  rows:
    - {from: absorption area, to: private well, feet: 75, seen: yes}
    - {from: tank, to: driveway, feet: 8, seen: yes}
"""
OWN_TOWN = """\
name: us-or-town
jurisdiction: Example Town (invented)
level: county or town
within: us-or
separation:
  citation: "Town rule 1 (invented)"
  edition: "2026 (invented)"
  measured_from: "the edge of the stone"
  rows:
    - {from: absorption area, to: private well, feet: 120, seen: yes}
    - {from: tank, to: private well, feet: 40, seen: yes}
"""


@dataclass(frozen=True)
class Firm:
    """A firm's folder with one job, and packs of its own."""

    root: Path

    def own(self, name: str, text: str) -> None:
        """Write a pack of the firm."""
        codes = self.root / "inspections" / "codes"
        codes.mkdir(exist_ok=True)
        (codes / f"{name}.yaml").write_text(text, encoding="utf-8")

    def job(self, named: str, *distances: str) -> Record:
        """Load a job that names a code, with some distances by tape."""
        rows = "\n".join(f"  - {one} by tape" for one in distances)
        lines = "\n".join(f"  {one}" for one in named.split(", "))
        text = JOB.format(named=lines, distances=rows)
        (self.root / "inspections" / "job.yaml").write_text(text, encoding="utf-8")
        return load(Workspace(self.root), "job")

    def code(self, named: str) -> Code:
        """Give the code of a job that names it."""
        found = code_for(self.job(named, f"{FIELD_TO_WELL}: 100 ft"))
        assert found is not None
        return found

    def judged(self, named: str, distance: str) -> Pair:
        """Judge one distance under a code."""
        record = self.job(named, distance)
        (pair,) = pairs_of(record.inspection, code_for(record))
        return pair

    def refused(self, named: str) -> list[Problem]:
        """Give the problems of a job that cannot have its code."""
        record = self.job(named, f"{FIELD_TO_WELL}: 100 ft")
        with pytest.raises(Refused) as caught:
            code_for(record)
        return list(caught.value.problems)
