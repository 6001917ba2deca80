"""What is said of the inside of a pipe."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.findings.finding import Finding
from generator.findings.on_pipes import pipe_findings
from generator.quantity import Length
from generator.record.pipes import LogEntry, PipeRun
from generator.results.pipe_log import look, pipe_results
from generator.results.result import Results

FLOW = 4.0


def inches(number: float) -> Length:
    """A length in inches."""
    return Length(number, f"{number:g} in")


def feet(number: float) -> Length:
    """A length in feet."""
    return Length(12 * number, f"{number:g} ft")


def sight(at_ft: float, see: str = "joint", water: float | None = None) -> LogEntry:
    """One entry of the log."""
    return LogEntry(
        at="pipe_runs[0].log[0]",
        distance=feet(at_ft),
        see=see,
        water=None if water is None else inches(water),
    )


def judged(*log: LogEntry, **changes: object) -> dict[str, Finding]:
    """Judge one run, and hold its evidence against the results."""
    run = PipeRun(
        at="pipe_runs[0]",
        name="outlet",
        bore=inches(4.0),
        material="PVC",
        water_on="yes",
        log=log,
    )
    inside = look(replace(run, **changes), FLOW)  # type: ignore[arg-type]
    results = Results(parts={"pipes": [inside]})
    results.add(pipe_results(inside, FLOW, "load_test.water"))
    found = {finding.key: finding for finding in pipe_findings(results)}
    for finding in found.values():
        assert set(finding.evidence) <= set(results.all)
        assert "  " not in finding.saw
    return found


def test_a_blockage_with_water_behind_it_is_a_no() -> None:
    found = judged(sight(15, water=2.0), sight(20, "blockage"))
    finding = found["outlet-blockage-20"]
    assert finding.takes_water == "no"
    assert "Water stands behind it from 15 ft, up to 2 in deep." in finding.saw
    assert finding.by == "now"
    assert "outlet-standing-water" not in found


def test_a_blockage_with_no_water_behind_it_is_no_answer() -> None:
    finding = judged(sight(15, water=0.4), sight(20, "blockage"))["outlet-blockage-20"]
    assert (finding.weight, finding.takes_water) == ("failed", "")
    assert "behind" not in finding.saw


def test_water_beyond_a_blockage_is_not_behind_it() -> None:
    log = (sight(5, water=0.4), sight(10, "blockage"), sight(15, water=2.0))
    found = judged(*log)
    assert found["outlet-blockage-10"].takes_water == ""
    assert found["outlet-standing-water"].takes_water == "not shown"


def test_an_offset_joint_says_what_it_holds_back() -> None:
    log = (sight(15, water=2.0), sight(20, "offset joint"), sight(25, water=0.4))
    finding = judged(*log)["outlet-offset-joint-20"]
    assert (finding.weight, finding.takes_water) == ("repair", "")
    assert finding.title.endswith("and water stands behind it")
    assert "pipe.outlet.held_back.1" in finding.evidence


@pytest.mark.parametrize(
    "end", [sight(45, water=2.0), sight(45, "offset joint"), sight(45, "blockage")]
)
def test_water_standing_in_perforated_pipe_is_a_no(end: LogEntry) -> None:
    """Common practice, no source: the tank need not have risen."""
    log = (sight(30, water=0.4), sight(38, "perforations", 2.0), end)
    finding = judged(*log)["outlet-standing-water"]
    assert (finding.weight, finding.takes_water) == ("failed", "no")
    assert finding.title == "Water stands in the absorption area"


def test_a_head_under_water_in_perforated_pipe_is_a_no() -> None:
    """Common practice, no source: no depth was written down, and none is needed."""
    log = (sight(38, "perforations", 0.4), sight(41, "camera under water"))
    finding = judged(*log)["outlet-standing-water"]
    assert finding.takes_water == "no"
    assert finding.saw == (
        "In the outlet, from 41 ft on, water stood and never cleared as far as the "
        "camera went."
    )


def test_water_held_back_in_perforated_pipe_that_clears_is_no_answer() -> None:
    log = (
        sight(38, "perforations", 0.4),
        sight(40, water=2.0),
        sight(45, "offset joint"),
        sight(50, water=0.4),
    )
    assert "outlet-standing-water" not in judged(*log)


def test_water_standing_before_the_perforations_shows_nothing() -> None:
    for changes in ({}, {"perforated_from": feet(38)}):
        finding = judged(sight(15, water=2.0), **changes)["outlet-standing-water"]
        assert (finding.weight, finding.takes_water) == ("repair", "not shown")
        assert "outlet" in finding.saw


def test_settled_first_feet_are_watched() -> None:
    """Common practice, no source: the first 6 ft or so have usually settled."""
    near = replace(sight(1.5, "sag", 1.25), to=feet(6.5))
    finding = judged(near, sight(10, water=0.4))["outlet-sag-1.5"]
    assert finding.weight == "watch"
    assert finding.title == "The pipe has settled beside the tank"
    assert "pipe.outlet.sag.1" in finding.evidence
    far = replace(sight(20, "sag", 1.25), to=feet(25))
    assert judged(far)["outlet-sag-20"].title == "The pipe sags"


def test_a_sag_of_no_depth_is_told() -> None:
    finding = judged(replace(sight(20, "sag"), to=feet(25)))["outlet-sag-20"]
    assert "no depth was written down" in finding.saw


def test_less_than_the_head_is_open() -> None:
    head = Length(1.25, "1 1/4 in")
    finding = judged(sight(5), sight(20, "roots"), head=head)["outlet-roots-20"]
    assert "less than 1 1/4 in of 4 in is open." in finding.saw
    assert "passes anywhere in an open pipe" in finding.saw
    assert "pipe.outlet.bore_left.1" in finding.evidence
    wide = judged(sight(20, "roots"), head=inches(3.0))["outlet-roots-20"]
    assert "less than 3 in of 4 in is open." in wide.saw
    assert "passes anywhere" not in wide.saw
    none = judged(sight(20, "roots"))["outlet-roots-20"]
    assert none.saw == "Roots at 20 ft."


def test_an_opening_that_was_judged_is_said() -> None:
    roots = replace(sight(20, "roots"), opening=inches(2.0))
    finding = judged(roots, sight(30))["outlet-roots-20"]
    assert finding.saw == "Roots at 20 ft. 2 in of 4 in is open, as judged."


def test_cast_iron_with_hanging_scale() -> None:
    """Common practice, no source: cast iron shows orange, with hanging scale."""
    scale = judged(sight(20, "scale"), material="cast iron")["outlet-scale-20"]
    assert "orange" in scale.means
    other = judged(sight(20, "scale"), material="clay")["outlet-scale-20"]
    assert "orange" not in other.means


def test_old_pipe_is_found_where_it_begins() -> None:
    assert "outlet-old-pipe" not in judged(sight(5))
    old = replace(sight(5), material="bituminized fiber")
    assert judged(old)["outlet-old-pipe"].weight == "repair"


def test_a_clear_pipe_is_sound_and_what_was_not_seen_is_said() -> None:
    found = judged(sight(5, "clear"), sight(20, water=0.4), length=feet(50))
    assert found["outlet-clear"].weight == "sound"
    assert found["outlet-unseen"].saw == (
        "The camera saw 20 ft of 50 ft, and 60 % was not seen."
    )
    assert set(judged(sight(5, "camera under water"))) == {"outlet-standing-water"}
