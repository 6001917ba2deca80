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
    "ins": "in",
    "yds": "yd",
    "gals": "gal",
    "us gal": "gal",
    "us gallon": "gal",
    "us gallons": "gal",
    "ft³": "ft**3",
    "ft3": "ft**3",
    "cf": "ft**3",
    "cu ft": "ft**3",
    "cubic ft": "ft**3",
    "cubic feet": "ft**3",
    "cubic foot": "ft**3",
    "m³": "m**3",
    "m3": "m**3",
    "cu m": "m**3",
    "cubic meter": "m**3",
    "cubic meters": "m**3",
    "cubic metre": "m**3",
    "cubic metres": "m**3",
    "pt": "pint",
    "pts": "pint",
    "sec": "second",
    "secs": "second",
    "mins": "minute",
    "wk": "week",
    "wks": "week",
    "mo": "month",
    "mos": "month",
    "yr": "year",
    "yrs": "year",
    "hrs": "hour",
    "gpm": "gal/min",
    "gallons per minute": "gal/min",
    "gph": "gal/hour",
    "gal/h": "gal/hour",
    "gallons per hour": "gal/hour",
    "gpd": "gal/day",
    "gallons per day": "gal/day",
    "lpm": "liter/minute",
    "in per ft": "in/ft",
    "inch per foot": "in/ft",
    "inches per foot": "in/ft",
    "%": "percent",
    "per cent": "percent",
    "°": "degree",
    "degs": "degree",
    "minutes per inch": "min/in",
    "mpi": "min/in",
    "gpd/ft2": "gal/day/ft**2",
    "gpd/ft²": "gal/day/ft**2",
    "gpd/sq ft": "gal/day/ft**2",
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


RATIOS = [
    ("flow", "15 L/min", 15, "liter/minute"),
    ("flow", "15 litres per minute", 15, "liter/minute"),
    ("flow", "0.9 m3/h", 0.9, "m**3/hour"),
    ("flow", "0.9 m³/hr", 0.9, "m**3/hour"),
    ("flow", "900 l/h", 900, "liter/hour"),
    ("flow", "4 gallons a minute", 4, "gallon/minute"),
    ("flow", "4 gal. per min.", 4, "gallon/minute"),
    ("flow", "300 gal/d", 300, "gallon/day"),
    ("flow", "2 ft3/min", 2, "ft**3/minute"),
    ("slope", "20 mm/m", 20, "mm/m"),
    ("slope", "2 cm per m", 2, "cm/m"),
    ("slope", '1/4" per ft', 0.25, "in/ft"),
    ("slope", "1/4 in. per foot", 0.25, "in/ft"),
    ("slope", "6 in in 20 ft", 6 / 20, "in/ft"),
    ("slope", "6\" over 20'", 6 / 20, "in/ft"),
    ("percolation", "8 min/cm", 8, "min/cm"),
    ("percolation", "20 minutes/inch", 20, "min/in"),
    ("loading", "25 L/m2/day", 25, "liter/m**2/day"),
    ("loading", "25 l/day/m²", 25, "liter/m**2/day"),
    ("loading", "0.6 gal/day/ft2", 0.6, "gal/day/ft**2"),
    ("loading", "0.6 gal/ft2/day", 0.6, "gal/day/ft**2"),
    ("loading", "0.6 gpd/sf", 0.6, "gal/day/ft**2"),
    ("loading", "0.6 gpd per square foot", 0.6, "gal/day/ft**2"),
]


@pytest.mark.parametrize(("kind", "text", "number", "unit"), RATIOS)
def test_ratios_against_pint(
    kind: str, text: str, number: float, unit: str, registry: pint.UnitRegistry
) -> None:
    wanted = registry.Quantity(number, unit).to(FIRST_UNIT[kind]).magnitude
    assert value(READERS[kind](text)) == pytest.approx(wanted, rel=1e-12)


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
