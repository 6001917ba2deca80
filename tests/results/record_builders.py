"""A whole record around the one part that a test is about."""

from __future__ import annotations

from generator.quantity import Day
from generator.record.model import (
    Client,
    Firm,
    Household,
    Inspection,
    Property,
    Record,
    Visit,
)


def make_record(
    *, bedrooms: int | None = None, people: int | None = None, **parts: object
) -> Record:
    """A record of an invented job with some parts."""
    return Record(
        job="a-job",
        firm=Firm(name="A firm (invented)", phone="555-0100"),
        lines={},
        inspection=Inspection(
            visit=Visit(date=Day("2026-10-06", "2026-10-06"), inspector="N. Example"),
            client=Client(name="A. Example"),
            property=Property(
                at="property", address="1 Example Lane", place="X", bedrooms=bedrooms
            ),
            household=None
            if people is None
            else Household(at="household", people=people),
            **parts,  # type: ignore[arg-type]
        ),
    )
