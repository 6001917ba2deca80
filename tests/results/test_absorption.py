"""Absorption areas: bottom, loading, area asked, space in the stone."""

from __future__ import annotations

import pytest
from hypothesis import given
from published import ENTRIES, Entry, allowed, entry, label, rows
from record_builders import make_record
from result_builders import PROPERTY, feet, length, number
from shapely import MultiPolygon, box

from generator.codes.packs import Pack, pack
from generator.quantity import Loading, Percolation, Share
from generator.record.parts import AbsorptionArea
from generator.results.absorption import absorption_results
from generator.results.absorption_area import (
    bottom_ft2,
    loading_gpd_per_ft2,
    required_ft2,
    share_filled_percent,
    sidewall_ft2,
    stone_space_gal,
)
from generator.results.asked import CONFIRM
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.result import Result

NEW_YORK = ENTRIES["ny-trench"]
TRENCHES = [
    pytest.param(gpd, rate, long, id=f"{label(NEW_YORK)} {gpd} gpd at {rate}")
    for gpd, row in zip(
        NEW_YORK["inputs"]["gpd"], NEW_YORK["expected"]["length_ft"], strict=True
    )
    for rate, long in zip(NEW_YORK["inputs"]["gpd_per_ft2"], row, strict=True)
    if long is not None
]


def make_area(**changes: object) -> AbsorptionArea:
    """Three trenches of 60 ft by 3 ft with 12 in of stone."""
    given_: dict[str, object] = {
        "name": "trenches",
        "kind": "trenches",
        "length": feet(60),
        "width": feet(3),
        "count": 3,
        "stone_depth": length(12),
        "measured_by": "tape",
        **changes,
    }
    return AbsorptionArea(at="absorption_areas[0]", **given_)  # type: ignore[arg-type]


def named(
    *areas: AbsorptionArea,
    found: Pack | None = None,
    test_gal: float | None = None,
    bedrooms: int | None = 3,
) -> dict[str, Result]:
    """Give the results of some areas by name, of a house of 400 gal a day."""
    record = make_record(bedrooms=bedrooms, absorption_areas=areas)
    results = absorption_results(record, found or pack("us-pa"), test_gal)
    return {one.name: one for one in results}


def with_loading(code: str) -> Pack:
    """Give Pennsylvania's flow with the rates of another code."""
    flow = pack("us-pa")
    return Pack(
        name=code,
        jurisdiction="x",
        design_flow=flow.design_flow,
        loading=pack(code).loading,
    )


def perc(min_per_in: float) -> Percolation:
    """A percolation rate."""
    return Percolation(min_per_in, f"{min_per_in:g} min/in")


@pytest.mark.parametrize(
    ("one", "speed", "rate"), rows("mt-perc", "min_per_in", "gpd_per_ft2")
)
def test_rates_of_montana(one: Entry, speed: float, rate: float) -> None:
    """Source: Montana Circular DEQ-4, Table 8-1."""
    assert pack("us-mt").loading.rate(speed, None) == allowed(one, rate)


@pytest.mark.parametrize(
    ("speed", "rate"), [(2.99, None), (5.99, 0.8), (120.9, 0.2), (9999, 0.15)]
)
def test_ends_of_the_bands(speed: float, rate: float | None) -> None:
    """Source: Montana Circular DEQ-4, Table 8-1."""
    assert pack("us-mt").loading.rate(speed, None) == rate


@pytest.mark.parametrize(
    ("one", "speed", "rate"), rows("epa-7-2", "min_per_in", "gpd_per_ft2")
)
def test_rates_of_the_manual_never_decide(
    one: Entry, speed: float, rate: float
) -> None:
    """Source: EPA 625/1-80-012, Table 7-2 (from memory, not seen)."""
    assert pack("guide-epa-1980").loading.rate(speed, None) == allowed(one, rate)
    area = make_area(percolation=perc(speed), length=feet(6000))
    asked = named(area, found=with_loading("guide-epa-1980"))["area.required"]
    assert asked.verdict == CONFIRM


@pytest.mark.parametrize(
    ("one", "soil", "rate"), rows("tx-rates", "soil_class", "gpd_per_ft2")
)
def test_rates_of_texas_count_a_foot_of_wall(
    one: Entry, soil: str, rate: float
) -> None:
    """Source: 30 TAC 285.91(1); by hand 540 ft² and 3 x 126 ft² are 918 ft²."""
    area = make_area(soil=f"Class {soil}")
    asked = named(area, found=with_loading("us-tx"))["area.required"]
    assert asked.value == allowed(one, 400 / rate)
    assert "is there" in asked.label
    assert asked.verdict == (MEETS if 400 / rate < 900 else SHORT)
    assert "side wall" in " ".join(asked.assumptions)
    assert 540 + sidewall_ft2(60, 3, 3, 1) == 918


@pytest.mark.parametrize(
    ("one", "rate", "area"), rows("il-905", "gpd_per_ft2", "ft2_per_bedroom")
)
def test_area_of_a_bedroom(one: Entry, rate: float, area: float) -> None:
    """Source: 77 Ill. Adm. Code 905 App. A Ill. H Ex. A."""
    assert required_ft2(one["inputs"]["gpd_per_bedroom"], rate) == allowed(one, area)


