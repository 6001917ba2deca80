"""What is said of the papers that were looked for, and of consent."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from record_builders import make_record
from result_builders import make_test, stretch

from generator.findings.finding import Finding
from generator.findings.on_papers import (
    WITHOUT,
    paper_findings,
    water_not_allowed,
)
from generator.record.around import Consent, Paper
from generator.record.check import resolved, schema
from generator.record.load import Workspace
from generator.worked import work_out

LARCH = "demo-larch-hollow"
Change = Callable[..., Workspace]


def paper(kind: str, **more: str) -> Paper:
    return Paper(at="records[0]", kind=kind, **more)


def judged(*papers: Paper) -> dict[str, Finding]:
    return {one.key: one for one in paper_findings(make_record(records=papers))}


def test_every_kind_of_the_schema_has_its_words() -> None:
    papers = schema("inspection")["properties"]["records"]
    items = resolved(papers["items"], "inspection")
    assert list(WITHOUT) == items["properties"]["kind"]["enum"]


@pytest.mark.parametrize(
    ("agrees", "weight"), [("no", "watch"), ("in part", "watch"), ("yes", "sound")]
)
def test_drawing_against_the_lot(agrees: str, weight: str) -> None:
    found = judged(
        paper(
            "as-built",
            found="yes",
            from_="county file",
            dated="June 1979",
            says="one trench of 70 ft.",
            agrees=agrees,
        )
    )["as-built-compared"]
    assert found.weight == weight
    assert found.saw == (
        "The as-built drawing was found (county file, June 1979). "
        "What is said there: one trench of 70 ft."
    )
    assert bool(found.todo) == bool(found.means) == (weight == "watch")


def test_drawing_and_lot_that_differ_are_named_so() -> None:
    [found] = judged(paper("as-built", says="x", agrees="no")).values()
    assert found.title == "The as-built drawing and the lot do not agree"
    assert found.takes_water == ""


@pytest.mark.parametrize("more", [{"found": "yes"}, {"says": "x"}, {}])
def test_a_paper_that_was_not_compared_says_nothing(more: dict[str, str]) -> None:
    assert judged(paper("permit", **more)) == {}
    assert judged(paper("permit", agrees="not compared", **more)) == {}


@pytest.mark.parametrize("kind", list(WITHOUT))
def test_a_paper_that_was_not_found_is_unseen(kind: str) -> None:
    [found] = judged(paper(kind, found="no", from_="county file")).values()
    assert found.weight == "unseen"
    assert found.title.startswith("No ")
    assert found.saw == "The inspector looked for it (county file)."
    assert found.means


def test_titles_of_what_was_not_found() -> None:
    titles = {
        one.title
        for one in judged(
            paper("as-built", found="no"), paper("water bills", found="no")
        ).values()
    }
    assert titles == {"No as-built drawing was found", "No water bills were found"}


def test_a_paper_found_elsewhere_is_not_missed() -> None:
    asked = paper("as-built", found="no", from_="county file")
    assert judged(asked, paper("as-built", says="one trench")) == {}


def test_water_that_was_not_allowed() -> None:
    consent = Consent(at="consent", run_water="no", given_by="the seller")
    [found] = water_not_allowed(make_record(consent=consent))
    assert (found.weight, found.takes_water) == ("unseen", "not shown")
    assert "did not allow it. Consent was given by: the seller." in found.saw
    test = make_test([stretch(0, 20)], [(0, 0), (25, 0)])
    assert water_not_allowed(make_record(consent=consent, load_test=test)) == []
    allowed = Consent(at="consent", run_water="yes")
    assert water_not_allowed(make_record(consent=allowed)) == []
    assert water_not_allowed(make_record()) == []


def test_water_that_was_not_allowed_is_the_reason_given(with_job: Change) -> None:
    def untested(data: dict) -> None:
        data.pop("load_test")
        data["consent"] = {"run_water": "no"}

    worked = work_out(with_job(LARCH, untested), LARCH)
    assert worked.answers[1].word == "not shown"
    assert "did not allow it" in worked.answers[1].sentence
    assert [one.key for one in worked.findings].count("load-test") == 1
