"""The results of water run into a pit, listed: run in, stored, taken, rate."""

from __future__ import annotations

from generator.record.cesspool import Cesspool
from generator.results.cesspool_inside import DEPTH_IN, Pit
from generator.results.cesspool_water import (
    CLOCK_MIN,
    PitTest,
    Row,
    rate_in_per_h,
)
from generator.results.guard_band import MEETS, hold
from generator.results.inflow import mean_flow_gpm
from generator.results.inflow_flow_result import STEP_ASSUMED
from generator.results.measured import BUCKET, LEVEL_IN, METER_SHARE, WATCH_MIN
from generator.results.result import Number, Result, Symbol

NOT_SHOWN = "no more than the readings can be off"
NO_OVERFLOW = "none found"
ONLY_HOSE = "other water: none counted, since the job has no key for it in a pit"
BEHIND = "water that filled cracks and stone round the pit counts as taken"
BY_OVERFLOW = "water that left by an overflow counts as taken: {overflow}"
IN_THE_PIPE = (
    "a level above the inlet stands in the inlet pipe too, which is not counted"
)
ONE_DAY = "one short reading: a pit takes less in a wet week, or day after day"


def pit_test_results(pit: Pit) -> list[Result]:
    """List what the water test of a pit shows."""
    test = PitTest.of(pit)
    if test is None:
        return []
    return [_run_in(test), *_height(test), *_kept(test), *_after(test)]


def _run_in(test: PitTest) -> Result:
    water = test.pit.recorded.water
    minutes = sum(run.stop_min - run.start_min for run in test.runs)
    keys = ("from", "to", "bucket", "meter_from", "meter_to")
    given = {"from": "from_"}
    return Result(
        "cesspool.run_in",
        "Water run into the pit",
        test.run_in_gal,
        "gal",
        "V = Q × t",
        (
            Symbol("Q", mean_flow_gpm(test.runs), "gal/min", "mean flow"),
            Symbol("t", minutes, "min", "time that the water ran"),
        ),
        tuple(
            one.path(key)
            for one in water
            for key in keys
            if getattr(one, given.get(key, key))
        ),
        "EXAM-FILL",
        (*_flow_assumptions(test.pit.recorded), ONLY_HOSE),
    )


def _flow_assumptions(pit: Cesspool) -> tuple[str, ...]:
    found = []
    for one in pit.water:
        if one.bucket:
            good = one.bucket_good_to
            mark = (
                f"bucket mark: right within {good.typed}, as recorded" if good else ""
            )
            found += [mark or BUCKET.assumption(), WATCH_MIN.assumption()]
        else:
            found.append(METER_SHARE.assumption())
            found += [] if one.meter_reads_to else [STEP_ASSUMED]
    return tuple(dict.fromkeys(found))


def _height(test: PitTest) -> list[Result]:
    inlet, highest = test.pit.inlet_in, test.highest
    if inlet is None:
        return []
    return [
        Result(
            "cesspool.highest",
            "Room left below the inlet invert at the highest level of the test",
            highest.down_in - inlet,
            "in",
            "h = l - i",
            (
                Symbol("l", highest.down_in, "in", "mark down to the liquid"),
                Symbol("i", inlet, "in", "mark down to the inlet invert"),
            ),
            (highest.recorded.path("down"), *test.pit.paths("inlet_down")),
            "BALANCE",
            (*_read(test), DEPTH_IN.assumption()),
        )
    ]


def _read(test: PitTest) -> tuple[str, ...]:
    step = test.pit.recorded.levels_read_to
    if step is None:
        return (LEVEL_IN.assumption(),)
    return (f"level readings: taken to be right within their step of {step.typed}",)


def _kept(test: PitTest) -> list[Result]:
    found = _balance(test, test.at_stop, "")
    last = test.rows[-1]
    if last is not test.at_stop:
        found += _balance(test, last, "_last")
    return found


def _balance(test: PitTest, row: Row, ending: str) -> list[Result]:
    if row.stored_gal is None:
        return []
    pit, by = test.pit, row.recorded.time.typed
    paths = (
        test.start_path,
        row.recorded.path("down"),
        row.recorded.path("at"),
        *pit.paths(*pit.plan_keys()),
    )
    assumed = (*_read(test), *pit.assumptions())
    stored = Result(
        f"cesspool.stored{ending}",
        f"Water stored by the rise of the level, by {by}",
        row.stored_gal,
        "gal",
        "Vs = A × r / 12 × 7.4805",
        (
            pit.plan_symbol(),
            Symbol("r", test.start_in - row.down_in, "in", "rise of the level"),
        ),
        paths,
        "NIST-HB44",
        assumed,
    )
    taken = Result(
        f"cesspool.taken{ending}",
        f"Water that went on, by {by}: run in less stored",
        row.taken_gal,
        "gal",
        "Vt = Vi - Vs",
        (
            Symbol("Vi", row.run_in_gal, "gal", "run in until then"),
            Symbol("Vs", row.stored_gal, "gal", "stored"),
        ),
        (*(one.path("from") for one in pit.recorded.water), *paths),
        "BALANCE",
        (*assumed, *_flow_assumptions(pit.recorded), *_went(pit.recorded), ONLY_HOSE),
        _shown(row.taken_gal),
    )
    return [stored, taken]


def _went(pit: Cesspool) -> tuple[str, ...]:
    if pit.overflow == NO_OVERFLOW:
        return (BEHIND, IN_THE_PIPE)
    overflow = pit.overflow or "nothing was noted of one"
    return (BEHIND, BY_OVERFLOW.format(overflow=overflow), IN_THE_PIPE)


def _after(test: PitTest) -> list[Result]:
    still = test.still
    if len(still) < 2:
        return []
    found = _rates(test, still[0], still[-1], "")
    if len(still) > 2:
        found += _rates(test, still[-2], still[-1], "_last")
    return found


def _rates(test: PitTest, first: Row, last: Row, ending: str) -> list[Result]:
    pit, fall = test.pit, rate_in_per_h(first, last)
    clock = f"from {first.recorded.time.typed} to {last.recorded.time.typed}"
    paths = tuple(
        row.recorded.path(key) for row in (first, last) for key in ("at", "down")
    )
    assumed = (*_read(test), CLOCK_MIN.assumption())
    symbols = (
        Symbol("l1", first.down_in, "in", "down to the liquid, first"),
        Symbol("l2", last.down_in, "in", "down to the liquid, last"),
        Symbol("t", last.minute - first.minute, "min", "time between"),
    )
    found = [
        Result(
            f"cesspool.fall{ending}",
            f"Fall of the level after the water stopped, {clock}",
            fall,
            "in/h",
            "f = (l2 - l1) / t × 60",
            symbols,
            paths,
            "practice",
            assumed,
            _shown(fall),
        )
    ]
    gallons = pit.gal(fall)
    if gallons is None:
        return found
    rate = Result(
        f"cesspool.rate{ending}",
        f"Rate at which water went on after it stopped, {clock}",
        gallons,
        "gal/h",
        "q = A × f / 12 × 7.4805",
        (pit.plan_symbol(), Symbol("f", fall, "in/h", "fall of the level")),
        (*paths, *pit.paths(*pit.plan_keys())),
        "BALANCE",
        (*assumed, *pit.assumptions(), *_went(pit.recorded), ONLY_HOSE, ONE_DAY),
        _shown(gallons),
    )
    return [*found, rate]


def _shown(number: Number) -> str:
    return "" if hold(number, 0.0, least=True) == MEETS else NOT_SHOWN
