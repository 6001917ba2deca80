"""What the figure of the pump shows: heights, volumes, and the level while it ran."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from matplotlib.figure import Figure

from generator.figures.pump_cycle import Cycle, cycle_of, describe, draw
from generator.record.load import Workspace
from generator.results.result import nominal
from generator.worked import work_out

GOOD = Path(__file__).parents[1] / "jobs/good"
CATTAIL, LARCH = "demo-cattail-lake", "demo-larch-hollow"
MOUND, FROM_TOP = "system-mound-with-pump", "chamber-read-from-the-top"


def cycle(workspace: Workspace, job: str) -> Cycle:
    if not workspace.job_file(job).exists():
        shutil.copy(GOOD / f"{job}.yaml", workspace.job_file(job))
    worked = work_out(workspace, job)
    chamber = worked.record.inspection.pump_chamber
    assert chamber is not None
    found = cycle_of(chamber, worked.results)
    assert found is not None
    return found


def words(figure: Figure) -> list[str]:
    return [text.get_text() for text in figure.axes[0].texts]


def levels(figure: Figure) -> dict[str, list[tuple[float, float]]]:
    """Give the line of every height that is drawn from edge to edge, and the rest."""
    lines = figure.axes[0].lines
    points = [list(zip(*line.get_data(), strict=True)) for line in lines]
    flat = [one for one in points if one[0][1] == one[1][1]]
    return {
        "heights": [one[0] for one in flat],
        "runs": [p for p in points if p not in flat],
    }


def test_it_draws_the_heights_and_the_readings(workspace: Workspace) -> None:
    drawn = levels(draw(cycle(workspace, MOUND)))
    assert sorted(y for _, y in drawn["heights"]) == [12, 20, 26, 44]
    dose, read = drawn["runs"]
    assert read == [(0, 24), (3, 18)]
    assert (dose[0], dose[1][1]) == ((0, 20), 12)


def test_one_dose_takes_its_volume_over_the_rate(workspace: Workspace) -> None:
    """By hand: 4 ft across, 8 in: 62.7 gal; 6 in in 3 min: 15.7 gpm; so 4.0 min."""
    found = cycle(workspace, MOUND)
    assert found.dose is not None
    assert nominal(found.dose) == pytest.approx(62.7, abs=0.05)
    assert found.dose_min == pytest.approx(4.0, abs=0.01)


def test_a_dose_that_takes_hours_is_told_and_not_drawn(workspace: Workspace) -> None:
    found = cycle(workspace, CATTAIL)
    assert found.dose_min == pytest.approx(160, abs=0.5)
    assert found.drawn_dose_min is None
    assert len(levels(draw(found))["runs"]) == 1
    assert "in 160 minutes as it fell then" in describe(found)


def test_water_that_comes_in_meanwhile_makes_a_dose_last(with_job: Any) -> None:
    """By hand: the level falls 2 in a minute while 4 gpm come in: 8 in take 4 min."""

    def with_inflow(data: dict) -> None:
        data["pump_chamber"]["drawdown"] = {
            "from": "24 in", "to": "20 in", "time": "2 min", "inflow": "4 gpm"
        }  # fmt: skip

    found = cycle(with_job(CATTAIL, with_inflow), CATTAIL)
    assert found.dose_min == pytest.approx(4.0, abs=0.001)


def test_readings_from_the_top_are_drawn_upside_down(workspace: Workspace) -> None:
    figure = draw(cycle(workspace, FROM_TOP))
    low, high = figure.axes[0].get_ylim()
    assert low > high
    assert figure.axes[0].get_title(loc="left") == "Level down from the top, inches"
    assert draw(cycle(workspace, MOUND)).axes[0].get_ylim()[0] == pytest.approx(8.16)


def test_its_words_hold_the_figures(workspace: Workspace) -> None:
    found = words(draw(cycle(workspace, MOUND)))
    assert set(found) >= {
        "inlet invert 44 in",
        "alarm on 26 in",
        "pump on 20 in",
        "pump off 12 in",
        "dose 63 gal",
        "room above the alarm 141 gal",
        "read: 24 in to 18 in",
    }
    told = describe(cycle(workspace, MOUND))
    for part in ("44 in", "3 minutes", "15.7 gpm", "63 gal", "141 gal", "7.5 h"):
        assert part in told


@pytest.mark.parametrize("job", [CATTAIL, MOUND, FROM_TOP])
def test_every_word_is_legible(
    workspace: Workspace, job: str, legible: Callable[[Figure], None]
) -> None:
    legible(draw(cycle(workspace, job)))


@pytest.mark.parametrize("kept", [("pump_on",), ("drawdown",), ("alarm_on", "inlet")])
def test_it_draws_what_there_is(with_job: Any, kept: tuple[str, ...]) -> None:
    def fewer(data: dict) -> None:
        chamber = data["pump_chamber"]
        for key in ("pump_on", "pump_off", "alarm_on", "inlet", "drawdown"):
            if key not in kept:
                chamber.pop(key)

    found = cycle(with_job(CATTAIL, fewer), CATTAIL)
    assert (found.drawdown is not None) == ("drawdown" in kept)
    assert len(found.heights) == len([key for key in kept if key != "drawdown"])
    assert draw(found).axes
    assert describe(found)


def test_nothing_read_is_nothing_drawn(with_job: Any) -> None:
    def none(data: dict) -> None:
        for key in ("pump_on", "pump_off", "alarm_on", "inlet", "drawdown"):
            data["pump_chamber"].pop(key)

    worked = work_out(with_job(CATTAIL, none), CATTAIL)
    chamber = worked.record.inspection.pump_chamber
    assert chamber is not None
    assert cycle_of(chamber, worked.results) is None
