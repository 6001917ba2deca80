"""The record page with consent, papers, the walk and the reports; what is open."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from html import unescape

import markdown
import pytest

from generator.findings.answers import first_to_do
from generator.pages.compose import compose
from generator.pages.context import Job
from generator.pages.missing import in_words, missing
from generator.pages.origin import UNKNOWN, Between, Origin
from generator.record.check import key_paths
from generator.record.load import Workspace
from generator.record.todo import Cost, Item
from generator.worked import Worked, work_out
from tests.pages.composed import plain
from tests.pages.composed import texts as pages
from tests.pages.test_reading_level import HARDEST, grade

LARCH = "demo-larch-hollow"
EXTENSIONS = ["admonition", "attr_list", "md_in_html", "tables", "toc"]
Change = Callable[..., Workspace]


def in_a_file(text: str) -> str:
    """Double each line break, since a quoted text of a file folds them."""
    return re.sub(r"\n+", lambda found: f"{found[0]}\n", text)


def rendered(page: str) -> str:
    return re.sub(r">\s+<", "><", markdown.markdown(page, extensions=EXTENSIONS))


def filled(data: dict) -> None:
    data["consent"] = {
        "given_by": "the *seller* | <b>",
        "run_water": "yes",
        "utilities": "not marked",
        "note": in_a_file("Two wishes:\n- the rose bed stays\n- no mud"),
    }
    data["records"] = [
        {"kind": "as-built", "from": "county file", "says": "70 ft", "agrees": "no"},
        {"kind": "permit", "found": "no"},
    ]
    data["walkover"] = {
        "walked": "the back lot",
        "sewage_on_ground": "no",
        "vehicles": "yes",
        "signs": [
            {"sign": "vehicles", "where": "tracks | <i>"},
            {"sign": "vehicles", "where": "a trailer"},
        ],
    }
    data["reports"] = [{"number": 1, "date": "2026-10-07", "reason": "first report"}]


def bare(data: dict) -> None:
    for key in ("consent", "records", "walkover", "reports"):
        data.pop(key, None)


def made(workspace: Workspace) -> dict[str, str]:
    return pages(work_out(workspace, LARCH))


def test_what_is_there_stands_on_the_record_page(with_job: Change) -> None:
    page = made(with_job(LARCH, filled))["record"]
    for line in (
        "| Given by | the <em>seller</em> &#124; &#60;b&#62; |",
        "| Running water | allowed |",
        "| Utilities | not marked before anyone probed or dug |",
        "| Kind | Found | From | Says | Agrees |",
        "| as-built | – | county file | 70 ft | no |",
        "| permit | no | – | – | – |",
        "| Sewage on the ground | no | – |",
        "| Vehicles | yes | tracks &#124; &#60;i&#62;; a trailer |",
        "| Number | Date | Reason |",
        "| 1 | October 7, 2026 | first report |",
        "Walked: the back lot",
        "<ul><li>the rose bed stays</li><li>no mud</li></ul>",
    ):
        assert f"\n{line}\n" in page
    assert "Opening and digging" not in page
    assert rendered(page).count("<table>") == 5


def test_what_is_not_there_leaves_no_trace(with_job: Change) -> None:
    page = made(with_job(LARCH, bare))["record"]
    for title in ("Consent", "Papers", "## The walk", "Reports given"):
        assert title not in page


DIGEST = "5e" * 32
COMMIT = "3f" * 20
CHECK = "## How to check this report {: #how-to-check }\n"


def told_of(worked: Worked, origin: Origin, digest: str = DIGEST) -> dict[str, str]:
    """Compose the pages of a job whose place in the history is known."""
    job = Job(
        record=worked.record,
        results=worked.results,
        findings=worked.findings,
        answers=worked.answers,
        first=first_to_do(worked.findings),
        pack=worked.pack,
        pictures={},
        stems={photo.file: "photo" for photo in worked.record.inspection.photos},
        origin=origin,
        digest=digest,
    )
    return {page.path.removesuffix(".md"): plain(page) for page in compose(job)}


def section(page: str, title: str) -> str:
    """Give a section of a page up to the next one of its level."""
    assert page.count(title) == 1
    return page.partition(title)[2].partition("\n## ")[0].strip()


def test_what_changed_with_each_report_is_told_newest_first(with_job: Change) -> None:
    origin = Origin(
        between=(
            Between(2, ("Sludge: was *11 in*, now 14 in.", "1. <b>"), ("- Pump\nit.",)),
            Between(3, ()),
            Between(4, (), ("Rounded otherwise.",)),
        )
    )
    page = told_of(work_out(with_job(LARCH, filled), LARCH), origin)["record"]
    assert section(page, "## Reports given\n").partition("</div>")[2].strip() == (
        """\
### What changed with report 4

Nothing in the record changed, but this came out differently:

- Rounded otherwise.

### What changed with report 3

Nothing in the record changed.

### What changed with report 2

Changed in the record:

- Sludge: was &#42;11 in&#42;, now 14 in.
- 1&#46; &#60;b&#62;

What came out differently because of it:

- &#45; Pump it."""
    )


def test_changes_are_told_where_no_report_is_listed(with_job: Change) -> None:
    worked = work_out(with_job(LARCH, bare), LARCH)
    page = told_of(worked, Origin(between=(Between(2, ()),)))["record"]
    assert section(page, "## Reports given\n") == (
        "### What changed with report 2\n\nNothing in the record changed."
    )


