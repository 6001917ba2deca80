"""What the strip of a pipe run shows."""

from __future__ import annotations

from dataclasses import replace

import pytest
from figure_builders import artist, entry, has, make_run, shown_text, words
from uncertainties import ufloat

from generator.figures import pipe_strip, pipe_words, style
from generator.quantity import Length

EXPECTED = ufloat(0.43, 0.06)
DEMO = make_run(
    entry(0, water=0.5),
    entry(1.5, "sag", to=6.5, water=1.25),
    entry(10, "joint", water=0.5),
    entry(20, "joint", water=0.375),
    entry(30, "joint", water=0.5),
    entry(38, "perforations", water=0.375),
    entry(50, "joint", water=0.25),
    entry(71, "offset joint", water=0.25),
    feet=108,
)
ALL = ("crack", "roots", "scale", "deposit", "blockage", "camera under water", "end")


def test_water_follows_the_log_and_a_sag_covers_its_stretch() -> None:
    figure = pipe_strip.draw(DEMO, EXPECTED)
    line = next(one for one in figure.axes[0].lines if one.get_label() == "water seen")
    points = list(zip(line.get_xdata(), line.get_ydata(), strict=True))
    assert points[:4] == [(0, 0.5), (1.5, 1.25), (6.5, 1.25), (10, 0.5)]
    assert points[-1] == (71, 0.25)


def test_expected_depth_is_dashed_within_its_band() -> None:
    figure = pipe_strip.draw(DEMO, EXPECTED)
    assert list(artist(figure, "expected depth").get_ydata()) == [0.43, 0.43]
    band = artist(figure, "expected, give or take").get_paths()[0].get_extents()
    assert (band.y0, band.y1) == pytest.approx((0.31, 0.55))
    without = pipe_strip.draw(DEMO, None)
    assert not has(without, "expected depth")
    assert not any("expected" in one for one in words(without))


def test_sights_are_named_with_their_places() -> None:
    figure = pipe_strip.draw(DEMO, EXPECTED)
    for expected in (
        "sag 1.5 to 6.5 ft",
        "joints at 10, 20, 30 and 50 ft",
        "perforations from 38 ft",
        "offset joint at 71 ft",
        "not seen",
        "PVC",
        "feet along the run",
        "Height in the pipe, inches (drawn stretched)",
    ):
        assert expected in words(figure)
    unseen = artist(figure, "not seen")
    assert (unseen.get_x(), unseen.get_width()) == (71, 37)
    assert unseen.get_hatch()
    holes = artist(figure, "perforations").get_xdata()
    assert holes[0] == 38
    assert 69 < holes[-1] < 73


def test_perforations_found_without_the_camera_count_first() -> None:
    run = make_run(entry(0), entry(50), feet=60, perforated_from=Length(480, "40 ft"))
    assert "perforations from 40 ft" in words(pipe_strip.draw(run, None))


def test_a_blockage_is_a_hatched_plug_and_each_kind_has_its_mark() -> None:
    run = make_run(*(entry(8.0 * n, see) for n, see in enumerate(ALL, 1)), feet=60)
    figure = pipe_strip.draw(run, None)
    assert artist(figure, "blockage").get_hatch()
    for see in ALL:
        assert has(figure, see)
        assert any(one.startswith(see) for one in words(figure))


def test_a_change_of_material_is_named_on_both_sides() -> None:
    run = make_run(entry(0), entry(20, material="clay"), feet=60)
    figure = pipe_strip.draw(run, None)
    assert {"PVC", "clay"} <= set(words(figure))
    assert list(artist(figure, "material changes").get_xdata()) == [20, 20]


def test_description_tells_the_numbers() -> None:
    assert pipe_strip.describe(DEMO, EXPECTED) == (
        "The camera saw 71 ft of the 4 in pipe called outlet pipe; the last 37 ft of "
        "its 108 ft were not seen. It is PVC. Water stood 0.25 to 1.25 in deep; "
        "expected depth 0.43 in (give or take 0.12 in). Along it: sag 1.5 to 6.5 ft; "
        "joints at 10, 20, 30 and 50 ft; offset joint at 71 ft; perforations from "
        "38 ft."
    )


def test_without_any_water_or_expectation_only_the_pipe_is_described() -> None:
    run = make_run(entry(0), entry(9, "end"))
    figure = pipe_strip.draw(run, None)
    assert not has(figure, "water seen")
    assert not has(figure, "not seen")
    assert pipe_strip.describe(run, None) == (
        "The camera saw 9 ft of the 4 in pipe called outlet pipe. It is PVC. No depth "
        "of water was written down. Along it: end at 9 ft."
    )


