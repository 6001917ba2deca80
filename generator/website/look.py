"""The firm's own colors, laid over the look that onlot brings."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import yaml

from generator.problems import Problem, Refused

LOOKS = "looks"  # below build/: one for each job, since an earlier report has its own
FIRM_LOOK = "mkdocs.yml"
MAY_SET = "theme.palette"  # anything else could load or run what pages must not


def base_config(root: Path, ours: Path, folder: Path) -> Path:
    """Give the settings that every page tree inherits.

    Parameters
    ----------
    root : Path
        The firm's folder, whose ``mkdocs.yml`` may set ``theme.palette``.
    ours : Path
        The settings that onlot brings.
    folder : Path
        Where the two are put together, in a file of its own.

    Returns
    -------
    Path
        Our own settings where the firm's file adds nothing.

    Raises
    ------
    generator.problems.Refused
        Where the firm's file cannot be read, or sets anything else.
    """
    file = root / FIRM_LOOK
    if not file.is_file() or file.read_bytes() == ours.read_bytes():
        return ours
    palette = _palette(file)
    if palette is None:
        return ours
    folder.mkdir(parents=True, exist_ok=True)
    both = {
        "INHERIT": Path(os.path.relpath(ours.resolve(), folder.resolve())).as_posix(),
        "theme": {"palette": palette},
    }
    target = folder / "look.yml"
    target.write_bytes(yaml.safe_dump(both, sort_keys=False).encode("ascii"))
    return target


def _palette(file: Path) -> Any:
    try:
        found = yaml.safe_load(file.read_bytes())
    except (yaml.YAMLError, ValueError) as error:
        line = getattr(getattr(error, "problem_mark", None), "line", -1) + 1
        raise _refusal("This file is not YAML that can be read.", line) from None
    if found is None:
        return None
    match found:
        case {"theme": {"palette": palette, **more}, **rest} if not (more or rest):
            return palette
    raise _refusal(f"Only {MAY_SET} can stand in this file.")


def _refusal(message: str, line: int = 0) -> Refused:
    hint = "Take the rest out; leave the file empty to keep onlot's own colors."
    return Refused([Problem(FIRM_LOOK, line, "", message, hint)])
