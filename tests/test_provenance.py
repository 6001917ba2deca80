"""What a site was made from: all that can change its pages, and nothing beside it."""

from __future__ import annotations

import hashlib
import json
import shutil
from collections.abc import Callable
from importlib import metadata
from pathlib import Path
from platform import python_version

import pytest
from PIL import Image

from generator import __version__
from generator.codes import packs
from generator.pages.origin import UNKNOWN, Origin
from generator.provenance import made_of
from generator.record.load import Workspace
from generator.stamps import LIBRARIES, of_onlot
from generator.worked import work_out

LARCH, CATTAIL = "demo-larch-hollow", "demo-cattail-lake"
COMMIT = "3f" * 20
FIRM, ONLOT = "files_of_the_firm", "files_of_onlot"
Change = Callable[..., Workspace]


def told(workspace: Workspace, job: str = LARCH) -> dict:
    return made_of(workspace, work_out(workspace, job), UNKNOWN)


def digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def test_versions_and_the_place_in_the_history_are_told(workspace: Workspace) -> None:
    found = made_of(workspace, work_out(workspace, LARCH), Origin(COMMIT, 2))
    assert (found["job"], found["commit"], found["report"]) == (LARCH, COMMIT, 2)
    assert found["onlot"] == {"version": __version__, "code": of_onlot()}
    assert found["python"] == python_version()
    assert found["libraries"] == {one: metadata.version(one) for one in LIBRARIES}


def test_the_files_of_the_firm_are_those_that_went_in(workspace: Workspace) -> None:
    inspections = workspace.inspections
    worked = work_out(workspace, LARCH)
    record = worked.record
    (inspections / LARCH / "not-listed.jpg").write_bytes(b"x")
    (inspections / LARCH / "links.yaml").write_text("", encoding="utf-8")
    photos = [f"inspections/{LARCH}/{one.file}" for one in record.inspection.photos]
    paths = {f"inspections/{LARCH}.yaml", "inspections/firm.yaml", *photos}
    assert photos
    found = made_of(workspace, worked, UNKNOWN)
    assert found[FIRM] == {path: digest(workspace.root / path) for path in paths}


def test_the_logo_the_colors_and_the_own_codes_count(with_job: Change) -> None:
    workspace = with_job(LARCH, lambda data: data["property"].update(code="us-or"))
    inspections = workspace.inspections
    Image.new("RGB", (40, 20), "#224466").save(inspections / "mark.png")
    with (inspections / "firm.yaml").open("a", encoding="utf-8") as file:
        file.write("logo: mark.png\n")
    look = "theme: {palette: [{scheme: default, primary: custom}]}\n"
    (workspace.root / "mkdocs.yml").write_text(look, encoding="utf-8")
    (inspections / "codes").mkdir()
    for name in ("us-or", "us-wa"):  # of which one is in use
        shutil.copy(packs.FOLDER / f"{name}.yaml", inspections / "codes")
    found = told(workspace)
    for path in ("mkdocs.yml", "inspections/mark.png", "inspections/codes/us-or.yaml"):
        assert found[FIRM][path] == digest(workspace.root / path)
    assert "inspections/codes/us-wa.yaml" not in found[FIRM]
    assert found[ONLOT]["codes/us-or.yaml"] == digest(packs.FOLDER / "us-or.yaml")


def test_town_state_and_program_count(with_job: Change) -> None:
    def lies_in(data: dict) -> None:
        data["property"].update(code="us-nc-orange", program="us-fha-existing")

    found = told(with_job(LARCH, lies_in))[ONLOT]
    for name in ("us-nc-orange", "us-fha-existing"):
        assert found[f"codes/{name}.yaml"] == digest(packs.FOLDER / f"{name}.yaml")


def test_texts_schemas_and_guides_of_onlot_count(workspace: Workspace) -> None:
    found = told(workspace)[ONLOT]
    for name in ("inspection", "firm", "code"):
        assert f"schemas/{name}.schema.json" in found
    for name in ("record", "paper", "_parts"):
        assert f"pages/templates/{name}.md.jinja" in found
    for pack in packs.with_pump_out():
        assert f"codes/{pack.name}.yaml" in found
    assert "mkdocs.yml" in found


@pytest.mark.parametrize("job", [LARCH, CATTAIL])
def test_nothing_of_another_job_or_of_this_machine(
    workspace: Workspace, job: str
) -> None:
    text = json.dumps(told(workspace, job))
    other = CATTAIL if job == LARCH else LARCH
    assert other not in text
    assert str(workspace.root) not in text
    assert '"/' not in text
    assert ".." not in text


def test_a_changed_file_changes_its_entry_alone(workspace: Workspace) -> None:
    before = told(workspace)
    file = workspace.job_file(LARCH)
    file.write_bytes(file.read_bytes() + b"# one more line\n")
    after = told(workspace)
    path = f"inspections/{LARCH}.yaml"
    assert after[FIRM].pop(path) != before[FIRM].pop(path)
    assert after == before
