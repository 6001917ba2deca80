"""Slips in kinds of tanks: what a holding tank or a plain tank cannot have."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.parts import HOLDING_TANK

AEROBIC = "aerobic unit"
OF_AN_OUTLET = ("outlet_device", "outlet_device_depth", "outlet_device_state")
NOT_THERE = (None, "none", "missing")


def kinds(draft: Draft) -> Iterator[Problem]:
    """Find what does not fit the kind of a tank."""
    for tank in draft.items("tanks"):
        kind = draft.get(f"{tank}.kind")
        yield from draft.above(
            f"{tank}.liquid_now",
            f"{tank}.inside_height",
            "The liquid now ({found}) is deeper than the inside is high ({limit}).",
            "Check both measures.",
        )
        if draft.get(f"{tank}.aerator") is not None and kind != AEROBIC:
            here = f'its kind is "{kind}"' if kind else "nothing says that it is one"
            yield draft.tell(
                f"{tank}.aerator",
                f"This tank has an aerator, as an aerobic unit has, and {here}.",
                f'Write "kind: {AEROBIC}", or take the aerator out.',
            )
        if kind == HOLDING_TANK:
            yield from _no_outlet(draft, tank)
    yield from _test_of_a_holding_tank(draft)


def _no_outlet(draft: Draft, tank: str) -> Iterator[Problem]:
    for key in OF_AN_OUTLET:
        if draft.get(f"{tank}.{key}") not in NOT_THERE:
            yield draft.tell(
                f"{tank}.{key}",
                f'A holding tank has no outlet, and so no "{key}".',
                'Take it out, or correct "kind".',
            )
            return


def tested_tank(draft: Draft) -> str:
    """Give the path of the tank whose level was read; empty where there is no tank."""
    tanks = draft.items("tanks")
    named = draft.get("load_test.tank")
    alike = [tank for tank in tanks if draft.get(f"{tank}.name") == named]
    return next(iter(alike or tanks), "")


def _test_of_a_holding_tank(draft: Draft) -> Iterator[Problem]:
    if draft.get("load_test") is None:
        return
    if draft.get(f"{tested_tank(draft)}.kind") == HOLDING_TANK:
        yield draft.tell(
            "load_test" if draft.get("load_test.tank") is None else "load_test.tank",
            "A holding tank passes nothing on, so a load test of it shows nothing.",
            'Take the test out, name another tank, or correct "kind"; how full the '
            'tank stands is "liquid_now".',
        )
