"""The story of one job, told once for all tests of the trail."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from tests.trail.scripted import Repository, story

TOOLS = ("git", "ssh-keygen")


@pytest.fixture(scope="session")
def told(tmp_path_factory: pytest.TempPathFactory) -> Repository:
    """A repository with three reports of one job; no test may change it."""
    missing = [one for one in TOOLS if shutil.which(one) is None]
    if missing and os.environ.get("ONLOT_GIT") == "required":
        pytest.fail(f"ONLOT_GIT asks for {missing}, which is not here")
    if missing:
        pytest.skip(f"no {missing[0]} here")
    folder = tmp_path_factory.mktemp("story")
    return story(folder / "firm", folder / "keys")


@pytest.fixture
def mine(told: Repository, tmp_path: Path) -> Repository:
    """A copy of the same repository, which a test may change."""
    shutil.copytree(told.root, tmp_path / "firm")
    return Repository(tmp_path / "firm", told.days)
