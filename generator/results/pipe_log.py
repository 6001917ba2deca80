"""The camera's log read against the flow: each sight, each stretch, what was missed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from generator.record.pipes import LogEntry, PipeRun
from generator.results.guard_band import COVERAGE_FACTOR, SHORT, hold
from generator.results.measured import CAMERA_WATER_IN, SLOPE, measured
from generator.results.pipe_bore import Narrowing, bore_left_results
from generator.results.pipe_capacity import expected_velocity_fps
from generator.results.pipe_flow import expected_depth_in
from generator.results.pipe_flow_results import flow_results
from generator.results.pipe_inside import SAG, Inside, Reach, Sight
from generator.results.pipe_log_results import log_results
from generator.results.pipe_water import UNDER_WATER, deep_water
from generator.results.result import Number, Result, nominal, standard
from generator.results.roughness import Roughness

SLOPE_OF_PRACTICE = 0.25 / 12  # a quarter inch per foot; common practice, no source
SETTLED_FEET = 6.5  # first feet of pipe out of a tank; common practice, no source
TELL_OF_WATER = (UNDER_WATER, SAG, "clear")  # these do so without a depth


def look(run: PipeRun, flow_gpm: Number | None) -> Inside:
    """Judge every sight of a run against the depth that the flow would have there."""
    seen_to = max((entry.to or entry.distance).feet for entry in run.log)
    running = run.water_on == "yes" and flow_gpm is not None and nominal(flow_gpm) > 0
    reaches = tuple(
        _with_flow(run, reach, flow_gpm) if running else reach
        for reach in _reaches(run, seen_to)
    )
    views = tuple(
        _view(run, entry, reaches)
        for entry in run.log
        if entry.water is not None or entry.see in TELL_OF_WATER
    )
    unseen = max(0.0, run.length.feet - seen_to) if run.length else None
    return Inside(
        run,
        reaches,
        views,
        deep_water(run.log, views),
        Narrowing.all(run),
        min(_holes_ft(run), default=None),
        seen_to,
        unseen,
    )


def pipe_results(
    inside: Inside, flow_gpm: Number | None, flow_path: str
) -> list[Result]:
    """List the results of one run."""
    return [
        *flow_results(inside, _fall(inside.run), flow_gpm, flow_path),
        *log_results(inside),
        *bore_left_results(inside.run, inside.narrowed),
    ]


def _holes_ft(run: PipeRun) -> Iterator[float]:
    """Give where perforations were seen, and where they begin otherwise known. [ft]"""
    yield from (one.distance.feet for one in run.log if one.see == "perforations")
    if run.perforated_from:
        yield run.perforated_from.feet


def _reaches(run: PipeRun, seen_to_ft: float) -> Iterator[Reach]:
    """Split a run where its material changes; the last named at one place counts."""
    begins = {0.0: run.material}
    for entry in sorted(run.log, key=lambda one: one.distance.feet):
        if entry.material:
            begins[entry.distance.feet] = entry.material
    kept: list[tuple[float, str | None]] = []
    for at, material in begins.items():
        if not kept or kept[-1][1] != material:
            kept.append((at, material))
    ends = [at for at, _ in kept[1:]] + [seen_to_ft]
    for (at, material), end in zip(kept, ends, strict=True):
        yield Reach(material, at, end, Roughness.of(run, material))


def _fall(run: PipeRun) -> Number | None:
    """Give the slope of a run, None where it does not fall. [ft/ft]"""
    slope = run.slope.ft_per_ft if run.slope else SLOPE_OF_PRACTICE
    return measured(slope, SLOPE) if slope > 0 else None


def _with_flow(run: PipeRun, reach: Reach, flow_gpm: Number) -> Reach:
    """Work out how the test flow runs in one length of pipe."""
    fall = _fall(run)
    if fall is None:
        return reach
    pipe = (flow_gpm, run.bore.inches, fall, reach.roughness.number)
    depth = expected_depth_in(*pipe)
    if nominal(depth) >= run.bore.inches:
        return replace(reach, overloaded=True)
    return replace(reach, expected_in=depth, velocity_fps=expected_velocity_fps(*pipe))


def _view(run: PipeRun, entry: LogEntry, reaches: tuple[Reach, ...]) -> Sight:
    at = entry.distance.feet
    place = max(i for i, one in enumerate(reaches) if i == 0 or one.start_ft <= at)
    water = measured(entry.water.inches, CAMERA_WATER_IN) if entry.water else None
    backed_up = any(one.overloaded for one in reaches[place:])
    deeper = not backed_up and _deeper(run, entry, water, reaches[place].expected_in)
    return Sight(entry, water, deeper, reaches[place])


def _deeper(
    run: PipeRun, entry: LogEntry, water: Number | None, expected: Number | None
) -> bool:
    """Tell whether water is deeper than the flow explains."""
    limit = 0.0 if expected is None else expected
    if water is not None and hold(limit - water, 0.0, least=True) == SHORT:
        return True
    if entry.see == UNDER_WATER:
        most = nominal(limit) + COVERAGE_FACTOR * standard(limit)
        return run.head is None or expected is None or most < run.head.inches
    return entry.see == SAG and water is None
