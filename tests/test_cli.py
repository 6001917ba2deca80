"""The commands as a person runs them: words, exit codes, nothing lost."""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.__main__ import INTERRUPTED
from generator.cli import main
from generator.record.load import Workspace
from generator.website.publish import alone
from tests.test_workers import heed_interrupts

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"


def run(workspace: Workspace, *words: str) -> Result:
    return CliRunner().invoke(main, ["--workspace", str(workspace.root), *words])


def test_an_interrupt_while_it_loads_ends_it_quietly() -> None:
    script = (
        "import os, signal, sys\n"
        "class Interrupts:\n"
        "    def find_spec(self, name, *more):\n"
        "        if name == 'generator.record.load':\n"
        "            os.kill(os.getpid(), signal.SIGINT)\n"
        "sys.meta_path.insert(0, Interrupts())\n"
        "from generator.__main__ import run\n"
        "run()\n"
    )
    ended = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=heed_interrupts,
    )
    assert ended.returncode in (INTERRUPTED, -signal.SIGINT)
    assert (ended.stdout, ended.stderr) == ("", "\nAborted!\n")


def digest(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(
            path.read_bytes()
        ).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def edit(workspace: Workspace, job: str, before: str, after: str) -> None:
    path = workspace.job_file(job)
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after, 1), encoding="utf-8")


def test_check_says_no_problems(workspace: Workspace) -> None:
    result = run(workspace, "check")
    assert result.exit_code == 0
    assert result.output == f"{CATTAIL}: no problems\n{LARCH}: no problems\n"


def test_check_takes_a_path(workspace: Workspace) -> None:
    result = run(workspace, "check", f"inspections/{LARCH}.yaml")
    assert (result.exit_code, result.output) == (0, f"{LARCH}: no problems\n")


def test_wrong_use_is_2(workspace: Workspace) -> None:
    assert run(workspace, "results").exit_code == 2
    assert run(workspace, "chekc").exit_code == 2


def test_unknown_job_is_1(workspace: Workspace) -> None:
    result = run(workspace, "check", "nowhere")
    assert result.exit_code == 1
    assert "inspections/nowhere.yaml: There is no such file." in result.output


def test_no_inspections_folder(tmp_path: Path) -> None:
    result = run(Workspace(tmp_path), "check")
    assert result.exit_code == 1
    assert "There is no folder inspections/ here." in result.output


def test_results_as_data(workspace: Workspace) -> None:
    result = run(workspace, "results", LARCH, "--json")
    assert result.exit_code == 0
    data = json.loads(result.output)
    keys = {"name", "value", "unit", "uncertainty", "formula", "lines", "source"}
    assert len(data["results"]) > 40
    for one in data["results"]:
        assert keys <= one.keys()
        assert one["lines"]
        assert one["source"]
    assert [answer["answer"] for answer in data["answers"]][1] == "yes, with repairs"


def test_results_as_text(workspace: Workspace) -> None:
    result = run(workspace, "results", CATTAIL)
    assert result.exit_code == 0
    assert "clearance = 46 - 24 - 15 = 7 in" in result.output
    assert "Does the system take the water it is given? no." in result.output


