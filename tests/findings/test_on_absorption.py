"""What is said of absorption areas, and how much it weighs."""

from __future__ import annotations

import pytest
from record_builders import make_record
from result_builders import feet, length

from generator.codes.packs import pack
from generator.findings.finding import Finding
from generator.findings.on_absorption import absorption_findings
from generator.quantity import Loading
from generator.record.parts import AbsorptionArea
from generator.results.absorption import absorption_results
from generator.results.result import Results


def judged(test_gal: float | None = None, **changes: object) -> dict[str, Finding]:
    """Judge trenches of 540 ft² with 12 in of stone, at 400 gal a day."""
    given: dict[str, object] = {
        "name": "old trenches",
        "kind": "trenches",
        "length": feet(60),
        "width": feet(3),
        "count": 3,
        "stone_depth": length(12),
        "measured_by": "tape",
        **changes,
    }
    area = AbsorptionArea(at="absorption_areas[0]", **given)  # type: ignore[arg-type]
    record, code = make_record(bedrooms=3, absorption_areas=(area,)), pack("us-pa")
    results = Results()
    results.add(absorption_results(record, code, test_gal))
    return {one.key: one for one in absorption_findings(record, results, code)}


def test_nothing_is_said_of_nothing() -> None:
    assert list(absorption_findings(make_record(), Results(), None)) == []
    assert judged() == {}


@pytest.mark.parametrize(
    ("word", "weight", "water"),
    [
        ("sewage on the surface", "danger", "no"),
        ("wet", "watch", "not shown"),
        ("lush growth", "watch", ""),
        ("dry", "sound", ""),
        ("not seen", "unseen", ""),
    ],
)
def test_surface(word: str, weight: str, water: str) -> None:
    """Sources: Minn. R. 7080.1500 subp. 4; 310 CMR 15.303(1)(a)."""
    found = judged(surface=word)["old-trenches-surface"]
    assert (found.weight, found.takes_water) == (weight, water)


@pytest.mark.parametrize(
    ("standing", "weight", "water"),
    [
        (0, "sound", ""),
        (3, "watch", ""),
        (11.5, "watch", "not shown"),
        (12, "failed", "no"),
        (20, "failed", "no"),
    ],
)
def test_standing_liquid(standing: float, weight: str, water: str) -> None:
    """Common practice, no source: stone that is full to its pipe has no room."""
    found = judged(standing=length(standing))["old-trenches-standing"]
    assert (found.weight, found.takes_water) == (weight, water)


def test_standing_liquid_in_stone_of_unknown_depth() -> None:
    found = judged(standing=length(3), stone_depth=None)["old-trenches-standing"]
    assert (found.weight, found.takes_water) == ("watch", "")
    assert "was not recorded" in found.saw


@pytest.mark.parametrize(
    ("rate", "weight", "words"),
    [
        (1.0, "sound", "has the area"),
        (0.741, "watch", "too close"),
        (0.4, "watch", "is"),
    ],
)
def test_size(rate: float, weight: str, words: str) -> None:
    found = judged(loading=Loading(rate, f"{rate} gpd/ft2"))["absorption-area-size"]
    assert found.weight == weight
    assert words in found.title
    assert found.takes_water == ""
    assert found.evidence == ("area.loading", "area.required")


def test_what_an_empty_area_hides() -> None:
    """By hand: the stone holds 1414 gal; 200 gal are 14 % of it."""
    found = judged(200.0)["absorption-area-empty-space"]
    assert found.weight == "unseen"
    assert "14 %" in found.saw
    assert judged(1500.0) == {}