@pytest.mark.parametrize(
    ("origin", "row"),
    [
        (
            Origin(commit=COMMIT, report=1),
            f'| Commit of the job file | <code class="address">{COMMIT}</code> |\n',
        ),
        (
            Origin(why_not="It is in no <commit> yet."),
            "| Job file | It is in no &#60;commit&#62; yet. |\n",
        ),
        (UNKNOWN, ""),
    ],
)
def test_the_page_says_how_to_check_the_report(
    workspace: Workspace, origin: Origin, row: str
) -> None:
    page = told_of(work_out(workspace, LARCH), origin)["record"]
    table, _, words = section(page, CHECK).partition("</div>")
    printed = f'<code class="address digest">{DIGEST}</code>'
    assert table.partition("|--|--|\n")[2].strip() == (
        f"{row}| Digest of record.json | {printed} |"
    )
    assert words.strip() == (
        "A digest (SHA-256) is a row of 64 digits and letters worked out from a file. "
        "It changes when the file does. The file [record.json](record.json) lists the "
        "digest of every file of this report and of everything it was made from. If "
        "its own digest is the one printed here, and each file has the digest that it "
        "lists, nothing was changed since. It also says how to work them out. Whoever "
        "changes a page could print another number on it: compare it with your copy on "
        "paper, or ask the firm to check."
    )
    assert grade(words.replace("[record.json](record.json)", "record")) <= HARDEST


def test_paper_prints_the_digest_and_leads_to_no_file(workspace: Workspace) -> None:
    page = told_of(work_out(workspace, LARCH), UNKNOWN)["paper"]
    row = (
        f'| Digest of record.json | <code class="address digest">{DIGEST}</code> '
        "([how to check this report](#record-how-to-check)) |\n"
    )
    assert page.count(row) == 1
    assert page.count(DIGEST) == 2
    assert "### How to check this report {: #record-how-to-check }\n" in page
    assert "The file record.json lists the digest" in page
    assert "](record.json)" not in page


def test_without_evidence_nothing_is_said_of_it(workspace: Workspace) -> None:
    found = told_of(work_out(workspace, LARCH), Origin(commit=COMMIT), digest="")
    for page in found.values():
        assert "record.json" not in page
        assert "how-to-check" not in page


@pytest.mark.parametrize(
    ("path", "words"),
    [
        ("tanks[0].liquid_depth", "tank 1: Liquid depth"),
        ("tanks[1]", "tank 2"),
        ("consent.given_by", "consent: Given by"),
        ("reports[0].date", "report given 1: Date"),
        ("", ""),
        ("tanks[0].no_such_key", "tank 1: no such key"),
    ],
)
def test_a_path_in_words(path: str, words: str) -> None:
    assert in_words(path) == words


def test_every_path_of_the_schema_has_words() -> None:
    for path in key_paths("inspection"):
        words = in_words(path.replace("[]", "[0]"))
        assert words
        assert "_" not in words


def with_open(worked: Worked, *items: Item) -> Worked:
    return replace(worked, record=replace(worked.record, open_items=items))


def test_a_draft_lists_what_is_open_on_its_first_page(workspace: Workspace) -> None:
    worked = work_out(workspace, LARCH)
    items = [
        Item(Cost.OPEN, "tanks[0].sludge", "Sludge: how thick it is."),
        *(Item(Cost.DESK, "visit.end", f"Thing <{n}>.") for n in range(14)),
    ]
    found = with_open(worked, *items)
    assert missing(found.record)[0] == "Tank 1: Sludge: how thick it is."
    page = pages(found)["index"]
    assert "- Tank 1: Sludge: how thick it is.\n- Thing &#60;0&#62;.\n" in page
    assert "- Thing &#60;10&#62;.\n- and 3 more\n" in page
    assert "&#60;11&#62;" not in page
    assert "Still open" not in pages(found)["record"]


def test_nothing_open_leaves_no_list(workspace: Workspace) -> None:
    page = pages(with_open(work_out(workspace, LARCH)))["index"]
    assert "Still open" not in page


def test_twelve_open_things_are_all_shown(workspace: Workspace) -> None:
    items = [Item(Cost.DESK, "visit.end", f"Thing {n}.") for n in range(12)]
    page = pages(with_open(work_out(workspace, LARCH), *items))["index"]
    assert "Thing 11." in page
    assert "more\n" not in page.partition("# The short answer")[0]


def test_blocks_of_a_finding_stay_inside_it(with_job: Change) -> None:
    def listed(data: dict) -> None:
        data["findings"][0].update(
            saw=in_a_file("Asked:\n- owners\n- {: .danger }\n\n# <b>no</b>"),
            do=in_a_file("Test for:\n1. bacteria\n2. nitrate"),
            who="A laboratory.",
            by="today",
        )
        data["client"].update(asks=in_a_file("Two things:\n- one\n- two"))
        data["client"].update(answer=in_a_file("- yes\n- no"))

    found = made(with_job(LARCH, listed))
    html = unescape(rendered(found["findings"]))
    assert "<ul><li>owners</li><li>{: .danger }</li></ul><p># <b>no</b></p>" in html
    assert "<ol><li>bacteria</li><li>nitrate</li></ol>" in html
    assert "<em>Who:</em> A laboratory. <em>By:</em>" in html
    assert html.count("<section") == html.count("</section>")
    assert "<b>" not in rendered(found["findings"])
    index = rendered(found["index"])
    assert "<ul><li>one</li><li>two</li></ul>" in index
    assert "<ul><li>yes</li><li>no</li></ul>" in index
