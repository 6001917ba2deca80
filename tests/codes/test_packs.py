"""The code packs: what they hold, and what they do not say."""

from __future__ import annotations

from itertools import pairwise

import pytest

from generator.codes.packs import Pack, names, pack

SECTIONS = ("pump_out", "design_flow", "least_tank", "distribution_box", "loading")


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
