"""Every distance of the packs against published figures set down apart from them."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

from generator.codes.packs import names, pack
from generator.codes.rows import SeparationRow
from generator.codes.when import When

FILE = Path(__file__).parents[1] / "reference" / "separation.yaml"
DISTANCES: dict[str, Any] = yaml.safe_load(FILE.read_text("utf-8"))

# The words of the published figures, and those of the packs for the same thing.
PARTS = {
    "absorption_area": ("absorption area",),
    "building_sewer": ("building sewer",),
    "cesspool_or_pit": ("cesspool", "seepage pit"),
    "cleanout": ("cleanout",),
    "distribution_box": ("distribution box",),
    "dry_well": ("dry well",),
    "manifold": ("manifold",),
    "privy": ("privy",),
    "property_line": ("property line",),
    "pump_chamber": ("pump chamber",),
    "sand_filter": ("sand filter",),
    "seepage_pit": ("seepage pit",),
    "system": ("system",),
    "tank": ("tank",),
    "tank_not_watertight": ("tank",),
}
FEATURES = {
    "absorption_area": "absorption area",
    "basement": "basement",
    "building": "building",
    "cesspool_or_pit": "cesspool",
    "cistern": "cistern",
    "distribution_box": "distribution box",
    "drain": "drain",
    "drain_downgradient": "drain",
    "drain_intercepting_groundwater": "groundwater drain",
    "drain_other": "other drain",
    "drain_sideslope": "drain",
    "drain_to_supply": "drain to a water supply",
    "drain_upgradient": "drain",
    "drainage_channel": "drainage channel",
    "driveway": "driveway",
    "drop_off": "drop-off",
    "drywell_or_catch_basin": "dry well",
    "escarpment": "escarpment",
    "floodplain": "floodplain",
    "footing_drain": "footing drain",
    "foundation": "foundation",
    "foundation_slab": "slab foundation",
    "groundwater_interceptor": "groundwater drain",
    "groundwater_interceptor_downgradient": "groundwater drain",
    "groundwater_interceptor_upgradient": "groundwater drain",
    "groundwater_lowering_ditch": "groundwater ditch",
    "intermittent_stream": "intermittent stream",
    "intermittent_stream_piped": "intermittent stream",
    "irrigation_canal": "irrigation canal",
    "irrigation_canal_downgradient": "irrigation canal",
    "karst_feature": "karst feature",
    "property_line": "property line",
    "river_recreational": "recreational river",
    "river_scenic": "scenic river",
    "river_wild": "wild river",
    "sinkhole": "sinkhole",
    "spring": "spring",
    "spring_downgradient": "spring",
    "spring_drinking": "drinking-water spring",
    "spring_public": "public spring",
    "spring_upgradient": "spring",
    "storm_sewer": "storm sewer",
    "stormwater_pond": "stormwater pond",
    "stormwater_pond_or_ditch": "stormwater pond",
    "stormwater_retention": "stormwater area",
    "stream": "stream",
    "structure_drip_line": "roof drip line",
    "suction_line": "suction line",
    "surface_water": "surface water",
    "surface_water_seasonal": "surface water",
    "surface_water_supply": "water supply reservoir",
    "swimming_pool": "swimming pool",
    "swimming_pool_inground": "swimming pool",
    "tidal_critical_line": "tidal line",
    "tree": "tree",
    "tributary_to_surface_water_supply": "tributary of a water supply",
    "underground_utility": "underground utility",
    "vernal_pool_certified": "vernal pool",
    "water_line": "water line",
    "well_decommissioned": "decommissioned well",
    "well_irrigation": "irrigation well",
    "well_nonpotable": "non-potable well",
    "well_private": "private well",
    "well_private_large_field": "private well",
    "well_public": "public well",
    "well_public_large": "large public well",
    "wetland": "wetland",
    "wetland_bordering_supply_or_tributary": "wetland by a water supply",
}


def when(**conditions: str | int) -> frozenset[tuple[str, str | int]]:
    """Conditions of a row, as they compare wherever they stand in a file."""
    return frozenset(conditions.items())


# A condition that a published figure has in its word, the packs have under `when`.
WORDED = {
    "drain_downgradient": when(lies="downhill"),
    "drain_sideslope": when(lies="beside"),
    "drain_upgradient": when(lies="uphill"),
    "groundwater_interceptor": when(slope_at_most=3),
    "groundwater_interceptor_downgradient": when(lies="downhill", slope_over=3),
    "groundwater_interceptor_upgradient": when(lies="uphill", slope_over=3),
    "intermittent_stream": when(piped="no"),
    "intermittent_stream_piped": when(piped="yes"),
    "irrigation_canal_downgradient": when(lies="downhill", lined="no"),
    "spring_downgradient": when(lies="downhill"),
    "spring_upgradient": when(lies="uphill"),
    "surface_water_seasonal": when(flows="seasonal"),
    "tank_not_watertight": when(watertight="no"),
    "well_private_large_field": when(flow_from=2000),
}
# A condition that the code has beside the figure, in a note or in another column.
NOTED = {
    ("us-me", "absorption_area", "well_private"): when(flow_below=2000),
    ("us-nh", "system", "well_private"): when(flow_at_most=750),
    ("us-nv", "absorption_area", "well_private"): when(casing_from=50),
    ("us-or", "absorption_area", "surface_water"): when(flows="all year"),
    ("us-wi-community-wells", "absorption_area", "well_public"): when(flow_below=8000),
    ("us-wi-community-wells", "tank", "well_public"): when(flow_below=8000),
}


class Figure(NamedTuple):
    """One least distance, in the words of the packs. [ft]"""

    code: str
    part: str
    feature: str
    feet: int
    when: frozenset[tuple[str, str | int]] = frozenset()


WELL, FIELD = "private well", "absorption area"
WISCONSIN, CITY_WELL = "us-wi-community-wells", "public well"
# Figures that a code gives in a note to another of its rows.
FROM_NOTES = {
    # 150 ft from a field to a well that is not sealed to 50 ft
    Figure("us-nv", FIELD, WELL, 150, when(casing_below=50)),
    # 100 ft from a field to a sensitive well, 300 ft from a field over 10,000 gal/day
    Figure("us-mn", FIELD, WELL, 100, when(casing_below=50)),
    Figure("us-mn", FIELD, WELL, 300, when(flow_over=10000)),
    # wider circles about a well for 751, 1,441 and 4,321 gal/day and more
    Figure("us-nh", "system", WELL, 100, when(flow_over=750)),
    Figure("us-nh", "system", WELL, 125, when(flow_over=1440)),
    Figure("us-nh", "system", WELL, 150, when(flow_over=4320)),
    # 1,000 ft from systems of 8,000 gal/day and more
    Figure(WISCONSIN, "tank", CITY_WELL, 1000, when(flow_from=8000)),
    Figure(WISCONSIN, FIELD, CITY_WELL, 1000, when(flow_from=8000)),
}
# New York gives 200 ft to a cesspool without a tank, and 150 ft, in a row of its own,
# to a pit after one; the first is not asked of a seepage pit.
LEFT_OUT = {Figure("us-ny", "seepage pit", WELL, 200)}
# Read on a page that quotes it, and not in the handbook: shipped as not seen.
SECOND_HAND = {"us-fha-existing"}
SEEN_PUBLISHED, SEEN_SHIPPED = 306, 323


def _published() -> dict[Figure, bool]:
    """Give every published figure, and whether it was read."""
    return {
        figure: row["seen"]
        for code, rules in DISTANCES.items()
        for row in rules["rows"]
        for figure in _figures(code, row)
        if figure not in LEFT_OUT
    }


def _figures(code: str, row: dict[str, Any]) -> list[Figure]:
    key = (code, row["from"], row["to"])
    words = (WORDED.get(row["to"]), WORDED.get(row["from"]))
    held = NOTED.get(key) or next(filter(None, words), frozenset())
    feature = FEATURES[row["to"]]
    return [
        Figure(code, part, feature, row["feet"], held) for part in PARTS[row["from"]]
    ]


def _shipped() -> dict[Figure, SeparationRow]:
    return {
        Figure(name, row.from_, row.to, row.feet, _conditions(row.when)): row
        for name, section in ((name, pack(name).separation) for name in names())
        for row in (section.rows if section else ())
    }


def _conditions(found: When | None) -> frozenset[tuple[str, str | int]]:
    keys = [one.name for one in fields(When) if one.name != "at"]
    values = {key: getattr(found, key, None) for key in keys}
    return when(**{key: value for key, value in values.items() if value is not None})


PUBLISHED, SHIPPED = _published(), _shipped()


def test_the_published_figures_are_whole() -> None:
    rows = [row for rules in DISTANCES.values() for row in rules["rows"]]
    seen = [row for row in rows if row["seen"]]
    print(f"{len(DISTANCES)} jurisdictions, {len(rows)} rows, {len(seen)} seen")
    assert (len(DISTANCES), len(rows), len(seen)) == (27, 330, SEEN_PUBLISHED)


def test_every_word_of_the_published_figures_is_mapped_and_used() -> None:
    rows = [row for rules in DISTANCES.values() for row in rules["rows"]]
    assert {row["from"] for row in rows} == set(PARTS)
    assert {row["to"] for row in rows} == set(FEATURES)
    words = {row[key] for row in rows for key in ("from", "to")}
    assert set(WORDED) <= words
    keys = {
        (code, row["from"], row["to"])
        for code, rules in DISTANCES.items()
        for row in rules["rows"]
    }
    assert set(NOTED) <= keys


def test_every_jurisdiction_with_distances_ships() -> None:
    shipped = {name for name in names() if pack(name).separation}
    assert shipped == set(DISTANCES)
    for code, rules in DISTANCES.items():
        assert pack(code).separation.citation == rules["citation"]


@pytest.mark.parametrize("code", DISTANCES)
def test_every_row_that_ships_was_published(code: str) -> None:
    shipped = {figure for figure in SHIPPED if figure.code == code}
    known = {figure for figure in PUBLISHED if figure.code == code}
    assert shipped - known == {one for one in FROM_NOTES if one.code == code}


@pytest.mark.parametrize("code", DISTANCES)
def test_every_published_row_ships(code: str) -> None:
    shipped = {figure for figure in SHIPPED if figure.code == code}
    assert {one for one in PUBLISHED if one.code == code} <= shipped


def test_no_row_ships_twice() -> None:
    sections = [pack(name).separation for name in names()]
    assert sum(len(one.rows) for one in sections if one) == len(SHIPPED)


def test_no_row_counts_as_read_that_was_not() -> None:
    for figure, row in SHIPPED.items():
        seen = PUBLISHED.get(figure, figure in FROM_NOTES)
        assert row.read == (seen and figure.code not in SECOND_HAND), figure


def test_second_hand_figures_are_those_that_no_copy_gave() -> None:
    quoted = {code for code, one in DISTANCES.items() if one["read"] != "a copy"}
    assert quoted == SECOND_HAND | {"us-pa"}
    seen = {code for code in quoted if any(r["seen"] for r in DISTANCES[code]["rows"])}
    assert seen == SECOND_HAND


def test_how_many_rows_ship() -> None:
    rows = list(SHIPPED.values())
    read = sum(row.read for row in rows)
    print(f"{len(rows)} rows ship, {read} of them read")
    assert len(rows) == len(PUBLISHED) + len(FROM_NOTES) > 300
    assert read == SEEN_SHIPPED
