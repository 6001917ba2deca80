"""Slips in the water and the readings of every test: times, how flow was measured."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft

RUN = ("load_test.water", "cesspool.water")  # every list of stretches in a job file
READ = ("load_test.levels", "cesspool.levels")  # and every list of readings
MOST_FLOW_GPM = 100  # of one bucket check; our choice, far above any house tap


def stretches(draft: Draft) -> Iterator[Problem]:
    """Find slips in the water and the readings of every test."""
    for levels in READ:
        yield from _one_by_one(draft, levels)
    for water in RUN:
        yield from _in_order(draft, water)
        for stretch in draft.items(water):
            yield from _how_measured(draft, stretch)
            yield from _too_much(draft, stretch)


def _one_by_one(draft: Draft, levels: str) -> Iterator[Problem]:
    before: tuple[float, str] | None = None
    for path in (f"{reading}.at" for reading in draft.items(levels)):
        at, typed = draft.minutes(path), draft.get(path)
        if at is None:
            continue
        if before and at <= before[0]:
            yield draft.tell(
                path,
                f"This reading ({typed}) is not later than the one above it "
                f"({before[1]}).",
                "Write the readings in order of time.",
            )
        before = (at, typed)


def _in_order(draft: Draft, water: str) -> Iterator[Problem]:
    before: tuple[float, str] | None = None
    for stretch in draft.items(water):
        start, stop = (draft.minutes(f"{stretch}.{key}") for key in ("from", "to"))
        if start is not None and stop is not None and stop <= start:
            yield draft.tell(
                f"{stretch}.to",
                f"The water stops ({draft.get(f'{stretch}.to')}) before it starts "
                f"({draft.get(f'{stretch}.from')}).",
                "Check both times.",
            )
        if before and start is not None and start < before[0]:
            yield draft.tell(
                f"{stretch}.from",
                f"This stretch starts ({draft.get(f'{stretch}.from')}) before the one "
                f"above it stops ({before[1]}).",
                "Write the stretches in order of time.",
            )
        if stop is not None:
            before = (stop, draft.get(f"{stretch}.to"))


def _how_measured(draft: Draft, stretch: str) -> Iterator[Problem]:
    meter = [draft.get(f"{stretch}.{key}") for key in ("meter_from", "meter_to")]
    bucket = draft.get(f"{stretch}.bucket")
    if (bucket is None) == (meter == [None, None]):
        hint = 'Give "bucket", or "meter_from" and "meter_to".'
        if bucket is None:
            message = "The flow of this stretch is not measured."
            yield draft.not_yet(stretch, message, hint)
        else:
            message = "The flow of this stretch is measured in two ways."
            yield draft.tell(stretch, message, hint)
    elif bucket is None and None in meter:
        yield draft.not_yet(
            stretch, "One of the two meter readings is missing.", "Give both."
        )
    first, last = (
        draft.read(f"{stretch}.{key}", "volume") for key in ("meter_from", "meter_to")
    )
    if first is not None and last is not None and last.gallons <= first.gallons:
        yield draft.tell(
            f"{stretch}.meter_to",
            f"The meter did not move on from {first.typed} to {last.typed}.",
            "Check both readings.",
        )


def _too_much(draft: Draft, stretch: str) -> Iterator[Problem]:
    for path in draft.items(f"{stretch}.bucket"):
        fill = draft.read(path, "bucket")
        if fill is not None and fill.gallons / fill.minutes > MOST_FLOW_GPM:
            yield draft.tell(
                path,
                f"This fill ({fill.typed}) is more than {MOST_FLOW_GPM} gpm.",
                "No house tap gives so much; check the time.",
            )
