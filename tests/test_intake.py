"""Photographs are taken in as a person does it: by command, and by git's own hook."""

from __future__ import annotations

import io
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from generator.cli import main
from generator.intake import photographs, plain_name
from generator.record.load import Workspace
from generator.website import photos
from generator.website.intake import faults
from generator.website.intake_hook import TELLING, hook_text

ROOT = Path(__file__).resolve().parent.parent
JOB = "demo-larch-hollow"
CAMERA, GPS = 0x0110, 0x8825


def run(workspace: Workspace, *words: object) -> Result:
    arguments = ["--workspace", str(workspace.root), *map(str, words)]
    return CliRunner().invoke(main, arguments)


def shot(folder: Path, name: str, kind: str = "JPEG", color: str = "#887766") -> Path:
    """A photograph with a camera and a place in it."""
    photos.formats()
    exif = Image.Exif()
    exif[CAMERA] = "a camera that is named"
    exif[GPS] = {1: "N", 2: (46.0, 30.0, 15.0)}
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", (80, 60), color).save(path, kind, exif=exif)
    return path


def clean(folder: Path, name: str, kind: str = "JPEG") -> Path:
    path = folder / name
    Image.new("RGB", (80, 60), "#887766").save(path, kind)
    return path


def kind_of(path: Path) -> str:
    return str(Image.open(io.BytesIO(path.read_bytes())).format)


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


@pytest.fixture
def card(tmp_path: Path) -> Path:
    """A folder outside the workspace, as a telephone hands it over."""
    folder = tmp_path / "card"
    folder.mkdir()
    return folder


def test_a_jpeg_keeps_its_name(workspace: Workspace, card: Path) -> None:
    path = shot(card, "IMG 1.JPG")
    result = run(workspace, "intake", path)
    assert result.exit_code == 0
    assert result.output == f"{path} is taken in.\n"
    assert names(card) == ["IMG 1.JPG"]
    assert faults(path) == ()


@pytest.mark.parametrize("kind", ["HEIF", "PNG", "WEBP"])
def test_another_format_becomes_a_jpeg(
    workspace: Workspace, card: Path, kind: str
) -> None:
    path = shot(card, "IMG_1.HEIC", kind)
    result = run(workspace, "intake", path)
    assert result.output == f"{path} is taken in as IMG_1.jpg; IMG_1.HEIC is gone.\n"
    assert names(card) == ["IMG_1.jpg"]
    assert kind_of(card / "IMG_1.jpg") == "JPEG"
    assert faults(card / "IMG_1.jpg") == ()


def test_the_original_can_be_kept(workspace: Workspace, card: Path) -> None:
    path = shot(card, "IMG_1.HEIC", "HEIF")
    before = path.read_bytes()
    result = run(workspace, "intake", path, "--keep")
    assert result.output == f"{path} is taken in as IMG_1.jpg.\n"
    assert path.read_bytes() == before
    again = run(workspace, "intake", path, "--keep")
    assert again.output == f"{path} is there already as IMG_1.jpg.\n"


def test_a_heic_that_is_called_a_jpeg(workspace: Workspace, card: Path) -> None:
    path = shot(card, "IMG_1.jpg", "HEIF")
    assert run(workspace, "intake", path).exit_code == 0
    assert names(card) == ["IMG_1.jpg"]
    assert kind_of(path) == "JPEG"


@pytest.mark.parametrize(("name", "kind"), [("a.jpg", "JPEG"), ("a.png", "PNG")])
def test_a_picture_alone_is_left_as_it_is(
    workspace: Workspace, card: Path, name: str, kind: str
) -> None:
    path = clean(card, name, kind)
    before = path.read_bytes()
    result = run(workspace, "intake", path)
    assert result.output == f"{path} carries nothing but the picture already.\n"
    assert path.read_bytes() == before


def test_twice_is_once(workspace: Workspace, card: Path) -> None:
    path = shot(card, "a.jpg")
    run(workspace, "intake", path)
    once = path.read_bytes()
    run(workspace, "intake", path)
    assert path.read_bytes() == once


@pytest.mark.parametrize("other", ["IMG_1.jpg", "IMG_1.JPG"])
def test_in_place_never_over_another(
    workspace: Workspace, card: Path, other: str
) -> None:
    path, there = shot(card, "IMG_1.HEIC", "HEIF"), shot(card, other, color="red")
    before = there.read_bytes()
    result = run(workspace, "intake", path)
    assert result.exit_code == 1
    assert result.output == (
        f"{path}: There is another picture called {other} in card/.\n"
        "  Rename IMG_1.HEIC first, or take the other one away.\n"
        "1 problem; 0 photographs done.\n"
    )
    assert there.read_bytes() == before
    assert names(card) == sorted(["IMG_1.HEIC", other])


