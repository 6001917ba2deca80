"""All rules on what is still to be recorded."""

from __future__ import annotations

from collections.abc import Iterable

from generator.problems import Problem
from generator.record.draft import Draft
from generator.record.todo import Item, open_items
from generator.record.todo_at_the_desk import at_the_desk
from generator.record.todo_in_parts import on_parts
from generator.record.todo_in_tests import on_tests
from generator.record.todo_on_the_lot import on_the_lot

RULES = (on_tests, on_parts, on_the_lot, at_the_desk)


def still_open(draft: Draft, later: Iterable[Problem] = ()) -> list[Item]:
    """List what is still to be recorded, dearest to go back for first."""
    return open_items(draft, RULES, later)
