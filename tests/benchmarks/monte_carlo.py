"""Hold the propagated uncertainties against 100,000 random draws of every reading.

Run from the top of the project with ``python tests/benchmarks/monte_carlo.py``. The
places and distances are those of ``demo-larch-hollow``; each reading is drawn from the
rectangle that the table of methods gives it, and everything is worked out anew with
numpy and none of the code under test. It ends with 1 where a ratio is off by more than
3 %.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from math import sqrt
from pathlib import Path

import numpy as np

from generator.codes.layers import code_for
from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.record.plan import Place
from generator.results.compute import compute
from generator.results.location import Spot, locate
from generator.results.measured import BUCKET, from_half_width
from generator.results.places import half_width_ft
from generator.results.result import Results

TOP = Path(__file__).parents[2]
JOB = "demo-larch-hollow"
DRAWS = 100_000
SEED = 20261125
MOST = 0.03
STEPS = 12  # of Gauss and Newton; a place moves less than a micron in the last ones
Array = np.ndarray


@dataclass(frozen=True)
class Line:
    """One comparison: what was propagated beside what was drawn."""

    name: str
    propagated: float
    drawn: float
    unit: str

    @property
    def ratio(self) -> float:
        """Propagated over drawn. [-]"""
        return self.propagated / self.drawn


class Drawn:
    """The plan of the job drawn many times over; points as complex numbers. [ft]"""

    def __init__(self, record: Record, random: np.random.Generator) -> None:
        """Take the job and the source of chance."""
        self.random = random
        datum = record.inspection.datum
        assert datum is not None
        self.places = {
            one.name: one for one in (*datum.points, *record.inspection.places)
        }
        self.found: dict[str, Array] = {"A": np.zeros(DRAWS, complex)}
        self.found["B"] = self.ties(self.places["B"])[0] + 0j

    def reading(self, place: Place, feet: float) -> Array:
        """Draw one reading from its rectangle. [ft]"""
        most = half_width_ft(place, feet)
        return self.random.uniform(feet - most, feet + most, DRAWS)

    def ties(self, place: Place) -> list[Array]:
        """Draw every tie of a place. [ft]"""
        return [self.reading(place, tie.feet) for tie in place.ties]

    def fit(self, name: str, start: complex) -> Array:
        """Find a place from its ties by weighted least squares, from near it."""
        place = self.places[name]
        known = [self.found[tie.point] for tie in place.ties]
        read = self.ties(place)
        weights = [half_width_ft(place, tie.feet) ** -2 for tie in place.ties]
        at = np.full(DRAWS, start, complex)
        for _ in range(STEPS):
            xx = xy = yy = bx = by = 0.0
            for point, feet, weight in zip(known, read, weights, strict=True):
                away = at - point
                way = away / abs(away)
                off = feet - abs(away)
                xx = xx + weight * way.real**2
                xy = xy + weight * way.real * way.imag
                yy = yy + weight * way.imag**2
                bx = bx + weight * way.real * off
                by = by + weight * way.imag * off
            down = xx * yy - xy * xy
            at = at + ((yy * bx - xy * by) + 1j * (xx * by - xy * bx)) / down
        self.found[name] = at
        return at

    def along(self, name: str, start: str, toward: str, feet: float) -> Array:
        """Find a place on the line between two others."""
        way = self.found[toward] - self.found[start]
        run = self.reading(self.places[name], feet)
        self.found[name] = self.found[start] + way / abs(way) * run
        return self.found[name]


def unturned(spots: dict[str, Spot], name: str) -> complex:
    """Give a place in the axes of the base line."""
    base = complex(spots["B"].x_ft.nominal_value, spots["B"].y_ft.nominal_value)
    spot = spots[name]
    at = complex(spot.x_ft.nominal_value, spot.y_ft.nominal_value)
    return at / base * abs(base)


def spread(points: Array) -> tuple[float, float]:
    """Give the semi-axes of the standard ellipse of a cloud. [ft]"""
    axes = np.linalg.eigvalsh(np.cov(points.real, points.imag))
    return sqrt(axes[1]), sqrt(axes[0])


def plan_lines(record: Record, results: Results) -> list[Line]:
    """Compare the places and two distances of the plan."""
    spots, _ = locate(record)
    drawn = Drawn(record, np.random.default_rng(SEED))
    for name in ("C", "L1", "L2", "W", "F1"):
        drawn.fit(name, unturned(spots, name))
    drawn.along("O1", "L1", "L2", 6.5)
    drawn.along("P1", "O1", "F1", 38.0)
    lines = []
    for name in ("C", "L1", "L2", "F1", "P1", "W"):
        ellipse = spots[name].ellipse
        major, minor = spread(drawn.found[name])
        lines.append(Line(f"place {name}, long axis", ellipse.major_ft, major, "ft"))
        lines.append(Line(f"place {name}, short axis", ellipse.minor_ft, minor, "ft"))
    reach = drawn.reading(Place(name="reach"), 1.5)
    well = abs(drawn.found["W"] - drawn.found["P1"]) - reach
    found = results.all["plan.absorption_area_to_private_well"]
    lines.append(
        Line("absorption area to well", found.uncertainty, float(well.std()), "ft")
    )
    return lines


def test_lines(record: Record, results: Results) -> list[Line]:
    """Compare the share of the test water that was held back."""
    random = np.random.default_rng(SEED + 1)
    test, tank = record.inspection.load_test, record.inspection.tanks[0]
    assert test is not None
    assert test.levels_read_to is not None
    assert tank.length is not None
    assert tank.width is not None

    def drawn(value: float, most: float) -> Array:
        return random.uniform(value - most, value + most, DRAWS)

    fills = [fill.gallons / fill.minutes for fill in test.water[0].bucket]
    mean = float(np.mean(fills))
    scatter = float(np.std(fills, ddof=1)) / sqrt(len(fills))
    mark = drawn(1.0, BUCKET.share)
    flow = random.normal(mean, scatter, DRAWS) * mark
    minutes = test.water[0].to.minutes - test.water[0].from_.minutes
    step = test.levels_read_to.inches
    rise = drawn(test.levels[3].level.inches, step) - drawn(0.0, step)
    plan = drawn(tank.length.inches, 0.5) * drawn(tank.width.inches, 0.5)
    share = 100 * rise * plan / 231.0 / (flow * minutes)
    found = results.all["load_test.held_back"]
    return [Line("share held back", found.uncertainty, float(share.std()), "%")]


def main() -> None:
    """Draw, compare, print the table."""
    record = load(Workspace(TOP), JOB)
    results = compute(record, code_for(record))
    assert from_half_width(0.0, sqrt(3)).std_dev == 1.0  # the rectangle drawn here
    lines = plan_lines(record, results) + test_lines(record, results)
    print(f"{DRAWS:,} draws, seed {SEED}")
    print(f"{'':28}{'propagated':>12}{'drawn':>10}{'ratio':>8}")
    for line in lines:
        print(
            f"{line.name:28}{line.propagated:>12.4f}{line.drawn:>10.4f}"
            f"{line.ratio:>8.3f}  {line.unit}"
        )
    worst = max(abs(line.ratio - 1) for line in lines)
    print(f"worst is off by {100 * worst:.1f} %; {100 * MOST:.0f} % are allowed")
    sys.exit(worst > MOST)


if __name__ == "__main__":
    main()
