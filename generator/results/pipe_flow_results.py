"""Results of a run's flow: depth, velocity, capacity and slope."""

from __future__ import annotations

from generator.results.drain_slope import least_slope_results
from generator.results.measured import ROUGHNESS_N, SLOPE
from generator.results.pipe_capacity import capacity_gpm
from generator.results.pipe_inside import Inside, Reach
from generator.results.result import Number, Result, Symbol, nominal

SLOPE_ASSUMED = "slope of 1/4 in per ft assumed (common practice, no source)"
JUST_FULL = "the pipe clean and running just full"
BEFORE_A_CHANGE = (
    "each length of pipe taken by itself, away from where the pipe changes"
)


def flow_results(
    inside: Inside, fall: Number | None, flow_gpm: Number | None, flow_path: str
) -> list[Result]:
    """List the results of each roughness of a run, and those of its slope."""
    found: list[Result] = []
    done: set[float] = set()
    for reach in inside.reaches:
        if fall is None or reach.roughness.value in done:
            continue
        done.add(reach.roughness.value)
        found += _Flow(inside, reach, fall, flow_gpm, flow_path).results()
    return found + least_slope_results(inside.run)


class _Flow:
    """The results of one length of pipe, which share their symbols and inputs."""

    def __init__(
        self,
        inside: Inside,
        reach: Reach,
        fall: Number,
        flow_gpm: Number | None,
        flow_path: str,
    ) -> None:
        run = inside.run
        self.run, self.reach = run, reach
        self.flow_gpm: Number = flow_gpm  # None only where no flow is known
        self.key, self.suffix = f"pipe.{run.name}", inside.suffix(reach)
        several = len({one.roughness.value for one in inside.reaches}) > 1
        self.pipe = f"{run.name}, {reach.material or 'material not noted'}"
        self.pipe = self.pipe if several else run.name
        self.capacity = capacity_gpm(run.bore.inches, fall, reach.roughness.number)
        self.symbols = (
            Symbol("D", run.bore.inches, "in", "bore"),
            Symbol("S", fall, "ft/ft", "slope"),
            Symbol("n", reach.roughness.number, "s/m^(1/3)", "Manning's roughness"),
        )
        keys = ["slope", "material"]
        if reach.roughness.given:
            keys = ["slope", "roughness", "roughness_from"]
        paths = [run.path("bore")]
        paths += [run.path(key) for key in keys if getattr(run, key) is not None]
        if not reach.roughness.given:
            paths += [
                entry.path("material")
                for entry in run.log
                if entry.material == reach.material
                and entry.distance.feet == reach.start_ft
                and entry.material
            ]
        self.flow_path, self.paths = flow_path, tuple(paths)
        self.assumed = [
            reach.roughness.said,
            ROUGHNESS_N.assumption(),
            SLOPE.assumption(),
        ]
        if run.slope is None:
            self.assumed.append(SLOPE_ASSUMED)
        if several:
            self.assumed.append(BEFORE_A_CHANGE)

    def results(self) -> list[Result]:
        """List depth and velocity where they are known, and the capacity."""
        found = []
        if self.reach.expected_in is not None:
            found.append(
                self._of_flow(
                    "expected",
                    f"Depth that the test water should have in the {self.pipe}",
                    self.reach.expected_in,
                    "in",
                    "depth y at which 1.486/n × A × R^(2/3) × √S carries Q",
                )
            )
        if self.reach.velocity_fps is not None:
            found.append(
                self._of_flow(
                    "velocity",
                    f"Velocity of the test water in the {self.pipe}",
                    self.reach.velocity_fps,
                    "ft/s",
                    "1.486/n × R^(2/3) × √S at that depth",
                )
            )
        found.append(self._capacity())
        worked = self.reach.expected_in is not None or self.reach.overloaded
        if worked and nominal(self.capacity) > 0:
            found.append(self._share())
        return found

    def _of_flow(
        self, name: str, label: str, number: Number, unit: str, formula: str
    ) -> Result:
        flow = Symbol("Q", self.flow_gpm, "gal/min", "test flow")
        return Result(
            f"{self.key}.{name}{self.suffix}",
            label,
            number,
            unit,
            formula,
            (flow, *self.symbols),
            (self.flow_path, *self.paths),
            "Chow1959",
            tuple(self.assumed),
        )

    def _capacity(self) -> Result:
        return Result(
            f"{self.key}.capacity{self.suffix}",
            f"Flow that the {self.pipe} carries when full",
            self.capacity,
            "gal/min",
            "1.486/n × A × R^(2/3) × √S of the full bore",
            self.symbols,
            self.paths,
            "Chow1959",
            (*self.assumed, JUST_FULL),
        )

    def _share(self) -> Result:
        return Result(
            f"{self.key}.capacity_share{self.suffix}",
            f"Share of the capacity of the {self.pipe} that the test flow used",
            100 * self.flow_gpm / self.capacity,
            "%",
            "s = 100 × Q / C",
            (
                Symbol("Q", self.flow_gpm, "gal/min", "test flow"),
                Symbol("C", self.capacity, "gal/min", "flow of the full pipe"),
            ),
            (self.flow_path, *self.paths),
            "Chow1959",
            (*self.assumed, JUST_FULL),
        )
