"""Deeper water along a pipe, told apart by what ends it."""

from __future__ import annotations

from collections.abc import Sequence

from generator.record.pipes import LogEntry
from generator.results.pipe_inside import FLOW, HELD, SAG, STANDING, Sight, Water
from generator.results.result import nominal

HOLDS_BACK = ("blockage", "offset joint")
UNDER_WATER = "camera under water"


def deep_water(log: Sequence[LogEntry], views: Sequence[Sight]) -> tuple[Water, ...]:
    """Gather sights of deeper water into stretches, and tell what ends each.

    Parameters
    ----------
    log : sequence of LogEntry
        All that the camera saw, in order of distance. [ft]
    views : sequence of Sight
        The entries among them that tell of water. [in]

    Returns
    -------
    tuple of Water
        The stretches in order of distance. [ft], [in]

    Notes
    -----
    A stretch ends at a sight that is clear of it, and at a sight logged as a sag.
    It is a sag where it clears, held back where a blockage or an offset joint stands
    at its far end, and standing water where it never clears. Common practice, no
    source.

    Examples
    --------
    >>> deep_water((), ())
    ()
    """
    order = {id(entry): place for place, entry in enumerate(log)}
    found, group = [], list[Sight]()
    for place, view in enumerate(views):
        if group and _kind(view) != _kind(group[-1]):
            found.append(_stretch(log, order, group, view.entry))
            group = []
        if _kind(view):
            group.append(view)
        if view.entry.see == SAG:
            after = views[place + 1].entry if place + 1 < len(views) else None
            found.append(_stretch(log, order, group, after))
            group = []
    if group:
        found.append(_stretch(log, order, group, None))
    return tuple(found)


def _kind(view: Sight) -> str:
    """Tell deeper water from a head that the flow covers, and both from the rest."""
    if view.deeper or view.entry.see == SAG:
        return "deep"
    return FLOW if view.entry.see == UNDER_WATER else ""


def _stretch(
    log: Sequence[LogEntry],
    order: dict[int, int],
    group: Sequence[Sight],
    after: LogEntry | None,
) -> Water:
    """Make one stretch; ``after`` is the next entry that tells of water."""
    last = group[-1].entry
    start = group[0].entry.distance.feet
    behind = None
    if _kind(group[-1]) == FLOW:
        kind = FLOW
    elif last.see == SAG:
        kind = SAG
    else:
        beyond = order[id(after)] if after is not None else len(log)
        behind = _held_by(log[:beyond], last)
        kind = HELD if behind else STANDING if after is None else SAG
    end: float | None = None
    if behind is not None:
        end = behind.distance.feet
    elif last.to is not None and kind != STANDING:
        end = last.to.feet
    elif after is not None:
        end = after.distance.feet
    seen_to = max((entry.to or entry.distance).feet for entry in log)
    depths = [one.water_in for one in group if one.water_in is not None]
    return Water(
        kind,
        start,
        end,
        max(0.0, (seen_to if end is None else end) - start),
        max(depths, key=nominal, default=None),
        tuple(group),
        behind,
        after,
    )


def _held_by(log: Sequence[LogEntry], last: LogEntry) -> LogEntry | None:
    """Find the blockage or offset joint at the far end of water last seen there."""
    far = (last.to or last.distance).feet
    for entry in log:
        if entry.see in HOLDS_BACK and (entry is last or entry.distance.feet >= far):
            return entry
    return None
