"""Units agree with an independent library, and no text breaks the readers."""

from __future__ import annotations

import dataclasses
import math
import time
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.quantity import UNITS
from generator.record.amounts import READERS
from generator.record.spelling import LONGEST_AMOUNT, AmountError


def value(amount: object) -> float:
    """Give the first number of an amount, whatever its unit."""
    first = dataclasses.fields(amount)[0]  # type: ignore[arg-type]
    return float(getattr(amount, first.name))


PINT_NAMES = {
    "in.": "in",
    "ft.": "ft",
    "gal.": "gal",
    "ft³": "ft**3",
    "ft3": "ft**3",
    "cu ft": "ft**3",
    "cubic feet": "ft**3",
    "cubic foot": "ft**3",
    "m³": "m**3",
    "m3": "m**3",
    "cubic meters": "m**3",
    "cubic metres": "m**3",
    "pt": "pint",
    "pts": "pint",
    "sec": "second",
    "secs": "second",
    "mins": "minute",
    "yr": "year",
    "yrs": "year",
    "hrs": "hour",
    "gpm": "gal/min",
    "gallons per minute": "gal/min",
    "gallons a minute": "gal/min",
    "gph": "gal/hour",
    "gal/h": "gal/hour",
    "gallons per hour": "gal/hour",
    "gallons an hour": "gal/hour",
    "gpd": "gal/day",
    "gallons per day": "gal/day",
    "gallons a day": "gal/day",
    "in per ft": "in/ft",
    "in a ft": "in/ft",
    "inch per foot": "in/ft",
    "inches per foot": "in/ft",
    "in per foot": "in/ft",
    "%": "percent",
    "°": "degree",
    "min per in": "min/in",
    "minutes per inch": "min/in",
    "mpi": "min/in",
    "gpd/ft2": "gal/day/ft**2",
    "gpd/ft²": "gal/day/ft**2",
    "gpd/sq ft": "gal/day/ft**2",
    "gpd per ft2": "gal/day/ft**2",
    "gpd per ft²": "gal/day/ft**2",
    "gpd per sq ft": "gal/day/ft**2",
}
FIRST_UNIT = {
    "length": "inch",
    "volume": "gallon",
    "duration": "minute",
    "flow": "gallon/minute",
    "slope": "ft/ft",
    "angle": "degree",
    "share": "percent",
    "percolation": "min/in",
    "loading": "gal/day/ft**2",
}
SPELLINGS = [
    (kind, spelling)
    for kind, units in UNITS.items()
    for spellings in units
    for spelling in spellings.split("|")
]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize(("kind", "spelling"), SPELLINGS)
def test_units_against_pint(
    kind: str, spelling: str, registry: pint.UnitRegistry
) -> None:
    reference = registry.Quantity(1.0, PINT_NAMES.get(spelling, spelling))
    wanted = reference.to(FIRST_UNIT[kind]).magnitude
    read = value(READERS[kind](f"1 {spelling}"))
    assert read == pytest.approx(wanted, rel=1e-12)


AMOUNT_LIKE = st.text(
    alphabet="0123456789/.,:-–+ '\"½⅛%³ainftgalmcshpdbelowvrtOcT\u00a0０٣",
    max_size=LONGEST_AMOUNT + 10,
)
SLOWEST_S = 0.5


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(READERS)), st.one_of(AMOUNT_LIKE, st.text()))
def test_any_text_is_finite_or_refused(kind: str, text: str) -> None:
    begun = time.perf_counter()
    amount: Any = None
    told = ("", "")
    try:
        amount = READERS[kind](text)
    except AmountError as refused:
        told = (refused.message, refused.hint)
    if amount is None:
        assert told[0].endswith(".")
        assert told[1].endswith(".")
    elif kind == "target":
        numbers = [amount.gallons, amount.minutes, amount.percent]
        assert sum(one is not None for one in numbers) == 1
    elif kind != "day":
        assert math.isfinite(value(amount))
    assert time.perf_counter() - begun < SLOWEST_S
