"""Site plans to draw: crowded and sparse, near and far, whole and with gaps."""

from __future__ import annotations

from dataclasses import replace

from generator.figures.plan_parts import WATERS
from generator.results.asked import CONFIRM, NO_FIGURE
from generator.results.guard_band import CLOSE, MEETS, SHORT
from generator.results.plan_gaps import XY, Gap
from generator.results.separation import DRINKING_WATER
from generator.results.site_plan import (
    FEATURE,
    PART,
    Pipe,
    Point,
    Ring,
    SitePlan,
    Thing,
    TieLine,
)

VERDICTS = (SHORT, CLOSE, CONFIRM, NO_FIGURE, MEETS)
A, B, C, D = (0.0, 0.0), (40.0, 0.0), (40.0, -28.0), (0.0, -28.0)
CORNERS = (
    Point("A", "northwest corner of the house", A, fixed=True),
    Point("B", "northeast corner of the house", B, fixed=True),
)


def box(x: float, y: float, wide: float, tall: float) -> tuple[XY, ...]:
    """The closed border of an upright rectangle. [ft]"""
    return ((x, y), (x + wide, y), (x + wide, y + tall), (x, y + tall), (x, y))


def part(kind: str, name: str, x: float, y: float, wide: float, tall: float) -> Thing:
    """A part with a border. [ft]"""
    middle = ((x + wide / 2, y + tall / 2),)
    return Thing(PART, kind, name, middle, (box(x, y, wide, tall),))


def feature(kind: str, *line: XY, name: str = "") -> Thing:
    """A feature without a size of its own. [ft]"""
    return Thing(FEATURE, kind, name or kind, line)


def place(name: str, x: float, y: float, u: float = 0.2) -> Point:
    """A place that was found. [ft]"""
    return Point(name, "", (x, y), fixed=False, ring=Ring(2 * u, u, 30.0))


def gap(start: XY, end: XY, verdict: str, part_: str = "tank", to: str = "well") -> Gap:
    """A judged distance. [ft]"""
    feet = abs(complex(end[0] - start[0], end[1] - start[1]))
    return Gap(start, end, part_, to, f"{feet:.1f} ft", verdict)


