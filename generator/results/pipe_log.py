"""What the camera's log shows: depth against the flow, sags, first perforation."""

from __future__ import annotations

from dataclasses import dataclass

from generator.record.model import LogEntry, PipeRun
from generator.results.guard_band import SHORT, hold
from generator.results.measured import CAMERA_WATER_IN, SLOPE, Method, measured
from generator.results.pipe_flow import ROUGHNESS, expected_depth_in
from generator.results.result import Number, Result, Symbol, nominal

SLOPE_OF_PRACTICE = 0.25 / 12  # a quarter inch per foot; common practice, no source
SLOPE_ASSUMED = "slope of 1/4 in per ft assumed (common practice, no source)"
ROUGHNESS_METHOD = Method(
    0.0, 0.15, "choice", "roughness: taken to be right within 15 %"
)
SETTLED_FEET = 6.5  # first feet of pipe out of a tank; common practice, no source


@dataclass(frozen=True)
class Sight:
    """One log entry with water: depth seen, and whether the flow explains it."""

    entry: LogEntry
    water_in: Number
    deeper: bool


@dataclass(frozen=True)
class Inside:
    """What one run showed. Distances along the run. [ft], [in]"""

    run: PipeRun
    expected_in: Number | None
    sights: tuple[Sight, ...]
    perforated_ft: float | None
    seen_to_ft: float
    unseen_ft: float | None
    overloaded: bool = False

    @property
    def standing(self) -> tuple[Sight, ...]:
        """Sights of standing water that last to the end of what was seen."""
        found: list[Sight] = []
        for sight in reversed(self.sights):
            if not sight.deeper or sight.entry.see == "sag":
                break
            found.append(sight)
        return tuple(reversed(found))

    @property
    def sags(self) -> tuple[Sight, ...]:
        """Deeper water that clears again farther on, or was logged as a sag."""
        lasting = set(map(id, self.standing))
        return tuple(
            sight for sight in self.sights if sight.deeper and id(sight) not in lasting
        )


def look(run: PipeRun, flow_gpm: Number | None) -> Inside:
    """Judge every sight of a run against the depth that the flow would have."""
    expected, overloaded = None, False
    if run.water_on == "yes" and flow_gpm is not None:
        expected = _expected(run, flow_gpm)
        overloaded = nominal(expected) >= run.bore.inches
        expected = None if overloaded else expected
    sights = tuple(
        Sight(entry, water, not overloaded and _deeper(entry, water, expected))
        for entry in run.log
        if entry.water is not None
        for water in (measured(entry.water.inches, CAMERA_WATER_IN),)
    )
    holes = [entry.distance.feet for entry in run.log if entry.see == "perforations"]
    if run.perforated_from:
        holes.append(run.perforated_from.feet)
    seen_to = max((entry.to or entry.distance).feet for entry in run.log)
    unseen = max(0.0, run.length.feet - seen_to) if run.length else None
    return Inside(
        run, expected, sights, min(holes, default=None), seen_to, unseen, overloaded
    )


def _expected(run: PipeRun, flow_gpm: Number) -> Number:
    return expected_depth_in(flow_gpm, run.bore.inches, *_pipe(run))


def _pipe(run: PipeRun) -> tuple[Number, Number]:
    slope = run.slope.ft_per_ft if run.slope else SLOPE_OF_PRACTICE
    roughness, _ = ROUGHNESS[run.material or "unknown"]
    return measured(slope, SLOPE), measured(roughness, ROUGHNESS_METHOD)


def _deeper(entry: LogEntry, water: Number, expected: Number | None) -> bool:
    if entry.see == "camera under water":
        return True
    limit = 0.0 if expected is None else expected
    return hold(limit - water, 0.0, least=True) == SHORT


def pipe_results(
    inside: Inside, flow_gpm: Number | None, flow_path: str
) -> list[Result]:
    """List the results of one run."""
    run, found = inside.run, []
    key = f"pipe.{run.name}"
    if inside.expected_in is not None:
        found.append(_expected_result(inside, flow_gpm, flow_path))
    for number, sight in enumerate(inside.sights, 1):
        found.append(
            Result(
                f"{key}.water.{number}",
                f"Water in the {run.name} at {sight.entry.distance.typed}",
                sight.water_in,
                "in",
                "depth seen",
                (),
                (sight.entry.path("water"),),
                "practice",
                (CAMERA_WATER_IN.assumption(),),
                _verdict(sight, inside),
            )
        )
    if inside.perforated_ft is not None:
        found.append(
            Result(
                f"{key}.perforated_from",
                f"First perforation of the {run.name}: here the absorption area begins",
                inside.perforated_ft,
                "ft",
                "distance along the pipe",
                (),
                (run.path("log"),),
                "practice",
            )
        )
    if inside.unseen_ft is not None:
        found.append(
            Result(
                f"{key}.unseen",
                f"Part of the {run.name} that the camera did not see",
                inside.unseen_ft,
                "ft",
                "x = l - e",
                (
                    Symbol("l", run.length.feet if run.length else 0.0, "ft", "length"),
                    Symbol("e", inside.seen_to_ft, "ft", "end of what was seen"),
                ),
                (run.path("length"), run.path("log")),
                "practice",
            )
        )
    return found


def _verdict(sight: Sight, inside: Inside) -> str:
    expected = inside.expected_in
    if inside.overloaded:
        return "this pipe cannot carry the test flow"
    if sight.deeper:
        return "deeper than the flow explains" if expected is not None else "standing"
    return "as the flow explains" if expected is not None else ""


def _expected_result(inside: Inside, flow_gpm: Number, flow_path: str) -> Result:
    run = inside.run
    slope, roughness = _pipe(run)
    source = ROUGHNESS[run.material or "unknown"][1]
    assumed = [ROUGHNESS_METHOD.assumption(), SLOPE.assumption()]
    if run.slope is None:
        assumed.append(SLOPE_ASSUMED)
    if source == "practice":
        assumed.append("roughness n for this material: common practice, no source")
    paths = [flow_path, run.path("bore")]
    paths += [run.path(key) for key in ("slope", "material") if getattr(run, key)]
    return Result(
        f"pipe.{run.name}.expected",
        f"Depth that the test water should have in the {run.name}",
        inside.expected_in,
        "in",
        "depth y at which 1.486/n × A × R^(2/3) × √S carries Q",
        (
            Symbol("Q", flow_gpm, "gal/min", "test flow"),
            Symbol("D", run.bore.inches, "in", "bore"),
            Symbol("S", slope, "ft/ft", "slope"),
            Symbol("n", roughness, "s/m^(1/3)", "Manning's roughness"),
        ),
        tuple(paths),
        "Chow1959",
        tuple(assumed),
    )