def test_into_a_job(workspace: Workspace, card: Path) -> None:
    one, two = shot(card, "Tank Open (2).HEIC", "HEIF"), shot(card, "IMG_7.JPG")
    result = run(workspace, "intake", "--job", JOB, one, two)
    assert result.exit_code == 0
    assert result.stdout == (
        "  - tank-open-2.jpg: what it shows\n  - img_7.jpg: what it shows\n"
    )
    assert result.stderr == (
        f"{one} is taken in as {JOB}/tank-open-2.jpg.\n"
        f"{two} is taken in as {JOB}/img_7.jpg.\n"
        'Write under "photos:" in the job file:\n'
    )
    folder = workspace.photo_folder(JOB)
    assert {"tank-open-2.jpg", "img_7.jpg"} <= set(names(folder))
    assert faults(folder / "img_7.jpg") == ()
    assert names(card) == ["IMG_7.JPG", "Tank Open (2).HEIC"]


def test_the_line_stands_in_the_job_file(workspace: Workspace, card: Path) -> None:
    result = run(workspace, "intake", "--job", JOB, shot(card, "IMG_7.JPG"))
    file = workspace.job_file(JOB)
    text = file.read_text(encoding="utf-8")
    assert text.count("\nphotos:\n") == 1
    file.write_text(text.replace("\nphotos:\n", f"\nphotos:\n{result.stdout}"), "utf-8")
    assert run(workspace, "check", JOB).output == f"{JOB}: no problems\n"


def test_into_a_job_without_a_folder(workspace: Workspace, card: Path) -> None:
    shutil.rmtree(workspace.photo_folder(JOB))
    run(workspace, "intake", "--job", f"inspections/{JOB}.yaml", shot(card, "a.jpg"))
    assert names(workspace.photo_folder(JOB)) == ["a.jpg"]


def test_the_same_again_is_there_already(workspace: Workspace, card: Path) -> None:
    path = shot(card, "IMG_7.JPG")
    run(workspace, "intake", "--job", JOB, path)
    result = run(workspace, "intake", "--job", JOB, path)
    assert result.exit_code == 0
    assert f"{path} is there already as {JOB}/img_7.jpg." in result.stderr
    assert result.stdout == "  - img_7.jpg: what it shows\n"


def test_into_a_job_never_over_another(workspace: Workspace, card: Path) -> None:
    path = shot(card, "Tank-Open.jpg")
    there = workspace.photo_folder(JOB) / "tank-open.jpg"
    before = there.read_bytes()
    result = run(workspace, "intake", "--job", JOB, path)
    assert result.exit_code == 1
    assert result.output == (
        f"{path}: There is another picture called tank-open.jpg in {JOB}/.\n"
        "  Rename Tank-Open.jpg first, or take the other one away.\n"
        "1 problem; 0 photographs done.\n"
    )
    assert there.read_bytes() == before


def test_two_of_one_name_at_once(workspace: Workspace, card: Path) -> None:
    one, two = shot(card, "IMG_1.JPG"), shot(card, "img_1.png", "PNG", "red")
    result = run(workspace, "intake", "--job", JOB, one, two)
    assert result.exit_code == 1
    assert result.stdout == "  - img_1.jpg: what it shows\n"
    assert f"{two}: There is another picture called img_1.jpg" in result.stderr
    assert result.stderr.endswith("1 problem; 1 photograph done.\n")


def test_an_original_in_the_folder_of_the_job_goes(workspace: Workspace) -> None:
    folder = workspace.photo_folder(JOB)
    path = shot(folder, "IMG_1.HEIC", "HEIF")
    result = run(workspace, "intake", "--job", JOB, path)
    assert f"as {JOB}/img_1.jpg; IMG_1.HEIC is gone." in result.stderr
    assert not path.exists()
    assert faults(folder / "img_1.jpg") == ()


@pytest.mark.parametrize("name", ["img_1.jpg", "IMG_1.JPG"])
def test_a_jpeg_in_the_folder_of_the_job(workspace: Workspace, name: str) -> None:
    path = shot(workspace.photo_folder(JOB), name)
    assert run(workspace, "intake", "--job", JOB, path).exit_code == 0
    found = [one for one in names(path.parent) if one.lower() == "img_1.jpg"]
    assert found == ["img_1.jpg"]
    assert faults(path.parent / "img_1.jpg") == ()


