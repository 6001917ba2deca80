"""Where the job file of a report stands in the firm's history, in plain words."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Between:
    """What changed from the report before to this one, in plain words.

    Parameters
    ----------
    number : int
        Number of the report that the changes came with.
    changes : tuple of str
        What was changed in the job file.
    outcome : tuple of str
        What came out differently: results, findings, answers.
    """

    number: int
    changes: tuple[str, ...]
    outcome: tuple[str, ...] = ()


@dataclass(frozen=True)
class Origin:
    """Where the job file of a report stands in the firm's history.

    Parameters
    ----------
    commit : str
        Name of the commit that holds the file; empty where none does.
    report : int
        Number of the report that is given; 0 where none was given yet.
    why_not : str
        Why there is no commit, in one sentence; empty where there is one.
    between : tuple of Between
        What changed with each report after the first.
    """

    commit: str = ""
    report: int = 0
    why_not: str = ""
    between: tuple[Between, ...] = ()


UNKNOWN = Origin()  # nobody looked into the history
