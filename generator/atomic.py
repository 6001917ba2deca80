"""A file is written whole, or the earlier one stays as it was."""

from __future__ import annotations

import secrets
import shutil
from pathlib import Path


def put(file: Path, content: bytes, *, shared: bool = False) -> None:
    """Write a file in place of an earlier one, at once.

    Parameters
    ----------
    file : pathlib.Path
        The file; its folder is made where it is missing.
    content : bytes
        All that the file is to hold.
    shared : bool
        Whether several processes may write this file at the same time; a draft that a
        killed one leaves then has a name of its own, and somebody must take it away.

    Raises
    ------
    OSError
        Where the disk or its rights refuse it; the earlier file is then as it was.
    """
    file.parent.mkdir(parents=True, exist_ok=True)
    own = f".{secrets.token_hex(8)}" if shared else ""
    draft = file.with_name(f".{file.name}{own}.next")
    try:
        draft.write_bytes(content)
        draft.replace(file)
    finally:
        draft.unlink(missing_ok=True)  # where it was not taken over


def make_way(file: Path) -> None:
    """Take away what stands where a file of ours is to be, and is no file.

    Parameters
    ----------
    file : pathlib.Path
        The file, in a folder of ours: a folder, a link or a pipe in its place goes, and
        so does whatever is no folder in the place of the folder.

    Raises
    ------
    OSError
        Where the disk or its rights refuse it.
    """
    if not file.parent.is_dir():
        file.parent.unlink(missing_ok=True)
    elif file.is_dir() and not file.is_symlink():
        shutil.rmtree(file)
    elif file.is_symlink() or not file.is_file():
        file.unlink(missing_ok=True)
