"""What is compiled while figures are drawn is what pages are made by."""

from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import Environment

from generator import site
from generator.pages import compose
from generator.site import build_site, compile_ahead
from generator.website import render
from generator.worked import work_out
from tests.trail.scripted import JOB, begun

ICON = ".icons/"  # named by the settings of the theme, not by a template


@pytest.fixture
def compiled(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The names of all templates that are compiled from now on; nothing is before."""
    found: list[str] = []
    whole = Environment.compile

    def counted(self: Environment, source: str, name: str, *more: object) -> object:
        found.append(name)
        return whole(self, source, name, *more)  # type: ignore[call-overload]  # as it came

    monkeypatch.setattr(Environment, "compile", counted)
    for cached in (compose._environment, render._environment, site.compile_ahead):
        cached.cache_clear()
    return found


def test_then_no_template_is_left_to_compile(
    tmp_path: Path, compiled: list[str]
) -> None:
    compile_ahead()
    ahead = set(compiled)
    assert {"index.md.jinja", "main.html", "base.html"} <= ahead
    del compiled[:]
    made = begun(tmp_path / "firm")
    build_site(made.workspace, work_out(made.workspace, JOB), tmp_path / "build")
    names = [one for one in compiled if not one.startswith(ICON)]
    assert names == []
    count = len(compiled)
    compile_ahead()
    build_site(made.workspace, work_out(made.workspace, JOB), tmp_path / "build")
    assert len(compiled) == count  # once in a process
