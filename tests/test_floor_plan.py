"""The rooms keep their order: who may import whom, and how a file is laid out."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.record.load import Workspace

TOP = Path(__file__).parent.parent
GENERATOR = TOP / "generator"
HALL = {"atomic", "problems", "quantity", "sources", "shipped"}
RECORD = {"record"}
CODES = RECORD | {"codes"}
RESULTS = CODES | {"results"}
FINDINGS = RESULTS | {"findings"}
TO_THE_LEFT: dict[str, set[str]] = {
    "record": set(),
    "codes": RECORD,
    "results": CODES,
    "findings": RESULTS,
    "figures": FINDINGS,
    "pages": FINDINGS,
    "website": set(),
    "trail": FINDINGS | {"figures", "pages", "website"},
}
ABOVE_ALL_ROOMS = {
    "worked",
    "pictures",
    "pipeline",
    "told",
    "leaving",
    "preview",
    "paper",
    "cli",
    "altered",
    "annotate",
    "cli_build",
    "cluster",
    "cli_common",
    "cli_firm",
    "cli_links",
    "cli_photos",
    "cli_seal",
    "cli_trail",
    "holdings",
    "histories",
    "history_told",
    "keeping",
    "progress",
    "provenance",
    "retain_told",
    "retaining",
    "seen",
    "standing",
    "cli_verify",
    "verify",
    "workers",
    "intake",
    "doors",
    "handing",
    "beside",
    "faults",
    "stale",
    "shards",
    "cli_shards",
    "survey",
    "stamps",
    "stamp_file",
    "spoilt",
    "office",
    "start",
    "sealing",
    "site",
    "__main__",
}
WEBSITE_MAY_SEE = "generator.pages.page"
LONGEST_FILE = 300  # lines
TOO_HEAVY_FOR_A_CHECK = {"matplotlib", "mkdocs", "scipy"}
TOO_HEAVY_WITHOUT_A_PLAN = {"numpy", "uncertainties", "shapely"}

FILES = sorted(GENERATOR.rglob("*.py"))


def name_of(file: Path) -> str:
    return file.relative_to(GENERATOR).as_posix()


def room_of(file: Path) -> str:
    return file.relative_to(GENERATOR).with_suffix("").parts[0]


def imported(file: Path) -> set[str]:
    """List every module of the generator that a file imports, at whatever depth."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{name_of(file)} imports by dots"
            for alias in node.names:
                whole = f"{node.module}.{alias.name}"
                is_module = (TOP / f"{whole.replace('.', '/')}.py").exists()
                is_room = (TOP / whole.replace(".", "/")).is_dir()
                found.add(whole if is_module or is_room else str(node.module))
    return {name for name in found if name.split(".")[0] == "generator"}


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_a_room_imports_only_rooms_to_its_left(file: Path) -> None:
    room = room_of(file)
    if room in ABOVE_ALL_ROOMS:
        return
    allowed = HALL | TO_THE_LEFT.get(room, set()) | {room}
    for module in imported(file):
        parts = module.split(".")
        if module == "generator" or parts[1] in allowed:
            continue
        if room == "website" and module == WEBSITE_MAY_SEE:
            continue
        pytest.fail(f"{name_of(file)} imports {module}")


def test_every_file_has_its_place_in_the_plan() -> None:
    known = set(TO_THE_LEFT) | HALL | ABOVE_ALL_ROOMS | {"__init__"}
    assert {room_of(file) for file in FILES} <= known


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_a_module_says_its_idea_in_its_first_line(file: Path) -> None:
    said = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8")))
    assert said, f"{name_of(file)} has no docstring"
    assert said.splitlines()[0].endswith(".")


@pytest.mark.parametrize("file", FILES, ids=name_of)
def test_a_file_is_short(file: Path) -> None:
    assert len(file.read_text(encoding="utf-8").splitlines()) <= LONGEST_FILE


def loaded_by_a_check(firm: Path, job: str) -> set[str]:
    """List what a check of one job loads, in a process of its own."""
    program = (
        "import sys\n"
        "from click.testing import CliRunner\n"
        "from generator.cli import main\n"
        f"asked = ['--workspace', {str(firm)!r}, 'check', {job!r}]\n"
        "found = CliRunner().invoke(main, asked)\n"
        "assert found.exit_code == 0, found.output\n"
        "print(*sorted({name.partition('.')[0] for name in sys.modules}))\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", program],
        cwd=TOP,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    loaded = set(run.stdout.split())
    assert "jsonschema" in loaded
    return loaded


@pytest.mark.parametrize(
    ("job", "too_heavy"),
    [
        ("demo-cattail-lake", TOO_HEAVY_FOR_A_CHECK | TOO_HEAVY_WITHOUT_A_PLAN),
        ("demo-larch-hollow", TOO_HEAVY_FOR_A_CHECK),  # holds the tape against the plan
    ],
)
def test_a_check_loads_nothing_heavy(job: str, too_heavy: set[str]) -> None:
    assert not loaded_by_a_check(TOP, job) & too_heavy


def test_a_check_of_an_override_draws_nothing(
    with_job: Callable[..., Workspace],
) -> None:
    override = {
        "finding": "tank-outlet-device",
        "weight": "watch",
        "because": "Mended.",
    }
    firm = with_job(
        "demo-larch-hollow", lambda data: data.update(overrides=[override])
    ).root
    assert not loaded_by_a_check(firm, "demo-larch-hollow") & TOO_HEAVY_FOR_A_CHECK
