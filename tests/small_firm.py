"""A firm with two small jobs, built by the command."""

from __future__ import annotations

import shutil
from pathlib import Path

from click.testing import CliRunner, Result
from PIL import Image

from generator.cli import main
from generator.website.links import folder_name

SECRET = "a secret for tests only, never a client's"
HERE = Path(__file__).resolve().parent.parent / "inspections"
SMALL = """\
visit: {date: 2026-10-06, inspector: M. Example (invented)}
client: {name: A. Client (invented)}
property: {address: 1 Example Lane, place: "Example Township, Oregon", code: us-or}
tanks:
  - {name: tank, shape: box, length: 8 ft, width: 4 ft 6 in, liquid_depth: 48 in}
photos: [{file: lid.jpg, shows: the lid}]
"""


class Firm:
    """A firm with two small jobs, and builds of it."""

    def __init__(self, root: Path) -> None:
        self.root, self.public = root, root / "public"
        self.inspections = root / "inspections"
        self.inspections.mkdir(parents=True)
        shutil.copy(HERE / "firm.yaml", self.inspections)
        for job in ("ash", "elm"):
            self.job_file(job).write_text(SMALL, encoding="utf-8")
            (self.inspections / job).mkdir()
            Image.new("RGB", (60, 40), "#887766").save(
                self.inspections / job / "lid.jpg"
            )

    @classmethod
    def at(cls, root: Path) -> Firm:
        """Take up a firm's folder that is there."""
        made = cls.__new__(cls)
        made.root, made.public = root, root / "public"
        made.inspections = root / "inspections"
        return made

    def job_file(self, job: str) -> Path:
        return self.inspections / f"{job}.yaml"

    def ask(self, *words: str) -> Result:
        given = {"ONLOT_LINK_SECRET": SECRET, "SOURCE_DATE_EPOCH": "1793577600"}
        asked = ["--workspace", str(self.root), *words]
        done = CliRunner().invoke(main, asked, env=given)
        assert done.exit_code == 0, done.output
        return done

    def clean(self, apart: Path) -> dict[str, bytes]:
        """Build a copy without anything that was kept, and give what it publishes."""
        shutil.copytree(self.inspections, apart / "inspections")
        other = Firm.at(apart)
        other.ask("build")
        return other.state()

    def told(self, *words: str) -> dict[str, str]:
        """Build, and give what is said of each job."""
        lines = self.ask("build", "--explain", *words).stderr.splitlines()
        pairs = (line.partition(": ") for line in lines)
        return {job: said for job, _, said in pairs if job in ("ash", "elm")}

    def site(self, job: str) -> Path:
        return self.public / folder_name(SECRET.encode(), job, 1)

    def shared(self) -> Path:
        """Give the only shared copy of the theme files."""
        [copy] = (self.public / "shared").iterdir()
        return copy

    def strangers(self) -> list[Path]:
        """List what is published and is neither file nor folder, or an empty one."""
        return [
            one
            for one in self.public.rglob("*")
            if one.is_symlink()
            or not (one.is_file() or (one.is_dir() and any(one.iterdir())))
        ]

    def state(self) -> dict[str, bytes]:
        files = (path for path in self.public.rglob("*") if path.is_file())
        return {
            one.relative_to(self.public).as_posix(): one.read_bytes() for one in files
        }
