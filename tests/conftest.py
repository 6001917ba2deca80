"""A workspace of its own for each test, with the demonstration firm and jobs."""

from __future__ import annotations

import importlib.util
import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from PIL import Image

from generator.paper import BROWSERS
from generator.record.check import schema
from generator.record.load import Workspace
from generator.record.one_line import written_out
from generator.record.read import Document
from tests.built_once import built_once

ROOT = Path(__file__).resolve().parent.parent
SECRET = "a secret for tests only, never used for a client"
PHOTOS = "# photos:"  # first line of a good job: the photographs that it names
PHOTO_PX = (64, 48)

# The files that take longest, the longest first: begun last, one of them would leave
# the other processes of a run without work. Measured with --durations; our choice.
LONGEST = (
    "website/test_accessible.py",
    "test_browser.py",
    "test_workers.py",
    "test_stale.py",
    "test_stamps.py",
    "test_sealed_browser.py",
    "test_leak.py",
    "test_standing.py",
    "website/test_search.py",
    "test_cli.py",
    "test_paper.py",
    "website/test_publish_killed.py",
    "website/test_page_weight.py",
    "figures/test_plan.py",
    "record/test_mutations.py",
    "test_links.py",
    "verify/test_verify.py",
    "test_sealing.py",
    "record/test_hostile.py",
)

QUIET = [
    "--no-sandbox",
    "--headless",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def pytest_configure(config: pytest.Config) -> None:
    """Let several processes take files in the order of the tests below."""
    if hasattr(config.option, "loadscopereorder"):  # where pytest-xdist is installed
        config.option.loadscopereorder = False


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the files that take longest."""
    turns = {ROOT / "tests" / name: turn for turn, name in enumerate(LONGEST)}
    items.sort(key=lambda item: turns.get(item.path, len(turns)))


@pytest.fixture(autouse=True)
def _link_secret(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("ONLOT_LINK_SECRET", SECRET)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """A browser without a window; a test that needs one is left out where none is."""
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if not found or not importlib.util.find_spec("playwright"):
        if os.environ.get("ONLOT_BROWSER") == "required":
            pytest.fail("ONLOT_BROWSER asks for a browser, and there is none")
        pytest.skip("no Chromium or no playwright here")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=found, args=QUIET)
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def demo_sites(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The built sites of the demonstration jobs, to be read only."""
    return built_once(tmp_path_factory, "demonstrations", _demonstrations)


def _demonstrations(place: Workspace) -> None:
    shutil.copytree(ROOT / "inspections", place.inspections)


@pytest.fixture(scope="session")
def good_sites(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The built site of every job in ``jobs/good``, to be read only."""
    return built_once(tmp_path_factory, "good", _good_jobs)


def _good_jobs(place: Workspace) -> None:
    """Lay out every good job; its photographs are one color."""
    shutil.copytree(ROOT / "tests" / "jobs" / "good", place.inspections)
    shutil.copy(ROOT / "inspections" / "firm.yaml", place.inspections)
    for job in place.jobs():
        first = place.job_file(job).read_text("utf-8-sig").splitlines()[0]
        names = first.removeprefix(PHOTOS).split(",") if PHOTOS in first else []
        for name in names:
            photo = place.photo_folder(job) / name.strip()
            photo.parent.mkdir(exist_ok=True)
            Image.new("RGB", PHOTO_PX, "#887766").save(photo, "JPEG")


@pytest.fixture
def workspace(tmp_path: Path) -> Workspace:
    """A copy of the demonstration workspace."""
    shutil.copytree(
        ROOT / "inspections",
        tmp_path / "firm" / "inspections",
        ignore=shutil.ignore_patterns("*.py", "drawing", "__pycache__"),
    )
    return Workspace(tmp_path / "firm")


@pytest.fixture
def with_job(workspace: Workspace) -> Callable[..., Workspace]:
    """Change one value of a demonstration job, by a function on its plain data.

    Readings on one line are written out first, and the job becomes a draft, so that a
    test may take things away that a final file needs.
    """

    def change(job: str, edit: Callable[[dict], object]) -> Workspace:
        path = workspace.job_file(job)
        loader = yaml.BaseLoader  # every scalar as it was typed
        data = yaml.load(path.read_text(encoding="utf-8"), Loader=loader)
        data = written_out(Document(job, data, {}), schema("inspection")).data
        data["state"] = "draft"
        edit(data)
        path.write_text(_typed(data), encoding="utf-8")
        return workspace

    return change


def _typed(data: dict) -> str:
    return "\n".join(_lines(data, 0)) + "\n"


def _lines(node: object, depth: int) -> Iterator[str]:
    pad = "  " * depth
    if isinstance(node, dict):
        for key, value in node.items():
            if isinstance(value, dict | list):
                yield f"{pad}{key}:"
                yield from _lines(value, depth + 1)
            else:
                yield f"{pad}{key}: {_scalar(value)}"
    elif isinstance(node, list):
        for item in node:
            if isinstance(item, dict | list):
                first, *rest = list(_lines(item, depth + 1))
                yield f"{pad}- {first.strip()}"
                yield from rest
            else:
                yield f"{pad}- {_scalar(item)}"


def _scalar(value: object) -> str:
    text = str(value)
    if text.isdigit():
        return text
    return "'" + text.replace("'", "''") + "'"