def test_the_flow_and_the_start_are_told_where_they_are_known() -> None:
    known = replace(DEMO, from_="tank outlet")
    shown = words(pipe_strip.draw(known, None))
    assert pipe_strip.FLOW in shown
    assert "feet along the run; 0 ft = tank outlet" in shown
    assert "from the tank outlet with the flow;" in pipe_strip.describe(known, None)
    for start in (None, "cleanout"):
        other = replace(DEMO, from_=start)
        assert pipe_strip.FLOW not in words(pipe_strip.draw(other, None))
        assert "flow" not in pipe_strip.describe(other, None)


def test_a_start_of_many_words_stays_in_the_frame(legible) -> None:
    legible(pipe_strip.draw(replace(DEMO, from_="a long way " * 40), EXPECTED))


def test_a_material_nobody_recorded_is_told() -> None:
    run = make_run(entry(0), entry(20, material="clay"), material=None, feet=60)
    told = pipe_strip.describe(run, None)
    assert "Along the run: material not recorded from 0 ft, clay from 20 ft." in told
    unknown = replace(run, log=DEMO.log)
    assert pipe_words.MISSING in words(pipe_strip.draw(unknown, None))
    assert "Material not recorded." in pipe_strip.describe(unknown, None)


@pytest.mark.parametrize(
    ("log", "expected"),
    [
        ([entry(0, water=0.5), entry(30, "sag")], "water 0.5 in at 0 ft"),
        ([entry(2, "sag", to=6, water=1.0)], "water 1 in from 2 to 6 ft"),
        ([entry(0, water=0.5), entry(9, water=0.25)], "water at most 0.5 in"),
    ],
)
def test_water_read_at_one_place_says_where(log, expected) -> None:
    assert expected in words(pipe_strip.draw(make_run(*log, feet=40), None))


def test_what_a_blockage_left_open_stands_in_its_mark() -> None:
    left = Length(2, "2 in")
    run = make_run(entry(0), entry(9, "blockage", opening=left), entry(12, "blockage"))
    shown = words(pipe_strip.draw(run, None))
    assert {"blockage at 9 ft, 2 in open", "blockage at 12 ft"} <= set(shown)


def test_the_expected_depth_is_named_off_the_walls_and_the_water() -> None:
    run = make_run(
        entry(0, water=0.5),
        entry(12, water=0.5, material="cast iron"),
        entry(22, "roots", water=1.0),
        feet=40,
    )
    figure = pipe_strip.draw(run, ufloat(0.56, 0.03))
    axes = figure.axes[0]
    [box] = [box for text, box in shown_text(figure) if "expected" in text.get_text()]
    for line in axes.lines:
        if line.get_label() in ("invert", "crown", "water seen", "expected depth"):
            path = axes.transData.transform_path(line.get_path())
            assert not path.intersects_bbox(box, filled=False), line.get_label()


@pytest.mark.parametrize("expected", [0.3, ufloat(3.9, 0.4)])
@pytest.mark.parametrize(
    "run",
    [
        DEMO,
        make_run(entry(0)),
        make_run(entry(0, water=0.5)),
        make_run(entry(0, "blockage", water=4.0), feet=40),
        make_run(entry(0), entry(50, "roots"), feet=51),
        make_run(entry(0, "camera under water", water=4.0),
                 entry(11.5, "camera under water", water=4.0), feet=12),
        make_run(*(entry(10.0 * n, "joint", water=0.5) for n in range(90)), feet=1000),
        make_run(*(entry(7.0 * n, see, water=1.0) for n, see in
                   enumerate((*ALL, "sag", "offset joint", "joint", "perforations")))),
        make_run(*(entry(99 + n / 10, see) for n, see in enumerate(ALL)), feet=100),
        make_run(*(entry(n / 10, see) for n, see in enumerate(ALL)), feet=100),
        make_run(entry(0, material="cast iron"), entry(4, material="clay"),
                 entry(6, material="concrete"), entry(70, material="HDPE"), feet=100),
        make_run(entry(2, "roots", to=30), entry(31, "sag", to=60, water=4.0),
                 entry(61, "crack", to=62), material=None, feet=63),
        make_run(entry(0), entry(5), material=None, bore=Length(1.5, "1.5 in"),
                 perforated_from=Length(1200, "100 ft")),
    ],
)  # fmt: skip
def test_odd_runs_stay_legible(run, expected, legible) -> None:
    figure = pipe_strip.draw(run, expected)
    legible(figure)
    assert pipe_strip.describe(run, expected).endswith(".")
    assert len(style.svg(figure, title="t", description="d")) <= 70_000
