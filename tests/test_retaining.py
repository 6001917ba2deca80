"""What is older than the years of keeping: told whole, and nothing changed by it."""

from __future__ import annotations

import hashlib
import json
import shlex
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator import paper, preview
from generator.cli import main
from generator.cli_trail import retain
from generator.faults import FOLDER as FAULTS
from generator.holdings import BUILD, LEFT, OFFICE
from generator.keeping import kept_until
from generator.quantity import Day
from generator.record.load import Workspace
from generator.seen import GIVEN
from generator.stamp_file import Stamp, keep_stamp
from generator.website.links import folder_name
from generator.website.look import LOOKS
from generator.website.sealed.keys import keys_of

SECRET = "a secret for tests only, never a client's"
DAY = "2026-11-25"
FIRM = "name: Elm Inspections (invented)\nphone: 555-0100\n"
LARCH = "demo-larch-hollow"
JOB = """\
state: final
visit: {{date: {visit}, inspector: E. Example (invented)}}
client: {{name: A. Client (invented), role: Buyer}}
property: {{address: 14 Elm Road, place: Elm Flat (invented)}}
"""
STAMP = Stamp("old", {}, "", "0" * 32, "", "", "")
WHOLE = """\
The firm keeps each job for 10 years from its last report, or from the visit where no
report was given ("keep_years" in inspections/firm.yaml). On 2026-11-25 that time is
over for 1 of 3 jobs. This only tells: nothing is removed.
1 job still to be kept; the first of them until 2036-05-04: young.

old · A. Client (invented), buyer · 14 Elm Road, Elm Flat (invented)
  visit 2015-03-02 · last report 2, 2015-04-09 · kept until 2025-04-09
  link 2 is open until 2040-01-31: its client could still read the report
  Removing it would take away, of what git holds:
    inspections/old.yaml: the job file, 350 bytes
    inspections/old/: its folder, 2 photographs and 2 other files, 1.6 kB
    inspections/old/links.yaml: its file of links, counted in its folder
  and of what onlot made of it here:
    public/{second}/: the published folder of link 2, open, 1 file, 6 bytes
    office/sealed/{sealed}.html: its report sealed for link 2, 3 bytes
    build/trees/old/: its page tree, no files
    build/stamps/old.json: what its site was made from, 249 bytes
    office/old.pdf: its report on paper, 5 bytes

Cannot be told:
  broken: inspections/broken.yaml:2: visit.date: "soon" is not a date that can be read.

In all, 1 job: of what git holds, 2 photographs and 3 other files, 1.9 kB; of what onlot
made here, 4 files, 263 bytes. 1 link is open.

An open link: once the job file is gone, a build tells of the published folder as a
stray and leaves it, so the report stays readable. "onlot build --remove-strays" takes
it away, and the link then leads to nothing, not even to a page that says whom to ask. A
pipeline that keeps public/ from one run to the next has to do the same. To tell the
client first: onlot withdraw JOB, build, publish, and remove the job later.

What removing does not take away: git keeps every version of these files in its history,
and so do every clone and every backup. Taking them out of there means rewriting the
history. That changes every commit after it, and breaks the commits that other reports
are proved by. onlot never does it. What was uploaded, sent, printed or written
elsewhere with --out is not reached either, and the register in office/ names the job
until "onlot office" writes it anew.

Laws and contracts on how long such records must or may be kept differ from place to
place. Ask a lawyer or the licensing authority before removing anything. (A caution:
common practice, no source.)

By hand, in the firm's folder, where the firm decides so ("git rm" takes no file that
git does not hold, and none that was changed since):
  git rm -r inspections/old.yaml inspections/old
  rm -r office/sealed/{sealed}.html build/trees/old build/stamps/old.json office/old.pdf
  git commit -m "Remove jobs past their years of keeping"
  onlot build --remove-strays
"""


def ask(root: Path, *words: str, secret: str | None = SECRET) -> Result:
    env = {"ONLOT_LINK_SECRET": secret}
    return CliRunner().invoke(retain, list(words), obj=Workspace(root), env=env)


def told(root: Path, on: str = DAY, secret: str | None = SECRET) -> str:
    """Ask on a day, and hold that nothing in the folder changed by it."""
    before = digest(root)
    answer = ask(root, "--on", on, secret=secret)
    assert answer.exit_code == 0, answer.output
    assert digest(root) == before
    return answer.output


