"""Measured amounts, each with its unit in its name and the words it was typed in.

Factors are exact by definition: the inch is 2.54 cm and the US gallon 231 cubic inches
(source key NIST-HB44, Appendix C). A year of a length of time is 365.25 days.
"""

from __future__ import annotations

from dataclasses import dataclass

INCHES_PER_FOOT = 12.0
CUBIC_INCHES_PER_GALLON = 231.0
CUBIC_INCHES_PER_CUBIC_FOOT = 1728.0
GALLONS_PER_CUBIC_FOOT = CUBIC_INCHES_PER_CUBIC_FOOT / CUBIC_INCHES_PER_GALLON
MINUTES_PER_HOUR = 60.0
MINUTES_PER_DAY = 1440.0
DAYS_PER_YEAR = 365.25
SECONDS_PER_MINUTE = 60.0
CM_PER_INCH = 2.54
LITERS_PER_GALLON = CUBIC_INCHES_PER_GALLON * CM_PER_INCH**3 / 1000

UNITS: dict[str, dict[str, float]] = {
    "length": {  # in inches
        "in|ins|inch|inches": 1.0,
        "ft|foot|feet": INCHES_PER_FOOT,
        "yd|yds|yard|yards": 36.0,
        "mm|millimeter|millimeters|millimetre|millimetres": 0.1 / CM_PER_INCH,
        "cm|centimeter|centimeters|centimetre|centimetres": 1 / CM_PER_INCH,
        "m|meter|meters|metre|metres": 100 / CM_PER_INCH,
    },
    "volume": {  # in US gallons
        "gal|gals|gallon|gallons|us gal|us gallon|us gallons": 1.0,
        "qt|qts|quart|quarts": 0.25,
        "pt|pts|pint|pints": 0.125,
        "ml|milliliter|milliliters|millilitre|millilitres": 0.001 / LITERS_PER_GALLON,
        "l|liter|liters|litre|litres": 1 / LITERS_PER_GALLON,
        "ft3|ft³|cf|cu ft|cubic ft|cubic feet|cubic foot": GALLONS_PER_CUBIC_FOOT,
        "m3|m³|cu m|cubic meter|cubic meters|cubic metre|cubic metres": 1000
        / LITERS_PER_GALLON,
    },
    "duration": {  # in minutes
        "s|sec|secs|second|seconds": 1 / SECONDS_PER_MINUTE,
        "min|mins|minute|minutes": 1.0,
        "h|hr|hrs|hour|hours": MINUTES_PER_HOUR,
        "day|days|d": MINUTES_PER_DAY,
        "week|weeks|wk|wks": 7 * MINUTES_PER_DAY,
        "month|months|mo|mos": DAYS_PER_YEAR / 12 * MINUTES_PER_DAY,
        "year|years|yr|yrs": DAYS_PER_YEAR * MINUTES_PER_DAY,
    },
    "flow": {  # in gallons a minute; any volume by any duration is read too
        "gpm|gal/min|gallons per minute": 1.0,
        "gph|gal/h|gallons per hour": 1 / MINUTES_PER_HOUR,
        "gpd|gal/day|gallons per day": 1 / MINUTES_PER_DAY,
        "lpm|l/min": 1 / LITERS_PER_GALLON,
        "l/s": SECONDS_PER_MINUTE / LITERS_PER_GALLON,
    },
    "slope": {  # in feet of fall for each foot of run; any length by any length too
        "in/ft|in per ft|inch per foot|inches per foot": 1 / INCHES_PER_FOOT,
        "%|percent|per cent": 0.01,
        "ft/ft": 1.0,
    },
    "angle": {  # in degrees
        "deg|degs|degree|degrees|°": 1.0,
    },
    "share": {  # in percent
        "%|percent|per cent": 1.0,
    },
    "percolation": {  # in minutes for each inch; any duration by any length too
        "min/in|minutes per inch|mpi": 1.0,
    },
    "loading": {  # in gallons a day for each square foot; any flow by any area too
        "gpd/ft2|gpd/ft²|gpd/sq ft|gpd per sq ft": 1.0,
    },
}

AREAS: dict[str, float] = {  # in square feet
    "ft2|ft²|sf|sq ft|square ft|square foot|square feet": 1.0,
    "m2|m²|sq m|square meter|square meters|square metre|square metres": (
        100 / CM_PER_INCH / INCHES_PER_FOOT
    )
    ** 2,
}


@dataclass(frozen=True)
class Length:
    """A length as measured, and as typed. [in]

    Examples
    --------
    >>> Length(220.0, "18 ft 4 in").feet
    18.333333333333332
    """

    inches: float
    typed: str

    @property
    def feet(self) -> float:
        """The same length. [ft]"""
        return self.inches / INCHES_PER_FOOT


@dataclass(frozen=True)
class Level:
    """Height of a liquid above the outlet invert; below it is negative. [in]

    ``sided`` is False for a reading that does not say above or below; the file then
    says once for all readings how they are meant.
    """

    inches: float
    typed: str
    sided: bool = True


@dataclass(frozen=True)
class Volume:
    """A volume of liquid. [gal]"""

    gallons: float
    typed: str


@dataclass(frozen=True)
class Duration:
    """A length of time. [min]"""

    minutes: float
    typed: str

    @property
    def days(self) -> float:
        """The same time. [day]"""
        return self.minutes / MINUTES_PER_DAY


@dataclass(frozen=True)
class Flow:
    """A flow of liquid. [gal/min]"""

    gpm: float
    typed: str


@dataclass(frozen=True)
class Slope:
    """Fall of a pipe for each foot of its run. [ft/ft]"""

    ft_per_ft: float
    typed: str


@dataclass(frozen=True)
class TimedVolume:
    """A bucket check: a volume and the time it took to fill. [gal], [min]"""

    gallons: float
    minutes: float
    typed: str


@dataclass(frozen=True)
class Clock:
    """A time of day, in minutes after midnight. [min]

    ``after_start`` is True for a time counted from when the water was turned on.
    """

    minutes: float
    typed: str
    after_start: bool = False


@dataclass(frozen=True)
class Day:
    """A calendar day in the order year, month, day (ISO 8601), and as typed."""

    iso: str
    typed: str


@dataclass(frozen=True)
class Angle:
    """A direction, clockwise from north. [degree]"""

    degrees: float
    typed: str


@dataclass(frozen=True)
class Share:
    """A share of a whole. [%]"""

    percent: float
    typed: str


@dataclass(frozen=True)
class Number:
    """A number that has no unit, or one of its own. [-]"""

    value: float
    typed: str


@dataclass(frozen=True)
class Percolation:
    """How long water takes to fall in a test hole. [min/in]"""

    min_per_in: float
    typed: str


@dataclass(frozen=True)
class Loading:
    """Water that a square foot of soil is given in a day. [gal/(day ft²)]"""

    gpd_per_ft2: float
    typed: str


@dataclass(frozen=True)
class Tie:
    """A distance taped from a known point, such as ``A 18 ft 4 in``. [in]"""

    inches: float
    point: str
    typed: str

    @property
    def feet(self) -> float:
        """The same distance. [ft]"""
        return self.inches / INCHES_PER_FOOT


@dataclass(frozen=True)
class Target:
    """How much water a test was to see; one of the three. [gal], [min], [%]"""

    gallons: float | None
    minutes: float | None
    percent: float | None
    typed: str
