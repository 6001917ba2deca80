"""What the figure of the distribution box shows."""

from __future__ import annotations

import pytest
from figure_builders import artist, words

from generator.figures import box_levels, style
from generator.quantity import Length
from generator.record.parts import Outlet


def outlets(**typed: float) -> list[Outlet]:
    return [
        Outlet(to=name.replace("_", " "), down=Length(down, f"{down} in"))
        for name, down in typed.items()
    ]


THREE = outlets(north_trench=10.25, middle=10.5, south=10.75)


def test_each_bar_is_as_long_as_its_outlet_lies_below_the_highest() -> None:
    figure = box_levels.draw(THREE)
    lengths = [artist(figure, one.to).get_width() for one in THREE]
    assert lengths == [0, 0.25, 0.5]
    assert artist(figure, "south").get_hatch() != artist(figure, "middle").get_hatch()
    assert figure.axes[0].get_xlabel() == "inches below the highest outlet"


def test_lowest_and_highest_are_marked_in_words() -> None:
    shown = words(box_levels.draw(THREE))
    assert "north trench\n10.25 in down, highest" in shown
    assert "middle\n10.5 in down" in shown
    assert "south\n10.75 in down, lowest" in shown


def test_two_outlets_may_be_the_lowest() -> None:
    both = outlets(a=10.0, b=10.5, c=10.5)
    assert [box_levels.place(one, both) for one in both] == [
        "highest", "lowest", "lowest",
    ]  # fmt: skip


def test_description_tells_the_numbers() -> None:
    assert box_levels.describe(THREE, 0.5) == (
        "Outlets of the box, each with its depth below one level line: north trench "
        "10.25 in, highest; middle 10.5 in; south 10.75 in, lowest. They differ by "
        "0.5 in."
    )


@pytest.mark.parametrize(
    ("found", "worth"),
    [
        ([], False),
        (outlets(a=10.0), False),
        (outlets(a=10.0, b=10.0), False),
        (outlets(a=10.0, b=10.125), True),
        (outlets(**{f"t{n}": 10.0 + n for n in range(12)}), True),
        (outlets(**{f"t{n}": 10.0 + n for n in range(13)}), False),
    ],
)
def test_only_outlets_that_differ_are_worth_a_figure(found, worth) -> None:
    assert box_levels.worth_drawing(found) is worth


def test_a_hair_is_no_step() -> None:
    figure = box_levels.draw(outlets(a=10.0, b=10.0625))
    assert figure.axes[0].get_xlim()[1] >= 0.5


@pytest.mark.parametrize(
    "found",
    [
        THREE,
        outlets(a=10.0, b=48.0),
        [
            Outlet(to="W" * 30, down=Length(10.0, "ten and a half of one more inch")),
            Outlet(to="south", down=Length(11.0, "11 in")),
        ],
        outlets(**{f"trench_{n}": 10.0 + n / 8 for n in range(12)}),
    ],
)
def test_it_is_legible(found, legible) -> None:
    figure = box_levels.draw(found)
    legible(figure)
    assert len(style.svg(figure, title="t", description="d")) <= 70_000
