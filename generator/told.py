"""A worked-out job told in a terminal, or as data for machines."""

from __future__ import annotations

from typing import Any

from generator.pages import wording
from generator.pages.citing import citation
from generator.results.result import Result
from generator.worked import Worked


def as_data(worked: Worked) -> dict[str, Any]:
    """Give every result, finding and answer as plain data."""
    return {
        "job": worked.record.job,
        "results": [_result(worked, one) for one in worked.results.all.values()],
        "findings": [
            {
                "key": one.key,
                "part": one.part,
                "weight": one.weight,
                "title": one.title,
                "saw": one.saw,
                "means": one.means,
                "do": one.todo,
                "who": one.who,
                "by": one.by,
                "evidence": list(one.evidence),
                "source": one.source,
                "weight_before_override": one.was or None,
                "because": one.because or None,
            }
            for one in worked.findings
        ],
        "answers": [
            {"question": one.question, "answer": one.word, "sentence": one.sentence}
            for one in worked.answers
        ],
    }


def _result(worked: Worked, one: Result) -> dict[str, Any]:
    return {
        "name": one.name,
        "label": one.label,
        "value": one.value,
        "unit": one.unit,
        "uncertainty": one.uncertainty,
        "formula": one.formula,
        "working": one.working,
        "lines": _lines(worked, one),
        "source": one.source,
        "citation": citation(one.source, worked.pack).citation,
        "verdict": one.verdict,
        "assumptions": list(one.assumptions),
    }


def _lines(worked: Worked, one: Result) -> list[int]:
    return sorted({worked.record.line(path) for path in one.inputs})


def as_text(worked: Worked) -> str:
    """Tell every result with its working, then the findings, then the answers."""
    told = [f"{worked.record.job}", ""]
    for one in worked.results.all.values():
        verdict = f"   {one.verdict}" if one.verdict else ""
        told.append(f"{one.label}")
        told.append(f"    {wording.result(one)}{verdict}")
        told.append(f"    {one.working or one.formula}")
        lines = ", ".join(map(str, _lines(worked, one)))
        told.append(f"    lines {lines}; source: {one.source}")
        told.extend(f"    taken: {assumption}" for assumption in one.assumptions)
    cited = dict.fromkeys(one.source for one in worked.results.all.values())
    told += ["", "Sources"]
    told += [f"  {key}: {citation(key, worked.pack).citation}" for key in cited]
    told += ["", "Findings (weight, key, title)"]
    width = max((len(one.key) for one in worked.findings), default=0)
    told += [
        f"  {one.weight:7} {one.key:{width}}  {one.title}"
        + (f" (was {one.was}: {one.because})" if one.was else "")
        for one in worked.findings
    ]
    told += ["", "The short answer"]
    told += [f"  {one.question} {one.word}. {one.sentence}" for one in worked.answers]
    return "\n".join(told)