TANK = part("tank", "tank", 8.0, 9.0, 10.0, 5.0)
WELL = feature("private well", (10.0, 80.0), name="well")
LOT = feature("property line", (70.0, -40.0), (70.0, 70.0), name="east lot line")
PLAIN = SitePlan(
    points=(*CORNERS, place("L1", 9.0, 11.5), place("L2", 16.0, 11.5)),
    house=(A, B, C, D),
    ties=(
        TieLine(A, (9.0, 11.5), "14 ft 7 in"),
        TieLine(B, (9.0, 11.5), "33 ft 1 in"),
    ),
    things=(WELL, LOT, TANK),
    pipes=(Pipe("outlet pipe", ((18.0, 11.5), (50.0, 20.0))),),
    gaps=(
        gap((10.0, 14.0), (10.0, 80.0), MEETS),
        gap((18.0, 12.0), (70.0, 12.0), SHORT, to="east lot line"),
    ),
    north_up=True,
)
CROWDED = SitePlan(
    points=(
        *CORNERS,
        *(place(f"P{at}", 3.0 * (at % 6), 5.0 + 3.0 * (at // 6)) for at in range(24)),
    ),
    house=(A, B, C, D),
    ties=tuple(
        TieLine(corner, (3.0 * (at % 6), 5.0 + 3.0 * (at // 6)), f"{at} ft 4 in")
        for at in range(24)
        for corner in (A, B)
    ),
    things=(
        *(
            feature("private well", (8.0 * at, 40.0), name=f"well {at}")
            for at in range(5)
        ),
        feature("stream", (-10.0, 30.0), (10.0, 36.0), (60.0, 34.0)),
        LOT,
        TANK,
        part("tank", "second tank", 8.0, 16.0, 10.0, 5.0),
        part("distribution box", "", 22.0, 12.0, 2.0, 2.0),
        part("pump chamber", "", 20.0, 17.0, 4.0, 4.0),
        *(part("absorption area", f"trench {at}", 28.0, 6.0 + 5 * at, 30.0, 3.0)
          for at in range(5)),
    ),
    pipes=(Pipe("outlet pipe", ((18.0, 11.5), (22.0, 13.0), (28.0, 20.0))),),
    gaps=tuple(
        gap((9.0 + at, 20.0), (8.0 * (at % 5), 40.0), VERDICTS[at % 5], to=f"well {at}")
        for at in range(8)
    ),
    north_up=True,
)  # fmt: skip
KINDS = (
    *WATERS,
    *DRINKING_WATER,
    "property line",
    "tree",
    "building",
    "swimming pool",
    "drain",
    "driveway",
    "underground utility",
    "drop-off",
)
LONG = "a name as long as any that a file may hold"[:40]


def _ring(at: int) -> Thing:
    """One of every kind of feature, in rows; a point, a line or an area in turn."""
    x, y = 30.0 * (at % 8), 60.0 + 30.0 * (at // 8)
    line = ((x, y), (x + 15.0, y + 5.0))
    thing = feature(KINDS[at], *line[: 1 + at % 2])
    return thing if at % 3 else replace(thing, borders=(box(x, y, 12.0, 8.0),))


CASES = {
    "plain": PLAIN,
    "crowded": CROWDED,
    "one point": SitePlan(points=CORNERS[:1]),
    "two points without a house": SitePlan(
        points=CORNERS, ties=(TieLine(A, B, "40 ft"),)
    ),
    "no bearing": replace(PLAIN, north_up=False),
    "no house outline": replace(PLAIN, house=()),
    "a far well": replace(
        PLAIN,
        things=(feature("private well", (900.0, 300.0), name="well"), LOT, TANK),
        gaps=(gap((18.0, 12.0), (900.0, 300.0), MEETS),),
    ),
    "lines that run on": replace(
        PLAIN,
        things=(
            TANK,
            WELL,
            feature("property line", (70.0, -3000.0), (70.0, 3000.0), name="lot line"),
            feature("stream", (-3000.0, 60.0), (3000.0, 62.0)),
        ),
    ),
    "two that overlap": replace(
        PLAIN, gaps=(gap((12.0, 12.0), (12.0, 12.0), SHORT, to="drain"),)
    ),
    "a narrow lot": replace(
        PLAIN,
        things=(
            TANK,
            feature("private well", (20.0, 420.0), name="well"),
            feature("cesspool", (20.0, -300.0), name="old pit"),
        ),
        gaps=(gap((12.0, 14.0), (20.0, 420.0), MEETS),),
    ),
    "every kind of feature": SitePlan(
        points=CORNERS,
        house=(A, B, C, D),
        things=tuple(_ring(at) for at in range(len(KINDS))),
    ),
    "long names": replace(
        PLAIN,
        things=(
            replace(TANK, name=LONG),
            replace(WELL, name=f"{LONG} 2"),
            replace(LOT, name=f"{LONG} 3"),
        ),
        gaps=(gap((10.0, 14.0), (10.0, 80.0), CLOSE, LONG, f"{LONG} 2"),),
    ),
    "all points on one spot": replace(
        PLAIN,
        points=(*CORNERS, *(place(f"Q{at}", 9.0, 11.5, 3.0) for at in range(40))),
    ),
    "every part": SitePlan(
        points=CORNERS,
        house=(A, B),
        things=tuple(
            part(kind, "", 9.0 * at, 9.0, 6.0, 6.0)
            if at % 2
            else Thing(PART, kind, "", ((9.0 * at, 9.0),))
            for at, kind in enumerate(
                (
                    "tank",
                    "distribution box",
                    "pump chamber",
                    "absorption area",
                    "cesspool",
                    "seepage pit",
                )
            )
        ),
    ),
}
