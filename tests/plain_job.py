"""A job file without its plan and its pipes, whose figures take longest to draw."""

from __future__ import annotations

import re

DRAWN = ("datum", "places", "depths", "features", "pipe_runs")
SECTION = r"^{}:.*\n(?:[ ].*\n|\n)*"
ON_THE_PLAN = re.compile(r",?\s*(?:on_plan: \[[^\]]*\]|reach: [^,}\n]*)")


def plain(text: str) -> str:
    """Leave out of a demonstration what a test of files and links needs not."""
    for key in DRAWN:
        text = re.sub(SECTION.format(key), "", text, flags=re.MULTILINE)
    return ON_THE_PLAN.sub("", text)
