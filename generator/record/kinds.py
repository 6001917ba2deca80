"""The kinds of amounts explained: how each is typed, and what is refused."""

from __future__ import annotations

from dataclasses import dataclass

from generator.quantity import UNITS
from generator.record.amounts import READERS
from generator.record.spelling import EXAMPLES, KINDS, AmountError
from generator.record.time_of_day import LAST_NIGHT_HOUR


@dataclass(frozen=True)
class Kind:
    """How one kind of amount is typed.

    ``read`` are further spellings that are read, ``refused`` are some that are not;
    ``units`` names the tables of units that it takes.
    """

    name: str
    how: str
    read: tuple[str, ...]
    refused: tuple[str, ...]
    units: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """Give the kind its own heading."""
        return _OWN_TITLE.get(self.name, KINDS[self.name]).capitalize()

    @property
    def examples(self) -> str:
        """Give the first spellings, as a problem shows them."""
        return EXAMPLES[self.name]

    def why_refused(self, text: str) -> str:
        """Say in the reader's own words why a text is not read."""
        try:
            READERS[self.name](text)
        except AmountError as refused:
            return refused.message.removeprefix(f'"{text}" ')
        raise ValueError(f"{text} is read as a {self.name}")

    def spellings(self) -> list[str]:
        """List every spelling of every unit, one unit after the other."""
        tables = [UNITS[name] for name in self.units]
        return [", ".join(unit.split("|")) for table in tables for unit in table]


_OWN_TITLE = {
    "moment": "time of a reading",
    "reading": "level of a reading",
}

_NIGHT_HOURS = (
    f"An hour from 1 to {LAST_NIGHT_HOUR} without am or pm is refused, since it may be "
    "before or after noon; 9:15, 14:05 and 02:05 count to 24."
)

GROUPS = (
    Kind(
        "length",
        "A number and its unit. Feet and inches stand together; a fraction stands "
        "behind its whole number.",
        ("18'4\"", "1-1/2 in", "1¼ in", "0.5 in", "1.2 m"),
        ("48", "about 4 ft", "4-5 ft", "4 in 3 ft", "3 ft 14 in"),
        ("length",),
    ),
    Kind(
        "level",
        "A length above or below the outlet invert, always with its side.",
        ("+1/2 in", "-2 in", "3/8 in above the invert"),
        ("2 in", "+2 in below"),
        ("length",),
    ),
    Kind(
        "reading",
        "A level with its side. Where all readings are meant alike, `levels_read` says "
        "so once, and each is then a bare length.",
        ("1/2 in",),
        ("2", "about 2 in above"),
        ("length",),
    ),
    Kind(
        "clock",
        f"Hours and minutes, with am or pm, or counted to 24. {_NIGHT_HOURS}",
        ("9 am", "9:15am", "9:15 p.m.", "2:05 pm", "9:15", "02:05"),
        ("10", "2:05", "13:05 pm", "25:00"),
    ),
    Kind(
        "moment",
        "A time of day, or a length of time since the water was turned on. "
        f"{_NIGHT_HOURS}",
        ("1 h 5 min", "2:05 pm"),
        ("10", "2:05"),
        ("duration",),
    ),
    Kind(
        "day",
        "Year, month and day in this order, or the month by its name.",
        ("6 Oct 2026", "October 6 2026"),
        ("10/6/2026", "6.10.26", "2026-02-30", "last Tuesday"),
    ),
    Kind(
        "duration",
        "A number and its unit; larger units stand first.",
        ("75 s", "12 days", "3 weeks", "2 years"),
        ("30", "30-40 min", "5 min 1 h"),
        ("duration",),
    ),
    Kind(
        "volume",
        "A number and its unit.",
        ("1,000 gal", "2 gal 1 qt", "20 l", "3 cu ft"),
        ("120", "about 120 gal"),
        ("volume",),
    ),
    Kind(
        "flow",
        "A number and its unit, a volume for each length of time.",
        ("240 gph",),
        ("4", "4 gal"),
        ("flow",),
    ),
    Kind(
        "bucket",
        "A volume, the word in, and the time it took to fill.",
        ("20 l in 1 min 10 s",),
        ("5 gal", "5 in 75 s", "0 gal in 75 s"),
        ("volume", "duration"),
    ),
    Kind(
        "target",
        "Water to be run: a volume, a length of time, or a share of the design flow.",
        ("1 h",),
        ("120", "30 %"),
        ("volume", "duration", "share"),
    ),
    Kind(
        "slope",
        "Fall for each foot of run, or percent.",
        ("1/8 in/ft", "0.02 ft/ft"),
        ("1/4", "1/4 in"),
        ("slope",),
    ),
    Kind(
        "tie",
        "The name of a known point, then the distance from it.",
        ("A: 22 ft", "A 18'4\""),
        ("18 ft 4 in", "A 18"),
        ("length",),
    ),
    Kind(
        "angle",
        "Degrees clockwise from north.",
        ("95°",),
        ("140", "400 deg"),
        ("angle",),
    ),
    Kind("share", "Percent of a whole.", ("35%",), ("0.35", "120 %"), ("share",)),
    Kind(
        "percolation",
        "Minutes for each inch that the water falls.",
        ("20 mpi",),
        ("20", "3 in/h"),
        ("percolation",),
    ),
    Kind(
        "loading",
        "Gallons a day for each square foot.",
        ("0.6 gpd per sq ft",),
        ("0.6", "0.6 gpd"),
        ("loading",),
    ),
    Kind("number", "A plain number without a unit.", ("2.5",), ("1/80", "1.2e3")),
)

KIND = {kind.name: kind for kind in GROUPS}

FOR_ALL = (
    "An amount is typed as it is said, with its unit. A bare number where a unit is "
    "needed is refused, never guessed; so is a range, and so is a word such as about. "
    "Between { } or [ ] put an amount that has a comma in it between quotes."
)
