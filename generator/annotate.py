"""Problems in the words of the two common git hosts, which show them at their lines.

The forms are those of workflow commands (GitHub) and of the Code Quality report
(GitLab), as their documentation gives them (from memory).
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable

from generator.problems import Problem

GITHUB, GITLAB = "github", "gitlab"
HOSTS = (GITHUB, GITLAB)
FINGERPRINT_SIGNS = 40  # hexadecimal; our choice
_IN_MESSAGE = {"%": "%25", "\r": "%0D", "\n": "%0A"}
_IN_PROPERTY = _IN_MESSAGE | {":": "%3A", ",": "%2C"}


def annotation(problem: Problem) -> str:
    """Write a problem as a workflow command.

    Examples
    --------
    >>> annotation(Problem("inspections/a.yaml", 7, "tanks", "No.", "Mend it."))
    '::error file=inspections/a.yaml,line=7::tanks: No.%0AMend it.'
    """
    file = _escaped(problem.file, _IN_PROPERTY)
    said = ": ".join(part for part in (problem.field, problem.message) if part)
    words = _escaped("\n".join(filter(None, (said, problem.hint))), _IN_MESSAGE)
    return f"::error file={file},line={max(problem.line, 1)}::{words}"


def _escaped(text: str, held: dict[str, str]) -> str:
    return "".join(held.get(sign, sign) for sign in text)


def quality_report(problems: Iterable[Problem]) -> str:
    """Write problems as a code quality report, a list in JSON."""
    return json.dumps([_entry(problem) for problem in problems], indent=2)


def _entry(problem: Problem) -> dict[str, object]:
    known = f"{problem.file}\n{problem.field}\n{problem.message}".encode()
    return {
        "description": " ".join(str(problem).split()),
        "check_name": "onlot check",
        "fingerprint": hashlib.sha256(known).hexdigest()[:FINGERPRINT_SIGNS],
        "severity": "major",
        "location": {
            "path": problem.file,
            "lines": {"begin": max(problem.line, 1)},
        },
    }
