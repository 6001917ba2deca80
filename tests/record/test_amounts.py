"""Every spelling of an amount reads to one value, or is refused in a sentence."""

from __future__ import annotations

import dataclasses

import pytest

from generator.record.amounts import READERS
from generator.record.spelling import EXAMPLES, AmountError

ACCEPTED: list[tuple[str, str, float]] = [
    ("length", "48 in", 48),
    ("length", "48in", 48),
    ("length", "48 in.", 48),
    ("length", "48 inches", 48),
    ("length", "48 Inches", 48),
    ("length", '48"', 48),
    ("length", "48''", 48),
    ("length", "4'", 48),
    ("length", "4 ft", 48),
    ("length", "4ft", 48),
    ("length", "4 ft.", 48),
    ("length", "4 feet", 48),
    ("length", "4.5 ft", 54),
    ("length", ".5 ft", 6),
    ("length", "18 ft 4 in", 220),
    ("length", "18ft4in", 220),
    ("length", "1ft3in", 15),
    ("length", "18'4\"", 220),
    ("length", "18' 4\"", 220),
    ("length", "18'-4\"", 220),
    ("length", "18' - 4\"", 220),
    ("length", "18 ft-4 in", 220),
    ("length", "18'-4 1/2\"", 220.5),
    ("length", "18’ 4”", 220),
    ("length", "18‘ 4“", 220),
    ("length", "18′ 4″", 220),
    ("length", "1 ft 6 1/2 in", 18.5),
    ("length", "0 in", 0),
    ("length", "1/2 in", 0.5),
    ("length", "1⁄2 in", 0.5),
    ("length", "1 1/2 in", 1.5),
    ("length", "1-1/2 in", 1.5),
    ("length", "1½ in", 1.5),
    ("length", "1 ½ in", 1.5),
    ("length", "½ in", 0.5),
    ("length", "¼ in", 0.25),
    ("length", "¾ in", 0.75),
    ("length", "⅛ in", 0.125),
    ("length", "⅜ in", 0.375),
    ("length", "⅝ in", 0.625),
    ("length", "⅞ in", 0.875),
    ("length", "⅓ ft", 4),
    ("length", "⅔ ft", 8),
    ("length", "48\u00a0in", 48),
    ("length", "48\u202fin", 48),
    ("length", "48\u2009in", 48),
    ("length", "  48   in  ", 48),
    ("length", "1,200 ft", 14400),
    ("length", "2 yd", 72),
    ("length", "254 mm", 10),
    ("length", "25.4 cm", 10),
    ("length", "2.54 m", 100),
    ("length", "1 m 27 cm", 50),
    ("volume", "1,000 gal", 1000),
    ("volume", "1000 gallons", 1000),
    ("volume", "20,418 gal", 20418),
    ("volume", "2 qt", 0.5),
    ("volume", "4 pints", 0.5),
    ("volume", "1 gal 2 qt", 1.5),
    ("volume", "3.785411784 l", 1),
    ("volume", "10 cu ft", 74.80519480519480),
    ("volume", "10 ft3", 74.80519480519480),
    ("volume", "10 ft³", 74.80519480519480),
    ("duration", "30 min", 30),
    ("duration", "90 s", 1.5),
    ("duration", "1 h 5 min", 65),
    ("duration", "1h5min", 65),
    ("duration", "1.5 hours", 90),
    ("duration", "12 days", 17280),
    ("duration", "3 weeks", 30240),
    ("flow", "4 gpm", 4),
    ("flow", "4 gal/min", 4),
    ("flow", "4 gal / min", 4),
    ("flow", "240 gph", 4),
    ("flow", "1440 gallons per day", 1),
    ("slope", "1/4 in per ft", 1 / 48),
    ("slope", "1/4 in/ft", 1 / 48),
    ("slope", "¼ in per foot", 1 / 48),
    ("slope", "2 %", 0.02),
    ("slope", "2%", 0.02),
    ("slope", "0.02 ft/ft", 0.02),
    ("level", "1/2 in above", 0.5),
    ("level", "1/2 in above the outlet invert", 0.5),
    ("level", "1/2 in above invert", 0.5),
    ("level", "2 in below", -2),
    ("level", "2 in Below the invert", -2),
    ("level", "-2 in", -2),
    ("level", "−2 in", -2),
    ("level", "+2 in", 2),
    ("level", "at invert", 0),
    ("level", "At the invert", 0),
    ("level", "level", 0),
    ("level", "0 in", 0),
    ("level", "1 ft 2 in below", -14),
    ("bucket", "5 gal in 75 s", 5),
    ("bucket", "5 gal in 1 min 15 s", 5),
    ("bucket", "2 qt  in  8 sec", 0.5),
    ("clock", "10:05 am", 605),
    ("clock", "10:05am", 605),
    ("clock", "10:05 AM", 605),
    ("clock", "10:05 a.m.", 605),
    ("clock", "10:05 a", 605),
    ("clock", "10 am", 600),
    ("clock", "12:00 am", 0),
    ("clock", "12:00 pm", 720),
    ("clock", "12:50 pm", 770),
    ("clock", "1:05 pm", 785),
    ("clock", "14:05", 845),
    ("clock", "09:05", 545),
    ("clock", "0:00", 0),
    ("clock", "23:59", 1439),
]