BAD = [
    (
        "missing photograph",
        "- tank-open.jpg:",
        "- tank-opened.jpg:",
        "photos[0].file: There is no photograph tank-opened.jpg in "
        "demo-larch-hollow/.\n  Copy it there, or correct the name.",
    ),
    (
        "unknown key",
        "sludge: 11 in",
        "slugde: 11 in",
        'tanks[0].slugde: The key "slugde" is not known here.\n'
        '  Did you mean "sludge"?',
    ),
    (
        "number without unit",
        "sludge: 11 in",
        "sludge: 11",
        'tanks[0].sludge: "11" has no unit.\n'
        '  Write it as "48 in", "4 ft" or "18 ft 4 in".',
    ),
    (
        "duplicate key",
        "    bore: 4 in",
        "    bore: 4 in\n    bore: 3 in",
        'pipe_runs[0].bore: "bore" stands here twice (first in line 109).\n'
        "  Keep one of the two.",
    ),
    (
        "tab",
        "    bore: 4 in",
        "\tbore: 4 in",
        "There is a tab in this line.\n  Indent with spaces only.",
    ),
    (
        "reading later than the stop",
        "  ended: 10:50 am",
        "  ended: 10:45 am",
        "load_test.levels[5].at: This reading (10:47 am) is later than the end of "
        'the test (10:45 am).\n  Check the time, or "ended".',
    ),
    (
        "sludge deeper than the liquid",
        "sludge: 11 in",
        "sludge: 49 in",
        "tanks[0].sludge: The sludge (49 in) is deeper than the liquid (48 in).\n"
        "  Check both measures.",
    ),
]


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [case[1:] for case in BAD],
    ids=[case[0] for case in BAD],
)
def test_bad_input_is_told_and_nothing_published_changes(
    workspace: Workspace, before: str, after: str, told: str
) -> None:
    public = workspace.root / "public"
    public.mkdir()
    (public / ".onlot-published").touch()
    (public / "index.html").write_text("as it was", encoding="utf-8")
    edit(workspace, LARCH, before, after)
    standing = digest(public)
    ends = {
        "check": "; nothing published has changed.\n",
        "build": " in 1 job; what was published of it before stays as it was.\n",
    }
    for command, end in ends.items():
        result = run(workspace, command, *((LARCH,) if command == "build" else ()))
        assert result.exit_code == 1
        assert f"inspections/{LARCH}.yaml:" in result.output
        assert told in result.output
        assert result.output.endswith(end)
        assert "Traceback" not in result.output
        if command == "check":
            assert digest(public) == standing
    assert [one.name for one in public.iterdir() if one.is_dir()] == []


