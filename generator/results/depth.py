"""How deep a part should lie by the pitch of its pipe, against what the probe hit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.quantity import INCHES_PER_FOOT, Slope
from generator.record.parts import Depth
from generator.results.guard_band import COVERAGE_FACTOR, SHORT, hold
from generator.results.measured import (
    DISTANCES_FT,
    GROUND_SLOPE,
    INVERT_AT_WALL_IN,
    PITCH,
    PROBED_IN,
    TOP_ABOVE_INVERT_IN,
    measured,
)
from generator.results.result import Number, Result, Symbol, nominal, standard

# A building sewer falls a quarter inch per foot, so a tank lies deeper the farther out
# it is; common practice, no source.
PITCH_OF_PRACTICE_IN_PER_FT = 0.25
PITCH_ASSUMED = "pitch of 1/4 in per ft assumed (common practice, no source)"
TOP_ASSUMED = "the probe is held against the pipe's invert itself"
LEVEL_GROUND = "the ground is taken as level along the pipe, as no slope was noted"
AGREES = "agrees"
SHALLOWER = (
    "shallower: something else was hit above it, or the pitch is not what was taken"
)
SHALLOWER_TOP = (
    "shallower, as a top is: how far it lies above the pipe's invert was not given"
)
DEEPER = (
    "deeper: it lies deeper than its pitch, or the probe passed it and hit "
    "something else"
)
CANNOT_BE = "cannot be: this lies above the ground"
AT_SURFACE = "at the surface, as near as this shows"


def depth_below_in(ground_in: Number, level_in: Number) -> Number:
    """Depth of a level below the ground over it.

    Parameters
    ----------
    ground_in : float
        Level of the ground, from any datum. [in]
    level_in : float
        Level of what lies below, from the same datum. [in]

    Returns
    -------
    float
        Depth; below zero where it lies above the ground. [in]

    Notes
    -----
    Cover level less invert level. Common practice, no source.

    Examples
    --------
    >>> depth_below_in(100.0, 78.0)
    22.0
    """
    return ground_in - level_in


def invert_depth_in(
    at_wall_in: Number,
    run_ft: Number,
    pitch_in_per_ft: Number,
    ground_in_per_ft: Number,
) -> Number:
    """Depth of a pipe's invert below the ground, some way from the house.

    Parameters
    ----------
    at_wall_in : float
        Depth of the invert below the ground at the wall. [in]
    run_ft : float
        Distance from the wall. [ft]
    pitch_in_per_ft : float
        Fall of the pipe for each foot. [in/ft]
    ground_in_per_ft : float
        Fall of the ground for each foot; below zero where it rises. [in/ft]

    Returns
    -------
    float
        Depth; below zero where the pipe would lie above the ground. [in]

    Notes
    -----
    Holds for an even pitch and an even ground; levels from the ground at the wall.
    Common practice, no source.

    Examples
    --------
    >>> invert_depth_in(22.0, 18.0, 0.25, 0.0)
    26.5
    """
    ground = -ground_in_per_ft * run_ft
    return depth_below_in(ground, -at_wall_in - pitch_in_per_ft * run_ft)


def agreement(difference_in: Number) -> str:
    """Say whether what was hit lies where the pitch puts the part.

    Parameters
    ----------
    difference_in : float
        Depth probed less depth expected. [in]

    Returns
    -------
    str
        ``agrees``, or which way it differs and what that may mean.

    Notes
    -----
    It agrees within two standard uncertainties. Source: [JCGM106], 7.4 for k = 2.

    Examples
    --------
    >>> agreement(0.0), agreement(-3.0).partition(":")[0]
    ('agrees', 'shallower')
    """
    if abs(nominal(difference_in)) <= COVERAGE_FACTOR * standard(difference_in):
        return AGREES
    return SHALLOWER if nominal(difference_in) < 0 else DEEPER


@dataclass(frozen=True)
class Sought:
    """One part that was sought, by the name that its results carry."""

    name: str
    depth: Depth

    @classmethod
    def all(cls, depths: Sequence[Depth]) -> tuple[Sought, ...]:
        """Name each: parts of one name are counted, and so are names read alike."""
        taken: set[str] = set()
        found = []
        for depth in depths:
            name, count = depth.to, 1
            while _plain(name) in taken:
                count += 1
                name = f"{depth.to} {count}"
            taken.add(_plain(name))
            found.append(cls(name, depth))
        return tuple(found)

    @property
    def expected(self) -> str:
        """Name of the result for the depth expected."""
        return f"depth.{self.name}.expected"

    @property
    def difference(self) -> str:
        """Name of the result for the difference."""
        return f"depth.{self.name}.difference"


def _plain(name: str) -> str:
    """Reduce a name to what sets it apart in an address of a page."""
    ascii_only = name.lower().encode("ascii", "replace").decode("ascii")
    return "".join(sign if sign.isalnum() else "-" for sign in ascii_only)


def depth_results(depths: Sequence[Depth]) -> list[Result]:
    """List the depth expected of each part, and how the probe differs from it."""
    found = []
    for sought in Sought.all(depths):
        expected = _expected_result(sought)
        found.append(expected)
        if sought.depth.probed is not None:
            found.append(_difference_result(sought, expected))
    return found


@dataclass(frozen=True)
class _Taken:
    """What goes into one depth. [in], [ft], [in/ft]"""

    at_wall: Number
    run: Number
    pitch: Number
    ground: Number
    top: Number

    @classmethod
    def of(cls, depth: Depth) -> _Taken:
        falls, rises = (
            measured(_in_per_ft(one), GROUND_SLOPE)
            for one in (depth.ground_falls, depth.ground_rises)
        )
        top = depth.top_above_invert
        pitch = _in_per_ft(depth.pitch) if depth.pitch else PITCH_OF_PRACTICE_IN_PER_FT
        return cls(
            measured(depth.invert_at_wall.inches, INVERT_AT_WALL_IN),
            measured(depth.run.feet, DISTANCES_FT["tape"]),
            measured(pitch, PITCH),
            falls - rises,
            measured(top.inches, TOP_ABOVE_INVERT_IN) if top else 0.0,
        )


def _in_per_ft(slope: Slope | None) -> float:
    return INCHES_PER_FOOT * slope.ft_per_ft if slope else 0.0


def _expected_result(sought: Sought) -> Result:
    depth, taken = sought.depth, _Taken.of(sought.depth)
    invert = invert_depth_in(taken.at_wall, taken.run, taken.pitch, taken.ground)
    top = invert - taken.top
    given = ("pitch", "ground_falls", "ground_rises", "top_above_invert")
    paths = [depth.path("invert_at_wall"), depth.path("run")]
    paths += [depth.path(key) for key in given if getattr(depth, key) is not None]
    return Result(
        sought.expected,
        f"Depth at which the {sought.name} should be hit",
        top,
        "in",
        "t = d + p × x - g × x - a",
        (
            Symbol("d", taken.at_wall, "in", "invert below the ground at the wall"),
            Symbol("p", taken.pitch, "in/ft", "pitch of the pipe"),
            Symbol("x", taken.run, "ft", "distance along the pipe"),
            Symbol("g", taken.ground, "in/ft", "fall of the ground, less its rise"),
            Symbol("a", taken.top, "in", "top of the part above the invert"),
        ),
        tuple(paths),
        "practice",
        tuple(_assumed(depth)),
        _above_ground(top),
    )


def _assumed(depth: Depth) -> list[str]:
    assumed = [
        INVERT_AT_WALL_IN.assumption(),
        DISTANCES_FT["tape"].assumption(),
        PITCH.assumption(),
    ]
    if depth.pitch is None:
        assumed.append(PITCH_ASSUMED)
    if depth.ground_falls is None and depth.ground_rises is None:
        assumed.append(LEVEL_GROUND)
    else:
        assumed.append(GROUND_SLOPE.assumption())
    top = depth.top_above_invert
    return [*assumed, TOP_ABOVE_INVERT_IN.assumption() if top else TOP_ASSUMED]


def _above_ground(top_in: Number) -> str:
    if nominal(top_in) >= 0:
        return ""
    return CANNOT_BE if hold(top_in, 0.0, least=True) == SHORT else AT_SURFACE


def _difference_result(sought: Sought, expected: Result) -> Result:
    probed = sought.depth.probed
    hit = measured(probed.inches if probed else 0.0, PROBED_IN)
    difference = hit - expected.number
    return Result(
        sought.difference,
        f"What the probe hit against the depth of the {sought.name}",
        difference,
        "in",
        "c = h - t",
        (
            Symbol("h", hit, "in", "depth at which the probe hit something"),
            Symbol("t", expected.number, "in", "depth expected"),
        ),
        (sought.depth.path("probed"), *expected.inputs),
        "practice",
        (PROBED_IN.assumption(), *expected.assumptions),
        _verdict(sought.depth, difference),
    )


def _verdict(depth: Depth, difference_in: Number) -> str:
    """Say how the probe agrees; the top of a part may lie above the pipe's invert."""
    found = agreement(difference_in)
    if found == SHALLOWER and depth.top_above_invert is None:
        return SHALLOWER_TOP
    return found
