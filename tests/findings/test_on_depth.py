"""What is said of a depth that was worked out and probed."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from generator.findings.finding import Finding
from generator.findings.on_depth import depth_findings
from generator.quantity import Length, Slope
from generator.record.parts import Depth
from generator.results.depth import depth_results
from generator.results.result import Results


@dataclass(frozen=True)
class Job:
    """As much of an inspection as the rule reads."""

    depths: tuple[Depth, ...]


@dataclass(frozen=True)
class Checked:
    """As much of a record as the rule reads."""

    inspection: Job


def judged(*depths: Depth) -> list[Finding]:
    """Judge some depths."""
    results = Results()
    results.add(depth_results(depths))
    found = depth_findings(Checked(Job(depths)), results)  # type: ignore[arg-type]
    return list(found)


def tank(
    probed_in: float | None = None, falls: Slope | None = None, *, with_top: bool = True
) -> Depth:
    """A tank whose invert should be hit at 26.5 in."""
    return Depth(
        at="depths[0]",
        to="tank",
        invert_at_wall=Length(22.0, "22 in"),
        run=Length(216.0, "18 ft"),
        ground_falls=falls,
        top_above_invert=Length(0.0, "0 in") if with_top else None,
        probed=None if probed_in is None else Length(probed_in, f"{probed_in:g} in"),
    )


def test_a_depth_that_agrees_is_sound() -> None:
    [finding] = judged(tank(26.0))
    assert (finding.key, finding.weight) == ("tank-depth", "sound")
    assert finding.saw == (
        "The probe hit at 26 in; by the pitch of its pipe it should hit at 26.5 in."
    )
    assert finding.evidence == ("depth.tank.expected", "depth.tank.difference")


@pytest.mark.parametrize(("inches", "way"), [(12.0, "shallower"), (40.0, "deeper")])
def test_a_depth_that_differs_is_watched(inches: float, way: str) -> None:
    [finding] = judged(tank(inches))
    assert finding.weight == "watch"
    assert finding.title == f"The probe hit {way} than the tank should lie"
    assert finding.means
    assert finding.todo


def test_a_top_above_its_pipe_is_no_finding_where_its_height_is_not_known() -> None:
    assert judged(tank(12.0, with_top=False)) == []
    assert len(judged(tank(40.0, with_top=False))) == 1


def test_a_part_that_nobody_probed_is_no_finding() -> None:
    assert judged(tank()) == []
    assert judged() == []


def test_a_depth_above_the_ground_is_told_once() -> None:
    steep = Slope(1.0, "12 in per ft")
    for probed in (None, 3.0):
        [finding] = judged(tank(probed, falls=steep))
        assert finding.weight == "watch"
        assert finding.title == "The depth worked out for the tank cannot be"


def test_two_parts_of_one_name_have_keys_of_their_own() -> None:
    keys = [finding.key for finding in judged(tank(26.0), tank(12.0))]
    assert keys == ["tank-depth", "tank-2-depth"]