def test_a_job_with_problems_leaves_the_others_alone(workspace: Workspace) -> None:
    assert run(workspace, "build").exit_code == 0
    public = workspace.root / "public"
    before = {one.name: digest(one) for one in public.iterdir() if one.is_dir()}
    edit(workspace, LARCH, "sludge: 11 in", "sludge: 11")
    edit(workspace, CATTAIL, "start: 12:20 pm", "start: 12:21 pm")
    result = run(workspace, "build")
    assert result.exit_code == 1
    after = {one.name: digest(one) for one in public.iterdir() if one.is_dir()}
    changed = [name for name in before if before[name] != after[name]]
    [line] = [one for one in result.output.splitlines() if one.startswith(CATTAIL)]
    assert [name for name in changed if name != "shared"] == [line.split("/")[-2]]
    assert before.keys() == after.keys()
    assert "--remove-strays" not in result.output


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Both demonstration sites, built once for this file."""
    root = tmp_path_factory.mktemp("built") / "firm"
    here = Path(__file__).resolve().parent.parent
    shutil.copytree(here / "inspections", root / "inspections")
    secret = {"ONLOT_LINK_SECRET": "a secret for tests only, never a client's"}
    result = CliRunner().invoke(main, ["--workspace", str(root), "build"], env=secret)
    assert result.exit_code == 0, result.output
    return root


def clients(public: Path) -> list[Path]:
    """List the folders that are a client's, and not the theme's files."""
    return [one for one in public.iterdir() if one.is_dir() and one.name != "shared"]


def test_every_page_of_both_sites(built: Path) -> None:
    sites = clients(built / "public")
    assert len(sites) == 2
    wanted = {
        "index", "findings", "tank", "load-test", "area", "pipes", "distances",
        "photos", "care", "working", "record", "words", "paper",
    }  # fmt: skip
    found = [{page.stem for page in site.glob("*.html")} for site in sites]
    for extra in ("plan", "pump"):  # one has fixed points, the other a pump chamber
        assert wanted | {extra} in found
    for site in sites:
        drawn = {figure.stem for figure in (site / "figures").glob("*.svg")}
        assert {"tank-1", "solids-1", "load-test", "pipe-1"} <= drawn


def test_no_list_of_clients_and_no_word_of_one_in_the_other(built: Path) -> None:
    public = built / "public"
    sites = set(clients(public))
    for path in public.iterdir():
        if path.is_file():
            text = path.read_text(encoding="utf-8")
            assert not any(site.name in text for site in sites)
            assert "Larch" not in text
            assert "Cattail" not in text
    for site in sites:
        texts = "".join(
            page.read_text(encoding="utf-8") for page in site.rglob("*.html")
        )
        own, other = ("Larch", "Cattail") if "Larch" in texts else ("Cattail", "Larch")
        assert own in texts
        assert other not in texts
        assert {one for one in sites if one.name in texts} == {site}


def test_only_paper_prints_the_private_link(built: Path) -> None:
    for site in clients(built / "public"):
        told = [page.name for page in site.rglob("*") if _holds(page, site.name)]
        assert told == ["paper.html"]
        paper = (site / "paper.html").read_text(encoding="utf-8")
        assert f"https://reports.fieldstone.example/{site.name}/" in paper


def _holds(page: Path, word: str) -> bool:
    return page.is_file() and word.encode() in page.read_bytes()


def test_job_files_and_secrets_are_not_published(built: Path) -> None:
    for path in (built / "public").rglob("*"):
        assert path.suffix not in (".yaml", ".yml", ".md", ".map", ".py")
        if path.is_file() and path.suffix in (".html", ".js", ".css", ".svg"):
            assert "never a client's" not in path.read_text(encoding="utf-8")


def test_figures_carry_text(built: Path) -> None:
    for page in (built / "public").rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        for image in re.findall(r"<img\b[^>]*>", text):
            assert re.search(r'alt="[^"]{10,}"', image), image
    for svg in (built / "public").rglob("figures/*.svg"):
        text = svg.read_text(encoding="utf-8")
        assert "<title" in text
        assert "<desc" in text


def test_pages_keep_to_themselves(built: Path) -> None:
    for page in (built / "public").rglob("*/*.html"):
        text = page.read_text(encoding="utf-8")
        assert re.search(r'<meta name="robots" content="noindex', text)
        assert '<meta name="referrer" content="no-referrer">' in text
        assert not re.search(
            r'(?:src|href)="(?:https?:)?//[^"]*\.(?:js|css|woff)', text
        )


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_working_shows_every_result(built: Path, job: str) -> None:
    data = json.loads(
        CliRunner()
        .invoke(main, ["--workspace", str(built), "results", job, "--json"])
        .output
    )
    page = (built / "build" / "sites" / job / "working.html").read_text("utf-8")
    for one in data["results"]:
        anchor = re.sub(r"[^a-z0-9]", "-", one["name"].lower())
        assert f'id="{anchor}"' in page


def test_two_builds_give_identical_bytes(built: Path, tmp_path: Path) -> None:
    """Another path, time zone, locale and hash seed; the same secret."""
    other = tmp_path / "somewhere else"
    shutil.copytree(built / "inspections", other / "inspections")
    environment = {
        **os.environ,
        "ONLOT_LINK_SECRET": "a secret for tests only, never a client's",
        "TZ": "Pacific/Kiritimati",
        "LC_ALL": "C.UTF-8",
        "PYTHONHASHSEED": "17",
    }
    subprocess.run(
        [sys.executable, "-m", "generator", "--workspace", str(other), "build"],
        check=True,
        env=environment,
        capture_output=True,
        cwd=Path(__file__).resolve().parent.parent,
    )
    first, second = digest(built / "public"), digest(other / "public")
    first.pop(".public.lock", None)
    second.pop(".public.lock", None)
    assert first == second


@pytest.mark.parametrize("after_seconds", [0.3, 0.8, 1.3, 1.8, 2.3])
def test_killed_build_leaves_what_was_published(
    built: Path, tmp_path: Path, after_seconds: float
) -> None:
    root = tmp_path / "firm"
    shutil.copytree(built, root)
    before = digest(root / "public")
    workspace = Workspace(root)
    edit(workspace, LARCH, "distance: 82 ft", "distance: 81 ft")
    environment = {
        **os.environ,
        "ONLOT_LINK_SECRET": "a secret for tests only, never a client's",
    }
    building = subprocess.Popen(
        [sys.executable, "-m", "generator", "--workspace", str(root), "build"],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=Path(__file__).resolve().parent.parent,
    )
    time.sleep(after_seconds)
    if building.poll() is None:
        building.send_signal(signal.SIGKILL)
        building.communicate()
        if digest(root / "public") != before:  # it had just finished publishing
            assert _says(root, "81.0")
    else:
        building.communicate()
        assert _says(root, "81.0")


def _says(root: Path, words: str) -> bool:
    pages = (root / "public").rglob("distances.html")
    return any(words in page.read_text("utf-8") for page in pages)


def test_build_of_one_job_keeps_the_other(built: Path, tmp_path: Path) -> None:
    root = tmp_path / "firm"
    shutil.copytree(built, root)
    secret = {"ONLOT_LINK_SECRET": "a secret for tests only, never a client's"}
    edit(Workspace(root), LARCH, "distance: 82 ft", "distance: 81 ft")
    result = CliRunner().invoke(
        main, ["--workspace", str(root), "build", LARCH], env=secret
    )
    assert result.exit_code == 0, result.output
    before, after = digest(built / "public"), digest(root / "public")
    assert before.keys() == after.keys()
    changed = {name.split("/")[0] for name in before if before[name] != after[name]}
    assert len(changed) == 1


def test_preview_builds_into_the_office(workspace: Workspace) -> None:
    result = run(workspace, "preview", LARCH, "--once")
    assert result.exit_code == 0, result.output
    assert (workspace.root / "office/preview/sites" / LARCH / "index.html").is_file()
    assert not (workspace.root / "public").exists()


def test_lost_secret_is_told_before_every_link_changes(
    built: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("ONLOT_LINK_SECRET")
    root = tmp_path / "firm"
    shutil.copytree(built, root)
    before = digest(root / "public")
    result = run(Workspace(root), "build")
    assert result.exit_code == 1
    told = "The link secret is gone, and a new one would change every link."
    assert told in result.output
    assert digest(root / "public") == before
    assert not (root / ".onlot").exists()


@pytest.mark.parametrize("place", ["inspections/out", "inspections", "build/x"])
def test_sites_are_not_published_among_our_own_files(
    workspace: Workspace, place: str
) -> None:
    result = run(workspace, "build", "--out", str(workspace.root / place))
    assert result.exit_code == 1
    assert "Sites cannot be published inside" in result.output
    assert not (workspace.root / "inspections" / "out").exists()


def test_second_build_at_once_is_told(workspace: Workspace) -> None:
    with alone(workspace.root / "build"):
        result = run(workspace, "build")
    assert result.exit_code == 1
    assert "Another build is at work on this folder." in result.output


def test_hidden_files_are_no_jobs(workspace: Workspace) -> None:
    (workspace.inspections / "._demo-larch-hollow.yaml").write_bytes(b"\x00\x05")
    assert run(workspace, "check").exit_code == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((), "  date*: Date of the visit (date)"),
        (("sludge",), "tanks[].sludge: Sludge"),
        (("length",), "Length: a kind of amount"),
        (("perforations",), "pipe_runs[].log[].see: Seen (required)"),
        (("lid",), "tanks[].cover, cesspool.cover: Cover. State of the access"),
        (("outlet baffle",), "tanks[].outlet_device: Outlet device."),
        (("yes",), "yes, a value of:\n  consent.run_water\n"),
        (("--page",), "# Field guide"),
    ],
)
def test_fields_are_told(workspace: Workspace, words: tuple[str], told: str) -> None:
    result = run(workspace, "fields", *words)
    assert result.exit_code == 0
    assert told in result.output


def test_unknown_fields_are_met_with_near_ones(workspace: Workspace) -> None:
    result = run(workspace, "fields", "slugde")
    assert result.exit_code == 1
    assert '"slugde" is no section, key, amount or value.' in result.output
    assert 'Did you mean "sludge"' in result.output


def test_the_printed_page_is_the_shipped_one(workspace: Workspace) -> None:
    page = Path(__file__).parent.parent / "schemas" / "field-guide.md"
    result = run(workspace, "fields", "--page")
    assert result.output == page.read_text(encoding="utf-8")


@pytest.mark.parametrize("words", [(), ("--all",), ("--like", LARCH)])
def test_new_job_misses_only_what_nobody_can_guess(
    workspace: Workspace, words: tuple[str, ...]
) -> None:
    result = run(workspace, "new", "2026-014", *words)
    assert result.exit_code == 0
    assert result.output == (
        "inspections/2026-014.yaml was written.\n"
        "schemas/inspection.schema.json was written for the editor.\n"
    )
    checked = run(workspace, "check", "2026-014")
    assert f"{3 if LARCH in words else 5} problems" in checked.output
    assert checked.output.count("This has no value.") == (3 if LARCH in words else 5)


def test_new_job_never_overwrites(workspace: Workspace) -> None:
    before = digest(workspace.root)
    for name, told in (
        (LARCH, f"inspections/{LARCH}.yaml: This job is there already."),
        (f"{LARCH}.yaml", "This job is there already."),
        ("../x", "../x: This cannot be the name of a job."),
        ("firm", "This is the firm's own file, not a job."),
    ):
        result = run(workspace, "new", name)
        assert result.exit_code == 1
        assert told in result.output
    assert run(workspace, "new", "x", "--like", "nope").exit_code == 1
    assert run(workspace, "new", "x", "--all", "--like", LARCH).exit_code == 2
    assert digest(workspace.root) == before


def test_new_job_needs_a_folder(tmp_path: Path) -> None:
    result = run(Workspace(tmp_path), "new", "2026-014")
    assert result.exit_code == 1
    assert "The folder inspections/ is a link or is not there." in result.output
    assert list(tmp_path.iterdir()) == []


def test_codes_are_listed_with_what_they_hold(workspace: Workspace) -> None:
    told = run(workspace, "codes").output
    assert "us-or: Oregon\n    36 distances, 36 read; undated\n" in told
    assert "us-in-elkhart: Elkhart County, Indiana, county or town\n" in told


def test_one_code_is_printed_in_full(workspace: Workspace) -> None:
    """NAC 444.792: 150 ft of a well that is not sealed to 50 ft."""
    told = run(workspace, "codes", "us-nv").output
    assert "absorption area to private well: 150 ft; casing of less than 50 ft" in told
    assert "NAC 444.792" in told
    assert "bedrooms 4, gallons 1200" in told


def test_a_code_that_is_not_there(workspace: Workspace) -> None:
    result = run(workspace, "codes", "us-orr")
    assert result.exit_code == 1
    assert 'No code pack is called "us-orr".\n  Did you mean "us-or"?' in result.output


def test_a_pack_of_the_firm_is_listed_and_its_mistakes_are_told(
    workspace: Workspace,
) -> None:
    folder = workspace.inspections / "codes"
    folder.mkdir()
    own = folder / "us-or.yaml"
    own.write_text("name: us-or\njurisdiction: Oregon\n", encoding="utf-8")
    assert "us-or: Oregon, the firm's own\n" in run(workspace, "codes").output
    own.write_text("name: us-or\njurisdicton: Oregon\n", encoding="utf-8")
    result = run(workspace, "check", LARCH)
    assert result.exit_code == 1
    assert "inspections/codes/us-or.yaml:2: jurisdicton:" in result.output


@pytest.mark.parametrize("name", ["../x/demo-larch-hollow", "/etc/passwd", "a/../b"])
def test_a_path_that_leads_elsewhere_is_no_job(name: str, workspace: Workspace) -> None:
    result = run(workspace, "check", name)
    assert result.exit_code == 1
    assert "This cannot be the name of a job." in result.output
