"""What people do to a firm's folder, and to onlot, drawn by chance and seeded."""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

from click.testing import CliRunner
from PIL import Image

from generator.cli import main
from tests.trail.scripted import IGNORED, ROOT, Repository, entry

MOST_JOBS = 3
NAMES = [f"lot-{number}" for number in range(5)]  # few, so that names come back
BROKEN = "load_test: never mended\n"
BASE = ROOT / "tests" / "jobs" / "good" / "no-load-test.yaml"
UNLIKE = 60  # lines of a job that no other has, so that git takes none for another
PACK = """\
name: us-mn
jurisdiction: Minnesota
separation:
  citation: "Letter of the county (invented)"
  edition: "letter of 2026 (invented)"
  measured_from: "the edge of the stone"
  rows:
    - {from: tank, to: private well, feet: 75, seen: yes}
"""


class Office:
    """A firm's repository and a copy of onlot, edited by chance.

    Parameters
    ----------
    root : pathlib.Path
        Where both go.
    seed : int
        Of the chance.
    """

    def __init__(self, root: Path, seed: int) -> None:
        self.chance = random.Random(seed)
        self.onlot = root / "onlot"
        for name in ("generator", "schemas"):
            shutil.copytree(ROOT / name, self.onlot / name, ignore=without_caches)
        shutil.copy(ROOT / "mkdocs.yml", self.onlot)
        self.firm = Repository(root / "firm")
        self.inspections = self.firm.workspace.inspections
        self.inspections.mkdir(parents=True)
        shutil.copy(ROOT / "inspections" / "firm.yaml", self.inspections)
        (self.firm.root / ".gitignore").write_text(IGNORED, encoding="utf-8")
        self.firm.git("init", "--quiet", "--initial-branch=main")
        self.count = 0
        self.add_a_job()
        self.add_a_job()
        self.commit()

    def edit(self) -> str:
        """Do one thing that can be done now, and name it."""
        while True:
            way = self.chance.choice(EDITS)
            if way(self) is not False:
                return way.__name__

    def jobs(self) -> list[str]:
        return self.firm.workspace.jobs()

    def job(self) -> str:
        return self.chance.choice(self.jobs())

    def next(self) -> int:
        self.count += 1
        return self.count

    def change(self, job: str, old: str, new: str) -> None:
        text = re.sub(old, lambda _: new, self.firm.text(job), count=1, flags=re.M)
        self.firm.write(text, job)

    # ------------------------------------------------------------------ job files

    def change_a_value(self) -> None:
        key, values = self.chance.choice([("bedrooms: ", 6), ("sludge: ", 16)])
        unit = " in" if key == "sludge: " else ""
        value = self.chance.randrange(1, values)
        self.change(self.job(), rf"{key}\d+{unit}", f"{key}{value}{unit}")

    def change_a_comment(self) -> None:
        self.change(self.job(), r"^# remark.*$", f"# remark {self.next()}")

    def add_a_job(self) -> bool | None:
        free = sorted(set(NAMES) - set(self.jobs()))
        if not free or len(self.jobs()) >= MOST_JOBS:
            return False
        job, number = self.chance.choice(free), self.next()
        unlike = "".join(f"# {number}-{self.chance.random()}\n" for _ in range(UNLIKE))
        text = BASE.read_text(encoding="utf-8")
        self.firm.write(f"# remark 0\n{unlike}{text}", job)
        self.firm.workspace.photo_folder(job).mkdir(exist_ok=True)
        self.add_a_photograph(job)
        return None

    def delete_a_job(self) -> bool | None:
        if len(self.jobs()) < 2:
            return False
        self.delete(self.job())
        return None

    def delete(self, job: str) -> None:
        self.firm.workspace.job_file(job).unlink()
        shutil.rmtree(self.firm.workspace.photo_folder(job), ignore_errors=True)

    def rename_a_job(self) -> bool | None:
        free = sorted(set(NAMES) - set(self.jobs()))
        if not free:
            return False
        job, new = self.job(), self.chance.choice(free)
        for place in (self.firm.workspace.job_file, self.firm.workspace.photo_folder):
            if place(job).exists():
                place(job).rename(place(new))
        return None

    def give_a_report(self) -> None:
        """List one more report in a final file; committed, it is given."""
        job = self.job()
        self.change(job, "^state: .*$", "state: final")
        number = self.firm.text(job).count("{number: ") + 1
        listed = entry(number, f"look {number}", f"2026-10-{min(number, 28):02}")
        self.firm.write(self.firm.text(job) + listed, job)

    def go_back_to_a_draft(self) -> None:
        self.change(self.job(), "^state: .*$", "state: draft")

    def break_a_job(self) -> None:
        job = self.job()
        self.firm.write(BROKEN + self.firm.text(job), job)

    def mend_a_job(self) -> bool | None:
        broken = [job for job in self.jobs() if BROKEN in self.firm.text(job)]
        if not broken:
            return False
        job = self.chance.choice(broken)
        self.firm.write(self.firm.text(job).replace(BROKEN, ""), job)
        return None

    # ---------------------------------------------------------------- photographs

    def photographs(self, job: str) -> list[str]:
        return re.findall(r"^  - \{file: ([^,]+),", self.firm.text(job), re.M)

    def paint(self, job: str, name: str, side: int = 30) -> None:
        """Paint a picture: two of one side have one size in bytes."""
        color = tuple(self.chance.randrange(256) for _ in range(3))
        image = Image.new("RGB", (side, 20), color)
        image.save(self.firm.workspace.photo_folder(job) / name, compress_level=0)

    def with_photographs(self) -> tuple[str, list[str]]:
        job = self.job()
        return job, self.photographs(job)

    def add_a_photograph(self, job: str = "") -> None:
        job = job or self.job()
        name = f"p{self.next()}.png"
        self.firm.workspace.photo_folder(job).mkdir(exist_ok=True)
        self.paint(job, name)
        one = f"  - {{file: {name}, shows: a cover}}\n"
        text = self.firm.text(job)
        if "photos:\n" in text:
            self.firm.write(text.replace("photos:\n", f"photos:\n{one}", 1), job)
        else:
            self.change(job, "^visit:", f"photos:\n{one}visit:")

    def change_a_photograph(self) -> bool | None:
        job, names = self.with_photographs()
        if not names:
            return False
        self.paint(job, self.chance.choice(names), self.chance.choice([30, 30, 40]))
        return None

    def rename_a_photograph(self) -> bool | None:
        job, names = self.with_photographs()
        if not names:
            return False
        old, new = self.chance.choice(names), f"p{self.next()}.png"
        folder = self.firm.workspace.photo_folder(job)
        (folder / old).rename(folder / new)
        self.change(job, re.escape(old), new)
        return None

    def delete_a_photograph(self) -> bool | None:
        job, names = self.with_photographs()
        if len(names) < 2:
            return False
        name = self.chance.choice(names)
        (self.firm.workspace.photo_folder(job) / name).unlink()
        self.change(job, rf"^  - \{{file: {re.escape(name)},.*\n", "")
        return None

    # ------------------------------------------------- the firm, its links, onlot

    def change_the_firm(self) -> None:
        file = self.inspections / "firm.yaml"
        text = re.sub(r"555-\d+", f"555-{self.next():04}", file.read_text("utf-8"))
        file.write_text(text, encoding="utf-8")

    def set_own_codes(self) -> None:
        file = self.inspections / "codes" / "us-mn.yaml"
        if file.exists() and self.chance.random() < 0.4:
            file.unlink()
        else:
            file.parent.mkdir(exist_ok=True)
            feet = self.chance.randrange(20, 90)
            file.write_text(PACK.replace("75", str(feet)), encoding="utf-8")

    def set_colors(self) -> None:
        file = self.firm.root / "mkdocs.yml"
        if file.exists() and self.chance.random() < 0.4:
            file.unlink()
        else:
            color = self.chance.choice(["teal", "indigo", "brown"])
            text = f"theme: {{palette: [{{scheme: default, primary: {color}}}]}}\n"
            file.write_text(text, encoding="utf-8")

    def change_a_link(self) -> None:
        word = self.chance.choice(["renew", "renew", "withdraw"])
        asked = ["--workspace", str(self.firm.root), word, self.job()]
        CliRunner().invoke(main, [*asked, "--on", "2026-10-20"])  # or it is refused

    def change_onlot(self) -> None:
        """Change a template, a style, a shipped pack or a schema, where it shows."""
        number = self.next()
        inside = self.onlot / "generator"
        file, words = self.chance.choice(
            [
                (inside / "pages/templates/care.md.jinja", "\nSaid {}.\n"),
                (inside / "website/theme/assets/onlot.css", "\n.a{} {{top: 0}}\n"),
                (inside / "codes/us-mn.yaml", "# {}\n"),
                (
                    self.onlot / "schemas/inspection.schema.json",
                    "\n" * (number % 3 + 1),
                ),
            ]
        )
        file.write_text(file.read_text("utf-8") + words.format(number), "utf-8")

    # ------------------------------------------------------------- git, and faults

    def commit(self) -> None:
        self.firm.commit(f"Step {self.next()}", "--allow-empty")

    def take_back(self) -> None:
        """Go back to the last commit, and now and then to the one before it."""
        there = "HEAD~1" if self.chance.random() < 0.3 else "HEAD"
        if there == "HEAD~1" and self.firm.git("rev-list", "--count", "HEAD") == "1":
            return
        self.firm.git("reset", "--quiet", "--hard", there)
        self.firm.git("clean", "--quiet", "--force", "-d", "inspections")

    def spoil_what_was_kept(self) -> None:
        kept = [
            one
            for folder in ("stamps", "photos")
            for one in sorted((self.firm.root / "build" / folder).rglob("*"))
            if one.is_file()
        ]
        for one in kept[: self.chance.randrange(3)]:
            one.write_bytes(one.read_bytes()[: self.chance.randrange(200)])


EDITS: list[Callable[[Office], bool | None]] = [
    *[Office.change_a_value] * 3,
    *[Office.commit] * 2,
    *[Office.change_a_comment, Office.give_a_report, Office.go_back_to_a_draft] * 2,
    *[Office.add_a_job, Office.rename_a_job, Office.change_a_photograph] * 2,
    *[Office.delete_a_job, Office.add_a_photograph, Office.rename_a_photograph],
    *[Office.delete_a_photograph, Office.break_a_job, *[Office.mend_a_job] * 3],
    *[Office.change_the_firm, Office.set_own_codes, Office.set_colors],
    *[Office.change_a_link, Office.change_onlot, Office.take_back],
    Office.spoil_what_was_kept,
]


def without_caches(_: str, names: list[str]) -> set[str]:
    """Leave compiled code out of a copy."""
    return {name for name in names if name == "__pycache__"}
