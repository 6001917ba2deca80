"""Slips around the system: the house, leave, the walk, the reports given."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from generator.problems import Problem
from generator.record.check import schema
from generator.record.draft import Draft
from generator.record.slips_when_final import when_final

MOST_PEOPLE_A_BEDROOM = 10  # our choice: beyond it a slip of the finger is likelier
WATER_RUN = ("load_test", "two_day_test", "cesspool.water")
CLOCKS = (  # a test's own times, and those of each of its entries
    ("load_test.water", ("from", "to")),
    ("cesspool.water", ("from", "to")),
    ("load_test.levels", ("at",)),
    ("cesspool.levels", ("at",)),
)


def around(draft: Draft) -> Iterator[Problem]:
    """Find slips in what stands around the system."""
    yield from _people(draft)
    yield from _built(draft)
    yield from _leave(draft)
    yield from _signs(draft)
    yield from _during_the_visit(draft)
    yield from _reports(draft)


def _people(draft: Draft) -> Iterator[Problem]:
    people, bedrooms = draft.get("household.people"), draft.get("property.bedrooms")
    if not isinstance(people, int) or not isinstance(bedrooms, int):
        return
    if people > MOST_PEOPLE_A_BEDROOM * max(bedrooms, 1):  # one room is lived in
        yield draft.tell(
            "household.people",
            f'{people} people are unlikely where "bedrooms" is {bedrooms}.',
            'Check both; where it is true, leave "people" out and write a finding '
            "about it.",
        )


def _built(draft: Draft) -> Iterator[Problem]:
    day, built = draft.read("visit.date", "day"), draft.get("property.built")
    if day is not None and isinstance(built, int) and built > int(day.iso[:4]):
        yield draft.tell(
            "property.built",
            f"The house was built ({built}) after the visit ({day.typed}).",
            "Check the year and the date.",
        )


def _leave(draft: Draft) -> Iterator[Problem]:
    """Find work on the lot that nobody allowed."""
    run = [test for test in WATER_RUN if draft.get(test) is not None]
    if draft.get("consent.run_water") == "no" and run:
        yield draft.tell(
            "consent.run_water",
            f'Water was run ("{run[0].partition(".")[0]}"), and this says that it may '
            "not be.",
            'Write yes if it was allowed after all, and say by whom in "given_by".',
        )
    probed = [d for d in draft.items("depths") if draft.get(f"{d}.probed") is not None]
    if draft.get("consent.open_and_dig") == "no" and probed:
        yield draft.tell(
            "consent.open_and_dig",
            f"The {draft.get(f'{probed[0]}.to')} was probed for, and this says that "
            "nobody may dig.",
            'Write yes if it was allowed after all, and say by whom in "given_by".',
        )


def _signs(draft: Draft) -> Iterator[Problem]:
    signs = schema("inspection")["properties"]["walkover"]["properties"]
    for seen in draft.items("walkover.signs"):
        sign = draft.get(f"{seen}.sign")
        answer = draft.get(f"walkover.{sign}")
        hint = f'Write "{sign}: yes", or take the sign out.'
        if answer == "no":
            message = f'This sign was seen, and "{sign}" is answered no.'
            yield draft.tell(f"{seen}.sign", message, hint)
        elif answer is None and isinstance(sign, str) and sign in signs:
            message = f'This sign was seen, and "{sign}" is not answered.'
            yield draft.not_yet(f"{seen}.sign", message, hint)


def _during_the_visit(draft: Draft) -> Iterator[Problem]:
    arrived, left = (draft.minutes(f"visit.{key}") for key in ("start", "end"))
    if arrived is not None and left is not None and left <= arrived:
        return  # told of the visit itself
    for section, keys in CLOCKS:
        for path in (f"{one}.{key}" for one in draft.items(section) for key in keys):
            at = draft.minutes(path)
            if at is not None and arrived is not None and at < arrived:
                yield _outside(draft, path, "before the visit begins", "start")
            elif (
                at is not None
                and left is not None
                and at > left
                and section != "load_test.levels"  # slips.py tells of these
            ):
                yield _outside(draft, path, "after the visit ends", "end")


def _outside(draft: Draft, path: str, when: str, key: str) -> Problem:
    return draft.tell(
        path,
        f"This time ({draft.get(path)}) is {when} ({draft.get(f'visit.{key}')}).",
        "Check both times, and am or pm.",
    )


def _reports(draft: Draft) -> Iterator[Problem]:
    reports = draft.items("reports")
    for expected, report in enumerate(reports, 1):
        number = draft.get(f"{report}.number")
        if isinstance(number, int) and number != expected:
            yield draft.tell(
                f"{report}.number",
                f"This is report {number}, and it stands in place {expected}.",
                "Count the reports from 1, in the order in which they were given.",
            )
    days = [
        (one, day)
        for one in reports
        if (day := draft.read(f"{one}.date", "day")) is not None
    ]
    for (_, earlier), (path, later) in pairwise(days):
        if later.iso < earlier.iso:
            yield draft.tell(
                f"{path}.date",
                f"This report ({later.typed}) was given before the one above it "
                f"({earlier.typed}).",
                "Check both dates.",
            )
    visit = draft.read("visit.date", "day")
    if visit is not None and days and days[-1][1].iso < visit.iso:
        yield from when_final(
            draft,
            f"{days[-1][0]}.date",
            f"The last report ({days[-1][1].typed}) was given before the visit "
            f"({visit.typed}).",
            "Check both dates, or add the report of this visit.",
        )
