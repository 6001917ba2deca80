"""One group of keys of the job file, which knows where it stands."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Node:
    """A group of keys in the job file; ``at`` is its path, such as ``tanks[0]``."""

    at: str = ""

    def path(self, key: str) -> str:
        """Give the path of one key of this group."""
        return f"{self.at}.{key}" if self.at else key
