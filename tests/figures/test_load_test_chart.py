"""What the chart of the load test shows."""

from __future__ import annotations

import pytest
from figure_builders import artist, has, inches, make_test, shown_text, words

from generator.figures import load_test_chart, style
from generator.quantity import Duration
from generator.record.water import Limits

SOUND = [(-3.0, 0.0), (5.0, 0.375), (15.0, 0.5), (31.0, 0.5), (42.0, 0.0)]
ONCE = [(0.0, 31.0)]
LIMITS = Limits(rise=inches(1.0), back_within=Duration(30, "30 min"))


def test_readings_stand_at_their_minutes_with_two_standard_uncertainties() -> None:
    figure = load_test_chart.draw(make_test(SOUND, ONCE), LIMITS)
    [bars] = figure.axes[0].containers
    line, _, (stems,) = bars.lines
    assert list(line.get_xdata()) == [minute for minute, _ in SOUND]
    assert list(line.get_ydata()) == [level for _, level in SOUND]
    low, high = stems.get_segments()[2][:, 1]
    assert (low, high) == pytest.approx((0.5 - 0.14, 0.5 + 0.14))


def test_blocked_line_rises_only_while_the_water_runs() -> None:
    figure = load_test_chart.draw(make_test(SOUND, ONCE), LIMITS)
    line = artist(figure, "blocked outlet")
    level = dict(zip(line.get_xdata(), line.get_ydata(), strict=True))
    full = 31 * 4 / (96 * 54 / 231)
    assert level[-3.0] == level[0.0] == 0
    assert level[31.0] == level[42.0] == pytest.approx(full)
    assert line.get_linestyle() == "--"


def test_one_reading_still_shows_the_blocked_line_from_the_start() -> None:
    figure = load_test_chart.draw(make_test([(10.0, 0.5)], ONCE), None)
    line = artist(figure, "blocked outlet")
    assert list(line.get_xdata()) == [0.0, 10.0]
    assert list(line.get_ydata()) == pytest.approx([0.5, 0.5 + 40 / (96 * 54 / 231)])


def test_gallons_run_in_and_passed_on_have_their_bands() -> None:
    test = make_test(SOUND, ONCE)
    figure = load_test_chart.draw(test, LIMITS)
    run_in, passed = artist(figure, "run in", 1), artist(figure, "passed on", 1)
    assert max(run_in.get_ydata()) == pytest.approx(124)
    assert passed.get_ydata()[-1] == pytest.approx(test.last.passed_gal.nominal_value)
    assert all(passed.get_ydata() <= 124.0001)
    top = artist(figure, "run in, give or take", 1).get_paths()[0].get_extents().y1
    assert top == pytest.approx(124 + 2 * 124 * 0.02)


def test_axes_name_what_they_count_and_where_the_water_ran() -> None:
    figure = load_test_chart.draw(make_test(SOUND, ONCE), LIMITS)
    for expected in (
        "Level above the outlet invert, inches",
        "Water since the start, gallons",
        "minutes since the water was turned on",
        "water on",
        "outlet invert",
        "allowed rise 1 in",
        "if the outlet were blocked",
        "run in 124 gal",
    ):
        assert expected in words(figure)
    assert list(artist(figure, "allowed rise").get_ydata()) == [1, 1]


def test_without_limits_no_line_and_no_word_of_them() -> None:
    test = make_test(SOUND, ONCE)
    assert not has(load_test_chart.draw(test, None), "allowed rise")
    assert "allowed" not in load_test_chart.describe(test, None)


def test_description_tells_the_numbers() -> None:
    assert load_test_chart.describe(make_test(SOUND, ONCE), LIMITS) == (
        "124 gal (give or take 5 gal) of water ran in over 31 min; 124 gal (give or "
        "take 7 gal) had passed on by the last reading. The level began at the outlet "
        "invert, stood highest 0.5 in above the outlet invert at 15 min, and was last "
        "read at the outlet invert at 42 min. By then a blocked outlet would have "
        "shown 5.5 in above the outlet invert. With the water off it was back at the "
        "outlet after 11 min. Allowed are a rise of 1 in, and 30 min until it is back."
    )


def test_water_after_the_last_reading_is_told_apart() -> None:
    """Water ran for 31 and for 7.5 min at 4 gal/min; the level was read till then."""
    test = make_test([(-3.0, 0.0), (31.0, 0.5)], [(0.0, 31.0), (32.5, 40.0)])
    said = load_test_chart.describe(test, None)
    assert said.startswith(
        "154 gal (give or take 5 gal) of water ran in over 38.5 min. By the last "
        "reading 124 gal (give or take 5 gal) had run in and 113 gal"
    )
    assert "No level was read after the water was off." in said
    figure = load_test_chart.draw(test, None)
    run_in = next(one for one in words(figure) if one.startswith("run in"))
    assert run_in == "run in 154 gal"
    [passed] = [
        one for one in figure.axes[1].texts if one.get_text().startswith("passed")
    ]
    assert passed.xy[0] == 31.0


