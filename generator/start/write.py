"""Write the content of a firm's private repository, and nothing over what is there."""

from __future__ import annotations

from pathlib import Path

from generator import __version__
from generator.atomic import put
from generator.problems import Problem, Refused
from generator.shipped import shipped
from generator.website.intake_hook import hook_text

FILES = Path(__file__).parent / "files"
PLACES = {
    "README.md": "README.md",
    "requirements.txt": "requirements.txt",
    "gitignore": ".gitignore",
    "mkdocs.yml": "mkdocs.yml",
    "firm.yaml": "inspections/firm.yaml",
    "example.yaml": "inspections/example.yaml",
    "github.yml": ".github/workflows/reports.yml",
    "gitlab.yml": ".gitlab-ci.yml",
}
SCHEMAS = ("schemas/inspection.schema.json", "schemas/firm.schema.json")
HOOK_PLACE = ".githooks/pre-commit"
RUNNABLE = 0o755


def start(folder: Path) -> list[str]:
    """Write a workspace: firm file, example, pipelines, hook, schemas for the editor.

    Parameters
    ----------
    folder : pathlib.Path
        The folder, made if it is not there. What else it holds stays.

    Returns
    -------
    list of str
        What was written, by its place in the folder.

    Raises
    ------
    generator.problems.Refused
        Where a file of the same name is there with other content; nothing is written
        then. Or where the folder cannot be written to.
    """
    texts = _texts()
    try:
        problems = [
            one for place in texts if (one := _in_the_way(folder, place, texts))
        ]
        if problems:
            raise Refused(problems)
        for place, text in texts.items():
            put(folder / place, text.encode("utf-8"))
        (folder / HOOK_PLACE).chmod(RUNNABLE)
    except OSError as error:
        message = f"The folder cannot be written here: {error.strerror}."
        hint = "See to the free space and the rights of the folder around it."
        raise Refused([Problem(str(folder), 0, "", message, hint)]) from None
    return list(texts)


def _texts() -> dict[str, str]:
    texts = {
        place: (FILES / name).read_text(encoding="utf-8")
        for name, place in PLACES.items()
    }
    texts["requirements.txt"] = texts["requirements.txt"].format(version=__version__)
    texts |= {name: shipped(name).read_text(encoding="utf-8") for name in SCHEMAS}
    return texts | {HOOK_PLACE: hook_text()}


def _in_the_way(folder: Path, place: str, texts: dict[str, str]) -> Problem | None:
    target = folder / place
    if not target.exists() and not target.is_symlink():
        return None
    same = target.is_file() and target.read_bytes() == texts[place].encode("utf-8")
    if same and not target.is_symlink():
        return None
    message = "This is there already, and is not what would be written."
    return Problem(place, 0, "", message, "Name an empty folder, or move it away.")
