"""One job from its file to its five answers, with nothing drawn or published yet."""

from __future__ import annotations

from dataclasses import dataclass

from generator.codes.layers import code_for
from generator.codes.packs import Pack
from generator.findings.answers import answers
from generator.findings.finding import Answer, Finding
from generator.findings.judge import judge
from generator.record.load import Workspace, load
from generator.record.model import Record
from generator.results.compute import compute
from generator.results.result import Results


@dataclass(frozen=True)
class Worked:
    """A job with all that was worked out and judged."""

    record: Record
    pack: Pack | None
    results: Results
    findings: list[Finding]
    answers: list[Answer]


def work_out(workspace: Workspace, job: str) -> Worked:
    """Take a job from its file to its five answers.

    Parameters
    ----------
    workspace : Workspace
        The firm's folder.
    job : str
        Name of the job.

    Returns
    -------
    Worked
        Record, results, findings and answers.

    Raises
    ------
    Refused
        With every problem of the job.
    """
    record = load(workspace, job)
    pack = code_for(record)
    results = compute(record, pack)
    findings = judge(record, results, pack)
    return Worked(record, pack, results, findings, answers(findings, results))