def test_a_clean_jpeg_is_copied_byte_for_byte(workspace: Workspace, card: Path) -> None:
    path = clean(card, "Lid.jpg")
    run(workspace, "intake", "--job", JOB, path)
    copy = workspace.photo_folder(JOB) / "lid.jpg"
    assert copy.read_bytes() == path.read_bytes()


def test_the_good_ones_are_done_and_all_problems_told(
    workspace: Workspace, card: Path
) -> None:
    good = shot(card, "good.jpg")
    words = card / "words.jpg"
    words.write_text("not a picture")
    film = card / "IMG_1.MOV"
    film.write_bytes(b"\0\0\0\x14ftypqt  " + bytes(60))
    link = card / "link.jpg"
    link.symlink_to(good)
    sign = shot(card, "井.jpg")
    missing = card / "none.heic"
    files = (words, film, link, missing, sign, good)
    result = run(workspace, "intake", "--job", JOB, *files)
    assert result.exit_code == 1
    assert result.stdout == "  - good.jpg: what it shows\n"
    told = sorted(
        [
            f'{words}: The file "words.jpg" is not a JPEG, PNG, WebP '
            "or HEIC picture.\n",
            f'{film}: The file "IMG_1.MOV" is a film; '
            "only a still picture can be taken.\n",
            f'{link}: "link.jpg" is a link; name the file itself.\n',
            f'{missing}: There is no file "none.heic".\n',
            f"{sign}: The name holds no letter and no digit that a job file can take.\n"
            "  Rename the file first.\n",
        ]
    )
    assert result.stderr.endswith("".join(told) + "5 problems; 1 photograph done.\n")


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write")
def test_a_folder_that_cannot_be_written(workspace: Workspace, card: Path) -> None:
    path = shot(card, "a.jpg")
    before = path.read_bytes()
    card.chmod(0o555)
    result = run(workspace, "intake", path)
    card.chmod(0o755)
    assert result.exit_code == 1
    assert "The picture cannot be written" in result.output
    assert path.read_bytes() == before


