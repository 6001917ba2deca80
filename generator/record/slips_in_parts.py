"""Slips in the parts beyond the tank: chamber, box, absorption area, depths."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from generator.problems import Problem
from generator.record.draft import Draft

STEPS = ("pump_off", "pump_on", "alarm_on", "inlet")  # upward, in a chamber that works
SAID = {
    "pump_off": "where the pump stops",
    "pump_on": "where it starts",
    "alarm_on": "the alarm",
    "inlet": "the inlet",
}
MOST_VOID = 60.0  # percent; our choice, loose stone of one size holds less


def beyond_the_tank(draft: Draft) -> Iterator[Problem]:
    """Find slips in the pump chamber, the box, the absorption areas and the depths."""
    yield from _chamber(draft)
    yield from _box(draft)
    yield from _areas(draft)
    yield from _depths(draft)


def _chamber(draft: Draft) -> Iterator[Problem]:
    up = draft.get("pump_chamber.read_from") != "top"
    read = [
        (key, draft.inches(f"pump_chamber.{key}"))
        for key in STEPS
        if draft.inches(f"pump_chamber.{key}") is not None
    ]
    for (low, below), (high, above) in pairwise(read):
        if below is None or above is None:
            continue
        if (above < below) if up else (above > below):
            yield draft.tell(
                f"pump_chamber.{high}",
                f"{SAID[high][:1].upper()}{SAID[high][1:]} "
                f"({draft.get(f'pump_chamber.{high}')}) lies below {SAID[low]} "
                f"({draft.get(f'pump_chamber.{low}')}).",
                'Check both, and "read_from": heights above the floor, or depths '
                "below the top.",
            )
    start, stop = (draft.inches(f"pump_chamber.drawdown.{k}") for k in ("from", "to"))
    if (
        start is not None
        and stop is not None
        and ((stop >= start) if up else (stop <= start))
    ):
        yield draft.tell(
            "pump_chamber.drawdown.to",
            f"The pump did not lower the level from "
            f"{draft.get('pump_chamber.drawdown.from')} to "
            f"{draft.get('pump_chamber.drawdown.to')}.",
            'Check both, and "read_from"; where it did not fall, leave the drawdown '
            'out and say so in "note".',
        )
    time = draft.read("pump_chamber.drawdown.time", "duration")
    if time is not None and time.minutes == 0:
        yield draft.tell(
            "pump_chamber.drawdown.time", "This cannot be zero.", "Check it."
        )


def _box(draft: Draft) -> Iterator[Problem]:
    for outlet in draft.items("distribution_box.outlets"):
        yield from draft.above(
            f"{outlet}.down",
            "distribution_box.floor_down",
            "This outlet ({found} down) lies below the floor of the box ({limit} "
            "down).",
            "Check both measures.",
        )


def _areas(draft: Draft) -> Iterator[Problem]:
    for area in draft.items("absorption_areas"):
        void = draft.read(f"{area}.void_share", "share")
        if void is not None and (void.percent == 0 or void.percent > MOST_VOID):
            yield draft.tell(
                f"{area}.void_share",
                f"Stone with {void.typed} of empty space cannot be.",
                "Check it; leave it out where the record gives none.",
            )
        for key in ("length", "width", "stone_depth"):
            if draft.inches(f"{area}.{key}") == 0:
                yield draft.tell(f"{area}.{key}", "This cannot be zero.", "Measure it.")
        rate = draft.read(f"{area}.loading", "loading")
        if rate is not None and rate.gpd_per_ft2 == 0:
            yield draft.tell(f"{area}.loading", "This cannot be zero.", "Check it.")


def _depths(draft: Draft) -> Iterator[Problem]:
    for depth in draft.items("depths"):
        both = [draft.get(f"{depth}.{key}") for key in ("ground_falls", "ground_rises")]
        if None not in both:
            yield draft.tell(
                f"{depth}.ground_rises",
                "The ground cannot both fall and rise along one pipe.",
                "Keep one of the two.",
            )
