"""What the page on distances says of codes, on whole jobs."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.findings.criteria import LIMITS
from generator.pages import rows_of_codes
from generator.pages.citing import citation
from generator.record.load import Workspace
from generator.worked import Worked, work_out
from tests.pages.composed import texts

START = """\
visit: {{date: {day}, inspector: N. Example (invented)}}
client: {{name: A. Example (invented)}}
property:
  address: 1 Example Lane
  place: Example Township (invented)
  water_supply: private well
  bedrooms: 3
{home}
tanks:
  - {{name: tank, shape: box, length: 8 ft, width: 4 ft 6 in, liquid_depth: 48 in}}
distances:
  - absorption area to private well: 82 ft by tape
  - tank to private well: 63 ft by tape
"""
OWN = """\
name: us-or
jurisdiction: Oregon
separation:
  citation: "a letter of the county (invented)"
  edition: "letter of Oct 1, 2026 (invented)"
  as_of: 2026-10-01
  measured_from: "the well casing"
  rows:
    - {from: absorption area, to: private well, feet: 75, seen: yes}
"""


def worked(
    folder: Path, home: str, day: str = "2026-10-06", own: str = "", more: str = ""
) -> Worked:
    """Work out one small job under a code."""
    inspections = folder / "inspections"
    inspections.mkdir(parents=True)
    (inspections / "firm.yaml").write_text(
        "name: Example Onlot (invented)\nphone: 555-0100\n", encoding="utf-8"
    )
    text = START.format(day=day, home=f"  {home}" if home else "")
    (inspections / "job.yaml").write_text(text + more, encoding="utf-8")
    if own:
        (inspections / "codes").mkdir()
        (inspections / "codes" / "us-or.yaml").write_text(own, encoding="utf-8")
    return work_out(Workspace(folder), "job")


def page(found: Worked) -> str:
    """Compose the page on distances."""
    return " ".join(texts(found)["distances"].split())


def test_each_pair_says_what_is_asked_and_by_whom(tmp_path: Path) -> None:
    """OAR 340-071-0220 Table 1: 100 ft from the field, 50 ft from the tank."""
    found = worked(tmp_path, "code: us-or")
    field, tank = rows_of_codes.beside(found.results.parts["pairs"])
    assert (field.asked, field.verdict) == (
        "100 ft, Oregon",
        "does not meet the current siting distance",
    )
    assert (tank.asked, tank.verdict) == ("50 ft, Oregon", "meets")
    text = page(found)
    assert "a short distance does not by itself mean" in text
    assert "OAR 340-071-0220" in text
    assert "The office to ask: the county's onsite wastewater office." in text


def test_what_nobody_measured_is_listed(tmp_path: Path) -> None:
    more = (
        "features:\n  - {name: creek, kind: stream}\n  - {name: lane, kind: driveway}\n"
    )
    found = worked(tmp_path, "code: us-nj", more=more)
    assert rows_of_codes.not_measured(found.record, found.pack) == [
        "Tank to stream: 25 ft, New Jersey",
        "Absorption area to stream: 50 ft, New Jersey",
    ]
    also = rows_of_codes.also_asked(found.record, found.pack)
    assert "swimming pool (up to 20 ft)" in also
    assert "stream" not in " ".join(also)


def test_no_code_says_so_and_names_whom_to_ask(tmp_path: Path) -> None:
    text = page(worked(tmp_path, "authority: the town health office"))
    assert "No local figure was used. Ask the town health office" in text
    assert "82.0 ± 0.5 ft" in text.replace("\N{NO-BREAK SPACE}", " ")
    assert "no figure for this pair" in text


def test_a_code_without_distances_says_so(tmp_path: Path) -> None:
    found = worked(tmp_path, "code: us-ga")
    assert rows_of_codes.silent(found.pack) == ["Georgia"]
    assert "Of Georgia no distances are at hand here." in page(found)


@pytest.mark.parametrize(
    ("day", "doubted"),
    [("2024-10-06", False), ("2029-09-15", False), ("2029-10-06", True)],
)
def test_an_old_copy_is_doubted_at_the_visit(
    day: str, doubted: bool, tmp_path: Path
) -> None:
    """The Nevada copy is current through 2024-09-16; the limit is our own choice."""
    assert LIMITS["code_years"].value == 5
    [used] = rows_of_codes.used(*_two(worked(tmp_path, "code: us-nv", day)))
    assert bool(used.doubt) == doubted
    assert ("5 years older than the visit" in used.doubt) == doubted


def test_a_copy_without_a_date_is_doubted(tmp_path: Path) -> None:
    [used] = rows_of_codes.used(*_two(worked(tmp_path, "code: us-or")))
    assert used.doubt.startswith("The copy that was read bears no date")


def test_a_code_that_nobody_read_says_so(tmp_path: Path) -> None:
    found = worked(tmp_path, "code: us-pa")
    assert {one.verdict for one in found.results.parts["pairs"]} == {
        "confirm with the authority"
    }
    assert "Not read in its source, so that nothing is decided by it" in page(found)


def test_the_firms_own_row_shows_as_the_firms(tmp_path: Path) -> None:
    found = worked(tmp_path, "code: us-or", own=OWN)
    field, tank = rows_of_codes.beside(found.results.parts["pairs"])
    assert field.asked == "75 ft, Oregon (the firm's own row)"
    assert field.verdict == "meets"
    assert tank.asked == "50 ft, Oregon"
    text = page(found)
    assert "Oregon (entered by the firm)." in text
    assert "a letter of the county (invented)" in text
    result = found.results.all["distance.absorption_area_to_private_well"]
    assert result.source == "firm:us-or:separation"
    assert "the firm's own pack" in citation(result.source, found.pack).citation


def test_a_loan_program_stands_beside_the_local_code(tmp_path: Path) -> None:
    found = worked(tmp_path, "code: us-or\n  program: us-fha-existing")
    field, _ = rows_of_codes.beside(found.results.parts["pairs"])
    assert field.verdict == "does not meet the current siting distance"
    assert any("asks 100 ft: confirm with the lender." in note for note in field.notes)
    keys = {one.key: one for one in found.findings}
    loan = keys["absorption-area-to-private-well-loan"]
    assert loan.weight == "watch"
    assert loan.todo == "Ask the lender what it wants to see."


def test_a_program_alone_gives_no_local_verdict(tmp_path: Path) -> None:
    found = worked(tmp_path, "program: us-fha-existing")
    assert {one.verdict for one in found.results.parts["pairs"]} == {"no local figure"}
    assert "No local figure was used." in page(found)


def test_the_stricter_of_two_layers_says_why(tmp_path: Path) -> None:
    """Loudoun County asks 50 ft of a stream; the state's tables were not read."""
    own = (
        OWN.replace("name: us-or", "name: us-or-own-county")
        .replace(
            "jurisdiction: Oregon",
            "jurisdiction: Example County (invented)\nwithin: us-or",
        )
        .replace("feet: 75", "feet: 125")
    )
    inspections = tmp_path / "inspections" / "codes"
    inspections.mkdir(parents=True)
    (inspections / "us-or-own-county.yaml").write_text(own, encoding="utf-8")
    (tmp_path / "inspections" / "firm.yaml").write_text(
        "name: Example Onlot (invented)\nphone: 555-0100\n", encoding="utf-8"
    )
    text = START.format(day="2026-10-06", home="  code: us-or-own-county")
    (tmp_path / "inspections" / "job.yaml").write_text(text, encoding="utf-8")
    found = work_out(Workspace(tmp_path), "job")
    field, _ = rows_of_codes.beside(found.results.parts["pairs"])
    assert field.asked == "125 ft, Example County (invented) (the firm's own row)"
    assert field.notes[0].endswith("more than Oregon (100 ft); the stricter holds.")


def _two(found: Worked) -> tuple[object, object]:
    return found.record, found.pack
