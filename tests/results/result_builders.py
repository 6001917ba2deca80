"""Short ways to make the records that the tests of the results need."""

from __future__ import annotations

from collections.abc import Sequence

from hypothesis import settings
from hypothesis import strategies as st

from generator.quantity import Clock, Length, Level, Target, TimedVolume
from generator.record.pipes import LogEntry, PipeRun
from generator.record.water import LevelReading, LoadTest, Stretch
from generator.results.tank import Inside

PROPERTY = settings(deadline=None, derandomize=True, max_examples=100)


def number(low: float, high: float) -> st.SearchStrategy[float]:
    """Draw a plain number from a range."""
    return st.floats(low, high, allow_nan=False)


def box(depth: float = 48.0, length: float = 96.0, width: float = 54.0) -> Inside:
    """A box; the usual one holds 22.44 gal in an inch."""
    return Inside("box", depth, length, width)


def upright(depth: float = 66.0, diameter: float = 72.0) -> Inside:
    """An upright cylinder."""
    return Inside("upright cylinder", depth, diameter_in=diameter)


def lying(depth: float = 46.0, diameter: float = 60.0, length: float = 102.0) -> Inside:
    """A lying cylinder with flat ends."""
    return Inside("lying cylinder", depth, length, diameter_in=diameter)


def stated(depth: float = 42.0, gallons: float = 1000.0) -> Inside:
    """A tank known by its stated volume alone."""
    return Inside("stated", depth, gallons=gallons)


INSIDES = st.one_of(
    st.builds(box, number(20, 80), number(40, 150), number(30, 90)),
    st.builds(upright, number(20, 80), number(40, 120)),
    st.builds(
        lambda share, diameter, length: lying(share * diameter, diameter, length),
        number(0.3, 0.95),
        number(40, 96),
        number(50, 200),
    ),
    st.builds(stated, number(20, 80), number(300, 3000)),
)


def top_in(inside: Inside) -> float:
    """Highest level that a drawn tank can have: a lying cylinder ends at its crown."""
    if inside.shape == "lying cylinder":
        return float(inside.diameter_in - inside.liquid_depth_in)
    return 30.0


@st.composite
def tanks_with_levels(draw: st.DrawFn, count: int) -> tuple[Inside, tuple[float, ...]]:
    """Draw a tank and some levels between its floor and its top."""
    inside = draw(INSIDES)
    level = number(-inside.liquid_depth_in, top_in(inside))
    return inside, tuple(draw(level) for _ in range(count))


def length(inches: float) -> Length:
    """A length."""
    return Length(inches, f"{inches:g} in")


def feet(number_ft: float) -> Length:
    """A length given in feet."""
    return Length(12 * number_ft, f"{number_ft:g} ft")


def stretch(start: float, stop: float, gpm: float = 4.0, fills: int = 3) -> Stretch:
    """One stretch of water with equal fills of a 5 gal bucket."""
    fill = TimedVolume(5.0, 5.0 / gpm, "a fill")
    return Stretch(
        at="load_test.water[0]",
        from_=Clock(start, f"minute {start:g}"),
        to=Clock(stop, f"minute {stop:g}"),
        bucket=(fill,) * fills,
    )


def make_test(
    water: Sequence[Stretch],
    levels: Sequence[tuple[float, float]],
    *,
    target: float | None = None,
    step: float | None = None,
) -> LoadTest:
    """A load test from stretches and (minute, level in inches)."""
    readings = tuple(
        LevelReading(
            at=f"load_test.levels[{place}]",
            level=Level(level, f"{level:g} in"),
            time=Clock(minute, f"minute {minute:g}"),
        )
        for place, (minute, level) in enumerate(levels)
    )
    return LoadTest(
        at="load_test",
        water=tuple(water),
        levels=readings,
        target=None
        if target is None
        else Target(target, None, None, f"{target:g} gal"),
        levels_read_to=None if step is None else length(step),
    )


def sight(at_ft: float, see: str = "water", water_in: float | None = None) -> LogEntry:
    """One entry of the camera's log."""
    return LogEntry(
        at="pipe_runs[0].log[0]",
        distance=feet(at_ft),
        see=see,
        water=None if water_in is None else length(water_in),
    )


def make_run(*log: LogEntry, water_on: str = "yes", **changes: object) -> PipeRun:
    """A run of 4 in pipe with a camera log."""
    given: dict[str, object] = {"length": feet(50.0), "material": "PVC", **changes}
    return PipeRun(
        at="pipe_runs[0]",
        name="outlet pipe",
        bore=length(4.0),
        water_on=water_on,
        log=log,
        **given,  # type: ignore[arg-type]
    )
