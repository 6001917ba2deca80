"""The load test in words, with its numbers."""

from __future__ import annotations

from generator.figures.style import said_fully
from generator.figures.tank_contents import LEVEL_DECIMALS
from generator.record.water import Limits
from generator.results.load_test import Test
from generator.results.result import Number, nominal
from generator.results.rounding import said, written


def describe(test: Test, limits: Limits | None) -> str:
    """Say in words what the figure shows, with its numbers."""
    first, peak, last = test.rows[0], test.peak, test.last
    parts = [
        _water(test),
        f"The level began {_against(first.level_in)}, stood highest "
        f"{_against(peak.level_in)} at {said(peak.minute, 'min')}, and was last read "
        f"{_against(last.level_in)} at {said(last.minute, 'min')}.",
    ]
    if nominal(last.run_in_gal) > 0:
        blocked = _against(last.blocked_level_in)
        parts.append(f"By then a blocked outlet would have shown {blocked}.")
    parts.append(_after(test))
    if limits:
        rise, back = said(limits.rise.inches, "in"), limits.back_within.minutes
        parts.append(
            f"Allowed are a rise of {rise}, and {said(back, 'min')} until it is back."
        )
    return " ".join(part for part in parts if part)


def _water(test: Test) -> str:
    """Say what ran in until the end of the water, and until the last reading."""
    last, minutes = test.last, sum(run.stop_min - run.start_min for run in test.running)
    total, passed = test.total_gal, said_fully(last.passed_gal, "gal")
    whole = f"{said_fully(total, 'gal')} of water ran in over {said(minutes, 'min')}"
    if nominal(total) <= nominal(last.run_in_gal):
        return f"{whole}; {passed} had passed on by the last reading."
    return (
        f"{whole}. By the last reading {said_fully(last.run_in_gal, 'gal')} had run in "
        f"and {passed} had passed on."
    )


def _after(test: Test) -> str:
    if nominal(test.peak.level_in) > 0 and test.recovery.watched_min <= 0:
        return "No level was read after the water was off."
    recovered = recovery_said(test)
    return f"With the water off it was {recovered}." if recovered else ""


def recovery_said(test: Test) -> str:
    """Say how the level came back after the water; nothing where it never rose.

    Examples
    --------
    >>> from types import SimpleNamespace as Some
    >>> back = Some(watched_min=20.0, back_min=11.0, extrapolated=False)
    >>> recovery_said(Some(recovery=back, peak=Some(level_in=0.5)))
    'back at the outlet after 11 min'
    """
    recovery = test.recovery
    if nominal(test.peak.level_in) <= 0 or recovery.watched_min <= 0:
        return ""
    if recovery.back_min is not None and not recovery.extrapolated:
        return f"back at the outlet after {said(recovery.back_min, 'min')}"
    level = recovery.last_level_in
    if nominal(level) <= 0:
        return ""
    return f"still {level_said(level)} above at the last reading"


def level_said(level_in: Number) -> str:
    """Say a level as finely as every figure does. [in]

    Examples
    --------
    >>> level_said(5.375)
    '5.4 in'
    """
    return f"{written(nominal(level_in), LEVEL_DECIMALS)} in"


def _against(level_in: Number) -> str:
    if level_said(level_in) == "0 in":
        return "at the outlet invert"
    side = "above" if nominal(level_in) > 0 else "below"
    return f"{level_said(abs(nominal(level_in)))} {side} the outlet invert"
