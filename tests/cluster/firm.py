"""An invented firm with everything that a site can be made from."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from generator.record.load import Workspace
from tests.codes.firm_builder import OWN_OREGON
from tests.trail.scripted import JOB, ROOT, Repository, begun, entry

SMALL = (ROOT / "generator" / "start" / "files" / "example.yaml").read_text("utf-8")
SMALL_JOBS = ("ash", "elm", "fir", "oak", "yew")
WRONG = "bad"
GIVEN, AMENDED = JOB, "lot-8"
LOOK = "theme: {palette: [{scheme: default, primary: custom}]}\n"


def firm(root: Path) -> Repository:
    """Begin a firm with a logo, colors, codes and small jobs; one has problems."""
    made = begun(root)
    inspections = made.workspace.inspections
    Image.new("RGB", (40, 20), "#224466").save(inspections / "mark.png")
    with (inspections / "firm.yaml").open("a", encoding="utf-8") as file:
        file.write("logo: mark.png\n")
    (inspections / "codes").mkdir()
    (inspections / "codes" / "us-or.yaml").write_text(OWN_OREGON, encoding="utf-8")
    (root / "mkdocs.yml").write_text(LOOK, encoding="utf-8")
    small(made.workspace)
    made.write(SMALL.replace("11 in", "11"), WRONG)
    return made


def small(place: Workspace) -> None:
    """Write the small jobs."""
    place.inspections.mkdir(parents=True, exist_ok=True)
    for number, job in enumerate(SMALL_JOBS, 1):
        text = SMALL.replace("1 Example Lane", f"{number} Example Lane")
        place.job_file(job).write_text(text, encoding="utf-8")


def with_history(root: Path) -> Repository:
    """Give two reports of one job, and two of another whose next one is a draft."""
    made = firm(root)
    text = made.text()
    for job in (GIVEN, AMENDED):
        made.write(text, job)
    pictures = made.workspace.photo_folder(GIVEN)
    other = made.workspace.photo_folder(AMENDED)
    other.mkdir()
    for picture in pictures.iterdir():
        (other / picture.name).write_bytes(picture.read_bytes())
    for number, sludge in ((1, "sludge: 11 in"), (2, "sludge: 14 in")):
        for job in (GIVEN, AMENDED):
            made.edit(("sludge: 11 in", sludge), job=job)
            told = made.text(job) + entry(number, f"report {number}", "2026-10-07")
            made.write(told, job)
        made.commit(f"Give report {number}")
    made.edit(("state: final", "state: draft"), job=AMENDED)
    made.edit(("ground: dry", "ground: moist"), job=AMENDED)
    made.commit("Begin the next")
    return made
