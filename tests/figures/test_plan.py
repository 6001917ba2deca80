"""What the site plan shows."""

from __future__ import annotations

import functools
import shutil
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
import shapely
from figure_builders import artist, has, shown_text, words
from matplotlib.colors import rgb_to_hsv, to_rgb
from matplotlib.figure import Figure
from matplotlib.path import Path as Path_
from plan_cases import CASES, CORNERS, CROWDED, PLAIN, TANK, VERDICTS, gap, place

from generator.figures import plan, style
from generator.figures.plan_ground import NO_NORTH, bar_ft, view_of
from generator.figures.plan_lines import IN_A_WORD, RING_PT, STROKES, said_of
from generator.figures.plan_near import nearer
from generator.figures.plan_parts import LOOKS
from generator.record.load import Workspace
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.site_plan import Ring, SitePlan, site_plan_result
from generator.worked import work_out

TOP = Path(__file__).resolve().parents[2]
MOST_BYTES = 60_000
USUAL = [name for name in CASES if name not in (
    "crowded", "every kind of feature", "all points on one spot")]  # fmt: skip


@pytest.fixture(scope="module")
def demo() -> SitePlan:
    """The plan of the demonstration job."""
    worked = work_out(Workspace(TOP), "demo-larch-hollow")
    parts = worked.results.parts
    inspection = worked.record.inspection
    found = site_plan_result(inspection, parts["spots"], parts["pairs"])
    assert found
    return found


@functools.cache
def drawn(name: str) -> Figure:
    """Draw one of the plans, to be looked at by several tests."""
    return plan.draw(CASES[name])


@pytest.mark.parametrize("name", CASES)
def test_labels_never_overlap_nor_leave_the_frame(name: str, legible) -> None:
    figure = drawn(name)
    legible(figure)
    boxes = [box for _, box in shown_text(figure)]
    assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))
    frame = figure.axes[0].bbox
    for text, box in shown_text(figure):
        if text.axes is figure.axes[0]:
            assert frame.x0 < box.x0, text
            assert box.x1 < frame.x1, text
            assert frame.y0 < box.y0, text
            assert box.y1 < frame.y1, text


@pytest.mark.parametrize("name", CASES)
def test_ground_is_at_one_scale_both_ways(name: str) -> None:
    figure = drawn(name)
    axes = figure.axes[0]
    one, across, up = axes.transData.transform([(0, 0), (1, 0), (0, 1)])
    assert across[0] - one[0] == pytest.approx(up[1] - one[1], rel=1e-6)
    bar = artist(figure, "scale bar", axes=1)
    feet = bar.get_window_extent().width * 2 / (across[0] - one[0])
    assert feet == pytest.approx(bar_ft(view_of(CASES[name]).pt_per_ft), rel=1e-6)


@pytest.mark.parametrize("name", CASES)
def test_bytes_repeat(name: str) -> None:
    first, second = (
        style.svg(plan.draw(CASES[name]), title="t", description="d") for _ in "ab"
    )
    assert first == second
    if name in USUAL:
        assert len(first) <= MOST_BYTES


@pytest.mark.parametrize("name", CASES)
def test_everything_is_named_or_told_below(name: str) -> None:
    found = CASES[name]
    told = " ".join(" ".join(words(drawn(name))).split())
    for thing in found.things:
        assert thing.title in told
    for point in found.points:
        assert point.name in told
    for one in found.gaps:
        assert said_of(one) in told


def test_the_demonstration_reads_at_a_glance(demo: SitePlan, legible) -> None:
    figure = plan.draw(demo)
    legible(figure)
    shown = words(figure)
    for one in ("house", "tank", "trench", "well", "82 ft, short", "50 ft", "N", "L1"):
        assert one in shown
    assert len(style.svg(figure, title="t", description="d")) <= MOST_BYTES


def test_the_surer_of_two_measures_is_drawn(demo: SitePlan) -> None:
    said = {(one.part, one.feature): said_of(one) for one in demo.gaps}
    assert said["trench", "well"] == "82 ft, short"  # the plan alone gives 81.5 ft
    assert said["trench", "house"] == "10.9 ft, meets"  # surer than 11 ft by pacing
    assert ("tank", "east lot line") not in said  # 120 ft, where 5 ft are asked


