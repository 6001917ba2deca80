"""What is left of the bore where the camera could not pass, or where it was judged."""

from __future__ import annotations

from dataclasses import replace

import pytest
from result_builders import feet, length, make_run, sight

from generator.record.pipes import LogEntry
from generator.results.measured import OPENING_IN
from generator.results.pipe_bore import (
    HEAD_THAT_PASSES,
    Narrowing,
    bore_left_results,
    open_share_percent,
)
from generator.results.result import Result

HEAD = length(1.25)


def left(*log: LogEntry, **changes: object) -> list[Result]:
    """List what is left of the bore along a log."""
    run = make_run(*log, **{"head": HEAD, **changes})
    return bore_left_results(run, Narrowing.all(run))


def judged(at_ft: float, inches: float) -> LogEntry:
    """Roots whose opening was judged."""
    return replace(sight(at_ft, "roots"), opening=length(inches))


@pytest.mark.parametrize("see", ["blockage", "roots", "deposit", "scale"])
def test_less_than_the_head_is_open_where_the_log_ends(see: str) -> None:
    open_in, share = left(sight(5.0), sight(20.0, see))
    assert (open_in.name, open_in.value) == ("pipe.outlet pipe.bore_left.1", 1.25)
    assert share.value == pytest.approx(100 * 1.25**2 / 4**2)
    assert (open_in.verdict, share.verdict) == ("less than", "less than")


@pytest.mark.parametrize(
    "log",
    [
        (sight(20.0, "roots"), sight(25.0)),
        (sight(20.0, "roots"), sight(20.0, "end")),
        (sight(20.0, "crack"),),
        (sight(20.0, "offset joint"),),
        (sight(50.0, "roots"),),
    ],
    ids=["went on", "end", "no narrowing", "a step", "whole run seen"],
)
def test_nothing_is_said_where_the_camera_was_not_stopped(
    log: tuple[LogEntry, ...],
) -> None:
    assert left(*log) == []


def test_nothing_is_made_up_without_the_head() -> None:
    log = (sight(5.0), sight(20.0, "blockage"))
    assert left(*log, head=None) == []
    assert left(*log, head=length(4.0)) == []
    assert left(*log, head=length(0.0)) == []


def test_an_opening_that_was_judged_is_used_instead() -> None:
    open_in, share = left(judged(20.0, 2.0))
    assert (open_in.value, open_in.verdict) == (2.0, "")
    assert open_in.uncertainty == pytest.approx(0.25 * 2 / 3**0.5)
    assert OPENING_IN.assumption() in open_in.assumptions
    assert share.uncertainty / share.value == pytest.approx(2 * 0.25 / 3**0.5)
    assert left(judged(20.0, 4.0)) == []
    assert left(judged(20.0, 0.0))[1].value == 0


def test_two_narrow_places_are_numbered() -> None:
    found = left(judged(10.0, 2.0), sight(20.0, "blockage"))
    assert [one.name.split("pipe.outlet pipe.")[1] for one in found] == [
        "bore_left.1",
        "bore_left_share.1",
        "bore_left.2",
        "bore_left_share.2",
    ]


def test_two_entries_at_the_last_place() -> None:
    log = (sight(20.0, "blockage"), sight(20.0, "camera under water"))
    assert len(left(*log, length=feet(20.0))) == 2


def test_a_small_head_should_pass_anywhere() -> None:
    """Common practice, no source: a head of 1 1/4 in passes in a 4 in pipe."""
    assert HEAD_THAT_PASSES * 4.0 == 1.25
    assert open_share_percent(1.25, 4.0) < 10


def test_share_of_the_area_at_its_ends() -> None:
    """Source: areas of circles."""
    assert open_share_percent(4.0, 4.0) == 100
    assert open_share_percent(2.0, 4.0) == 25
    assert open_share_percent(0.0, 4.0) == 0
