"""The code packs: what they hold, and what they do not say."""

from __future__ import annotations

from datetime import date
from itertools import combinations, pairwise
from typing import Any

import pytest

from generator.codes.packs import FOLDER, WHOLE_SYSTEM, Pack, names, pack
from generator.codes.rows import Cited, SeparationRow
from generator.codes.when import CHOICES, SILENT, Answers, When, worlds
from generator.record.check import schema
from generator.record.read import read

SECTIONS = ("pump_out", "design_flow", "least_tank", "distribution_box", "loading")
# The copy of this rule that was read came without an address.
WITHOUT_ADDRESS = {"us-mi", "us-nd"}


def rows_of(name: str) -> tuple[SeparationRow, ...]:
    """Give the distances of a pack."""
    section = pack(name).separation
    return section.rows if section else ()


def listed(which: str, *path: str) -> list[str]:
    """Give a list of allowed words of a schema."""
    node: Any = schema(which)["properties"]
    for key in path:
        node = node[key]
    return list(node["enum"])


def of_row(key: str) -> list[str]:
    """Give the words that a row of a pack may use."""
    path = ("separation", "properties", "rows", "items", "properties", key)
    return listed("code", *path)


def of_job(part: str, key: str) -> list[str]:
    """Give the words that a job file may use in the long form of an entry."""
    return listed("inspection", part, "items", "properties", key)


@pytest.mark.parametrize("name", names())
def test_every_pack_loads_under_its_own_name(name: str) -> None:
    assert pack(name).name == name


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize("section", SECTIONS)
def test_a_section_that_was_read_names_its_copy(name: str, section: str) -> None:
    found = getattr(pack(name), section)
    if found is not None and found.seen == "yes":
        assert found.url
        assert "memory" not in found.edition


@pytest.mark.parametrize("name", names())
def test_rows_rise_with_the_bedrooms(name: str) -> None:
    one = pack(name)
    for give in (one.gpd, one.least_gallons):
        known = [found for found in map(give, range(1, 9)) if found is not None]
        assert known == sorted(known)


@pytest.mark.parametrize("name", names())
def test_bands_of_percolation_follow_each_other(name: str) -> None:
    table = pack(name).loading
    bands = [row for row in table.rows if row.percolation_from] if table else []
    for row, after in pairwise(bands):
        assert row.percolation_below == after.percolation_from
        assert row.gpd_per_ft2.value > after.gpd_per_ft2.value


@pytest.mark.parametrize(
    ("code", "bedrooms", "gpd", "gallons"),
    [
        ("us-pa", 3, 400, 900),
        ("us-pa", 7, 800, 1700),
        ("us-mn", 3, 450, 1000),
        ("us-mn", 7, 1050, None),
        ("us-mn", 1, None, 1000),
        ("us-or", 3, None, None),
        ("us-mt", 3, None, None),
    ],
)
def test_bedrooms(
    code: str, bedrooms: int, gpd: int | None, gallons: int | None
) -> None:
    """Sources: 25 Pa. Code 73.17 and 73.31; Minn. R. 7080.1860, 7080.1930 (unseen)."""
    assert pack(code).gpd(bedrooms) == gpd
    assert pack(code).least_gallons(bedrooms) == gallons


def test_soils_are_found_however_they_are_written() -> None:
    """Source: 30 TAC 285.91(1)."""
    rates = pack("us-tx").loading
    assert rates.rate(None, " Class II ") == 0.25
    assert rates.rate(None, "class V") is None
    assert rates.rate(20.0, None) is None
    assert pack("us-mt").loading.rate(None, "class II") is None


def test_an_empty_pack_says_nothing() -> None:
    bare = Pack(name="a-code", jurisdiction="x")
    assert bare.gpd(3) is None
    assert bare.least_gallons(3) is None


@pytest.mark.parametrize("name", names())
def test_a_wider_pack_exists_and_the_way_out_ends(name: str) -> None:
    passed: list[str] = []
    here: str | None = name
    while here:
        assert here not in passed
        passed.append(here)
        assert here in names()
        here = pack(here).within
    assert len(passed) <= 2 or pack(name).level == "county or town"


def test_towns_lie_within_their_state_where_it_ships() -> None:
    for name in names():
        if pack(name).level == "county or town":
            state = "-".join(name.split("-")[:2])
            assert pack(name).within == (state if state in names() else None)


def test_the_job_file_and_the_packs_use_the_same_words() -> None:
    to = of_row("to")
    assert to == of_job("distances", "to") == of_job("features", "kind")
    assert of_row("from") == [WHOLE_SYSTEM, *of_job("distances", "from")]


@pytest.mark.parametrize("name", names())
def test_every_row_can_be_met_by_a_job(name: str) -> None:
    for row in rows_of(name):
        assert row.to in of_job("features", "kind")
        assert row.from_ in {*of_job("distances", "from"), WHOLE_SYSTEM}


@pytest.mark.parametrize("key", CHOICES)
def test_conditions_can_be_answered_in_the_words_of_the_job(key: str) -> None:
    path = ("separation", "properties", "rows", "items", "properties", "when")
    asked = listed("code", *path, "properties", key)
    assert set(CHOICES[key]) <= set(asked)
    if key != "watertight":
        assert asked == of_job("features", key)


@pytest.mark.parametrize("name", names())
def test_distances_that_were_read_name_their_copy(name: str) -> None:
    section = pack(name).separation
    if section is not None and any(row.read for row in section.rows):
        assert bool(section.url) == (name not in WITHOUT_ADDRESS)
        assert "memory" not in section.edition


@pytest.mark.parametrize("name", names())
def test_the_day_of_a_copy_is_a_day(name: str) -> None:
    document = read(FOLDER / f"{name}.yaml")
    for section, given in document.data.items():
        if isinstance(given, dict) and "as_of" in given:
            day = date.fromisoformat(given["as_of"])
            assert date(2000, 1, 1) < day < date(2026, 11, 25)
            found: Cited = getattr(pack(name), section)
            assert found.as_of is not None
            assert found.as_of.typed == given["as_of"]
            assert str(day.year) in found.edition


@pytest.mark.parametrize("name", names())
def test_rows_of_one_pair_exclude_each_other_or_nest(name: str) -> None:
    """Two rows hold together only where one asks more under a further condition."""
    pairs = {(row.from_, row.to) for row in rows_of(name)}
    for part, feature in pairs:
        rows = [r for r in rows_of(name) if (r.from_, r.to) == (part, feature)]
        for one, two in combinations(rows, 2):
            cases = list(worlds(*_open(one, two)))
            both = [c for c in cases if _holds(one, c) and _holds(two, c)]
            only_one = [c for c in cases if _holds(one, c) and not _holds(two, c)]
            only_two = [c for c in cases if _holds(two, c) and not _holds(one, c)]
            assert only_one or only_two, (part, feature)
            if both:
                wider, narrower = (one, two) if only_one else (two, one)
                assert narrower.feet > wider.feet, (part, feature)


@pytest.mark.parametrize("name", names())
def test_a_row_can_hold(name: str) -> None:
    for row in rows_of(name):
        assert any(_holds(row, case) for case in worlds(*_open(row)))


def _open(*rows: SeparationRow) -> tuple[list[When], list[str]]:
    found = [row.when for row in rows if row.when]
    return found, [word for one in found for word in one.unanswered(SILENT)]


def _holds(row: SeparationRow, case: Answers) -> bool:
    return row.when is None or row.when.holds(case) is True
