"""The side of a level: above or below the outlet invert, or down from a mark."""

from __future__ import annotations

from generator.quantity import Level

ABOVE, BELOW, DOWN = "above invert", "below invert", "down from mark"


def above_invert_in(
    level: Level, read: str | None, mark_to_invert_in: float | None
) -> float | None:
    """Height above the outlet invert; None where the side is not known. [in]

    Examples
    --------
    >>> above_invert_in(Level(30.5, "30 1/2 in", sided=False), "down from mark", 31.0)
    0.5
    """
    if level.sided or (level.inches == 0 and read != DOWN):
        return level.inches
    if read == ABOVE:
        return level.inches
    if read == BELOW:
        return -level.inches
    if read == DOWN and mark_to_invert_in is not None:
        return mark_to_invert_in - level.inches
    return None
