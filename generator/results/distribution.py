"""The distribution box: how level its outlets are, its fall and its depth."""

from __future__ import annotations

from collections.abc import Sequence

from generator.codes.packs import Pack
from generator.codes.rows import BoxRule
from generator.quantity import Length
from generator.record.model import Record
from generator.record.parts import DistributionBox, Outlet
from generator.results.asked import CONFIRM
from generator.results.guard_band import MEETS, hold
from generator.results.measured import BOX_IN, measured, stepped
from generator.results.result import Number, Result, Symbol, nominal


def spread_in(down_in: Sequence[Number]) -> Number:
    """Difference between the lowest and the highest outlet.

    Parameters
    ----------
    down_in : sequence of float
        Depth of the bottom of each outlet below one level line; at least one. [in]

    Returns
    -------
    float
        Largest depth less the smallest. [in]

    Notes
    -----
    Each depth is read by itself. Common practice, no source.

    Examples
    --------
    >>> spread_in([10.25, 10.0, 10.5])
    0.5
    """
    return max(down_in, key=nominal) - min(down_in, key=nominal)


def level_verdict(difference_in: Number, most_in: float) -> str:
    """Hold the difference between outlets against the most that is allowed.

    Parameters
    ----------
    difference_in : float
        Lowest to highest outlet. [in]
    most_in : float
        Most that they may differ; often zero. [in]

    Returns
    -------
    str
        ``meets``, ``short`` or ``too close to call``.

    Notes
    -----
    No reading can show with a guard band that nothing differs, so equal readings meet;
    what differs by more is rejected with its guard band. Source: [JCGM106], 8.3.3.

    Examples
    --------
    >>> level_verdict(0.0, 0.0), level_verdict(0.5, 0.0)
    ('meets', 'short')
    """
    if nominal(difference_in) <= most_in:
        return MEETS
    return hold(difference_in, most_in, least=False)


def distribution_results(record: Record, pack: Pack | None) -> list[Result]:
    """Work out what the depths in the distribution box say."""
    box = record.inspection.distribution_box
    if box is None or not box.outlets:
        return []
    rule = pack.distribution_box if pack else None
    source = pack.source("distribution_box") if pack and rule else "practice"
    downs = [_depth(box, outlet.down) for outlet in box.outlets]
    found = _spread(box, downs, rule, source) if len(downs) > 1 else []
    inlet, floor = box.inlet_down, box.floor_down
    if inlet is not None:
        found.append(_fall(box, _depth(box, inlet), downs, rule, source))
    if floor is not None and floor.inches >= max(map(nominal, downs)):
        found.append(_floor(box, _depth(box, floor), downs, rule, source))
    return found


def _depth(box: DistributionBox, reading: Length) -> Number:
    if box.read_to is not None:
        return stepped(reading.inches, box.read_to.inches)
    return measured(reading.inches, BOX_IN)


def _assumed(box: DistributionBox) -> tuple[str, ...]:
    if box.read_to is not None:
        return (f"depths read to {box.read_to.typed}",)
    return (BOX_IN.assumption(),)


def _paths(box: DistributionBox, *keys: str) -> tuple[str, ...]:
    read_to = ("read_to",) if box.read_to is not None else ()
    outlets = tuple(outlet.path("down") for outlet in box.outlets)
    return (*outlets, *(box.path(key) for key in (*keys, *read_to)))


def _verdict(rule: BoxRule | None, limit: int | None, number: Number) -> str:
    if rule is None or limit is None:
        return ""
    return hold(number, limit, least=True) if rule.seen == "yes" else CONFIRM


def _asked(limit: int | None, words: str) -> str:
    return "" if limit is None else f", {words} {limit} in asked"


def lowest(outlets: Sequence[Outlet]) -> tuple[Outlet, ...]:
    """List the outlets that lie lowest and take the flow first.

    Parameters
    ----------
    outlets : sequence of Outlet
        The outlets of one box; at least one.

    Returns
    -------
    tuple of Outlet
        Every outlet at the largest depth.

    Notes
    -----
    Common practice, no source.

    Examples
    --------
    >>> north = Outlet(to="north", down=Length(10.25, "10 1/4 in"))
    >>> south = Outlet(to="south", down=Length(10.0, "10 in"))
    >>> [one.to for one in lowest([north, south])]
    ['north']
    """
    deepest = max(one.down.inches for one in outlets)
    return tuple(one for one in outlets if one.down.inches == deepest)


def _spread(
    box: DistributionBox, downs: list[Number], rule: BoxRule | None, source: str
) -> list[Result]:
    spread = spread_in(downs)
    low, high = max(downs, key=nominal), min(downs, key=nominal)
    most = rule.outlet_difference_in if rule else None
    verdict = ""
    if rule and most is not None:
        verdict = level_verdict(spread, most) if rule.seen == "yes" else CONFIRM
    found = [
        Result(
            "box.spread",
            "Difference between the outlets of the box" + _asked(most, "at most"),
            spread,
            "in",
            "s = d1 − d2",
            (
                Symbol("d1", low, "in", "depth of the lowest outlet"),
                Symbol("d2", high, "in", "depth of the highest outlet"),
            ),
            _paths(box),
            source,
            _assumed(box),
            verdict,
        )
    ]
    if nominal(spread) > 0:
        names = " and ".join(one.to for one in lowest(box.outlets))
        found.append(
            Result(
                "box.first",
                f"Lowest outlet, which takes the flow first: {names}",
                low,
                "in",
                "depth below the level line, as measured",
                (),
                _paths(box),
                "practice",
                _assumed(box),
            )
        )
    return found


def _fall(
    box: DistributionBox,
    inlet: Number,
    downs: list[Number],
    rule: BoxRule | None,
    source: str,
) -> Result:
    highest = min(downs, key=nominal)
    limit = rule.inlet_above_outlet_in if rule else None
    return Result(
        "box.inlet_fall",
        "Inlet above the highest outlet" + _asked(limit, "at least"),
        highest - inlet,
        "in",
        "f = d2 − di",
        (
            Symbol("d2", highest, "in", "depth of the highest outlet"),
            Symbol("di", inlet, "in", "depth of the inlet"),
        ),
        _paths(box, "inlet_down"),
        source,
        _assumed(box),
        _verdict(rule, limit, highest - inlet),
    )


def _floor(
    box: DistributionBox,
    floor: Number,
    downs: list[Number],
    rule: BoxRule | None,
    source: str,
) -> Result:
    low = max(downs, key=nominal)
    limit = rule.outlet_above_floor_in if rule else None
    return Result(
        "box.floor",
        "Lowest outlet above the floor of the box" + _asked(limit, "at least"),
        floor - low,
        "in",
        "h = df − d1",
        (
            Symbol("df", floor, "in", "depth of the floor"),
            Symbol("d1", low, "in", "depth of the lowest outlet"),
        ),
        _paths(box, "floor_down"),
        source,
        _assumed(box),
        _verdict(rule, limit, floor - low),
    )
