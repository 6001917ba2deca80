"""Further spellings that people use: each has one meaning, or a hint that mends it."""

from __future__ import annotations

import dataclasses

import pytest

from generator.record.amounts import READERS
from generator.record.spelling import AmountError

ACCEPTED: list[tuple[str, str, float]] = [
    ("length", "18 feet 4 inches", 220),
    ("length", "18 foot 4 inch", 220),
    ("length", "18 ft. 4 in.", 220),
    ("length", "18 ft., 4 in.", 220),
    ("length", "18 ft, 4 in", 220),
    ("length", "18 ft and 4 in", 220),
    ("length", "18FT 4IN", 220),
    ("length", "18 ft4 in", 220),
    ("length", "18ft 4 in", 220),
    ("length", "18'–4\"", 220),
    ("length", "18'—4\"", 220),
    ("length", "18'\u20114\"", 220),
    ("length", "18´4´´", 220),
    ("length", "12' 0\"", 144),
    ("length", "18.33 ft", 219.96),
    ("length", '220"', 220),
    ("length", "4'6 1/2\"", 54.5),
    ("length", "4' 6-1/2\"", 54.5),
    ("length", "4'-6½\"", 54.5),
    ("length", "4'6½\"", 54.5),
    ("length", "4 ft 11 15/16 in", 59.9375),
    ("length", "4 ft .5 in", 48.5),
    ("length", '1 ¼"', 1.25),
    ("length", "1-¼ in", 1.25),
    ("length", '1/2"', 0.5),
    ("length", "1 and 1/2 in", 1.5),
    ("length", "5/4 in", 1.25),
    ("length", "13/16 in", 0.8125),
    ("length", "⅚ ft", 10),
    ("length", "4-in", 4),
    ("length", "4-inch", 4),
    ("length", "4 yds", 144),
    ("length", "30 cm", 30 / 2.54),
    ("length", "30cm", 30 / 2.54),
    ("length", "30 centimeters", 30 / 2.54),
    ("length", "12 mm", 1.2 / 2.54),
    ("length", "2.5 m", 250 / 2.54),
    ("length", "2 metres", 200 / 2.54),
    ("length", "1 m 30 cm", 130 / 2.54),
    ("length", "1,000 ft", 12000),
    ("volume", "120 GAL", 120),
    ("volume", "120 gal.", 120),
    ("volume", "1,200 US gal", 1200),
    ("volume", "1.000 gal", 1),
    ("volume", "1,000.5 gal", 1000.5),
    ("volume", "100 gallons and 2 quarts", 100.5),
    ("volume", "400 L", 400 / 3.785411784),
    ("volume", "400 litres", 400 / 3.785411784),
    ("volume", "1.2 m3", 1200 / 3.785411784),
    ("volume", "1.2m^3", 1200 / 3.785411784),
    ("volume", "12 cu. ft.", 12 * 1728 / 231),
    ("duration", "1 hr 5 min", 65),
    ("duration", "1hr 5min", 65),
    ("duration", "1 hour and 5 minutes", 65),
    ("duration", "1 hr. 5 min.", 65),
    ("duration", "75 sec", 1.25),
    ("duration", "1 min 15 s", 1.25),
    ("duration", "½ h", 30),
    ("duration", "2 mos", 87660),
    ("level", '½" below', -0.5),
    ("level", "–2 in", -2),
    ("level", "At Outlet Invert", 0),
    ("level", "1¼ IN ABOVE the Invert", 1.25),
    ("level", "1-1/4 in below", -1.25),
    ("level", "1'-2\" below", -14),
    ("reading", '30 1/2"', 30.5),
    ("bucket", "5 gal/75 s", 5),
    ("bucket", "5 gal / 75 s", 5),
    ("bucket", "5 gal per 75 s", 5),
    ("bucket", "5-gal in 75 s", 5),
    ("bucket", "5 GAL IN 75 S", 5),
    ("bucket", "1/2 gal in 1/2 min", 0.5),
    ("bucket", "½ gal/10 s", 0.5),
    ("bucket", "20 L in 75 s", 20 / 3.785411784),
    ("clock", "10:05 A. M.", 605),
    ("clock", "10:05\u202fam", 605),
    ("clock", "10:05 pm.", 1325),
    ("clock", "10.05 am", 605),
    ("clock", "1005 am", 605),
    ("clock", "1005 h", 605),
    ("clock", "1405 hrs", 845),
    ("clock", "2 pm", 840),
    ("clock", "2p.m.", 840),
    ("clock", "10a", 600),
    ("clock", "noon", 720),
    ("clock", "12 noon", 720),
    ("clock", "12:00", 720),
    ("clock", "02:05", 125),
    ("clock", "7:15", 435),
    ("moment", "10 min", 10),
    ("moment", "1 h 5 min", 65),
    ("moment", "1405 h", 845),
    ("angle", "140.5 deg", 140.5),
    ("angle", "140º", 140),
    ("share", "33 1/3 %", 100 / 3),
    ("share", "35 per cent", 35),
    ("number", "1,200", 1200),
]
DAYS = [
    "2026/10/06",
    "2026.10.6",
    "October 6th, 2026",
    "October 6th 2026",
    "6th October 2026",
    "6th of October 2026",
    "the 6th of October, 2026",
    "6 Oct. 2026",
    "6-Oct-2026",
    "Oct-6-2026",
    "2026-Oct-06",
    "2026 Oct 6",
    "Tue Oct 6 2026",
    "Tue, Oct 6, 2026",
    "Tues. Oct 6, 2026",
    "Tuesday October 6, 2026",
    "Oct 6, 2026 (Tue)",
    "OCT 6 2026",
]
ONE = "Write the one value that you measured."
BOTH = "can be read in more than one way."
RANGE = "is a range."
ONE_NUMBER = "is not one number."
COMMA = "has a comma that does not part thousands."
LENGTH = 'Write it as "48 in", "4 ft" or "18 ft 4 in".'
TIME = 'Write it as "30 min" or "1 h 5 min".'
CLOCK = 'Write it as "10:05 am" or "14:05".'
DAY = 'Write it as "2026-10-06" or "Oct 6, 2026".'
UNREADABLE = "is not a length that can be read."
OCTOBER = 'Write "Oct 6, 2026" or "Jun 10, 2026", whichever it was.'
FOUR_DIGITS = "Write the year with its four digits."
THOUSAND = 'Write "1,000" or "1000" for a thousand, "1.5" for one and a half.'
FEET = 'Write "18 ft 4 in", or the one value that you measured.'
REFUSED: list[tuple[str, str, str, str]] = [
    ("length", "18-4", BOTH, FEET),
    ("length", "18'-4", BOTH, FEET),
    ("length", "18-14", RANGE, ONE),
    ("length", "3-4 in", RANGE, ONE),
    ("length", "3-in to 4-in", RANGE, ONE),
    ("length", "3to4 in", RANGE, ONE),
    ("length", "10..12 in", RANGE, ONE),
    ("length", "10…12 in", RANGE, ONE),
    ("length", "between 3 and 4 in", RANGE, ONE),
    ("length", "from 3 to 4 in", RANGE, ONE),
    ("length", "3 and 4 in", RANGE, ONE),
    ("length", "3, 4 in", "is more than one number.", ONE),
    ("length", "3; 4 in", "is more than one number.", ONE),
    ("length", "12 in ± 1 in", "is a value and a margin.", ONE),
    ("length", "12 +/- 1 in", "is a value and a margin.", ONE),
    ("length", "≤1 in", ONE_NUMBER, ONE),
    ("length", "at least 4 in", ONE_NUMBER, ONE),
    ("length", "up to 4 in", ONE_NUMBER, ONE),
    ("length", "over 4 ft", ONE_NUMBER, ONE),
    ("length", "4 in or so", ONE_NUMBER, ONE),
    ("length", "4 in approx.", ONE_NUMBER, ONE),
    ("length", "4 in max", ONE_NUMBER, ONE),
    ("length", "4 in?", ONE_NUMBER, ONE),
    ("length", "4 in+", ONE_NUMBER, ONE),
    ("length", "c. 4 in", ONE_NUMBER, ONE),
    ("length", "4,5 in", COMMA, 'Write decimals behind a point: "4.5 in".'),
    ("length", "4,50 ft", COMMA, 'Write decimals behind a point: "4.50 ft".'),
    ("length", "0,500 ft", COMMA, 'Write decimals behind a point: "0.500 ft".'),
    ("length", "1,0000 ft", COMMA, 'Write decimals behind a point: "1.0000 ft".'),
    ("length", "12,34,567 ft", COMMA, THOUSAND),
    ("length", "1.000,5 in", COMMA, THOUSAND),
    ("length", "1 000 ft", "has a space inside its number.", 'Write it as "1000 ft".'),
    ("length", "11/4 in", BOTH, "Write 2 3/4 or 1 1/4, whichever you measured."),
    ("length", "1 5/4 in", "has a fraction that is one or more.", LENGTH),
    ("length", "½1 in", UNREADABLE, LENGTH),
    ("length", "1½½ in", UNREADABLE, LENGTH),
    (
        "length",
        "1.5 ft 6 in",
        "has a part of the larger unit, and the smaller too.",
        LENGTH,
    ),
    ("length", "4 ft.5 in", BOTH, LENGTH),
    ("length", "4'6", "has a number without a unit.", LENGTH),
    ("length", "+4 in", UNREADABLE, LENGTH),
    ("length", "–4 in", "is less than nothing.", LENGTH),
    ("length", "6x4 in", 'has "x" where a length is needed.', LENGTH),
    ("length", "6 × 4 in", UNREADABLE, LENGTH),
    ("length", "48 in (4 ft)", UNREADABLE, LENGTH),
    ("volume", "5 imp gal", 'has "imp gal" where a volume is needed.', ""),
    ("volume", "12 oz", 'has "oz" where a volume is needed.', ""),
    ("duration", "1:05 h", BOTH, 'Write "1 h 5 min" or "1 min 5 s".'),
    ("duration", "1:15", BOTH, 'Write "1 h 15 min" or "1 min 15 s".'),
    ("duration", '75"', "has an inch mark where a length of time is needed.", TIME),
    ("duration", "1h05", "has a number without a unit.", TIME),
    ("duration", "1 h 75 min", 'has too many "min" after the larger unit.', TIME),
    ("duration", "75,5 s", COMMA, 'Write decimals behind a point: "75.5 s".'),
    ("slope", "1 in 48", 'has "in" where a slope is needed.', ""),
    ("level", "4,5 in above", COMMA, 'Write decimals behind a point: "4.5 in".'),
    ("level", "about 2 in above", ONE_NUMBER, ONE),
    ("level", "11/4 in above", BOTH, "Write 2 3/4 or 1 1/4, whichever you measured."),
    ("level", "1½ in", "does not say above or below the outlet invert.", ""),
    ("clock", "10.5 am", "is not a time of day that can be read.", CLOCK),
    ("clock", "14.05", "is not a time of day that can be read.", CLOCK),
    ("clock", "14h05", "is not a time of day that can be read.", CLOCK),
    ("clock", "1405", "is not a time of day that can be read.", CLOCK),
    ("clock", "2:05", BOTH, 'Write "2:05 pm" or "2:05 am".'),
    ("moment", "2:05", BOTH, 'Write "2:05 pm" or "2:05 am".'),
    ("clock", "12 midnight", "is not a time of day that can be read.", CLOCK),
    (
        "day",
        "Mon Oct 6 2026",
        "says Monday, and that day is a Tuesday.",
        "Check the day, the month and the year.",
    ),
    (
        "day",
        "Thu 2026-10-06",
        "says Thursday, and that day is a Tuesday.",
        "Check the day, the month and the year.",
    ),
    (
        "day",
        "03/04/26",
        BOTH,
        'Write "Mar 4, 2026" or "Apr 3, 2026", whichever it was.',
    ),
    ("day", "10/6/2026", BOTH, OCTOBER),
    ("day", "10-6-26", BOTH, OCTOBER),
    ("day", "10.6.2026", BOTH, OCTOBER),
    ("day", "10/16/26", BOTH, 'Write "Oct 16, 2026".'),
    ("day", "31/31/2026", "is no day of the calendar.", DAY),
    ("day", "0206-10-06", "is no day of the calendar.", DAY),
    ("day", "Oct 6, 26", BOTH, FOUR_DIGITS),
    ("day", "6-Oct-26", BOTH, FOUR_DIGITS),
    ("day", "Oct 6 '26", BOTH, FOUR_DIGITS),
    ("day", "October 2026", "is not a date that can be read.", DAY),
    ("day", "20261006", "is not a date that can be read.", DAY),
    ("angle", "140° 30'", "has a foot mark where a direction is needed.", ""),
    ("number", "0,012", COMMA, 'Write decimals behind a point: "0.012".'),
]


