"""One small page tree that uses every part a page can be made of."""

from __future__ import annotations

import functools
import hashlib
import io
import threading
from collections.abc import Callable, Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from PIL import Image, ImageDraw

from generator.website.render import render
from generator.website.tree import Page, write_tree

PROJECT = Path(__file__).parents[2]
LOOK_FOR_THE_END_S = 0.02  # how often a server looks whether it is to end; our choice
SAMPLE = Path(__file__).parent / "sample"
TITLES = {
    "index": "The short answer",
    "findings": "What we found",
    "load-test": "The load test",
    "distances": "Distances and local code",
    "photos": "Photographs",
    "record": "The record",
}
LEVEL_SVG = b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 360">
<g stroke="#555" fill="none"><path d="M60 20v290h560"/></g>
<path d="M60 260 200 205 340 150 480 90" stroke="#0072B2" fill="none" stroke-width="3"/>
<path d="M60 260 480 80" stroke="#D55E00" fill="none" stroke-dasharray="8 5"
 stroke-width="2"/>
<g font-family="sans-serif" font-size="16" fill="#222"><text x="250" y="345">minutes
</text><text x="360" y="70">a blocked outlet</text></g></svg>"""
PLAN_SVG = b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 640 480">
<rect x="60" y="60" width="180" height="120" fill="#ddd" stroke="#333"/>
<ellipse cx="430" cy="320" rx="140" ry="70" fill="#eee" stroke="#333"/>
<path d="M240 150 340 280" stroke="#0072B2" stroke-width="3"/>
<g font-family="sans-serif" font-size="18" fill="#222"><text x="110" y="125">House
</text><text x="395" y="325">Mound</text></g></svg>"""


def drawing(color: str) -> bytes:
    """A small drawn picture as JPEG."""
    image = Image.new("RGB", (640, 480), color)
    ImageDraw.Draw(image).ellipse((180, 120, 460, 400), fill="#3a3128", width=6)
    written = io.BytesIO()
    image.save(written, "JPEG", quality=80)
    return written.getvalue()


def sample_parts() -> dict[str, Any]:
    """Everything ``write_tree`` needs, apart from the folder."""
    return {
        "site_name": "7 Cattail Lake Drive",
        "pages": [
            Page(f"{name}.md", title, (SAMPLE / f"{name}.md").read_text("utf-8"))
            for name, title in TITLES.items()
        ],
        "figures": {"level": LEVEL_SVG, "plan": PLAN_SVG},
        "photos": {"cover": drawing("#8d9a6c"), "toe": drawing("#b3a178")},
        "base_config": PROJECT / "mkdocs.yml",
    }


def make_site(folder: Path, word: str) -> Path:
    """A built site of a few files."""
    (folder / "figures").mkdir(parents=True)
    for name in ("index.html", "record.html", "figures/plan.svg"):
        (folder / name).write_text(f"{word} {name}\n" * 50)
    return folder


def state(folder: Path) -> dict[str, str]:
    """Every file of a folder with the digest of its bytes."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(
            path.read_bytes()
        ).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def around(public: Path) -> list[str]:
    """What lies beside the published folder, apart from the lock."""
    return sorted(
        entry.name
        for entry in public.parent.iterdir()
        if entry.name.startswith(f".{public.name}.") and entry.suffix != ".lock"
    )


@pytest.fixture
def folders() -> SimpleNamespace:
    """Small helpers for tests that look at whole folders."""
    return SimpleNamespace(make_site=make_site, state=state, around=around)


@pytest.fixture
def sample() -> dict[str, Any]:
    """The sample's parts, to change one of them."""
    return sample_parts()


@pytest.fixture(scope="session")
def sample_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample, rendered."""
    site = tmp_path_factory.mktemp("site")
    render(write_tree(tmp_path_factory.mktemp("tree"), **sample_parts()), site)
    return site


class Quiet(SimpleHTTPRequestHandler):
    """Serves without a word."""

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[[Path], str]]:
    """Serves a folder on this machine, one server for each, and gives its address."""
    servers: dict[Path, ThreadingHTTPServer] = {}

    def _serve(folder: Path) -> str:
        if folder not in servers:
            handler = functools.partial(Quiet, directory=str(folder))
            server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
            run = functools.partial(server.serve_forever, LOOK_FOR_THE_END_S)
            threading.Thread(target=run, daemon=True).start()
            servers[folder] = server
        return f"http://127.0.0.1:{servers[folder].server_port}"

    yield _serve
    for server in servers.values():
        server.shutdown()
        server.server_close()