def value(amount: object) -> float:
    """Give the first number of an amount, whatever its unit."""
    first = dataclasses.fields(amount)[0]  # type: ignore[arg-type]
    return float(getattr(amount, first.name))


@pytest.mark.parametrize(("kind", "text", "wanted"), ACCEPTED)
def test_accepted(kind: str, text: str, wanted: float) -> None:
    amount = READERS[kind](text)
    assert value(amount) == pytest.approx(wanted, rel=1e-12, abs=1e-12)
    assert amount.typed == text


def test_a_bucket_check_has_its_time_too() -> None:
    assert READERS["bucket"]("5 gal in 1 min 15 s").minutes == pytest.approx(1.25)


DAYS = [
    ("2026-10-06", "2026-10-06"),
    ("2026-1-9", "2026-01-09"),
    ("2024-02-29", "2024-02-29"),
    ("Oct 6, 2026", "2026-10-06"),
    ("Oct. 6, 2026", "2026-10-06"),
    ("October 6 2026", "2026-10-06"),
    ("Sept 6, 2026", "2026-09-06"),
    ("6 October 2026", "2026-10-06"),
    ("6 Oct 2026", "2026-10-06"),
    ("MAY 1, 2026", "2026-05-01"),
]


@pytest.mark.parametrize(("text", "iso"), DAYS)
def test_accepted_day(text: str, iso: str) -> None:
    assert READERS["day"](text).iso == iso


