"""Every flow and tank of the packs against published figures set down apart."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from generator.codes.packs import names, pack

FILE = Path(__file__).parents[1] / "reference" / "flows.yaml"
FLOWS: dict[str, Any] = yaml.safe_load(FILE.read_text("utf-8"))

# Aerobic units only; a table for drinking water: no figures for a septic system.
NOT_SHIPPED = {("us-ia", "design_flow"), ("us-nh", "design_flow")}
# The figures are those of a city, and stand in a pack of their own.
ELSEWHERE = {("us-in", "least_tank"): "us-in-fishers"}
# Rules that were replaced since: shipped as not seen.
REPLACED = {("us-ak", "least_tank"), ("us-oh", "least_tank")}
GIVEN = [
    (code, section)
    for code, one in FLOWS.items()
    for section in one
    if (code, section) not in NOT_SHIPPED
]


def _home(code: str, section: str) -> str:
    return ELSEWHERE.get((code, section), code)


def _asked(code: str, section: str, bedrooms: int) -> int | None:
    found = pack(_home(code, section))
    given = found.gpd if section == "design_flow" else found.least_gallons
    return given(bedrooms)


def test_the_published_flows_are_whole() -> None:
    flows = {code for code, section in GIVEN if section == "design_flow"}
    tanks = {code for code, section in GIVEN if section == "least_tank"}
    print(f"{len(flows)} design flows, {len(tanks)} least tanks")
    assert (len(flows), len(tanks)) == (10, 15)


def test_every_flow_and_tank_ships_and_no_other() -> None:
    expected = {(_home(code, section), section) for code, section in GIVEN}
    shipped = {
        (name, section)
        for name in names()
        for section in ("design_flow", "least_tank")
        if getattr(pack(name), section)
    }
    assert shipped == expected


@pytest.mark.parametrize(("code", "section"), GIVEN)
def test_a_section_counts_as_read_where_it_was(code: str, section: str) -> None:
    seen = FLOWS[code][section]["seen"] and (code, section) not in REPLACED
    found = getattr(pack(_home(code, section)), section)
    assert (found.seen == "yes") == seen


@pytest.mark.parametrize(("code", "section"), GIVEN)
def test_every_bedroom_count(code: str, section: str) -> None:
    for bedrooms, figure in FLOWS[code][section].get("by_bedrooms", {}).items():
        assert _asked(code, section, bedrooms) == figure


@pytest.mark.parametrize(("code", "section"), GIVEN)
def test_further_bedrooms(code: str, section: str) -> None:
    given = FLOWS[code][section]
    most, further = max(given.get("by_bedrooms", {0: 0})), given.get("further_bedroom")
    if most and further:
        for more in range(1, 5):
            expected = given["by_bedrooms"][most] + more * further
            assert _asked(code, section, most + more) == expected


@pytest.mark.parametrize("bedrooms", range(1, 13))
@pytest.mark.parametrize("code", ["us-ky", "us-in", "us-wa", "us-oh", "us-ma", "us-ny"])
def test_so_much_a_bedroom(code: str, bedrooms: int) -> None:
    """Washington: WAC 246-272A-0230(2)(d), 120 gal/day a bedroom, at least 240."""
    given = FLOWS[code]["design_flow"]
    expected = max(given["per_bedroom"] * bedrooms, given.get("least", 0))
    assert _asked(code, "design_flow", bedrooms) == expected


@pytest.mark.parametrize("bedrooms", range(2, 13))
def test_minnesota_gives_150_a_bedroom(bedrooms: int) -> None:
    """Minn. R. 7080.1860 Table IV, class I: 150 gal/day for each bedroom."""
    assert _asked("us-mn", "design_flow", bedrooms) == 150 * bedrooms


@pytest.mark.parametrize("bedrooms", range(1, 13))
def test_new_jersey_by_the_first_bedroom(bedrooms: int) -> None:
    """N.J.A.C. 7:9A-7.4(b): 200 and 150 for each further one, at least 350."""
    given = FLOWS["us-nj"]["design_flow"]
    by_rule = given["first_bedroom"] + given["further_bedroom"] * (bedrooms - 1)
    assert _asked("us-nj", "design_flow", bedrooms) == max(by_rule, given["least"])
    assert _asked("us-nj", "least_tank", bedrooms) == max(250 * bedrooms, 1000)


@pytest.mark.parametrize("bedrooms", range(1, 13))
def test_pennsylvania_by_its_formula(bedrooms: int) -> None:
    """25 Pa. Code 73.31(a): the tank follows from the flow of 73.17(a)."""
    given = FLOWS["us-pa"]["design_flow"]
    over = max(0, bedrooms - given["base_bedrooms"])
    flow = given["base"] + given["further_bedroom"] * over
    gallons = 900 + 3.5 * (flow - 400) if flow <= 500 else 1250 + 1.5 * (flow - 500)
    assert _asked("us-pa", "design_flow", bedrooms) == flow
    assert _asked("us-pa", "least_tank", bedrooms) == gallons


@pytest.mark.parametrize("bedrooms", range(1, 13))
def test_massachusetts_asks_twice_the_flow(bedrooms: int) -> None:
    """310 CMR 15.223 (from memory, not seen): 200 % of the flow, at least 1500 gal."""
    given = FLOWS["us-ma"]["least_tank"]
    flow = _asked("us-ma", "design_flow", bedrooms)
    by_rule = given["percent_of_flow"] * flow / 100
    assert _asked("us-ma", "least_tank", bedrooms) == max(by_rule, given["least"])


@pytest.mark.parametrize("bedrooms", range(1, 5))
def test_georgia_asks_one_size(bedrooms: int) -> None:
    """Ga. Comp. R. & Regs. 511-3-1-.03(5)."""
    assert (
        _asked("us-ga", "least_tank", bedrooms) == FLOWS["us-ga"]["least_tank"]["least"]
    )
