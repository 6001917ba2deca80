"""Codes over one another: town over state, and a loan program beside them."""

from __future__ import annotations

from pathlib import Path

import pytest
from firm_builder import FIELD_TO_WELL, OWN_OREGON, OWN_TOWN, Firm

from generator.codes.layers import Layer, code_for, merged, own_packs, packs_called
from generator.codes.packs import pack
from generator.problems import Refused
from generator.results.asked import CONFIRM, NO_FIGURE
from generator.results.guard_band import CLOSE, MEETS, SHORT


def test_a_town_lies_within_its_state(firm: Firm) -> None:
    code = firm.code("code: us-va-loudoun")
    assert [one.pack.name for one in code.layers] == ["us-va-loudoun", "us-va"]
    assert code.jurisdiction == "Loudoun County, Virginia"
    assert code.source("separation") == "pack:us-va-loudoun:separation"


@pytest.mark.parametrize(
    ("distance", "whose", "verdict"),
    [
        ("absorption area to stream: 30 ft", "Loudoun County, Virginia", SHORT),
        ("manifold to private well: 30 ft", "Virginia", SHORT),
        ("manifold to private well: 60 ft", "Virginia", MEETS),
    ],
)
def test_each_layer_speaks_of_its_own_pairs(
    firm: Firm, distance: str, whose: str, verdict: str
) -> None:
    """Loudoun County ch. 1066, 50 ft; 12VAC5-610-592, 50 ft."""
    pair = firm.judged("code: us-va-loudoun", distance)
    assert pair.judged.asked.whose == whose
    assert (pair.row.feet, pair.verdict) == (50, verdict)
    assert pair.judged.because == ""


def test_a_town_that_was_read_over_a_state_that_was_not(firm: Firm) -> None:
    """Marysville, read: 100 ft; 25 Pa. Code 73.13, from memory: 100 ft and 10 ft."""
    named = "code: us-pa-marysville"
    far = firm.judged(named, f"{FIELD_TO_WELL}: 110 ft")
    assert (far.verdict, far.judged.asked.whose) == (
        MEETS,
        "Marysville Borough, Pennsylvania",
    )
    assert firm.judged(named, f"{FIELD_TO_WELL}: 90 ft").verdict == SHORT
    line = firm.judged(named, "absorption area to property line: 90 ft")
    assert (line.verdict, line.judged.asked.whose) == (CONFIRM, "Pennsylvania")


def test_a_section_comes_from_the_nearest_layer_that_has_it(firm: Firm) -> None:
    code = firm.code("code: us-pa-marysville")
    assert code.gpd(3) == pack("us-pa").gpd(3) == 400
    assert code.source("design_flow") == "pack:us-pa:design_flow"
    assert code.source("separation") == "pack:us-pa-marysville:separation"
    assert code.authority == pack("us-pa-marysville").authority
    fishers = firm.code("code: us-in-fishers")
    assert (fishers.gpd(3), fishers.least_gallons(3)) == (450, 1000)


@pytest.mark.parametrize(
    ("distance", "feet", "verdict", "because"),
    [
        (
            f"{FIELD_TO_WELL}: 110 ft",
            120,
            SHORT,
            "Example Town (invented) (the firm's own row) asks 120 ft, more than "
            "Oregon (100 ft); the stricter holds.",
        ),
        (
            "tank to private well: 45 ft",
            50,
            SHORT,
            "Oregon asks 50 ft, more than Example Town (invented) (the firm's own "
            "row) (40 ft); the stricter holds.",
        ),
        ("tank to property line: 9 ft", 5, MEETS, ""),
    ],
)
def test_the_stricter_holds_and_the_reason_is_said(
    firm: Firm, distance: str, feet: int, verdict: str, because: str
) -> None:
    """OAR 340-071-0220 Table 1: 100, 50 and 5 ft."""
    firm.own("us-or-town", OWN_TOWN)
    pair = firm.judged("code: us-or-town", distance)
    assert (pair.row.feet, pair.verdict, pair.judged.because) == (
        feet,
        verdict,
        because,
    )


# ------------------------------------------------------------------ program


def test_a_program_stands_beside_the_local_code(firm: Firm) -> None:
    """Oregon, read: 100 ft; the loan program on a secondary page only."""
    named = "code: us-or, program: us-fha-existing"
    pair = firm.judged(named, f"{FIELD_TO_WELL}: 120 ft")
    assert (pair.verdict, pair.program.verdict) == (MEETS, CONFIRM)
    assert pair.program.asked.whose == "FHA insured loans, existing construction"
    assert pair.judged.because == ""
    other = firm.judged(named, "tank to property line: 9 ft")
    assert other.program is None


def test_a_program_never_changes_what_the_local_code_makes(firm: Firm) -> None:
    for feet in (50, 100, 150):
        distance = f"{FIELD_TO_WELL}: {feet} ft"
        alone = firm.judged("code: us-or", distance)
        beside = firm.judged("code: us-or, program: us-fha-existing", distance)
        assert alone.verdict == beside.verdict in (SHORT, CLOSE, MEETS)


def test_a_program_without_a_local_code(firm: Firm) -> None:
    pair = firm.judged("program: us-fha-existing", "tank to private well: 90 ft")
    assert (pair.verdict, pair.program.verdict) == (NO_FIGURE, CONFIRM)
    code = firm.code("program: us-fha-existing")
    assert (code.jurisdiction, code.authority) == ("no local code", None)
    assert code.gpd(3) is None


# ------------------------------------------------------------- small machinery


def test_a_job_that_names_no_code_has_none(firm: Firm) -> None:
    record = firm.job("built: 1979", f"{FIELD_TO_WELL}: 100 ft")
    assert code_for(record) is None


def test_a_single_pack_as_a_code_says_what_the_pack_says() -> None:
    code = merged((Layer(pack("us-pa"), None),))
    assert (code.name, code.gpd(4), code.least_gallons(4)) == ("us-pa", 500, 1250)
    assert code.source("least_tank") == pack("us-pa").source("least_tank")


def test_packs_are_found_by_name(firm: Firm, tmp_path: Path) -> None:
    firm.own("us-or", OWN_OREGON)
    own = own_packs(str(tmp_path / "inspections" / "codes"))
    shipped, corrected = packs_called("us-or", own)
    assert (shipped, corrected) == (pack("us-or"), own["us-or"])
    assert packs_called("us-wa", own) == (pack("us-wa"), None)
    with pytest.raises(Refused):
        packs_called("us-zz", own)


def test_no_folder_no_packs(tmp_path: Path) -> None:
    assert own_packs("") == {}
    assert own_packs(str(tmp_path / "nowhere")) == {}
