"""A file becomes text in which everything can be seen, or a sentence on why not."""

from __future__ import annotations

import re
from functools import partial
from pathlib import Path
from stat import S_ISREG

from generator.problems import Problem, Refused

LARGEST_FILE_BYTES = 1024 * 1024  # our choice; a full job file is near 10 KB
_CONTROL = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufff9-\ufffb"
    "\ufffe\uffff]"
)
_INVISIBLE = re.compile(
    "[\u00ad\u034f\u061c\u115f\u1160\u180e\u200b-\u200f\u202a-\u202e\u2060-\u206f"
    "\u3164\ufeff\uffa0\U000e0000-\U000e007f]"
)
_UNSEEN = ((_CONTROL, "a control"), (_INVISIBLE, "an invisible"))


def raw(path: Path, file: str) -> bytes:
    """Take the content of a file that may be a job file, or refuse.

    Parameters
    ----------
    path : pathlib.Path
        The file.
    file : str
        Its name in problems.

    Returns
    -------
    bytes
        Its content; of one that is too large, enough to tell so.
    """
    try:
        if not S_ISREG(path.stat().st_mode):  # a pipe would never end
            raise _refused(file, 0, "This is not a file.", "Put the file itself there.")
        with path.open("rb") as stream:
            return stream.read(LARGEST_FILE_BYTES + 1)
    except FileNotFoundError:
        raise _refused(file, 0, "There is no such file.", "Check the name.") from None
    except OSError as error:
        message = f"The file cannot be read: {error.strerror}."
        raise _refused(file, 0, message) from None


def _refused(file: str, line: int, message: str, hint: str = "") -> Refused:
    return Refused([Problem(file, line, "", message, hint)])


def decoded(content: bytes, file: str) -> str:
    """Make text of a content, its lines ended in one way, or refuse.

    Parameters
    ----------
    content : bytes
        What the file holds.
    file : str
        Its name in problems.

    Returns
    -------
    str
        Text without a control or an invisible character.
    """
    refuse = partial(_refused, file)
    if len(content) > LARGEST_FILE_BYTES:
        raise refuse(
            0, "The file is over 1 MiB.", "Keep pictures in files of their own."
        )
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise refuse(
            line, "The file is not UTF-8 text.", 'Save it again as "UTF-8".'
        ) from None
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if unseen := unseen_in(text):
        name, match = unseen
        line = text.count("\n", 0, match.start()) + 1
        raise refuse(
            line,
            f"There is {name} in this line.",
            "Delete the line and type it again.",
        )
    return text


def unseen_in(text: str) -> tuple[str, re.Match[str]] | None:
    """Find a character that nobody sees, and name it."""
    for pattern, name in _UNSEEN:
        if match := pattern.search(text):
            return f"{name} character (U+{ord(match[0]):04X})", match
    return None
