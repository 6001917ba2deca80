"""A job is built again where something that it is made from changed, and only then."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image

from generator import stale, stamps
from generator.cli import main
from generator.preview import Preview
from generator.record.load import Workspace
from generator.website import photos
from tests.small_firm import SECRET, SMALL, Firm


@pytest.fixture
def firm(tmp_path: Path) -> Firm:
    made = Firm(tmp_path / "firm")
    made.ask("build")
    return made


SAME = "nothing changed, so not built."


def test_nothing_is_built_twice(firm: Firm) -> None:
    before = firm.state()
    assert firm.told() == {"ash": SAME, "elm": SAME}
    assert firm.state() == before
    assert firm.told("--all") == dict.fromkeys(
        ("ash", "elm"), "everything is built again."
    )
    assert firm.state() == before


def edit_job(firm: Firm) -> None:
    text = firm.job_file("ash").read_text(encoding="utf-8")
    firm.job_file("ash").write_text(text.replace("8 ft,", "9 ft,"), encoding="utf-8")


def edit_photo(firm: Firm) -> None:
    Image.new("RGB", (60, 40), "#112233").save(firm.inspections / "ash/lid.jpg")


def spoil_a_page(firm: Firm) -> None:
    (firm.site("ash") / "care.html").write_text("spoilt", encoding="utf-8")


def take_a_page(firm: Firm) -> None:
    (firm.site("ash") / "care.html").unlink()


def add_a_page(firm: Firm) -> None:
    (firm.site("ash") / "more.html").write_text("more", encoding="utf-8")


def take_the_site(firm: Firm) -> None:
    shutil.rmtree(firm.site("ash"))


ONE = {
    edit_job: "the job file changed.",
    edit_photo: "its folder of photographs changed.",
    spoil_a_page: f"{stale.TOUCHED}.",
    take_a_page: f"{stale.TOUCHED}.",
    add_a_page: f"{stale.TOUCHED}.",
    take_the_site: f"{stale.GONE}.",
}


@pytest.mark.parametrize("change", ONE, ids=lambda change: change.__name__)
def test_one_change_builds_one_job(
    firm: Firm, change: Callable[[Firm], None], tmp_path: Path
) -> None:
    change(firm)
    assert firm.told() == {"ash": ONE[change], "elm": SAME}
    assert firm.state() == firm.clean(tmp_path / "fresh")


def edit_firm(firm: Firm) -> None:
    file = firm.inspections / "firm.yaml"
    text = file.read_text(encoding="utf-8").replace("555-0142", "555-0143")
    file.write_text(text, encoding="utf-8")


def add_a_code(firm: Firm) -> None:
    (firm.inspections / "codes").mkdir()
    (firm.inspections / "codes/notes.txt").write_text("x", encoding="utf-8")


def set_colors(firm: Firm) -> None:
    text = "theme: {palette: [{scheme: default, primary: custom}]}\n"
    (firm.root / "mkdocs.yml").write_text(text, encoding="utf-8")


def take_the_theme(firm: Firm) -> None:
    shutil.rmtree(firm.public / "shared")


ALL = {
    edit_firm: "the firm file changed.",
    add_a_code: "the firm's own codes changed.",
    set_colors: "the look changed.",
    take_the_theme: f"{stale.GONE}.",
}


@pytest.mark.parametrize("change", ALL, ids=lambda change: change.__name__)
def test_what_is_shared_builds_every_job(
    firm: Firm, change: Callable[[Firm], None]
) -> None:
    change(firm)
    assert firm.told() == dict.fromkeys(("ash", "elm"), ALL[change])


@pytest.mark.parametrize("kind", ["of_onlot", "_of_libraries"])
def test_another_version_builds_every_job(
    firm: Firm, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    monkeypatch.setattr(stamps, kind, lambda: "another")
    told = firm.told()
    assert told["ash"] == told["elm"]
    assert told["ash"] in ("onlot changed.", "the libraries changed.")


def test_time_alone_builds_nothing(firm: Firm) -> None:
    for path in (*firm.inspections.rglob("*"), *firm.public.rglob("*")):
        os.utime(path, (1, 1))
    assert firm.told() == {"ash": SAME, "elm": SAME}


def test_a_refused_job_keeps_what_is_published(firm: Firm) -> None:
    before = firm.state()
    firm.job_file("elm").write_text("visit:\n", encoding="utf-8")
    asked = ["--workspace", str(firm.root), "build"]
    done = CliRunner().invoke(main, asked, env={"ONLOT_LINK_SECRET": SECRET})
    assert done.exit_code == 1
    assert firm.state() == before


def test_after_many_edits_it_equals_a_clean_build(firm: Firm, tmp_path: Path) -> None:
    source = random.Random(2026)
    changes: list[Callable[[Firm], object]] = [
        edit_job, edit_photo, spoil_a_page, edit_firm,
        lambda firm: firm.ask("renew", "elm"),
        lambda firm: firm.job_file("ash").write_text(SMALL, encoding="utf-8"),
    ]  # fmt: skip
    for _ in range(6):
        source.choice(changes)(firm)
        firm.ask("build")
    assert firm.state() == firm.clean(tmp_path / "fresh")


def photographs(root: Path) -> int:
    """Count the prepared photographs in every folder that keeps some."""
    places = (root / folder / "photos" for folder in stamps.BUILD_FOLDERS)
    return sum(one.is_file() for place in places for one in place.glob("*"))


def test_prepared_photographs_go_with_the_last_job_that_uses_them(firm: Firm) -> None:
    workspace = Workspace(firm.root)
    Preview(workspace, "ash").build()
    assert photographs(firm.root) == 2  # the same picture in both jobs, and a preview's
    edit_photo(firm)
    firm.ask("build", "ash")
    assert photographs(firm.root) == 3
    firm.job_file("elm").unlink()
    stamps.drop_photographs(workspace, [])
    assert photographs(firm.root) == 3  # not all jobs were built
    stamps.drop_photographs(workspace, ["ash"])
    assert photographs(firm.root) == 2
    firm.job_file("ash").unlink()
    stamps.drop_photographs(workspace, [])
    assert photographs(firm.root) == 0


def test_prepared_photographs_are_kept_where_previews_are_built(firm: Firm) -> None:
    shown = Preview(Workspace(firm.root), "ash").folder.relative_to(firm.root)
    assert (firm.root / "build/photos").is_dir()
    assert ("build", shown.as_posix()) == stamps.BUILD_FOLDERS


def test_a_changed_job_file_decodes_no_photograph(
    firm: Firm, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    edit_job(firm)
    fresh = tmp_path / "fresh"
    shutil.copytree(firm.inspections, fresh / "inspections")
    shutil.copytree(firm.root / "build", fresh / "build")
    for path in fresh.rglob("*"):
        os.utime(path, (1, 1))
    other = Firm.at(fresh)
    monkeypatch.setattr(photos, "two_sizes", None)  # whoever calls it fails
    firm.ask("build")
    other.ask("build")
    assert firm.state() == other.state()
