"""The flow of one stretch of the test water, as a result that says how it was read."""

from __future__ import annotations

from generator.record.water import Stretch
from generator.results.inflow_measured import steady
from generator.results.measured import BUCKET, METER_SHARE, WATCH_MIN
from generator.results.result import Number, Result, Symbol

METER_STEP_GAL = 1.0  # assumed where the job names none; our choice, shown as such
FEW_FILLS = 5  # below this the number of fills is told with the flow; our choice
STEP_ASSUMED = "meter read to 1 gal (our own assumption; the job names no step)"
UNSTEADY = (
    "the fills differ by more than reading them explains: the flow was not steady"
)


def flow_result(number: int, stretch: Stretch, flow_gpm: Number) -> Result:
    """Tell the flow of one stretch, with what was assumed of its readings."""
    name = f"inflow.flow.{number}"
    label = f"Flow of the test water from {stretch.from_.typed}"
    if stretch.bucket:
        fills = stretch.bucket
        rates = [
            Symbol(f"q{i}", fill.gallons / fill.minutes, "gal/min", fill.typed)
            for i, fill in enumerate(fills, 1)
        ]
        names = " + ".join(symbol.name for symbol in rates)
        return Result(
            name,
            label,
            flow_gpm,
            "gal/min",
            f"Q = ({names}) / n",
            (*rates, Symbol("n", len(fills), "-", "number of fills")),
            (stretch.path("bucket"),),
            "GUM",
            _bucket_assumptions(stretch),
        )
    assert stretch.meter_from is not None  # slips.py holds this
    assert stretch.meter_to is not None  # and this
    return Result(
        name,
        label,
        flow_gpm,
        "gal/min",
        "Q = (m2 − m1) / t",
        (
            Symbol("m1", stretch.meter_from.gallons, "gal", "meter at start"),
            Symbol("m2", stretch.meter_to.gallons, "gal", "meter at end"),
            Symbol(
                "t", stretch.to.minutes - stretch.from_.minutes, "min", "time between"
            ),
        ),
        tuple(stretch.path(key) for key in ("meter_from", "meter_to", "from", "to")),
        "GUM",
        (
            METER_SHARE.assumption(),
            *(() if stretch.meter_reads_to else (STEP_ASSUMED,)),
        ),
    )


def _bucket_assumptions(stretch: Stretch) -> tuple[str, ...]:
    fills, mark = len(stretch.bucket), BUCKET.assumption()
    if stretch.bucket_good_to:
        recorded = stretch.bucket_good_to.typed
        mark = f"bucket mark: right within {recorded}, as recorded"
    found = [mark, WATCH_MIN.assumption()]
    if 1 < fills < FEW_FILLS:
        found.append(f"{fills} fills only: how far fills spread is roughly known")
    if not steady(*_fills(stretch), mark_half_width_gal=_mark(stretch)):
        found.append(UNSTEADY)
    return tuple(found)


def _fills(stretch: Stretch) -> tuple[list[float], list[float]]:
    fills = stretch.bucket
    return [fill.gallons for fill in fills], [fill.minutes for fill in fills]


def _mark(stretch: Stretch) -> float | None:
    return stretch.bucket_good_to.gallons if stretch.bucket_good_to else None
