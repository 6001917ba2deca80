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
from generator.site import build_site
from generator.worked import work_out

ROOT = Path(__file__).resolve().parent.parent
SECRET = "a secret for tests only, never used for a client"
PHOTOS = "# photos:"  # first line of a good job: the photographs that it names
PHOTO_PX = (64, 48)

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
    """The built sites of the demonstration jobs."""
    place = Workspace(tmp_path_factory.mktemp("demonstrations"))
    shutil.copytree(ROOT / "inspections", place.inspections)
    return _built(place)


@pytest.fixture(scope="session")
def good_sites(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The built site of every job in ``jobs/good``; its photographs are one color."""
    place = Workspace(tmp_path_factory.mktemp("good"))
    shutil.copytree(ROOT / "tests" / "jobs" / "good", place.inspections)
    shutil.copy(ROOT / "inspections" / "firm.yaml", place.inspections)
    for job in place.jobs():
        first = place.job_file(job).read_text("utf-8-sig").splitlines()[0]
        names = first.removeprefix(PHOTOS).split(",") if PHOTOS in first else []
        for name in names:
            photo = place.photo_folder(job) / name.strip()
            photo.parent.mkdir(exist_ok=True)
            Image.new("RGB", PHOTO_PX, "#887766").save(photo, "JPEG")
    return _built(place)


def _built(place: Workspace) -> list[Path]:
    worked = [work_out(place, job) for job in place.jobs()]
    return [build_site(place, one, place.root / "build") for one in worked]


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
