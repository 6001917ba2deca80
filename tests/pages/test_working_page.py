"""The page of workings: all of every number, and what many share said once."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from generator.pages.rows import SUBJECTS
from generator.pages.series import Series, grouped, pattern
from generator.pages.wording import anchor, plain, sentence
from generator.record.load import Workspace
from generator.results.result import Result
from generator.worked import Worked, work_out
from tests.pages.composed import composed, texts

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
JOBS = (LARCH, CATTAIL)
BARE = "draft-required-keys-only"
GOOD = Path(__file__).parents[1] / "jobs" / "good"
PLACE = re.compile(r"\{: #([\w-]+)")


@pytest.fixture(params=JOBS)
def job(request: Any, workspace: Workspace) -> Worked:
    """Each demonstration in turn."""
    return work_out(workspace, request.param)


def parts(worked: Worked) -> dict[str, str]:
    """Give the text of every section of the page, by its title."""
    page = texts(worked)["working"]
    titles = re.findall(r"^## (.+?)(?: \{.*)?$", page, re.M)
    return dict(zip(titles, re.split(r"^## .+$", page, flags=re.M)[1:], strict=True))


def entries(part: str) -> list[str]:
    """Give every entry of a section with its heading."""
    return ["### " + one for one in part.split("\n### ")[1:]]


def entry(page: str, label: str) -> str:
    """Find the one entry under a heading."""
    [found] = [one for one in entries(page) if one.startswith(f"### {label} ")]
    return found.partition("\n</details>")[0].strip()


def test_every_number_stands_with_its_working_and_its_lines(job: Worked) -> None:
    page = texts(job)["working"]
    for one in job.results.all.values():
        [found] = [e for e in entries(page) if f"{{: #{anchor(one.name)} }}" in e]
        assert str(plain(one.working)) in found
        assert str(plain(one.formula)) in found
        lines = sorted({job.record.line(path) for path in one.inputs})
        told = f"line{'s' * (len(lines) > 1)} {', '.join(map(str, lines))}"
        assert f"*From:* {told} of the job file." in found or f" · {told}\n" in found
        assert one.verdict in found
        for symbol in one.symbols:
            assert f"{symbol.name} = " in found
        assert "*Source:* [" in found


def test_what_is_taken_stands_once_under_its_subject(job: Worked) -> None:
    told = parts(job)
    for key, title in SUBJECTS.items():
        found = job.results.under(f"{key}.")
        taken = Counter(text for one in found for text in one.assumptions)
        for text in taken:
            # One may hold the words of another: each ends with a stop or a semicolon.
            once = re.escape(str(plain(text)))
            either = f"(?:{once}|{re.escape(str(plain(sentence(text))))})[.;]"
            assert len(re.findall(rf"(?:- |; |:\*? ){either}", told[title])) == 1


def test_what_is_taken_for_some_is_told_where_its_sign_stands(
    workspace: Workspace,
) -> None:
    part = parts(work_out(workspace, LARCH))["Places on the plan"]
    head = part.partition("### ")[0]
    assert "**Taken throughout this subject:**\n\n- How this was measured" in head
    assert (
        "- *i*: the pipe is taken to run straight from point to point of the plan.\n"
        "{: #taken-place-i }\n"
    ) in head
    told = [one for one in entries(part) if "](#taken-place-i)" in one]
    assert [one[4:6] for one in told] == ["P1", "P2"]
    alone = "; beyond F1 the last leg of the pipe is drawn on."
    assert f"*Taken:* [i](#taken-place-i){alone}" in entry(
        part, "P2, end of the trench by the as-built"
    )


def test_a_place_is_one_entry_with_its_figures(workspace: Workspace) -> None:
    page = texts(work_out(workspace, LARCH))["working"]
    assert entry(page, "L1, inlet cover of the tank") == (
        "### L1, inlet cover of the tank {: #place-l1-x }\n\n"
        "East of A: **13.0\u00a0±\u00a00.5\u00a0ft**\n"
        "<br>x = 0 + (12.04 × (63.76 − 0) − 12.01 × (-5.578 − 0)) / 64 = 13.04 ft\n\n"
        "North of A: **10.9\u00a0±\u00a00.6\u00a0ft**\n"
        "<br>y = 0 + (12.04 × (-5.578 − 0) + 12.01 × (63.76 − 0)) / 64 = 10.91 ft\n"
        "{: #place-l1-y }\n\n"
        "How far it may be off, half the long axis of its standard ellipse: "
        "**0.37\u00a0ft**\n"
        "{: #place-l1-give-or-take }\n\n"
        "*Formula:* x = x1 + (a × (x2 − x1) − b × (y2 − y1)) / d; "
        "y = y1 + (a × (y2 − y1) + b × (x2 − x1)) / d, with x1 = 0\u00a0ft, "
        "y1 = 0\u00a0ft, x2 = 63.8\u00a0ft, y2 = −5.58\u00a0ft, d = 64\u00a0ft, "
        "a = 12\u00a0ft, b = 12\u00a0ft. *Source:* [1](#source-1)\n"
        "<br>*Formula:* √((xx + yy) / 2 + √(((xx − yy) / 2)² + xy²)), with "
        "xx = 0.05\u00a0ft², xy = −0.05\u00a0ft², yy = 0.11\u00a0ft². "
        "*Source:* [2](#source-2)\n"
        "<br>*From:* lines 51, 55 of the job file.\n"
        "{: .how data-search-exclude=1 }"
    )


def test_readings_in_a_row_are_one_entry(workspace: Workspace) -> None:
    page = texts(work_out(workspace, LARCH))["working"]
    found = entry(page, "Passed on by …").splitlines()
    assert found[:5] == [
        "### Passed on by … {: #load-test-reading-1-passed }",
        "",
        "- 10:02 am: **0\u00a0gal** · line 91",
        "<br>Vout = 0 - 0 - 0 = 0 gal, with Vin = 0\u00a0gal, Vfill = 0\u00a0gal, "
        "Vup = 0\u00a0gal",
        "- 10:10 am: **12\u00a0±\u00a05\u00a0gal** · line 92",
    ]
    assert "{: #load-test-reading-2-passed }" in found
    assert "### Passed on from …, a minute {: #load-test-reading-2-rate }" in page
    assert "- 10:02 am to 10:10 am: **" in page


def reading(label: str, name: str = "a.reading.1.b") -> Result:
    return Result(name, label, 1.0, "ft", "as read")


@pytest.mark.parametrize(
    ("labels", "series"),
    [
        (
            ["Water at 1 ft", "Water at 2 ft 6 in", "Water at 3 ft"],
            Series("Water at …", ("1 ft", "2 ft 6 in", "3 ft")),
        ),
        (
            ["From 1:00 pm, so", "From 2:00 pm, so", "From 3:00 pm, so"],
            Series("From …, so", ("1:00 pm", "2:00 pm", "3:00 pm")),
        ),
        (
            ["Water at 1 ft", "Water at 2 ft", "Water at 3 ft"],
            Series("Water at …", ("1 ft", "2 ft", "3 ft")),
        ),
        (["Water at 1 ft", "Water at 2 ft"], None),
        (["Water at 1 ft", "Air at 2 ft", "Soil at 2 ft"], None),
        (["Water", "Water at 2 ft", "Water at 3 ft"], None),
    ],
)
def test_what_labels_have_in_common(labels: list[str], series: Series | None) -> None:
    assert pattern([reading(label) for label in labels]) == series


def test_a_number_inside_a_name_counts_nothing() -> None:
    names = ["place.L1.x", "place.L2.x", "place.L3.x"]
    found = [reading(f"East of {name[6:8]} here", name) for name in names]
    assert grouped(found) == [(one,) for one in found]


def test_a_letter_of_many_formulas_is_explained_at_the_head(job: Worked) -> None:
    told = parts(job)
    for key, title in SUBJECTS.items():
        for one in job.results.under(f"{key}."):
            for symbol in one.symbols:
                meaning = str(plain(symbol.meaning))
                head, _, rest = told[title].partition("### ")
                beside = f" ({meaning})" in rest
                of_a_row = f"{symbol.name} = {meaning}" in rest
                in_head = f"{symbol.name} = {meaning}" in head
                assert in_head != (beside or of_a_row), symbol


def test_each_source_is_numbered_and_stands_once(job: Worked) -> None:
    made = texts(job)
    listed = parts(job)["Sources"]
    count = len({one.source for one in job.results.all.values()})
    assert re.findall(r"^(\d+)\. ", listed, re.M) == [
        str(at) for at in range(1, count + 1)
    ]
    for url in re.findall(r"\]\((http[^)]*)\)", listed):
        assert made["working"].count(f"({url})") == listed.count(f"({url})")
        record = made["record"].partition("## Sources")[2]
        assert record.count(f"({url})") <= 1
    sources = [line[2:] for line in made["record"].splitlines() if line[:2] == "- "]
    assert not {line.partition(". ")[2] for line in listed.splitlines()} & set(sources)
    assert (
        "at the end of [how the numbers were worked out](working.md#sources)"
        in (made["record"])
    )


def test_every_link_to_a_working_lands(job: Worked) -> None:
    made = {name: page.markdown for name, page in composed(job).items()}
    places = PLACE.findall(made["working"])
    assert len(places) == len(set(places))
    inside = set(re.findall(r"\]\(#([\w-]+)\)", made["working"]))
    assert "source-1" in inside
    from_others = {
        spot
        for text in made.values()
        for spot in re.findall(r"working\.md#([\w-]+)", text)
    }
    assert len(from_others) > 30
    assert inside | from_others <= set(places)


def test_a_job_without_numbers_lists_its_sources_in_the_record(
    workspace: Workspace,
) -> None:
    shutil.copy(GOOD / f"{BARE}.yaml", workspace.job_file(BARE))
    made = texts(work_out(workspace, BARE))
    assert "working" not in made
    assert "\n## Sources\n\n- " in made["record"]
