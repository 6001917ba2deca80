"""Two folders change places in one step, where the system can do that."""

from __future__ import annotations

import ctypes
import os
import sys
from pathlib import Path

from generator.website.disk import NOT_OFFERED

LINUX_HERE = -100  # AT_FDCWD in <fcntl.h>: paths are taken as they are
LINUX_EXCHANGE = 2  # RENAME_EXCHANGE in <linux/fs.h>; renameat2(2), Linux 3.15
MACOS_SWAP = 2  # RENAME_SWAP in <sys/stdio.h>; renamex_np(2), macOS 10.12


def exchange(first: Path, second: Path) -> bool:
    """Let two folders of one file system change places, or leave both as they are.

    Parameters
    ----------
    first : Path
        A folder.
    second : Path
        Another folder.

    Returns
    -------
    bool
        True when they changed places; False when this system, or this file system,
        offers no way to do so in one step.

    Raises
    ------
    OSError
        If the system offers it and it failed.
    """
    paths = os.fsencode(first), os.fsencode(second)
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            failed = library.renamex_np(*paths, ctypes.c_uint(MACOS_SWAP))
        else:
            here = ctypes.c_int(LINUX_HERE)
            flags = ctypes.c_uint(LINUX_EXCHANGE)
            failed = library.renameat2(here, paths[0], here, paths[1], flags)
    except (AttributeError, TypeError, OSError):  # no such call in the C library
        return False
    if not failed:
        return True
    number = ctypes.get_errno()
    if number in NOT_OFFERED:
        return False
    raise OSError(number, os.strerror(number), str(first), None, str(second))
