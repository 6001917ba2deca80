"""The same plan nearer by, where something far away makes the whole too small."""

from __future__ import annotations

from dataclasses import replace

from generator.figures.plan_ground import View, corners, view_of
from generator.results.plan_gaps import XY
from generator.results.site_plan import PART, SitePlan, Thing

# Our choice: a nearer plan is drawn where it is so many times as large.
WORTH_IT = 1.8
AROUND = 0.2  # share of the size of house and parts that is shown around them


def nearer(plan: SitePlan) -> SitePlan | None:
    """Leave out what is far from datum and parts; None where that gains little."""
    kept = [xy for thing in plan.things if thing.role == PART for xy in _places(thing)]
    if not kept:
        return None
    kept += [*plan.house, *(xy for pipe in plan.pipes for xy in pipe.line)]
    kept += [one.at for one in plan.points if one.fixed]
    low, high = corners(kept)
    room = AROUND * max(b - a for a, b in zip(low, high, strict=True))
    near = View((low[0] - room, low[1] - room), (high[0] + room, high[1] + room), 1.0)
    found = replace(
        plan,
        points=tuple(one for one in plan.points if near.holds(one.at)),
        things=tuple(one for one in plan.things if all(map(near.holds, _places(one)))),
        ties=tuple(
            one for one in plan.ties if near.holds(one.start) and near.holds(one.end)
        ),
        gaps=tuple(
            one for one in plan.gaps if near.holds(one.start) and near.holds(one.end)
        ),
    )
    gain = view_of(found).pt_per_ft / view_of(plan).pt_per_ft
    return found if gain >= WORTH_IT else None


def _places(thing: Thing) -> list[XY]:
    return [*thing.line, *(xy for border in thing.borders for xy in border)]