UNREADABLE = "is not a length that can be read."
ORDER = "names a unit twice or in the wrong order."
COMMA = "has a comma that does not part thousands."
TWO_WAYS = "can be read in more than one way."
REFUSED: list[tuple[str, str, str]] = [
    ("length", "11", "has no unit."),
    ("length", "11.5", "has no unit."),
    ("length", "1/2", "has no unit."),
    ("length", "4 ft 6", "has a number without a unit."),
    ("length", "4' 6", "has a number without a unit."),
    ("length", "10-12 in", "is a range."),
    ("length", "10 - 12 in", "is a range."),
    ("length", "10–12 in", "is a range."),
    ("length", "10—12 in", "is a range."),
    ("length", "10 to 12 in", "is a range."),
    ("length", "10 or 12 in", "is a range."),
    ("length", "10 in to 12 in", "is a range."),
    ("length", "8-10 1/2 in", "is a range."),
    ("length", "1/2 - 3/4 in", "is a range."),
    ("length", "1 - 1/2 in", "is a range."),
    ("length", "5 ft - 6 ft", "is a range."),
    ("length", "18 ft - 4 in", "can be read in more than one way."),
    ("length", "18 ft – 4 1/2 in", "can be read in more than one way."),
    ("length", "18 ft - 40 in", "is a range."),
    ("length", "about 11 in", "is not one number."),
    ("length", "approx. 11 in", "is not one number."),
    ("length", "~11 in", "is not one number."),
    ("length", "≈ 11 in", "is not one number."),
    ("length", "circa 11 in", "is not one number."),
    ("length", "-2 in", "is less than nothing."),
    ("length", "1/0 in", "divides by zero."),
    ("length", "2 1/0 in", "divides by zero."),
    ("length", "11 gal", 'has "gal" where a length is needed.'),
    ("length", "11 furlongs", 'has "furlongs" where a length is needed.'),
    ("length", "4 ft 6 gal", 'has "gal" where a length is needed.'),
    ("length", "6 in 4 ft", ORDER),
    ("length", "4 in 6 in", ORDER),
    ("length", "4 ft 16 in", 'has too many "in" after the larger unit.'),
    ("length", "", UNREADABLE),
    ("length", "in", UNREADABLE),
    ("length", "four feet", UNREADABLE),
    ("length", "1,5 in", COMMA),
    ("length", "1e3 in", 'has "e" where a length is needed.'),
    ("length", "1.2.3 in", UNREADABLE),
    ("length", "3 3 in", UNREADABLE),
    ("length", "5/8/2 in", UNREADABLE),
    ("length", "> 5 in", "is not one number."),
    ("length", "5+ in", "is not one number."),
    ("length", "1 ft3", 'has "ft3" where a length is needed.'),
    ("length", "null", UNREADABLE),
    ("length", "nan in", UNREADABLE),
    ("length", "inf in", UNREADABLE),
    ("length", "٣ in", UNREADABLE),
    ("length", "1/０ in", UNREADABLE),
    ("volume", "120", "has no unit."),
    ("volume", "120 in", 'has "in" where a volume is needed.'),
    ("duration", "30", "has no unit."),
    ("duration", "30 gal", 'has "gal" where a length of time is needed.'),
    ("duration", "12:30", TWO_WAYS),
    ("flow", "4 gal", 'has "gal" where a flow is needed.'),
    ("slope", "1/4 in", 'has "in" where a slope is needed.'),
    ("slope", "1:48", "is not a slope that can be read."),
    ("level", "2", "has no unit."),
    ("level", "2 in", "does not say above or below the outlet invert."),
    ("level", "2 in beneath", 'has "in beneath" where a length is needed.'),
    ("level", "-2 in below", "is not a level that can be read."),
    ("level", "above", "is not a level that can be read."),
    ("level", "1-2 in above", "is a range."),
    ("bucket", "5 gal", "is not a bucket check that can be read."),
    ("bucket", "5 gal in 75 s in all", "is not a bucket check that can be read."),
    ("bucket", "5 gal in 0 s", "needs water and time above zero."),
    ("bucket", "0 gal in 75 s", "needs water and time above zero."),
    ("clock", "10", "is not a time of day that can be read."),
    ("clock", "915", "is not a time of day that can be read."),
    ("clock", "midnight", "is not a time of day that can be read."),
    ("clock", "10:5 am", "is not a time of day that can be read."),
    ("clock", "10:05 m", "is not a time of day that can be read."),
    ("clock", "10:05:30", "is not a time of day that can be read."),
    ("clock", "10:75 am", "is no time of day."),
    ("clock", "24:00", "is no time of day."),
    ("clock", "14:05 pm", "is no time of day."),
    ("clock", "0:05 am", "is no time of day."),
    ("day", "03/04/26", TWO_WAYS),
    ("day", "03/04/2026", TWO_WAYS),
    ("day", "3.4.2026", TWO_WAYS),
    ("day", "2026", "is not a date that can be read."),
    ("day", "Feb 30, 2026", "is no day of the calendar."),
    ("day", "2026-13-01", "is no day of the calendar."),
    ("day", "2025-02-29", "is no day of the calendar."),
    ("day", "Octo 6, 2026", "is not a date that can be read."),
    ("day", "yesterday", "is not a date that can be read."),
    ("day", "Oct 6", "names no year."),
]


@pytest.mark.parametrize(("kind", "text", "why"), REFUSED)
def test_refused(kind: str, text: str, why: str) -> None:
    with pytest.raises(AmountError) as refused:
        READERS[kind](text)
    assert refused.value.message == f'"{text}" {why}'
    hint = refused.value.hint
    assert hint.startswith(("Write ", "Check "))
    assert hint.endswith(".")
    general = (
        f"Write it as {EXAMPLES[kind]}.",
        "Write the one value that you measured.",
    )
    assert hint in general or why in (COMMA, TWO_WAYS)


def test_a_half_of_a_bucket_check_is_told_by_itself() -> None:
    with pytest.raises(AmountError, match='"75" has no unit'):
        READERS["bucket"]("5 gal in 75")


@pytest.mark.parametrize("kind", READERS)
def test_a_long_text_is_refused_unread(kind: str) -> None:
    text = "5 gal" + " " * 1_000_000 + "in 75 s"
    with pytest.raises(AmountError, match="characters is too long") as refused:
        READERS[kind](text)
    assert len(refused.value.message) < 100


@pytest.mark.parametrize("kind", READERS)
def test_the_examples_of_each_kind_read(kind: str) -> None:
    quoted = EXAMPLES[kind].split('"')[1::2]
    assert quoted
    for text in quoted:
        READERS[kind](text)
