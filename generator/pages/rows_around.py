"""Rows of the record page on consent, papers, the walk and the reports given."""

from __future__ import annotations

from collections.abc import Iterable

from generator.pages import wording
from generator.pages.origin import Between
from generator.record.around import Consent, Paper, ReportGiven, WalkOver
from generator.record.check import resolved, schema

SCHEMA = "inspection"
LEAVE = {"yes": "allowed", "no": "not allowed"}
MARKED = {
    "marked": "marked before anyone probed or dug",
    "none near": "none near the work",
    "not marked": "not marked before anyone probed or dug",
    "no digging": "nobody probed or dug",
}
CONSENT_WORDS = {"run_water": LEAVE, "open_and_dig": LEAVE, "utilities": MARKED}
BELOW = ("note", "signs", "walked")  # told in sentences, not in a table

Row = tuple[str, ...]


def _titles(section: str) -> dict[str, str]:
    """Give the titles of a section's keys, in the order of the schema."""
    node = schema(SCHEMA)["properties"][section]
    keys = resolved(node.get("items", node), SCHEMA)["properties"]
    return {key: resolved(one, SCHEMA)["title"] for key, one in keys.items()}


def consent_rows(consent: Consent | None) -> list[Row]:
    """List what was allowed, and by whom."""
    found: list[Row] = []
    for key, title in _titles("consent").items():
        value = getattr(consent, key, None)
        if value is not None and key not in BELOW:
            found.append((title, CONSENT_WORDS.get(key, {}).get(value, value)))
    return found


def walk_rows(walk: WalkOver | None) -> list[Row]:
    """List every question of the walk that was answered, and where it showed."""
    if walk is None:
        return []
    return [
        (title, answer, "; ".join(one.where for one in walk.signs if one.sign == key))
        for key, title in _titles("walkover").items()
        if key not in BELOW and (answer := getattr(walk, key)) is not None
    ]


def paper_table(papers: tuple[Paper, ...]) -> list[Row]:
    """List the papers under their columns; a column with nothing in it is left out."""
    titles = _titles("records")
    rows = [tuple(_cell(paper, key) for key in titles) for paper in papers]
    return _without_empty_columns([tuple(titles.values()), *rows])


def _cell(paper: Paper, key: str) -> str:
    return getattr(paper, "from_" if key == "from" else key) or ""


def report_table(reports: tuple[ReportGiven, ...]) -> list[Row]:
    """List the reports given under their columns."""
    rows = [
        (str(one.number), wording.day(one.date.iso), one.reason, one.by or "")
        for one in reports
    ]
    return _without_empty_columns([tuple(_titles("reports").values()), *rows])


def newest_first(between: Iterable[Between]) -> list[Between]:
    """Put what changed with the newest report first."""
    return sorted(between, key=lambda one: one.number, reverse=True)


def _without_empty_columns(lines: list[Row]) -> list[Row]:
    head, *rows = lines
    kept = [at for at in range(len(head)) if any(row[at] for row in rows)]
    return [tuple(line[at] for at in kept) for line in lines] if rows else []
