"""A file is written whole, or the earlier one stays as it was."""

from __future__ import annotations

from pathlib import Path


def put(file: Path, content: bytes) -> None:
    """Write a file in place of an earlier one, at once.

    Parameters
    ----------
    file : pathlib.Path
        The file; its folder is made where it is missing.
    content : bytes
        All that the file is to hold.

    Raises
    ------
    OSError
        Where the disk or its rights refuse it; the earlier file is then as it was.
    """
    file.parent.mkdir(parents=True, exist_ok=True)
    draft = file.with_name(f".{file.name}.next")
    try:
        draft.write_bytes(content)
        draft.replace(file)
    finally:
        draft.unlink(missing_ok=True)  # where it was not taken over
