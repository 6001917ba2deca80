"""A firm with everything that a site can be made from."""

from __future__ import annotations

import shutil
from pathlib import Path

from PIL import Image

from generator.record.load import Workspace
from tests.codes.firm_builder import OWN_OREGON
from tests.trail.scripted import JOB, ROOT, Repository, begun, entry

SMALL = (ROOT / "generator" / "start" / "files" / "example.yaml").read_text("utf-8")
SMALL_JOBS = ("ash", "fir")
WRONG = "bad"
FINAL = (ROOT / "tests" / "jobs" / "good" / "no-load-test.yaml").read_text("utf-8")
PICTURE = """
photos:
  - {file: tank.jpg, shows: The tank (invented)}
"""
LOOK = "theme: {palette: [{scheme: default, primary: custom}]}\n"


def firm(root: Path) -> Repository:
    """Begin a firm with a logo, colors, codes and small jobs.

    Two jobs have a photograph, and one has problems.
    """
    made = begun(root)
    inspections = made.workspace.inspections
    Image.new("RGB", (40, 20), "#224466").save(inspections / "mark.png")
    with (inspections / "firm.yaml").open("a", encoding="utf-8") as file:
        file.write("logo: mark.png\n")
    (inspections / "codes").mkdir()
    (inspections / "codes" / "us-or.yaml").write_text(OWN_OREGON, encoding="utf-8")
    (root / "mkdocs.yml").write_text(LOOK, encoding="utf-8")
    small(made.workspace)
    shutil.rmtree(made.workspace.photo_folder(JOB))
    made.write(FINAL)
    for job, color in ((JOB, "#667788"), ("ash", "#887766")):
        made.write(made.text(job) + PICTURE, job)
        picture = made.workspace.photo_folder(job) / "tank.jpg"
        picture.parent.mkdir()
        Image.new("RGB", (64, 48), color).save(picture, "JPEG")
    made.write(SMALL.replace("11 in", "11"), WRONG)
    return made


def small(place: Workspace) -> None:
    """Write the small jobs."""
    place.inspections.mkdir(parents=True, exist_ok=True)
    for number, job in enumerate(SMALL_JOBS, 1):
        text = SMALL.replace("1 Example Lane", f"{number} Example Lane")
        place.job_file(job).write_text(text, encoding="utf-8")


def with_history(root: Path) -> Repository:
    """Give two reports of one job, whose next one is a draft by now."""
    made = firm(root)
    for number, sludge in ((1, "sludge: 11 in"), (2, "sludge: 14 in")):
        made.edit(("sludge: 11 in", sludge))
        made.write(made.text() + entry(number, f"report {number}", "2026-10-07"))
        made.commit(f"Give report {number}")
    made.edit(("state: final", "state: draft"), ("ground: frozen", "ground: moist"))
    made.commit("Begin the next")
    return made