def test_parts_are_drawn_where_they_stand() -> None:
    figure = plan.draw(PLAIN)
    patch = artist(figure, "tank")
    border = shapely.Polygon(TANK.borders[0])
    assert shapely.Polygon(patch.get_xy()).equals(border)
    house = shapely.Polygon(artist(figure, "house").get_xy())
    assert house.equals(shapely.Polygon(PLAIN.house))
    assert list(artist(figure, "outlet pipe").get_xdata()) == [18.0, 50.0]


def test_a_distance_runs_from_edge_to_edge_in_the_stroke_of_its_verdict() -> None:
    figure = plan.draw(PLAIN)
    line = artist(figure, "tank to east lot line")
    assert (list(line.get_xdata()), list(line.get_ydata())) == ([18, 70], [12, 12])
    assert line.get_color() == STROKES[SHORT][0]
    assert "52.0 ft, short" in words(figure)


def test_every_verdict_has_a_word_and_a_stroke_of_its_own() -> None:
    assert set(IN_A_WORD) == set(STROKES) == set(VERDICTS)
    assert len(set(IN_A_WORD.values())) == len(VERDICTS)
    assert len(set(STROKES.values())) == len(VERDICTS)


def test_parts_are_told_apart_without_color() -> None:
    assert len({one.hatch for one in LOOKS.values()}) >= len(LOOKS) - 1
    for look in LOOKS.values():  # pale enough that a hatch shows in grey print
        assert look.face == "white" or rgb_to_hsv(to_rgb(look.face))[2] > 0.9


def test_two_that_overlap_are_crossed() -> None:
    figure = plan.draw(CASES["two that overlap"])
    mark = artist(figure, "tank to drain")
    assert mark.get_marker() == "X"
    assert any("0.0 ft" in one and "short" in one for one in words(figure))


def test_a_ring_shows_only_where_a_place_is_not_sure_to_a_foot() -> None:
    near, far = place("near", 9.0, 11.5, 0.4), place("far", 30.0, 40.0, 2.0)
    figure = plan.draw(replace(PLAIN, points=(*CORNERS, near, far)))
    ring = artist(figure, "far may lie here")
    assert (ring.width, ring.height, ring.angle) == (8.0, 4.0, 30.0)  # both diameters
    assert not has(figure, "near may lie here")


def test_north_is_drawn_only_where_it_is_known() -> None:
    with_north, without = plan.draw(PLAIN), plan.draw(CASES["no bearing"])
    assert "N" in words(with_north)
    arrow = artist(with_north, "north", axes=1)
    assert arrow.get_xdata()[0] == arrow.get_xdata()[1]
    assert NO_NORTH not in words(with_north)
    assert NO_NORTH in words(without)
    assert "N" not in words(without)


def test_far_things_stay_to_scale_and_long_lines_run_on() -> None:
    assert view_of(CASES["a far well"]).holds((900.0, 300.0))
    view = view_of(CASES["lines that run on"])
    assert view.high[1] - view.low[1] < 200
    assert view.holds((70.0, 12.0))
    figure = plan.draw(CASES["lines that run on"])
    assert {"lot line", "stream"} <= set(words(figure))


def test_a_nearer_plan_is_drawn_only_where_the_whole_is_too_small() -> None:
    near = nearer(CASES["a far well"])
    assert near
    assert [one.title for one in near.things] == ["tank"]
    assert near.gaps == ()
    assert nearer(PLAIN) is None
    assert nearer(CASES["one point"]) is None
    assert view_of(near).pt_per_ft > 2 * view_of(CASES["a far well"]).pt_per_ft


@pytest.mark.parametrize(
    ("pt_per_ft", "feet"), [(12.0, 5.0), (1.8, 50.0), (0.3, 200.0), (96.0, 1.0)]
)
def test_the_scale_bar_is_round(pt_per_ft: float, feet: float) -> None:
    assert bar_ft(pt_per_ft) == feet


def test_lengths_of_ties_stand_where_there_is_room() -> None:
    alone = drawn("no house outline")
    assert {"14 ft 7 in", "33 ft 1 in"} <= set(words(alone))
    crowded = [one for one in words(drawn("crowded")) if one.endswith("ft 4 in")]
    assert len(crowded) < len(CROWDED.ties)


