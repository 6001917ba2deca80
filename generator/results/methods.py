"""Half-widths of the ways of measuring, each with where it comes from.

A half-width ``a`` with nothing known inside it is taken as a rectangle, so that its
standard uncertainty is ``a / sqrt(3)`` (source key GUM, 4.3.7).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Method:
    """Half-width of a way of measuring: a fixed part and a share of the reading."""

    fixed: float
    share: float
    source: str
    words: str

    def half_width(self, reading: float) -> float:
        """Give the half-width at a reading, in the unit of the table. [unit]"""
        return self.fixed + self.share * abs(reading)

    def assumption(self) -> str:
        """Say what was assumed, in words for the working page."""
        return f"{self.words} ({SAID[self.source]})"


SAID = {
    "practice": "common practice, no source",
    "choice": "our own assumption, no source",
    "MAINE-POLICY": "Maine policy for locating an existing field or well",
}

# Distances over the ground, in feet.
DISTANCES_FT = {
    "tape": Method(
        0.25, 0.002, "choice", "tape: taken to be right within 3 in and 0.2 %"
    ),
    "wheel": Method(
        0.5, 0.01, "choice", "measuring wheel: taken to be right within 6 in and 1 %"
    ),
    "paced": Method(
        2.0, 0.05, "choice", "paced: taken to be right within 2 ft and 5 %"
    ),
    "as-built": Method(
        2.0, 0.0, "MAINE-POLICY", "as-built: taken to be right within 2 ft"
    ),
    "phone": Method(
        16.0, 0.0, "choice", "phone position: taken to be right within 16 ft"
    ),
    "plan": Method(
        5.0, 0.0, "choice", "scaled from a drawn plan: taken to be right within 5 ft"
    ),
}
# Directions, in degrees.
COMPASS_DEG = Method(
    5.0, 0.0, "choice", "bearing by phone compass: taken to be right within 5 degrees"
)
RIGHT_ANGLE_DEG = Method(
    3.0, 0.0, "choice", "right angle by eye: taken to be right within 3 degrees"
)
# Inside measures of a tank, in inches.
TANK_INSIDE_IN = {
    "tape": Method(
        0.5, 0.0, "choice", "inside measures by tape: taken to be right within 1/2 in"
    ),
    "plan": Method(
        1.0, 0.0, "choice", "inside measures from a plan: taken to be right within 1 in"
    ),
    "plate": Method(
        1.0,
        0.0,
        "choice",
        "inside measures from the maker's plate: taken to be right within 1 in",
    ),
}
STATED_VOLUME = Method(
    0.0, 0.05, "choice", "stated volume: taken to be right within 5 %"
)
# Readings of liquid, sludge and scum, in inches.
LEVEL_IN = Method(
    0.125, 0.0, "choice", "level readings: taken to be right within 1/8 in"
)
SOLIDS_IN = Method(
    1.0, 0.0, "practice", "sludge and scum: taken to be right within 1 in"
)
CAMERA_WATER_IN = Method(
    0.25, 0.0, "choice", "water depth seen by camera: taken to be right within 1/4 in"
)
# Bucket and watch.
BUCKET = Method(0.0, 0.03, "choice", "bucket mark: taken to be right within 3 %")
WATCH_MIN = Method(
    0.5 / 60, 0.0, "choice", "stopwatch: taken to be right within half a second"
)
METER_SHARE = Method(
    0.0, 0.015, "choice", "water meter: taken to be right within 1.5 %"
)
# Water beside the hose, and the water of a two-day test.
OTHER_WATER = Method(
    0.0, 0.25, "choice", "household water: taken to be right within a quarter"
)
WATER_ADDED = Method(0.0, 0.03, "choice", "water added: taken to be right within 3 %")
SINCE_PUMPED_YEARS = Method(
    1 / 12,
    0.1,
    "choice",
    "time since the last pump-out, as told: taken to be right within a month and 10 %",
)
SLOPE = Method(
    0.0, 0.25, "choice", "slope from the record: taken to be right within a quarter"
)
# Pump chamber, distribution box and absorption area.
FLOAT_IN = Method(
    0.5, 0.0, "choice", "float and inlet heights: taken to be right within 1/2 in"
)
DRAIN_BACK = Method(0.0, 0.10, "choice", "drain-back: taken to be right within 10 %")
MEANWHILE = Method(
    0.0, 0.10, "choice", "water that came in meanwhile: taken to be right within 10 %"
)
BOX_IN = Method(
    0.125, 0.0, "choice", "depths in the box: taken to be right within 1/8 in"
)
STONE_IN = Method(1.0, 0.0, "choice", "stone depth: taken to be right within 1 in")
VOID_PERCENT = Method(
    5.0, 0.0, "choice", "void share: taken to be right within 5 % of the stone"
)
USUAL_VOID_PERCENT = Method(
    5.0, 0.0, "practice", "35 % of the stone empty: taken to be right within 5 % of it"
)
ROUGHNESS_N = Method(0.0, 0.15, "choice", "roughness: taken to be right within 15 %")
OPENING_IN = Method(
    0.0, 0.25, "choice", "bore left open, by eye: taken to be right within a quarter"
)
# Depth of a part below ground, by the pitch of its pipe and by the probe.
INVERT_AT_WALL_IN = Method(
    0.5, 0.0, "choice", "invert at the wall by tape: taken to be right within 1/2 in"
)
PITCH = Method(0.0, 0.25, "choice", "pitch: taken to be right within a quarter")
GROUND_SLOPE = Method(
    0.0, 0.25, "choice", "slope of the ground: taken to be right within a quarter"
)
TOP_ABOVE_INVERT_IN = Method(
    0.5, 0.0, "choice", "top above the invert: taken to be right within 1/2 in"
)
PROBED_IN = Method(
    0.5, 0.0, "choice", "depth by probe: taken to be right within 1/2 in"
)
