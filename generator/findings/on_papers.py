"""Rules on papers and consent: what the file knew, and what nobody allowed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from generator.findings.finding import Finding, noted
from generator.record.around import Paper
from generator.record.model import Record

PAPERS = "papers"
AGREES = {  # weight, and how the title ends
    "no": ("watch", "and the lot do not agree"),
    "in part": ("watch", "and the lot agree only in part"),
    "yes": ("sound", "and the lot agree"),
}
NAMES = {  # the words of the schema that need more than themselves in a title
    "as-built": "as-built drawing",
    "other": "other paper",
}
DIFFERS: dict[str, Any] = {  # what it means that paper and lot differ, and what to do
    "means": "The system may have been changed since, or was not built as it stands on "
    "paper. This report goes by what was found on the lot.",
    "todo": "Have the file set right with what was found, and ask the local authority "
    "before any work or sale leans on the paper.",
    "who": "the owner, with the local authority",
    "by": "before any work or sale",
    "source": "practice",
}
WITHOUT = {  # what it means that a paper was not found
    "permit": "Many older systems were built before anyone asked for one, and files "
    "get lost. The local authority can say what that means for this lot.",
    "as-built": "Many older systems were never drawn. Where the parts lie is known "
    "only as far as they were found at this visit.",
    "earlier report": "Nothing was there to hold this visit against; this report can "
    "be the first of a row.",
    "pump-out receipt": "When the tank was last emptied is then known only by what "
    "people remember, if at all.",
    "service contract": "Parts that move need someone who looks after them. Ask who "
    "did so until now.",
    "well log": "How deep the well is and how it is sealed is not known from paper.",
    "water bills": "How much water the house uses could not be told from bills.",
    "other": "This report goes by what was seen at the visit.",
}


def paper_findings(record: Record) -> Iterator[Finding]:
    """Judge the papers that were looked for."""
    papers = record.inspection.records
    found = {one.kind for one in papers if _was_found(one)}
    for paper in papers:
        if paper.found == "no":
            if paper.kind not in found:
                yield _not_found(paper)
        elif paper.agrees in AGREES:
            yield _compared(paper, *AGREES[paper.agrees])


def _name(paper: Paper) -> str:
    return NAMES.get(paper.kind, paper.kind)


def _was_found(paper: Paper) -> bool:
    return paper.found == "yes" or (paper.found is None and paper.says is not None)


def _from(paper: Paper) -> str:
    """Tell who holds a paper and its date."""
    told = ", ".join(one for one in (paper.from_, paper.dated) if one)
    return f" ({told})" if told else ""


def _verb(paper: Paper) -> str:
    return "were" if paper.kind.endswith("s") else "was"


def _compared(paper: Paper, weight: str, ends: str) -> Finding:
    name = _name(paper)
    common = Finding(
        key=_key(paper, "compared"),
        part=PAPERS,
        weight=weight,
        title=f"The {name} {ends}",
        saw=f"The {name} {_verb(paper)} found{_from(paper)}."
        + noted(paper.says and f"what is said there: {paper.says}")
        + noted(paper.note),
    )
    return common if weight == "sound" else replace(common, **DIFFERS)


def _key(paper: Paper, what: str) -> str:
    return f"{paper.kind.replace(' ', '-')}-{what}"


def _not_found(paper: Paper) -> Finding:
    return Finding(
        key=_key(paper, "not-found"),
        part=PAPERS,
        weight="unseen",
        title=f"No {_name(paper)} {_verb(paper)} found",
        saw=f"The inspector looked for it{_from(paper)}.{noted(paper.note)}",
        means=WITHOUT[paper.kind],
    )


def water_not_allowed(record: Record) -> list[Finding]:
    """Say that no water was run because nobody allowed it; it stands for the test."""
    inspection = record.inspection
    consent = inspection.consent
    tested = inspection.load_test or inspection.two_day_test
    if consent is None or consent.run_water != "no" or tested:
        return []
    return [
        Finding(
            key="load-test",
            part="load test",
            weight="unseen",
            title="No water was run, because that was not allowed",
            saw="Water was not run into the system, because the owner did not allow it."
            + noted(consent.given_by and f"consent was given by: {consent.given_by}"),
            means="This is no fault of the system. Whether it takes the water of a "
            "house was not tried.",
            todo="Ask the owner to allow a load test, and have it made then.",
            who="the client; then a septic inspector",
            by="before the sale closes",
            takes_water="not shown",
        )
    ]