def digest(root: Path) -> str:
    """Digest every entry below a folder: name, kind, rights, time and content."""
    seen = hashlib.sha256()
    for path in sorted(root.rglob("*")):
        stat = path.lstat()
        seen.update(f"{path} {stat.st_mode} {stat.st_mtime_ns}\n".encode())
        if path.is_file():
            seen.update(path.read_bytes())
    return seen.hexdigest()


def data(root: Path, on: str = DAY) -> dict:
    answer = ask(root, "--on", on, "--json")
    assert answer.exit_code == 0, answer.output
    return json.loads(answer.output)


def put(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def job(root: Path, name: str, visit: str, more: str = "") -> Path:
    text = JOB.format(visit=visit) + more
    return put(root / "inspections" / f"{name}.yaml", text)


@pytest.fixture
def firm(tmp_path: Path) -> Path:
    """A firm that keeps for ten years, and has no job yet."""
    put(tmp_path / "inspections/firm.yaml", f"{FIRM}keep_years: 10\n")
    return tmp_path


def filled(firm: Path) -> dict[str, str]:
    """Give the firm an old job with all it left, a young one and a broken one."""
    second = folder_name(SECRET.encode(), "old", 2)
    sealed = keys_of(SECRET.encode(), "old", 2).name
    reports = (
        "reports:\n"
        "  - {number: 1, date: 2015-03-09, reason: first report}\n"
        '  - {number: 2, date: "April 9, 2015", reason: a later look, by: E. Example}\n'
    )
    job(firm, "old", "2015-03-02", reports + "load_test: never mended\n")
    put(firm / "inspections/old/lid.JPG", "x" * 700)
    put(firm / "inspections/old/film.mp4", "x" * 700)
    put(firm / "inspections/old/plan.pdf", "x" * 100)
    put(
        firm / "inspections/old/links.yaml",
        "links:\n"
        "  - {number: 1, ended: replaced}\n"
        "  - {number: 2, until: 2040-01-31}\n",
    )
    job(firm, "young", "2026-05-04")
    job(firm, "broken", "soon")
    put(firm / f"public/{second}/index.html", "<html>")
    put(firm / f"public/{'a' * 32}/index.html", "of another client")
    put(firm / f"office/sealed/{sealed}.html", "<p>")
    put(firm / "office/old.pdf", "%PDF-")
    put(firm / "office/older.pdf", "%PDF-")
    (firm / "build/trees/old").mkdir(parents=True)
    keep_stamp(firm / "build", replace(STAMP, name=second))
    return {"second": second, "sealed": sealed}


def test_it_tells_what_is_older_and_changes_nothing(firm: Path) -> None:
    names = filled(firm)
    assert told(firm) == WHOLE.format(**names)


def test_the_same_for_machines(firm: Path) -> None:
    names = filled(firm)
    found = data(firm)
    assert list(found) == [
        *("on", "keep_years", "older", "within", "cannot_be_told"),
        *("secret_is_here", "after_all", "cautions"),
    ]
    (old,) = found["older"]
    places = {place.pop("path"): place for place in old.pop("own") + old.pop("made")}
    assert old == {
        "job": "old",
        "client": "A. Client (invented), buyer",
        "address": "14 Elm Road, Elm Flat (invented)",
        "visit": "2015-03-02",
        "report": {"number": 2, "date": "2015-04-09"},
        "kept_until": "2025-04-09",
        "link": {"number": 2, "state": "open", "until": "2040-01-31"},
        "link_problem": None,
        "links_file": "inspections/old/links.yaml",
        "by_hand": [
            "git rm -r inspections/old.yaml inspections/old",
            f"rm -r office/sealed/{names['sealed']}.html build/trees/old "
            "build/stamps/old.json office/old.pdf",
        ],
    }
    assert places["inspections/old"] == {
        "what": "its folder",
        "photographs": 2,
        "others": 2,
        "size": 1575,
        "is_folder": True,
        "is_link": False,
        "unread": False,
    }
    assert found["within"] == [{"job": "young", "kept_until": "2036-05-04"}]
    assert found["cannot_be_told"] == [
        {
            "job": "broken",
            "because": "inspections/broken.yaml:2: visit.date: "
            '"soon" is not a date that can be read.',
        }
    ]
    assert (found["on"], found["keep_years"], found["secret_is_here"]) == (
        DAY,
        10,
        True,
    )
    assert [one.partition(":")[0] for one in found["cautions"]] == [
        "An open link",
        "What removing does not take away",
        "Laws and contracts on how long such records must or may be kept differ from "
        "place to place. Ask a lawyer or the licensing authority before removing "
        "anything. (A caution",
    ]


@pytest.mark.parametrize(
    ("on", "older"),
    [("2026-02-28", 0), ("2026-03-01", 1)],
)
def test_the_last_day_of_keeping_still_counts(firm: Path, on: str, older: int) -> None:
    """Ten years after February 29 it is February 28, and that day is still kept."""
    job(firm, "leap", "2016-02-29")
    found = data(firm, on)
    assert (len(found["older"]), len(found["within"])) == (older, 1 - older)
    (one,) = found["older"] or found["within"]
    assert one["kept_until"] == "2026-02-28"


@pytest.mark.parametrize(
    ("years", "visit", "until"),
    [
        (4, "2016-02-29", "2020-02-29"),
        (1, "2016-02-29", "2017-02-28"),
        (10, "2015-12-31", "2025-12-31"),
        (None, "2015-12-31", ""),
    ],
)
def test_years_end_on_the_same_day(years: int | None, visit: str, until: str) -> None:
    assert kept_until(years, Day(visit, visit), ()) == until


def test_the_jobs_stand_in_the_order_of_their_end(firm: Path) -> None:
    for name, visit in (("a", "2012-01-02"), ("b", "2011-01-02"), ("c", "2012-01-02")):
        job(firm, name, visit)
    assert [one["job"] for one in data(firm)["older"]] == ["b", "a", "c"]


def test_without_years_of_keeping_it_says_how_to_set_them(firm: Path) -> None:
    put(firm / "inspections/firm.yaml", FIRM)
    job(firm, "old", "2001-01-02")
    assert told(firm) == (
        "The firm file names no years of keeping, so nothing can be told of what is "
        "older. Set\nthem in inspections/firm.yaml with a line such as "
        '"keep_years: 10", in whole years.\n'
    )
    found = data(firm)
    assert (found["keep_years"], found["older"]) == (None, [])
    assert found["cautions"][0].startswith("The firm file names no years of keeping")


def test_a_firm_file_with_mistakes_is_told_as_such(firm: Path) -> None:
    put(firm / "inspections/firm.yaml", f"{FIRM}keep_years: ten\n")
    answer = ask(firm, "--on", DAY)
    assert answer.exit_code == 1
    assert "inspections/firm.yaml:3: keep_years: " in answer.output


def test_a_folder_without_jobs_is_told_as_such(tmp_path: Path) -> None:
    answer = ask(tmp_path)
    assert answer.exit_code == 1
    assert "There is no folder inspections/ here." in answer.output


def test_where_nothing_is_older_no_command_is_named(firm: Path) -> None:
    job(firm, "young", "2026-05-04")
    assert told(firm) == (
        "The firm keeps each job for 10 years from its last report, or from the visit "
        "where no\n"
        'report was given ("keep_years" in inspections/firm.yaml). On 2026-11-25 that '
        "time is\n"
        "over for 0 of 1 job. This only tells: nothing is removed.\n"
        "1 job still to be kept; the first of them until 2036-05-04: young.\n"
    )


def test_without_a_secret_the_last_build_tells_the_published_folder(firm: Path) -> None:
    names = filled(firm)
    answer = told(firm, secret=None)
    assert (
        f"    public/{names['second']}/: its report as it was published last" in answer
    )
    assert names["sealed"] not in answer
    assert (
        "The link secret is not here. Which folder in public/ is whose is told only "
        "where the\nlast build wrote it down, and sealed reports are not looked for."
    ) in answer
    keep_stamp(firm / "build", replace(STAMP, name="../inspections"))
    assert "public/" not in told(firm, secret=None).partition("In all")[0]
    assert not (firm / ".onlot").exists()


@pytest.mark.parametrize("content", [SECRET, "short"])
def test_a_secret_in_its_file_is_left_as_it_is(firm: Path, content: str) -> None:
    """A build would take rights off it and write a .gitignore beside it."""
    names = filled(firm)
    put(firm / ".onlot/link-secret", f"{content}\n").chmod(0o644)
    answer = told(firm, secret=None)
    assert (f"office/sealed/{names['sealed']}.html" in answer) == (content == SECRET)
    assert ("The link secret is not here." in answer) == (content != SECRET)


@pytest.mark.parametrize(
    ("links", "line"),
    [
        ("{number: 1, ended: withdrawn}", "link 1 is withdrawn: it opens no report"),
        ("{number: 1, until: 2026-11-24}", "link 1 is over: it opens no report"),
        (
            "{number: 1, until: 2026-11-25}",
            "link 1 is open until 2026-11-25: its client could still read the report",
        ),
        (
            "{number: 2}",
            "what its link does cannot be told: inspections/old/links.yaml:2: "
            "links[0].number: The link in place 1 has the number 2.",
        ),
    ],
)
def test_what_its_link_does_on_the_day(firm: Path, links: str, line: str) -> None:
    job(firm, "old", "2015-03-02")
    put(firm / "inspections/old/links.yaml", f"links:\n  - {links}\n")
    answer = told(firm)
    assert answer.splitlines()[6] == f"  {line}"
    assert ("An open link: " in answer) == ("still read" in line)


def test_a_job_without_a_folder_or_with_an_empty_one(firm: Path) -> None:
    job(firm, "bare", "2015-03-02")
    job(firm, "empty", "2015-03-02")
    (firm / "inspections/empty").mkdir()
    answer = told(firm)
    assert "inspections/bare/" not in answer
    assert "    inspections/empty/: its folder, no files\n" in answer
    assert answer.splitlines()[-5:-2] == [
        "  git rm -r inspections/bare.yaml",
        "  git rm -r inspections/empty.yaml",
        "  rm -r inspections/empty",
    ]


def test_names_that_no_job_has_are_not_obeyed(firm: Path) -> None:
    for name in ("-rf", "a b", "a;rm -r x", "\x1b[2Jred", "line\nbreak", "Firm"):
        job(firm, name, "2001-01-02")
    answer = told(firm)
    assert "\x1b" not in answer
    assert answer.partition("Cannot be told:\n")[2].splitlines() == [
        "  ?[2Jred: ?[2Jred: This cannot be the name of a job.",
        "  -rf: -rf: This cannot be the name of a job.",
        "  Firm: inspections/Firm.yaml: This is the firm's own file, not a job.",
        "  a b: a b: This cannot be the name of a job.",
        "  a;rm -r x: a;rm -r x: This cannot be the name of a job.",
        "  line?break: line?break: This cannot be the name of a job.",
    ]


def test_a_client_of_many_lines_forges_no_line(firm: Path) -> None:
    path = job(firm, "old", "2015-03-02")
    text = path.read_text(encoding="utf-8")
    forged = text.replace("A. Client (invented)", '"A\\n\\nCannot be told:\\n  x"')
    put(path, forged)
    assert "\nold · A Cannot be told: x, buyer · 14 Elm Road" in told(firm)


def test_links_to_elsewhere_are_not_followed(firm: Path, tmp_path: Path) -> None:
    outside = tmp_path.parent / f"{tmp_path.name}-outside"
    put(outside / "big.jpg", "x" * 5000)
    shown = job(firm, "old", "2015-03-02").parent
    put(shown / "old/lid.jpg", "x" * 10)
    (shown / "old/far").symlink_to(outside)
    job(firm, "twin", "2015-03-02")
    (shown / "twin").symlink_to("old")
    job(firm, "stray", "2015-03-02")
    (shown / "stray").symlink_to(outside)
    (shown / "loop.yaml").symlink_to("loop.yaml")
    answer = told(firm)
    length = len(str(outside))
    assert (
        f"    inspections/old/: its folder, 1 photograph and 1 other file, "
        f"{10 + length} bytes\n"
    ) in answer
    assert (
        "    inspections/twin: its folder, a link; what it leads to stays\n" in answer
    )
    assert (
        "  stray: inspections/stray: This link leads out of inspections/.\n" in answer
    )
    assert "\n  loop: inspections/loop.yaml: " in answer


def test_a_part_that_cannot_be_looked_into_is_told(
    firm: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job(firm, "old", "2015-03-02")
    put(firm / "inspections/old/shut/lid.jpg", "x")
    put(firm / "inspections/old/plan.pdf", "x")
    listed = Path.iterdir

    def refused(path: Path) -> object:
        if path.name == "shut":
            raise PermissionError(13, "Permission denied")
        return listed(path)

    monkeypatch.setattr(Path, "iterdir", refused)
    line = "its folder, 1 file, 1 byte, of which a part cannot be looked into"
    assert f"    inspections/old/: {line}\n" in ask(firm, "--on", DAY).output


@pytest.mark.parametrize(
    ("text", "because"),
    [
        ("", "inspections/odd.yaml:1: This file holds no keys."),
        ("visit: {date: 2015-03-02", "inspections/odd.yaml:1: "),
        ("visit: 5\n", 'inspections/odd.yaml:1: client: "client" is missing here.'),
        (
            JOB.format(visit="03/02/15"),
            "inspections/odd.yaml:2: visit.date: "
            '"03/02/15" can be read in more than one way.',
        ),
        (
            JOB.format(visit="2015-03-02") + "reports: [{number: 1, reason: x}]\n",
            'inspections/odd.yaml:5: reports[0].date: "date" is missing here.',
        ),
    ],
)
def test_a_job_of_which_it_cannot_be_told(firm: Path, text: str, because: str) -> None:
    put(firm / "inspections/odd.yaml", text)
    answer = told(firm)
    assert f"Cannot be told:\n  odd: {because}" in answer


def test_a_job_without_an_inspector_is_told_all_the_same(firm: Path) -> None:
    path = job(firm, "old", "2015-03-02")
    text = path.read_text(encoding="utf-8")
    put(path, text.replace(", inspector: E. Example (invented)", ""))
    assert [one["job"] for one in data(firm)["older"]] == ["old"]


def test_the_places_are_those_that_the_other_commands_name(firm: Path) -> None:
    assert preview.OFFICE == OFFICE
    default = paper.default_file(Workspace(firm), "elm").relative_to(firm)
    assert default.as_posix() in {path.format(job="elm") for path in LEFT}


@pytest.mark.parametrize("folder", [BUILD, f"{OFFICE}/preview"])
@pytest.mark.parametrize("kind", [GIVEN, LOOKS])
def test_what_an_earlier_report_or_a_look_left_is_known(folder: str, kind: str) -> None:
    assert f"{folder}/{kind}/{{job}}" in LEFT


def test_done_by_hand_nothing_of_the_job_is_left_but_in_git(
    workspace: Workspace,
) -> None:
    """Everything is made by the commands themselves, and taken away as told."""
    root, env = workspace.root, {"ONLOT_LINK_SECRET": SECRET}
    workspace.job_file("demo-cattail-lake").unlink()
    shutil.rmtree(workspace.photo_folder("demo-cattail-lake"))

    def run(*words: str) -> None:
        asked = ["--workspace", str(root), *words]
        ended = CliRunner().invoke(main, asked, env=env)
        assert ended.exit_code == 0, ended.output

    def shell(command: list[str]) -> None:
        subprocess.run(command, cwd=root, check=True, capture_output=True)

    put(root / ".gitignore", "/build/\n/public/\n/office/\n.*.lock\n")
    shell(["git", "init", "--quiet"])
    shell(["git", "config", "user.name", "E. Example (invented)"])
    shell(["git", "config", "user.email", "office@elm.example"])
    shell(["git", "add", "."])
    shell(["git", "commit", "--quiet", "-m", "All"])
    for words in (
        ("build",),
        ("preview", LARCH, "--once"),
        ("office",),
        ("seal", LARCH),
    ):
        run(*words)
    found = data(root, "2036-10-08")
    (old,) = found["older"]
    name = folder_name(SECRET.encode(), LARCH, 1)
    sealed = keys_of(SECRET.encode(), LARCH, 1).name
    own = {path.format(job=LARCH) for path in LEFT} - {f"office/{LARCH}.pdf"}
    own = {path for path in own if not {GIVEN, LOOKS, FAULTS} & set(path.split("/"))}
    assert {place["path"] for place in old["made"]} == {
        *own,
        f"public/{name}",
        f"office/sealed/{sealed}.html",
    }
    for command in (*old["by_hand"], *found["after_all"]):
        words = shlex.split(command)
        if words[0] == "onlot":
            assert (root / "public" / name).is_dir()
            run(*words[1:])
        else:
            shell(words)
    run("office")
    left = [
        path.relative_to(root).as_posix()
        for path in root.rglob("*")
        if ".git" not in path.relative_to(root).parts
        and (LARCH in path.name or name in path.name or sealed in path.name)
    ]
    assert left == []
