"""How much of the bore is left open where the pipe is narrowed."""

from __future__ import annotations

from dataclasses import dataclass

from generator.record.pipes import LogEntry, PipeRun
from generator.results.measured import OPENING_IN, measured
from generator.results.result import Number, Result, Symbol

NARROWS = ("blockage", "roots", "deposit", "scale")  # a head can catch on a mere step
LESS_THAN = "less than"
NOT_PASSED = (
    "the log ends here and the camera went no farther: less than its head is open"
)
ROUND_HOLE = "what is open is taken as round (our own assumption, no source)"
# A head of 1 1/4 in should pass anywhere in 4 in; common practice, no source.
HEAD_THAT_PASSES = 1.25 / 4.0


@dataclass(frozen=True)
class Narrowing:
    """One narrow place: what is open there, or what it is less than. [in]"""

    entry: LogEntry
    open_in: Number
    bound: bool

    @classmethod
    def all(cls, run: PipeRun) -> tuple[Narrowing, ...]:
        """Find the places whose opening was judged, or that stopped the camera."""
        return tuple(found for entry in run.log for found in cls._at(run, entry))

    @classmethod
    def _at(cls, run: PipeRun, entry: LogEntry) -> list[Narrowing]:
        if entry.opening is not None:
            judged = measured(entry.opening.inches, OPENING_IN)
            narrow = entry.opening.inches < run.bore.inches
            return [cls(entry, judged, bound=False)] if narrow else []
        if run.head is None or not stopped_at(run, entry):
            return []
        known = 0 < run.head.inches < run.bore.inches
        return [cls(entry, run.head.inches, bound=True)] if known else []


def stopped_at(run: PipeRun, entry: LogEntry) -> bool:
    """Tell whether the camera could not go on past an entry of its log.

    Parameters
    ----------
    run : PipeRun
        The run. [ft]
    entry : LogEntry
        One entry of its log.

    Returns
    -------
    bool
        True where the log ends there with something in the way.

    Notes
    -----
    The log must not say ``end``, and the camera not have reached the end of the run.
    Common practice, no source.

    Examples
    --------
    >>> from generator.quantity import Length
    >>> met = LogEntry(distance=Length(240.0, "20 ft"), see="roots")
    >>> run = PipeRun(name="drain", bore=Length(4.0, "4 in"), log=(met,))
    >>> stopped_at(run, met)
    True
    """
    last = run.log[-1]
    here = [one for one in run.log if one.distance.feet >= last.distance.feet]
    if entry.see not in NARROWS or not any(one is entry for one in here):
        return False
    if any(one.see == "end" for one in here):
        return False
    reached = run.length is not None and entry.distance.feet >= run.length.feet
    return entry.see == "blockage" or not reached


def open_share_percent(open_in: Number, bore_in: float) -> Number:
    """Share of the bore's area that a round opening leaves.

    Parameters
    ----------
    open_in : float
        Diameter of what is open. [in]
    bore_in : float
        Inside diameter. [in]

    Returns
    -------
    float
        Share of the area. [%]

    Notes
    -----
    Areas of circles are as the squares of their diameters; common practice, no source.

    Examples
    --------
    >>> round(open_share_percent(1.25, 4.0), 1)
    9.8
    """
    return 100 * (open_in / bore_in) ** 2


def bore_left_results(run: PipeRun, narrowed: tuple[Narrowing, ...]) -> list[Result]:
    """List what is left of the bore, as a diameter and as a share of the area."""
    found = []
    for number, one in enumerate(narrowed, 1):
        at = one.entry.distance.typed
        key = "head" if one.bound else "opening"
        given = run.path(key) if one.bound else one.entry.path(key)
        paths = (given, one.entry.path("at"))
        said = NOT_PASSED if one.bound else OPENING_IN.assumption()
        word = LESS_THAN if one.bound else ""
        bound = f", {LESS_THAN}" if one.bound else ""
        name = f"pipe.{run.name}.bore_left"
        found.append(
            Result(
                f"{name}.{number}",
                f"Bore left open in the {run.name} at {at}{bound}",
                one.open_in,
                "in",
                "camera head" if one.bound else "opening judged",
                (),
                paths,
                "practice",
                (said,),
                word,
            )
        )
        found.append(
            Result(
                f"{name}_share.{number}",
                f"Share of the bore's area left open in the {run.name} at {at}{bound}",
                open_share_percent(one.open_in, run.bore.inches),
                "%",
                "s = 100 × o × o / (D × D)",
                (
                    Symbol("o", one.open_in, "in", "open"),
                    Symbol("D", run.bore.inches, "in", "bore"),
                ),
                (*paths, run.path("bore")),
                "practice",
                (said, ROUND_HOLE),
                word,
            )
        )
    return found
