"""Every figure of one job, with its caption and its words, in the order of the site."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import TYPE_CHECKING

from generator.codes.packs import with_pump_out
from generator.figures import (
    box_levels,
    load_test_chart,
    pipe_strip,
    plan,
    pump_cycle,
    solids_bar,
    tank_section,
)
from generator.figures.plan_near import nearer
from generator.figures.style import svg
from generator.figures.tank_levels import levels_of
from generator.pages.page import Picture
from generator.results.compute import tested_tank
from generator.results.site_plan import site_plan_result
from generator.results.solids_bars import solids_bars
from generator.worked import Worked

if TYPE_CHECKING:  # else it would be loaded before generator.figures loads it
    from matplotlib.figure import Figure

TANK_CAPTION = "Section through the tank, to scale."
SOLIDS_CAPTION = (
    "Each source by itself; the mark is its limit, the thin line how sure the measure "
    "is."
)
TEST_CAPTION = "Level and water against time. Bands and whiskers: give or take (k = 2)."
PIPE_CAPTION = "The pipe along its length."

Drawn = tuple[Picture, bytes]


def draw(worked: Worked) -> dict[str, Drawn]:
    """Draw every figure of a job: its caption and text alternative, and its SVG."""
    found = chain(
        _plans(worked),
        _tanks(worked),
        _pump(worked),
        _test(worked),
        _box(worked),
        _pipes(worked),
    )
    return {picture.name: (picture, image) for picture, image in found}


def _plans(worked: Worked) -> Iterator[Drawn]:
    parts = worked.results.parts
    lot = site_plan_result(worked.record.inspection, parts["spots"], parts["pairs"])
    if lot is None:
        return
    picture = Picture("plan", plan.CAPTION, plan.describe(lot))
    yield _drawn(picture, plan.draw(lot), "Where everything is")
    near = nearer(lot)
    if near is not None:
        picture = Picture("plan-near", plan.NEAR_CAPTION, plan.describe(near))
        yield _drawn(picture, plan.draw(near), "Nearer by")


def _tanks(worked: Worked) -> Iterator[Drawn]:
    tested, test = tested_tank(worked.record), worked.results.parts["load_test"]
    load_test = worked.record.inspection.load_test
    read_to = load_test.levels_read_to if load_test else None
    for number, tank in enumerate(worked.record.inspection.tanks, 1):
        levels = levels_of(test, read_to) if test and tank is tested else None
        share = worked.results.get(f"holding.{tank.name}.share_full")
        full = share.number if share else None
        words = tank_section.describe(tank, levels, full)
        picture = Picture(f"tank-{number}", TANK_CAPTION, words)
        yield _drawn(picture, tank_section.draw(tank, levels, full), tank.name)
        bars = solids_bars(worked.results, tank.name, with_pump_out())
        if bars:
            words = solids_bar.describe(bars)
            picture = Picture(f"solids-{number}", SOLIDS_CAPTION, words)
            yield _drawn(picture, solids_bar.draw(bars), "Solids")


def _test(worked: Worked) -> Iterator[Drawn]:
    test = worked.results.parts["load_test"]
    recorded = worked.record.inspection.load_test
    if test and recorded:
        words = load_test_chart.describe(test, recorded.limits)
        chart = load_test_chart.draw(test, recorded.limits)
        yield _drawn(Picture("load-test", TEST_CAPTION, words), chart, "The load test")


def _pump(worked: Worked) -> Iterator[Drawn]:
    chamber = worked.record.inspection.pump_chamber
    cycle = pump_cycle.cycle_of(chamber, worked.results) if chamber else None
    if cycle is not None:
        picture = Picture("pump", pump_cycle.CAPTION, pump_cycle.describe(cycle))
        yield _drawn(picture, pump_cycle.draw(cycle), "The pump")


def _box(worked: Worked) -> Iterator[Drawn]:
    box = worked.record.inspection.distribution_box
    if box is None or not box_levels.worth_drawing(box.outlets):
        return
    spread = worked.results.get("box.spread")
    words = box_levels.describe(box.outlets, spread.number if spread else None)
    picture = Picture("box", box_levels.CAPTION, words)
    yield _drawn(picture, box_levels.draw(box.outlets), "The distribution box")


def _pipes(worked: Worked) -> Iterator[Drawn]:
    for number, inside in enumerate(worked.results.parts["pipes"], 1):
        words = pipe_strip.describe(inside.run, inside.expected_in)
        strip = pipe_strip.draw(inside.run, inside.expected_in)
        picture = Picture(f"pipe-{number}", PIPE_CAPTION, words)
        yield _drawn(picture, strip, inside.run.name)


def _drawn(picture: Picture, figure: Figure, title: str) -> Drawn:
    return picture, svg(figure, title=title, description=picture.alternative)
