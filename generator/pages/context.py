"""What the templates of one job's pages may name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from generator import __version__
from generator.codes.packs import Pack
from generator.findings.criteria import SITING
from generator.findings.finding import MEANINGS, Answer, Finding
from generator.findings.on_water import doubts
from generator.pages import (
    rows,
    rows_around,
    rows_of_area,
    rows_of_codes,
    rows_of_plan,
    rows_of_pump,
    rows_of_working,
)
from generator.pages.cautions import CAUTIONS, DISCLAIMER, cautions_for
from generator.pages.citing import cite
from generator.pages.missing import missing
from generator.pages.origin import UNKNOWN, Origin
from generator.pages.page import Picture
from generator.pages.rows_of_working import numbered
from generator.record.model import Record
from generator.results.result import Results


@dataclass(frozen=True)
class Job:
    """Everything that the pages of one job speak of.

    ``stems`` gives the published name of each photograph, without its ending;
    ``link`` is the private link, empty where it is not known; ``logo`` is the published
    name of the firm's picture, without its ending; ``digest`` is what the pages print
    as the digest of the site's evidence, empty where there is none.
    """

    record: Record
    results: Results
    findings: list[Finding]
    answers: list[Answer]
    first: list[Finding]
    pack: Pack | None
    pictures: Mapping[str, Picture]
    stems: Mapping[str, str]
    link: str = ""
    logo: str = ""
    origin: Origin = UNKNOWN
    digest: str = ""


def context_of(job: Job) -> dict[str, Any]:
    inspection = job.record.inspection
    local = job.pack.authority if job.pack else None
    return {
        "record": job.record,
        "results": job.results,
        "answers": job.answers,
        "weighed": _weighed(job.findings),
        "first": job.first,
        "then": [one for one in job.findings if one.todo and one not in job.first],
        "titles": {one.key: one.title for one in job.findings},
        **rows_of_working.told(job.record, job.results),
        "beside": rows_of_codes.beside(job.results.parts["pairs"]),
        **rows_of_plan.told(job.record, job.results),
        **rows_of_pump.told(job.record, job.results, job.findings),
        **rows_of_area.told(job.record, job.results, job.findings),
        "not_measured": rows_of_codes.not_measured(job.record, job.pack),
        "also_asked": rows_of_codes.also_asked(job.record, job.pack),
        "codes_used": rows_of_codes.used(job.record, job.pack),
        "no_local_code": rows_of_codes.without_local(job.pack),
        "codes_silent": rows_of_codes.silent(job.pack),
        "pipes": job.results.parts["pipes"],
        "pictures": _Quiet(job.pictures),
        "listed": {photo.file: photo.shows for photo in inspection.photos},
        "stems": job.stems,
        "siting": SITING,
        "disclaimer": DISCLAIMER,
        "cautions_for": cautions_for,
        "authority": inspection.property.authority or local or "the local authority",
        "version": __version__,
        "link": job.link,
        "logo": job.logo,
        "origin": job.origin,
        "digest": job.digest,
        "tank_rows": rows.tank_rows,
        "balance_rows": rows.balance_rows(job.record, job.results),
        "pump_outs": rows.pump_outs(job.results),
        "test_results": rows.test_results(job.results),
        "test_finding": _test_finding(job),
        "household_rows": rows.household_rows(inspection.household),
        "missing": missing(job.record),
        "consent": inspection.consent,
        "consent_rows": rows_around.consent_rows(inspection.consent),
        "paper_table": rows_around.paper_table(inspection.records),
        "walk": inspection.walkover,
        "walk_rows": rows_around.walk_rows(inspection.walkover),
        "report_table": rows_around.report_table(inspection.reports),
        "between": rows_around.newest_first(job.origin.between),
        "doubts": _doubts(job),
        "verdicts": rows.sight_verdicts(job.results),
        "unseen": [f for f in job.findings if f.weight == "unseen"],
        "overridden": [f for f in job.findings if f.was],
        "assumptions": _assumptions(job.results),
        "cited_besides": _cited_besides(job),
        "source": lambda key: cite(key, job.pack),
    }


def _weighed(findings: list[Finding]) -> list[tuple[str, str, list[Finding]]]:
    grouped = (
        (weight, meaning, [one for one in findings if one.weight == weight])
        for weight, meaning in MEANINGS.items()
    )
    return [group for group in grouped if group[2]]


class _Quiet(dict[str, Picture]):
    """A mapping that gives None for a figure that was not drawn."""

    def __missing__(self, key: str) -> None:
        return None


def _test_finding(job: Job) -> Finding | None:
    return next((one for one in job.findings if one.key == "load-test"), None)


def _doubts(job: Job) -> list[str]:
    test, worked = job.record.inspection.load_test, job.results.parts["load_test"]
    finding = _test_finding(job)
    if test is None or worked is None or finding is None or finding.takes_water == "no":
        return []
    return list(doubts(job.record, test, worked))


def _assumptions(results: Results) -> list[str]:
    found = (text for one in results.all.values() for text in one.assumptions)
    return list(dict.fromkeys(found))


def _cited_besides(job: Job) -> list[str]:
    def keys() -> Iterator[str]:
        for finding in job.findings:
            yield finding.source
        for caution in CAUTIONS:
            yield caution.source

    return sorted({key for key in keys() if key} - set(numbered(job.results)))