def test_a_full_disk_loses_nothing(
    workspace: Workspace, card: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = shot(card, "IMG_1.HEIC", "HEIF")

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    result = run(workspace, "intake", path)
    assert result.output == (
        f"{path}: The picture cannot be written: No space left on device.\n"
        "  See to the free space and the rights of the folder.\n"
        "1 problem; 0 photographs done.\n"
    )
    assert names(card) == ["IMG_1.HEIC"]


@pytest.mark.parametrize("job", ["no-such-job", "../out", "firm"])
def test_a_job_that_is_not(workspace: Workspace, card: Path, job: str) -> None:
    before = names(workspace.inspections)
    result = run(workspace, "intake", "--job", job, shot(card, "a.jpg"))
    assert result.exit_code == 1
    assert "Traceback" not in result.output
    assert names(workspace.inspections) == before


@pytest.mark.parametrize(
    "words", [(), ("--job", JOB), ("--check", "--keep"), ("--check", "--job", JOB)]
)
def test_wrong_use(workspace: Workspace, words: tuple[str, ...]) -> None:
    assert run(workspace, "intake", *words).exit_code == 2


def test_the_demonstrations_carry_pictures_alone(workspace: Workspace) -> None:
    result = run(workspace, "intake", "--check")
    assert (result.exit_code, result.output) == (
        0,
        "10 photographs looked at; nothing but pictures.\n",
    )


def test_check_looks_at_the_whole_workspace(workspace: Workspace) -> None:
    folder = workspace.photo_folder(JOB)
    kinds = {".heic": "HEIF", ".heif": "HEIF", ".png": "PNG", ".webp": "WEBP"}
    for ending in TELLING:
        shot(folder / "deeper", f"A{ending.upper()}", kinds.get(ending, "JPEG"))
    assert len(photographs(workspace)) == 10 + len(TELLING)
    before = {path: path.read_bytes() for path in photographs(workspace)}
    result = run(workspace, "intake", "--check")
    assert result.exit_code == 1
    assert result.output.count('\n  Run "onlot intake" on it.\n') == len(TELLING)
    assert result.output.endswith(f"{len(TELLING)} problems.\n")
    assert {path: path.read_bytes() for path in photographs(workspace)} == before


def test_check_of_files(workspace: Workspace, card: Path) -> None:
    good, bad = clean(card, "good.jpg"), shot(card, "bad.jpg")
    large = card / "large.jpg"
    Image.new("RGB", (3000, 20)).save(large)
    result = run(workspace, "intake", "--check", good, bad, large)
    assert result.exit_code == 1
    assert result.output == (
        f"{bad}: The picture carries a position and camera data.\n"
        '  Run "onlot intake" on it.\n'
        f"{large}: The picture is 3000 by 20 pixels; "
        "at most 2560 on the long side are kept.\n"
        '  Run "onlot intake" on it.\n'
        "2 problems.\n"
    )
    assert run(workspace, "intake", bad, large).exit_code == 0
    assert run(workspace, "intake", "--check", good, bad, large).exit_code == 0


def test_check_without_a_workspace(tmp_path: Path) -> None:
    result = run(Workspace(tmp_path), "intake", "--check")
    assert result.exit_code == 1
    assert "There is no folder inspections/ here." in result.output


def test_a_name_is_never_too_long() -> None:
    assert len(plain_name("a" * 200 + ".HEIC")) == 80
    assert plain_name("..hidden..jpg") == "hidden.jpg"


class Repository:
    """A git repository of its own, which runs the hook."""

    def __init__(self, root: Path) -> None:
        self.root = root
        home = {"HOME": str(root), "GIT_CONFIG_NOSYSTEM": "1", "PYTHONPATH": str(ROOT)}
        kept = {key: os.environ[key] for key in os.environ if key[:4] != "GIT_"}
        self.env = kept | home
        root.mkdir()
        self.git("init", "-q")
        self.git("config", "user.name", "A. Example (invented)")
        self.git("config", "user.email", "a@example.com")
        hook = root / ".git" / "hooks" / "pre-commit"
        hook.parent.mkdir(exist_ok=True)
        hook.write_text(hook_text(f"{shlex.quote(sys.executable)} -m generator"))
        hook.chmod(0o755)

    def git(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            ["git", *words],
            cwd=self.root,
            env=self.env,
            capture_output=True,
            text=True,
            check=False,
        )

    def commit(self) -> subprocess.CompletedProcess[str]:
        return self.git("commit", "-q", "-m", "a visit")


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    if not shutil.which("git"):
        pytest.skip("no git here")
    return Repository(tmp_path / "a firm's folder")


def test_the_hook_holds_a_commit_back(repository: Repository) -> None:
    shot(repository.root, "inspections/a job/IMG 1.JPG")
    repository.git("add", ".")
    held = repository.commit()
    assert held.returncode != 0
    assert (
        "inspections/a job/IMG 1.JPG: The picture carries a position and camera data."
        in held.stderr
    )
    assert repository.git("log").returncode != 0


def test_the_hook_looks_at_what_is_staged(repository: Repository) -> None:
    path = shot(repository.root, "lid.jpg")
    repository.git("add", ".")
    clean(repository.root, "lid.jpg")  # stripped after it was staged
    assert repository.commit().returncode != 0
    repository.git("add", ".")
    shot(repository.root, "lid.jpg", color="red")  # and changed, but not staged
    done = repository.commit()
    assert done.returncode == 0, done.stderr
    assert path.exists()


def test_the_hook_lets_all_else_pass(repository: Repository) -> None:
    (repository.root / "notes.txt").write_text("no picture")
    repository.git("add", ".")
    assert repository.commit().returncode == 0
    clean(repository.root, "lid.jpg")
    repository.git("add", ".")
    assert repository.commit().returncode == 0
    repository.git("rm", "-q", "lid.jpg")
    assert repository.commit().returncode == 0


def test_the_hook_knows_a_film(repository: Repository) -> None:
    film = repository.root / "IMG_1.MOV"
    film.write_bytes(b"\0\0\0\x14ftypqt  " + bytes(60))
    repository.git("add", ".")
    held = repository.commit()
    assert held.returncode != 0
    assert "is a film" in held.stderr


def test_a_job_may_name_a_picture_as_telephones_do(workspace: Workspace) -> None:
    shot(workspace.photo_folder(JOB), "IMG_0001.HEIC", "HEIF")
    file = workspace.job_file(JOB)
    line = "\nphotos:\n  - IMG_0001.HEIC: The lid (invented).\n"
    text = file.read_text(encoding="utf-8").replace("\nphotos:\n", line)
    file.write_text(text, encoding="utf-8")
    assert run(workspace, "check", JOB).output == f"{JOB}: no problems\n"
    built = run(workspace, "build", JOB)
    assert built.exit_code == 0, built.output
    published = list((workspace.root / "public").rglob("photo-*.jpg"))
    assert published
    assert all(faults(path) == () for path in published)
