"""A full disk and two builds at once: what is published is one whole version."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.cli import main

HERE = Path(__file__).resolve().parent.parent
SECRET = {"ONLOT_LINK_SECRET": "a secret for tests only, never a client's"}
DISK_KB = 2600  # holds the first version, and not a second beside it
SMALL = """\
visit: {date: 2026-10-06, inspector: M. Example (invented)}
client: {name: A. Client (invented)}
property: {address: 1 Example Lane, place: "Example Township, Oregon"}
"""


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of its own that is soon full; left out where none may be mounted."""
    place = tmp_path / "disk"
    place.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", f"size={DISK_KB}k", "tmpfs", str(place)]
    if (
        not shutil.which("mount")
        or subprocess.run(command, capture_output=True, check=False).returncode
    ):
        pytest.skip("no disk may be mounted here")
    yield place
    subprocess.run(["umount", str(place)], check=True)


def firm(root: Path, jobs: tuple[str, ...]) -> Path:
    (root / "inspections").mkdir(parents=True)
    shutil.copy(HERE / "inspections/firm.yaml", root / "inspections")
    for job in jobs:
        (root / "inspections" / f"{job}.yaml").write_text(SMALL, encoding="utf-8")
    return root


def build(root: Path, public: Path, *words: str) -> Result:
    asked = ["--workspace", str(root), "build", "--out", str(public), *words]
    return CliRunner().invoke(main, asked, env=SECRET)


def state(public: Path) -> dict[str, bytes]:
    files = (path for path in public.rglob("*") if path.is_file())
    return {str(one.relative_to(public)): one.read_bytes() for one in files}


def test_a_full_disk_keeps_the_version_before(disk: Path, tmp_path: Path) -> None:
    root = firm(tmp_path / "firm", ("ash",))
    assert build(root, disk / "public").exit_code == 0
    before = state(disk / "public")
    with (disk / "filler").open("wb") as filler:  # leave less than one site needs
        left = shutil.disk_usage(disk).free
        filler.write(bytes(max(0, left - 20_000)))
    file = root / "inspections/ash.yaml"
    file.write_text(SMALL.replace("Lane", "Street"), encoding="utf-8")
    refused = build(root, disk / "public")
    assert refused.exit_code == 1, refused.output
    assert "No space left on device" in refused.output
    assert "What was published stays published." in refused.output
    assert state(disk / "public") == before
    (disk / "filler").unlink()
    assert build(root, disk / "public").exit_code == 0
    assert state(disk / "public") != before
    assert {path.name for path in disk.iterdir()} == {"public", ".public.lock"}


def test_two_builds_at_once_leave_one_whole_version(tmp_path: Path) -> None:
    root = firm(tmp_path / "firm", ("ash", "elm", "fir"))
    public = root / "public"
    command = [sys.executable, "-m", "generator", "--workspace", str(root), "build"]
    running = [
        subprocess.Popen(
            [*command, "--all"],
            cwd=HERE,
            env=os.environ | SECRET,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        for _ in range(3)
    ]
    told = [(one.communicate(timeout=120)[0], one.returncode) for one in running]
    assert 0 in [code for _, code in told]
    for words, code in told:
        assert code == 0 or "Another build is at work on this folder." in words, words
    clean = firm(tmp_path / "clean", ("ash", "elm", "fir"))
    assert build(clean, clean / "public").exit_code == 0
    assert state(public) == state(clean / "public")


def test_a_folder_that_cannot_be_written_keeps_all(tmp_path: Path) -> None:
    if os.geteuid() == 0:
        pytest.skip("root may write anywhere")
    root = firm(tmp_path / "firm", ("ash",))
    assert build(root, tmp_path / "place/public").exit_code == 0
    before = state(tmp_path / "place/public")
    (tmp_path / "place").chmod(0o500)
    refused = build(root, tmp_path / "place/public", "--all")
    (tmp_path / "place").chmod(0o700)
    assert refused.exit_code == 1
    assert state(tmp_path / "place/public") == before