def test_the_water_is_named_on_and_off() -> None:
    for stretches in (ONCE, [(0.0, 3.0), (10.0, 13.0), (28.0, 31.0)]):
        figure = load_test_chart.draw(make_test(SOUND, stretches), LIMITS)
        named = {one.get_text(): one.xy[0] for one in figure.axes[0].texts}
        assert (named["water on"], named["water off"]) == (0.0, 31.0)


@pytest.mark.parametrize(
    ("after", "expected"),
    [
        ([(42.0, 0.0)], "back at the outlet after 11 min"),
        ([(55.0, 5.0), (91.0, 4.625)], "still 4.6 in above at the last reading"),
        ([], None),
    ],
)
def test_the_way_back_is_named(after, expected) -> None:
    readings = [(0.0, 0.0), (31.0, 5.375), *after]
    test = make_test(readings, ONCE)
    shown = words(load_test_chart.draw(test, LIMITS))
    said = load_test_chart.describe(test, LIMITS)
    if expected:
        assert expected in shown
        assert expected in said
    else:
        assert not any(one.startswith(("back", "still")) for one in shown)
    assert "30 min until it is back" in said


def test_a_name_that_stands_off_is_led_to_its_reading() -> None:
    figure = load_test_chart.draw(make_test(SOUND, ONCE), LIMITS)
    notes = figure.axes[0].texts
    [name] = [one for one in notes if one.get_text() == "highest read 0.5 in"]
    assert name.xy == (15.0, 0.5)
    far = abs(name.get_position()[1]) > load_test_chart.CLOSE_PT
    led = [one for one in notes if one.arrow_patch and one.xy == (15.0, 0.5)]
    assert far == bool(led)


def test_no_name_covers_a_line_of_the_demonstration_shapes() -> None:
    readings = [(-2.0, 1.5), (10.0, 2.75), (31.0, 5.375), (55.0, 5.0), (91.0, 4.625)]
    figure = load_test_chart.draw(make_test(readings, ONCE, 3.25), LIMITS)
    blocked = artist(figure, "blocked outlet")
    path = blocked.get_transform().transform_path(blocked.get_path())
    for text, box in shown_text(figure):
        if text.get_text().startswith(("highest", "still", "if the")):
            assert not path.intersects_bbox(box, filled=False), text


def test_the_band_is_clear_of_its_name() -> None:
    test = make_test(SOUND, ONCE)
    figure = load_test_chart.draw(test, LIMITS)
    band = artist(figure, "run in, give or take", 1).get_paths()[0]
    band = figure.axes[1].transData.transform_path(band)
    [box] = [
        box for text, box in shown_text(figure) if text.get_text().startswith("run in")
    ]
    assert not band.intersects_bbox(box)


@pytest.mark.parametrize("limits", [None, LIMITS])
@pytest.mark.parametrize(
    ("readings", "stretches"),
    [
        (SOUND, ONCE),
        ([(10.0, 0.5)], ONCE),
        ([(-1.0, 0.0)], ONCE),
        ([(0.0, -6.0), (15.0, -3.25), (30.0, -0.5), (45.0, 0.25), (60.0, 0.0)], ONCE),
        ([(0.0, -9.0), (30.0, -4.0)], ONCE),
        ([(0.0, 1.5), (10.0, 2.75), (31.0, 5.375), (55.0, 5.0), (91.0, 4.625)], ONCE),
        ([(0.0, 0.0), (31.0, 5.5), (60.0, 5.5)], ONCE),
        ([(0.0, 0.0), (5.0, 0.8), (60.0, 0.0)], [(0.0, 5.0)]),
        (SOUND, [(0.0, 3.0), (10.0, 13.0), (28.0, 31.0)]),
        ([(0.0, 0.0), (200.0, 12.0), (1400.0, 0.5)], [(0.0, 240.0)]),
        ([(0.0, 0.0), (15.0, 0.0), (31.0, 0.0)], ONCE),
    ],
)
def test_odd_tests_stay_legible(readings, stretches, limits, legible) -> None:
    test = make_test(readings, stretches)
    figure = load_test_chart.draw(test, limits)
    legible(figure)
    assert load_test_chart.describe(test, limits).endswith(".")
    svg = style.svg(figure, title="Load test", description="x")
    assert len(svg) <= 70_000
