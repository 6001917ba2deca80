"""The field guide explains every key and every kind of amount, and tells them."""

from __future__ import annotations

import re
from itertools import chain

import pytest

from generator.quantity import UNITS
from generator.record.also_called import ALSO_CALLED
from generator.record.amounts import READERS
from generator.record.guide import STEPS, anchor, guide
from generator.record.keys import all_keys
from generator.record.kinds import GROUPS, KIND, Kind
from generator.record.lookup import MOST_FOUND, NARROW, found, listing, near, told
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


def test_a_visit_leads_to_every_section_but_the_notice_and_the_visit() -> None:
    sections = {key.path for key in all_keys() if "." not in key.path}
    named = [path for paths in STEPS.values() for path in paths]
    assert sections - {path.partition(".")[0] for path in named} == {"demonstration"}
    assert len(named) == len(set(named))
    visit = guide().partition("## In the order of a visit\n")[2].partition("\n## ")[0]
    assert "- **Find**: [Datum](#datum) `datum`, [Places](#places) `places`" in visit


def test_a_long_list_of_values_is_one_paragraph() -> None:
    entry = guide().partition("## `features[].kind`\n")[2].partition("\n#")[0]
    [values] = [line for line in entry.splitlines() if line.startswith("One of `")]
    assert values.endswith("`cesspool`.")


@pytest.mark.parametrize("kind", ["clock", "moment"])
def test_bare_hours_of_the_night_are_said_to_be_refused(kind: str) -> None:
    assert "from 1 to 6 without am or pm is refused" in KIND[kind].how
    assert KIND[kind].why_refused("2:05") == "can be read in more than one way."


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


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("sewer", "pipe_runs: Pipe runs."),
        ("probe", "depths[].probed: Probed."),
        ("probes", "depths[].probed: Probed."),
        ("lid", "tanks[].cover, cesspool.cover: Cover."),
        ("depth", "depths: Depths."),
        ("rectangular", "tanks[].shape, pump_chamber.shape: Inside shape."),
        ("camera", "pipe_runs: Pipe runs."),
        ("Point", "datum.points: Fixed points."),
        ("corner", "datum: Datum."),
        ("off", "pump_chamber.pump_off: Pump off."),
        ("drainfield", "absorption_areas: Absorption areas."),
        ("gas", "consent.utilities: Utilities."),
        ("outlet baffle", "tanks[].outlet_device: Outlet device."),
        ("depth of the probe", "depths[].probed: Probed."),
    ],
)
def test_a_word_leads_to_the_keys_that_speak_of_it(words: str, first: str) -> None:
    assert told(words).startswith(first)
    assert 1 <= len(found(words)) <= MOST_FOUND
    assert max(map(len, told(words).splitlines())) <= NARROW


def test_a_well_is_found_among_values() -> None:
    told_of = " ".join(told("well").split())
    assert "property.water_supply: Water supply." in told_of
    assert "Among its values: private well, shared well." in told_of
    assert "features: Features. Wells, lines, buildings" in told_of


def test_two_words_are_one_search() -> None:
    keys = [entry.partition(": ")[0] for entry in found("outlet baffle")]
    assert keys == [
        "tanks[].outlet_device",
        "tanks[].outlet_device_state",
        "tanks[].outlet_device_depth",
    ]


@pytest.mark.parametrize("word", ALSO_CALLED)
def test_every_other_word_of_the_trade_leads_somewhere(word: str) -> None:
    assert told(word)


def test_a_value_of_many_keys_is_told_by_their_paths() -> None:
    head, *paths = told("yes").splitlines()
    assert head == "yes, a value of:"
    assert "  walkover.odor" in paths
    assert {path.strip() for path in paths} <= {key.path for key in all_keys()}
    assert told("yep") == told("yes")


def test_a_section_is_told_beside_the_keys_called_like_it() -> None:
    assert "\nSee as well:\ndistances: Distances." in told("distance")


def test_an_unknown_name_is_met_with_near_ones() -> None:
    assert told("slugde") == ""
    assert near("slugde")[0] == "sludge"
    assert near("qqqqqqqq") == []
