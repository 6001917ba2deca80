"""One computed number with all that a reviewer needs to sign it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

Number = Any  # a float, or an uncertainties.UFloat, which has no types of its own


def nominal(number: Number) -> float:
    """Give the value of a number without its uncertainty. [any]"""
    plain: Any = getattr(number, "nominal_value", number)
    return float(plain)


def standard(number: Number) -> float:
    """Give the standard uncertainty of a number; zero for a plain float. [any]"""
    spread: Any = getattr(number, "std_dev", 0.0)
    return float(spread)


def figures(number: float) -> str:
    """Write a number for a line of working: four significant figures, no exponent.

    Examples
    --------
    >>> figures(1077.19), figures(0.020833), figures(120.0)
    ('1077', '0.02083', '120')
    """
    if number == 0:
        return "0"
    if abs(number) >= 1000:
        return f"{number:.0f}"
    text = f"{number:.4g}"
    return f"{number:.8f}".rstrip("0") if "e" in text else text


@dataclass(frozen=True)
class Symbol:
    """One symbol of a formula: its number, unit and meaning."""

    name: str
    number: Number
    unit: str
    meaning: str


@dataclass(frozen=True)
class Result:
    """A number with its unit, uncertainty, formula, origin and source.

    ``inputs`` are paths in the job file; ``source`` is a key of
    ``generator.sources``; ``verdict`` is a word where the number was held against
    a limit, and empty elsewhere.
    """

    name: str
    label: str
    number: Number
    unit: str
    formula: str
    symbols: tuple[Symbol, ...] = ()
    inputs: tuple[str, ...] = ()
    source: str = ""
    assumptions: tuple[str, ...] = ()
    verdict: str = ""

    @property
    def value(self) -> float:
        """The value. [``unit``]"""
        return nominal(self.number)

    @property
    def uncertainty(self) -> float:
        """The standard uncertainty. [``unit``]"""
        return standard(self.number)

    @property
    def working(self) -> str:
        """The formula with the numbers put in, and what comes out."""
        left, equals, right = self.formula.partition(" = ")
        if not equals:
            return ""
        numbers = {
            symbol.name: figures(nominal(symbol.number)) for symbol in self.symbols
        }
        names = sorted(numbers, key=len, reverse=True)
        pattern = "|".join(rf"(?<!\w){re.escape(name)}(?!\w)" for name in names)
        put_in = (
            re.sub(pattern, lambda match: numbers[match[0]], right) if names else right
        )
        return f"{left} = {put_in} = {figures(self.value)} {self.unit}".strip()


@dataclass
class Results:
    """All results of a job by name, in the order they were worked out."""

    all: dict[str, Result] = field(default_factory=dict)
    parts: dict[str, Any] = field(default_factory=dict)

    def add(self, results: Iterable[Result]) -> None:
        """Add results; a name can stand only once."""
        for result in results:
            if result.name in self.all:
                raise ValueError(f"two results are called {result.name}")
            self.all[result.name] = result

    def get(self, name: str) -> Result | None:
        """Give a result by name, or None."""
        return self.all.get(name)

    def under(self, prefix: str) -> list[Result]:
        """List the results whose names begin with a prefix."""
        return [one for name, one in self.all.items() if name.startswith(prefix)]
