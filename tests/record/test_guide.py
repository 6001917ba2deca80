"""The field guide explains every key and every kind of amount, and tells them."""

from __future__ import annotations

import re
from itertools import chain

import pytest

from generator.quantity import UNITS
from generator.record.amounts import READERS
from generator.record.guide import anchor, guide
from generator.record.keys import all_keys
from generator.record.kinds import GROUPS, KIND, Kind
from generator.record.lookup import NARROW, listing, near, told
from generator.record.spelling import KINDS, AmountError

HEADINGS = re.findall(r"^#+ (.*)$", guide(), re.M)


def test_every_kind_of_amount_is_explained() -> None:
    assert set(KIND) == set(KINDS) == set(READERS)
    assert len(GROUPS) == len(KIND) == len({kind.title for kind in GROUPS})
    assert set(chain(*(kind.units for kind in GROUPS))) == set(UNITS)


@pytest.mark.parametrize("kind", GROUPS, ids=lambda kind: kind.name)
def test_what_is_said_to_be_read_is_read(kind: Kind) -> None:
    quoted = re.findall(r'"([^"]*)"', kind.examples)
    for text in (*kind.read, *(one for one in quoted if one != "10 min")):
        READERS[kind.name](text)


@pytest.mark.parametrize("kind", GROUPS, ids=lambda kind: kind.name)
def test_what_is_said_to_be_refused_is_refused(kind: Kind) -> None:
    for text in kind.refused:
        with pytest.raises(AmountError):
            READERS[kind.name](text)
        assert kind.why_refused(text).endswith(".")
    with pytest.raises(ValueError, match="is read as"):
        kind.why_refused(kind.read[0])


def test_links_lead_to_headings_that_stand_once() -> None:
    anchors = [anchor(heading) for heading in HEADINGS]
    assert len(anchors) == len(set(anchors))
    linked = set(re.findall(r"\]\(#([^)]*)\)", guide()))
    assert linked
    assert linked <= set(anchors)


def test_the_page_says_how_it_is_made_and_shows_lines() -> None:
    page = guide()
    assert "`onlot fields --page`" in page[:400]
    assert "levels:\n  - 10 min: 1/2 in above\n" in page
    assert "`- {from} to {to}: {bucket}` or `- {from}: {bucket}`" in page
    assert "A [length](#length), such as `sludge: 8 in`." in page


def test_the_list_has_one_narrow_line_for_each_key() -> None:
    lines = listing().splitlines()
    assert len(lines) == len(all_keys())
    assert max(map(len, lines)) <= NARROW
    assert "  date*: Date of the visit (date)" in lines


@pytest.mark.parametrize("key", all_keys(), ids=lambda key: key.path)
def test_every_key_is_found_by_its_path(key: object) -> None:
    path = key.path  # type: ignore[attr-defined]
    assert f"{path}: " in told(path)
    assert told(path) == told(path.replace("[]", ""))
    assert f"{path}: " in told(path.rpartition(".")[2])


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("tanks", "  Its keys:\n    name*: Name (name)"),
        ("sludge", "cesspool.sludge: Sludge"),
        ("tanks[0].sludge", "tanks[].sludge: Sludge"),
        ("load_test.levels", '  An entry on one line, "- {at}: {level}":'),
        ("length", "  Units, each with every spelling that is read:\n    in, "),
        ("Length of time", "    week, weeks"),
        ("perforations", "pipe_runs[].log[].see: Seen (required)"),
        ("private well", "distances[].to: To (required)"),
        ("PVC", "pipe_runs[].material: Material"),
    ],
)
def test_a_name_is_told(name: str, words: str) -> None:
    assert words in told(name)


def test_an_unknown_name_is_met_with_near_ones() -> None:
    assert told("slugde") == ""
    assert near("slugde")[0] == "sludge"
    assert near("qqqqqqqq") == []
