"""The share of a firm's jobs that one machine of several builds."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

_WRITTEN = re.compile(r"([1-9]\d{0,3})/([1-9]\d{0,3})", re.ASCII)  # 9,999: our choice


@dataclass(frozen=True)
class Share:
    """One share of several.

    Parameters
    ----------
    number : int
        Which share, from 1. [-]
    count : int
        How many shares there are. [-]

    Examples
    --------
    >>> [Share(number, 3).of("fedcba") for number in (1, 2, 3)]
    [['a', 'd'], ['b', 'e'], ['c', 'f']]
    >>> print(Share(2, 3), Share(2, 3).folder)
    2/3 2-of-3
    """

    number: int
    count: int

    def __str__(self) -> str:
        """Write it as it is asked for."""
        return f"{self.number}/{self.count}"

    @property
    def folder(self) -> str:
        """The name of its folder where none is given."""
        return f"{self.number}-of-{self.count}"

    def of(self, jobs: Iterable[str]) -> list[str]:
        """Take the jobs of this share: on every machine the same, and evenly many."""
        return sorted(jobs)[self.number - 1 :: self.count]


def share_of(text: str) -> Share | None:
    """Read a share as it is typed; None where it is no such.

    Examples
    --------
    >>> share_of("2/3"), share_of("4/3"), share_of("0/3"), share_of("2 of 3")
    (Share(number=2, count=3), None, None, None)
    """
    found = _WRITTEN.fullmatch(text)
    if not found or int(found[1]) > int(found[2]):
        return None
    return Share(int(found[1]), int(found[2]))
