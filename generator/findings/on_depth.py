"""Rules on depths: whether the probe hit the part where its pitch puts it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.findings.finding import Finding
from generator.record.model import Record
from generator.results.depth import AGREES, CANNOT_BE, SHALLOWER, SHALLOWER_TOP, Sought
from generator.results.result import Result, Results
from generator.results.rounding import said


def depth_findings(record: Record, results: Results) -> Iterator[Finding]:
    """Judge every part whose depth was worked out and probed.

    A part that nobody probed is no finding, unless its depth cannot be.
    """
    for sought in Sought.all(record.inspection.depths):
        expected = results.get(sought.expected)
        if expected is None:
            continue
        if expected.verdict == CANNOT_BE:
            yield _cannot_be(sought)
        elif _held(results.get(sought.difference)):
            yield _probed(sought, results)


def _held(difference: Result | None) -> bool:
    """Whether a probe says anything: a top may lie anywhere above its pipe."""
    return difference is not None and difference.verdict != SHALLOWER_TOP


def _key(sought: Sought) -> str:
    return f"{sought.name}-depth".replace(" ", "-")


def _cannot_be(sought: Sought) -> Finding:
    depth = sought.depth
    return Finding(
        key=_key(sought),
        part=sought.name,
        weight="watch",
        title=f"The depth worked out for the {sought.name} cannot be",
        saw=f"With the invert {depth.invert_at_wall.typed} below the ground at the "
        f"wall, the {sought.name} would lie above the ground {depth.run.typed} out.",
        means="One of the figures is not right, or the pipe does not run as was taken.",
        todo="Have the pipe at the wall, its pitch and the fall of the ground measured "
        "again.",
        who="the inspector",
        by="before anyone digs",
        evidence=(sought.expected,),
        source="practice",
    )


def _probed(sought: Sought, results: Results) -> Finding:
    expected, difference = (
        results.all[name] for name in (sought.expected, sought.difference)
    )
    probed = sought.depth.probed.typed if sought.depth.probed else ""
    agrees = difference.verdict == AGREES
    shallower = difference.verdict == SHALLOWER
    way = "shallower" if shallower else "deeper"
    return Finding(
        key=_key(sought),
        part=sought.name,
        weight="sound" if agrees else "watch",
        title=f"The {sought.name} lies as deep as the pitch of its pipe says"
        if agrees
        else f"The probe hit {way} than the {sought.name} should lie",
        saw=f"The probe hit at {probed}; by the pitch of its pipe it should hit at "
        f"{said(expected.number, expected.unit)}.",
        means="" if agrees else _meaning(shallower),
        todo="" if agrees else "Have it probed again beside the first place.",
        who="" if agrees else "whoever digs",
        by="" if agrees else "before anyone digs",
        evidence=(sought.expected, sought.difference),
        source="practice",
    )


def _meaning(shallower: bool) -> str:
    """Say what a difference may mean."""
    if shallower:
        return (
            "A stone, a root or another pipe may have been hit above it, or the pipe "
            "falls less than was taken."
        )
    return (
        "The part lies deeper than the pitch of its pipe says, or the probe passed it "
        "and hit something else."
    )
