"""Ties, targets, angles, shares and rates: each read in its one meaning or refused."""

from __future__ import annotations

import pytest

from generator.quantity import Target, Tie
from generator.record.amounts import READERS, target, tie
from generator.record.spelling import EXAMPLES, AmountError

TIES = [
    ("A 18 ft 4 in", "A", 220),
    ("A 18'4\"", "A", 220),
    ("A: 18 ft 4 in", "A", 220),
    ("B12 22 ft", "B12", 264),
    ("pole 3 m", "pole", 300 / 2.54),
    ("T1 1/2 in", "T1", 0.5),
    ("A 0 ft", "A", 0),
    ("A\u00a018 ft", "A", 216),
    ("A=18 ft", "A", 216),
    ("A 18'-4\"", "A", 220),
    ("18 ft 4 in from A", "A", 220),
    ("B 1½ in", "B", 1.5),
]


@pytest.mark.parametrize(("text", "point", "inches"), TIES)
def test_a_tie(text: str, point: str, inches: float) -> None:
    read = tie(text)
    assert read == Tie(pytest.approx(inches), point, text)
    assert read.feet == pytest.approx(inches / 12)


TARGETS = [
    ("120 gal", 120, None, None),
    ("1,200 gal", 1200, None, None),
    ("454 L", 454 / 3.785411784, None, None),
    ("30 min", None, 30, None),
    ("1 h 5 min", None, 65, None),
    ("30 % of design flow", None, None, 30),
    ("30% of the design flow", None, None, 30),
    ("50 percent of the daily design flow", None, None, 50),
]


@pytest.mark.parametrize(("text", "gallons", "minutes", "percent"), TARGETS)
def test_a_target(
    text: str, gallons: float | None, minutes: float | None, percent: float | None
) -> None:
    wanted = [
        None if one is None else pytest.approx(one)
        for one in (gallons, minutes, percent)
    ]
    read = target(text)
    assert isinstance(read, Target)
    assert [read.gallons, read.minutes, read.percent] == wanted


OTHERS = [
    ("angle", "140 deg", "degrees", 140),
    ("angle", "140°", "degrees", 140),
    ("angle", "0 degrees", "degrees", 0),
    ("share", "35 %", "percent", 35),
    ("share", "35%", "percent", 35),
    ("share", "100 percent", "percent", 100),
    ("number", "0.012", "value", 0.012),
    ("number", ".012", "value", 0.012),
    ("number", "2", "value", 2),
    ("percolation", "20 min/in", "min_per_in", 20),
    ("percolation", "7 1/2 min per in", "min_per_in", 7.5),
    ("percolation", "20 mpi", "min_per_in", 20),
    ("loading", "0.6 gpd/ft2", "gpd_per_ft2", 0.6),
    ("loading", "0.6 gpd/ft²", "gpd_per_ft2", 0.6),
    ("loading", "0.6 gpd per sq ft", "gpd_per_ft2", 0.6),
]


@pytest.mark.parametrize(("kind", "text", "name", "value"), OTHERS)
def test_accepted(kind: str, text: str, name: str, value: float) -> None:
    assert getattr(READERS[kind](text), name) == pytest.approx(value)


NO_TIE = "does not name a point and a distance from it."
REFUSED = [
    ("tie", "18 ft 4 in", f'"18 ft 4 in" {NO_TIE}'),
    ("tie", "A", f'"A" {NO_TIE}'),
    ("tie", "A18 ft", '"ft" is not a length that can be read.'),
    ("tie", "A B 18 ft", '"B 18 ft" is not a length that can be read.'),
    ("tie", "A 18", '"18" has no unit.'),
    ("tie", "A about 18 ft", '"about 18 ft" is not one number.'),
    ("target", "120", '"120" has no unit.'),
    ("target", "100 to 120 gal", '"100 to 120 gal" is a range.'),
    ("target", "12 ft", '"12 ft" is not a target that can be read.'),
    ("target", "30 %", '"30 %" is not a target that can be read.'),
    (
        "target",
        "130 gal of design flow",
        '"130 gal" has "gal" where a share is needed.',
    ),
    ("angle", "361 deg", '"361 deg" is more than a full circle.'),
    ("angle", "140", '"140" has no unit.'),
    ("angle", "S 40 E", '"S 40 E" is not a direction that can be read.'),
    ("share", "101 %", '"101 %" is more than the whole.'),
    ("number", "0,012", '"0,012" has a comma that does not part thousands.'),
    ("number", "1e-2", '"1e-2" is not a number that can be read.'),
    ("number", "-1", '"-1" is not a number that can be read.'),
    ("percolation", "2 in/min", '"2 in/min" has "in/min" where a percolation rate'),
    ("loading", "0.6", '"0.6" has no unit.'),
]


@pytest.mark.parametrize(("kind", "text", "message"), REFUSED)
def test_refused(kind: str, text: str, message: str) -> None:
    with pytest.raises(AmountError) as refused:
        READERS[kind](text)
    assert refused.value.message.startswith(message)
    assert refused.value.hint.endswith(".")
    if kind in ("tie", "target") and "design flow" not in text:
        one_value = "Write the one value that you measured."
        assert refused.value.hint in (f"Write it as {EXAMPLES[kind]}.", one_value)
