"""Sums for the next step on the lot, against figures worked out by hand."""

from __future__ import annotations

from math import sqrt
from pathlib import Path

import pytest

from generator.codes.packs import pack
from generator.quantity import Length
from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.record.parts import Depth
from generator.results.methods import DISTANCES_FT
from generator.results.next_depths import depth_sums
from generator.results.next_distances import (
    distance_items,
    distance_sums,
    expanded_ft,
    unmeasured,
)

START = """\
visit: {date: 2026-10-06, inspector: N. Example (invented)}
client: {name: A. Example (invented)}
property:
  address: 1 Example Lane
  place: Example Township (invented)
  water_supply: private well
"""


def record(tmp_path: Path, text: str) -> Record:
    inspections = tmp_path / "inspections"
    inspections.mkdir()
    (inspections / "firm.yaml").write_text(
        "name: Example Onlot (invented)\nphone: 555-0100\n", encoding="utf-8"
    )
    (inspections / "job.yaml").write_text(START + text, encoding="utf-8")
    return load(Workspace(tmp_path), "job")


@pytest.mark.parametrize("by", ["tape", "wheel", "paced"])
def test_twice_a_rectangle(by: str) -> None:
    """[GUM] 4.3.7: the standard uncertainty of a rectangle is a / sqrt(3)."""
    half = DISTANCES_FT[by].fixed + 100 * DISTANCES_FT[by].share
    assert expanded_ft(by, 100.0) == pytest.approx(2 * half / sqrt(3))


def test_a_well_is_asked_for_by_every_part(tmp_path: Path) -> None:
    tank = "tanks: [{name: t, shape: stated, gallons: 1000 gal, liquid_depth: 48 in}]\n"
    found = record(tmp_path, tank)
    pairs = [(part, feature) for part, feature, _ in unmeasured(found.inspection, None)]
    assert pairs == [("tank", "private well"), ("absorption area", "private well")]
    told = list(distance_sums(found, pack("us-or")))
    assert told[1].startswith(
        "Distance: absorption area to private well: 100 ft asked. Too close to call "
        "by tape from 99.5 to 100.5 ft,"
    )
    assert list(distance_sums(found, None)) == []


@pytest.mark.parametrize(
    ("distance", "by", "end"),
    [
        ("96 ft", "paced", "measure it again, by tape."),
        ("100 ft 4 in", "tape", "tell the client that a survey would."),
        ("99 ft", "paced", "measure it again, by tape."),
    ],
)
def test_too_rough_to_decide(tmp_path: Path, distance: str, by: str, end: str) -> None:
    text = f"distances:\n  - absorption area to private well: {distance} by {by}\n"
    [item] = list(distance_items(record(tmp_path, text), pack("us-or")))
    assert item.path == "distances[0].distance"
    assert item.words.endswith(end)


def test_a_distance_that_decides_is_not_asked_for_again(tmp_path: Path) -> None:
    text = "distances:\n  - absorption area to private well: 82 ft by tape\n"
    assert list(distance_items(record(tmp_path, text), pack("us-or"))) == []


def test_depth_by_hand() -> None:
    """22 in + 18 ft x 1/4 in per ft - 14 in = 12.5 in; common practice, no source."""
    depth = Depth(
        to="tank",
        invert_at_wall=Length(22.0, "22 in"),
        run=Length(216.0, "18 ft"),
        top_above_invert=Length(14.0, "14 in"),
    )
    [told] = list(depth_sums((depth,)))
    low, high = (int(word) for word in told.split() if word.isdigit() and word != "18")
    assert low <= 12.5 <= high
    assert high - low <= 4


def test_a_part_that_would_lie_above_ground() -> None:
    depth = Depth(
        to="tank",
        invert_at_wall=Length(5.0, "5 in"),
        run=Length(24.0, "2 ft"),
        top_above_invert=Length(40.0, "40 in"),
    )
    assert list(depth_sums((depth,))) == [
        "Depth: by its pitch the tank would lie above ground 2 ft from the wall."
    ]