@pytest.mark.parametrize(("kind", "text", "wanted"), ACCEPTED)
def test_accepted(kind: str, text: str, wanted: float) -> None:
    amount = READERS[kind](text)
    first = getattr(amount, dataclasses.fields(amount)[0].name)
    assert first == pytest.approx(wanted, rel=1e-12, abs=1e-12)
    assert amount.typed == text


@pytest.mark.parametrize("text", DAYS)
def test_the_sixth_of_october(text: str) -> None:
    assert READERS["day"](text).iso == "2026-10-06"


@pytest.mark.parametrize(
    ("text", "iso"),
    [
        ("10/16/2026", "2026-10-16"),
        ("16.10.2026", "2026-10-16"),
        ("10/10/2026", "2026-10-10"),
    ],
)
def test_a_date_in_numbers_with_one_meaning_alone(text: str, iso: str) -> None:
    assert READERS["day"](text).iso == iso


@pytest.mark.parametrize(("kind", "text", "why", "hint"), REFUSED)
def test_refused(kind: str, text: str, why: str, hint: str) -> None:
    with pytest.raises(AmountError) as refused:
        READERS[kind](text)
    assert refused.value.message == f'"{text}" {why}'
    assert refused.value.hint == hint or not hint
    assert refused.value.hint.startswith(("Write ", "Check "))


@pytest.mark.parametrize(
    "text", ["A – 18ft4in", "A - 18 ft 4 in", "A-18 ft 4 in", "A—18'4\"", "A- 18'-4\""]
)
def test_a_dash_between_a_point_and_its_length(text: str) -> None:
    read = READERS["tie"](text)
    assert (read.point, read.inches) == ("A", pytest.approx(220))


def test_a_tie_below_zero_is_no_dash() -> None:
    with pytest.raises(AmountError, match="less than nothing"):
        READERS["tie"]("A -18 ft 4 in")


def test_a_word_for_a_tie_is_told_of_its_side() -> None:
    with pytest.raises(AmountError) as refused:
        READERS["tie"]("back")
    assert refused.value.hint.endswith('; a side is "left" or "right".')


def test_an_amount_is_read_once() -> None:
    assert READERS["length"]("18 ft 5 in") is READERS["length"]("18 ft 5 in")
