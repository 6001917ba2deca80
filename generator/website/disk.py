"""What was written has reached the disk before the next step begins."""

from __future__ import annotations

import errno
import hashlib
import os
import sys
from pathlib import Path

NOT_OFFERED = {errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP}


def settle(folder: Path) -> None:
    """Have the system write all of a folder to the disk before we go on.

    Parameters
    ----------
    folder : pathlib.Path
        The folder, with everything in it.

    Raises
    ------
    OSError
        Where the disk does not take it.
    """
    if sys.platform == "linux":
        os.sync()  # waits like fsync on every file (sync(2)), and is far quicker
        return
    for path in (folder, *folder.rglob("*"), folder.parent):
        sync(path)


def sync(path: Path) -> None:
    """Have the system write one file, or the names in one folder, to the disk.

    Parameters
    ----------
    path : pathlib.Path
        The file or folder; nothing is done where it is not there.

    Raises
    ------
    OSError
        Where the disk does not take it. A file system that knows no such request for
        a folder is left to its own order.
    """
    is_folder = path.is_dir()
    if not path.exists() or (is_folder and os.name != "posix"):
        return
    handle = os.open(path, os.O_RDONLY if is_folder else os.O_RDWR)
    try:
        os.fsync(handle)
    except OSError as error:
        if not is_folder or error.errno not in NOT_OFFERED:
            raise
    finally:
        os.close(handle)


def digest(path: Path) -> str:
    """Give the SHA-256 of a file, or of all files of a folder with their names.

    Parameters
    ----------
    path : pathlib.Path
        The file or folder.

    Returns
    -------
    str
        In hexadecimal; empty where nothing is there.
    """
    if path.is_file():
        return hashlib.sha256(path.read_bytes()).hexdigest()
    if not path.is_dir():
        return ""
    whole = hashlib.sha256()
    for file in sorted(path.rglob("*")):
        if file.is_file():
            told = file.relative_to(path).as_posix().encode("utf-8")
            inside = hashlib.sha256(file.read_bytes()).digest()
            whole.update(b"%d:%s%s" % (len(told), told, inside))
    return whole.hexdigest()
