"""Every rule in turn, the inspector's own findings, and the inspector's last word."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from generator.codes.packs import Pack
from generator.findings.answers import NOT_SEEN, WATER_TESTS
from generator.findings.finding import WEIGHTS, Finding
from generator.findings.on_absorption import EMPTY_SPACE, absorption_findings
from generator.findings.on_cesspool import cesspool_findings
from generator.findings.on_depth import depth_findings
from generator.findings.on_distance import distance_findings
from generator.findings.on_distribution import distribution_findings
from generator.findings.on_papers import paper_findings, water_not_allowed
from generator.findings.on_pipes import pipe_findings
from generator.findings.on_pump import pump_findings
from generator.findings.on_silence import silence_findings
from generator.findings.on_tank import tank_findings
from generator.findings.on_tank_kinds import (
    instead_of_a_load_test,
    tank_kind_findings,
)
from generator.findings.on_tank_size import tank_size_findings
from generator.findings.on_walkover import walkover_findings
from generator.findings.on_water import load_test_findings, two_day_findings
from generator.problems import Problem, Refused
from generator.record.model import Record
from generator.results.result import Results


def judge(record: Record, results: Results, pack: Pack | None) -> list[Finding]:
    """Judge a job.

    Parameters
    ----------
    record : Record
        The checked job.
    results : Results
        What was worked out from it.
    pack : Pack or None
        The local code.

    Returns
    -------
    list of Finding
        Worst first; equal weights by place, in the order of the visit.

    Raises
    ------
    Refused
        Where an override names a finding that does not exist.
    """
    found = [
        *tank_findings(record, results),
        *tank_kind_findings(record, results),
        *tank_size_findings(results),
        *pipe_findings(results),
        *distribution_findings(record, results, pack),
        *pump_findings(record, results),
        *absorption_findings(record, results, pack),
        *cesspool_findings(record, results, pack),
        *(
            instead_of_a_load_test(record, results)
            or water_not_allowed(record)
            or load_test_findings(record, results)
        ),
        *two_day_findings(record, results),
        *depth_findings(record, results),
        *distance_findings(record, results, pack),
        *walkover_findings(record),
        *paper_findings(record),
        *silence_findings(record, results),
        *_own(record),
        *_not_seen(record),
    ]
    found = list(_distinct(found))
    _known(record, found)
    if any(finding.takes_water == "no" for finding in found):
        found = [
            _no_more_water(finding) for finding in found if finding.key != EMPTY_SPACE
        ]  # a system that takes no water leaves nothing open about its soil
    weighed = [_weighed(record, finding) for finding in found]
    return sorted(weighed, key=_by_weight_and_place(found))


def _by_weight_and_place(found: list[Finding]) -> Callable[[Finding], tuple[int, int]]:
    """Rank by weight, then by place: the rules go through the lot as a visit does."""
    places = list(dict.fromkeys(finding.part for finding in found))
    return lambda one: (WEIGHTS.index(one.weight), places.index(one.part))


def _distinct(found: list[Finding]) -> Iterator[Finding]:
    seen: dict[str, int] = {}
    for finding in found:
        count = seen[finding.key] = seen.get(finding.key, 0) + 1
        yield finding if count == 1 else replace(finding, key=f"{finding.key}-{count}")


def _no_more_water(finding: Finding) -> Finding:
    """Nobody runs more water into a system that is known not to take it."""
    is_open = finding.key in WATER_TESTS and finding.takes_water == "not shown"
    return replace(finding, todo="") if is_open else finding


def _own(record: Record) -> Iterator[Finding]:
    for number, one in enumerate(record.inspection.findings, 1):
        yield Finding(
            key=f"own-{number}",
            part=one.part,
            weight=one.weight,
            title=one.title,
            saw=one.saw,
            means=one.means or "",
            todo=one.do or "",
            who=one.who or "",
            by=one.by or "",
            photos=(one.photo,) if one.photo else (),
            takes_water=one.takes_water or "",
            own=True,
        )


def _not_seen(record: Record) -> Iterator[Finding]:
    for number, one in enumerate(record.inspection.not_seen, 1):
        yield Finding(
            key=f"not-seen-{number}",
            part=one.what,
            weight="unseen",
            title=f"{NOT_SEEN}{one.what}",
            saw=f"{one.because[:1].upper()}{one.because[1:].rstrip('.')}.",
            own=True,
        )


def _known(record: Record, found: list[Finding]) -> None:
    keys = {finding.key for finding in found if not finding.own}
    problems = [
        Problem(
            f"inspections/{record.job}.yaml",
            record.line(one.path("finding")),
            one.path("finding"),
            f'No finding is called "{one.finding}".',
            f"The findings here: {', '.join(sorted(keys))}.",
        )
        for one in record.inspection.overrides
        if one.finding not in keys
    ]
    if problems:
        raise Refused(problems)


def _weighed(record: Record, finding: Finding) -> Finding:
    for one in record.inspection.overrides:
        if one.finding == finding.key and not finding.own:
            return replace(
                finding, weight=one.weight, was=finding.weight, because=one.because
            )
    return finding
