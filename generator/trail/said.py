"""What one version of a job file says of its reports, read without the rest of it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from generator.problems import Refused
from generator.record.read import parsed
from generator.record.slips_when_final import FINAL

KEYS = ("state", "demonstration", "reports")
_KEY = re.compile(rf"^[\"']?({'|'.join(KEYS)})[\"']?[ \t]*:".encode(), re.MULTILINE)
_NEXT = re.compile(rb"^[^\s#-]", re.MULTILINE)  # a key at the left edge ends the last
_BEGIN = re.compile(rb"(?:\s|#[^\n]*\n|---)*([^\s#])")


@dataclass(frozen=True)
class Said:
    """What a version says: whether it is final, made up, and which reports it lists.

    Parameters
    ----------
    final : bool
        Whether its state is final.
    demonstration : bool
        Whether it is invented: such a report is given to nobody.
    reports : tuple of tuple
        The entries of its reports, each as pairs of key and value as typed.
    """

    final: bool = False
    demonstration: bool = False
    reports: tuple[tuple[tuple[str, str], ...], ...] = ()

    @property
    def given(self) -> int:
        """Number of the report that this version would give; 0 for none."""
        return len(self.reports) if self.final and not self.demonstration else 0


NOTHING = Said()


def said(content: bytes) -> Said:
    """Read what a version of a job file says of its reports.

    Parameters
    ----------
    content : bytes
        The whole file.

    Returns
    -------
    Said
        Nothing where the file cannot be read: such a version gives no report.

    Examples
    --------
    >>> found = said(b"state: final\\nreports:\\n  - {number: 1, date: 2026-10-07}\\n")
    >>> found.given, found.reports[0][1]
    (1, ('number', '1'))
    """
    if b"reports" not in content:
        return NOTHING
    try:
        data = parsed(_of_interest(content), "").data
    except Refused:
        return NOTHING
    reports = data.get("reports")
    entries = reports if isinstance(reports, list) else []
    return Said(
        str(data.get("state")).lower() == FINAL,
        data.get("demonstration") is not None,
        tuple(_pairs(entry) for entry in entries if isinstance(entry, dict)),
    )


def _pairs(entry: dict[str, Any]) -> tuple[tuple[str, str], ...]:
    return tuple((str(key), str(value)) for key, value in sorted(entry.items()))


def _of_interest(content: bytes) -> bytes:
    """Take out the three keys, where they stand one below another as usual."""
    text = content.removeprefix(b"\xef\xbb\xbf").replace(b"\r\n", b"\n")
    begin = _BEGIN.match(text)
    if begin is None or begin[1] in b"{" or b"\r" in text:
        return content
    parts = []
    for key in _KEY.finditer(text):
        after = _NEXT.search(text, key.end())
        parts.append(text[key.start() : after.start() if after else len(text)])
    return b"".join(parts)
