"""A published report is what was given, or each thing that differs is named."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from generator.cli_verify import verify
from generator.pipeline import Order, build
from generator.record.load import Workspace
from generator.verify import verdict
from generator.verify.pages import first_difference
from generator.verify.rebuild import Rebuilt, Wanted, rebuild
from generator.website.evidence import BLANK, PRINTED_IN
from generator.website.evidence_check import differences
from generator.website.links import folder_name

ROOT = Path(__file__).resolve().parents[2]
SECRET = "a secret for tests only, never a client's"
TODAY = "2026-10-10"
LARCH, ELM, OAK = "demo-larch-hollow", "elm", "oak"
DEMONSTRATION = re.compile(r"^demonstration:.*\n(?:[ \t].*\n)*", re.MULTILINE)
FIRM = """\
name: Elm Inspections (invented)
phone: 555-0100
reports_at: https://reports.elm.example
"""
OAK_FILE = """\
state: draft
visit: {date: 2026-09-01, inspector: E. Example (invented)}
client: {name: A. Client (invented), role: buyer}
property: {address: 14 Oak Road, place: Oak Flat (invented), bedrooms: 3,
  code: us-or, water_supply: public water}
"""
NOT_SEEN = """\
not_seen:
  - {what: tank, because: it lies below a deck}
  - {what: load test, because: the water was off}
  - {what: walk, because: snow lay on the lot}
reports:
"""
FIRST = "  - {number: 1, date: 2026-09-03, reason: the inspection}\n"
SECOND = "  - {number: 2, date: 2026-09-09, reason: the owner counted again}\n"
ELM_FILE = OAK_FILE.replace("draft", "final").replace("Oak", "Elm")
ELM_FILE += "photos:\n  - {file: lid.jpg, shows: The lid}\n" + NOT_SEEN + FIRST
AMENDED = ELM_FILE.replace("bedrooms: 3", "bedrooms: 4") + SECOND
PICTURE = "photos/photo-01-large.jpg"
CHANGED = "{} was changed: its digest is not the one in record.json."


class Firm:
    """A firm's folder with a scripted history."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.workspace = Workspace(root)
        self.public = root / "public"

    def git(self, *words: str) -> str:
        done = subprocess.run(
            ["git", *words],
            cwd=self.root,
            env={**os.environ, **IDENTITY},
            capture_output=True,
            check=True,
        )
        return done.stdout.decode().strip()

    def put(self, job: str, text: str) -> None:
        file = self.workspace.job_file(job)
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")

    def commit(self, job: str = "", text: str = "") -> str:
        """Commit what stands there, one job file changed before."""
        if job:
            self.put(job, text)
        self.git("add", "inspections")
        self.git("commit", "-q", "-m", "Work")
        return self.git("rev-parse", "HEAD")

    def publish(self, *jobs: str) -> None:
        order = Order(jobs or self.workspace.jobs(), self.public, TODAY)
        build(self.workspace, order, lambda _: None)

    def site(self, job: str) -> Path:
        return self.public / folder_name(SECRET.encode(), job, 1)


IDENTITY = {
    **{f"GIT_{one}_NAME": "E. Example (invented)" for one in ("AUTHOR", "COMMITTER")},
    **{f"GIT_{one}_EMAIL": "e@elm.example" for one in ("AUTHOR", "COMMITTER")},
    **{f"GIT_{one}_DATE": "2026-09-10T12:00:00Z" for one in ("AUTHOR", "COMMITTER")},
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_NOSYSTEM": "1",
}


@pytest.fixture(autouse=True)
def _secret(monkeypatch: pytest.MonkeyPatch, _link_secret: None) -> None:
    monkeypatch.setenv("ONLOT_LINK_SECRET", SECRET)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Firm:
    """Three jobs, each published: elm with its second report, oak without one."""
    firm = Firm(tmp_path_factory.mktemp("made") / "firm")
    inspections = firm.workspace.inspections
    shutil.copytree(ROOT / "inspections" / LARCH, inspections / LARCH)
    text = (ROOT / "inspections" / f"{LARCH}.yaml").read_text("utf-8")
    firm.put(LARCH, DEMONSTRATION.sub("", text))
    firm.put(OAK, OAK_FILE)
    firm.put("firm", FIRM)
    (inspections / ELM).mkdir()
    Image.new("RGB", (64, 48), "#887766").save(inspections / ELM / "lid.jpg")
    firm.git("init", "-q")
    firm.commit(ELM, ELM_FILE)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("ONLOT_LINK_SECRET", SECRET)
        firm.publish(ELM)
        shutil.copytree(firm.site(ELM), firm.root.parent / "first")
        firm.commit(ELM, AMENDED)
        firm.publish()
    return firm


