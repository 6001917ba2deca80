"""The firm's own packs: what they correct and add, and their mistakes."""

from __future__ import annotations

import pytest
from firm_builder import FIELD_TO_WELL, OWN_OREGON, OWN_TOWN, Firm

from generator.codes.packs import pack
from generator.results.asked import CONFIRM
from generator.results.guard_band import MEETS, SHORT
from generator.results.separation import separation_results


def test_the_firm_corrects_a_row_and_adds_one(firm: Firm) -> None:
    """OAR 340-071-0220 Table 1 asks 100 ft; the letter in the firm's pack, 75."""
    assert firm.judged("code: us-or", f"{FIELD_TO_WELL}: 82 ft").verdict == SHORT
    firm.own("us-or", OWN_OREGON)
    corrected = firm.judged("code: us-or", f"{FIELD_TO_WELL}: 82 ft")
    assert (corrected.row.feet, corrected.verdict) == (75, MEETS)
    added = firm.judged("code: us-or", "tank to driveway: 6 ft")
    assert (added.row.feet, added.verdict) == (8, SHORT)
    untouched = firm.judged("code: us-or", "tank to private well: 45 ft")
    assert (untouched.row.feet, untouched.verdict) == (50, SHORT)


def test_the_firms_row_is_shown_as_the_firms(firm: Firm) -> None:
    firm.own("us-or", OWN_OREGON)
    own = firm.judged("code: us-or", f"{FIELD_TO_WELL}: 82 ft")
    assert own.judged.asked.whose == "Oregon (the firm's own row)"
    assert separation_results([own])[0].source == "firm:us-or:separation"
    shipped = firm.judged("code: us-or", "tank to private well: 45 ft")
    assert shipped.judged.asked.whose == "Oregon"
    assert separation_results([shipped])[0].source == "pack:us-or:separation"


def test_the_authority_need_not_be_said_again(firm: Firm) -> None:
    firm.own("us-or", OWN_OREGON)
    assert firm.code("code: us-or").authority == pack("us-or").authority
    firm.own("us-or", f"{OWN_OREGON}authority: the town clerk (invented)\n")
    assert firm.code("code: us-or").authority == "the town clerk (invented)"


def test_a_correction_that_was_not_read_never_decides(firm: Firm) -> None:
    firm.own("us-or", OWN_OREGON.replace("feet: 75, seen: yes", "feet: 75, seen: no"))
    for feet in (20, 82, 300):
        pair = firm.judged("code: us-or", f"{FIELD_TO_WELL}: {feet} ft")
        assert pair.verdict == CONFIRM


def test_a_pack_that_was_corrected_is_read_again(firm: Firm) -> None:
    firm.own("us-or", OWN_OREGON)
    assert firm.judged("code: us-or", f"{FIELD_TO_WELL}: 110 ft").row.feet == 75
    firm.own("us-or", OWN_OREGON.replace("feet: 75", "feet: 125"))
    assert firm.judged("code: us-or", f"{FIELD_TO_WELL}: 110 ft").row.feet == 125


# ------------------------------------------------------------------- mistakes


def test_a_mistake_in_a_firms_pack_names_file_and_line(firm: Firm) -> None:
    firm.own("us-or", OWN_OREGON.replace("feet: 75", "feet: far"))
    (problem,) = firm.refused("code: us-or")
    assert (problem.file, problem.line) == ("inspections/codes/us-or.yaml", 9)
    assert problem.field == "separation.rows[0].feet"
    assert problem.message.endswith(".")


def test_every_problem_of_every_pack_is_told_at_once(firm: Firm) -> None:
    firm.own("us-or", OWN_OREGON.replace("feet: 75", "feet: far"))
    firm.own("us-or-town", OWN_TOWN.replace("to: private well", "to: moon", 1))
    problems = firm.refused("code: us-wa")
    assert {one.file for one in problems} == {
        "inspections/codes/us-or.yaml",
        "inspections/codes/us-or-town.yaml",
    }


def test_a_name_unlike_its_file_is_a_problem(firm: Firm) -> None:
    firm.own("us-or-city", OWN_TOWN)
    (problem,) = firm.refused("code: us-or")
    assert (problem.file, problem.line, problem.field) == (
        "inspections/codes/us-or-city.yaml",
        1,
        "name",
    )
    assert problem.message == ('This pack is called "us-or-town", and its file is not.')
    assert problem.hint == 'Write "name: us-or-city", or rename the file.'


@pytest.mark.parametrize("within", ["us-or-town", "us-or-ring"])
def test_packs_within_each_other_end(firm: Firm, within: str) -> None:
    firm.own("us-or-town", OWN_TOWN.replace("within: us-or", f"within: {within}"))
    ring = OWN_TOWN.replace("name: us-or-town", "name: us-or-ring")
    firm.own("us-or-ring", ring.replace("within: us-or", "within: us-or-town"))
    names = [one.pack.name for one in firm.code("code: us-or-town").layers]
    assert names == list(dict.fromkeys(["us-or-town", within]))


def test_an_unknown_wider_pack_is_told_where_it_is_written(firm: Firm) -> None:
    firm.own("us-or-town", OWN_TOWN.replace("within: us-or", "within: us-oz"))
    (problem,) = firm.refused("code: us-or-town")
    assert (problem.file, problem.line, problem.field) == (
        "inspections/codes/us-or-town.yaml",
        4,
        "within",
    )
    assert problem.message == 'No code pack is called "us-oz".'


@pytest.mark.parametrize(
    ("named", "field", "near"),
    [
        ("code: us-orr", "property.code", "us-or"),
        ("code: us-or-twn", "property.code", "us-or-town"),
        ("program: us-fha-exsting", "property.program", "us-fha-existing"),
    ],
)
def test_an_unknown_name_is_answered_with_the_nearest(
    firm: Firm, named: str, field: str, near: str
) -> None:
    firm.own("us-or-town", OWN_TOWN)
    (problem,) = firm.refused(named)
    assert (problem.file, problem.line) == ("inspections/job.yaml", 6)
    assert problem.field == field
    assert problem.message == f'No code pack is called "{named.split(": ")[1]}".'
    assert problem.hint.startswith(f'Did you mean "{near}"? The packs: guide-epa-1980,')
    assert problem.hint.endswith(".")


def test_a_name_like_no_other_is_answered_with_the_list(firm: Firm) -> None:
    (problem,) = firm.refused("code: zzzzzz")
    assert problem.hint.startswith("The packs: guide-epa-1980,")
