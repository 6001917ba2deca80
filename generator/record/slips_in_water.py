"""Slips in tests with water: the household's share, the target, the two days."""

from __future__ import annotations

from collections.abc import Iterator

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.levels import DOWN
from generator.record.spelling import EXAMPLES

PUMP_CHAMBER = "pump chamber"


def water_slips(draft: Draft) -> Iterator[Problem]:
    """Find slips in what stands beside the readings of a test."""
    yield from _sides(draft)
    yield from _starts(draft)
    yield from _besides(draft)
    yield from _target(draft)
    yield from _two_days(draft)


def _besides(draft: Draft) -> Iterator[Problem]:
    """Find slips in the water of the household and in the parts beyond the tank."""
    for use in draft.items("load_test.other_water"):
        start, stop = (draft.minutes(f"{use}.{key}") for key in ("from", "to"))
        if start is not None and stop is not None and stop <= start:
            yield draft.tell(
                f"{use}.to",
                f"This use ends ({draft.get(f'{use}.to')}) before it begins "
                f"({draft.get(f'{use}.from')}).",
                "Check both times.",
            )
    tested = draft.get("load_test.tank")
    names = [draft.get(f"{tank}.name") for tank in draft.items("tanks")]
    if tested is None and names:
        tested = names[0]
    if draft.get("pump_chamber") is not None:
        names.append(PUMP_CHAMBER)
    for further in draft.items("load_test.further"):
        part = draft.get(f"{further}.part")
        if isinstance(part, str) and part == tested:
            yield draft.tell(
                f"{further}.part",
                f'"{part}" is the tank whose level was read, not one beyond it.',
                "Name the tank or chamber beyond.",
            )
        elif isinstance(part, str) and part not in names:
            listed = ", ".join(str(name) for name in names if name != tested)
            yield draft.tell(
                f"{further}.part",
                f'No tank or chamber is called "{part}".',
                f"Beyond the tested tank here: {listed or 'none is described'}.",
            )


def _target(draft: Draft) -> Iterator[Problem]:
    target = draft.read("load_test.target", "target")
    if target is None or target.percent is None:
        return
    for key in ("code", "bedrooms"):
        if draft.get(f"property.{key}") is None:
            yield draft.tell(
                "load_test.target",
                f'A share of the design flow needs "{key}" under "property".',
                "Add it, or give the target in gallons or minutes.",
            )


def _two_days(draft: Draft) -> Iterator[Problem]:
    test = "two_day_test"
    days = [f"{test}.{key}" for key in ("first_day", "second_day")]
    dates = [draft.read(f"{day}.date", "day") for day in days]
    if None not in dates and dates[1].iso <= dates[0].iso:
        yield draft.tell(
            f"{days[1]}.date",
            f"The second day ({dates[1].typed}) is not later than the first "
            f"({dates[0].typed}).",
            "Check both dates.",
        )
    yield from draft.above(
        f"{days[1]}.level_before",
        f"{days[1]}.level",
        "The level before the water ({found}) is higher than after it ({limit}).",
        "Check both levels.",
    )
    volume = draft.read(f"{test}.design_volume", "volume")
    if volume is not None and volume.gallons == 0:
        yield draft.tell(f"{test}.design_volume", "This cannot be zero.", "Check it.")
    area = draft.get(f"{test}.area")
    areas = [draft.get(f"{one}.name") for one in draft.items("absorption_areas")]
    if isinstance(area, str) and areas and area not in areas:
        listed = ", ".join(map(str, areas))
        yield draft.tell(
            f"{test}.area",
            f'No absorption area is called "{area}".',
            f"The areas: {listed}.",
        )
    missing = [key for key in ("code", "bedrooms") if not draft.get(f"property.{key}")]
    if draft.get(test) is not None and volume is None and missing:
        yield draft.tell(
            test,
            "Nothing says how much the design volume is.",
            'Give "design_volume", or "code" and "bedrooms" under "property".',
        )


def _sides(draft: Draft) -> Iterator[Problem]:
    for reading in draft.items("load_test.levels"):
        path = f"{reading}.level"
        level = draft.read(path, "reading")
        if level is None or level.sided or draft.level(path) is not None:
            continue
        if draft.get("load_test.levels_read") == DOWN:
            yield draft.not_yet(
                path,
                f'"{level.typed}" was read down from a mark, and nothing says how far '
                "the outlet invert lies below it.",
                'Add "mark_to_invert" to the load test.',
            )
        elif level.inches:
            yield draft.tell(
                path,
                f'"{level.typed}" does not say above or below the outlet invert.',
                f"Write it as {EXAMPLES['reading']}; or say it once for all readings, "
                'such as "levels_read: above invert".',
            )


def _starts(draft: Draft) -> Iterator[Problem]:
    for test in ("load_test", "cesspool"):
        for reading in draft.items(f"{test}.levels"):
            time = draft.read(f"{reading}.at", "moment")
            if time is not None and draft.minutes(f"{reading}.at") is None:
                yield draft.not_yet(
                    f"{reading}.at",
                    f'"{time.typed}" counts from when the water was turned on, and '
                    "nothing says when that was.",
                    'Add "water" with its "from", or write a time of day.',
                )