@pytest.mark.parametrize(("gpd", "rate", "long"), TRENCHES)
def test_length_of_trenches(gpd: float, rate: float, long: float) -> None:
    """Source: Queensbury, N.Y. ("ny-trench")."""
    width = NEW_YORK["inputs"]["trench_width_ft"]
    assert required_ft2(gpd, rate) / width == allowed(NEW_YORK, long)


@pytest.mark.parametrize("one", [entry("mn-trench")])
def test_filled_worksheet_for_trenches(one: Entry) -> None:
    """Source: University of Minnesota worksheet, City of Orono."""
    found = required_ft2(one["inputs"]["gpd"], one["inputs"]["gpd_per_ft2"])
    assert found == allowed(one, one["expected"]["ft2"])


@pytest.mark.parametrize("one", [entry("mn-bed")])
def test_filled_worksheet_for_a_bed(one: Entry) -> None:
    """Source: worksheet, City of Orono; its factors by rock depth are left out."""
    put, wanted = one["inputs"], one["expected"]
    area = required_ft2(put["gpd"], 1 / put["ft2_per_gpd"])
    assert area == allowed(one, wanted["ft2"])
    assert bottom_ft2(wanted["length_ft"], put["width_ft"], 1) == allowed(one, area)


def test_what_trenches_give() -> None:
    """By hand: 540 ft²; 400 / 540; 540 x 1 x 0.35 x 7.4805 = 1413.8 gal; 200 of it."""
    found = named(make_area(void_share=Share(35.0, "35 %")), test_gal=200.0)
    assert {name: round(one.value, 3) for name, one in found.items()} == {
        "area.trenches.bottom": 540.0,
        "area.trenches.stone_space": 1413.818,
        "area.loading": 0.741,
        "area.test_share": 14.146,
    }
    assert found["area.loading"].inputs[0] == "property.bedrooms"
    assert found["area.trenches.bottom"].working == "A = 60 × 3 × 3 = 540 ft²"


@pytest.mark.parametrize(
    ("rate", "verdict"), [(1.0, MEETS), (0.741, CLOSE), (0.5, SHORT)]
)
def test_recorded_rate(rate: float, verdict: str) -> None:
    """By hand: 400, 539.8 and 800 ft² asked of 540 ft² within some 30."""
    area = make_area(loading=Loading(rate, f"{rate} gpd/ft2"), loading_from="a permit")
    asked = named(area)["area.required"]
    assert asked.verdict == verdict
    assert asked.assumptions[0] == "rate as recorded, from a permit"
    assert asked.source == "inspector"


def test_assumptions_are_shown() -> None:
    found = named(make_area(count=None, measured_by=None))
    said = " ".join(found["area.trenches.bottom"].assumptions)
    assert "one is counted" in said
    assert "was not recorded: taken as from an as-built" in said
    assert "35 % of the stone" in " ".join(
        found["area.trenches.stone_space"].assumptions
    )
    assert "count" not in " ".join(found["area.trenches.bottom"].inputs)


def test_the_lowest_rate_is_used_for_all() -> None:
    fast = make_area(percolation=perc(4))
    slow = make_area(name="bed", percolation=perc(40))
    asked = named(fast, slow, found=with_loading("us-mt"))["area.required"]
    assert asked.value == pytest.approx(400 / 0.3)
    assert "the lowest rate found is used for all areas" in asked.assumptions


@pytest.mark.parametrize(
    "changes",
    [
        {"length": None},
        {"width": length(0)},
        {"kind": "seepage pit"},
        {"kind": "unknown", "length": None, "width": None, "stone_depth": None},
    ],
)
def test_no_total_without_every_bottom(changes: dict[str, object]) -> None:
    found = named(make_area(), make_area(name="old", **changes), test_gal=100.0)
    assert set(found) == {"area.trenches.bottom", "area.trenches.stone_space"}


def test_limits() -> None:
    assert named(test_gal=100.0) == {}
    assert "area.loading" not in named(make_area(), bedrooms=None)
    none = named(make_area(stone_depth=length(0)), test_gal=100.0)
    assert "area.test_share" not in none
    assert none["area.trenches.stone_space"].value == 0.0
    hollow = named(make_area(kind="chambers"), test_gal=100.0)
    assert "area.trenches.stone_space" not in hollow
    zero = make_area(loading=Loading(0.0, "0 gpd/ft2"))
    assert "area.required" not in named(zero)
    assert named(make_area(), test_gal=0.0)["area.test_share"].value == 0.0


def test_areas_of_one_name_keep_their_results() -> None:
    found = named(make_area(), make_area())
    assert "area.trenches#2.bottom" in found


@PROPERTY
@given(number(1, 200), number(1, 40), number(1, 9))
def test_areas_against_shapely(long: float, wide: float, many: float) -> None:
    """Source: shapely, boxes side by side; walls of 2 ft around each."""
    count = int(many)
    boxes = MultiPolygon(
        [box(0, 50 * place, long, 50 * place + wide) for place in range(count)]
    )
    assert bottom_ft2(long, wide, count) == pytest.approx(boxes.area)
    assert sidewall_ft2(long, wide, count, 2.0) == pytest.approx(2 * boxes.length)


@PROPERTY
@given(number(50, 2000), number(0.05, 2))
def test_the_area_asked_is_loaded_at_its_rate(gpd: float, rate: float) -> None:
    assert loading_gpd_per_ft2(gpd, required_ft2(gpd, rate)) == pytest.approx(rate)
    space = stone_space_gal(gpd, 12.0, 35.0)
    assert share_filled_percent(space, space) == pytest.approx(100.0)
