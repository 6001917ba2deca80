"""How a mistake is told: file, line, field, what is wrong and how to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Problem:
    """One mistake that the person at the keyboard can mend.

    Parameters
    ----------
    file : str
        The file as the person named it.
    line : int
        Line in the file, counted from 1; 0 where no line applies. [-]
    field : str
        Path of the key, such as ``tanks[0].liquid_depth``; empty for the whole file.
    message : str
        What is wrong, in one plain sentence.
    hint : str
        How to mend it; empty when that is not known.
    later : bool
        Something is not there yet, rather than wrong: a draft may leave it open.

    Examples
    --------
    >>> print(Problem("a.yaml", 7, "tanks[0].sludge", "8 has no unit.", "Try 8 in."))
    a.yaml:7: tanks[0].sludge: 8 has no unit.
      Try 8 in.
    """

    file: str
    line: int
    field: str
    message: str
    hint: str = ""
    later: bool = False

    def __str__(self) -> str:
        """Tell the problem on one line, its hint on a second."""
        place = f"{self.file}:{self.line}" if self.line else self.file
        told = ": ".join(part for part in (place, self.field, self.message) if part)
        return f"{told}\n  {self.hint}" if self.hint else told


class Refused(Exception):  # noqa: N818  # it is an answer, not an error
    """Work that cannot go on, with every problem that stands in its way."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        super().__init__("\n".join(str(problem) for problem in self.problems))


def counted(number: int, what: str) -> str:
    """Say how many there are of something.

    Examples
    --------
    >>> counted(1, "problem"), counted(2_000, "job")
    ('1 problem', '2,000 jobs')
    """
    return f"{number:,} {what}{'s' * (number != 1)}"
