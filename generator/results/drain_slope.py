"""The least slope of drains by their size, for information."""

from __future__ import annotations

from generator.quantity import INCHES_PER_FOOT
from generator.record.pipes import PipeRun
from generator.results.guard_band import hold
from generator.results.measured import SLOPE, measured
from generator.results.result import Result, Symbol

# From this size on [in]: least fall [in per ft]; [CHICAGO-SLOPES]. Between two rows
# of the table we take the row of the smaller size, which asks more.
LEAST_SLOPES = ((0.0, 0.25), (3.0, 0.125), (8.0, 0.0625))
PRINTED_SIZES = "sizes up to 2 1/2 in, 3 to 6 in, and 8 in and up"
BETWEEN = ((2.5, 3.0), (6.0, 8.0))  # sizes that the table does not print [in]
FOR_INFORMATION = (
    "a rule for new drains, given for information; the local code decides, and "
    "perforated pipe is laid by other rules"
)


def least_slope_in_per_ft(bore_in: float) -> float:
    """Give the least slope of a drain of one size.

    Parameters
    ----------
    bore_in : float
        Inside diameter, taken as the size. [in]

    Returns
    -------
    float
        Least fall for each foot of run. [in/ft]

    Notes
    -----
    For new horizontal drains. The table prints sizes up to 2 1/2 in, 3 to 6 in, and
    8 in and up; in between we take the row of the smaller size.
    Source: [CHICAGO-SLOPES], Table 18-29-704.1.

    Examples
    --------
    >>> [least_slope_in_per_ft(size) for size in (2.0, 2.75, 4.0, 7.0, 8.0)]
    [0.25, 0.25, 0.125, 0.125, 0.0625]
    """
    return [least for size, least in LEAST_SLOPES if bore_in >= size][-1]


def least_slope_results(run: PipeRun) -> list[Result]:
    """Hold the recorded slope of a run against the least one."""
    if run.slope is None:
        return []
    fall = measured(run.slope.ft_per_ft * INCHES_PER_FOOT, SLOPE)
    least = least_slope_in_per_ft(run.bore.inches)
    assumed = [SLOPE.assumption(), FOR_INFORMATION]
    if any(low < run.bore.inches < high for low, high in BETWEEN):
        assumed.append(f"the table prints {PRINTED_SIZES}; the smaller size is taken")
    return [
        Result(
            f"pipe.{run.name}.least_slope",
            f"Slope of the {run.name} against the least slope of new drains",
            fall,
            "in/ft",
            "recorded slope, held against the least slope m",
            (Symbol("m", least, "in/ft", "least slope of this size"),),
            (run.path("slope"), run.path("bore")),
            "CHICAGO-SLOPES",
            tuple(assumed),
            hold(fall, least, least=True),
        )
    ]
