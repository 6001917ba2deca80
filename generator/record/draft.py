"""A document that may be broken, asked politely: None for what cannot be read."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from generator.problems import Problem
from generator.record.amounts import READERS
from generator.record.levels import above_invert_in
from generator.record.paths import section, steps, with_all_above
from generator.record.read import Document
from generator.record.spelling import AmountError


@dataclass(frozen=True)
class Draft:
    """A document that may be broken, asked politely."""

    document: Document
    photo_folder: Path | None = None
    left_out: frozenset[str] = frozenset()

    def get(self, path: str) -> Any:
        """Give the plain value at a path such as ``tanks[0].sludge``, or None."""
        found: Any = self.document.data
        if self.left_out and not self.left_out.isdisjoint(with_all_above(path)):
            return None
        for step in steps(path):
            if isinstance(step, int):
                fits = isinstance(found, list) and step < len(found)
            else:
                fits = isinstance(found, dict) and step in found
            if not fits:
                return None
            found = found[step]
        return found

    def read(self, path: str, kind: str) -> Any:
        """Give the amount at a path, or None where it cannot be read."""
        found = self.get(path)
        if not isinstance(found, str):
            return None
        try:
            return READERS[kind](found)
        except AmountError:
            return None

    def inches(self, path: str, kind: str = "length") -> float | None:
        """Give a length at a path. [in]"""
        amount = self.read(path, kind)
        return None if amount is None else amount.inches

    def minutes(self, path: str) -> float | None:
        """Give a time of day at a path, where it is one or counts from one. [min]"""
        amount = self.read(path, "moment")
        if amount is None or not amount.after_start:
            return None if amount is None else amount.minutes
        start = self.read(f"{section(path)}.water[0].from", "clock")
        return None if start is None else start.minutes + amount.minutes

    def level(self, path: str) -> float | None:
        """Give a level of the load test above the outlet invert. [in]"""
        amount = self.read(path, "reading")
        if amount is None:
            return None
        read = self.get("load_test.levels_read")
        return above_invert_in(amount, read, self.inches("load_test.mark_to_invert"))

    def items(self, path: str) -> list[str]:
        """Give the paths of the items of a list; empty where there is none."""
        found = self.get(path)
        count = len(found) if isinstance(found, list) else 0
        paths = [f"{path}[{index}]" for index in range(count)]
        return [one for one in paths if one not in self.left_out]

    def tell(self, path: str, message: str, hint: str = "") -> Problem:
        """Make a problem at a path."""
        document = self.document
        return Problem(document.file, document.line(path), path, message, hint)

    def not_yet(self, path: str, message: str, hint: str = "") -> Problem:
        """Make a problem of something that a draft may leave open."""
        return replace(self.tell(path, message, hint), later=True)

    def above(
        self, path: str, limit: str, message: str, hint: str, kind: str = "length"
    ) -> Iterator[Problem]:
        """Tell a problem where one length exceeds another."""
        small, large = self.inches(path, kind), self.inches(limit)
        if small is not None and large is not None and small > large:
            said = message.format(found=self.get(path), limit=self.get(limit))
            yield self.tell(path, said, hint)
