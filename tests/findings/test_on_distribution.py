"""What is said of a distribution box, and how much it weighs."""

from __future__ import annotations

import pytest
from record_builders import make_record
from result_builders import length

from generator.codes.packs import pack
from generator.findings.finding import Finding
from generator.findings.on_distribution import distribution_findings
from generator.quantity import Level
from generator.record.parts import DistributionBox, Outlet
from generator.results.distribution import distribution_results
from generator.results.result import Results


def judged(
    *downs: float, code: str | None = "us-pa", flows: str = "", **changes: object
) -> dict[str, Finding]:
    """Judge a box; ``flows`` holds y or n for each outlet."""
    seen = {"y": "yes", "n": "no"}
    outlets = tuple(
        Outlet(
            at=f"distribution_box.outlets[{place}]",
            to=f"trench {place + 1}",
            down=length(down),
            flow_seen=seen.get(flows[place : place + 1]),
        )
        for place, down in enumerate(downs)
    )
    box = DistributionBox(at="distribution_box", outlets=outlets, **changes)  # type: ignore[arg-type]
    record, found = make_record(distribution_box=box), pack(code) if code else None
    results = Results()
    results.add(distribution_results(record, found))
    return {one.key: one for one in distribution_findings(record, results, found)}


def test_nothing_is_said_of_nothing() -> None:
    assert list(distribution_findings(make_record(), Results(), None)) == []
    assert judged() == {}


@pytest.mark.parametrize(
    ("inches", "weight", "water"),
    [
        (-3.0, "sound", ""),
        (0.0, "sound", ""),
        (0.1, "watch", "not shown"),
        (0.5, "failed", "no"),
    ],
)
def test_level_at_rest(inches: float, weight: str, water: str) -> None:
    """Source: 310 CMR 15.303(1)(a)."""
    found = judged(still_level=Level(inches, f"{inches} in"))
    one = found["distribution-box-still-level"]
    assert (one.weight, one.takes_water, one.source) == (weight, water, "MA-15-303")


@pytest.mark.parametrize(
    ("downs", "code", "weight"),
    [
        ((10, 10), "us-pa", "sound"),
        ((10, 10.1), "us-pa", "watch"),
        ((10, 11), "us-pa", "repair"),
        ((10, 10.1), None, "sound"),
        ((10, 11), None, "watch"),
    ],
)
def test_outlets(downs: tuple[float, ...], code: str | None, weight: str) -> None:
    """Source: 25 Pa. Code 73.42(e), where a code is named."""
    found = judged(*downs, code=code)["distribution-box-outlets"]
    assert found.weight == weight
    assert ("trench 2" in found.saw) == (downs[0] != downs[1])


@pytest.mark.parametrize(
    ("inlet", "weight"),
    [(8.5, "sound"), (9.0, "watch"), (9.8, "watch"), (11, "repair")],
)
def test_inlet(inlet: float, weight: str) -> None:
    """Source: 25 Pa. Code 73.42(e), 1 in; at the limit it is too close to call."""
    found = judged(10, inlet_down=length(inlet))
    assert found["distribution-box-inlet"].weight == weight


def test_floor() -> None:
    """Source: 25 Pa. Code 73.42(e), 4 in."""
    key = "distribution-box-floor"
    assert judged(10, floor_down=length(15))[key].weight == "sound"
    assert judged(10, floor_down=length(12))[key].weight == "watch"
    assert judged(10, floor_down=length(9))[key].weight == "unseen"
    assert key not in judged(10, floor_down=length(12), code=None)


def test_an_outlet_that_gives_nothing() -> None:
    found = judged(10, 10, 10, flows="yny")
    assert found["distribution-box-outlet-2"].weight == "watch"
    assert "distribution-box-outlet-1" not in found
    assert not [key for key in judged(10, 10, flows="nn") if "outlet-" in key]


@pytest.mark.parametrize(
    ("word", "weight"),
    [
        ("cracked", "repair"),
        ("leaking", "repair"),
        ("worn", "watch"),
        ("sound", "sound"),
        ("not seen", "unseen"),
    ],
)
def test_structure(word: str, weight: str) -> None:
    found = judged(structure=word)["distribution-box-structure"]
    assert found.weight == weight


def test_covers() -> None:
    assert judged(cover="broken")["distribution-box-cover"].weight == "danger"
    assert judged(cover="buried") == {}
    assert "distribution-box-covers-back" in judged(cover="buried", covers_back="no")