def test_ties_without_a_length_are_told_below() -> None:
    assert plan.MORE_TIES in " ".join(words(drawn("crowded")))
    assert plan.MORE_TIES not in words(drawn("no house outline"))


def test_the_length_of_a_tie_bears_no_dash(workspace: Workspace) -> None:
    lot = of_good_job(workspace, "capitals-of-a-phone")
    assert [one.words for one in lot.ties] == ["32 ft", "18 ft 4 in", "22 ft"]


def test_the_trenches_of_one_area_are_counted(workspace: Workspace) -> None:
    lot = of_good_job(workspace, "everything-new")
    assert "trenches (3)" in words(plan.draw(lot))
    assert "trenches (3)" in plan.describe(lot)


def of_good_job(workspace: Workspace, job: str) -> SitePlan:
    """Work out the plan of a good job."""
    good = TOP / "tests" / "jobs" / "good" / f"{job}.yaml"
    shutil.copy(good, workspace.inspections)
    worked = work_out(workspace, job)
    parts = worked.results.parts
    found = site_plan_result(worked.record.inspection, parts["spots"], parts["pairs"])
    assert found
    return found


def test_measured_places_stand_well_inside_the_frame() -> None:
    """A triangle above its base: the place is no nearer to the frame than the base."""
    found = SitePlan(points=(*CORNERS, place("L1", 18.0, 30.0)))
    view = view_of(found)
    above, below = view.high[1] - 30.0, 0.0 - view.low[1]
    assert above == pytest.approx(below)
    far = replace(found, points=(*found.points, place("N9", 18.0, 4000.0)))
    assert view_of(far) == view


def test_a_short_distance_is_told_from_others_without_color() -> None:
    figure = plan.draw(PLAIN)
    bars = [one for one in figure.axes[0].lines if one.get_label() == "bars"]
    most: dict[str, int] = {}
    for one in bars:
        drawn = len(one.get_xdata()) // 3
        most[one.get_color()] = max(drawn, most.get(one.get_color(), 0))
    assert most[STROKES[MEETS][0]] == 2
    assert most[STROKES[SHORT][0]] > 6


def test_a_flat_ring_is_drawn_wide_enough_to_read_as_one() -> None:
    flat = replace(place("far", 30.0, 40.0), ring=Ring(8.0, 0.01, 0.0))
    found = replace(PLAIN, points=(*CORNERS, flat))
    ring = artist(plan.draw(found), "far may lie here")
    assert ring.height / 2 == pytest.approx(RING_PT / view_of(found).pt_per_ft)


def test_names_of_the_demonstration_cover_neither_ties_nor_walls(
    demo: SitePlan,
) -> None:
    figure = plan.draw(demo)
    axes = figure.axes[0]
    wall = axes.transData.transform_path(Path_([*demo.house, demo.house[0]]))
    ties = [axes.transData.transform_path(Path_([one.start, one.end]))
            for one in demo.ties]  # fmt: skip
    for text, box in shown_text(figure):
        if text.axes is axes and not text.get_text()[0].isdigit():
            assert not any(one.intersects_bbox(box, filled=False) for one in ties)
        if text.axes is axes:
            assert not wall.intersects_bbox(box, filled=False), text


def test_description_tells_the_numbers() -> None:
    found = replace(
        PLAIN,
        points=(*CORNERS, place("L1", 9.0, 11.5, 1.0)),
        gaps=(gap((10.0, 14.0), (10.0, 80.0), MEETS), gap((0, 0), (9, 0), CLOSE)),
    )
    assert plan.describe(found).endswith(
        " ft; the scale bar is 20 ft long. Fixed points: A, B. Measured place: L1. The "
        "outline of the house is drawn. Parts: tank. Around it: well, east lot line. "
        "Pipes: outlet pipe. Distances: tank to well 66.0 ft, meets; tank to well 9.0 "
        "ft, too close to call. Known less closely: L1 within 2 ft."
    )
    assert plan.describe(found).startswith("Site plan to scale, north up, ")
    only = plan.describe(CASES["one point"])
    assert "north not recorded" in only
    assert only.endswith("Fixed point: A.")
