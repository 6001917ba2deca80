"""A firm's repository made by a script: fixed dates, invented people."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from dataclasses import dataclass, field
from pathlib import Path

from generator.record.load import Workspace

ROOT = Path(__file__).resolve().parent.parent.parent
DEMO = "demo-larch-hollow"
JOB, RENAMED = "lot-7", "lot-7-larch"
FIRST_SECOND = 1_791_216_000  # 2026-10-05, 9 am; each commit is a day later
DAY = 24 * 3600
DEMONSTRATION = re.compile(r"^demonstration:.*\n(?:[ ]+.*\n)*", re.MULTILINE)
REPORTS = re.compile(r"^reports:\n(?:[ ]+.*\n)*", re.MULTILINE)
IGNORED = "/build/\n/public/\n/office/\n/.onlot/\n.*.lock\n"


@dataclass
class Repository:
    """A repository that is committed to by the day."""

    root: Path
    days: int = 0
    settings: dict[str, str] = field(default_factory=dict)

    @property
    def workspace(self) -> Workspace:
        """The firm's folder in it."""
        return Workspace(self.root)

    def git(self, *words: str) -> str:
        """Run git as an invented person of the firm."""
        when = f"{FIRST_SECOND + self.days * DAY} -0700"
        who = {"NAME": "M. Quillfeather (invented)", "EMAIL": "mq@firm.example"}
        people = {
            f"GIT_{role}_{key}": value
            for role in ("AUTHOR", "COMMITTER")
            for key, value in (who | {"DATE": when}).items()
        }
        none = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
        given = [
            word
            for key, value in self.settings.items()
            for word in ("-c", f"{key}={value}")
        ]
        done = subprocess.run(
            ["git", *given, *words],
            cwd=self.root,
            env=os.environ | people | none,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr + done.stdout
        return done.stdout.strip()

    def commit(self, message: str, *words: str) -> str:
        """Commit everything a day later; give the commit's name."""
        self.days += 1
        self.git("add", "--all")
        self.git("commit", "--quiet", "--message", message, *words)
        return self.head()

    def head(self) -> str:
        """Name the present commit."""
        return self.git("rev-parse", "HEAD")

    def text(self, job: str = JOB) -> str:
        """Give the text of a job file."""
        return self.workspace.job_file(job).read_text(encoding="utf-8")

    def write(self, text: str, job: str = JOB) -> None:
        """Write a job file."""
        self.workspace.job_file(job).write_text(text, encoding="utf-8")

    def edit(self, *pairs: tuple[str, str], job: str = JOB) -> None:
        """Put one text of a job file in place of another, each there once."""
        text = self.text(job)
        for old, new in pairs:
            assert text.count(old) == 1, (old, text.count(old))
            text = text.replace(old, new)
        self.write(text, job)


def begun(root: Path) -> Repository:
    """Begin a firm's repository with one job, which nobody has committed yet.

    The job is a demonstration that is told to be none, without a report given.
    """
    made = Repository(root)
    made.workspace.inspections.mkdir(parents=True)
    shutil.copy(ROOT / "inspections" / "firm.yaml", made.workspace.inspections)
    shutil.copytree(ROOT / "inspections" / DEMO, made.workspace.photo_folder(JOB))
    text = (ROOT / "inspections" / f"{DEMO}.yaml").read_text(encoding="utf-8")
    made.write(REPORTS.sub("", DEMONSTRATION.sub("", text)))
    (root / ".gitignore").write_text(IGNORED, encoding="utf-8")
    made.git("init", "--quiet", "--initial-branch=main")
    return made


def entry(number: int, reason: str, day: str) -> str:
    """Write the entry of a report."""
    head = "reports:\n" if number == 1 else ""
    return f'{head}  - {{number: {number}, date: {day}, reason: "{reason}"}}\n'


def signing(folder: Path, signer: str = "mq@firm.example") -> dict[str, str]:
    """Make a key to sign with by SSH, and a list of signers that knows it alone."""
    key = folder / "key"
    subprocess.run(
        ["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", "", "-f", str(key)],
        check=True,
    )
    public = key.with_suffix(".pub").read_text(encoding="utf-8")
    (folder / "signers").write_text(f"{signer} {public}", encoding="utf-8")
    return {
        "gpg.format": "ssh",
        "user.signingkey": str(key),
        "gpg.ssh.allowedSignersFile": str(folder / "signers"),
    }


def story(root: Path, keys: Path) -> Repository:
    """Tell the story of one job: three reports, two branches, a merge, a rename.

    The second report is signed with a key that is known, the third with another.
    """
    made = begun(root)
    made.edit(("state: final", "state: draft"))
    made.commit("Begin")
    made.edit(("state: draft", "state: final"))
    made.write(made.text() + entry(1, "first report", "2026-10-07"))
    made.commit("Give the first report")
    made.edit(("sludge: 11 in", "sludge: 14 in"))
    made.write(made.text() + entry(2, "correction: sludge misread", "2026-10-08"))
    (keys / "known").mkdir(parents=True)
    (keys / "other").mkdir()
    known = signing(keys / "known")
    made.settings |= known
    made.commit("Correct the sludge", "-S")
    made.settings.clear()
    made.edit(("state: final", "state: draft"))
    made.edit(("outlet_device_state: damaged", "outlet_device_state: sound"))
    made.commit("Go back after the repair")
    made.git("switch", "--quiet", "--create", "desk")
    made.edit(("ground: dry", "ground: moist"))
    made.commit("Add what the desk knows")
    made.git("switch", "--quiet", "main")
    made.edit(("  - tank to private well: 63 ft by tape\n", ""))
    made.commit("Drop a distance")
    made.days += 1
    made.git("merge", "--quiet", "--no-edit", "desk")
    made.edit(("state: draft", "state: final"))
    made.write(made.text() + entry(3, "second visit after repair", "2026-10-13"))
    made.settings |= signing(keys / "other", "someone@else.example")
    made.commit("Give the third report", "-S")
    made.settings.clear()
    made.git("mv", f"inspections/{JOB}.yaml", f"inspections/{RENAMED}.yaml")
    made.git("mv", f"inspections/{JOB}", f"inspections/{RENAMED}")
    made.commit("Call it by its road")
    made.settings |= known  # what the firm's machine knows
    for key, value in known.items():
        made.git("config", key, value)
    return made