@pytest.fixture
def firm(made: Firm, tmp_path: Path) -> Firm:
    """A copy of the firm and of what it published, for one test."""
    shutil.copytree(made.root, tmp_path / "firm")
    return Firm(tmp_path / "firm")


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Rebuilt]:
    """Rebuild what was rebuilt before from the same commit only once."""
    known: dict[str, Rebuilt] = {}

    def again(workspace: Workspace, wanted: Wanted, folder: Path) -> Rebuilt:
        versions = {key: wanted.made_of.get(key) for key in ("python", "libraries")}
        key = repr((wanted.job, wanted.commit, wanted.name, versions))
        if key not in known:
            place = tmp_path_factory.mktemp("rebuilt")
            known[key] = rebuild(workspace, wanted, place)
        return known[key]

    return again


@pytest.fixture
def quick(once: Callable[..., Rebuilt], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(verdict, "rebuild", once)


def told(firm: Firm, what: object, *words: str) -> dict:
    """Verify one report; hold that the exit code says what the answer says."""
    asked = [str(what), "--json", *words]
    answer = CliRunner().invoke(verify, asked, obj=firm.workspace)
    assert answer.output.startswith("{"), answer.output
    data = json.loads(answer.output)
    assert answer.exit_code == (not data["identical"])
    [found] = data["folders"]
    return found


def text(firm: Firm, what: object, *words: str, code: int = 1) -> str:
    answer = CliRunner().invoke(verify, [str(what), *words], obj=firm.workspace)
    assert answer.exit_code == code, answer.output
    return answer.output


def unlike(firm: Firm, what: object, *words: str) -> tuple[list[str], list[str]]:
    found = told(firm, what, *words)
    return found["differs_from_record"], found["differs_from_rebuild"]


def edit(path: Path, old: str, new: str) -> None:
    before = path.read_text("utf-8")
    assert old in before
    path.write_text(before.replace(old, new), encoding="utf-8")


def flip(path: Path) -> None:
    content = bytearray(path.read_bytes())
    content[len(content) // 2] ^= 1
    path.write_bytes(content)


def forge(site: Path, change: Callable[[dict], object] = lambda _: None) -> None:
    """Write record.json anew so that it fits the pages, as one who knows how would."""
    record = site / "record.json"
    found = json.loads(record.read_bytes())
    printed = hashlib.sha256(record.read_bytes()).hexdigest().encode()
    pages = [site / name for name in found["files"]]
    for page in pages:
        if page.suffix in PRINTED_IN:
            page.write_bytes(page.read_bytes().replace(printed, BLANK.encode()))
    found["files"] = {
        page.relative_to(site).as_posix(): hashlib.sha256(page.read_bytes()).hexdigest()
        for page in pages
    }
    change(found["made_of"])
    record.write_text(json.dumps(found, indent=1, sort_keys=True) + "\n", "utf-8")
    digest = hashlib.sha256(record.read_bytes()).hexdigest().encode()
    for page in pages:
        if page.suffix in PRINTED_IN:
            page.write_bytes(page.read_bytes().replace(BLANK.encode(), digest))
    assert differences(site, site.parent / "shared") == []


def state(root: Path) -> dict[str, tuple[int, int, bytes]]:
    """Note every entry below a folder, the repository and what was published too."""
    return {
        str(path): (
            path.lstat().st_mode,
            path.lstat().st_mtime_ns,
            path.read_bytes() if path.is_file() else b"",
        )
        for path in sorted(root.rglob("*"))
    }


@pytest.mark.parametrize(("job", "report"), [(LARCH, 1), (ELM, 2), (OAK, 0)])
def test_what_was_given_is_identical(made: Firm, job: str, report: int) -> None:
    before = state(made.root)
    site = made.site(job)
    head = made.git("rev-list", "--max-count=1", "HEAD", f"inspections/{job}.yaml")
    files = [one for one in site.rglob("*") if one.is_file()]
    files += [one for one in (made.public / "shared").rglob("*") if one.is_file()]
    who = f"{job}, report {report}" if report else job
    assert text(made, job, code=0) == (
        f"{site} ({who}): identical: {len(files)} files, from commit {head}.\n"
    )
    assert state(made.root) == before


def test_later_work_changes_nothing_of_what_was_given(firm: Firm) -> None:
    later = firm.commit(OAK, OAK_FILE.replace("bedrooms: 3", "bedrooms: 5"))
    firm.put(
        ELM, AMENDED.replace("final", "draft").replace("bedrooms: 4", "bedrooms: 6")
    )
    elm, oak = told(firm, ELM), told(firm, OAK)
    assert elm["identical"]
    assert elm["notes"] == []
    assert oak["identical"]
    assert oak["notes"] == [
        f"What the report is made from was changed since, by the commit {later}."
    ]


def test_an_earlier_report_is_told_as_one(made: Firm, firm: Firm) -> None:
    site = firm.site(ELM)
    shutil.rmtree(site)
    shutil.copytree(made.root.parent / "first", site)
    found = told(firm, ELM)
    head = firm.git("rev-parse", "HEAD")
    assert (found["identical"], found["report"]) == (True, 1)
    assert found["notes"] == [f"Report 2 was given since, by the commit {head}."]


def test_a_second_clone_elsewhere_gives_the_same(made: Firm, tmp_path: Path) -> None:
    clone = tmp_path / "other place" / "clone"
    subprocess.run(["git", "clone", "-q", made.root, clone], check=True)
    program = (
        "import sys\n"
        "from pathlib import Path\n"
        "from generator.cli_verify import verify\n"
        "from generator.record.load import Workspace\n"
        "verify(sys.argv[2:], obj=Workspace(Path(sys.argv[1])))\n"
    )
    surroundings = {
        "TZ": "Asia/Tokyo",
        "LC_ALL": "C",
        "SOURCE_DATE_EPOCH": "86400",
        "PYTHONHASHSEED": "7",
        "PYTHONPATH": str(ROOT),
    }
    run = subprocess.run(
        [sys.executable, "-c", program, clone, made.site(LARCH)],
        cwd=tmp_path,
        env={**os.environ, **surroundings},
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stdout + run.stderr
    assert f"({LARCH}, report 1): identical: " in run.stdout


@pytest.mark.usefixtures("quick")
def test_a_changed_page_is_named_with_both_texts(firm: Firm) -> None:
    page = firm.site(ELM) / "record.html"
    edit(page, "14 Elm Road, Elm Flat (invented)", "15 Elm Road, Elm Flat (invented)")
    assert unlike(firm, ELM) == (
        [CHANGED.format("record.html")],
        [
            'record.html, under "The record": "Place | 15 Elm Road, Elm Flat '
            '(invented)" here, "Place | 14 Elm Road, Elm Flat (invented)" when rebuilt.'
        ],
    )
    head = firm.git("rev-parse", "HEAD")
    assert text(firm, ELM) == (
        f"{page.parent} (elm, report 2):\n"
        "  It is not what its own record.json says:\n"
        f"    {CHANGED.format('record.html')}\n"
        f"  It is not what the commit {head} gives:\n"
        '    record.html, under "The record": "Place | 15 Elm Road, Elm Flat '
        '(invented)" here, "Place | 14 Elm Road, Elm Flat (invented)" when rebuilt.\n'
    )


@pytest.mark.usefixtures("quick")
def test_a_changed_picture_is_named(firm: Firm) -> None:
    flip(firm.site(ELM) / PICTURE)
    assert unlike(firm, ELM) == (
        [CHANGED.format(PICTURE)],
        [f"{PICTURE}: the bytes of this picture differ."],
    )


@pytest.mark.usefixtures("quick")
def test_a_changed_search_index_is_named(firm: Firm) -> None:
    name = "search/search_index.json"
    edit(firm.site(ELM) / name, '"separator":', '"Separator":')
    own, rebuilt = unlike(firm, ELM)
    assert own == [CHANGED.format(name)]
    assert rebuilt[0].startswith(f'{name}, config / Separator: "')
    assert rebuilt[0].endswith('" here, "(nothing)" when rebuilt.')


@pytest.mark.usefixtures("quick")
def test_a_changed_record_is_named_by_its_key(firm: Firm) -> None:
    edit(firm.site(ELM) / "record.json", '"report": 2', '"report": 3')
    assert unlike(firm, ELM) == (
        [
            "record.json was changed: its digest is not the one that the pages print. "
            "What it says of other files may be wrong."
        ],
        ['record.json, made_of / report: "3" here, "2" when rebuilt.'],
    )


@pytest.mark.usefixtures("quick")
def test_a_changed_file_of_the_theme_is_named(firm: Firm) -> None:
    path = next((firm.public / "shared").rglob("report.css"))
    flip(path)
    name = path.relative_to(firm.public).as_posix()
    assert unlike(firm, ELM) == (
        [CHANGED.format(name)],
        [f"{name}: the bytes of this file differ."],
    )


@pytest.mark.usefixtures("quick")
def test_a_missing_and_an_added_file_are_named(firm: Firm) -> None:
    site = firm.site(ELM)
    (site / PICTURE).unlink()
    (site / "more.html").write_text("<p>More.</p>", encoding="utf-8")
    assert unlike(firm, ELM) == (
        [
            "more.html is not listed in record.json.",
            f"{PICTURE} is missing, and record.json lists it.",
        ],
        [
            "more.html is not in the rebuild.",
            f"{PICTURE} is missing, and the rebuild has it.",
        ],
    )


@pytest.mark.usefixtures("quick")
def test_a_page_changed_beside_its_record_is_told_by_its_text(firm: Firm) -> None:
    site = firm.site(ELM)
    edit(site / "record.json", '"report": 2', '"report": 3')
    edit(site / "record.html", "14 Elm Road, Elm Flat", "15 Elm Road, Elm Flat")
    _, rebuilt = unlike(firm, ELM)
    assert rebuilt[0].startswith('record.html, under "The record": "Place | 15 Elm')


@pytest.mark.usefixtures("quick")
def test_a_forged_record_is_found_by_the_rebuild(firm: Firm) -> None:
    site = firm.site(ELM)
    edit(site / "record.html", "14 Elm Road, Elm Flat", "15 Elm Road, Elm Flat")
    forge(site)
    own, rebuilt = unlike(firm, ELM)
    assert own == []
    assert rebuilt[0].startswith('record.html, under "The record": "Place | 15 Elm')
    assert rebuilt[1] == (
        "record.json, files / record.html: another digest than when rebuilt."
    )
    printing = (
        "paper.html and search/search_index.json differ in nothing but the digest"
    )
    assert rebuilt[2].startswith(printing)
    assert len(rebuilt) == len(("record.html", "record.json", "paper.html"))


@pytest.mark.usefixtures("quick")
def test_what_does_not_show_is_told_as_code(firm: Firm) -> None:
    site = firm.site(ELM)
    edit(site / "care.html", 'href="record.html"', 'href="record.htm"')
    _, rebuilt = unlike(firm, ELM)
    [line] = rebuilt
    assert line.startswith("care.html, the text that it shows is the same, and what ")
    assert "record.htm" in line


def test_another_job_file_is_told_by_its_fields(firm: Firm) -> None:
    head = firm.git("rev-parse", "HEAD")
    draft = AMENDED.replace("bedrooms: 4", "bedrooms: 6").replace("final", "draft")
    later = firm.commit(ELM, draft)
    digest = hashlib.sha256(draft.encode()).hexdigest()

    def other(made_of: dict) -> None:
        made_of["files_of_the_firm"]["inspections/elm.yaml"] = digest

    forge(firm.site(ELM), other)
    assert unlike(firm, ELM)[1][-1] == (
        f"The job file is not that of the commit {head}, but that of the commit "
        f"{later}: state of the file: final → draft; bedrooms, property: 4 → 6."
    )
    digest = "ab" * 32
    forge(firm.site(ELM), other)
    assert unlike(firm, ELM)[1][-1] == (
        f"The job file is not that of the commit {head}, and no revision of it has the "
        "digest that record.json names."
    )


def test_other_versions_that_make_no_difference_are_told(firm: Firm) -> None:
    def older(made_of: dict) -> None:
        made_of["libraries"]["matplotlib"] = "3.0.1"
        made_of["python"] = "3.0.2"

    forge(firm.site(ELM), older)
    found = told(firm, ELM)
    assert found["identical"]
    assert [one.split(", here is ")[0] for one in found["versions"]] == [
        "Made with Python 3.0.2",
        "Made with matplotlib 3.0.1",
    ]
    assert all(
        one.endswith(", and that makes no difference.") for one in found["versions"]
    )


def test_other_versions_are_needed_to_tell_of_a_difference(firm: Firm) -> None:
    def older(made_of: dict) -> None:
        made_of["onlot"] = {"version": "0.0.1", "code": "ab" * 32}

    edit(firm.site(ELM) / "record.html", "onlot 0.1.0", "onlot 0.0.1")
    forge(firm.site(ELM), older)
    found = told(firm, ELM)
    assert found["differs_from_record"] == []
    assert found["differs_from_rebuild"][0].startswith(
        'record.html, under "The record": "Made with | onlot 0.0.1" here, '
    )
    assert found["versions"] == [
        "Made with onlot 0.0.1, here is 0.1.0: install that version to tell."
    ]


def test_other_code_of_the_same_version_is_told(firm: Firm) -> None:
    forge(firm.site(OAK), lambda made_of: made_of["onlot"].update(code="ab" * 32))
    found = told(firm, OAK)
    assert found["identical"]
    [line] = found["versions"]
    assert line.startswith("Made with code of onlot whose digest begins ababababab, ")


def test_a_history_that_is_cut_off(made: Firm, tmp_path: Path) -> None:
    shallow = Firm(tmp_path / "shallow")
    clone = ["git", "clone", "-q", "--depth=1", made.root.as_uri(), str(shallow.root)]
    subprocess.run(clone, check=True)
    first = made.git("rev-parse", "HEAD~1")
    larch = told(shallow, made.site(LARCH))
    assert larch["differs_from_record"] == []
    assert larch["cannot_be_told"] == [
        f"The history here has no commit {first}. Fetch the whole history: git fetch "
        "--unshallow. A pipeline asks for it with fetch-depth: 0 or GIT_DEPTH: 0."
    ]
    assert told(shallow, made.site(ELM))["notes"] == [
        "This copy of the history is cut off. What differs may come from that: fetch "
        "the whole history with git fetch --unshallow."
    ]


def test_no_history_at_all(firm: Firm) -> None:
    shutil.rmtree(firm.root / ".git")
    flip(firm.site(ELM) / PICTURE)
    assert text(firm, ELM) == (
        f"{firm.site(ELM)} (elm):\n"
        "  It is not what its own record.json says:\n"
        f"    {CHANGED.format(PICTURE)}\n"
        "  There is no git history here.\n"
    )


@pytest.mark.parametrize("name", ["f" * 40, "no such", "--all", "HEAD:inspections"])
def test_a_commit_that_is_not_there(firm: Firm, name: str) -> None:
    found = told(firm, ELM, f"--commit={name}")
    assert found["differs_from_record"] == []
    assert found["cannot_be_told"] == [
        f"The history here has no commit {name}. See that this is the firm's folder "
        "with its whole history."
    ]


def test_another_commit_may_be_named_in_short(firm: Firm) -> None:
    head = firm.git("rev-parse", "HEAD")
    assert told(firm, ELM, "--commit", head[:9])["identical"]
    earlier = firm.git("rev-parse", "HEAD~1")
    found = told(firm, ELM, "--commit", earlier[:9])
    assert found["commit"] == earlier
    assert not found["identical"]


def test_a_draft_that_a_record_names_was_never_seen(firm: Firm) -> None:
    given = firm.git("rev-parse", "HEAD")
    draft = firm.commit(ELM, AMENDED.replace("final", "draft"))
    forge(firm.site(ELM), lambda made_of: made_of.update(commit=draft))
    _, rebuilt = unlike(firm, ELM)
    wrong = f'record.json, made_of / commit: "{draft}" here, "{given}" when rebuilt.'
    assert wrong in rebuilt


def test_a_report_from_files_that_no_commit_held(firm: Firm) -> None:
    firm.put(OAK, OAK_FILE.replace("bedrooms: 3", "bedrooms: 5"))
    firm.publish(OAK)
    found = told(firm, OAK)
    assert found["differs_from_record"] == []
    assert found["cannot_be_told"] == [
        'It was made from files that no commit held ("What this was made from is not '
        'committed yet."), so it cannot be made again.'
    ]


def test_a_job_that_was_renamed_since(firm: Firm) -> None:
    site = firm.site(ELM)
    firm.git("mv", "inspections/elm.yaml", "inspections/ash.yaml")
    firm.git("mv", "inspections/elm", "inspections/ash")
    firm.commit()
    assert told(firm, site)["identical"]
    firm.publish("ash")
    found = told(firm, "ash")
    assert (found["job"], found["report"]) == ("ash", 2)
    assert found["identical"]


def test_the_whole_published_folder(firm: Firm) -> None:
    shutil.rmtree(firm.site(LARCH))
    firm.put("oak/links", "links:\n  - {number: 1, ended: withdrawn, on: 2026-09-30}\n")
    firm.publish(OAK)
    answer = text(firm, firm.public, code=0).splitlines()
    assert answer[0].startswith(f"{firm.site(ELM)} (elm, report 2): identical: ")
    assert answer[1:] == [f"{firm.public}: our own files: 8 as onlot writes them."]
    (firm.public / "robots.txt").write_text("Allow: /\n", encoding="ascii")
    (firm.public / "_headers").unlink()
    (firm.public / "more.txt").write_text("", encoding="ascii")
    edit(firm.site(OAK) / "index.html", "withdrawn", "moved")
    flip(next((firm.public / "shared").rglob("report.css")))
    copy = next((firm.public / "shared").iterdir()).name
    told = text(firm, firm.public).splitlines()[-6:]
    assert told[0] == "  What lies beside the reports is not what onlot put there:"
    assert sorted(told[1:]) == sorted(
        [
            "    robots.txt is not as onlot writes it.",
            "    _headers is missing.",
            "    more.txt is nothing that onlot publishes.",
            f"    {firm.site(OAK).name} holds neither a report nor the page of a "
            "closed link.",
            f"    shared/{copy} does not hold the files that it is named after.",
        ]
    )
    assert text(firm, OAK) == (
        "oak: This folder holds no report, for there is no record.json in it.\n"
    )


@pytest.mark.usefixtures("quick")
def test_a_copy_anywhere_is_as_good(firm: Firm, tmp_path: Path) -> None:
    copy = tmp_path / "from the client"
    shutil.copytree(firm.site(ELM), copy)
    found = told(firm, copy)
    assert found["identical"]
    assert found["notes"] == [
        "The theme's files do not lie beside it in shared/, and were not compared.",
        "The name of this folder is none of a link, so the one was taken that "
        "paper.html prints.",
    ]


@pytest.mark.usefixtures("quick")
def test_the_report_of_another_job_is_told(firm: Firm) -> None:
    shutil.rmtree(firm.site(OAK))
    shutil.copytree(firm.site(ELM), firm.site(OAK))
    own, rebuilt = unlike(firm, firm.site(OAK))
    assert own == ["This is the folder of oak, and record.json names the job elm."]
    assert [one.split(",")[0] for one in rebuilt][:1] == ["paper.html"]
    assert unlike(firm, OAK)[0] == ["record.json names the job elm, and not oak."]


def test_what_is_no_report_is_told_in_a_sentence(
    firm: Firm, monkeypatch: pytest.MonkeyPatch
) -> None:
    none = "This folder holds no report, for there is no record.json in it."
    inside = firm.workspace.inspections
    assert text(firm, inside) == f"{inside}: {none}\n"
    missing = "There is no such folder.\n  Name a published folder, or a job.\n"
    for typed in ("nowhere", str(inside / "firm.yaml"), "a\0b"):
        shown = typed.replace("\0", " ")
        assert text(firm, typed) == f"{shown}: {missing}"
    shutil.rmtree(firm.site(OAK))
    assert text(firm, OAK) == (
        "oak: There is no folder of this job in public/.\n"
        "  Name the folder, where it is elsewhere.\n"
    )
    monkeypatch.delenv("ONLOT_LINK_SECRET")
    before = state(firm.root)
    assert text(firm, ELM) == (
        "elm: There is no link secret here, so nobody can tell which folder is that of "
        "this job.\n  Name the folder of the report.\n"
    )
    assert state(firm.root) == before


@pytest.mark.usefixtures("quick")
def test_a_hostile_folder_is_told_in_sentences(firm: Firm, tmp_path: Path) -> None:
    site = firm.site(ELM)
    (site / "care.html").unlink()
    (site / "care.html").symlink_to(firm.workspace.job_file(OAK))
    (site / "photos-of-all").symlink_to(tmp_path)
    os.mkfifo(site / "pipe.html")
    with (site / "large.bin").open("wb") as file:
        file.truncate(60_000_000)
    (site / "record.html").write_bytes(b"\xff\xfe<![bad[ <p>\x1b[2J" + b"<" * 9_999)
    (site / "a\x1b[2Jb.html").write_bytes(b"")
    own, rebuilt = unlike(firm, ELM)
    assert own[:4] == [
        "care.html is a link to somewhere else, not a file. It was not followed.",
        "large.bin is larger than 50 MB, which no file of onlot is. It was not read.",
        "photos-of-all is a link to somewhere else, not a file. It was not followed.",
        "pipe.html is neither a file nor a folder, so it was not read.",
    ]
    assert CHANGED.format("record.html") in own
    assert "a?[2Jb.html is not in the rebuild." in rebuilt
    assert not any("\x1b" in line for line in (*own, *rebuilt))


@pytest.mark.usefixtures("quick")
@pytest.mark.parametrize(
    "content",
    [b"", b"{", b"[]", b"\xff", b"[" * 100_000, b"1" * 9_999, b'{"made_of": 3}'],
)
def test_a_spoilt_record_is_told_in_a_sentence(firm: Firm, content: bytes) -> None:
    (firm.site(ELM) / "record.json").write_bytes(content)
    found = told(firm, ELM)
    assert found["differs_from_record"][-1] == (
        "record.json is spoilt, so no other file could be checked."
    )
    assert found["cannot_be_told"] == [
        "record.json names no commit, so nobody can tell what it was made from."
    ]
    head = firm.git("rev-parse", "HEAD")
    assert "record.json" in unlike(firm, ELM, "--commit", head)[1][0]


@pytest.mark.parametrize(
    "made_of",
    [
        {"job": "../../elm", "commit": "x"},
        {"job": "firm", "commit": "HEAD"},
        {"job": ["elm"], "commit": 7},
        {"job": "elm", "commit": "\x1b[2J\0"},
        {"job": "ash", "commit": "HEAD", "libraries": {"numpy": float("nan")}},
        {"job": "elm", "commit": "HEAD", "onlot": [], "python": 3, "libraries": 7},
    ],
)
def test_a_record_that_says_anything_is_told_in_a_sentence(
    firm: Firm, made_of: dict
) -> None:
    record = firm.site(ELM) / "record.json"
    found = json.loads(record.read_bytes())
    record.write_text(json.dumps({**found, "made_of": made_of}), encoding="utf-8")
    answer = told(firm, firm.site(ELM))
    assert answer["cannot_be_told"] or answer["differs_from_rebuild"]
    assert "\x1b" not in repr(answer).replace("\\x1b", "")


@pytest.mark.parametrize(
    ("here", "rebuilt", "said"),
    [
        ("<p>a</p>", "<p>a</p><p>b</p>", '(nothing) here, "b" when rebuilt'),
        (
            "<h2>T¶</h2>a<br>b",
            "<h2>T¶</h2>a<br>c",
            'under "T": "b" here, "c" when rebuilt',
        ),
        (
            "<p>a</p><script>b</script>",
            "<p>a</p><script>c</script>",
            "the text that it shows is the same, and what does not show differs: "
            '"<p>a</p><script>b</script>" here, "<p>a</p><script>c</script>" when '
            "rebuilt",
        ),
        ("<p>a</p>\r\n", "<p>a</p>\n", "its line breaks differ"),
    ],
)
def test_two_pages_differ_where_the_reader_sees_it(
    here: str, rebuilt: str, said: str
) -> None:
    assert first_difference(here, rebuilt) == said


def test_a_long_text_is_cut_around_the_difference() -> None:
    said = first_difference(f"<p>{'word ' * 90}one</p>", f"<p>{'word ' * 90}two</p>")
    assert said.count("…") == 2
    assert 'one" here' in said
    assert 'two" when rebuilt' in said
